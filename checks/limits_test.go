package checks

import (
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// A firm may have its own custom where the limit is custom; that it is looser
// is printed. The figures of practice are those of the rows of each check: rest
// 12 h, temperatures 5 K, top 0.20 V, total 1.5 V (common practice and our
// rule).
func TestALooserCustomIsSaid(t *testing.T) {
	lines := oneDelivery2 + fourAlike + `
		house/rested.rest = 1 h
		house/same-temp.spread = 30 K
		house/bank-total.difference = 3 V
		b1/temperature = 18 C
		b2/temperature = 18 C
		b3/temperature = 18 C
		b4/temperature = 18 C
		bank/total-voltage = 26.56 V`
	f := fixture(t, twoByTwo, lines)
	for _, x := range Run(f) {
		want, about := map[string]string{"rested": "1 h where practice has 12 h", "same-temp": "30 K where practice has 5 K", "bank-total": "3 V where practice has 1.5 V"}[x.Check()]
		if !about || x.Part() != "bank" {
			continue
		}
		var said []string
		for _, a := range x.Assumed() {
			said = append(said, say.Voice{}.Say(a))
		}
		if all := strings.ReplaceAll(strings.Join(said, " "), "\u00a0", " "); !strings.Contains(all, want) {
			t.Errorf("%s: assumed %q, want %q", x.Check(), all, want)
		}
	}
}

// What cells bear in the cold is no custom.
func TestNoFirmLoosensTheCold(t *testing.T) {
	f := fixture(t, bank.New(1, 1, bank.JoinStrings, bank.OneEnd), "house/cold-gate.coldest = -5 C\nb1/charge-temperature = -1 C\nb1/sensor = own")
	for _, x := range judged(t, f, coldGate, "bank") {
		if x.Verdict() == finding.Pass {
			t.Error("a firm's rule opened the cold")
		}
		if len(x.Notes()) == 0 {
			t.Error("nothing says that the firm's rule was not used")
		}
	}
}
