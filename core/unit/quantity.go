// Package unit gives every quantity of the trade a type of its own, so that
// volts cannot be handed where ohms are asked for, and reads the numbers that
// people type.
//
// Values are floats in one unit per quantity (V, A, Ω, Ah, °C …); prefixes and
// other units belong to [Parse] and to display. It does not carry uncertainty;
// see core/measure.
package unit

// Symbol is the ASCII sign of a unit, as in files: "V", "mOhm", "N.m", "C".
type Symbol string

// Quantity is a float type that has exactly one unit.
type Quantity interface {
	~float64
	Symbol() Symbol
}

type (
	Volt             float64
	Ampere           float64
	Ohm              float64
	AmpereHour       float64
	WattHour         float64
	Watt             float64
	Celsius          float64 // a temperature; a difference is Kelvin
	Kelvin           float64 // a temperature difference
	NewtonMetre      float64
	Metre            float64
	SquareMillimetre float64
	Kilogram         float64
	Second           float64
	Farad            float64
	Count            float64 // whole things: blocks, runs
	Percent          float64
	Ratio            float64
)

func (Volt) Symbol() Symbol             { return "V" }
func (Ampere) Symbol() Symbol           { return "A" }
func (Ohm) Symbol() Symbol              { return "Ohm" }
func (AmpereHour) Symbol() Symbol       { return "Ah" }
func (WattHour) Symbol() Symbol         { return "Wh" }
func (Watt) Symbol() Symbol             { return "W" }
func (Celsius) Symbol() Symbol          { return "C" }
func (Kelvin) Symbol() Symbol           { return "K" }
func (NewtonMetre) Symbol() Symbol      { return "N.m" }
func (Metre) Symbol() Symbol            { return "m" }
func (SquareMillimetre) Symbol() Symbol { return "mm2" }
func (Kilogram) Symbol() Symbol         { return "kg" }
func (Second) Symbol() Symbol           { return "s" }
func (Farad) Symbol() Symbol            { return "farad" }
func (Count) Symbol() Symbol            { return "1" }
func (Percent) Symbol() Symbol          { return "%" }
func (Ratio) Symbol() Symbol            { return "ratio" }
