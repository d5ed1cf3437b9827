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
		{"three decimals, 10 mV", restedAlike + "b1/rest-voltage = 13.201 V\nb2/rest-voltage = 13.211 V", "sA", finding.CantTell, "boundary: 10 + 0.82 > 10"},
		{"three decimals, 11 mV", restedAlike + "b1/rest-voltage = 13.201 V\nb2/rest-voltage = 13.212 V", "sA", finding.Fail, "hand: 10.18 > 10"},
		{"one reading missing", restedAlike + "b1/rest-voltage = 13.201 V", "sA", finding.ToDo, "boundary: missing is not zero"},
		{"alike, no rest known", "b1/rest-voltage = 13.20 V\nb2/rest-voltage = 13.20 V", "sA", finding.CantTell, "common practice, no source: rest first"},
		{"50 mV apart, no rest known", "b1/rest-voltage = 13.201 V\nb2/rest-voltage = 13.251 V", "sA", finding.CantTell, "hand: rest could have caused it"},
		{"95 mV apart, no rest known", "b1/rest-voltage = 13.201 V\nb2/rest-voltage = 13.296 V", "sA", finding.CantTell, "boundary: 95 + 0.82 ≤ 100 mV"},
		{"105 mV apart, no rest known", "b1/rest-voltage = 13.201 V\nb2/rest-voltage = 13.306 V", "sA", finding.Fail, "boundary: 105 − 0.82 > 100 mV"},
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
		{"both asleep", restedAlike + "b1/rest-voltage = 0.000 V\nb2/rest-voltage = 0.000 V", "sA", finding.CantTell, "hand: below 8 V no resting voltage"},
		{"both turned", restedAlike + "b1/rest-voltage = -13.500 V\nb2/rest-voltage = -13.500 V", "sA", finding.CantTell, "hand: below 8 V"},
		{"just awake", restedAlike + "b1/rest-voltage = 8.05 V\nb2/rest-voltage = 8.05 V", "sA", finding.CantTell, "hand: 8.05 − (0.5 % + 0.03) = 7.98 V"},
		{"the meter's percentage is missing", restedAlike + "m1/measures = V\nm1/counts = 3\nb1/rest-voltage = 13.201 V, m1\nb2/rest-voltage = 13.201 V, m2", "sA", finding.CantTell, "hand: missing is not zero; ±0.5 % is assumed, 66 mV"},
		{"joined at the same moment", restedAlike + "sA.p~sB.p/closed = yes\nsA/total-voltage = 26.40 V, at -1h\nsB/total-voltage = 26.40 V, at -1h", "bank", finding.CantTell, "hand: kept before the totals, whatever their time says"},
		{"the firm is stricter", restedAlike + "house/voltage-match.spread = 0.008 V\nb1/rest-voltage = 13.201 V\nb2/rest-voltage = 13.210 V", "sA", finding.Fail, "hand: 9 − 0.82 > 8"},
	})
}

// Two that are surely apart need no third: what is put aside hides no Fail.
func TestASkipHidesNoFail(t *testing.T) {
	walk(t, bank.New(3, 1, bank.JoinStrings, bank.OneEnd), voltageMatch, "bank/last-current = -14h\nb1/temperature = 18 C\nb2/temperature = 18 C\nb3/temperature = 18 C\n", []row{
		{"third put aside", "b1/rest-voltage = 13.200 V\nb2/rest-voltage = 13.300 V\nb3/rest-voltage = skip not-needed agreed", "sA", finding.Fail, "hand: 100 − 0.82 > 10"},
		{"third put aside, two alike", "b1/rest-voltage = 13.200 V\nb2/rest-voltage = 13.200 V\nb3/rest-voltage = skip not-needed agreed", "sA", finding.NotNeeded, "boundary"},
		{"third missing", "b1/rest-voltage = 13.200 V\nb2/rest-voltage = 13.300 V", "sA", finding.Fail, "hand: 100 − 0.82 > 10, whatever the third reads"},
	})
	walk(t, bank.New(3, 1, bank.JoinStrings, bank.OneEnd), sameTemp, "", []row{
		{"a thermometer past its date", "m1/measures = C\nm1/percent = 0.5 %\nm1/due = 2026-01-01\nb1/temperature = 18 C, m1\nb2/temperature = 22 C, m1\nb3/temperature = 18 C, m1", "bank", finding.CantTell, "hand: U 1 K doubles: 2 to 6 K against 5 K"},
		{"the same, in date", "m1/measures = C\nm1/percent = 0.5 %\nm1/due = 2027-01-01\nb1/temperature = 18 C, m1\nb2/temperature = 22 C, m1\nb3/temperature = 18 C, m1", "bank", finding.Pass, "hand: 4 + 1 ≤ 5 K"},
		{"third put aside", "b1/temperature = 18 C\nb2/temperature = 40 C\nb3/temperature = skip not-needed agreed", "bank", finding.Fail, "hand: 22 − 1 > 5"},
	})
}

// Rest shown by drift: the whole 30 minutes after the last current, one meter,
// a digit that stands still.
func TestDriftShowsRest(t *testing.T) {
	one := bank.New(1, 1, bank.JoinStrings, bank.OneEnd)
	walk(t, one, rested, "", []row{
		{"still for 31 minutes", "b1/first-voltage = 13.402 V, at -31m\nb1/rest-voltage = 13.402 V", "bank", finding.Pass, "hand: 0 + 0.82 ≤ 1 mV"},
		{"one count", "b1/first-voltage = 13.402 V, at -31m\nb1/rest-voltage = 13.403 V", "bank", finding.ToDo, "hand: 1 + 0.82 > 1 mV, and no last current is known"},
		{"nearly 1 mV, by steps of 0.1 mV", "b1/first-voltage = 13.4020 V, at -31m\nb1/rest-voltage = 13.4029 V", "bank", finding.Pass, "boundary: 0.9 + 0.08 ≤ 1 mV"},
		{"just over 1 mV, by steps of 0.1 mV", "b1/first-voltage = 13.4020 V, at -31m\nb1/rest-voltage = 13.4030 V", "bank", finding.ToDo, "boundary: 1.0 + 0.08 > 1 mV"},
		{"29 minutes", "b1/first-voltage = 13.402 V, at -29m\nb1/rest-voltage = 13.402 V", "bank", finding.ToDo, "boundary"},
		{"across a current", "bank/last-current = -15m\nb1/first-voltage = 13.402 V, at -31m\nb1/rest-voltage = 13.402 V", "bank", finding.CantTell, "hand: only 15 min lie after the current"},
		{"two meters", "b1/first-voltage = 13.402 V, m1, at -31m\nb1/rest-voltage = 13.402 V, m2", "bank", finding.ToDo, "hand: ±0.5 % each"},
		{"moving digit", "b1/first-voltage = 13.402 V, at -31m\nb1/rest-voltage = 13.402 V, moving", "bank", finding.ToDo, "hand: 2·√(1/6 + 1/3) = 1.41 mV"},
	})
}

// A current that was read counts, whatever was entered as the last one.
func TestACurrentThatWasReadEndsTheRest(t *testing.T) {
	one := bank.New(1, 1, bank.JoinStrings, bank.OneEnd)
	const morning = "bank/last-current = -20h\nb1/rest-voltage = 13.402 V\n"
	walk(t, one, rested, morning, []row{
		{"nothing read", "", "bank", finding.Pass, "hand: 20 h ≥ 12 h"},
		{"charged 2 h ago", "b1/full-current = 2.00 A, at -2h", "bank", finding.CantTell, "hand: 2 h < 12 h"},
		{"charged 13 h ago", "b1/full-current-again = 2.00 A, at -13h", "bank", finding.Pass, "hand: 13 h ≥ 12 h"},
		{"no current flowed", "b1/full-current = 0.00 A, at -2h", "bank", finding.Pass, "hand: zero is no current"},
	})
}

// What two decimals could not tell, the gap in millivolts answers.
func TestTheGapSettlesAMatchInDoubt(t *testing.T) {
	doubt := restedAlike + "b1/rest-voltage = 13.28 V\nb2/rest-voltage = 13.27 V\n"
	walk(t, twoByTwo, voltageMatch, doubt, []row{
		{"no gap", "", "sA", finding.CantTell, "independent: 10 mV ± 8.2 mV"},
		{"a small gap", "b2/gap-voltage = 4.0 mV", "sA", finding.NotNeeded, "hand: 4 + (0.02 + 0.3) mV ≤ 10"},
		{"a wide gap", "b2/gap-voltage = 14.0 mV", "sA", finding.CantTell, "hand: 14 mV settles nothing for the better"},
	})
}

func TestTheReferenceOfAGapHasNone(t *testing.T) {
	rows := []struct {
		layout bank.Layout
		round  string
		of     string // the reference of the last block
		from   string
	}{
		{twoByTwo, "b2 b4", "b3", "hand: each string against its own first block"},
		{bank.New(1, 3, bank.JoinStrings, bank.OneEnd), "b2 b3", "b1", "hand: all side by side"},
		{bank.New(2, 2, bank.JoinGroups, bank.OneEnd), "b2 b3 b4", "b3", "hand: inside its group against its first"},
	}
	for _, r := range rows {
		if got := strings.Join(RoundParts(r.layout, gapVoltage.Field), " "); got != r.round {
			t.Errorf("%s: %s, want %s (%s)", r.layout.Title(), got, r.round, r.from)
		}
		all := r.layout.Blocks()
		if got := GapReference(r.layout, all[len(all)-1]); got != r.of {
			t.Errorf("%s: against %s, want %s (%s)", r.layout.Title(), got, r.of, r.from)
		}
	}
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
