package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func TestCableCorrected(t *testing.T) {
	// 2/0 AWG, 90 °C column: 195 A after NEC Table 310.16; factor 0.91 at 40 °C.
	const cable = "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\ncable1/insulation = 90 C\nlead.p/cable = cable1\nlead.n/cable = cable1\nb1.n~b2.p/cable = cable1\n"
	const room = "site/kind = building\nsite/ambient-max = 30 C\n"
	two := bank.New(2, 1, bank.JoinStrings, bank.OneEnd)
	walk(t, two, cableCorrected, cable, []row{
		{"at", room + "bank/design-current = 195 A", "bank", finding.Pass, "boundary: 195 A at 30 °C after NEC Table 310.16"},
		{"above", room + "bank/design-current = 196 A", "bank", finding.Fail, "boundary: 196 > 195 A at 30 °C"},
		{"warm air", "site/kind = building\nsite/ambient-max = 40 C\nbank/design-current = 177 A", "bank", finding.Pass, "hand: 195·0.91 = 177.45"},
		{"warm air, above", "site/kind = building\nsite/ambient-max = 40 C\nbank/design-current = 178 A", "bank", finding.Fail, "hand: 178 > 177.45"},
		{"ripple", room + "inverter1/power = 3000 W\nbank/design-current = 159 A", "bank", finding.Pass, "hand: 1.2247·159 = 194.7"},
		{"ripple, above", room + "inverter1/power = 3000 W\nbank/design-current = 160 A", "bank", finding.Fail, "hand: 1.2247·160 = 195.96"},
		{"ripple given", room + "inverter1/power = 3000 W\ninverter1/ripple = 20 %\nbank/design-current = 193 A", "bank", finding.Pass, "hand: 193·√1.02 = 194.92"},
		{"ripple given, above", room + "inverter1/power = 3000 W\ninverter1/ripple = 20 %\nbank/design-current = 194 A", "bank", finding.Fail, "hand: 195.93"},
		{"boat", "site/kind = boat\nbank/design-current = 500 A", "bank", finding.NotNeeded, "the rule: the other table stands for both"},
		{"no ambient", "site/kind = building\nbank/design-current = 100 A", "bank", finding.ToDo, "missing"},
		{"no design current", room, "bank", finding.ToDo, "missing"},
	})
	const leads = room + "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\ncable1/insulation = 90 C\ncable2/size = 4/0 AWG\ncable2/standard = ASTM B258\ncable2/insulation = 90 C\nlead.p/cable = cable2\nlead.n/cable = cable2\nb1.n~b2.p/cable = cable1\nbank/design-current = 200 A\n"
	walk(t, two, cableCorrected, leads, []row{
		{"two side by side", "b1.n~b2.p~2/cable = cable1", "bank", finding.Pass, "hand: 2·195 = 390, and 4/0 AWG 260 A after NEC Table 310.16"},
		{"one alone", "", "bank", finding.Fail, "hand: 195 < 200"},
	})
	walk(t, two, cableCorrected, room+"bank/design-current = 100 A\ncable1/size = 2/0\ncable1/insulation = 90 C\nlead.p/cable = cable1\nlead.n/cable = cable1\nb1.n~b2.p/cable = cable1\n", []row{
		{"standard unknown", "", "bank", finding.CantTell, "boundary: SAE of the same number has up to 12 % less copper"},
	})
	walk(t, two, cableCorrected, room+"bank/design-current = 100 A\ncable1/size = 2 AWG\ncable1/standard = ASTM B258\nlead.p/cable = cable1\nlead.n/cable = cable1\nb1.n~b2.p/cable = cable1\n", []row{
		{"insulation unmarked", "", "bank", finding.CantTell, "boundary: unmarked insulation has no column"},
		{"two thin ones side by side", "cable1/insulation = 90 C\nb1.n~b2.p~2/cable = cable1", "bank", finding.CantTell, "the rule: from 1/0 AWG up only"},
		{"manuals name all", "lead.p/maker-current = 120 A\nlead.n/maker-current = 120 A\nb1.n~b2.p/maker-current = 120 A", "bank", finding.NotNeeded, "the rule: maker"},
	})
}
