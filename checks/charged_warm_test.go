package checks

import (
	"strings"
	"testing"

	"lugmark/core/finding"
	"lugmark/core/say"
)

// A contact thermometer whose sheet is not entered is taken as ±2 K, so +2.0 °C
// is not above 0 °C and +2.1 °C is. The limits are those of the cold gate.
func TestABlockAloneIsChargedWarm(t *testing.T) {
	const common = goodMeter + goodShunt + oneSheet
	settled := "bank/settled = no\n"
	at := func(temp string) string {
		charge := full("14.40 V", "3.00 A", "14.40 V", "2.50 A", "fell-slowly")
		return strings.Replace(charge, "b1/full-temperature = 18 C, at -672s", temp, 1)
	}
	walk(t, twoByTwo, chargedFull, common, []row{
		{"warm", settled + at("b1/full-temperature = 18 C, at -672s"), "b1", finding.Pass, "hand: 18 − 2 > 0"},
		{"just above freezing", settled + at("b1/full-temperature = 2.1 C, at -672s"), "b1", finding.Pass, "boundary: 2.1 − 2 > 0"},
		{"about freezing", settled + at("b1/full-temperature = 2.0 C, at -672s"), "b1", finding.CantTell, "boundary: 2.0 − 2 is not above 0"},
		{"frozen", settled + at("b1/full-temperature = -8.2 C, at -672s"), "b1", finding.Fail, "hand: −8.2 + 2 ≤ 0"},
		{"hot", settled + at("b1/full-temperature = 48 C, at -672s"), "b1", finding.Fail, "hand: 48 − 2 > 45"},
		{"hotter than its maker wants", settled + "sheet1/charge-temp-max = 40 C\n" + at("b1/full-temperature = 43 C, at -672s"), "b1", finding.Fail, "hand: 43 − 2 > 40"},
		{"its maker wants 5 °C", settled + "sheet1/charge-temp-min = 5 C\n" + at("b1/full-temperature = 6 C, at -672s"), "b1", finding.CantTell, "hand: 6 − 2 is not above 5"},
		{"its maker allows −20 °C with its heater", settled + "sheet1/charge-temp-min = -20 C\n" + at("b1/full-temperature = -8.2 C, at -672s"), "b1", finding.CantTell, "boundary: the heater's work is not proved here"},
		{"the temperature is not known", settled + at(""), "b1", finding.ToDo, "boundary: unknown opens nothing"},
		{"put aside", settled + at("b1/full-temperature = skip not-needed agreed"), "b1", finding.NotNeeded, "boundary: what a person puts aside opens nothing"},
		{"a quarter of an hour before", settled + at("b1/full-temperature = 18 C, at -1571s"), "b1", finding.Pass, "boundary: 900 s before the first sample"},
		{"longer before", settled + at("b1/full-temperature = 18 C, at -1572s"), "b1", finding.CantTell, "boundary: 901 s before it"},
		{"a quarter of an hour after", settled + at("b1/full-temperature = 18 C"), "b1", finding.Pass, "hand: read after the last sample, 10 min ago"},
		{"came in from the cold", "bank/settled = yes\n" + at("b1/full-temperature = 18 C, at -672s"), "b1", finding.CantTell, "boundary: a cold core can sit under a warm case"},
		{"nobody says since when", at("b1/full-temperature = 18 C, at -672s"), "b1", finding.ToDo, "boundary: missing is not no"},
		{"a house wants 3 °C more", settled + "house/cold-gate.coldest = 3 C\n" + at("b1/full-temperature = 4 C, at -672s"), "b1", finding.CantTell, "hand: 4 − 2 is not above 3"},
	})
	// Before the charge: nobody is led to it.
	walk(t, twoByTwo, chargedFull, common+settled, []row{
		{"nothing read", "", "b1", finding.ToDo, "boundary: its temperature first"},
		{"frozen, not charged yet", "b1/full-temperature = -8.2 C", "b1", finding.ToDo, "the rule: warm it first"},
		{"warm, not charged yet", "b1/full-temperature = 18 C", "b1", finding.ToDo, "boundary: now its voltage"},
	})
	for lines, want := range map[string]struct {
		field, says string
		warm        bool
	}{
		"":                                       {"full-temperature", "Temperature of the block", false},
		"b1/full-temperature = -8.2 C":           {"full-temperature", "Warm this block first", false},
		"b1/full-temperature = 18 C":             {"full-voltage", "Voltage at its posts", true},
		"b1/full-temperature = 18 C, at -16m":    {"full-temperature", "Temperature of the block", false},
		"b1/full-temperature = 18 C, at -14m50s": {"full-voltage", "Voltage at its posts", true},
	} {
		f := fixture(t, twoByTwo, common, settled, lines)
		x := judged(t, f, chargedFull, "b1")[0]
		said := say.Voice{}.Say(x.Next())
		if f.WarmAlone("b1") != want.warm || !strings.Contains(strings.ToLower(said), strings.ToLower(want.says)) {
			t.Errorf("%q: warm %v, next %q; want %v, %q", lines, f.WarmAlone("b1"), said, want.warm, want.says)
		}
	}
}

// A later answer to "came in from the cold" speaks of that day, not of a charge
// before it.
func TestALaterColdDriveLeavesTheChargeOfBefore(t *testing.T) {
	f := fixture(t, twoByTwo, goodMeter+goodShunt+oneSheet+"bank/settled = no\n"+full("14.40 V", "3.00 A", "14.40 V", "2.50 A", "fell-slowly"))
	correct(t, f, "bank/settled", "yes")
	if got, why := verdict(t, f, chargedFull, "b1"); got != finding.Pass {
		t.Errorf("%v: %s", got, why)
	}
}

// No advice sends cold blocks to a charger.
func TestNoAdviceChargesAColdBlock(t *testing.T) {
	apart := strings.Replace(fourAlike, "13.281 V", "13.350 V", 1)
	for temp, warm := range map[string]string{"-8.2 C": "Warm every block", "18 C": "warm enough"} {
		cold := "b2/temperature = " + temp + "\n"
		lines := oneDelivery2 + strings.Join(strings.Split(apart, "b2/temperature = 18 C\n"), "") + cold
		f := fixture(t, twoByTwo, lines)
		for _, c := range []*Check{matchRoute, chargeLevel} {
			said := say.Voice{}.Say(judged(t, f, c, "bank")[0].Next())
			if strings.Contains(said, "harge each") && !strings.Contains(said, warm) {
				t.Errorf("%s at %s: %q", c.ID, temp, said)
			}
		}
	}
}
