package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestSize(t *testing.T) {
	const sheets = "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/block-length = 330 mm\nsheet1/block-width = 173 mm\nsheet1/block-height = 220 mm\n"
	walk(t, twoByTwo, sizeCheck, sheets, []row{
		{"nothing measured", "", "bank", finding.ToDo, "missing"},
		{"one block", "b1/block-length = 331 mm\nb1/block-width = 173 mm\nb1/block-height = 219 mm", "bank", finding.Pass, "hand: 1 + 2 ≤ 5 mm"},
		{"another one block", "b3/block-length = 331 mm\nb3/block-width = 173 mm\nb3/block-height = 219 mm", "bank", finding.Pass, "hand: any of that sheet"},
		{"height missing", "b1/block-length = 331 mm\nb1/block-width = 173 mm", "bank", finding.ToDo, "missing"},
		{"3 mm", "b1/block-length = 333 mm\nb1/block-width = 173 mm\nb1/block-height = 220 mm", "bank", finding.Pass, "boundary: 3 + 2 = 5"},
		{"3.3 mm", "b1/block-length = 333.3 mm\nb1/block-width = 173 mm\nb1/block-height = 220 mm", "bank", finding.CantTell, "boundary: 3.3 + 2 > 5"},
		{"4 mm", "b1/block-length = 334 mm\nb1/block-width = 173 mm\nb1/block-height = 220 mm", "bank", finding.CantTell, "boundary: 2 to 6 about 5"},
		{"7 mm short", "b1/block-length = 323 mm\nb1/block-width = 173 mm\nb1/block-height = 220 mm", "bank", finding.CantTell, "boundary: 5 to 9, not beyond"},
		{"8 mm short", "b1/block-length = 322 mm\nb1/block-width = 173 mm\nb1/block-height = 220 mm", "bank", finding.Fail, "boundary: 8 − 2 > 5"},
		{"a second block is wrong", "b1/block-length = 330 mm\nb1/block-width = 173 mm\nb1/block-height = 220 mm\nb2/block-length = 300 mm", "bank", finding.Fail, "hand: what is measured is judged"},
	})
	walk(t, twoByTwo, sizeCheck, "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet2\nsheet1/block-length = 330 mm\nsheet1/block-width = 173 mm\nsheet1/block-height = 220 mm\n"+
		"b1/block-length = 330 mm\nb1/block-width = 173 mm\nb1/block-height = 220 mm\n", []row{
		{"a second kind", "", "bank", finding.ToDo, "the rule: one of each kind"},
		{"no size on its sheet", "b4/block-length = 330 mm\nb4/block-width = 173 mm\nb4/block-height = 220 mm", "bank", finding.CantTell, "the rule: no sheet"},
	})
}
