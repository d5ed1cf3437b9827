package conductor

import (
	"fmt"
	"math"
	"testing"

	"lugmark/core/cite"
	"lugmark/core/unit"
)

func ExampleTerminalAmpacity() {
	size, _ := Parse("35 mm2", "IEC 60228")
	a, ok := TerminalAmpacity(size, 75)
	fmt.Println(a.Amps, a.Row, ok)
	// Output: 115 {2 AWG} true
}

func size(t *testing.T, text, standard string) Size {
	t.Helper()
	s, slip := Parse(text, standard)
	if slip != nil {
		t.Fatal(slip)
	}
	return s
}

// Diameters [in] as an electronics dictionary prints them, areas [mm²] by hand.
func TestGaugesFollowTheFormula(t *testing.T) {
	for g, inches := range map[gauge]float64{
		aught4: 0.460, aught3: 0.40964, aught2: 0.3648, aught1: 0.32486, 1: 0.2893, 2: 0.25763, 10: 0.10190, 14: 0.064084,
	} {
		if got := float64(g.diameter()) / 0.0254; !(math.Abs(got-inches) <= 5e-5) {
			t.Errorf("gauge %d: %.6f in, published %.6f in", g, got, inches)
		}
	}
	for g, area := range map[gauge]float64{
		aught4: 107.219, aught2: 67.431, aught1: 53.475, 2: 33.631, 4: 21.151, 6: 13.302, 8: 8.366, 10: 5.261,
	} {
		if got := float64(g.area()); !(math.Abs(got-area) <= 1e-3) {
			t.Errorf("gauge %d: %.4f mm², want %.3f mm²", g, got, area)
		}
	}
	// hand: 460² = 211 600 cmil
	if mils := float64(aught4.area()) / circularMil; !(math.Abs(mils-211600) <= 0.1) {
		t.Errorf("4/0 has %.1f cmil", mils)
	}
}

func TestCopper(t *testing.T) {
	// NBS Handbook 100 (from memory): 4/0 0.04901, 10 AWG 0.9989 Ω per 1000 ft at 20 °C.
	for g, want := range map[gauge]float64{aught4: 0.04901, 10: 0.9989} {
		if got, ok := Copper(g.area(), 304.8, 20); !ok || !(math.Abs(float64(got)-want) <= 1e-4*want+1e-6) {
			t.Errorf("gauge %d: %v Ω per 1000 ft, want %v", g, got, want)
		}
	}
	// hand: 2·3 m·200 A at 107.219 mm²: 0.1930 V
	if got, _ := Copper(aught4.area(), 6, 20); !(math.Abs(200*float64(got)-0.1930) <= 5e-5) {
		t.Errorf("4/0, 3 m: %v V", 200*got)
	}
	for _, bad := range []struct {
		area   unit.SquareMillimetre
		length unit.Metre
		at     unit.Celsius
	}{{0, 1, 20}, {1, 0, 20}, {-1, 1, 20}, {1, 1, unit.Celsius(math.NaN())}} {
		if r, ok := Copper(bad.area, bad.length, bad.at); ok {
			t.Errorf("%v gave %v", bad, r)
		}
	}
}

// hand: 304.8 m · ρ20/A · 1.02 · (1 + 0.00393·55) is within 2 % of every row.
func TestTable8AgreesWithCopper(t *testing.T) {
	for g, printed := range table8 {
		solid, _ := Copper(g.area(), 304.8, 75)
		if got := stranding * float64(solid); !(math.Abs(got-printed) <= 0.025*printed) {
			t.Errorf("gauge %d: %.4f, table %.4f Ω per 1000 ft", g, got, printed)
		}
	}
}

func TestResistance(t *testing.T) {
	const km = 1000
	tests := []struct {
		size, standard string
		at             unit.Celsius
		want           float64 // Ω/km
		tolerance      float64
		source         cite.Source
		from           string
	}{
		{"4/0 AWG", "", 75, 0.1995, 1e-4, cite.NECTable8, "NEC Table 8: 0.0608 Ω per 1000 ft"},
		{"6 AWG", "", 75, 1.611, 1e-3, cite.NECTable8, "NEC Table 8 in Ω/km"},
		{"2/0 AWG", "", 75, 0.317, 1e-3, cite.NECTable8, "NEC Table 8 in Ω/km"},
		{"4/0 AWG", "", 20, 0.16402, 2e-4, cite.NECTable8, "hand: 0.19948/1.21615"},
		{"35 mm2", "IEC 60228 class 5", 20, 0.554, 1e-9, cite.IEC60228, "IEC 60228 table"},
		{"35 mm2", "IEC 60228 class 2", 20, 0.524, 1e-9, cite.IEC60228, "IEC 60228 table"},
		{"35 mm2", "IEC 60228", 20, 0.565, 1e-9, cite.IEC60228, "IEC 60228 table, the worst class"},
		{"50 mm2", "IEC 60228 class 5", 60, 0.4478, 1e-4, cite.IEC60228, "hand: 0.386·290/250"},
		{"35 mm2", "", 20, 0.58128, 1e-4, cite.IEC60028, "hand: 1.18·1000/58/35"},
		{"2 SAE", "", 20, 0.55575, 1e-4, cite.IEC60028, "hand: 1.02·1000/58/31.644"},
	}
	for _, tt := range tests {
		r, source, ok := size(t, tt.size, tt.standard).Resistance(km, tt.at)
		if !ok || source != tt.source || !(math.Abs(float64(r)-tt.want) <= tt.tolerance) {
			t.Errorf("%s %s at %v °C: %v Ω/km by %s, want %v (%s)", tt.size, tt.standard, tt.at, r, source.ID, tt.want, tt.from)
		}
	}
	if _, _, ok := (Size{}).Resistance(1, 20); ok {
		t.Error("the zero Size has a resistance")
	}
}

// IEC 60228 as reproduced: factor that takes a resistance back to 20 °C.
func TestIECCorrectionIsThePrintedTable(t *testing.T) {
	s := size(t, "35 mm2", "IEC 60228 class 5")
	for at, printed := range map[unit.Celsius]float64{5: 1.064, 10: 1.042, 25: 0.980, 40: 0.926, 60: 0.862, 75: 0.820, 90: 0.781} {
		r, _, _ := s.Resistance(1000, at)
		if got := 0.554 / float64(r); !(math.Abs(got-printed) <= 6e-4) {
			t.Errorf("%v °C: %.4f, printed %.3f", at, got, printed)
		}
	}
}

func TestDrop(t *testing.T) {
	tests := []struct {
		size, standard string
		length         unit.Metre
		amps           unit.Ampere
		at             unit.Celsius
		want           float64
		from           string
	}{
		{"4/0 AWG", "", 3, 200, 75, 0.2394, "hand: 6 m·200 A·0.19948 mΩ/m"},
		{"50 mm2", "IEC 60228 class 5", 2.5, 150, 20, 0.2895, "hand: 5 m·150 A·0.386 mΩ/m"},
	}
	for _, tt := range tests {
		got, _, ok := size(t, tt.size, tt.standard).Drop(tt.length, tt.amps, tt.at)
		if !ok || !(math.Abs(float64(got)-tt.want) <= 5e-5) {
			t.Errorf("%s: %v V, want %v V (%s)", tt.size, got, tt.want, tt.from)
		}
	}
}

// A switch maker's chart: 12 V, 10 %, 40 ft of circuit at 45 A needs 8 AWG.
func TestDropChoosesTheSizeOfThePublishedChart(t *testing.T) {
	const oneWay, allowed = 20 * 0.3048, 1.2
	eight, _, _ := size(t, "8 AWG", "").Drop(oneWay, 45, 20)
	ten, _, _ := size(t, "10 AWG", "").Drop(oneWay, 45, 20)
	if eight > allowed || ten <= allowed {
		t.Errorf("8 AWG loses %v V, 10 AWG %v V of %v V", eight, ten, allowed)
	}
}

func TestHeat(t *testing.T) {
	// hand: 100²·1.611e-3 and 200²·0.31726e-3
	for text, want := range map[string]struct{ amps, watts float64 }{"6 AWG": {100, 16.1}, "2/0 AWG": {200, 12.7}} {
		if got, _, ok := size(t, text, "").Heat(unit.Ampere(want.amps), 75); !ok || !(math.Abs(float64(got)-want.watts) <= 0.05) {
			t.Errorf("%s: %v W/m, want %v", text, got, want.watts)
		}
	}
}
