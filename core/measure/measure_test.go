package measure_test

import (
	"math"
	"testing"

	"lugmark/core/measure"
	"lugmark/core/unit"

	"pgregory.net/rapid"
)

func volts(value, step float64, decimals int, moving bool) measure.Shown[unit.Volt] {
	return measure.Shown[unit.Volt]{Value: unit.Volt(value), Step: unit.Volt(step), Decimals: decimals, Meter: "m1", Moving: moving}
}

// The rows walk a limit of 10 mV with one meter on one range. d/√6·2 is
// 8.165 mV for d = 10 mV and 0.8165 mV for d = 1 mV (arithmetic by hand; the
// triangular form after JCGM 100, from memory).
func TestDifferenceAgainstTheMatchLimit(t *testing.T) {
	rows := []struct {
		name     string
		a, b     float64
		step     float64
		decimals int
		moving   bool
		u        float64
		want     measure.Side
	}{
		{"two decimals, alike", 13.20, 13.20, 0.01, 2, false, 0.008165, measure.Inside},
		{"two decimals, one count", 13.21, 13.20, 0.01, 2, false, 0.008165, measure.Across},
		{"two decimals, two counts", 13.22, 13.20, 0.01, 2, false, 0.008165, measure.Outside},
		{"three decimals, 9 mV", 13.210, 13.201, 0.001, 3, false, 0.000816, measure.Inside},
		{"three decimals, 10 mV", 13.211, 13.201, 0.001, 3, false, 0.000816, measure.Across},
		{"three decimals, 11 mV", 13.212, 13.201, 0.001, 3, false, 0.000816, measure.Outside},
		{"moving digits, 8 mV", 13.209, 13.201, 0.001, 3, true, 0.001826, measure.Inside},
		{"moving digits, 9 mV", 13.210, 13.201, 0.001, 3, true, 0.001826, measure.Across},
		{"two decimals moving can never pass", 13.20, 13.20, 0.01, 2, true, 0.01826, measure.Across},
	}
	for _, r := range rows {
		d := measure.Difference(volts(r.a, r.step, r.decimals, r.moving), volts(r.b, r.step, r.decimals, r.moving), measure.Meter{}, measure.Meter{}, 0)
		if !(math.Abs(float64(d.U)-r.u) <= 1e-5) {
			t.Errorf("%s: U %v, want %v", r.name, d.U, r.u)
		}
		if got := measure.AtMost(d.Interval(), 0.010); got != r.want {
			t.Errorf("%s: side %v, want %v", r.name, got, r.want)
		}
	}
}

func TestAbsoluteKeepsTheHardBound(t *testing.T) {
	rows := []struct {
		value, step float64
		m           measure.Meter
		u           float64
		from        string
	}{
		{13.30, 0.01, measure.Meter{Percent: 0.5, Counts: 2}, 0.0865, "hand: 0.0665 + 0.02; 2a/√3 = 0.0999 would pass the bound"},
		{13.30, 0.001, measure.Meter{Percent: 0.05, Counts: 3}, 0.00965, "hand: 0.00665 + 0.003"},
		{53.2, 0.01, measure.Meter{Percent: 0.5, Counts: 1}, 0.276, "hand: 0.266 + 0.01"},
		{2.000, 0.001, measure.Meter{Percent: 0.08, Counts: 2}, 0.0036, "a meter maker's note: 1.9964 to 2.0036 V"},
		{9, 1, measure.Meter{Percent: 4, Step: 0, Fixed: 0, Counts: 0}, 0.36 + 0.5, "hand: a scale without counts adds half a digit"},
		{13.2, 0.1, measure.Meter{Percent: 0.5, Counts: 2, Step: 0.01}, 0.266, "hand: the typed digit is coarser: 0.066 + 2·0.1"},
		{13.30, 0.01, measure.Meter{Percent: 0.5, Counts: 2, OutOfDate: true}, 0.173, "hand: out of date doubles 0.0865"},
	}
	for _, r := range rows {
		got := measure.Absolute(volts(r.value, r.step, 0, false), r.m)
		if !(math.Abs(float64(got.U)-r.u) <= 1e-9) {
			t.Errorf("%v: U %v, want %v (%s)", r.value, got.U, r.u, r.from)
		}
	}
}

func TestTwoRangesAreTwoMeters(t *testing.T) {
	m := measure.Meter{Percent: 0.5, Counts: 2}
	d := measure.Difference(volts(20.1, 0.1, 1, false), volts(19.95, 0.01, 2, false), m, m, 0)
	// hand: a1 = 0.1005+0.2 = 0.3005, a2 = 0.09975+0.02 = 0.11975; 2·√((a1²+a2²)/3) = 0.37352 < a1+a2
	if want := 2 * math.Sqrt((0.3005*0.3005+0.11975*0.11975)/3); !(math.Abs(float64(d.U)-want) <= 1e-9) {
		t.Errorf("U %v, want %v", d.U, want)
	}
}

func TestSumAddsTheGainAsItIs(t *testing.T) {
	m := func(string) measure.Meter { return measure.Meter{Percent: 0.5, Counts: 3} }
	xs := []measure.Shown[unit.Volt]{volts(13.30, 0.01, 2, false), volts(13.30, 0.01, 2, false), volts(13.30, 0.01, 2, false), volts(13.30, 0.01, 2, false)}
	s := measure.Sum(xs, m)
	// hand: 4·(0.0665 + 0.03) = 0.386
	if !(math.Abs(float64(s.U)-0.386) <= 1e-9) || !(math.Abs(float64(s.Value)-53.2) <= 1e-9) {
		t.Errorf("got %v ± %v, want 53.2 ± 0.386", s.Value, s.U)
	}
}

func TestStrictLimitShutsAtEquality(t *testing.T) {
	rows := []struct {
		y, u float64
		want measure.Side
	}{ // a sensor with U 3 K against 0 °C (hand)
		{3.0, 3, measure.Across}, {3.1, 3, measure.Inside}, {-2, 3, measure.Across}, {-3, 3, measure.Outside},
	}
	for _, r := range rows {
		got := measure.Above(measure.Reading[unit.Celsius]{Value: unit.Celsius(r.y), U: unit.Celsius(r.u)}.Interval(), 0)
		if got != r.want {
			t.Errorf("%v ± %v: %v, want %v", r.y, r.u, got, r.want)
		}
	}
}

// More uncertainty never helps: a wider interval never turns a reading Inside
// or Outside that was Across, nor flips one.
func TestMoreUncertaintyNeverDecides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.Float64Range(-100, 100).Draw(t, "y")
		l := rapid.Float64Range(-100, 100).Draw(t, "limit")
		u1 := rapid.Float64Range(0, 50).Draw(t, "u")
		u2 := u1 + rapid.Float64Range(0, 50).Draw(t, "more")
		iv := func(u float64) measure.Interval[unit.Volt] {
			return measure.Reading[unit.Volt]{Value: unit.Volt(y), U: unit.Volt(u)}.Interval()
		}
		for name, judge := range map[string]func(measure.Interval[unit.Volt], unit.Volt) measure.Side{
			"at most": measure.AtMost[unit.Volt], "at least": measure.AtLeast[unit.Volt], "above": measure.Above[unit.Volt],
		} {
			narrow, wide := judge(iv(u1), unit.Volt(l)), judge(iv(u2), unit.Volt(l))
			if wide != measure.Across && wide != narrow {
				t.Fatalf("%s: %v ± %v gives %v, ± %v gives %v", name, y, u1, narrow, u2, wide)
			}
		}
	})
}

// 1.94 mV over 80.0 A; millivolts ±0.5 % in steps of 0.01 mV, clamp ±(2 % + 5
// counts) = ±2.1 A. hand: u of the current 2.1/√3/80 · 24.25 µΩ = 0.3675 µΩ, of
// the drops √((0.0097 mV)²/3 + (0.01 mV)²/6)/80 A = 0.0867 µΩ; 2·u = 0.7552 µΩ,
// below the sum of the bounds.
func TestOverCapsOnlyTheWhole(t *testing.T) {
	milli := measure.Meter{ID: "m2", Measures: "V", Percent: 0.5, Counts: 3, Step: 1e-5}
	clamp := measure.Meter{ID: "m3", Measures: "A", Percent: 2, Counts: 5, Step: 0.1}
	amps := measure.Shown[unit.Ampere]{Value: 80, Step: 0.1, Decimals: 1, Meter: "m3"}
	value, u := measure.Over(volts(1.94e-3, 1e-5, 2, false), volts(0, 1e-5, 2, false), milli, milli, amps, clamp)
	if !(math.Abs(value-24.25e-6) <= 1e-11) || !(math.Abs(u-0.7552e-6) <= 1e-10) {
		t.Errorf("%.4g ± %.5g", value, u)
	}
}

func TestRatioReachesTheFartherEnd(t *testing.T) {
	of := func(v, u float64) measure.Reading[unit.Ohm] {
		return measure.Reading[unit.Ohm]{Value: unit.Ohm(v), U: unit.Ohm(u)}
	}
	rows := []struct {
		a, b measure.Reading[unit.Ohm]
		u    float64
		from string
	}{
		{of(24, 2.4), of(20, 0), 0.12, "hand: 2.4/20"},
		{of(1, 0), of(1, 0.1), 1/0.9 - 1, "hand: 1/(1 − 0.1)"},
		{of(3, 0), of(5, 2.5), 0.6, "hand: 3/2.5 = 1.2, and 3/5 = 0.6"},
		{of(1, 0.1), of(1, 0.1), (1+math.Sqrt(0.0199))/0.99 - 1, "hand: (1 + √(0.01 + 0.01·0.99))/0.99"},
	}
	for _, r := range rows {
		got, ok := measure.Ratio(r.a, r.b)
		if !ok || !(math.Abs(float64(got.U)-r.u) <= 1e-9) {
			t.Errorf("%v over %v: U %v, want %v (%s)", r.a, r.b, got.U, r.u, r.from)
		}
	}
	for _, none := range []measure.Reading[unit.Ohm]{of(0, 0), of(1, 1), of(-1, 0.1)} {
		if _, ok := measure.Ratio(of(1, 0), none); ok {
			t.Errorf("over %v, which may be nothing", none)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		draw := rapid.Float64Range(0.01, 1)
		a, b := of(draw.Draw(t, "a"), draw.Draw(t, "ua")), of(draw.Draw(t, "b"), draw.Draw(t, "ub"))
		wider := of(float64(b.Value), float64(b.U)+draw.Draw(t, "more"))
		one, ok := measure.Ratio(a, b)
		two, still := measure.Ratio(a, wider)
		if still && (!ok || two.U < one.U) {
			t.Fatalf("%v over %v ± %v, over %v ± %v", a, b, one.U, wider, two.U)
		}
	})
}
