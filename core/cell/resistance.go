package cell

import (
	"lugmark/core/measure"
	"lugmark/core/unit"
)

// Resistance of a block that nobody measured, in ohm ampere-hours: divided by
// the rated capacity it is the resistance. All of them are our rule.
const (
	lowestOhmAh  = 0.140 // half of the low end that good blocks show in ten seconds
	lowerOhmAh   = 0.400 // a good block
	highestOhmAh = 1.200 // the far end of the range
	inrushOhmAh  = 0.200 // for the current into empty capacitors
)

// Floor is the lowest resistance that a block is credited with in a fault,
// however large it is.
const Floor unit.Ohm = 0.0006

// ColdFactor raises the highest resistance at −20 °C.
const ColdFactor unit.Ratio = 3

// Resistance is the lowest and the highest resistance of a block of this
// capacity [Ω], where no resistance was entered. False when the capacity is not
// above zero.
func Resistance(capacity unit.AmpereHour) (measure.Interval[unit.Ohm], bool) {
	return between(lowestOhmAh, highestOhmAh, capacity)
}

// ShareResistance is the pair of resistances for which the division of current
// is worked out where nobody measured [Ω]: all blocks at the one, then all
// blocks at the other. The lower the blocks, the more the links decide.
func ShareResistance(capacity unit.AmpereHour) (measure.Interval[unit.Ohm], bool) {
	return between(lowerOhmAh, highestOhmAh, capacity)
}

// FaultResistance is as [Resistance], the protection left out and the low end
// never below [Floor]: the low end gives the largest fault current, the high
// end the smallest.
func FaultResistance(capacity unit.AmpereHour) (measure.Interval[unit.Ohm], bool) {
	r, ok := between(lowestOhmAh, highestOhmAh, capacity)
	if !ok {
		return r, false
	}
	r.Low = max(r.Low, Floor)
	r.High = max(r.High, r.Low)
	return r, true
}

// InrushResistance is what a block is credited with when a switch closes on
// capacitors that are not quite full [Ω].
func InrushResistance(capacity unit.AmpereHour) (unit.Ohm, bool) {
	r, ok := between(inrushOhmAh, inrushOhmAh, capacity)
	return r.Low, ok
}

func between(low, high float64, capacity unit.AmpereHour) (measure.Interval[unit.Ohm], bool) {
	if !known(capacity) || capacity <= 0 {
		return measure.Interval[unit.Ohm]{}, false
	}
	return measure.Interval[unit.Ohm]{
		Low:  unit.Ohm(low / float64(capacity)),
		High: unit.Ohm(high / float64(capacity)),
	}, true
}
