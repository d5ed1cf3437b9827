package checks

import (
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

// Lead of 2/0 AWG, 90 °C insulation: 195 A in air of 30 °C.
const fusedLead = `
	lead.p/cable = cable1
	cable1/size = 2/0 AWG
	cable1/standard = ASTM B258
	cable1/insulation = 90 C
	site/kind = building
	site/ambient-max = 30 C
	b1/sheet = sheet1
	b2/sheet = sheet1
	b3/sheet = sheet1
	b4/sheet = sheet1
	sheet1/charge-voltage-max = 14.6 V
	fuse.main/voltage = 80 V
`

// NEC 240.6(A): … 150, 175, 200, 225 …; NEC 240.4(B): the next size above.
func TestMainFuseSize(t *testing.T) {
	walk(t, fourInSeries, fuseSize, fusedLead, []row{
		{"fits", "fuse.main/rating = 175 A\nbank/design-current = 140 A", "fuse.main", finding.Pass, "boundary: 1.25 × 140 = 175 ≤ 200"},
		{"a 5 kW inverter at 44 V", "fuse.main/rating = 175 A\ninverter1/power = 5000 W\ninverter1/cut-off = 44 V", "fuse.main", finding.Pass, "published worked check: 157.8 A, 175 A fuse"},
		{"too small", "fuse.main/rating = 150 A\nbank/design-current = 140 A", "fuse.main", finding.Fail, "hand: 150 < 175"},
		{"next size above the ampacity", "fuse.main/rating = 200 A\nbank/design-current = 140 A", "fuse.main", finding.Pass, "boundary: 195 is no standard size, 200 is next"},
		{"one size too large", "fuse.main/rating = 225 A\nbank/design-current = 140 A", "fuse.main", finding.Fail, "hand: 225 > 200"},
		{"no size fits", "fuse.main/rating = 225 A\nbank/design-current = 170 A", "fuse.main", finding.Fail, "hand: 212.5 A needed, 200 A allowed"},
		{"above the maker's largest, one string", "sheet1/fuse-max = 100 A\nfuse.main/rating = 125 A\nbank/design-current = 60 A", "fuse.main", finding.Fail, "hand: 125 > 100, and the main is that string's fuse"},
		{"at the maker's largest", "sheet1/fuse-max = 125 A\nfuse.main/rating = 125 A\nbank/design-current = 60 A", "fuse.main", finding.Pass, "boundary: 125 ≤ 125"},
		{"standard of the gauge not read", "cable2/size = 2/0 AWG\ncable2/insulation = 90 C\nlead.p/cable = cable2\nfuse.main/rating = 175 A\nbank/design-current = 140 A", "fuse.main", finding.CantTell, "boundary: SAE of the same number has up to 12 % less copper"},
		{"rating missing", "bank/design-current = 140 A", "fuse.main", finding.ToDo, "boundary"},
		{"current missing", "fuse.main/rating = 175 A", "fuse.main", finding.ToDo, "boundary"},
	})
	const hot = "lead.p/cable = cable1\ncable1/size = 2/0 AWG\ncable1/standard = ASTM B258\ncable1/insulation = 90 C\nsite/kind = building\nb1/sheet = sheet1\nfuse.main/rating = 175 A\nbank/design-current = 120 A\n"
	walk(t, fourInSeries, fuseSize, hot, []row{
		{"hot air", "fuse.main/voltage = 80 V\nsite/ambient-max = 50 C", "fuse.main", finding.Pass, "hand: 195 × 0.82 = 159.9, next size 175"},
		{"hotter air", "fuse.main/voltage = 80 V\nsite/ambient-max = 55 C", "fuse.main", finding.Fail, "hand: 195 × 0.76 = 148.2, next size 150 < 175"},
		{"air not known", "fuse.main/voltage = 80 V", "fuse.main", finding.ToDo, "boundary: a temperature has no default"},
		{"too few volts", "fuse.main/voltage = 58 V\nsite/ambient-max = 30 C", "fuse.main", finding.Fail, "hand: 58 < 4 × 14.6"},
		{"just enough volts", "fuse.main/voltage = 58.4 V\nsite/ambient-max = 30 C", "fuse.main", finding.Pass, "boundary: 4 × 14.6"},
		{"one block is charged higher", "b2/sheet = sheet2\nsheet2/charge-voltage-max = 14.8 V\nfuse.main/voltage = 59 V\nsite/ambient-max = 30 C", "fuse.main", finding.Fail, "hand: 59 < 4 × 14.8 = 59.2"},
		{"volts missing", "site/ambient-max = 30 C", "fuse.main", finding.ToDo, "boundary"},
	})
	const boat = "lead.p/cable = cable1\ncable1/size = 6 AWG\ncable1/standard = ASTM B258\ncable1/insulation = 105 C\nlead.p/engine-space = no\nsite/kind = boat\nfuse.main/voltage = 80 V\n"
	walk(t, fourInSeries, fuseSize, boat, []row{
		{"on a boat", "fuse.main/rating = 125 A\nbank/design-current = 100 A", "fuse.main", finding.Pass, "hand: 6 AWG has 120 A, next size 125; 1.25 × 100"},
		{"on a boat, a size fits, larger one in", "fuse.main/rating = 150 A\nbank/design-current = 100 A", "fuse.main", finding.Fail, "hand: 1.5 × 120 counts only when no size fits"},
		{"on a boat, none fits", "fuse.main/rating = 150 A\nbank/design-current = 110 A", "fuse.main", finding.Pass, "hand: 137.5 needed, 125 allowed; 150 ≤ 1.5 × 120"},
	})
}

// Two blocks side by side of 5 mΩ, links of 0.25 mΩ, one end: block 1 at 4.5 and
// block 2 at 5.5 mΩ carries 6.0/10.5, at 5.5 and 4.5 mΩ 5.0/10.5 of the current.
func TestStringFuseSize(t *testing.T) {
	two := bank.New(1, 2, bank.JoinStrings, bank.OneEnd)
	const common = fusedLead + `
	sA.p~sB.p/cable = cable1
	sA.p~sB.p/lug-to-lug = 0.25 mOhm
	sA.n~sB.n/lug-to-lug = 0.25 mOhm
	b1/resistance = 5.0 mOhm
	b2/resistance = 5.0 mOhm
	fuse.A/voltage = 80 V
	bank/design-current = 210 A
	`
	walk(t, two, fuseSize, common, []row{
		{"bears the highest share", "fuse.A/rating = 150 A\nsheet1/discharge-max = 100 A", "fuse.A", finding.Pass, "boundary: 1.25 × 120 = 150; 150 ≤ 1.5 × 100"},
		{"bears the lowest share only", "fuse.A/rating = 125 A\nsheet1/discharge-max = 100 A", "fuse.A", finding.CantTell, "boundary: 1.25 × 100 = 125, 1.25 × 120 = 150"},
		{"does not bear any", "fuse.A/rating = 110 A\nsheet1/discharge-max = 100 A", "fuse.A", finding.Fail, "hand: 110 < 125"},
		{"maker's largest fuse", "fuse.A/rating = 150 A\nsheet1/fuse-max = 150 A", "fuse.A", finding.Pass, "boundary: 150 ≤ 150"},
		{"above the maker's", "fuse.A/rating = 175 A\nsheet1/fuse-max = 150 A", "fuse.A", finding.Fail, "hand: 175 > 150"},
		{"maker silent, up to 1.5", "fuse.A/rating = 175 A\nsheet1/discharge-max = 116 A", "fuse.A", finding.CantTell, "hand: 175 > 1.5 × 116 = 174"},
		{"maker and sheet silent", "fuse.A/rating = 175 A", "fuse.A", finding.CantTell, "boundary: nobody states a largest fuse"},
		{"a string without its fuse", "", "fuse.B", finding.ToDo, "boundary: one in every string"},
	})
}

// String A has a block whose sheet allows 150 A and one whose sheet is silent.
func TestOneSheetOfTwoAllowsNoFuse(t *testing.T) {
	mixed := strings.Replace(fusedLead, "b2/sheet = sheet1", "b2/sheet = sheet2", 1) + `
	sA.p~sB.p/cable = cable1
	b1.n~b2.p/cable = cable1
	b1/resistance = 2.5 mOhm
	b2/resistance = 2.5 mOhm
	b3/resistance = 2.5 mOhm
	b4/resistance = 2.5 mOhm
	fuse.A/voltage = 80 V
	fuse.A/rating = 150 A
	sheet1/fuse-max = 150 A
	bank/design-current = 150 A
	`
	walk(t, twoByTwo, fuseSize, mixed, []row{
		{"one states 150 A", "", "fuse.A", finding.CantTell, "boundary: the other sheet states neither a largest fuse nor a steady current"},
		{"both state 150 A", "sheet2/fuse-max = 150 A", "fuse.A", finding.Pass, "boundary: 150 ≤ 150"},
		{"one states less", "sheet2/fuse-max = 125 A", "fuse.A", finding.Fail, "hand: 150 > 125"},
	})
}
