package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestColdLockout(t *testing.T) {
	walk(t, twoByTwo, coldLockoutCheck, "", []row{
		{"all stop", "charger1/cold-lockout = yes\nbank/other-lockout = yes", "bank", finding.Pass, "boundary: every source said yes"},
		{"no other source", "charger1/cold-lockout = yes\nbank/other-lockout = none", "bank", finding.Pass, "hand: one source, and it stops"},
		{"no other source, but an alternator", "charger1/cold-lockout = yes\nbank/other-lockout = none\nbank/alternator = limited", "bank", finding.CantTell, "hand: the two answers do not go together"},
		{"the charger does not", "charger1/cold-lockout = no", "bank", finding.Fail, "hand: one is enough"},
		{"another does not", "bank/other-lockout = no", "bank", finding.Fail, "hand: one source that goes on is enough"},
		{"a second charger does not", "charger1/cold-lockout = yes\ncharger2/cold-lockout = no\nbank/other-lockout = none", "bank", finding.Fail, "hand: one source that goes on is enough"},
		{"not known", "charger1/cold-lockout = unknown\nbank/other-lockout = none", "bank", finding.CantTell, "boundary: unknown is not yes"},
		{"nothing entered", "", "bank", finding.ToDo, "boundary: missing opens nothing"},
		{"others not entered", "charger1/cold-lockout = yes", "bank", finding.ToDo, "boundary"},
	})
}
