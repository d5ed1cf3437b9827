package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestInsulationAgain(t *testing.T) {
	const tester = "m5/measures = Ohm\nm5/percent = 0 %\nm5/counts = 2\nm5/step = 0.01 MOhm\nbank/bond-plan = none\n"
	const tested = "v2: bank/insulation-volts = 250 V\nv2: bank/insulation-free = yes\nv2: bank/insulation-proved = yes\n"
	const volts = "m1/measures = V\nm1/percent = 0 %\nm1/counts = 1\nm1/step = 0.01 V\nv2: bank/total-voltage = 53.20 V, m1\n"
	walk(t, twoByTwo, insulationAgain, tester, []row{
		{"nothing read today", "bank/stray-plus = 0.50 V\nbank/stray-minus = -0.50 V\nv2: bank/built-again = no", "bank", finding.ToDo, "a reading is never inherited"},
		{"nearly nothing at both poles", volts + "v2: bank/stray-plus = 0.50 V, m1\nv2: bank/stray-minus = -0.50 V, m1", "bank", finding.Pass, "hand: both below 2 V"},
		{"half a megohm", volts + "v2: bank/stray-plus = 25.30 V, m1\nv2: bank/stray-minus = -25.30 V, m1", "bank", finding.Pass, "hand: 10·(53.19/50.62 − 1) = 0.508 MΩ at least"},
		{"a little less", volts + "v2: bank/stray-plus = 25.34 V, m1\nv2: bank/stray-minus = -25.34 V, m1", "bank", finding.CantTell, "hand: 10·(53.20/50.68 − 1) = 0.497 MΩ"},
		{"a dead earth", volts + "v2: bank/stray-plus = 53.20 V, m1\nv2: bank/stray-minus = -0.10 V, m1", "bank", finding.Fail, "hand: 10·(53.21/53.28 − 1) is below 0"},
		{"bonded at minus, and it is", volts + "v2: bank/bond-plan = minus\nv2: bank/stray-plus = 53.20 V, m1\nv2: bank/stray-minus = 0.10 V, m1", "bank", finding.Pass, "hand: 0.11 ≤ 0.5 V"},
		{"cables off, 0.52", tested + "v2: bank/cable-insulation = 0.52 MOhm, m5", "bank", finding.Pass, "boundary: 0.52 − 0.02 = 0.50"},
		{"cables off, 0.51", tested + "v2: bank/cable-insulation = 0.51 MOhm, m5", "bank", finding.CantTell, "boundary: 0.49 to 0.53"},
		{"cables off, 0.48", tested + "v2: bank/cable-insulation = 0.48 MOhm, m5", "bank", finding.CantTell, "boundary: 0.46 to 0.50"},
		{"cables off, 0.47", tested + "v2: bank/cable-insulation = 0.47 MOhm, m5", "bank", finding.Fail, "boundary: 0.49 < 0.5"},
		{"cables not free", "v2: bank/insulation-volts = 250 V\nv2: bank/insulation-free = no\nv2: bank/insulation-proved = yes\nv2: bank/cable-insulation = 20.00 MOhm, m5", "bank", finding.CantTell, "the rule of the first day"},
		{"cables well, but the bank as it stands is not", tested + volts + "v2: bank/cable-insulation = 20.00 MOhm, m5\nv2: bank/stray-plus = 53.20 V, m1\nv2: bank/stray-minus = -0.10 V, m1", "bank", finding.Fail, "hand: 10·(53.21/53.28 − 1) is below 0, whatever the cables hold"},
		{"both well", tested + volts + "v2: bank/cable-insulation = 20.00 MOhm, m5\nv2: bank/stray-plus = 0.50 V, m1\nv2: bank/stray-minus = -0.50 V, m1", "bank", finding.Pass, "hand: 20 ≥ 0.5 MΩ and both below 2 V"},
		{"half tested", "v2: bank/insulation-free = yes", "bank", finding.ToDo, "missing"},
	})
}
