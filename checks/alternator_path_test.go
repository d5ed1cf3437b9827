package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestAlternatorPath(t *testing.T) {
	walk(t, twoByTwo, alternatorPath, "", []row{
		{"nothing entered", "", "bank", finding.ToDo, "missing is not none"},
		{"on a boat", "site/kind = boat", "bank", finding.ToDo, "the rule: engines have one"},
		{"in a building", "site/kind = building", "bank", finding.NotNeeded, "common practice, no source: no engine there"},
		{"none", "site/kind = boat\nbank/alternator = none", "bank", finding.Pass, "hand: nothing that a sudden open circuit could burn"},
		{"limited", "bank/alternator = limited", "bank", finding.Pass, "common practice, no source: a limiter stands between"},
		{"direct", "bank/alternator = direct", "bank", finding.Fail, "common practice, no source: an open block leaves it without load"},
		{"direct, in a building", "site/kind = building\nbank/alternator = direct", "bank", finding.Fail, "hand: a generator set"},
		{"unknown", "bank/alternator = unknown", "bank", finding.CantTell, "boundary: unknown is not none"},
	})
}
