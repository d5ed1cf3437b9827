package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
)

const oneSheet = `
	b1/sheet = sheet1
	b2/sheet = sheet1
	b3/sheet = sheet1
	b4/sheet = sheet1
	sheet1/page = p. 12
	sheet1/model = Invented 100
	sheet1/capacity = 100 Ah
`

func TestPlanSeries(t *testing.T) {
	four := bank.New(4, 1, bank.JoinStrings, bank.OneEnd)
	walk(t, four, planSeries, oneSheet, []row{
		{"below the maker's limit", "sheet1/series-max = 5", "bank", finding.Pass, "boundary: 4 ≤ 5"},
		{"at the maker's limit", "sheet1/series-max = 4", "bank", finding.Pass, "boundary: 4 ≤ 4"},
		{"above it", "sheet1/series-max = 3", "bank", finding.Fail, "boundary: 4 > 3"},
		{"the sheet is silent", "", "bank", finding.CantTell, "common practice, no source: no default for a series count"},
		{"the sheet could not be found", "sheet1/series-max = skip cannot no-access", "bank", finding.CantTell, "boundary: missing is not a number"},
		{"two people, two limits", "sheet1/series-max = 4\nsheet1/series-max = 2", "bank", finding.CantTell, "hand: a conflict is never a pass"},
	})
	walk(t, four, planSeries, "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nsheet1/series-max = 4", []row{
		{"one block without a sheet", "", "bank", finding.CantTell, "boundary: missing never helps"},
		{"one block of a stricter sheet", "b4/sheet = sheet2\nsheet2/series-max = 2", "bank", finding.Fail, "hand: 4 > 2, the strictest binds"},
		{"without a sheet, but over another's limit", "sheet2/series-max = 2", "bank", finding.CantTell, "hand: no block is of sheet2"},
	})
	walk(t, bank.New(5, 1, bank.JoinStrings, bank.OneEnd), planSeries, "", []row{
		{"five and no sheet", "", "bank", finding.Fail, "common practice, no source: more than 4 without a word of the maker"},
	})
	walk(t, bank.New(1, 2, bank.JoinStrings, bank.OneEnd), planSeries, "", []row{
		{"nothing in series", "", "bank", finding.NotNeeded, "boundary"},
	})
}

func TestPlanParallel(t *testing.T) {
	walk(t, twoByTwo, planParallel, oneSheet, []row{
		{"at the maker's limit", "sheet1/parallel-max = 2", "bank", finding.Pass, "boundary: 2 ≤ 2"},
		{"above it", "sheet1/parallel-max = 1", "bank", finding.Fail, "boundary: 2 > 1"},
		{"the sheet is silent", "", "bank", finding.CantTell, "common practice, no source"},
	})
	walk(t, bank.New(1, 4, bank.JoinStrings, bank.OneEnd), planParallel, "", []row{
		{"four and no sheet", "", "bank", finding.CantTell, "boundary: 4 is not above 4"},
	})
	walk(t, bank.New(1, 5, bank.JoinStrings, bank.OneEnd), planParallel, "", []row{
		{"five and no sheet", "", "bank", finding.Fail, "boundary: 5 > 4"},
	})
	walk(t, bank.New(2, 1, bank.JoinStrings, bank.OneEnd), planParallel, "", []row{
		{"nothing in parallel", "", "bank", finding.NotNeeded, "boundary"},
	})
}

func TestPlansWaitForTheLayout(t *testing.T) {
	for _, c := range []*Check{planSeries, planParallel} {
		f := NewFacts(job.New(fixtureJob), "v1", fixtureNow)
		if got, why := verdict(t, f, c, "bank"); got != finding.ToDo {
			t.Errorf("%s without a layout: %v (%s)", c.ID, got, why)
		}
	}
}
