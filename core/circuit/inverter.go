package circuit

import (
	"math"

	"lugmark/core/unit"
)

// InverterCurrent is what an inverter draws at its DC terminals [A]:
//
//	I = P / (V·η)
//
// It is highest at the cut-off voltage. False unless all three are above zero
// and η is at most 1.
func InverterCurrent(power unit.Watt, volts unit.Volt, efficiency unit.Ratio) (unit.Ampere, bool) {
	if !positive(power) || !positive(volts) || !positive(efficiency) || efficiency > 1 {
		return 0, false
	}
	return unit.Ampere(float64(power) / (float64(volts) * float64(efficiency))), true
}

// RippleRMS is the current that heats cable and fuse when a direct current
// carries a sine ripple of the amplitude ripple times itself [A]:
//
//	I_rms = I·√(1 + r²/2)
//
// A single-phase inverter whose ripple nobody measured is taken with r = 1.
func RippleRMS(direct unit.Ampere, ripple unit.Ratio) unit.Ampere {
	return direct * unit.Ampere(math.Sqrt(1+float64(ripple*ripple)/2))
}

// BankLimit is the most the bank may deliver before the block that carries the
// largest share reaches its own limit [A]: I / s_max. False unless the share is
// above 0 and at most 1.
func BankLimit(block unit.Ampere, largestShare unit.Ratio) (unit.Ampere, bool) {
	if !positive(largestShare) || largestShare > 1 || !positive(block) {
		return 0, false
	}
	return block / unit.Ampere(largestShare), true
}
