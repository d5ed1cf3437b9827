package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cell"
	"lugmark/core/circuit"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

var sayAssumedRush = say.Phrase{Key: "assumed.rush-resistance", English: "Block resistances were not all measured: {low} to {high} assumed from the capacity."}

// A resistance measured over ten seconds is up to twice what the first instant
// sees. Engineering choice; from memory.
const firstInstant = 2

// joinParts: the bank where strings stand in parallel, each group where blocks
// do.
func joinParts(f *Facts) ([]string, say.Line) {
	l := f.Layout()
	if l.Parallel < 2 {
		return nil, sayParallelNone.With()
	}
	if l.Join == bank.JoinGroups {
		return onUnits(f)
	}
	return []string{"bank"}, say.Line{}
}

// joinSide is one of the things that are put side by side: a string or a block.
type joinSide struct {
	part string
	ohms measure.Interval[unit.Ohm]
}

// joinVolts is the difference of two sides of a join, by their place in it.
type joinVolts func(a, b int) measure.Reading[unit.Volt]

// meeting is what one side meets when it is joined to the others.
type meeting struct {
	side    int
	far     measure.Reading[unit.Volt] // the largest difference to any other
	loop    unit.Ohm                   // lowest resistance of the whole way, the joining lead left out
	current measure.Interval[unit.Ampere]
}

// meetings gives, for each side, the first current when it alone is joined to
// any of the others or to all of them. The upper end takes the furthest of the
// others and all of them in parallel, the lower end the nearest and one of
// them alone, so that the order of joining does not matter. False when a
// resistance is not above zero.
func meetings(sides []joinSide, volts joinVolts, lead unit.Ohm) ([]meeting, bool) {
	var out []meeting
	for k, s := range sides {
		m := meeting{side: k}
		var others []circuit.Branch
		var near measure.Reading[unit.Volt]
		highest, above, below := unit.Ohm(0), false, false
		for j, o := range sides {
			if j == k {
				continue
			}
			d := volts(k, j)
			above, below = above || d.Value > 0, below || d.Value < 0
			d.Value = max(d.Value, -d.Value)
			if len(others) == 0 || d.Value+d.U > m.far.Value+m.far.U {
				m.far = d
			}
			if len(others) == 0 || d.Value-d.U < near.Value-near.U {
				near = d
			}
			highest = max(highest, o.ohms.High)
			others = append(others, circuit.Branch{R: o.ohms.Low})
		}
		rest, ok := circuit.Together(others)
		if !ok || !(s.ohms.Low > 0) {
			return nil, false
		}
		if above && below { // the others may settle just where this one stands
			near = measure.Reading[unit.Volt]{}
		}
		m.loop = s.ohms.Low + rest.R
		upper, ok1 := circuit.JoinCurrent(m.far, measure.Interval[unit.Ohm]{Low: m.loop + lead, High: m.loop + lead})
		lowEnd := s.ohms.High + highest + lead
		lower, ok2 := circuit.JoinCurrent(near, measure.Interval[unit.Ohm]{Low: lowEnd, High: lowEnd})
		if !ok1 || !ok2 {
			return nil, false
		}
		m.current = measure.Interval[unit.Ampere]{Low: min(lower.Low, upper.High), High: upper.High}
		out = append(out, m)
	}
	return out, true
}

// rushOhms bounds the resistance that the first instant of a join sees, over
// the blocks of a string or of one block. What is missing is said by the
// capacity.
func (f *Facts) rushOhms(blocks []string) (r measure.Interval[unit.Ohm], rated stated[unit.AmpereHour], ok bool) {
	for _, b := range blocks {
		if measured, has := blockR.Plain(f, b); has {
			r.Low += measured / firstInstant
			r.High += measured
			continue
		}
		rated = f.capacity(b)
		span, known := cell.Resistance(rated.Value)
		if !rated.All() || !known {
			return r, rated, false
		}
		f.assume(sayAssumedRush.With("low", rounded(span.Low, "mOhm"), "high", rounded(span.High, "mOhm")))
		r.Low += span.Low
		r.High += span.High
	}
	return r, rated, true
}

// joinDifferences gives the differences between the sides of a join: from the
// gaps where all were read, else from the resting voltages or the totals.
func (f *Facts) joinDifferences(part string) (parts []string, volts joinVolts, missing *joinLack) {
	complete := false
	f.quietly(func() {
		_, over, lack := f.gapRun(part)
		complete = over == "" && lack == nil && !f.matchFails(part) // of two that contradict, the larger counts
	})
	if complete {
		run, _, _ := f.gapRun(part)
		for _, o := range run {
			parts = append(parts, o.part)
		}
		if link, on := f.closedDuring(run, f.stringsStand(part)); on {
			return parts, nil, &joinLack{link: link}
		}
		return parts, func(a, b int) measure.Reading[unit.Volt] { return between(f, run[a], run[b]) }, nil
	}
	run, lack := f.matchRun(part)
	if lack != nil {
		return nil, nil, &joinLack{lack: lack}
	}
	for _, s := range run {
		parts = append(parts, s.part)
	}
	if link, on := f.joinedDuring(run); on {
		return parts, nil, &joinLack{link: link}
	}
	drift, closed := f.closing(run)
	if !closed {
		x := finding.CannotTell(sayMatchLong.With(), sayCloseNext.With())
		return parts, nil, &joinLack{lack: &x}
	}
	return parts, func(a, b int) measure.Reading[unit.Volt] { return difference(f, run[a].shown, run[b].shown, drift) }, nil
}
