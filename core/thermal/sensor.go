package thermal

import (
	"math"

	"lugmark/core/unit"
)

// Beta is the temperature of a thermistor by its one-figure model, R25 at
// 25 °C and B in kelvin:
//
//	1/T = 1/298.15 + ln(R/R25)/B
//
// One B fits one pair of temperatures; from −20 to +60 °C it is off by 1 to
// 1.5 K. False for resistances that are not above zero.
func Beta(r, r25 unit.Ohm, b unit.Kelvin) (unit.Celsius, bool) {
	if !positive(r) || !positive(r25) || !positive(b) {
		return 0, false
	}
	const warm = zeroCelsius + 25
	return fromInverse(1/warm + math.Log(float64(r/r25))/float64(b))
}

// BetaResistance is the resistance by the same model [Ω].
func BetaResistance(t unit.Celsius, r25 unit.Ohm, b unit.Kelvin) unit.Ohm {
	const warm = zeroCelsius + 25
	return r25 * unit.Ohm(math.Exp(float64(b)*(1/(float64(t)+zeroCelsius)-1/warm)))
}

// Steinhart are the three figures of the Steinhart–Hart equation.
type Steinhart struct{ A, B, C float64 }

// Curve8016 is a 10 kΩ thermistor of the standardised curve 8016 (B25/100 of
// 3988 K): the figures that circulate in sensor data sheets.
var Curve8016 = Steinhart{1.129148e-3, 2.34125e-4, 8.76741e-8}

// Celsius is the temperature of a resistance:
//
//	1/T = a + b·ln R + c·(ln R)³
func (s Steinhart) Celsius(r unit.Ohm) (unit.Celsius, bool) {
	if !positive(r) {
		return 0, false
	}
	l := math.Log(float64(r))
	return fromInverse(s.A + s.B*l + s.C*l*l*l)
}

func fromInverse(x float64) (unit.Celsius, bool) {
	if !positive(x) {
		return 0, false
	}
	return unit.Celsius(1/x - zeroCelsius), true
}

// The coefficients of IEC 60751, as public tables of it give them.
const (
	platinumA = 3.9083e-3
	platinumB = -5.775e-7
	platinumC = -4.183e-12 // below 0 °C only
)

// Platinum is the resistance of a platinum resistor [Ω], r0 at 0 °C:
//
//	R = R0·(1 + A·t + B·t²),  below 0 °C also + C·(t − 100)·t³
func Platinum(t unit.Celsius, r0 unit.Ohm) unit.Ohm {
	x := float64(t)
	y := 1 + platinumA*x + platinumB*x*x
	if x < 0 {
		y += platinumC * (x - 100) * x * x * x
	}
	return r0 * unit.Ohm(y)
}

// The range in which the equation of IEC 60751 holds.
const platinumLow, platinumHigh unit.Celsius = -200, 850

// PlatinumCelsius is the temperature of a platinum resistor. False outside
// −200 to 850 °C.
func PlatinumCelsius(r, r0 unit.Ohm) (unit.Celsius, bool) {
	if !positive(r) || !positive(r0) || r < Platinum(platinumLow, r0) || r > Platinum(platinumHigh, r0) {
		return 0, false
	}
	low, high := platinumLow, platinumHigh
	for high-low > 1e-9 { // R rises all the way, so halving finds it
		if mid := (low + high) / 2; Platinum(mid, r0) < r {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2, true
}
