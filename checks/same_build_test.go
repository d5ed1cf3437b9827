package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func TestSameBuild(t *testing.T) {
	const firm = "b1/firmware = 1.2\nb2/firmware = 1.2\nb3/firmware = 1.2\nb4/firmware = 1.2\n"
	const codes = "b1/date-code = 2026-01\nb2/date-code = 2026-02\nb3/date-code = 2026-03\n"
	walk(t, twoByTwo, sameBuild, oneSheet, []row{
		{"alike", firm + codes + "b4/date-code = 2026-04", "bank", finding.Pass, "hand: 3 months"},
		{"six months", firm + codes + "b4/date-code = 2026-07", "bank", finding.Pass, "boundary: 6 months is within 6"},
		{"seven months", firm + codes + "b4/date-code = 2026-08", "bank", finding.CantTell, "boundary: 7 months"},
		{"six months and a day", firm + "b1/date-code = 2026-01-01\nb2/date-code = 2026-03\nb3/date-code = 2026-03\nb4/date-code = 2026-07-02", "bank", finding.CantTell, "boundary: 1 January to 2 July"},
		{"one code missing", firm + codes, "bank", finding.ToDo, "boundary: missing is not alike"},
		{"one code cannot be read on the label", firm + codes + "b4/date-code = skip cannot no-access", "bank", finding.CantTell, "boundary: missing is not alike"},
		{"one code nobody can read", firm + codes + "b4/date-code = 2605", "bank", finding.CantTell, "hand: month 5 or week 5"},
		{"odd codes, all alike", firm + "b1/date-code = X7\nb2/date-code = X7\nb3/date-code = x7\nb4/date-code = X7", "bank", finding.Pass, "hand: one code is one delivery"},
		{"another firmware", firm + codes + "b4/date-code = 2026-04\nb5/firmware = 1.2", "bank", finding.Pass, "hand: block 5 is not in this bank"},
		{"firmware missing", codes + "b4/date-code = 2026-04", "bank", finding.ToDo, "boundary"},
		{"firmware differs", "b1/firmware = 1.2\nb2/firmware = 1.2\nb3/firmware = 1.3\nb4/firmware = 1.2\n" + codes + "b4/date-code = 2026-04", "bank", finding.CantTell, "hand: not all alike, but model and capacity are"},
	})
	const mixed = "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet2\nsheet1/model = Invented 100\nsheet1/capacity = 100 Ah\n"
	walk(t, twoByTwo, sameBuild, mixed+firm+codes+"b4/date-code = 2026-04", []row{
		{"another sheet, the same block", "sheet2/model = INVENTED  100\nsheet2/capacity = 100.0 Ah", "bank", finding.Pass, "hand: case and blanks do not matter, 100.0 is 100"},
		{"another model", "sheet2/model = Invented 100 B\nsheet2/capacity = 100 Ah", "bank", finding.Fail, "common practice, no source"},
		{"another capacity", "sheet2/model = Invented 100\nsheet2/capacity = 105 Ah", "bank", finding.Fail, "common practice, no source"},
		{"another model, no capacity", "sheet2/model = Invented 200", "bank", finding.Fail, "hand: what is entered differs already"},
		{"no model", "sheet2/capacity = 100 Ah", "bank", finding.ToDo, "boundary: missing never helps"},
	})
	walk(t, bank.New(1, 1, bank.JoinStrings, bank.OneEnd), sameBuild, "", []row{
		{"one block", "", "bank", finding.NotNeeded, "boundary"},
	})
}

func TestTheOddBlockIsNamed(t *testing.T) {
	f := fixture(t, twoByTwo, "b1/sheet = sheet2\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/model = Invented 100\nsheet2/model = Invented 90")
	if x := judged(t, f, sameBuild, "bank")[0]; x.Parts()[0] != "b1" {
		t.Errorf("about %v, want block 1 first (hand: one of four)", x.Parts())
	}
}
