package unit_test

import (
	"math"
	"strings"
	"testing"

	"lugmark/core/unit"
)

func TestParseReadsWhatPeopleType(t *testing.T) {
	rows := []struct {
		text   string
		want   unit.Symbol
		digits string
		unit   unit.Symbol
		value  float64
		step   float64
		from   string
	}{
		{"13.20", "V", "13.20", "V", 13.20, 0.01, "hand"},
		{"13,20", "V", "13.20", "V", 13.20, 0.01, "hand: a lone comma is decimal"},
		{" 13,20 V ", "V", "13.20", "V", 13.20, 0.01, "hand"},
		{"13.2", "V", "13.2", "V", 13.2, 0.1, "hand: the missing zero is a coarser meter"},
		{"\u0661\u0663\u066b\u0662", "V", "13.2", "V", 13.2, 0.1, "hand: Arabic-Indic digits"},
		{"\u22123", "C", "-3", "C", -3, 1, "hand: typographic minus"},
		{"-0.0", "C", "0.0", "C", 0, 0.1, "hand: never minus zero"},
		{".5", "mV", "0.5", "mV", 0.0005, 0.0001, "hand"},
		{"12 mV", "V", "12", "mV", 0.012, 0.001, "hand"},
		{"32 F", "C", "32", "F", 0, 1 / 1.8, "definition: 32 °F is 0 °C"},
		{"140 °F", "C", "140", "F", 60, 1 / 1.8, "definition: 140 °F is 60 °C"},
		{"1 in.lb", "N.m", "1", "in.lb", 0.1129848290276167, 0.1129848290276167, "NIST SP 811: 1.129 848 E-01"},
		{"1 ft.lb", "N.m", "1", "ft.lb", 1.3558179483314004, 1.3558179483314004, "NIST SP 811: 1.355 818"},
		{"10 Nm", "N.m", "10", "N.m", 10, 1, "hand"},
	}
	for _, r := range rows {
		n, slip := unit.Parse(r.text, r.want, true)
		if slip != nil {
			t.Errorf("%q: refused: %v", r.text, slip)
			continue
		}
		if n.Digits != r.digits || n.Unit != r.unit || !(math.Abs(n.Value-r.value) <= 1e-12*math.Max(1, math.Abs(r.value))) || !(math.Abs(n.Step-r.step) <= 1e-12) {
			t.Errorf("%q: got %+v, want %s %s = %v step %v (%s)", r.text, n, r.digits, r.unit, r.value, r.step, r.from)
		}
		if math.Signbit(n.Value) && n.Value == 0 {
			t.Errorf("%q: minus zero", r.text)
		}
	}
}

func TestParseRefusesWithASentence(t *testing.T) {
	rows := []struct{ text, want, part string }{
		{"", "V", "Nothing"},
		{"1.3.2", "V", "more than one"},
		{"1,234.5", "V", "more than one"},
		{"5o.2", "V", "“o”"},
		{"abc", "V", "“abc”"},
		{"13.2 A", "V", "asks for V"},
		{"13.2 bar", "V", "neither a digit nor a unit"},
		{"-5", "Ah", "below zero"},
		{"--5", "V", "“-”"},
		{"1234567890123", "V", "too many"},
		{"123456.7890123", "V", "too many"},
		{"+-5", "V", "“-”"},
	}
	for _, r := range rows {
		_, slip := unit.Parse(r.text, unit.Symbol(r.want), r.want == "V")
		if slip == nil || !strings.Contains(slip.Error(), r.part) {
			t.Errorf("%q: got %v, want a sentence with %q", r.text, slip, r.part)
		}
	}
}

func TestStoredAcceptsOnlyWhatParseLeaves(t *testing.T) {
	for _, good := range []string{"13.20", "-0.5", "0", "100"} {
		if _, ok := unit.Stored(good, "V"); !ok {
			t.Errorf("%q refused", good)
		}
	}
	for _, bad := range []string{"13,20", "+1", "1e3", "", " 1", "-0", "--5", ".5", "NaN", "Inf", "0x10"} {
		if _, ok := unit.Stored(bad, "V"); ok {
			t.Errorf("%q accepted", bad)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"13.20", "1,2,3", "-", "٣", "5 V", "\xff", "1e9", "..", "−−1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		n, slip := unit.Parse(s, "V", true)
		if slip != nil {
			return
		}
		again, ok := unit.Stored(n.Digits, n.Unit)
		if !ok || again != n {
			t.Fatalf("%q: %+v does not read back: %+v %v", s, n, again, ok)
		}
	})
}

// A record has one spelling of each number.
func FuzzStored(f *testing.F) {
	for _, s := range []string{"13.20", "-13.20", "0", "-0", "00", "1e3", "13,20", ".5", "5.", "\xff", "٣", "NaN"} {
		f.Add(s, "V")
	}
	f.Add("18", "C")
	f.Add("18", "furlong")
	f.Fuzz(func(t *testing.T, digits, symbol string) {
		n, ok := unit.Stored(digits, unit.Symbol(symbol))
		if ok && (n.Digits != digits || n.Unit != unit.Symbol(symbol) || math.IsNaN(n.Value) || math.IsInf(n.Value, 0) || !(n.Step > 0)) {
			t.Fatalf("%q %q is read as %+v", digits, symbol, n)
		}
	})
}
