package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestArrivedWhole(t *testing.T) {
	const others = "b2/condition = whole\nb3/condition = whole\nb4/condition = whole\n"
	const photo = "bank/arrival-photo = yes\n"
	walk(t, twoByTwo, arrivedWhole, others, []row{
		{"whole", photo + "b1/condition = whole", "bank", finding.Pass, "hand: whole, flat and photographed"},
		{"not looked at", photo, "bank", finding.ToDo, "missing"},
		{"photo not answered", "b1/condition = whole", "bank", finding.ToDo, "missing"},
		{"no photo", "bank/arrival-photo = no\nb1/condition = whole", "bank", finding.CantTell, "boundary: nobody can see it later"},
		{"leak", photo + "b1/condition = leak", "bank", finding.Fail, "common practice, no source: a leak ends its service"},
		{"leak, no photo", "b1/condition = leak", "bank", finding.Fail, "the rule: it does not wait for a photo"},
		{"smell", photo + "b1/condition = smell", "bank", finding.Fail, "common practice, no source: smell is escaped gas"},
		{"hiss", photo + "b1/condition = hiss", "bank", finding.Fail, "common practice, no source: hiss is escaping gas"},
		{"hot", photo + "b1/condition = hot", "bank", finding.Fail, "common practice, no source: heat without current is a fault inside"},
		{"dent", photo + "b1/condition = dent", "bank", finding.CantTell, "the rule: none of these passes, a dent alone does not fail"},
		{"wet", photo + "b1/condition = wet", "bank", finding.CantTell, "as a dent"},
		{"swollen, not measured", photo + "b1/condition = swollen", "bank", finding.CantTell, "missing is not flat"},
		{"swollen 2 %", photo + "b1/condition = swollen\nb1/swelling = 2 %", "bank", finding.Pass, "boundary: 2 ≤ 2"},
		{"swollen 2.1 %", photo + "b1/condition = swollen\nb1/swelling = 2.1 %", "bank", finding.CantTell, "boundary: 2 < 2.1 ≤ 5"},
		{"swollen 5 %", photo + "b1/condition = swollen\nb1/swelling = 5 %", "bank", finding.CantTell, "boundary: 5 ≤ 5"},
		{"swollen 5.1 %", photo + "b1/condition = swollen\nb1/swelling = 5.1 %", "bank", finding.Fail, "boundary: 5.1 > 5"},
		{"whole, yet swollen 5.1 %", photo + "b1/condition = whole\nb1/swelling = 5.1 %", "bank", finding.Fail, "the figure outweighs the word"},
	})
	f := fixture(t, twoByTwo, "b1/condition = leak\nb2/condition = whole\nb3/condition = hot\nb4/condition = whole")
	if x := judged(t, f, arrivedWhole, "bank")[0]; len(x.Parts()) != 2 || x.Parts()[0] != "b1" || x.Parts()[1] != "b3" {
		t.Errorf("speaks of %v, want b1 and b3 (hand)", x.Parts())
	}
}
