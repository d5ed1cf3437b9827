package checks

import (
	"fmt"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

// Two blocks of string A as a visit read them, with m1: ±(0.05 % + 3 counts) of
// 1 mV, so 9.7 mV for one reading; of a difference of 20 mV U is 0.82 mV.
func restAt(visit, a, b string) string {
	return fmt.Sprintf("%[1]s: b1/rest-voltage = %[2]s V, m1\n%[1]s: b2/rest-voltage = %[3]s V, m1\n", visit, a, b)
}

const againRested = goodMeter + `
	v2: bank/last-current = -14h
	v2: bank/full-before = yes
`

func TestMatchAgain(t *testing.T) {
	alike := restAt("v1", "13.300", "13.302")
	walk(t, twoByTwo, matchAgain, againRested, []row{
		{"nothing read today", alike, "sA", finding.ToDo, "a reading is never inherited"},
		{"one not read today", alike + "v2: b1/rest-voltage = 13.300 V, m1", "sA", finding.ToDo, "boundary"},
		{"alike", alike + restAt("v2", "13.300", "13.302"), "sA", finding.Pass, "hand: 2 + 0.8 ≤ 20 mV"},
		{"19 mV", alike + restAt("v2", "13.300", "13.319"), "sA", finding.Pass, "boundary: 19 + 0.82 ≤ 20 mV"},
		{"20 mV", alike + restAt("v2", "13.300", "13.320"), "sA", finding.CantTell, "boundary: 20 ± 0.82 mV"},
		{"21 mV", alike + restAt("v2", "13.300", "13.321"), "sA", finding.Fail, "hand: 21 − 0.82 > 20 mV"},
		{"25 mV, it was 18", restAt("v1", "13.300", "13.318") + restAt("v2", "13.300", "13.325"), "sA", finding.Pass, "hand: 18 − 0.82 + 10 = 27.18; 25 + 0.82"},
		{"26 mV, it was 18", restAt("v1", "13.300", "13.318") + restAt("v2", "13.300", "13.326"), "sA", finding.Pass, "boundary: 26 + 0.82 ≤ 18 − 0.82 + 10"},
		{"27 mV, it was 18", restAt("v1", "13.300", "13.318") + restAt("v2", "13.300", "13.327"), "sA", finding.CantTell, "hand: 27 + 0.82 > 27.18"},
		{"28 mV, it was 18", restAt("v1", "13.300", "13.318") + restAt("v2", "13.300", "13.328"), "sA", finding.CantTell, "hand: 28 − 0.82 < 18 + 0.82 + 10"},
		{"30 mV, it was 18", restAt("v1", "13.300", "13.318") + restAt("v2", "13.300", "13.330"), "sA", finding.Fail, "hand: 30 − 0.82 > 28.82"},
		{"coarse then, no more allowed", "b1/rest-voltage = 13.30 V, m1\nb2/rest-voltage = 13.32 V, m1\n" + restAt("v2", "13.300", "13.325"), "sA", finding.CantTell, "hand: 20 − 8.2 + 10 = 21.8 < 25.8, and 25 − 0.8 < 38"},
		{"nothing read then, within 20 mV", restAt("v2", "13.300", "13.310"), "sA", finding.Pass, "the fixed limit needs no baseline"},
		{"read near the top then", restAt("v1", "13.500", "13.560") + restAt("v2", "13.300", "13.330"), "sA", finding.Fail, "what was read near the top allows nothing more"},
		{"near the top today", alike + restAt("v2", "13.445", "13.445"), "sA", finding.CantTell, "hand: 13.445 + 0.0097 > 13.45"},
		{"the second near the top today", alike + restAt("v2", "13.440", "13.445"), "sA", finding.CantTell, "hand: 13.445 + 0.0097 > 13.45"},
		{"the first near the top today", alike + restAt("v2", "13.445", "13.440"), "sA", finding.CantTell, "hand: 13.445 + 0.0097 > 13.45"},
		{"near the top today, far apart", alike + restAt("v2", "13.400", "13.500"), "sA", finding.CantTell, "above 13.45 V good blocks differ by tens of mV"},
		{"just below the top", alike + restAt("v2", "13.440", "13.440"), "sA", finding.Pass, "boundary: 13.440 + 0.0097 ≤ 13.45"},
		{"the other string not read", alike, "sB", finding.ToDo, "boundary"},
	})
	walk(t, twoByTwo, matchAgain, goodMeter+restAt("v2", "13.300", "13.302"), []row{
		{"nobody says whether it was full", "v2: bank/last-current = -14h", "sA", finding.ToDo, "missing is never good"},
		{"it was not full", "v2: bank/last-current = -14h\nv2: bank/full-before = no", "sA", finding.CantTell, "on the flat part unequal blocks read alike"},
		{"rested 11 hours", "v2: bank/last-current = -11h\nv2: bank/full-before = yes", "sA", finding.CantTell, "boundary: 12 h"},
		{"the rest of the first visit does not count", "bank/last-current = -14h\nv2: bank/full-before = yes", "sA", finding.CantTell, "a reading is never inherited"},
	})
	walk(t, twoByTwo, matchAgain, goodMeter+"v2: bank/full-before = yes\n", []row{
		{"apart, not rested", "v2: bank/last-current = -2h\n" + restAt("v2", "13.300", "13.390"), "sA", finding.CantTell, "rest could bring them together"},
		{"far apart, not rested", "v2: bank/last-current = -2h\n" + restAt("v2", "13.200", "13.390"), "sA", finding.Fail, "hand: 190 mV is more than any creep of 100 mV"},
	})
	f := fixture(t, bank.New(1, 3, bank.JoinStrings, bank.OneEnd), "v2: bank/built-again = no")
	if got, _ := verdict(t, f, matchAgain, "bank"); got != finding.NotNeeded {
		t.Errorf("blocks side by side: %v", got)
	}
}
