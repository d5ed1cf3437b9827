package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestArrivedWhole(t *testing.T) {
	const others = "b2/condition = whole\nb3/condition = whole\nb4/condition = whole\n"
	const photo = "bank/arrival-photo = yes\n"
	walk(t, twoByTwo, arrivedWhole, others, []row{
		{"whole", photo + "b1/condition = whole", "bank", finding.Pass, "the rule"},
		{"not looked at", photo, "bank", finding.ToDo, "missing"},
		{"photo not answered", "b1/condition = whole", "bank", finding.ToDo, "missing"},
		{"no photo", "bank/arrival-photo = no\nb1/condition = whole", "bank", finding.CantTell, "the rule"},
		{"leak", photo + "b1/condition = leak", "bank", finding.Fail, "the rule"},
		{"leak, no photo", "b1/condition = leak", "bank", finding.Fail, "the rule: it does not wait for a photo"},
		{"smell", photo + "b1/condition = smell", "bank", finding.Fail, "the rule"},
		{"hiss", photo + "b1/condition = hiss", "bank", finding.Fail, "the rule"},
		{"hot", photo + "b1/condition = hot", "bank", finding.Fail, "the rule"},
		{"dent", photo + "b1/condition = dent", "bank", finding.CantTell, "the rule: none of these passes, a dent alone does not fail"},
		{"wet", photo + "b1/condition = wet", "bank", finding.CantTell, "as a dent"},
		{"swollen, not measured", photo + "b1/condition = swollen", "bank", finding.CantTell, "missing is not flat"},
		{"swollen 2 %", photo + "b1/condition = swollen\nb1/swelling = 2 %", "bank", finding.Pass, "boundary"},
		{"swollen 2.1 %", photo + "b1/condition = swollen\nb1/swelling = 2.1 %", "bank", finding.CantTell, "boundary"},
		{"swollen 5 %", photo + "b1/condition = swollen\nb1/swelling = 5 %", "bank", finding.CantTell, "boundary"},
		{"swollen 5.1 %", photo + "b1/condition = swollen\nb1/swelling = 5.1 %", "bank", finding.Fail, "boundary"},
		{"whole, yet swollen 5.1 %", photo + "b1/condition = whole\nb1/swelling = 5.1 %", "bank", finding.Fail, "the figure outweighs the word"},
	})
	f := fixture(t, twoByTwo, "b1/condition = leak\nb2/condition = whole\nb3/condition = hot\nb4/condition = whole")
	if x := judged(t, f, arrivedWhole, "bank")[0]; len(x.Parts()) != 2 || x.Parts()[0] != "b1" || x.Parts()[1] != "b3" {
		t.Errorf("speaks of %v, want b1 and b3 (hand)", x.Parts())
	}
}
