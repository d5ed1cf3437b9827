// Package thermal is temperature worked out: how long a heated block takes to
// warm up, when its heater hands over to the charge, and what a thermistor or
// a platinum resistor says.
//
// Every formula stands above the code that uses it. The package holds no limits
// and gives no verdicts; those are in package checks.
package thermal

import "math"

// zeroCelsius is 0 °C in kelvin, by definition.
const zeroCelsius = 273.15

func finite[Q ~float64](x Q) bool { return !math.IsNaN(float64(x)) && !math.IsInf(float64(x), 0) }

// positive reports whether x is finite and above zero.
func positive[Q ~float64](x Q) bool { return finite(x) && x > 0 }
