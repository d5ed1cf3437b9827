package checks

import (
	"strings"
	"testing"

	"lugmark/core/finding"
)

// tightened is every bolt of the bank, tightened at the first visit.
func tightened() string {
	var b strings.Builder
	for _, post := range twoByTwo.Posts() {
		b.WriteString(post + "/torque-set = 9 N.m, w1\n")
	}
	return b.String()
}

func TestMarkMoved(t *testing.T) {
	all := tightened()
	walk(t, twoByTwo, markMoved, "v2: bank/built-again = no", []row{
		{"nobody looked", all, "bank", finding.ToDo, "missing is never good"},
		{"none moved", all + "v2: bank/marks-moved = no", "bank", finding.Pass, "no mark moved: common practice"},
		{"one moved", all + "v2: bank/marks-moved = yes", "bank", finding.Fail, "no mark moved: common practice"},
		{"one moved, never tightened by us", "v2: bank/marks-moved = yes", "bank", finding.Fail, "a bolt that turned is loose, whoever marked it"},
		{"no torque was ever kept", "v2: bank/marks-moved = no", "bank", finding.CantTell, "no baseline: never Pass"},
		{"one bolt without its torque", strings.Replace(all, "b3.n/torque-set = 9 N.m, w1\n", "", 1) + "v2: bank/marks-moved = no", "bank", finding.CantTell, "no baseline: never Pass"},
		{"tightened only today", strings.ReplaceAll(all, "b", "v2: b") + "v2: bank/marks-moved = no", "bank", finding.CantTell, "a mark of today cannot have moved yet"},
		{"the first visit says moved, this one nothing", all + "bank/marks-moved = no", "bank", finding.ToDo, "a reading is never inherited"},
		{"two people disagree", all + "v2: bank/marks-moved = no\nv2: bank/marks-moved = yes", "bank", finding.CantTell, "a conflict is never a pass"},
		{"two people disagreed about a torque", all + "b3.n/torque-set = 8 N.m, w1\nv2: bank/marks-moved = no", "bank", finding.CantTell, "a baseline in conflict is none"},
		{"the third visit, tightened at the first", all + "v3: bank/marks-moved = no", "bank", finding.Pass, "the latest earlier visit that has it"},
		{"out of reach", all + "v2: bank/marks-moved = skip cannot no-access", "bank", finding.CantTell, "a skip is never a pass"},
	})
}
