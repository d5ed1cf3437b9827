package checks

import (
	"math"
	"slices"
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/say"
	"lugmark/core/unit"
)

const fourRested = "b1/rest-voltage = 13.30 V\nb2/rest-voltage = 13.30 V\nb3/rest-voltage = 13.30 V\nb4/rest-voltage = 13.30 V\n"

// With ±(0.5 % + 3 counts): the sum of four is 53.2 ± 0.386, the total 53.20 ±
// 0.296; 2·√((0.386² + 0.296²)/3) = 0.562, below their sum of 0.682.
func TestBankTotal(t *testing.T) {
	walk(t, fourInSeries, bankTotal, "", []row{
		{"as it should be", fourRested + "bank/total-voltage = 53.20 V", "bank", finding.Pass, "hand: 0 + 0.562 ≤ 1.5"},
		{"inside", fourRested + "bank/total-voltage = 52.27 V", "bank", finding.Pass, "hand: 0.93 + 0.56 ≤ 1.5"},
		{"at the limit", fourRested + "bank/total-voltage = 51.70 V", "bank", finding.CantTell, "boundary: 1.5 ± 0.56"},
		{"beyond", fourRested + "bank/total-voltage = 51.13 V", "bank", finding.Fail, "hand: 2.07 − 0.56 > 1.5"},
		{"one in backwards", fourRested + "bank/total-voltage = 26.60 V", "bank", finding.Fail, "hand: 53.2 − 2 × 13.3"},
		{"one missing", fourRested + "bank/total-voltage = 39.90 V", "bank", finding.Fail, "hand: 53.2 − 13.3"},
		{"all in backwards", "b1/rest-voltage = -13.30 V\nb2/rest-voltage = -13.30 V\nb3/rest-voltage = -13.30 V\nb4/rest-voltage = -13.30 V\nbank/total-voltage = -53.20 V", "bank", finding.CantTell, "hand: the sums agree, and none is the right way round"},
		{"all asleep", "b1/rest-voltage = 0.00 V\nb2/rest-voltage = 0.00 V\nb3/rest-voltage = 0.00 V\nb4/rest-voltage = 0.00 V\nbank/total-voltage = 0.00 V", "bank", finding.CantTell, "hand: the sums agree, and none is awake"},
		{"all hardly awake", "b1/rest-voltage = 7.00 V\nb2/rest-voltage = 7.00 V\nb3/rest-voltage = 7.00 V\nb4/rest-voltage = 7.00 V\nbank/total-voltage = 28.00 V", "bank", finding.CantTell, "boundary: 28 < 4 × 8 V, though the sums agree"},
		{"total not read", fourRested, "bank", finding.ToDo, "boundary"},
		{"a block not read", "b1/rest-voltage = 13.30 V\nbank/total-voltage = 53.20 V", "bank", finding.ToDo, "boundary: missing is not zero"},
		{"from the steps", "b4.p/step-voltage = 13.30 V\nb3.p/step-voltage = 26.60 V\nb2.p/step-voltage = 39.90 V\nb1.p/step-voltage = 53.20 V\nbank/total-voltage = 53.20 V", "bank", finding.Pass, "hand: 4 × 13.30 = 53.20"},
		{"from the steps, one in backwards", "b4.p/step-voltage = 13.30 V\nb3.p/step-voltage = 0.00 V\nb2.p/step-voltage = 13.30 V\nb1.p/step-voltage = 26.60 V\nbank/total-voltage = 26.60 V", "bank", finding.Fail, "hand: four steps of 13.3 in size are 53.2, not 26.6"},
		{"the firm is stricter", "house/bank-total.difference = 0.50 V\n" + fourRested + "bank/total-voltage = 53.20 V", "bank", finding.CantTell, "hand: 0 + 0.562 > 0.5"},
	})
	three := bank.New(3, 1, bank.JoinStrings, bank.OneEnd)
	walk(t, three, bankTotal, "b1/rest-voltage = 13.30 V\nb2/rest-voltage = 13.30 V\nb3/rest-voltage = 13.30 V\n", []row{
		{"three, one in backwards", "bank/total-voltage = 13.30 V", "bank", finding.Fail, "hand: 13.3 of 39.9"},
	})
	walk(t, twoByTwo, bankTotal, "", []row{
		{"two, one in backwards", fourRested + "sA/total-voltage = 0.00 V", "sA", finding.Fail, "hand: 0.0 of 26.6"},
		{"a string of two", fourRested + "sB/total-voltage = 26.60 V", "sB", finding.Pass, "hand: 2 × 13.30 = 26.60"},
		{"strings in parallel", fourRested + "bank/total-voltage = 26.60 V", "bank", finding.Pass, "hand: both strings add up to 26.6"},
		{"the second string fits worse", "bank/total-voltage = 26.60 V\nb1/rest-voltage = 12.80 V\nb2/rest-voltage = 12.80 V\nb3/rest-voltage = 12.65 V\nb4/rest-voltage = 12.65 V", "bank", finding.CantTell, "hand: 2·√((0.187² + 0.163²)/3) = 0.286; 1.0 + 0.286 ≤ 1.5, but 1.3 + 0.286 > 1.5"},
		{"the first string fits worse", "bank/total-voltage = 26.60 V\nb1/rest-voltage = 12.65 V\nb2/rest-voltage = 12.65 V\nb3/rest-voltage = 12.80 V\nb4/rest-voltage = 12.80 V", "bank", finding.CantTell, "hand: 1.3 + 0.286 > 1.5"},
		{"the string not read", fourRested + "bank/total-voltage = 26.60 V", "sA", finding.ToDo, "boundary"},
	})
	walk(t, bank.New(2, 2, bank.JoinGroups, bank.Diagonal), bankTotal, "", []row{
		{"groups", fourRested + "bank/total-voltage = 26.60 V", "bank", finding.Pass, "hand: two groups of 13.3"},
		{"groups, inside", fourRested + "bank/total-voltage = 25.50 V", "bank", finding.Pass, "hand: 2·√((0.193² + 0.1575²)/3) = 0.288; 1.10 + 0.288 ≤ 1.5"},
		{"groups, near", fourRested + "bank/total-voltage = 25.20 V", "bank", finding.CantTell, "hand: 2·√((0.193² + 0.156²)/3) = 0.287; 1.40 + 0.287 > 1.5"},
		{"a group missing", fourRested + "bank/total-voltage = 13.30 V", "bank", finding.Fail, "hand: 26.6 − 13.3"},
	})
}

func TestBankTotalNamesOnlyTheOneThatFits(t *testing.T) {
	// hand: 53.2 − 2 × 13.3 fits all four alike; 44.3 − 2 × 9.2 = 25.9 fits
	// only the low block: the others would read 44.3 − 2 × 11.7 = 20.9.
	alike := judged(t, fixture(t, fourInSeries, fourRested, "bank/total-voltage = 26.60 V"), bankTotal, "bank")[0]
	if !slices.Equal(alike.Parts(), []string{"bank"}) || !strings.Contains(say.Voice{}.Say(alike.Reason()), "backwards") {
		t.Errorf("got %v: %s", alike.Parts(), say.Voice{}.Say(alike.Reason()))
	}
	// hand: 25.0 missing, 26.6 asked: 1.6 is within 1.5 and the error of both,
	// √((0.386² + 0.171²)·4/3) = 0.487. With 48.2 missing no one block explains it.
	for volts, words := range map[string]string{"28.20 V": "backwards", "5.00 V": "beyond"} {
		x := judged(t, fixture(t, fourInSeries, fourRested, "bank/total-voltage = "+volts), bankTotal, "bank")[0]
		if got := (say.Voice{}).Say(x.Reason()); x.Verdict() != finding.Fail || !strings.Contains(got, words) {
			t.Errorf("%s: got %v: %s", volts, x.Verdict(), got)
		}
	}
	low := judged(t, fixture(t, fourInSeries, "b1/rest-voltage = 11.70 V\nb2/rest-voltage = 9.20 V\nb3/rest-voltage = 11.70 V\nb4/rest-voltage = 11.70 V", "bank/total-voltage = 25.90 V"), bankTotal, "bank")[0]
	if !slices.Equal(low.Parts(), []string{"b2"}) {
		t.Errorf("got %v: %s", low.Parts(), say.Voice{}.Say(low.Reason()))
	}
}

func TestBoundedKeepsTheHardBound(t *testing.T) {
	// hand: 2·√((0.386² + 0.296²)/3) = 0.5617; one alone is its own bound.
	if got := bounded[unit.Volt](0.386, 0.296); math.Abs(float64(got)-0.5617) > 1e-4 {
		t.Errorf("got %v", got)
	}
	if got := bounded[unit.Volt](0.386); math.Abs(float64(got)-0.386) > 1e-12 {
		t.Errorf("got %v", got)
	}
}
