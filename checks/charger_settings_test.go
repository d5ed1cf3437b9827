package checks

import (
	"testing"

	"lugmark/core/finding"
	"lugmark/core/say"
)

const chargerCommon = `
	b1/sheet = sheet1
	b2/sheet = sheet1
	b3/sheet = sheet1
	b4/sheet = sheet1
	sheet1/charge-voltage-max = 14.6 V
	sheet1/charge-max = 50 A
	sheet1/capacity = 100 Ah
`

func TestChargerSettings(t *testing.T) {
	for _, r := range []struct {
		name, lines, setting string
		want                 finding.Verdict
		from                 string
	}{
		{"absorption inside", "charger1/absorption = 57.6 V", "absorption", finding.Pass, "hand: 57.6 × 1.005 = 57.888 ≤ 58.4"},
		{"absorption, last that passes", "charger1/absorption = 58.1 V", "absorption", finding.Pass, "hand: 58.1 × 1.005 = 58.3905"},
		{"absorption, error just reaches over", "charger1/absorption = 58.12 V", "absorption", finding.CantTell, "boundary: 58.12 × 1.005 = 58.4106 > 58.4"},
		{"absorption, error reaches over", "charger1/absorption = 58.2 V", "absorption", finding.CantTell, "hand: 58.2 × 1.005 = 58.491 > 58.4"},
		{"absorption at the maker's limit", "charger1/absorption = 58.4 V", "absorption", finding.CantTell, "boundary: 58.692 > 58.4"},
		{"absorption above it", "charger1/absorption = 58.5 V", "absorption", finding.Fail, "hand: 58.5 > 4 × 14.6"},
		{"lead-acid absorption", "charger1/absorption = 59.2 V", "absorption", finding.Fail, "hand: 4 × 14.8"},
		{"least absorption", "charger1/absorption = 56.0 V", "absorption", finding.Pass, "boundary: 4 × 14.0"},
		{"absorption too low", "charger1/absorption = 55.9 V", "absorption", finding.Fail, "hand: 55.9 < 56"},
		{"absorption not read back", "", "absorption", finding.ToDo, "boundary: missing is not zero"},
		{"one block alone", "charge1/target = b1\ncharger1/absorption = 57.6 V", "absorption", finding.Fail, "hand: 57.6 > 14.6"},
		{"one block alone, its own setting", "charge1/target = b1\ncharger1/absorption = 14.4 V", "absorption", finding.Pass, "hand: 14.472 ≤ 14.6"},
		{"float", "charger1/float = 55.2 V", "float", finding.Pass, "boundary: 4 × 13.8"},
		{"float too high", "charger1/float = 55.3 V", "float", finding.Fail, "hand: 55.3 > 55.2"},
		{"float of a smaller bank", "charger1/float = 47.9 V", "float", finding.CantTell, "hand: 47.9 < 4 × 12"},
		{"lowest float", "charger1/float = 48.0 V", "float", finding.Pass, "boundary: 4 × 12"},
		{"float off", "charger1/float = 0 V", "float", finding.Pass, "hand: zero was typed: off"},
		{"float not entered", "", "float", finding.ToDo, "boundary: missing is not off"},
		{"equalise off", "charger1/equalise = off", "equalise", finding.Pass, "common practice, no source"},
		{"equalise on", "charger1/equalise = on", "equalise", finding.Fail, "common practice, no source: lead-acid profile"},
		{"equalise not entered", "", "equalise", finding.ToDo, "boundary"},
		{"compensation on", "charger1/temp-comp = on", "temp-comp", finding.Fail, "common practice, no source: 0 mV/K"},
		{"recover on", "charger1/recover = on", "recover", finding.Fail, "common practice, no source"},
		{"recover off", "charger1/recover = off", "recover", finding.Pass, "common practice, no source"},
		{"current at the limit", "charger1/set-current = 50 A", "current", finding.Pass, "boundary: one string carries all"},
		{"current above", "charger1/set-current = 51 A", "current", finding.Fail, "hand: 51 > 50"},
		{"two chargers into one string", "charger1/set-current = 30 A\ncharger2/set-current = 45 A", "current", finding.Fail, "hand: 30 + 45 = 75 > 50"},
		{"current not entered", "", "current", finding.ToDo, "boundary"},
		{"absorption not measured yet", "charger1/absorption = 57.6 V", AbsorptionMeasured, finding.ToDo, "hand: only the first charge shows it"},
		{"absorption measured", "charger1/absorption-at-posts = 57.6 V", AbsorptionMeasured, finding.Pass, "hand: ±(0.288 + 0.3) V in 56 … 58.4"},
		{"absorption measured near the top", "charger1/absorption-at-posts = 57.9 V", AbsorptionMeasured, finding.CantTell, "hand: 57.9 + 0.59 > 58.4"},
		{"absorption measured above", "charger1/absorption-at-posts = 59.10 V", AbsorptionMeasured, finding.Fail, "hand: 59.10 − 0.33 > 58.4"},
	} {
		t.Run(r.name, func(t *testing.T) {
			x := setting(t, fixture(t, fourInSeries, chargerCommon, r.lines), r.setting)
			if x.Verdict() != r.want {
				t.Errorf("got %v (%s), want %v (%s)", x.Verdict(), say.Voice{}.Say(x.Reason()), r.want, r.from)
			}
		})
	}
}

func TestChargeCurrentIsSharedByStrings(t *testing.T) {
	// hand: links of 0.25 mΩ and strings of two of 5 mΩ (10.25 mΩ): shares near
	// one half. 80 A puts about 40 A into each; ±10 % of resistance moves it to
	// 45 at most. 110 A puts more than 50 A into one of them at any rate.
	lines := "b1/resistance = 5.0 mOhm\nb2/resistance = 5.0 mOhm\nb3/resistance = 5.0 mOhm\nb4/resistance = 5.0 mOhm\n"
	for amps, want := range map[string]finding.Verdict{"80 A": finding.Pass, "98 A": finding.CantTell, "120 A": finding.Fail} {
		x := setting(t, fixture(t, twoByTwo, chargerCommon, lines, "charger1/set-current = "+amps), "current")
		if x.Verdict() != want {
			t.Errorf("%s: got %v (%s), want %v", amps, x.Verdict(), say.Voice{}.Say(x.Reason()), want)
		}
	}
}

func TestEverySettingOfEveryChargerIsNamed(t *testing.T) {
	f := fixture(t, fourInSeries, chargerCommon, "charger1/float = 0 V\ncharger2/float = 0 V")
	for _, charger := range []string{"charger1", "charger2"} {
		seen := map[string]bool{}
		for _, x := range judged(t, f, chargerSettings, charger) {
			l, ok := x.Limit()
			if !ok || seen[l.Name] {
				t.Errorf("%s: a finding without its own name: %v", charger, l.Name)
			}
			seen[l.Name] = true
		}
		if len(seen) != 7 {
			t.Errorf("%s: %v", charger, seen)
		}
	}
}

func TestASkippedSettingSpeaksForItselfAlone(t *testing.T) {
	f := fixture(t, fourInSeries, chargerCommon, "charger1/equalise = skip cannot no-access\ncharger1/absorption-at-posts = skip later wait")
	for name, want := range map[string]finding.Verdict{"equalise": finding.CantTell, AbsorptionMeasured: finding.Later, "float": finding.ToDo} {
		if x := setting(t, f, name); x.Verdict() != want {
			t.Errorf("%s: got %v, want %v", name, x.Verdict(), want)
		}
	}
}

// setting picks the finding about one setting of the first charger.
func setting(t *testing.T, f *Facts, name string) finding.Finding {
	t.Helper()
	for _, x := range judged(t, f, chargerSettings, "charger1") {
		if l, ok := x.Limit(); ok && l.Name == name {
			return x
		}
	}
	t.Fatalf("no finding about %s", name)
	return finding.Finding{}
}
