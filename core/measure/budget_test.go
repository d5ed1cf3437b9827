package measure_test

import (
	"math"
	"testing"

	"lugmark/core/measure"
	"lugmark/core/unit"
)

func TestWithinTakesBothEnds(t *testing.T) {
	rows := []struct {
		y, u float64
		want measure.Side
	}{ // hand: the window 8 to 10 N·m
		{9, 0.5, measure.Inside}, {8.5, 0.5, measure.Inside}, {9.5, 0.5, measure.Inside},
		{8.4, 0.5, measure.Across}, {9.6, 0.5, measure.Across}, {9, 2, measure.Across},
		{7.5, 0.5, measure.Across}, {7.4, 0.5, measure.Outside}, {10.5, 0.5, measure.Across}, {10.6, 0.5, measure.Outside},
	}
	for _, r := range rows {
		v := measure.Reading[unit.NewtonMetre]{Value: unit.NewtonMetre(r.y), U: unit.NewtonMetre(r.u)}.Interval()
		if got := measure.Within(v, 8, 10); got != r.want {
			t.Errorf("%v ± %v: %v, want %v", r.y, r.u, got, r.want)
		}
	}
}

// Equality is inside for "at most" and "at least", and outside for "above";
// 0.1 + 0.2 is 0.3 to anybody but a computer.
func TestEqualityAndRounding(t *testing.T) {
	tenth := 0.1
	sum := measure.Exact(unit.Volt(tenth + 0.2)).Interval() // 0.30000000000000004
	difference := measure.Exact(unit.Volt(0.3 - tenth)).Interval()
	for name, got := range map[string]measure.Side{
		"0.1 + 0.2 at most 0.3":  measure.AtMost(sum, 0.3),
		"0.3 − 0.1 at least 0.2": measure.AtLeast(difference, 0.2), // 0.19999999999999998
		"14.6 at most 14.6":      measure.AtMost(measure.Exact(unit.Volt(14.6)).Interval(), 14.6),
		"14.6 at least 14.6":     measure.AtLeast(measure.Exact(unit.Volt(14.6)).Interval(), 14.6),
		"0.3 above 0.299":        measure.Above(sum, 0.299),
	} {
		if got != measure.Inside {
			t.Errorf("%s: %v", name, got)
		}
	}
	for name, got := range map[string]measure.Side{
		"0.1 + 0.2 above 0.3":    measure.Above(sum, 0.3),
		"20 001 A at most 20 kA": measure.AtMost(measure.Exact(unit.Ampere(20001)).Interval(), 20000),
		"0.011 V at most 0.010":  measure.AtMost(measure.Exact(unit.Volt(0.011)).Interval(), 0.010),
		"0.009 at least 0.010":   measure.AtLeast(measure.Exact(unit.Volt(0.009)).Interval(), 0.010),
		// The slack is a thousand-millionth and no more.
		"0.3 + 10 nV at most 0.3": measure.AtMost(measure.Exact(unit.Volt(0.3+1e-8)).Interval(), 0.3),
		"20 kA + 1 mA":            measure.AtMost(measure.Exact(unit.Ampere(20000.001)).Interval(), 20000),
	} {
		if got != measure.Outside {
			t.Errorf("%s: %v", name, got)
		}
	}
	if got := measure.AtMost(measure.Exact(unit.Ampere(20000.00001)).Interval(), 20000); got != measure.Inside {
		t.Errorf("ten microamperes in 20 kA are rounding: %v", got) // hand: 1e-9 · 20 000 = 2e-5
	}
}

func TestBothIsAsBadAsTheWorst(t *testing.T) {
	in, across, out := measure.Inside, measure.Across, measure.Outside
	for _, r := range []struct {
		sides []measure.Side
		want  measure.Side
	}{ // hand
		{[]measure.Side{in, in}, in}, {[]measure.Side{in, across}, across}, {[]measure.Side{across, in}, across},
		{[]measure.Side{across, out}, out}, {[]measure.Side{out, in}, out}, {nil, in},
	} {
		if got := measure.Both(r.sides...); got != r.want {
			t.Errorf("%v: %v, want %v", r.sides, got, r.want)
		}
	}
}

func TestMovingDigitsDriftAndAgeAddUp(t *testing.T) {
	m := measure.Meter{Percent: 0.5, Counts: 2}
	old := measure.Meter{OutOfDate: true}
	still, drifts := volts(13.201, 0.001, 3, false), volts(13.210, 0.001, 3, false)
	for _, r := range []struct {
		name string
		u, w float64
		from string
	}{
		{"a moving digit", float64(measure.Absolute(volts(13.30, 0.01, 2, true), m).U), 0.0965, "hand: the bound 0.0865 + 0.01; 2·√((0.0865² + 0.01²)/3) = 0.1005 would pass it"},
		{"an old meter, alike", float64(measure.Difference(drifts, still, old, old, 0).U), 0.0016330, "hand: 2 · 2 · 1 mV/√6"},
		{"the other one is old", float64(measure.Difference(drifts, still, measure.Meter{}, old, 0).U), 0.0016330, "hand: 2 · 2 · 1 mV/√6"},
		{"a run that drifted 1 mV", float64(measure.Difference(drifts, still, measure.Meter{}, measure.Meter{}, 0.001).U), 0.0014142, "hand: 2·√(1/6 + 1/3) mV"},
		{"it drifted downward", float64(measure.Difference(drifts, still, measure.Meter{}, measure.Meter{}, -0.001).U), 0.0014142, "hand: 2·√(1/6 + 1/3) mV"},
		{"a difference has a gain", float64(measure.Difference(volts(15, 0.001, 3, false), volts(5, 0.001, 3, false), m, m, 0).U), 0.051, "hand: the bound 0.05 + 0.001; 2·0.05/√3 = 0.0577 would pass it"},
		{"which side is higher does not matter", float64(measure.Difference(volts(5, 0.001, 3, false), volts(15, 0.001, 3, false), m, m, 0).U), 0.051, "hand: as before"},
		{"a fixed error", float64(measure.Absolute(volts(10, 0.01, 2, false), measure.Meter{Percent: 1, Counts: 1, Fixed: 0.5}).U), 0.61, "hand: 0.1 + 0.01 + 0.5"},
		{"below zero", float64(measure.Absolute(volts(-13.30, 0.01, 2, false), m).U), 0.0865, "hand: 0.5 % of 13.30, whatever its sign, + 0.02"},
		{"independent parts", measure.Combine(3, -4), 5, "hand: √(9 + 16)"},
	} {
		if !(math.Abs(r.u-r.w) <= 1e-7) {
			t.Errorf("%s: U %v, want %v (%s)", r.name, r.u, r.w, r.from)
		}
	}
}

func TestASumOfMovingOrOldReadings(t *testing.T) {
	sheet := measure.Meter{Percent: 0.5, Counts: 3}
	sum := func(moving bool, m measure.Meter) float64 {
		x := volts(13.30, 0.01, 2, moving)
		return float64(measure.Sum([]measure.Shown[unit.Volt]{x, x, x, x}, func(string) measure.Meter { return m }).U)
	}
	if got := sum(true, sheet); !(math.Abs(got-0.426) <= 1e-9) { // hand: 4·(0.0665 + 0.03 + 0.01)
		t.Errorf("moving: %v, want 0.426", got)
	}
	sheet.OutOfDate = true
	if got := sum(false, sheet); !(math.Abs(got-0.772) <= 1e-9) { // hand: 2·0.386
		t.Errorf("out of date: %v, want 0.772", got)
	}
}

// hand: as TestOverCapsOnlyTheWhole, 2 · 0.7552 µΩ; and the current turned
// round gives the same size with the other sign.
func TestAnOldMeterDoublesAQuotient(t *testing.T) {
	milli := measure.Meter{ID: "m2", Measures: "V", Percent: 0.5, Counts: 3, Step: 1e-5}
	clamp := measure.Meter{ID: "m3", Measures: "A", Percent: 2, Counts: 5, Step: 0.1}
	old := func(m measure.Meter) measure.Meter { m.OutOfDate = true; return m }
	amps := func(a float64) measure.Shown[unit.Ampere] {
		return measure.Shown[unit.Ampere]{Value: unit.Ampere(a), Step: 0.1, Decimals: 1, Meter: "m3"}
	}
	on, off := volts(1.94e-3, 1e-5, 2, false), volts(0, 1e-5, 2, false)
	for name, u := range map[string]float64{
		"clamp": second(measure.Over(on, off, milli, milli, amps(80), old(clamp))),
		"first": second(measure.Over(on, off, old(milli), milli, amps(80), clamp)),
		"last":  second(measure.Over(on, off, milli, old(milli), amps(80), clamp)),
	} {
		if !(math.Abs(u-1.5104e-6) <= 2e-10) {
			t.Errorf("the %s meter is old: U %v, want 1.5104 µΩ", name, u)
		}
	}
	// hand: (1.94 + 0.10) mV over 80 A when the volts without current are −0.10 mV.
	if value, _ := measure.Over(on, volts(-1e-4, 1e-5, 2, false), milli, milli, amps(80), clamp); !(math.Abs(value-25.5e-6) <= 1e-11) {
		t.Errorf("contact volts come off: %v, want 25.5 µΩ", value)
	}
	if value, u := measure.Over(on, off, milli, milli, amps(-80), clamp); !(math.Abs(value+24.25e-6) <= 1e-11) || !(math.Abs(u-0.7552e-6) <= 1e-10) {
		t.Errorf("turned round: %v ± %v, want −24.25 ± 0.7552 µΩ", value, u)
	}
	// hand: meters that only bound, ±1 mV of 100 mV and ±1 A of 10 A: half a count
	// each. 2·√((0.001/10)²/3 + (1/10·0.01)²/3) = 1.160 mΩ passes the bounds 0.1 + 1 = 1.1 mΩ.
	drop := measure.Shown[unit.Volt]{Value: 0.1, Step: 0.002, Decimals: 3, Meter: "a"}
	zero := measure.Shown[unit.Volt]{Value: 0, Decimals: 3, Meter: "b"}
	by := measure.Shown[unit.Ampere]{Value: 10, Step: 2, Meter: "c"}
	if _, u := measure.Over(drop, zero, measure.Meter{}, measure.Meter{}, by, measure.Meter{}); !(math.Abs(u-1.1e-3) <= 1e-9) {
		t.Errorf("bounds: U %v, want 1.1 mΩ", u)
	}
}

func second(_, u float64) float64 { return u }
