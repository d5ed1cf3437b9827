package conductor

import (
	"math"
	"testing"

	"lugmark/core/cite"
	"lugmark/core/say"
	"lugmark/core/unit"
)

func TestTerminalAmpacity(t *testing.T) {
	tests := []struct {
		size, standard string
		terminal       unit.Celsius
		want           unit.Ampere
		row            string
		from           string
	}{
		{"4 AWG", "", 60, 70, "4 AWG", "worked example to 110.14(C): 65 A needs 4 AWG by 60 °C"},
		{"6 AWG", "", 75, 65, "6 AWG", "worked example to 110.14(C): or 6 AWG by 75 °C"},
		{"2/0 AWG", "", 75, 175, "2/0 AWG", "NEC Table 310.16"},
		{"2/0 AWG", "", 90, 175, "2/0 AWG", "NEC 110.14(C): 90 °C is only for corrections"},
		{"2/0 AWG", "", 70, 145, "2/0 AWG", "hand: below 75 the 60 °C column"},
		{"14 AWG", "", 60, 15, "14 AWG", "NEC Table 310.16, 2023"},
		{"5 AWG", "", 75, 65, "6 AWG", "hand: 5 AWG is not in the table"},
		{"35 mm2", "IEC 60228", 75, 115, "2 AWG", "hand: 33.6 ≤ 35 < 42.4 mm²"},
		{"50 mm2", "IEC 60228", 75, 130, "1 AWG", "hand: 42.4 ≤ 50 < 53.5 mm²"},
		{"70 mm2", "IEC 60228", 75, 175, "2/0 AWG", "hand: 67.4 ≤ 70 < 85.0 mm²"},
		{"95 mm2", "IEC 60228", 75, 200, "3/0 AWG", "hand: 85.0 ≤ 95 < 107.2 mm²"},
		{"120 mm2", "IEC 60228", 75, 230, "4/0 AWG", "hand: 107.2 ≤ 120 < 126.7 mm²"},
		{"2/0 SAE", "", 75, 150, "1/0 AWG", "hand: 125 100 cmil is less than 133 076"},
	}
	for _, tt := range tests {
		a, ok := TerminalAmpacity(size(t, tt.size, tt.standard), tt.terminal)
		if !ok || a.Amps != tt.want || (say.Voice{}).Figure(a.Row) != tt.row || a.Source != cite.NEC310_16 {
			t.Errorf("%s at %v °C: %v A by %v, want %v A by %s (%s)", tt.size, tt.terminal, a.Amps, a.Row, tt.want, tt.row, tt.from)
		}
		if sameRow := tt.size == tt.row; sameRow != a.Remark.Empty() {
			t.Errorf("%s read as %s says %q", tt.size, tt.row, say.Voice{}.Say(a.Remark))
		}
	}
}

func TestWhatTheTableDoesNotHave(t *testing.T) {
	if UnmarkedTerminal != 60 {
		t.Errorf("an unmarked terminal is taken for %v °C, not 60 (NEC 110.14(C))", UnmarkedTerminal)
	}
	if a, ok := TerminalAmpacity(size(t, "2/0 AWG", ""), 59); ok || a.Remark.Empty() {
		t.Errorf("boundary: below 60 °C: %v", a)
	}
	for _, small := range []string{"20 AWG", "30 AWG"} {
		_, terminal := TerminalAmpacity(size(t, small, ""), 75)
		_, corrected := CorrectedAmpacity(size(t, small, ""), 90, 30, 1)
		if terminal || corrected {
			t.Errorf("%s is smaller than the table, which begins at 14 AWG here", small)
		}
	}
}

func TestAnUnknownStandardHasNoAmpacity(t *testing.T) {
	for _, text := range []string{"35 mm2", "2/0"} {
		s := size(t, text, "")
		_, terminal := TerminalAmpacity(s, 75)
		_, corrected := CorrectedAmpacity(s, 90, 30, 2)
		_, boat := BoatAmpacity(s, 105, 2, false)
		a, b2 := MethodB2Ampacity(s, 30)
		if terminal || corrected || boat || b2 || a.Remark.Empty() || MayRunParallel(s) {
			t.Errorf("%s: %v %v %v %v %q", text, terminal, corrected, boat, b2, say.Voice{}.Say(a.Remark))
		}
	}
}

func TestCorrectedAmpacity(t *testing.T) {
	tests := []struct {
		size            string
		insulation, air unit.Celsius
		bundled         int
		want            float64
		from            string
	}{
		{"2/0 AWG", 90, 30, 2, 195, "NEC Table 310.16"},
		{"2/0 AWG", 90, 50, 2, 159.9, "hand: 195·0.82"},
		{"2/0 AWG", 75, 40, 4, 123.2, "hand: 175·0.88·0.80"},
		{"2/0 AWG", 200, 30, 2, 195, "hand: never above the 90 °C column"},
		{"4/0 AWG", 60, 45.5, 1, 113.1, "hand: 195·0.58, the band up to 50 °C"},
		{"4/0 AWG", 90, 5, 50, 104.65, "hand: 260·1.15·0.35"},
		{"2/0 AWG", 90, 30, 3, 195, "boundary: NEC Table 310.15(C)(1) begins at four"},
		{"2/0 AWG", 90, 30, 6, 156, "boundary: 195·0.80, up to six"},
		{"2/0 AWG", 90, 30, 9, 136.5, "boundary: 195·0.70, up to nine"},
		{"2/0 AWG", 90, 30, 20, 97.5, "boundary: 195·0.50, up to twenty"},
		{"2/0 AWG", 90, 30, 30, 87.75, "boundary: 195·0.45, up to thirty"},
		{"2/0 AWG", 90, 30, 40, 78, "boundary: 195·0.40, up to forty"},
	}
	for _, tt := range tests {
		a, ok := CorrectedAmpacity(size(t, tt.size, ""), tt.insulation, tt.air, tt.bundled)
		if !ok || !(math.Abs(float64(a.Amps)-tt.want) <= 1e-9) {
			t.Errorf("%s %v °C in %v °C, %d: %v A, want %v A (%s)", tt.size, tt.insulation, tt.air, tt.bundled, a.Amps, tt.want, tt.from)
		}
	}
	nan := unit.Celsius(math.NaN())
	s := size(t, "2/0 AWG", "")
	for _, bad := range []struct {
		insulation, air unit.Celsius
		bundled         int
	}{{60, 56, 2}, {90, 61, 2}, {90, 30, 0}, {50, 30, 2}, {nan, 30, 2}, {90, nan, 2}} {
		if a, ok := CorrectedAmpacity(s, bad.insulation, bad.air, bad.bundled); ok || a.Remark.Empty() {
			t.Errorf("%v: %v A, %q", bad, a.Amps, say.Voice{}.Say(a.Remark))
		}
	}
}

// The formula F = √((Tc − Ta)/(Tc − 30)) rounds to the printed factors.
func TestAmbientFactorsFollowTheFormula(t *testing.T) {
	for _, row := range ambient {
		for column, printed := range map[float64]float64{60: row.at60, 75: row.at75, 90: row.at90} {
			want := math.Sqrt(math.Max(0, column-float64(row.upTo)) / (column - 30))
			if !(math.Abs(want-printed) <= 0.0051) {
				t.Errorf("%v °C in %v °C: printed %v, formula %.4f", column, row.upTo, printed, want)
			}
		}
	}
}

func TestBoatAmpacity(t *testing.T) {
	s := size(t, "2/0 AWG", "")
	out, ok := BoatAmpacity(s, 105, 2, false)
	in, ok2 := BoatAmpacity(s, 105, 2, true)
	if !ok || !ok2 || out.Amps != 330 || in.Amps != 280 { // ABYC E-11 as reproduced
		t.Errorf("%v and %v A, want 330 and 280 A", out.Amps, in.Amps)
	}
	for _, row := range abycE11 { // ABYC: 0.85 in an engine space of 50 °C, rounded
		if !(math.Abs(0.85*float64(row.outside)-float64(row.inside)) <= 0.76) {
			t.Errorf("gauge %d: %v and %v A", row.gauge, row.outside, row.inside)
		}
	}
	if one, ok := BoatAmpacity(s, 105, 1, false); !ok || one.Amps != 330 {
		t.Errorf("boundary: one alone has %v A", one.Amps)
	}
	if _, ok := BoatAmpacity(size(t, "30 AWG", ""), 105, 1, false); ok {
		t.Error("smaller than the table")
	}
	if _, ok := BoatAmpacity(s, 90, 2, false); ok {
		t.Error("90 °C insulation read the 105 °C column")
	}
	if _, ok := BoatAmpacity(s, 105, 3, false); ok {
		t.Error("three conductors in a bundle")
	}
}

func TestMethodB2Ampacity(t *testing.T) {
	tests := []struct {
		size, standard string
		air            unit.Celsius
		want           unit.Ampere
		from           string
	}{
		{"35 mm2", "IEC 60228", 30, 99, "IEC 60364-5-52 as quoted"},
		{"35 mm2", "IEC 60228", 31, 86, "IEC 60364-5-52 as quoted, up to 40 °C"},
		{"35 mm2", "IEC 60228", 40, 86, "boundary: up to 40 °C"},
		{"2 AWG", "", 30, 80, "hand: 25 ≤ 33.6 < 35 mm²"},
	}
	for _, tt := range tests {
		if a, ok := MethodB2Ampacity(size(t, tt.size, tt.standard), tt.air); !ok || a.Amps != tt.want {
			t.Errorf("%s in %v °C: %v A, want %v A (%s)", tt.size, tt.air, a.Amps, tt.want, tt.from)
		}
	}
	if _, ok := MethodB2Ampacity(size(t, "35 mm2", "IEC 60228"), 41); ok {
		t.Error("hotter than the table")
	}
	if _, ok := MethodB2Ampacity(size(t, "2.5 mm2", "IEC 60228"), 30); ok {
		t.Error("smaller than the table")
	}
}

func TestMayRunParallel(t *testing.T) {
	for text, want := range map[string]bool{"1/0 AWG": true, "1 AWG": false, "4/0 AWG": true, "250 kcmil": true} { // from 1/0 up
		if got := MayRunParallel(size(t, text, "")); got != want {
			t.Errorf("%s: %v", text, got)
		}
	}
}
