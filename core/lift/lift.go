// Package lift is the revised NIOSH lifting equation: what one person should
// lift at most, given where the hands are.
//
// It knows two hands on a load that does not slip or swing, on a floor that
// holds. It judges nothing and knows no blocks. Formula and limits as public
// handbooks give them, see cite.NIOSHLift; the table for frequent lifts is from
// memory.
package lift

import (
	"math"

	"lugmark/core/unit"
)

// Grip is how well the hands hold. The zero Grip is the worst.
type Grip uint8

const (
	Poor Grip = iota // smooth sides
	Fair             // edges or straps
	Good             // handles
)

// Lift is one way of lifting. Twist and PerMinute may be zero; a reach or a
// height that is not known may not.
type Lift struct {
	Reach     unit.Metre // hands in front of the middle of the ankles
	Height    unit.Metre // hands above the floor
	Travel    unit.Metre // up or down
	Twist     float64    // of the body out of straight ahead [degrees]
	PerMinute float64    // lifts, for an hour at most; below 0.2 counts as 0.2
	Grip      Grip
}

// loadConstant is what may be lifted where everything else is ideal.
const loadConstant unit.Kilogram = 23

// Outside these a load should not be lifted by hand at all.
const (
	nearest, farthest unit.Metre = 0.25, 0.63
	highest           unit.Metre = 1.75
	best              unit.Metre = 0.75 // height of the hands
	least, most       unit.Metre = 0.25, 1.75
	widest                       = 135 // twist
)

// Recommended is the recommended weight limit of one person [kg]:
//
//	23 · 25/H · (1 − 0.003·|V − 75|) · (0.82 + 4.5/D) · (1 − 0.0032·A) · FM · CM
//
// with H, V and D in cm and A in degrees. It is 0 where the equation allows no
// lift. False when a number is missing or more lifts in a minute are asked
// about than the table has.
func Recommended(l Lift) (unit.Kilogram, bool) {
	for _, x := range []float64{float64(l.Reach), float64(l.Height), float64(l.Travel), l.Twist, l.PerMinute} {
		if math.IsNaN(x) || math.IsInf(x, 0) || x < 0 {
			return 0, false
		}
	}
	often, ok := frequency(l.PerMinute)
	switch {
	case !ok || l.Reach == 0:
		return 0, false
	case l.Reach > farthest || l.Height > highest || l.Travel > most || l.Twist > widest:
		return 0, true
	}
	h := float64(nearest / max(nearest, l.Reach))
	v := 1 - 0.003*math.Abs(100*float64(l.Height-best))
	d := 0.82 + 4.5/(100*float64(max(least, l.Travel)))
	a := 1 - 0.0032*l.Twist
	return loadConstant * unit.Kilogram(h*v*d*a*often*l.coupling()), true
}

// coupling is better for a fair grip from 75 cm up.
func (l Lift) coupling() float64 {
	switch {
	case l.Grip == Good || l.Grip == Fair && l.Height >= best:
		return 1
	case l.Grip == Fair:
		return 0.95
	}
	return 0.90
}

// frequent is the multiplier for lifts in a minute over an hour at most, hands
// below 75 cm: the lower of the two columns.
var frequent = []struct{ upTo, factor float64 }{
	{0.2, 1}, {0.5, 0.97}, {1, 0.94}, {2, 0.91}, {3, 0.88}, {4, 0.84}, {5, 0.80}, {6, 0.75}, {7, 0.70}, {8, 0.60}, {9, 0.52}, {10, 0.45},
}

func frequency(perMinute float64) (float64, bool) {
	for _, row := range frequent {
		if perMinute <= row.upTo {
			return row.factor, true
		}
	}
	return 0, false
}

// Together is how many times one person's limit several may lift: each at two
// thirds of what they lift alone for two, at half for three. From memory. False
// for other numbers.
func Together(persons int) (unit.Ratio, bool) {
	switch persons {
	case 1:
		return 1, true
	case 2:
		return 1.33, true
	case 3:
		return 1.5, true
	}
	return 0, false
}
