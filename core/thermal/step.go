package thermal

import (
	"math"
	"slices"

	"lugmark/core/unit"
)

// Sample is the charge current at one moment [s] from any start.
type Sample struct {
	At      unit.Second
	Current unit.Ampere
}

const (
	// The medians of two windows of this length, one after the other, are
	// compared.
	window unit.Second = 60
	// A step counts once the current has stayed up for so long.
	held unit.Second = 120
	// It must be larger than this part of the heater's current,
	leastStep = 0.3
	// and than the noise: 1.4826 turns the median of the deviations into a
	// standard deviation, and of a median of n readings one keeps six times
	// √(2/n) clear of it.
	noiseTimes, deviation = 6, 1.4826
)

// HandsOver finds where the heater hands over to the charge: the first sample
// of the higher current. It looks at the current alone. A condition on
// temperature would hide the very case that matters, a charge that starts while
// the cells are cold.
//
//	ΔI = median after − median before > max(0.3·I_heater, 6·1.4826·MAD·√(2/n))
//
// held for 120 s. Samples stand in the order of their times. False when there
// is no such step.
func HandsOver(trace []Sample, heater unit.Ampere) (at int, found bool) {
	if !positive(heater) {
		return 0, false
	}
	for i := 1; i < len(trace); i++ {
		before, after := upTo(trace[:i]), from(trace[i:], window)
		low, high := median(before), median(after)
		n := min(len(before), len(after))
		noise := noiseTimes * deviation * math.Max(mad(before, low), mad(after, high)) * math.Sqrt(2/float64(n))
		least := math.Max(leastStep*float64(heater), noise)
		if high-low > least && stays(trace[i:], low+least) {
			return i, true
		}
	}
	return 0, false
}

// upTo gives the currents of the last window of a trace, at least its last one.
func upTo(trace []Sample) (out []float64) {
	last := trace[len(trace)-1].At
	for _, s := range trace {
		if last-s.At < window {
			out = append(out, float64(s.Current))
		}
	}
	return out
}

// from gives the currents of the first so many seconds, at least the first one.
func from(trace []Sample, length unit.Second) (out []float64) {
	for _, s := range trace {
		if s.At-trace[0].At < length {
			out = append(out, float64(s.Current))
		}
	}
	return out
}

// stays reports whether the current is above least from the first sample until
// it has been for the time that counts.
func stays(trace []Sample, least float64) bool {
	for _, s := range trace {
		if float64(s.Current) <= least {
			return false
		}
		if s.At-trace[0].At >= held {
			return true
		}
	}
	return false
}

// median of at least one value.
func median(list []float64) float64 {
	x := slices.Sorted(slices.Values(list))
	n := len(x)
	if n%2 == 1 {
		return x[n/2]
	}
	return (x[n/2-1] + x[n/2]) / 2
}

// mad is the median of the distances from the median.
func mad(list []float64, middle float64) float64 {
	var d []float64
	for _, x := range list {
		d = append(d, math.Abs(x-middle))
	}
	return median(d)
}
