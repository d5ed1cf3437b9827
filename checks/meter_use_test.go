package checks

import (
	"strings"
	"testing"

	"lugmark/core/say"
	"lugmark/core/unit"
)

func TestAReadingBelongsToTheMeterOfItsUnit(t *testing.T) {
	for typed, want := range map[unit.Symbol]string{ // hand: by what such a meter is for
		"V": "use-volts", "mV": "use-millivolts", "A": "use-amperes", "mA": "use-milliamperes", "C": "use-celsius", "F": "use-celsius",
		"MOhm": "use-insulation", "kOhm": "use-insulation", "Ohm": "use-ohms", "mOhm": "use-milliohms", "uOhm": "use-milliohms",
		"kg": "use-kilograms", "lb": "use-kilograms", "mm": "use-metres", "in": "use-metres", "N.m": "use-torque", "in.lb": "use-torque",
	} {
		if u, ok := UseFor(typed); !ok || u.Field.ID != want {
			t.Errorf("%s: %v, want %s", typed, u.Field.Spec, want)
		}
	}
	for _, none := range []unit.Symbol{"Ah", "s", "%", "1", "", "furlong"} {
		if u, ok := UseFor(none); ok {
			t.Errorf("%s: %s, want no meter", none, u.Field.ID)
		}
	}
	for _, r := range []struct {
		quantity unit.Symbol
		top      float64
		want     string
	}{ // boundary: below 1 of the base unit, and from a megohm
		{"V", 60, "use-volts"}, {"V", 1, "use-volts"}, {"V", 0.6, "use-millivolts"}, {"V", 0, "use-volts"}, {"A", 0.4, "use-milliamperes"}, {"A", 400, "use-amperes"},
		{"Ohm", 0.5, "use-milliohms"}, {"Ohm", 200, "use-ohms"}, {"Ohm", 1e6, "use-insulation"}, {"Ohm", 999999, "use-ohms"}, {"C", 0.5, "use-celsius"}, {"kg", 50, "use-kilograms"},
	} {
		if u, ok := UseOfRange(r.quantity, r.top); !ok || u.Field.ID != r.want {
			t.Errorf("%s up to %v: %v, want %s", r.quantity, r.top, u.Field.Spec, r.want)
		}
	}
}

// What is assumed stands on the sheet, with its figure and where it comes from.
func TestWhatIsAssumedOfAMeterIsPrinted(t *testing.T) {
	const insulated = "bank/insulation-volts = 500 V\nbank/insulation-free = yes\nbank/insulation-proved = yes\n"
	for _, r := range []struct {
		check       *Check
		lines, want string
		from        string
	}{
		{cableInsulation, insulated + "bank/cable-insulation = 25 MOhm", "±30 % assumed, the most after IEC 61557-2", "IEC 61557-2, 6.2"},
		{bondCheck, "bank/bond-plan = minus\nbank/bond-places = 1\nbank/bond-resistance = 0.2 Ohm", "±30 % assumed, the most after IEC 61557-4", "IEC 61557-4, from memory"},
		{massCheck, "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/mass = 12 kg\nb1/mass = 12.0 kg\nb2/mass = 12.0 kg\nb3/mass = 12.0 kg\nb4/mass = 12.0 kg", "Scale ±1 % assumed", "common hand scales, from memory"},
	} {
		all := ""
		for _, x := range judged(t, fixture(t, fourInSeries, r.lines), r.check, "bank") {
			for _, a := range x.Assumed() {
				all += say.Voice{}.Say(a) + "\n"
			}
		}
		if all = strings.ReplaceAll(all, "\u00a0", " "); !strings.Contains(all, r.want) || strings.Contains(all, "oltmeter") {
			t.Errorf("%s: %q, want %q (%s)", r.check.ID, all, r.want, r.from)
		}
	}
}

// A scale and a rule with a sheet are used with it.
func TestScalesAndRulesHaveSheets(t *testing.T) {
	f := fixture(t, fourInSeries, "m7/measures = kg\nm7/percent = 0 %\nm7/counts = 2\nm7/step = 0.01 kg\nm8/measures = m\nm8/percent = 0 %\nm8/counts = 1\nm8/step = 1 mm\n"+
		"b1/mass = 12.00 kg, m7\nb2/mass = 12.00 kg\nb1/block-length = 331 mm, m8\nb2/block-length = 331 mm")
	f.begin()
	for block, want := range map[string][2]float64{ // hand: 2 counts of 10 g, 1 count of 1 mm; 1 % and half a digit, 2 mm
		"b1": {0.02, 0.001}, "b2": {0.125, 0.002},
	} {
		m, _ := blockMass.Read(f, block)
		l, _ := blockLength.Of(f, block)
		if r := f.byRule(l); !about(float64(m.U), want[0]) || !about(float64(r.U), want[1]) {
			t.Errorf("%s: ±%v kg, ±%v m, want %v", block, m.U, r.U, want)
		}
	}
}

func about(a, b float64) bool { return a-b < 1e-9 && b-a < 1e-9 }
