package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

// A main lead of cable1 with 90 °C insulation on terminals of 75 °C.
const lead75 = `
	lead.p/cable = cable1
	cable1/insulation = 90 C
	cable1/terminal = 75 C
`

// NEC Table 310.16 (2023): 2/0 AWG 145, 175 A; 1/0 125, 150 A at 60 and 75 °C.
func TestCableTerminal(t *testing.T) {
	walk(t, fourInSeries, cableTerminalCheck, "", []row{
		{"2/0 for 140 A", lead75 + "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nbank/design-current = 140 A", "lead.p", finding.Pass, "boundary: 1.25 × 140 = 175 A, NEC 690.8(B) as summarised"},
		{"2/0 for 141 A", lead75 + "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nbank/design-current = 141 A", "lead.p", finding.Fail, "hand: 176.25 > 175"},
		{"a 5 kW inverter at 44 V", lead75 + "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\ninverter1/power = 5000 W\ninverter1/cut-off = 44 V", "lead.p", finding.Pass, "published worked check: 126.26 A, 157.8 A asked, 2/0 has 175 A"},
		{"terminals not marked", "lead.p/cable = cable1\ncable1/insulation = 90 C\ncable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nbank/design-current = 117 A", "lead.p", finding.Fail, "hand: 60 °C column, 145 < 146.25"},
		{"terminals not marked, enough", "lead.p/cable = cable1\ncable1/insulation = 90 C\ncable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nbank/design-current = 116 A", "lead.p", finding.Pass, "boundary: 145 = 1.25 × 116"},
		{"insulation of 60 °C", "lead.p/cable = cable1\ncable1/insulation = 60 C\ncable1/terminal = 75 C\ncable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nbank/design-current = 117 A", "lead.p", finding.Fail, "hand: the weaker of both, 145 < 146.25"},
		{"200 °C insulation brings nothing", "lead.p/cable = cable1\ncable1/insulation = 200 C\ncable1/terminal = 75 C\ncable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nbank/design-current = 141 A", "lead.p", finding.Fail, "hand: terminals decide"},
		{"SAE of the same number", lead75 + "cable1/size = 2/0 SAE\nbank/design-current = 121 A", "lead.p", finding.Fail, "hand: 125 100 cmil reads as 1/0, 150 < 151.25"},
		{"metric, by the smaller row", lead75 + "cable1/size = 35 mm2\ncable1/standard = IEC 60228\nbank/design-current = 92 A", "lead.p", finding.Pass, "boundary: 33.6 mm² row, 115 = 1.25 × 92"},
		{"metric, too much", lead75 + "cable1/size = 35 mm2\ncable1/standard = IEC 60228\nbank/design-current = 93 A", "lead.p", finding.Fail, "hand: 116.25 > 115"},
		{"standard not known", lead75 + "cable1/size = 35 mm2\nbank/design-current = 50 A", "lead.p", finding.CantTell, "boundary: 5 to 12 % of copper may be missing"},
		{"standard not read", lead75 + "cable1/size = 2/0 AWG\nbank/design-current = 140 A", "lead.p", finding.CantTell, "boundary: SAE of the same number has 5 to 12 % less copper"},
		{"standard of another world", lead75 + "cable1/size = 2/0 AWG\ncable1/standard = Foo 123\nbank/design-current = 140 A", "lead.p", finding.CantTell, "boundary: an unknown standard has no table"},
		{"sold as AWG to the vehicle standard", lead75 + "cable1/size = 2/0 AWG\ncable1/standard = SAE J1127\nbank/design-current = 140 A", "lead.p", finding.Fail, "hand: less copper than 2/0, so 1/0: 150 < 175"},
		{"insulation not known", "lead.p/cable = cable1\ncable1/terminal = 75 C\ncable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nbank/design-current = 50 A", "lead.p", finding.CantTell, "boundary: unmarked insulation has no column"},
		{"copper-clad", lead75 + "cable1/size = 35 mm2 CCA\nbank/design-current = 50 A", "lead.p", finding.CantTell, "hand: not copper"},
		{"far too thin", lead75 + "cable1/size = 1 mm2\ncable1/standard = IEC 60228\nbank/design-current = 50 A", "lead.p", finding.Fail, "hand: below 14 AWG, 2.08 mm²"},
		{"size missing", lead75 + "bank/design-current = 50 A", "lead.p", finding.ToDo, "boundary"},
		{"cable missing", "bank/design-current = 50 A", "lead.p", finding.ToDo, "boundary"},
		{"current missing", lead75 + "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258", "lead.p", finding.ToDo, "boundary"},
		{"a series link carries all", lead75 + "b1.n~b2.p/cable = cable1\ncable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nbank/design-current = 141 A", "b1.n~b2.p", finding.Fail, "hand: 176.25 > 175"},
		{"the manual names it", lead75 + "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nlead.p/maker-current = 160 A\nlead.p/page = p. 9\nbank/design-current = 160 A", "lead.p", finding.Pass, "boundary: the maker's word replaces the table"},
		{"the manual names less", lead75 + "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nlead.p/maker-current = 120 A\nlead.p/page = p. 9\nbank/design-current = 130 A", "lead.p", finding.Fail, "hand: 120 < 130"},
		{"the manual without its page", lead75 + "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nlead.p/maker-current = 160 A\nbank/design-current = 130 A", "lead.p", finding.ToDo, "boundary"},
	})
	// Two conductors between two strings, of 9.25 to 11.25 mΩ with 0.5 mΩ between:
	// the far one takes 0.4405 to 0.5357 of the current, each conductor half of it.
	beside := lead75 + "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nsA.p~sB.p/cable = cable1\nsA.p~sB.p~2/cable = cable1\n" +
		"b1/resistance = 5.0 mOhm\nb2/resistance = 5.0 mOhm\nb3/resistance = 5.0 mOhm\nb4/resistance = 5.0 mOhm\n"
	walk(t, twoByTwo, cableTerminalCheck, beside, []row{
		{"two conductors, enough", "bank/design-current = 520 A", "sA.p~sB.p", finding.Pass, "hand: 520 · 0.5357/2 · 1.25 = 174.1 ≤ 175 A"},
		{"two conductors, perhaps enough", "bank/design-current = 580 A", "sA.p~sB.p", finding.CantTell, "hand: 580 · 0.4405/2 · 1.25 = 159.7 < 175 < 194.2 A"},
		{"two conductors, too thin", "bank/design-current = 640 A", "sA.p~sB.p", finding.Fail, "hand: 640 · 0.4405/2 · 1.25 = 176.2 > 175 A"},
	})
	const afloat = "site/kind = boat\nlead.p/cable = cable1\ncable1/size = 2/0 AWG\ncable1/standard = ASTM B258\ncable1/insulation = 105 C\n"
	walk(t, fourInSeries, cableTerminalCheck, "", []row{
		{"on a boat", afloat + "lead.p/engine-space = no\nbank/design-current = 330 A", "lead.p", finding.Pass, "ABYC E-11 as reproduced: 2/0, 330 A"},
		{"on a boat, over", afloat + "lead.p/engine-space = no\nbank/design-current = 331 A", "lead.p", finding.Fail, "ABYC E-11 as reproduced"},
		{"in an engine space", afloat + "lead.p/engine-space = yes\nbank/design-current = 281 A", "lead.p", finding.Fail, "ABYC E-11 as reproduced: 280 A"},
		{"nobody says where", afloat + "bank/design-current = 281 A", "lead.p", finding.Fail, "hand: taken as an engine space"},
		{"cooler insulation on a boat", "site/kind = boat\nlead.p/cable = cable1\ncable1/size = 2/0 AWG\ncable1/standard = ASTM B258\ncable1/insulation = 90 C\nbank/design-current = 50 A", "lead.p", finding.CantTell, "hand: the table is for 105 °C"},
		{"in a vehicle", "site/kind = vehicle\nlead.p/engine-space = no\nlead.p/cable = cable1\ncable1/size = 2/0 AWG\ncable1/standard = ASTM B258\ncable1/insulation = 105 C\nbank/design-current = 330 A", "lead.p", finding.Pass, "common practice, no source: the boat's table"},
	})
}

func TestEveryCableIsJudged(t *testing.T) {
	for _, r := range []struct {
		l    bank.Layout
		want int
		from string
	}{
		{fourInSeries, 5, "hand: two leads, three links"},
		{twoByTwo, 6, "hand: two leads, two links in strings, two between them"},
		{bank.New(4, 2, bank.JoinGroups, bank.Diagonal), 13, "hand: two leads, three links between groups, two in each of four"},
	} {
		if parts, _ := cableParts(fixture(t, r.l)); len(parts) != r.want {
			t.Errorf("%s: %v, want %d (%s)", r.l.Title(), parts, r.want, r.from)
		}
	}
}
