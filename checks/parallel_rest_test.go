package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func TestParallelRest(t *testing.T) {
	// A clamp of ±0.1 A; blocks of 100 Ah: 1 A at most.
	const common = "m3/measures = A\nm3/percent = 0 %\nm3/counts = 1\nm3/step = 0.1 A\nb1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/capacity = 100 Ah\n"
	const again = "b2/gap-voltage = 1.0 mV\nb3/gap-voltage = 1.0 mV\nb4/gap-voltage = 1.0 mV\n"
	const done = "rest1/joined = -15h\nrest1/opened = -2h\nrest1/rest-current = 0.2 A, m3, at -2h1m\n" + again
	group := bank.New(1, 4, bank.JoinGroups, bank.OneEnd)
	walk(t, group, parallelRest, common, []row{
		{"none begun", "", "bank", finding.NotNeeded, "hand"},
		{"done and read again", done, "rest1", finding.Pass, "hand: 13 h; 0.2 + 0.1 ≤ 1 A; read 2 h after opening"},
		{"joined 11 h 59 ago", "rest1/joined = -11h59m", "rest1", finding.Later, "boundary: due in a minute"},
		{"joined 12 h ago", "rest1/joined = -12h", "rest1", finding.ToDo, "boundary: the current is to be read"},
		{"current read, still joined", "rest1/joined = -12h1m\nrest1/rest-current = 0.2 A, m3", "rest1", finding.ToDo, "the rule: open, wait, read the gap"},
		{"0.9 A", "rest1/joined = -15h\nrest1/opened = -2h\nrest1/rest-current = 0.9 A, m3, at -2h1m\n" + again, "rest1", finding.Pass, "boundary: 0.9 + 0.1"},
		{"1.0 A", "rest1/joined = -15h\nrest1/opened = -2h\nrest1/rest-current = 1.0 A, m3, at -2h1m\n" + again, "rest1", finding.CantTell, "boundary: 0.9 to 1.1"},
		{"clamp on backwards", "rest1/joined = -15h\nrest1/opened = -2h\nrest1/rest-current = -5.0 A, m3, at -2h1m\n" + again, "rest1", finding.CantTell, "hand: 5 A flow"},
		{"current read too early", "rest1/joined = -15h\nrest1/opened = -2h\nrest1/rest-current = 0.2 A, m3, at -10h\n" + again, "rest1", finding.CantTell, "hand: after 5 h"},
		{"opened after 11 h", "rest1/joined = -15h\nrest1/opened = -4h\nrest1/rest-current = 0.2 A, m3, at -4h1m\n" + again, "rest1", finding.CantTell, "hand: 11 of 12 h"},
		{"opened half an hour ago", "rest1/joined = -15h\nrest1/opened = -30m\nrest1/rest-current = 0.2 A, m3, at -31m", "rest1", finding.Later, "the rule: one hour"},
		{"not read again", "rest1/joined = -15h\nrest1/opened = -2h\nrest1/rest-current = 0.2 A, m3, at -2h1m", "rest1", finding.ToDo, "the rule: read again"},
		{"read while joined", done + "b1/rest-voltage = 13.40 V, at -3h", "rest1", finding.CantTell, "the rule: always alike"},
		{"joined in the future", "rest1/joined = +10m", "rest1", finding.CantTell, "the rule: time uncertain"},
		{"opened before joined", "rest1/joined = -2h\nrest1/opened = -15h", "rest1", finding.CantTell, "the rule: time uncertain"},
		{"no time", "rest1/rest-current = 0.2 A, m3", "rest1", finding.ToDo, "missing"},
	})
	walk(t, group, parallelRest, "m3/measures = A\nm3/percent = 0 %\nm3/counts = 1\nm3/step = 0.1 A\nb1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/capacity = 400 Ah\n"+again, []row{
		{"large blocks", "rest1/joined = -15h\nrest1/opened = -2h\nrest1/rest-current = 1.9 A, m3, at -2h1m", "rest1", finding.Pass, "boundary: 0.005·400 = 2 A"},
		{"large blocks, at the limit", "rest1/joined = -15h\nrest1/opened = -2h\nrest1/rest-current = 2.0 A, m3, at -2h1m", "rest1", finding.CantTell, "boundary: 2.0 ± 0.1 A about 0.005·400"},
	})
}
