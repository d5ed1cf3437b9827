package checks

import (
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/say"
)

const restedAlike = `
	bank/last-current = -14h
	b1/temperature = 18 C
	b2/temperature = 18 C
	b3/temperature = 18 C
	b4/temperature = 18 C
`

// Half-widths by hand: 2·d/√6 is 8.165 mV for a meter that shows 10 mV and
// 0.8165 mV for one that shows 1 mV; the limit is 10 mV.
func TestVoltageMatch(t *testing.T) {
	walk(t, twoByTwo, voltageMatch, "", []row{
		{"two decimals, alike", restedAlike + "b1/rest-voltage = 13.20 V\nb2/rest-voltage = 13.20 V", "sA", finding.Pass, "hand: 0 + 8.165 ≤ 10"},
		{"two decimals, one count", restedAlike + "b1/rest-voltage = 13.20 V\nb2/rest-voltage = 13.21 V", "sA", finding.CantTell, "hand: 1.8 … 18.2"},
		{"two decimals, two counts", restedAlike + "b1/rest-voltage = 13.20 V\nb2/rest-voltage = 13.22 V", "sA", finding.Fail, "hand: 20 − 8.165 > 10"},
		{"three decimals, 9 mV", restedAlike + "b1/rest-voltage = 13.201 V\nb2/rest-voltage = 13.210 V", "sA", finding.Pass, "hand: 9.82 ≤ 10"},
		{"three decimals, 10 mV", restedAlike + "b1/rest-voltage = 13.201 V\nb2/rest-voltage = 13.211 V", "sA", finding.CantTell, "boundary"},
		{"three decimals, 11 mV", restedAlike + "b1/rest-voltage = 13.201 V\nb2/rest-voltage = 13.212 V", "sA", finding.Fail, "hand: 10.18 > 10"},
		{"one reading missing", restedAlike + "b1/rest-voltage = 13.201 V", "sA", finding.ToDo, "boundary: missing is not zero"},
		{"alike, no rest known", "b1/rest-voltage = 13.20 V\nb2/rest-voltage = 13.20 V", "sA", finding.CantTell, "common practice, no source: rest first"},
		{"50 mV apart, no rest known", "b1/rest-voltage = 13.201 V\nb2/rest-voltage = 13.251 V", "sA", finding.CantTell, "hand: rest could have caused it"},
		{"0.37 V apart, no rest known", "b1/rest-voltage = 13.279 V\nb2/rest-voltage = 12.910 V", "sA", finding.Fail, "hand: above 0.10 V no rest causes it"},
		{"read while joined", restedAlike + "sA.p~sB.p/closed = yes\nsA/total-voltage = 26.40 V\nsB/total-voltage = 26.40 V", "bank", finding.CantTell, "hand: joined strings always read alike"},
		{"joined afterwards", restedAlike + "sA/total-voltage = 26.40 V\nsB/total-voltage = 26.40 V\nsA.p~sB.p/closed = yes", "bank", finding.Pass, "hand: 0 + 8.165 ≤ 10"},
		{"totals read after one hour of rest", restedAlike + "sA/total-voltage = 26.40 V, at -13h\nsB/total-voltage = 26.40 V, at -13h", "bank", finding.CantTell, "hand: last current 14 h ago, read 13 h ago"},
		{"totals read after twelve hours of rest", restedAlike + "sA/total-voltage = 26.40 V, at -2h\nsB/total-voltage = 26.40 V, at -2h", "bank", finding.Pass, "boundary: 14 − 2 = 12 h"},
		{"series link on does not matter", restedAlike + "b1.n~b2.p/closed = yes\nb1/rest-voltage = 13.20 V\nb2/rest-voltage = 13.20 V", "sA", finding.Pass, "hand: blocks in series do not equalise"},
		{"moving digits", restedAlike + "b1/rest-voltage = 13.20 V, moving\nb2/rest-voltage = 13.20 V, moving", "sA", finding.CantTell, "hand: 18.26 > 10"},
		{"two meters", restedAlike + "b1/rest-voltage = 13.200 V, m1\nb2/rest-voltage = 13.200 V, m2", "sA", finding.CantTell, "hand: ±0.5 % of 13.2 V alone is 66 mV"},
		{"a long round", restedAlike + "b1/rest-voltage = 13.200 V, at -25m\nb2/rest-voltage = 13.200 V, at -5m", "sA", finding.CantTell, "hand: 20 min and no reading at the end"},
		{"a long round, closed", restedAlike + "b1/rest-voltage = 13.200 V, at -25m\nb2/rest-voltage = 13.200 V, at -5m\nbank/rest-voltage-close = 13.201 V", "sA", finding.Pass, "hand: 2·√(1/6 + 1/3) = 1.41 mV ≤ 10"},
		{"a long round, closed too early", restedAlike + "b1/rest-voltage = 13.200 V, at -25m\nb2/rest-voltage = 13.200 V, at -5m\nbank/rest-voltage-close = 13.201 V, at -6m", "sA", finding.CantTell, "hand: the last reading came after it"},
		{"a long round, the second string", restedAlike + "b1/rest-voltage = 13.200 V, at -35m\nb2/rest-voltage = 13.200 V, at -34m\nb3/rest-voltage = 13.300 V, at -25m\nb4/rest-voltage = 13.300 V, at -5m\nbank/rest-voltage-close = 13.201 V", "sB", finding.Pass, "hand: block 1 drifted 1 mV, whatever string B reads"},
		{"the firm is stricter", restedAlike + "house/voltage-match.spread = 0.008 V\nb1/rest-voltage = 13.201 V\nb2/rest-voltage = 13.210 V", "sA", finding.Fail, "hand: 9 − 0.82 > 8"},
	})
}

func TestAFlatMatchSaysWhatItDoesNotProve(t *testing.T) {
	x := judged(t, fixture(t, twoByTwo, restedAlike, "b1/rest-voltage = 13.28 V\nb2/rest-voltage = 13.28 V"), voltageMatch, "sA")[0]
	if notes := x.Notes(); len(notes) == 0 || !strings.Contains(say.Voice{}.Say(notes[0]), "does not prove") {
		t.Errorf("no note on the flat part: %v", notes)
	}
}

func TestAConflictIsNeverAPass(t *testing.T) {
	// Two readings that do not supersede each other: two phones.
	f := fixture(t, twoByTwo, restedAlike, "b1/rest-voltage = 13.20 V\nb2/rest-voltage = 13.20 V\nb2/rest-voltage = 13.21 V")
	if got, why := verdict(t, f, voltageMatch, "sA"); got != finding.CantTell || !strings.Contains(why, "Choose") {
		t.Errorf("got %v: %s", got, why)
	}
}

func TestSettingAsideOpensNothing(t *testing.T) {
	f := fixture(t, twoByTwo, restedAlike, "b1/rest-voltage = 13.20 V\nb2/rest-voltage = skip not-needed agreed")
	x := judged(t, f, voltageMatch, "sA")[0]
	if x.Verdict() != finding.NotNeeded || x.Settled() {
		t.Errorf("got %v, settled %v", x.Verdict(), x.Settled())
	}
}

// Three blocks in rising order: the two ends are 12 mV apart, their neighbours
// only 6 (hand: 12 − 0.82 > 10).
func TestTheTwoEndsOfARunAreCompared(t *testing.T) {
	three := bank.New(3, 1, bank.JoinStrings, bank.OneEnd)
	for _, lines := range []string{
		"b1/rest-voltage = 13.200 V\nb2/rest-voltage = 13.206 V\nb3/rest-voltage = 13.212 V",
		"b1/rest-voltage = 13.212 V\nb2/rest-voltage = 13.206 V\nb3/rest-voltage = 13.200 V",
		"b1/rest-voltage = 13.206 V\nb2/rest-voltage = 13.200 V\nb3/rest-voltage = 13.212 V",
	} {
		if got, why := verdict(t, fixture(t, three, restedAlike, lines), voltageMatch, "sA"); got != finding.Fail {
			t.Errorf("%s: %v (%s), want fail", lines, got, why)
		}
	}
}
