package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestOwnerBriefed(t *testing.T) {
	walk(t, twoByTwo, ownerBriefedCheck, "", []row{
		{"not begun", "", "bank", finding.ToDo, "missing"},
		{"all seven", "bank/owner-briefed = emergency, alarm, cold, depth, storage, call, return", "bank", finding.Pass, "every topic"},
		{"six", "bank/owner-briefed = emergency, alarm, cold, depth, storage, call", "bank", finding.ToDo, "boundary: it never fails, it is still to do"},
		{"none", "bank/owner-briefed = none", "bank", finding.ToDo, "boundary"},
		{"put off", "bank/owner-briefed = skip later wait", "bank", finding.Later, "put off is not done"},
		{"two people differ", "bank/owner-briefed = cold\nbank/owner-briefed = none", "bank", finding.CantTell, "a conflict"},
	})
	namedIn(t, ownerBriefedCheck, "bank/owner-briefed = emergency, alarm, depth, storage, call", "topics together: Never charge below 0 °C, The return visit.")
	namedIn(t, ownerBriefedCheck, "bank/owner-briefed = emergency, alarm, cold, depth, storage, call, return", "with the owner on 2026-11-25.")
}
