package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestLugStack(t *testing.T) {
	const good = "bank/lug-stacks = yes\nbank/lug-thread = yes\nbank/lug-photo = yes\n"
	walk(t, twoByTwo, lugStack, "", []row{
		{"nothing looked at", "", "bank", finding.ToDo, "missing"},
		{"as it should be", good + "bank/lugs-most = 2", "bank", finding.Pass, "hand: 2 ≤ 4, in order, photographed"},
		{"four lugs", good + "bank/lugs-most = 4", "bank", finding.Pass, "boundary: a marine article, at most 4"},
		{"five lugs", good + "bank/lugs-most = 5", "bank", finding.Fail, "boundary: 5 > 4"},
		{"count missing", good, "bank", finding.ToDo, "missing"},
		{"washer between", "bank/lug-stacks = no", "bank", finding.Fail, "the rule; nothing more is asked"},
		{"thread too short", "bank/lug-stacks = yes\nbank/lug-thread = no\nbank/lugs-most = 2\nbank/lug-photo = yes", "bank", finding.Fail, "common practice, no source: one diameter of thread"},
		{"no photo", "bank/lug-stacks = yes\nbank/lug-thread = yes\nbank/lugs-most = 2\nbank/lug-photo = no", "bank", finding.CantTell, "boundary: nobody can see it later"},
		{"photo not answered", "bank/lug-stacks = yes\nbank/lug-thread = yes\nbank/lugs-most = 2", "bank", finding.ToDo, "missing"},
	})
}
