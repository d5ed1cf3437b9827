package circuit

import (
	"math"

	"lugmark/core/unit"
)

// Joule is energy of a pulse [J] = [W·s].
type Joule float64

// Precharge is an inverter's capacitors filling through a resistor, with
// nothing else on the line.
//
//	τ = R·C   U_left(t) = U·e^(−t/τ)   I0 = U/R   P0 = U²/R   E = ½·C·U²
type Precharge struct {
	Bank        unit.Volt
	Resistor    unit.Ohm
	Capacitance unit.Farad
}

// Valid reports whether all three are known and above zero. The other methods
// of a Precharge that is not valid give no meaning.
func (p Precharge) Valid() bool {
	return positive(p.Bank) && positive(p.Resistor) && positive(p.Capacitance)
}

// Tau is the time constant [s].
func (p Precharge) Tau() unit.Second {
	return unit.Second(float64(p.Resistor) * float64(p.Capacitance))
}

// FirstCurrent is the current at the first instant [A].
func (p Precharge) FirstCurrent() unit.Ampere {
	return unit.Ampere(float64(p.Bank) / float64(p.Resistor))
}

// FirstPower is the heat in the resistor at the first instant [W]. A resistor
// left on a line that is shorted burns with this for as long as it stays.
func (p Precharge) FirstPower() unit.Watt {
	return unit.Watt(float64(p.Bank) * float64(p.Bank) / float64(p.Resistor))
}

// Pulse is the energy that the resistor takes in all [J], whatever its ohms.
func (p Precharge) Pulse() Joule {
	return Joule(float64(p.Capacitance) * float64(p.Bank) * float64(p.Bank) / 2)
}

// Until is the time after which this part of the bank's voltage is still
// missing [s]: Until(0.05) is when 95 % is reached. False outside 0 to 1.
func (p Precharge) Until(left unit.Ratio) (unit.Second, bool) {
	if !(left > 0 && left <= 1) {
		return 0, false
	}
	return unit.Second(-math.Log(float64(left))) * p.Tau(), true
}

// Left is the voltage still across the open switch after t [V].
func (p Precharge) Left(t unit.Second) unit.Volt {
	return p.Bank * unit.Volt(math.Exp(-float64(t)/float64(p.Tau())))
}

// StallsAt is the voltage across the open switch that never goes away while a
// load of this resistance stays on the line [V]: U·R/(R + R_load).
func (p Precharge) StallsAt(load unit.Ohm) (unit.Volt, bool) {
	if !positive(load) {
		return 0, false
	}
	return p.Bank * unit.Volt(p.Resistor/(p.Resistor+load)), true
}

// Inrush is the first current when the switch closes over what is left [A]:
// residual / (R_bank + R_ext). It is a current of the bank; a block sees its
// share of it.
func Inrush(left unit.Volt, bank, outside unit.Ohm) (unit.Ampere, bool) {
	if !positive(bank) || !(outside >= 0) || !finite(outside) || !finite(left) {
		return 0, false
	}
	return unit.Ampere(math.Abs(float64(left)) / float64(bank+outside)), true
}

// CapacitanceFrom is the capacitance that a stop-watch shows [F]: t is the time
// from closing the resistor until 5 % is left across the switch, which takes
// ln 20, close to three time constants:
//
//	C = t / (3·R)
func CapacitanceFrom(t unit.Second, resistor unit.Ohm) (unit.Farad, bool) {
	if !positive(t) || !positive(resistor) {
		return 0, false
	}
	const constantsToFivePercent = 3
	return unit.Farad(float64(t) / (constantsToFivePercent * float64(resistor))), true
}
