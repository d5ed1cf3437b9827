package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func TestLinksClear(t *testing.T) {
	const totals = "sA/total-voltage = 26.40 V\nsB/total-voltage = 26.41 V\n"
	const yes = "bank/links-clear = yes\n"
	walk(t, twoByTwo, linksClearCheck, "", []row{
		{"confirmed, both read", totals + yes, "bank", finding.Pass, "hand: both 26.4 − 0.17 ≥ 16, nothing else is on"},
		{"not confirmed", totals, "bank", finding.ToDo, "boundary: missing is not yes"},
		{"refused", totals + "bank/links-clear = no", "bank", finding.Fail, "hand: somebody said no"},
		{"one total not read", "sA/total-voltage = 26.40 V\n" + yes, "bank", finding.ToDo, "boundary: both polarities"},
		{"drawn series links on", totals + yes + "b1.n~b2.p/closed = yes\nb3.n~b4.p/closed = yes", "bank", finding.Pass, "hand: strings keep their series links"},
		{"drawn parallel links on", totals + yes + "sA.n~sB.n/closed = yes", "bank", finding.Pass, "hand: drawn"},
		{"a cross tie between unlike levels", totals + yes + "b1.n~b3.p/closed = yes", "bank", finding.Fail, "hand: shorts block 3 once the plus ends are joined"},
		{"a link across one string", totals + yes + "b1.p~b2.n/closed = yes", "bank", finding.Fail, "hand: not in the drawing"},
		{"that link is off", totals + yes + "b1.n~b3.p/closed = no", "bank", finding.Pass, "hand: off is off"},
		{"two people about that link", totals + yes + "b1.n~b3.p/closed = yes\nb1.n~b3.p/closed = no", "bank", finding.CantTell, "hand: a conflict is never a pass"},
		{"a second conductor of a drawn link", totals + yes + "b1.n~b2.p~2/closed = yes", "bank", finding.Pass, "hand: drawn"},
		{"a string the wrong way round", "sA/total-voltage = 26.40 V\nsB/total-voltage = -26.40 V\n" + yes, "bank", finding.Fail, "hand: −26.4 + 0.17 ≤ −8"},
		{"one block of a string reversed", "sA/total-voltage = 26.40 V\nsB/total-voltage = 0.02 V\n" + yes, "bank", finding.CantTell, "hand: 13.2 − 13.2 = 0 < 16"},
		{"a string at its least", "sA/total-voltage = 26.40 V\nsB/total-voltage = 16.00 V\n" + yes, "bank", finding.CantTell, "boundary: 16.00 − 0.11 < 2 · 8"},
		{"a string above its least", "sA/total-voltage = 26.40 V\nsB/total-voltage = 16.20 V\n" + yes, "bank", finding.Pass, "hand: 16.20 − 0.111 ≥ 16"},
	})
	const blocks = "b1/rest-voltage = 13.20 V\nb2/rest-voltage = 13.21 V\nb3/rest-voltage = 13.20 V\nb4/rest-voltage = 13.20 V\n"
	walk(t, bank.New(2, 2, bank.JoinGroups, bank.OneEnd), linksClearCheck, "", []row{
		{"groups", blocks + yes, "bank", finding.Pass, "hand: all 13.2 − 0.1 ≥ 8, no series link is on"},
		{"a series link inside a group", blocks + yes + "b1.n~b2.p/closed = yes", "bank", finding.Fail, "hand: a dead short of block 2"},
		{"the drawn link between groups", blocks + yes + "gA.n~gB.p/closed = yes", "bank", finding.Pass, "hand: it joins no blocks that are put side by side"},
		{"an undrawn link between groups", blocks + yes + "b2.n~b4.p/closed = yes", "bank", finding.Fail, "hand: not in the drawing"},
		{"a reversed block", "b1/rest-voltage = 13.20 V\nb2/rest-voltage = -13.21 V\nb3/rest-voltage = 13.20 V\nb4/rest-voltage = 13.20 V\n" + yes, "bank", finding.Fail, "hand: −13.21 + 0.1 ≤ −8"},
		{"read on arrival", "b1/arrival-voltage = 13.20 V\nb2/arrival-voltage = 13.20 V\nb3/rest-voltage = 13.20 V\nb4/rest-voltage = 13.20 V\n" + yes, "bank", finding.Pass, "hand: the sign is what counts"},
		{"asleep", "b1/rest-voltage = 0.40 V\nb2/rest-voltage = 13.21 V\nb3/rest-voltage = 13.20 V\nb4/rest-voltage = 13.20 V\n" + yes, "bank", finding.CantTell, "hand: below 8 V the sign proves nothing"},
	})
	walk(t, bank.New(4, 1, bank.JoinStrings, bank.OneEnd), linksClearCheck, "", []row{
		{"nothing in parallel", "", "bank", finding.NotNeeded, "boundary"},
	})
}
