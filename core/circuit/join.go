package circuit

import (
	"math"

	"lugmark/core/measure"
	"lugmark/core/unit"
)

// Together is what branches on one pair of bars are, seen from outside:
//
//	E = Σ(E_i/R_i) / Σ(1/R_i)   R = 1 / Σ(1/R_i)      (Millman)
//
// E is also the voltage on which they settle without a load. Open branches do
// not count; false when none is left or one has no resistance.
func Together(branches []Branch) (Branch, bool) {
	var current, conductance float64
	for _, b := range branches {
		if b.Open {
			continue
		}
		if !positive(b.R) || !finite(b.EMF) {
			return Branch{}, false
		}
		current += float64(b.EMF) / float64(b.R)
		conductance += 1 / float64(b.R)
	}
	if conductance == 0 {
		return Branch{}, false
	}
	return Branch{EMF: unit.Volt(current / conductance), R: unit.Ohm(1 / conductance)}, true
}

// JoinCurrent is the first current between two sides [A], whichever way it
// flows:
//
//	I_hi = (|D| + U) / ΣR_lo   I_lo = max(0, |D| − U) / ΣR_hi
//
// gap is the voltage D across the open link with its uncertainty; loop is the
// lowest and the highest resistance of both sides and the lead together. The
// first instant sees the ohmic resistance, which is lower than that of a 10 s
// step; the caller has to bring it. False when U is negative or the lowest
// resistance is not above zero.
func JoinCurrent(gap measure.Reading[unit.Volt], loop measure.Interval[unit.Ohm]) (measure.Interval[unit.Ampere], bool) {
	if !finite(gap.Value) || !finite(gap.U) || gap.U < 0 || !positive(loop.Low) || !(loop.High >= loop.Low) {
		return measure.Interval[unit.Ampere]{}, false
	}
	size := math.Abs(float64(gap.Value))
	return measure.Interval[unit.Ampere]{
		Low:  unit.Ampere(max(0, size-float64(gap.U)) / float64(loop.High)),
		High: unit.Ampere((size + float64(gap.U)) / float64(loop.Low)),
	}, true
}

// JoinCurrents bounds the first current of each of many branches that are
// joined at once [A], by size. u is the uncertainty of the difference of any
// two of their voltages; low and high are the resistance of each with its lead.
//
// Seen from branch k the others are one source, whose voltage lies between
// their lowest and their highest (Millman), and whose resistance is that of all
// of them in parallel. The upper end takes the far edge, the lower end the near
// one, so the true current lies inside whatever the resistances are.
// False as for [JoinCurrent], or with fewer than two branches.
func JoinCurrents(rest []unit.Volt, u unit.Volt, low, high []unit.Ohm) ([]measure.Interval[unit.Ampere], bool) {
	if len(rest) < 2 || len(low) != len(rest) || len(high) != len(rest) {
		return nil, false
	}
	spans := make([]measure.Interval[unit.Ampere], len(rest))
	for k := range rest {
		var least, most float64 // conductance of the others together [S]
		lowest, highest := math.Inf(1), math.Inf(-1)
		for j := range rest {
			if j == k {
				continue
			}
			least, most = least+1/float64(high[j]), most+1/float64(low[j])
			lowest, highest = min(lowest, float64(rest[j])), max(highest, float64(rest[j]))
		}
		e := float64(rest[k])
		far := max(e-lowest, highest-e)
		near := max(0, e-highest, lowest-e)
		loop := measure.Interval[unit.Ohm]{Low: low[k] + unit.Ohm(1/most), High: high[k] + unit.Ohm(1/least)}
		upper, ok := JoinCurrent(measure.Reading[unit.Volt]{Value: unit.Volt(far), U: u}, loop)
		lower, ok2 := JoinCurrent(measure.Reading[unit.Volt]{Value: unit.Volt(near), U: u}, loop)
		if !ok || !ok2 || !positive(low[k]) {
			return nil, false
		}
		spans[k] = measure.Interval[unit.Ampere]{Low: lower.Low, High: upper.High}
	}
	return spans, true
}

// AddedResistance is the least resistance of a joining lead [Ω] that keeps the
// first current within limit:
//
//	R_add = (|D| + U) / I_limit − ΣR_lo, never below 0
//
// False when limit or lowest is not above zero.
func AddedResistance(gap measure.Reading[unit.Volt], lowest unit.Ohm, limit unit.Ampere) (unit.Ohm, bool) {
	if !positive(limit) || !positive(lowest) || !finite(gap.Value) || !finite(gap.U) || gap.U < 0 {
		return 0, false
	}
	need := (math.Abs(float64(gap.Value))+float64(gap.U))/float64(limit) - float64(lowest)
	return unit.Ohm(max(0, need)), true
}

// VoltPerAmpereHour is how much a block's resting voltage rises with its
// charge.
type VoltPerAmpereHour float64

// Settle is how two joined blocks drift together while both stay on a straight
// part of their curve:
//
//	τ = ΣR / (s_1 + s_2)   Q = |D| / (s_1 + s_2)
//
// After 3τ 95 % of Q has moved. Hysteresis makes the true Q smaller, down to
// nothing: use it for a plausible waiting time, never as proof of equal charge.
// False when the loop has no resistance or the slopes do not sum above zero.
func Settle(gap unit.Volt, loop unit.Ohm, s1, s2 VoltPerAmpereHour) (tau unit.Second, moved unit.AmpereHour, ok bool) {
	slope := float64(s1 + s2)
	if !positive(loop) || !positive(slope) || !finite(gap) {
		return 0, 0, false
	}
	const secondsPerHour = 3600
	return unit.Second(secondsPerHour * float64(loop) / slope), unit.AmpereHour(math.Abs(float64(gap)) / slope), true
}
