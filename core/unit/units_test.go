package unit_test

import (
	"math"
	"testing"

	"lugmark/core/unit"
)

// Every unit against the base unit of its quantity: prefixes after the SI;
// inch, foot, pound and pound-force exact by definition; temperatures at two
// points each; 1 Wh is 3600 J.
func TestUnitsAreWhatTheyAreDefinedAs(t *testing.T) {
	rows := []struct {
		n    float64
		unit unit.Symbol
		base float64
		of   unit.Symbol
		from string
	}{
		{1, "V", 1, "V", "SI"}, {1500, "mV", 1.5, "V", "SI"}, {1.5, "kV", 1500, "V", "SI"},
		{1, "A", 1, "A", "SI"}, {1500, "mA", 1.5, "A", "SI"}, {20, "kA", 20000, "A", "SI"},
		{1, "Ohm", 1, "Ohm", "SI"}, {1.4, "mOhm", 0.0014, "Ohm", "SI"}, {24, "uOhm", 24e-6, "Ohm", "SI"}, {10, "kOhm", 10000, "Ohm", "SI"}, {1, "MOhm", 1e6, "Ohm", "SI"},
		{100, "Ah", 100, "Ah", "SI"}, {500, "mAh", 0.5, "Ah", "SI"},
		{1, "Wh", 1, "Wh", "SI"}, {1.28, "kWh", 1280, "Wh", "SI"}, {3600, "J", 1, "Wh", "definition: 3600 s in an hour"},
		{1, "W", 1, "W", "SI"}, {3, "kW", 3000, "W", "SI"},
		{-40, "F", -40, "C", "definition: the scales meet at −40"}, {212, "F", 100, "C", "definition"}, {25, "C", 25, "C", "SI"}, {5, "K", 5, "K", "SI"},
		{1, "N.m", 1, "N.m", "SI"}, {100, "in.lb", 11.29848, "N.m", "NIST SP 811: 1.129 848 E-01"}, {10, "ft.lb", 13.55818, "N.m", "NIST SP 811: 1.355 818"},
		{1, "m", 1, "m", "SI"}, {183, "cm", 1.83, "m", "SI"}, {15, "mm", 0.015, "m", "SI"}, {1, "in", 0.0254, "m", "definition"}, {1, "ft", 0.3048, "m", "definition"},
		{35, "mm2", 35, "mm2", "SI"}, {1, "kg", 1, "kg", "SI"}, {51, "lb", 23.13321087, "kg", "definition: 0.453 592 37 kg"},
		{1, "s", 1, "s", "SI"}, {30, "min", 1800, "s", "SI"}, {12, "h", 43200, "s", "SI"},
		{1, "farad", 1, "farad", "SI"}, {10, "mF", 0.01, "farad", "SI"}, {470, "uF", 0.00047, "farad", "SI"},
		{4, "1", 4, "1", "hand"}, {3, "%", 3, "%", "hand: percents stay percents"}, {0.95, "ratio", 0.95, "ratio", "hand"},
	}
	for _, r := range rows {
		base, known := r.unit.Base()
		if got := r.unit.ToBase(r.n); !known || base != r.of || !(math.Abs(got-r.base) <= 1e-6*math.Max(1e-3, math.Abs(r.base))) {
			t.Errorf("%v %s: %v %s, want %v %s (%s)", r.n, r.unit, got, base, r.base, r.of, r.from)
		}
		if back := r.unit.FromBase(r.base); !(math.Abs(back-r.n) <= 1e-5*math.Abs(r.n)) {
			t.Errorf("%v %s is %v %s, want %v (%s)", r.base, r.of, back, r.unit, r.n, r.from)
		}
	}
	// A step of temperature has no zero point: 9 °F are 5 K.
	if got := unit.Symbol("F").Scale(9); !(math.Abs(got-5) <= 1e-12) {
		t.Errorf("9 °F are %v K", got)
	}
}

func TestQuantitiesKnowTheirUnit(t *testing.T) {
	for got, want := range map[unit.Symbol]unit.Symbol{
		unit.Volt(0).Symbol(): "V", unit.Ampere(0).Symbol(): "A", unit.Ohm(0).Symbol(): "Ohm", unit.AmpereHour(0).Symbol(): "Ah",
		unit.WattHour(0).Symbol(): "Wh", unit.Watt(0).Symbol(): "W", unit.Celsius(0).Symbol(): "C", unit.Kelvin(0).Symbol(): "K",
		unit.NewtonMetre(0).Symbol(): "N.m", unit.Metre(0).Symbol(): "m", unit.SquareMillimetre(0).Symbol(): "mm2",
		unit.Kilogram(0).Symbol(): "kg", unit.Second(0).Symbol(): "s", unit.Farad(0).Symbol(): "farad", unit.Count(0).Symbol(): "1",
		unit.Percent(0).Symbol(): "%", unit.Ratio(0).Symbol(): "ratio",
	} {
		if base, ok := got.Base(); got != want || !ok || base != want {
			t.Errorf("%q, want %q, a base unit", got, want)
		}
	}
}

func TestUnitsAreSpeltInManyWays(t *testing.T) {
	for text, want := range map[string]unit.Symbol{"mΩ": "mOhm", "µΩ": "uOhm", "°F": "F", "N m": "N.m", "in·lb": "in.lb", "mm²": "mm2", "V": "V"} {
		if got, ok := unit.Known(text); !ok || got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
	if _, ok := unit.Known("bar"); ok {
		t.Error("bar is known")
	}
}

func TestDigitsOfOtherScriptsAndSigns(t *testing.T) {
	for text, want := range map[string]float64{"\u06f1\u06f3\u066b\u06f2": 13.2, "\u0669\u0660": 90, "\u06f0\u06f9": 9, "+5": 5, "-5": -5, "5.": 5, "999999999999": 999999999999} {
		if n, slip := unit.Parse(text, "V", true); slip != nil || n.Value != want {
			t.Errorf("%q: %v %v, want %v", text, n.Value, slip, want)
		}
	}
	if _, ok := unit.Stored("5", "bar"); ok {
		t.Error("5 bar was stored")
	}
	if n, slip := unit.Parse("0", "Ah", false); slip != nil || n.Value != 0 {
		t.Errorf("0 Ah is refused: %v", slip)
	}
	if n, slip := unit.Parse("-0.00", "Ah", false); slip != nil || n.Digits != "0.00" {
		t.Errorf("minus nothing is refused: %v %v", n, slip)
	}
}
