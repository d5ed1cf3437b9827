package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestMechanical(t *testing.T) {
	walk(t, twoByTwo, mechanicalCheck, "v2: bank/built-again = no", []row{
		{"nothing entered", "", "bank", finding.ToDo, "missing is never good"},
		{"sound, swelling not measured", "v2: bank/sound-still = yes", "bank", finding.ToDo, "missing is never zero"},
		{"flat, nobody looked round", "v2: bank/swelling-most = 1 %", "bank", finding.ToDo, "missing is never good"},
		{"sound and flat", "v2: bank/sound-still = yes\nv2: bank/swelling-most = 0 %", "bank", finding.Pass, "hand: 0 ≤ 2"},
		{"at 2 %", "v2: bank/sound-still = yes\nv2: bank/swelling-most = 2 %", "bank", finding.Pass, "boundary: at most 2 %"},
		{"above 2 %", "v2: bank/sound-still = yes\nv2: bank/swelling-most = 2.1 %", "bank", finding.CantTell, "boundary: between 2 and 5 %"},
		{"at 5 %", "v2: bank/sound-still = yes\nv2: bank/swelling-most = 5 %", "bank", finding.CantTell, "boundary: F above 5 %"},
		{"above 5 %", "v2: bank/sound-still = yes\nv2: bank/swelling-most = 5.1 %", "bank", finding.Fail, "boundary: F above 5 %"},
		{"above 5 %, nobody looked round", "v2: bank/swelling-most = 6 %", "bank", finding.Fail, "swollen is swollen"},
		{"damaged", "v2: bank/sound-still = no\nv2: bank/swelling-most = 0 %", "bank", finding.Fail, "the rule: any"},
		{"the first visit's answers do not count", "bank/sound-still = yes\nbank/swelling-most = 0 %", "bank", finding.ToDo, "a reading is never inherited"},
		{"two people disagree whether anything is opened", "v2: bank/built-again = yes\nv2: bank/sound-still = yes\nv2: bank/swelling-most = 0 %", "bank", finding.CantTell, "a conflict is never a pass"},
		{"two people disagree", "v2: bank/sound-still = yes\nv2: bank/swelling-most = 1 %\nv2: bank/swelling-most = 6 %", "bank", finding.CantTell, "a conflict is never a pass"},
	})
	walk(t, twoByTwo, mechanicalCheck, "v2: bank/sound-still = yes\nv2: bank/swelling-most = 0 %", []row{
		{"nobody says whether anything is opened", "", "bank", finding.ToDo, "missing is never no"},
		{"something is", "v2: bank/built-again = yes", "bank", finding.Pass, "hand: 0 ≤ 2; what is opened is asked by other checks"},
	})
}
