package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestBond(t *testing.T) {
	const meter = "m5/measures = Ohm\nm5/percent = 0 %\nm5/counts = 1\nm5/step = 0.1 Ohm\n"
	const minus = "bank/bond-plan = minus\nbank/bond-places = 1\n"
	walk(t, twoByTwo, bondCheck, meter, []row{
		{"nothing entered", "", "bank", finding.ToDo, "missing"},
		{"floating", "bank/bond-plan = none", "bank", finding.NotNeeded, "the rule"},
		{"floating, yet bonded", "bank/bond-plan = none\nbank/bond-places = 1", "bank", finding.Fail, "the rule: only where one is intended"},
		{"floating, and a bond was measured", "bank/bond-plan = none\nbank/bond-resistance = 0.1 Ohm, m5", "bank", finding.ToDo, "boundary: where it stands is not entered"},
		{"0.9 ohm", minus + "bank/bond-resistance = 0.9 Ohm, m5", "bank", finding.Pass, "boundary: 0.9 + 0.1"},
		{"1.0 ohm", minus + "bank/bond-resistance = 1.0 Ohm, m5", "bank", finding.CantTell, "boundary: 0.9 to 1.1"},
		{"1.2 ohm", minus + "bank/bond-resistance = 1.2 Ohm, m5", "bank", finding.Fail, "boundary: 1.1 > 1"},
		{"two places", "bank/bond-plan = minus\nbank/bond-places = 2\nbank/bond-resistance = 0.1 Ohm, m5", "bank", finding.Fail, "the rule: exactly one"},
		{"none", "bank/bond-plan = plus\nbank/bond-places = 0", "bank", finding.Fail, "hand: 1 planned, 0 there"},
		{"places missing", "bank/bond-plan = minus\nbank/bond-resistance = 0.1 Ohm, m5", "bank", finding.ToDo, "missing"},
		{"resistance missing", minus, "bank", finding.ToDo, "missing"},
	})
}
