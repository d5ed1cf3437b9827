package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestAlarmBeforeCutoff(t *testing.T) {
	walk(t, twoByTwo, alarmBeforeCutoff, "", []row{
		{"not answered", "", "bank", finding.ToDo, "missing"},
		{"it comes", "bank/alarm-first = yes", "bank", finding.Pass, "after ABYC E-13: a sound or a light first"},
		{"it does not", "bank/alarm-first = no", "bank", finding.Fail, "after ABYC E-13"},
		{"not tried", "bank/alarm-first = not-tried", "bank", finding.CantTell, "the rule: a manual is no proof"},
		{"an answer of a newer version", "bank/alarm-first = lamp-only", "bank", finding.CantTell, "what is not known opens nothing"},
		{"could not be tried", "bank/alarm-first = skip cannot no-access", "bank", finding.CantTell, "a skip"},
		{"two people differ", "bank/alarm-first = yes\nbank/alarm-first = no", "bank", finding.CantTell, "a conflict"},
	})
}
