package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestLift(t *testing.T) {
	const sheets = "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\n"
	// Everything ideal: one person may lift 23 kg.
	const ideal = "bank/lift-reach = 25 cm\nbank/lift-height = 75 cm\nbank/lift-travel = 25 cm\nbank/lift-grip = good\n"
	// A block at a cabinet floor: 23·0.8333·0.835·0.895·0.95 = 13.61 kg.
	const floor = "bank/lift-reach = 30 cm\nbank/lift-height = 20 cm\nbank/lift-travel = 60 cm\nbank/lift-grip = fair\n"
	walk(t, twoByTwo, liftCheck, sheets, []row{
		{"nothing entered", "", "bank", finding.ToDo, "missing"},
		{"hoist", "bank/lift-hoist = yes", "bank", finding.NotNeeded, "the rule"},
		{"23 kg, ideal", ideal + "sheet1/mass = 23 kg", "bank", finding.Pass, "boundary: 23/23 = 1"},
		{"23.1 kg, ideal", ideal + "sheet1/mass = 23.1 kg", "bank", finding.CantTell, "boundary: above 1"},
		{"46 kg, ideal", ideal + "sheet1/mass = 46 kg", "bank", finding.CantTell, "boundary: 46/23 = 2"},
		{"46.1 kg, ideal", ideal + "sheet1/mass = 46.1 kg", "bank", finding.Fail, "boundary: above 2"},
		{"two persons", ideal + "sheet1/mass = 30.5 kg\nbank/lift-persons = 2", "bank", finding.Pass, "hand: 23·1.33 = 30.59"},
		{"the second one weighs more", ideal + "sheet1/mass = 10 kg\nb1/mass = 22.7 kg\nb2/mass = 22.8 kg", "bank", finding.CantTell, "hand: a scale of 1 %: 22.8 + 0.228 > 23, though 22.7 + 0.227 is not"},
		{"the first one weighs more", ideal + "sheet1/mass = 10 kg\nb1/mass = 22.8 kg\nb2/mass = 22.7 kg", "bank", finding.CantTell, "hand: 22.8 + 0.228 > 23"},
		{"two persons, more", ideal + "sheet1/mass = 30.7 kg\nbank/lift-persons = 2", "bank", finding.CantTell, "hand: above 30.59"},
		{"three persons", ideal + "sheet1/mass = 34.5 kg\nbank/lift-persons = 3", "bank", finding.Pass, "boundary: 23·1.5"},
		{"cabinet floor, 13.6", floor + "sheet1/mass = 13.6 kg", "bank", finding.Pass, "hand: 13.6 ≤ 13.608"},
		{"cabinet floor, 25", floor + "sheet1/mass = 25 kg", "bank", finding.CantTell, "published span: 20 to 25 kg is an index of 1.5 to 1.8"},
		{"poor grip unless said", "bank/lift-reach = 25 cm\nbank/lift-height = 75 cm\nbank/lift-travel = 25 cm\nsheet1/mass = 20.8 kg", "bank", finding.CantTell, "hand: 23·0.90 = 20.7"},
		{"out of reach", "bank/lift-reach = 64 cm\nbank/lift-height = 75 cm\nbank/lift-travel = 25 cm\nsheet1/mass = 5 kg", "bank", finding.Fail, "hand: beyond 63 cm nothing"},
		{"too often", ideal + "bank/lift-rate = 11\nsheet1/mass = 5 kg", "bank", finding.CantTell, "hand: beyond the table"},
		{"reach missing", "bank/lift-height = 75 cm\nbank/lift-travel = 25 cm\nsheet1/mass = 5 kg", "bank", finding.ToDo, "missing"},
		{"mass missing", ideal, "bank", finding.ToDo, "missing"},
		{"weighed", ideal + "b1/mass = 22.9 kg\nb2/mass = 12 kg\nb3/mass = 12 kg\nb4/mass = 12 kg", "bank", finding.CantTell, "hand: 22.9 + 0.229 + 0.05 > 23"},
	})
}
