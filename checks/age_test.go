package checks

import (
	"strings"
	"testing"

	"lugmark/core/finding"
)

func TestAge(t *testing.T) { // today is 25 November 2026
	const others = "b2/date-code = 2026-08\nb3/date-code = 2026-08\nb4/date-code = 2026-08\n"
	walk(t, twoByTwo, ageCheck, others, []row{
		{"this summer", "b1/date-code = 2026-07", "bank", finding.Pass, "hand: 4 months"},
		{"missing", "", "bank", finding.ToDo, "missing"},
		{"six months ago", "b1/date-code = 2026-05-25", "bank", finding.Pass, "boundary: 25 May + 6 months is today"},
		{"a day more", "b1/date-code = 2026-05-24", "bank", finding.CantTell, "boundary: one day above six months"},
		{"old, charged since", "b1/date-code = 2025-01\nb1/last-charge = 2026-10-01", "bank", finding.Pass, "the rule: since the last charge"},
		{"old, charged too long ago", "b1/date-code = 2025-01\nb1/last-charge = 2026-05-24", "bank", finding.CantTell, "boundary: one day above six months"},
		{"unreadable", "b1/date-code = 2605", "bank", finding.CantTell, "hand: month or week"},
		{"ahead", "b1/date-code = 2026-12", "bank", finding.CantTell, "hand: not made yet"},
	})
	// An old block of which all else is proved.
	old := []string{}
	for _, l := range goodJob() {
		old = append(old, strings.Replace(l, "b1/date-code = 2026-01", "b1/date-code = 2025-12", 1))
	}
	if got, why := verdict(t, fixture(t, twoByTwo, old...), ageCheck, "bank"); got != finding.Pass {
		t.Errorf("charged to full and capacity proved: %v (%s), want pass (the rule)", got, why)
	}
	var unproved []string
	for _, l := range old {
		if !strings.HasPrefix(l, "capacity1/charge =") {
			unproved = append(unproved, l)
		}
	}
	if got, why := verdict(t, fixture(t, twoByTwo, unproved...), ageCheck, "bank"); got != finding.CantTell {
		t.Errorf("no capacity: %v (%s), want can't tell (the rule)", got, why)
	}
}
