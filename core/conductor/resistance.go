package conductor

import (
	"lugmark/core/cite"
	"lugmark/core/unit"
)

// Annealed copper, see cite.IEC60028.
const (
	resistivity = 1.0 / 58 // at 20 °C [Ω·mm²/m]
	alpha       = 0.00393  // of the resistance at 20 °C [1/K]
	stranding   = 1.02     // a strand is longer than its cable
)

// Copper is the resistance of a solid copper conductor of this area [Ω]:
//
//	R = ρ20·L/A · (1 + α20·(T − 20))   ρ20 = 1/58 Ω·mm²/m   α20 = 0.00393 /K
//
// False when the area or the length is not above zero.
func Copper(area unit.SquareMillimetre, length unit.Metre, at unit.Celsius) (unit.Ohm, bool) {
	if !(area > 0) || !(length > 0) || at != at {
		return 0, false
	}
	return unit.Ohm(resistivity * float64(length) / float64(area) * warm(at)), true
}

// warm is the resistance of copper over that at 20 °C.
func warm(at unit.Celsius) float64 { return 1 + alpha*float64(at-20) }

// table8 is stranded uncoated copper at 75 °C [Ω per 1000 ft], see cite.NECTable8.
var table8 = map[gauge]float64{
	14: 3.07, 12: 1.93, 10: 1.21, 8: 0.764, 6: 0.491, 4: 0.308, 3: 0.245, 2: 0.194, 1: 0.154,
	aught1: 0.122, aught2: 0.0967, aught3: 0.0766, aught4: 0.0608, 250: 0.0515,
}

// iec60228 is the highest resistance at 20 °C [Ω/km], see cite.IEC60228.
var iec60228 = map[unit.SquareMillimetre]struct{ class2, class5, tinned5 float64 }{
	6: {3.08, 3.30, 3.39}, 10: {1.83, 1.91, 1.95}, 16: {1.15, 1.21, 1.24}, 25: {0.727, 0.780, 0.795},
	35: {0.524, 0.554, 0.565}, 50: {0.387, 0.386, 0.393}, 70: {0.268, 0.272, 0.277},
	95: {0.193, 0.206, 0.210}, 120: {0.153, 0.161, 0.164}, 150: {0.124, 0.129, 0.132},
}

// mostExcess is how far the table above lies over 1/58 Ω·mm²/m at worst: 3.39
// Ω/km at 6 mm². A cable whose standard is not known is taken as bad as that.
const mostExcess = 1.18

// Resistance is the resistance of a cable from lug barrel to lug barrel [Ω] at
// the temperature of its copper, and where it comes from. It is meant for the
// voltage that a cable loses: where something is not known it is the higher
// figure.
//
//   - AWG in NEC Table 8: that row, taken from 75 °C to the temperature by α20 = 0.00393 /K.
//   - mm² to IEC 60228: its highest resistance at 20 °C, times (230 + T)/250 as that
//     document has it, which is 0.3 % more at 75 °C. A class nobody read counts as
//     class 5 tinned.
//   - everything else: its area by [Copper], 2 % for stranding, and 18 % where
//     the standard is not stated.
//
// False for the zero Size, a length that is not above zero, or a temperature
// that is not a number.
func (s Size) Resistance(length unit.Metre, at unit.Celsius) (unit.Ohm, cite.Source, bool) {
	solid, ok := Copper(s.Area, length, at)
	if !ok {
		return 0, cite.Source{}, false
	}
	switch s.Standard {
	case ASTM:
		const feetPerMetre, at75 = 1 / 0.3048, 1 + alpha*(75-20)
		for g, perThousandFeet := range table8 {
			if g.area() == s.Area {
				hot := perThousandFeet / 1000 * feetPerMetre * float64(length)
				return unit.Ohm(hot * warm(at) / at75), cite.NECTable8, true
			}
		}
	case IEC:
		if row, ok := iec60228[s.Area]; ok {
			perKilometre := row.tinned5
			switch {
			case s.Class == 1 || s.Class == 2:
				perKilometre = row.class2
			case s.Class == 5 && !s.Tinned:
				perKilometre = row.class5
			}
			return unit.Ohm(perKilometre / 1000 * float64(length) * (230 + float64(at)) / 250), cite.IEC60228, true
		}
		return solid * mostExcess, cite.IEC60028, true
	case Unstated:
		return solid * mostExcess, cite.IEC60028, true
	}
	return solid * stranding, cite.IEC60028, true
}

// Drop is the voltage lost on the way out and back [V], joints not counted:
//
//	dU = 2·L·I·R′
//
// oneWay is the length of one of the two conductors. It fails as
// [Size.Resistance] does.
func (s Size) Drop(oneWay unit.Metre, current unit.Ampere, at unit.Celsius) (unit.Volt, cite.Source, bool) {
	r, source, ok := s.Resistance(2*oneWay, at)
	return unit.Volt(float64(current) * float64(r)), source, ok
}

// Heat is what one metre of the conductor gives off [W]: I²·R′.
func (s Size) Heat(current unit.Ampere, at unit.Celsius) (unit.Watt, cite.Source, bool) {
	r, source, ok := s.Resistance(1, at)
	return unit.Watt(float64(current) * float64(current) * float64(r)), source, ok
}
