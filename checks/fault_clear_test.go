package checks

import (
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func TestFaultClear(t *testing.T) {
	// Two in series of 100 Ah: 12 mΩ each at most. Links as measured, leads hot:
	// one link 0.4 mΩ, two leads 0.3 mΩ. 25.6 V over 24 + 0.4 + 0.6 = 25 mΩ is
	// 1024 A; five times 204.8 A, twice 512 A.
	const common = "b1/sheet = sheet1\nb2/sheet = sheet1\nsheet1/capacity = 100 Ah\nb1.n~b2.p/lug-to-lug = 0.4 mOhm\nlead.p/lug-to-lug = 0.3 mOhm\nlead.n/lug-to-lug = 0.3 mOhm\nbank/lead-temperature = 75 C\nsite/ambient-min = 5 C\n"
	two := bank.New(2, 1, bank.JoinStrings, bank.OneEnd)
	walk(t, two, faultClear, common, []row{
		{"no rating", "", "bank", finding.ToDo, "missing"},
		{"five times", "fuse.main/rating = 204.8 A", "bank", finding.Pass, "boundary: 1024/204.8 = 5"},
		{"less than five", "fuse.main/rating = 205 A", "bank", finding.CantTell, "boundary: 4.995"},
		{"twice", "fuse.main/rating = 512 A", "bank", finding.CantTell, "boundary: 2"},
		{"less than twice", "fuse.main/rating = 513 A", "bank", finding.Fail, "boundary: 1.996"},
		{"its curve says yes", "fuse.main/rating = 300 A\nfuse.main/clears = yes", "bank", finding.Pass, "the rule: the curve wins"},
		{"its curve says no", "fuse.main/rating = 100 A\nfuse.main/clears = no", "bank", finding.Fail, "the rule: the curve wins"},
		{"the sheet's short circuit", "fuse.main/rating = 100 A\nsheet1/short-circuit = 640 A", "bank", finding.Pass, "hand: 20 mΩ each; 25.6 V over 41 mΩ is 624 A, 6.2 times"},
	})
	// Nobody entered how cold it gets: 25.6 V over 73 mΩ is 350.7 A, and 1024 A
	// above freezing.
	walk(t, two, faultClear, strings.Replace(common, "site/ambient-min = 5 C\n", "", 1), []row{
		{"winter", "fuse.main/rating = 100 A\nsite/ambient-min = -20 C", "bank", finding.CantTell, "hand: 25.6 V over 73 mΩ is 350.7 A, 3.5 times"},
		{"winter, five times", "fuse.main/rating = 70 A\nsite/ambient-min = -20 C", "bank", finding.Pass, "boundary: 350.1/70 = 5.001, the leads at 75 °C"},
		{"winter, less than five times", "fuse.main/rating = 71 A\nsite/ambient-min = -20 C", "bank", finding.CantTell, "boundary: 350.1/71 = 4.93"},
		{"mild", "fuse.main/rating = 100 A\nsite/ambient-min = 0 C", "bank", finding.Pass, "boundary: not below freezing; 10.2 times"},
		{"fast, however cold", "fuse.main/rating = 70 A", "bank", finding.Pass, "hand: 350.7/70 = 5.01"},
		{"fast only above freezing", "fuse.main/rating = 80 A", "bank", finding.CantTell, "hand: 350.7/80 = 4.4, 1024/80 = 12.8"},
		{"perhaps never below freezing", "fuse.main/rating = 200 A", "bank", finding.CantTell, "hand: 350.7/200 = 1.75, 1024/200 = 5.1"},
		{"perhaps never, however warm", "fuse.main/rating = 513 A", "bank", finding.Fail, "hand: 1024/513 = 1.996"},
		{"the sheet's short circuit holds", "fuse.main/rating = 100 A\nsheet1/short-circuit = 640 A", "bank", finding.Pass, "hand: 624 A, 6.2 times"},
	})
	walk(t, two, faultClear, "b1/sheet = sheet1\nb2/sheet = sheet1\nsheet1/capacity = 100 Ah\n", []row{
		{"no leads", "fuse.main/rating = 100 A", "bank", finding.ToDo, "missing"},
	})
}
