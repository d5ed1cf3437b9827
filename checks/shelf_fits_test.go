package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestShelfFits(t *testing.T) {
	// Four blocks of 330 × 173 mm and 12 kg: a row is 4·173 + 3·15 = 737 mm, the
	// mass 1.05·48 = 50.4 kg.
	const common = "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/block-length = 330 mm\nsheet1/block-width = 173 mm\nsheet1/mass = 12 kg\n"
	const shelf = "bank/stands-on = shelf\nbank/shelf-depth = 400 mm\n"
	walk(t, twoByTwo, shelfFits, common, []row{
		{"nothing entered", "", "bank", finding.ToDo, "missing"},
		{"on the floor", "bank/stands-on = floor", "bank", finding.NotNeeded, "the rule"},
		{"fits", shelf + "bank/shelf-length = 800 mm\nbank/shelf-rating = 60 kg", "bank", finding.Pass, "hand: 798 ≥ 737; 398 ≥ 330; 50.4 ≤ 60"},
		{"just fits", shelf + "bank/shelf-length = 739 mm\nbank/shelf-rating = 60 kg", "bank", finding.Pass, "boundary: 739 − 2 = 737"},
		{"too close", shelf + "bank/shelf-length = 738 mm\nbank/shelf-rating = 60 kg", "bank", finding.CantTell, "boundary: 736 to 740 about 737"},
		{"too short", shelf + "bank/shelf-length = 734 mm\nbank/shelf-rating = 60 kg", "bank", finding.Fail, "boundary: 734 + 2 = 736 < 737"},
		{"wider gap", shelf + "bank/shelf-length = 740 mm\nbank/shelf-rating = 60 kg\nbank/block-gap = 20 mm", "bank", finding.Fail, "hand: 692 + 60 = 752 > 742"},
		{"two rows", "bank/stands-on = shelf\nbank/shelf-length = 400 mm\nbank/shelf-depth = 700 mm\nbank/shelf-row = 2\nbank/shelf-rating = 60 kg", "bank", finding.Pass, "hand: 361 by 675 mm"},
		{"two rows, not deep enough", "bank/stands-on = shelf\nbank/shelf-length = 400 mm\nbank/shelf-depth = 600 mm\nbank/shelf-row = 2\nbank/shelf-rating = 60 kg", "bank", finding.Fail, "hand: 675 > 602"},
		{"rating unknown", shelf + "bank/shelf-length = 800 mm", "bank", finding.CantTell, "boundary: missing is not strong enough"},
		{"rating at", shelf + "bank/shelf-length = 800 mm\nbank/shelf-rating = 50.4 kg", "bank", finding.Pass, "boundary: 1.05·48"},
		{"rating below", shelf + "bank/shelf-length = 800 mm\nbank/shelf-rating = 50.3 kg", "bank", finding.Fail, "boundary: 1.05 × 48 = 50.4 > 50.3"},
		{"length missing", shelf + "bank/shelf-rating = 60 kg", "bank", finding.ToDo, "missing"},
	})
	walk(t, twoByTwo, shelfFits, "b1/sheet = sheet1\n", []row{
		{"no sizes", shelf + "bank/shelf-length = 800 mm\nbank/shelf-rating = 60 kg", "bank", finding.ToDo, "missing"},
	})
}
