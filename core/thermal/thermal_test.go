package thermal

import (
	"math"
	"testing"

	"lugmark/core/unit"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %v, want %v ± %v", what, got, want, within)
	}
}

// The closed formula worked out apart from this program: 22 kg of 1000 J/(kg·K)
// store 22 kJ/K, with 1.5 W/K τ is 14 666.7 s and 100 W end 66.67 K above the air.
func TestWarmUp(t *testing.T) {
	b := Body{22, 1000, 1.5}
	for _, r := range []struct {
		from, air, target unit.Celsius
		want              float64
		why               string
	}{
		{-20, -20, 5, 6893.39, "hand: -14666.7·ln(41.67/66.67)"},
		{-10, -10, 5, 3738.42, "hand: -14666.7·ln(51.67/66.67)"},
		{-20, -20, 0, 5231.23, "hand: -14666.7·ln(46.67/66.67)"},
		{5, -20, 5, 0, "boundary: warm already"},
	} {
		got, ok := b.WarmUp(100, r.from, r.air, r.target)
		if !ok {
			t.Errorf("%s: never", r.why)
		}
		near(t, r.why, float64(got), r.want, 0.01)
	}
	got, _ := Body{22, 1000, 0}.WarmUp(100, -20, -20, 5)
	near(t, "hand: 22000·25/100, no loss", float64(got), 5500, 1e-9)
	if _, ok := b.WarmUp(100, -70, -70, 5); ok {
		t.Error("-70 + 66.67 stays below 5: reached")
	}
	if _, ok := b.WarmUp(37.5, -20, -20, 5); ok {
		t.Error("boundary: −20 + 37.5/1.5 = 5 is neared and never reached")
	}
	if s, ok := b.WarmUp(1, 5, -20, 5); !ok || s != 0 {
		t.Error("boundary: at its target it is there, however weak the heater")
	}
	for _, p := range []unit.Watt{0, -1, unit.Watt(math.NaN())} {
		if _, ok := b.WarmUp(p, -20, -20, 5); ok {
			t.Errorf("power %v warms", p)
		}
	}
}

func TestForesee(t *testing.T) {
	f, ok := Foresee(22, 100, -20, -20, 5)
	// hand: worst 22·1150/3 = 8433.3 s·ln(50·… ): T_inf = −20 + 90/3 = 10 °C,
	// t = −8433.33·ln(5/30) = 15 110.5 s, 252 min.
	if !ok || !f.Always || !f.Ever {
		t.Fatal("reaches in every corner")
	}
	near(t, "hand: worst corner", float64(f.Span.High), 15110.5, 0.5)
	near(t, "hand: nominal", float64(f.Nominal), 6893.39, 0.01)
	near(t, "hand: 0.3 of the nominal time", float64(f.Span.Low), 0.3*6893.39, 0.01)
	if f, _ := Foresee(22, 100, -30, -30, 5); f.Always || !f.Ever {
		t.Error("hand: −30 + 90/3 = 0 < 5, −30 + 110/0.5 = 190: some corners only")
	}
	// hand: −65 + 100/1.5 = 1.7 < 5, so the best corner counts: 22·850/0.5 = 37 400 s,
	// −65 + 110/0.5 = 155, 0.3·37 400·ln(220/150) = 4297.2 s.
	f, _ = Foresee(22, 100, -65, -65, 5)
	near(t, "hand: 0.3 of the best corner", float64(f.Span.Low), 4297.17, 0.01)
	if f.Always || !f.Ever {
		t.Error("hand: only some corners reach")
	}
	if f, _ := Foresee(22, 10, -40, -40, 5); f.Ever {
		t.Error("hand: −40 + 11/0.5 = −18: never")
	}
	if _, ok := Foresee(0, 100, -20, -20, 5); ok {
		t.Error("a mass of zero is no mass")
	}
}

func TestFromSlope(t *testing.T) {
	v, ok := FromSlope(-5, 5, 0.01)
	if !ok {
		t.Fatal("it warms")
	}
	near(t, "hand: 1000/1.3", float64(v.Low), 769.23, 0.01)
	near(t, "hand: 1000/0.7", float64(v.High), 1428.57, 0.01)
	if _, ok := FromSlope(-5, 5, 0); ok {
		t.Error("no slope, no time")
	}
}

func TestThermistor(t *testing.T) {
	// Published: a logger manual's table of a 10 kΩ part and the ratios of
	// curve 8016.
	for _, r := range []struct {
		ohms unit.Ohm
		want float64
		why  string
	}{
		{32650.9, 0, "logger manual, 10K3 part"}, {31030.8, 1, "logger manual"}, {55303.9, -10, "logger manual"},
		{97006.9, -20, "logger manual"}, {10000, 25, "by definition"}, {5327, 40, "curve 8016, ratio 0.5327"},
		{2488, 60, "curve 8016, ratio 0.2488"}, {25390, 5, "curve 8016, ratio 2.539"},
	} {
		got, ok := Curve8016.Celsius(r.ohms)
		if !ok {
			t.Errorf("%v ohms give nothing", r.ohms)
		}
		near(t, r.why, float64(got), r.want, 0.02)
	}
	near(t, "hand: 10000·exp(3950·(1/333.15 − 1/298.15))", float64(BetaResistance(60, 10000, 3950)), 2486.2, 0.1)
	near(t, "hand: 10000·exp(3950·(1/273.15 − 1/298.15))", float64(BetaResistance(0, 10000, 3950)), 33620.6, 0.1)
	for ohms, want := range map[unit.Ohm]float64{33620.6: 0, 2486.2: 60} {
		if got, ok := Beta(ohms, 10000, 3950); !ok || !(math.Abs(float64(got)-want) <= 0.002) {
			t.Errorf("hand, the way back: %v Ω are %v °C, want %v", ohms, got, want)
		}
	}
	for _, r := range []unit.Ohm{0, -1, unit.Ohm(math.Inf(1))} {
		if _, ok := Beta(r, 10000, 3950); ok {
			t.Errorf("%v ohms have a temperature", r)
		}
		if _, ok := Curve8016.Celsius(r); ok {
			t.Errorf("%v ohms have a temperature", r)
		}
	}
}

// Published tables of IEC 60751.
func TestPlatinum(t *testing.T) {
	for _, r := range []struct {
		t    unit.Celsius
		want float64
	}{{-40, 84.27}, {-20, 92.16}, {-10, 96.09}, {0, 100}, {10, 103.90}, {20, 107.79}, {30, 111.67}, {40, 115.54}, {50, 119.40}, {60, 123.24}, {70, 127.08}, {80, 130.90}, {100, 138.51}, {-200, 18.52}, {-100, 60.26}, {850, 390.48}} {
		near(t, "table of IEC 60751", float64(Platinum(r.t, 100)), r.want, 0.0051)
	}
	got, _ := PlatinumCelsius(123.24, 100)
	near(t, "independent: 123.24 Ω", float64(got), 59.995, 0.001)
	for _, x := range []unit.Celsius{-200, 850} { // boundary: the equation holds at both ends
		if got, ok := PlatinumCelsius(Platinum(x, 100), 100); !ok || !(math.Abs(float64(got-x)) <= 1e-6) {
			t.Errorf("%v °C became %v", x, got)
		}
	}
	for _, r := range []unit.Ohm{0, 5, 18.51, 390.49, 500} { // the table ends at 18.52 and 390.48
		if _, ok := PlatinumCelsius(r, 100); ok {
			t.Errorf("%v Ω have a temperature", r)
		}
	}
	rapid.Check(t, func(r *rapid.T) {
		x := rapid.Float64Range(-200, 850).Draw(r, "t")
		got, ok := PlatinumCelsius(Platinum(unit.Celsius(x), 100), 100)
		if !ok && x > -199.999 && x < 849.999 || ok && !(math.Abs(float64(got)-x) <= 1e-6) {
			r.Fatalf("%v became %v", x, got)
		}
	})
}

// Readings at any times, as a person writes them down.
func TestHandsOverLooksAtWholeMinutes(t *testing.T) {
	for _, r := range []struct {
		name  string
		trace []Sample
		at    int
		found bool
		why   string
	}{
		// 6·1.4826·1 A·√(2/3) = 7.263 A; both medians are of three readings.
		{"within the noise before", trace(20, 6, 7, 8, 14.2, 14.2, 14.2, 14.2, 14.2, 14.2, 14.2), 0, false, "hand: 14.2 − 7 < 7.263"},
		{"above the noise before", trace(20, 6, 7, 8, 14.3, 14.3, 14.3, 14.3, 14.3, 14.3, 14.3), 3, true, "hand: 14.3 − 7 > 7.263"},
		{"within the noise after", trace(20, 7, 7, 7, 13, 14, 15, 13, 14, 15, 13), 0, false, "hand: 14 − 7 < 7.263"},
		{"it falls back between", trace(60, 6.6, 6.6, 34, 7, 34, 34), 0, false, "hand: 7 < 6.6 + 1.98"},
		{"held for 115 s", []Sample{{0, 6.6}, {60, 34}, {175, 34}}, 0, false, "boundary: 115 < 120"},
		{"57 s before is the same minute", []Sample{{0, 9}, {57, 6}, {58, 10}, {118, 10}, {178, 10}}, 0, false, "hand: 10 − 7.5 < 6·1.4826·1.5·√2"},
		{"60 s before is another minute", []Sample{{0, 9}, {60, 6}, {61, 10}, {121, 10}, {181, 10}}, 2, true, "boundary: 10 − 6 > 1.98"},
		{"62 s before is another minute", []Sample{{0, 9}, {62, 6}, {63, 10}, {123, 10}, {183, 10}}, 2, true, "hand: 10 − 6 > 1.98"},
		{"60 s after is another minute", trace(60, 6.6, 10, 34, 34), 1, true, "boundary: 10 − 6.6 > 1.98, and held"},
	} {
		at, found := HandsOver(r.trace, 6.6)
		if found != r.found || found && at != r.at {
			t.Errorf("%s: %d %v, want %d %v (%s)", r.name, at, found, r.at, r.found, r.why)
		}
	}
}

func trace(step unit.Second, amps ...unit.Ampere) (out []Sample) {
	for i, a := range amps {
		out = append(out, Sample{step * unit.Second(i), a})
	}
	return out
}

// A heater of 6.6 A hands over to about 34 A after some minutes: common
// practice, no source.
func TestHandsOver(t *testing.T) {
	for _, r := range []struct {
		name  string
		trace []Sample
		at    int
		found bool
		why   string
	}{
		{"minutes by hand", trace(60, 6.6, 6.5, 6.6, 34, 34, 33), 3, true, "hand: 27 A up, held 120 s"},
		{"not held yet", trace(60, 6.6, 6.6, 34, 34), 0, false, "boundary: held 60 s"},
		{"held exactly", trace(60, 6.6, 6.6, 34, 34, 34), 2, true, "boundary: held 120 s"},
		{"flat", trace(60, 6.6, 6.4, 6.7, 6.6, 6.5, 6.6), 0, false, "hand: below 0.3·6.6 = 1.98"},
		{"just below", trace(60, 6.6, 6.6, 8.5, 8.5, 8.5, 8.5), 0, false, "hand: 1.9 < 1.98"},
		{"just above", trace(60, 6.6, 6.6, 8.6, 8.6, 8.6, 8.6), 2, true, "hand: 2.0 > 1.98"},
		{"sawtooth", trace(60, 6.6, 34, 6.6, 34, 6.6, 34), 0, false, "hand: never held"},
		{"a spike", trace(60, 6.6, 6.6, 34, 6.6, 6.6), 0, false, "hand: one sample"},
		{"by a logger", trace(20, 6.6, 6.6, 6.6, 34, 34, 34, 34, 34, 34, 34, 34), 3, true, "hand: every 20 s"},
		{"one sample", trace(60, 34), 0, false, "boundary"},
	} {
		at, found := HandsOver(r.trace, 6.6)
		if found != r.found || found && at != r.at {
			t.Errorf("%s: %d %v, want %d %v (%s)", r.name, at, found, r.at, r.found, r.why)
		}
	}
	if _, found := HandsOver(trace(60, 1, 34, 34, 34), 0); found {
		t.Error("a heater of unknown current")
	}
}
