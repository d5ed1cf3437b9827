package conductor

import (
	"math"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	tests := []struct {
		size, standard string
		want           string
		std            Standard
		area           float64
		from           string
	}{
		{"2/0 AWG", "", "2/0 AWG", ASTM, 67.431, "ASTM B258 by hand: π/4·9.2658²"},
		{"AWG 4/0", "", "4/0 AWG", ASTM, 107.219, "ASTM B258 by hand"},
		{"#2 awg", "UL 1426", "2 AWG", ASTM, 33.631, "ASTM B258 by hand"},
		{"00 AWG copper", "", "2/0 AWG", ASTM, 67.431, "00 is 2/0"},
		{"4/0 SAE", "", "4/0 SAE", SAE, 104.128, "hand: 205 500 cmil · 5.067075e-4"},
		{"2/0 AWG", "SAE J1127", "2/0 SAE", SAE, 63.389, "hand: 125 100 cmil; the jacket wins"},
		{"3/0", "SAE", "3/0 SAE", SAE, 74.825, "hand: 0.88 · 85.029"},
		{"250 kcmil", "", "250 kcmil", ASTM, 126.677, "hand: 250 · 0.5067075"},
		{"300 MCM", "", "300 kcmil", ASTM, 152.012, "hand: 300 · 0.5067075"},
		{"2000 kcmil", "", "2000 kcmil", ASTM, 1013.415, "boundary: 2000 · 0.5067075"},
		{"40 AWG", "", "40 AWG", ASTM, 0.005, "ASTM B258 by hand: π/4·0.0799²"},
		{"35 mm2", "IEC 60228", "35 mm2", IEC, 35, "as printed"},
		{"35 mm²", "iec 60228 class 5 tinned", "35 mm2", IEC, 35, "as printed"},
		{"2,5mm²", "IEC 60228", "2.5 mm2", IEC, 2.5, "as printed"},
		{"35 mm2", "", "35 mm2", Unstated, 35, "as printed"},
		{"35 mm2", "works norm 7", "35 mm2", Unstated, 35, "a standard not known here"},
		{"2/0", "", "2/0 gauge", Unstated, 63.389, "hand: the smaller of both, 125 100 cmil"},
	}
	for _, tt := range tests {
		s, slip := Parse(tt.size, tt.standard)
		if slip != nil {
			t.Errorf("%q, %q: %v", tt.size, tt.standard, slip)
			continue
		}
		if s.String() != tt.want || s.Standard != tt.std || !(math.Abs(float64(s.Area)-tt.area) <= 2e-3) {
			t.Errorf("%q, %q: %s, standard %d, %.3f mm², want %s, %d, %.3f mm² (%s)",
				tt.size, tt.standard, s, s.Standard, float64(s.Area), tt.want, tt.std, tt.area, tt.from)
		}
	}
	if s, _ := Parse("35 mm²", "iec 60228 class 5 tinned"); s.Class != 5 || !s.Tinned {
		t.Errorf("class 5 tinned read as %d, %v", s.Class, s.Tinned)
	}
	if s, _ := Parse("35 mm²", "IEC 60228"); s.Class != 0 {
		t.Errorf("no class read as %d", s.Class)
	}
}

func TestParseSaysWhatIsWrong(t *testing.T) {
	tests := []struct{ size, standard, says string }{
		{"", "", "not a cable size"},
		{"thick", "", "not a cable size"},
		{"35", "", "needs its unit"},
		{"4", "IEC", "needs its unit"},
		{"1/2 AWG", "", "not a cable size"},
		{"0 mm2", "", "not a cable size"},
		{"1e3 mm2", "", "not a cable size"},
		{"3.5 AWG", "", "not a cable size"},
		{"50 AWG", "", "not a cable size"},
		{"41 AWG", "", "not a cable size"},
		{"249 kcmil", "", "not a cable size"},
		{"2001 kcmil", "", "not a cable size"},
		{"250 kcmil", "SAE", "does not belong"},
		{"2/0 AWG CCA", "", "aluminium"},
		{"35 mm2", "copper-clad aluminium", "aluminium"},
		{"35 mm2", "SAE", "does not belong"},
		{"2/0 AWG", "IEC 60228", "does not belong"},
	}
	for _, tt := range tests {
		if s, slip := Parse(tt.size, tt.standard); slip == nil || !strings.Contains(slip.Error(), tt.says) {
			t.Errorf("%q, %q: %v, %v; want %q", tt.size, tt.standard, s, slip, tt.says)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"2/0 AWG", "35 mm2", "4/0 SAE", "250 kcmil", "0", "1/0", "+2 AWG", "mm2mm2"} {
		f.Add(s, "IEC 60228 class 5")
		f.Add(s, "")
	}
	f.Fuzz(func(t *testing.T, size, standard string) {
		s, slip := Parse(size, standard)
		if (slip == nil) != (s != Size{}) {
			t.Fatalf("%q, %q: both or neither of %v and %v", size, standard, s, slip)
		}
		if slip == nil && (!(s.Area > 0) || s.Area > 1100) {
			t.Fatalf("%q, %q: %v mm²", size, standard, s.Area)
		}
	})
}
