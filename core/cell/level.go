package cell

import (
	"math"
	"sort"

	"lugmark/core/measure"
	"lugmark/core/unit"
)

// ProductSpread is added to the uncertainty of every resting voltage: generic
// curves of two small cells lie 37 to 43 mV apart on the flat part of a block.
const ProductSpread unit.Volt = 0.050

// A level is read from the curve only between these temperatures. Below
// freezing the gap between the branches grows to some 400 mV.
const (
	ColdestLevel unit.Celsius = 0
	HottestLevel unit.Celsius = 45
)

// The flat part of a block's curve: voltages that agree here do not prove equal
// charge.
const (
	FlatFrom unit.Volt = 13.10
	FlatTo   unit.Volt = 13.45
)

// OnFlat reports whether a resting voltage may lie on the flat part of the
// curve: whether any of v ± U does. A voltage that is not a number may.
func OnFlat(v measure.Reading[unit.Volt]) bool {
	return !(v.Value+v.U < FlatFrom || v.Value-v.U > FlatTo)
}

// Level is the lowest and the highest state of charge [%] that a rested block
// of this voltage can have:
//
//	z_lo = u_rising⁻¹((V − U′)/4)   z_hi = u_falling⁻¹((V + U′)/4)   U′ = U + 50 mV
//
// It holds for a block that has rested, between [ColdestLevel] and
// [HottestLevel]; the caller has to know both. False for a voltage that no
// rested block shows: a protection that is open, probes reversed, or a block
// still charging. See cite.OpenOCV.
func Level(v measure.Reading[unit.Volt]) (measure.Interval[unit.Percent], bool) {
	return span(v.Value, v.U+ProductSpread)
}

// span is Level with all of the uncertainty in u.
func span(v, u unit.Volt) (measure.Interval[unit.Percent], bool) {
	low, high := float64(v-u)/Cells, float64(v+u)/Cells
	if !known(v) || !known(u) || u < 0 || high < curve[0].falling || low > curve[len(curve)-1].rising {
		return measure.Interval[unit.Percent]{}, false
	}
	return measure.Interval[unit.Percent]{
		Low:  unit.Percent(lowestAt(low)),
		High: unit.Percent(highestAt(high)),
	}, true
}

// lowestAt is the lowest percent at which the rising branch reaches volts.
func lowestAt(volts float64) float64 {
	i := sort.Search(len(curve), func(i int) bool { return curve[i].rising >= volts })
	switch i {
	case 0:
		return curve[0].percent
	case len(curve):
		return curve[i-1].percent
	}
	a, b := curve[i-1], curve[i]
	return a.percent + (b.percent-a.percent)*(volts-a.rising)/(b.rising-a.rising)
}

// highestAt is the highest percent at which the falling branch is still at or
// below volts.
func highestAt(volts float64) float64 {
	i := sort.Search(len(curve), func(i int) bool { return curve[i].falling > volts })
	switch i {
	case 0:
		return curve[0].percent
	case len(curve):
		return curve[i-1].percent
	}
	a, b := curve[i-1], curve[i]
	return a.percent + (b.percent-a.percent)*(volts-a.falling)/(b.falling-a.falling)
}

// Outward rounds a level to whole percent, the low end down and the high end
// up: more digits than that would claim too much.
func Outward(z measure.Interval[unit.Percent]) measure.Interval[unit.Percent] {
	return measure.Interval[unit.Percent]{
		Low:  unit.Percent(math.Floor(float64(z.Low))),
		High: unit.Percent(math.Ceil(float64(z.High))),
	}
}

// Slope is how much the resting voltage of a block rises for each percent of
// charge between two levels [V per %], as the mean of both branches. False
// unless 0 ≤ low < high ≤ 100.
func Slope(low, high unit.Percent) (unit.Volt, bool) {
	if !(low >= 0 && low < high && high <= 100) {
		return 0, false
	}
	rise := middle(float64(high)) - middle(float64(low))
	return unit.Volt(Cells * rise / float64(high-low)), true
}

// middle is the mean of both branches at a percent from 0 to 100 [V per cell].
func middle(percent float64) float64 {
	i := sort.Search(len(curve), func(i int) bool { return curve[i].percent >= percent })
	b := curve[i]
	if i == 0 {
		return (b.falling + b.rising) / 2
	}
	a := curve[i-1]
	f := (percent - a.percent) / (b.percent - a.percent)
	return (a.falling + a.rising + f*(b.falling+b.rising-a.falling-a.rising)) / 2
}
