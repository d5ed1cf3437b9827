package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestMass(t *testing.T) {
	// Sheet 20 kg; a scale of ±0.02 kg: U is 0.1 %.
	const common = "m4/measures = kg\nm4/percent = 0 %\nm4/counts = 2\nm4/step = 0.01 kg\nb1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\n" +
		"b2/mass = 20.00 kg, m4\nb3/mass = 20.00 kg, m4\nb4/mass = 20.00 kg, m4\n"
	const sheet = "sheet1/mass = 20 kg\n"
	walk(t, twoByTwo, massCheck, common, []row{
		{"as the sheet", sheet + "b1/mass = 20.00 kg, m4", "bank", finding.Pass, "hand: 0 ± 0.1 %"},
		{"not weighed", sheet, "bank", finding.ToDo, "missing"},
		{"no sheet", "b1/mass = 20.00 kg, m4", "bank", finding.CantTell, "boundary: nothing to compare with"},
		{"3 % light", sheet + "b1/mass = 19.42 kg, m4", "bank", finding.Pass, "boundary: 2.9 + 0.1 ≤ 3"},
		{"more than 3 % light", sheet + "b1/mass = 19.41 kg, m4", "bank", finding.CantTell, "boundary: 2.95 + 0.1 > 3"},
		{"3 % heavy", sheet + "b1/mass = 20.58 kg, m4", "bank", finding.Pass, "boundary: 2.9 + 0.1 ≤ 3"},
		{"8 % light", sheet + "b1/mass = 18.38 kg, m4", "bank", finding.CantTell, "boundary: 8.1 − 0.1 = 8, not beyond"},
		{"more than 8 % light", sheet + "b1/mass = 18.37 kg, m4", "bank", finding.Fail, "boundary: 8.15 − 0.1 > 8"},
		{"usual scale", sheet + "b1/mass = 20.3 kg", "bank", finding.Pass, "hand: 1.5 + 1.27 % ≤ 3 at ±1 % and half a digit"},
		{"usual scale, 2 %", sheet + "b1/mass = 20.4 kg", "bank", finding.CantTell, "hand: 2 + 1.27 % > 3"},
	})
}
