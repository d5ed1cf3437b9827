package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

// Two blocks of 10 mΩ, measured, ± 10 %, one end, links of 0.1 mΩ: of 200 A the
// far one carries 200·9/(9 + 11 + 0.2) = 89.1 to 200·11/(11 + 9 + 0.2) = 108.9 A,
// and so do the links: 111.4 to 136.1 A are asked for. NEC Table 310.16, 75 °C:
// 3 AWG 100, 2 AWG 115, 1 AWG 130, 1/0 150 A.
func TestALinkBesideCarriesItsPart(t *testing.T) {
	const two = `
	bank/design-current = 200 A
	b1/resistance = 10.0 mOhm
	b2/resistance = 10.0 mOhm
	b1.p~b2.p/lug-to-lug = 0.1 mOhm
	b1.n~b2.n/lug-to-lug = 0.1 mOhm
	b1.n~b2.n/cable = cable1
	cable1/standard = ASTM B258
	cable1/insulation = 90 C
	cable1/terminal = 75 C
	cable1/size = `
	pair := bank.New(1, 2, bank.JoinGroups, bank.OneEnd)
	walk(t, pair, cableTerminalCheck, "", []row{
		{"enough for all it may carry", two + "1/0 AWG", "b1.n~b2.n", finding.Pass, "hand: 150 ≥ 136.1"},
		{"depends on the blocks", two + "1 AWG", "b1.n~b2.n", finding.CantTell, "hand: 130 lies in 111.4 … 136.1"},
		{"just above the least", two + "2 AWG", "b1.n~b2.n", finding.CantTell, "hand: 115 > 111.4"},
		{"too thin in any case", two + "3 AWG", "b1.n~b2.n", finding.Fail, "hand: 100 < 111.4"},
		{"cable not entered", two + "1/0 AWG", "b1.p~b2.p", finding.ToDo, "boundary: a link that nobody looked at is no good link"},
	})
}

// The same pair where it lies, at 30 °C without ripple, 90 °C column: 3 AWG 115,
// 4 AWG 95, 6 AWG 75 A, against 89.1 to 108.9 A. Manuals name the leads.
func TestALinkBesideWhereItLies(t *testing.T) {
	const two = `
	site/kind = building
	site/ambient-max = 30 C
	bank/design-current = 200 A
	b1/resistance = 10.0 mOhm
	b2/resistance = 10.0 mOhm
	b1.p~b2.p/lug-to-lug = 0.1 mOhm
	b1.n~b2.n/lug-to-lug = 0.1 mOhm
	lead.p/maker-current = 200 A
	lead.n/maker-current = 200 A
	b1.p~b2.p/maker-current = 200 A
	b1.n~b2.n/cable = cable1
	cable1/standard = ASTM B258
	cable1/insulation = 90 C
	cable1/size = `
	walk(t, bank.New(1, 2, bank.JoinGroups, bank.OneEnd), cableCorrected, "", []row{
		{"enough for all it may carry", two + "3 AWG", "bank", finding.Pass, "hand: 115 ≥ 108.9"},
		{"depends on the blocks", two + "4 AWG", "bank", finding.CantTell, "hand: 95 lies in 89.1 … 108.9"},
		{"too thin in any case", two + "6 AWG", "bank", finding.Fail, "hand: 75 < 89.1"},
	})
}

// Four blocks of 5.0 mΩ, links of 0.25 mΩ, 200 A: the nodal solution that is
// published gives 65.244, 51.768, 43.470, 39.518 A at one end and 52.381,
// 47.619, 47.619, 52.381 A diagonally. A link carries what lies beyond it.
func TestALinkCarriesWhatLiesBeyondIt(t *testing.T) {
	const four = `
	bank/design-current = 200 A
	b1/resistance = 5.0 mOhm
	b2/resistance = 5.0 mOhm
	b3/resistance = 5.0 mOhm
	b4/resistance = 5.0 mOhm
	b1.p~b2.p/lug-to-lug = 0.25 mOhm
	b2.p~b3.p/lug-to-lug = 0.25 mOhm
	b3.p~b4.p/lug-to-lug = 0.25 mOhm
	b1.n~b2.n/lug-to-lug = 0.25 mOhm
	b2.n~b3.n/lug-to-lug = 0.25 mOhm
	b3.n~b4.n/lug-to-lug = 0.25 mOhm
	`
	for _, r := range []struct {
		takeoff bank.Takeoff
		link    string
		want    float64
		from    string
	}{
		{bank.OneEnd, "b1.p~b2.p", 134.756, "hand: 200 − 65.244"},
		{bank.OneEnd, "b3.p~b4.p", 39.518, "published"},
		{bank.OneEnd, "b1.n~b2.n", 134.756, "hand: the same on the minus side"},
		{bank.Diagonal, "b1.p~b2.p", 147.619, "hand: 200 − 52.381"},
		{bank.Diagonal, "b1.n~b2.n", 52.381, "published: minus leaves at the other end"},
		{bank.Diagonal, "b3.n~b4.n", 147.619, "hand: 200 − 52.381"},
		{bank.Diagonal, "lead.p", 200, "hand: all of it"},
	} {
		f := fixture(t, bank.New(1, 4, bank.JoinGroups, r.takeoff), four)
		got, gap := f.conductorAmps(r.link)
		// Blocks are known to a tenth, so a link is to about a tenth of what the
		// blocks on either side carry together.
		if gap != nil || float64(got.Low) > r.want+1e-3 || float64(got.High) < r.want-1e-3 || float64(got.High-got.Low) > 0.2*200 {
			t.Errorf("%s %v: %v, want %.3f within (%s)", r.link, r.takeoff, got, r.want, r.from)
		}
	}
}

// A link inside one of two strings carries that string's part.
func TestALinkInAStringCarriesItsString(t *testing.T) {
	const lines = `
	bank/design-current = 100 A
	b1/resistance = 5.0 mOhm
	b2/resistance = 5.0 mOhm
	b3/resistance = 5.0 mOhm
	b4/resistance = 5.0 mOhm
	`
	f := fixture(t, twoByTwo, lines)
	got, gap := f.conductorAmps("b1.n~b2.p")
	// hand: with links of nothing 50 A; ± 10 % of both strings 45 to 55, and the
	// links that are assumed move it by less than 1 A.
	if gap != nil || got.Low < 44 || got.Low > 50 || got.High < 50 || got.High > 56 {
		t.Errorf("%v", got)
	}
}
