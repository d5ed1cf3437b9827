package checks

import (
	"math"
	"slices"
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/circuit"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

var fourBeside = bank.New(1, 4, bank.JoinStrings, bank.OneEnd)

// quarterLinks are links of 0.25 mΩ between four blocks side by side.
const quarterLinks = `
	sA.p~sB.p/lug-to-lug = 0.25 mOhm
	sB.p~sC.p/lug-to-lug = 0.25 mOhm
	sC.p~sD.p/lug-to-lug = 0.25 mOhm
	sA.n~sB.n/lug-to-lug = 0.25 mOhm
	sB.n~sC.n/lug-to-lug = 0.25 mOhm
	sC.n~sD.n/lug-to-lug = 0.25 mOhm
	bank/design-current = 200 A
`

// Blocks of 80 Ah: 400/80 = 5 mΩ and 1200/80 = 15 mΩ, each ±25 %.
const eighty = `
	b1/sheet = sheet1
	b2/sheet = sheet1
	b3/sheet = sheet1
	b4/sheet = sheet1
	sheet1/capacity = 80 Ah
`

// Ladder by hand, from the far end: I_4 = 1, I_k·R_k = I_(k+1)·R_(k+1) + 0.5 mΩ
// times what flows beyond. One end, block 1 at 3.75 and the others at 6.25 mΩ:
// 86.224 A, the worst corner; at 18.75 and 11.25 mΩ: 38.826 A, the least.
func TestShare(t *testing.T) {
	walk(t, fourBeside, share, eighty+quarterLinks, []row{
		{"within", "sheet1/discharge-max = 86.3 A", "bank", finding.Pass, "hand: 86.224 ≤ 86.3"},
		{"one corner over", "sheet1/discharge-max = 86.2 A", "bank", finding.CantTell, "hand: 86.224 > 86.2, 38.8 is not"},
		{"nearly every corner over", "sheet1/discharge-max = 38.9 A", "bank", finding.CantTell, "hand: block 1 may carry 38.83"},
		{"every corner over", "sheet1/discharge-max = 38.8 A", "bank", finding.Fail, "hand: block 1 carries 38.83 at least"},
		{"limit not entered", "", "bank", finding.CantTell, "boundary: no limit, no verdict"},
		{"the fuse of the branch", "sheet1/discharge-max = 100 A\nfuse.A/rating = 100 A", "bank", finding.CantTell, "hand: 86.2 > 100/1.25"},
		{"the fuse of another branch", "sheet1/discharge-max = 100 A\nfuse.D/rating = 100 A", "bank", finding.Pass, "hand: the far branch carries less than 80"},
		{"the firm is stricter", "house/share.current = 80 A\nsheet1/discharge-max = 100 A", "bank", finding.CantTell, "hand: 86.2 > 80"},
	})
	walk(t, fourBeside, share, quarterLinks+"sheet1/discharge-max = 100 A\nb1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\n", []row{
		{"no capacity, no resistance", "", "bank", finding.ToDo, "boundary: missing is not zero"},
		{"every block measured", "b1/resistance = 5.0 mOhm\nb2/resistance = 5.0 mOhm\nb3/resistance = 5.0 mOhm\nb4/resistance = 5.0 mOhm", "bank", finding.Pass, "hand: 4.5 and 5.5 mΩ give 73.05 A"},
		{"a measured one over", "sheet1/capacity = 80 Ah\nb1/resistance = 1.5 mOhm", "bank", finding.Fail, "hand: block 1 at 1.65, others at 3.75 mΩ: 109 A at least"},
	})
	walk(t, fourInSeries, share, eighty, []row{
		{"one string carries all", "sheet1/discharge-max = 100 A\nbank/design-current = 100 A", "bank", finding.Pass, "boundary: in series every block carries 100 A"},
		{"one string, over", "sheet1/discharge-max = 100 A\nbank/design-current = 101 A", "bank", finding.Fail, "hand: 101 > 100"},
		{"from the inverter", "sheet1/discharge-max = 100 A\ninverter1/power = 4320 W", "bank", finding.Pass, "hand: 4320/(48.0 × 0.9) = 100 A"},
		{"from the inverter's cut-off", "sheet1/discharge-max = 100 A\ninverter1/power = 4320 W\ninverter1/cut-off = 44 V", "bank", finding.Fail, "hand: 4320/(44 × 0.9) = 109 A"},
		{"no current entered", "sheet1/discharge-max = 100 A", "bank", finding.ToDo, "boundary"},
	})
	walk(t, bank.New(2, 2, bank.JoinGroups, bank.Diagonal), share, eighty+"bank/design-current = 100 A\nsheet1/discharge-max = 80 A\n", []row{
		{"the first group", "", "gA", finding.Pass, "hand: two blocks, ends across: about half each, 3.75 against 6.25 mΩ gives 62.5 A before the links"},
		{"the second group", "", "gB", finding.Pass, "hand: the same"},
	})
}

// flows is what the branches carry with all resistances as entered.
func flows(t *testing.T, l bank.Layout, load unit.Ampere, lines ...string) []unit.Ampere {
	t.Helper()
	f := fixture(t, l, lines...)
	n, gap := f.network("bank")
	if gap != nil {
		t.Fatalf("%s: %s", l.Title(), say.Voice{}.Say(gap.Next()))
	}
	flow, err := n.likely(n.bands[0]).Divide(load)
	if err != nil {
		t.Fatal(err)
	}
	return flow.Branch
}

func near(got []unit.Ampere, want ...float64) bool {
	return slices.EqualFunc(got, want, func(a unit.Ampere, b float64) bool { return math.Abs(float64(a)-b) < 1e-3 })
}

// Values to three decimals were solved twice, by different hands and programs,
// before this one was written; 65.244 … also by an open matrix library.
func TestFlowsFollowThePublishedLadders(t *testing.T) {
	block := func(n, r string) string { return "b" + n + "/resistance = " + r + " mOhm\n" }
	blocks := func(r1, r2, r3, r4 string) string {
		return block("1", r1) + block("2", r2) + block("3", r3) + block("4", r4)
	}
	five := blocks("5.00", "5.00", "5.00", "5.00")
	lowFirst, highFirst := blocks("3.75", "6.25", "6.25", "6.25"), blocks("6.25", "3.75", "3.75", "3.75")
	diagonal := bank.New(1, 4, bank.JoinStrings, bank.Diagonal)
	uneven := strings.NewReplacer(".p/lug-to-lug = 0.25", ".p/lug-to-lug = 0.4", ".n/lug-to-lug = 0.25", ".n/lug-to-lug = 0.1").Replace(quarterLinks)
	for _, r := range []struct {
		name  string
		l     bank.Layout
		lines string
		want  []float64
	}{
		{"one end", fourBeside, five + quarterLinks, []float64{65.244, 51.768, 43.470, 39.518}},
		{"diagonal", diagonal, five + quarterLinks, []float64{52.381, 47.619, 47.619, 52.381}},
		{"one end, block 1 low", fourBeside, lowFirst + quarterLinks, []float64{86.224, 42.632, 36.940, 34.204}},
		{"one end, block 1 high", fourBeside, highFirst + quarterLinks, []float64{48.433, 60.513, 48.372, 42.682}},
		{"diagonal, block 1 low", diagonal, lowFirst + quarterLinks, []float64{71.615, 40.698, 41.683, 46.003}},
		{"diagonal, rails unlike", diagonal, five + uneven, []float64{60.099, 50.109, 45.129, 44.663}},
		{"one end, rails unlike", fourBeside, five + uneven, []float64{65.244, 51.768, 43.470, 39.518}},
		{"both on the second", bank.New(1, 4, bank.JoinStrings, bank.TakeoffAt("B", "B")), five + quarterLinks, []float64{51.768, 56.945, 47.817, 43.470}},
	} {
		if got := flows(t, r.l, 200, r.lines); !near(got, r.want...) {
			t.Errorf("%s: got %v, want %v", r.name, got, r.want)
		}
	}
	bars := ""
	for _, s := range []string{"A", "B", "C", "D"} {
		bars += "bar.p~s" + s + ".p/lug-to-lug = 0.25 mOhm\nbar.n~s" + s + ".n/lug-to-lug = 0.25 mOhm\n"
	}
	if got := flows(t, bank.New(1, 4, bank.JoinStrings, bank.EqualLeads), 200, blocks("5.00", "5.00", "5.00", "10.00"), bars); !near(got, 56.757, 56.757, 56.757, 29.730) {
		t.Errorf("equal leads: %v", got)
	}
	strs := "sA.p~sB.p/lug-to-lug = 0.25 mOhm\nsA.n~sB.n/lug-to-lug = 0.25 mOhm\n"
	for i := 1; i <= 8; i++ {
		n := string(rune('0' + i))
		strs += block(n, "5.00")
		if i%4 != 0 {
			strs += "b" + n + ".n~b" + string(rune('1'+i)) + ".p/lug-to-lug = 0.25 mOhm\n"
		}
	}
	if got := flows(t, bank.New(4, 2, bank.JoinStrings, bank.OneEnd), 200, strs); !near(got, 101.190, 98.810) {
		t.Errorf("two strings of four, 20.75 mΩ: %v", got)
	}
	n, _ := fixture(t, fourBeside, five, quarterLinks).network("bank")
	open, err := n.ladder.Without(0).Divide(200)
	if err != nil || !near(open.Branch, 0, 76.833, 64.516, 58.651) {
		t.Errorf("block 1 open: %v %v", open.Branch, err)
	}
}

// By hand: the way of the current changes sides from group to group, so that
// every block lies on it.
func TestTheCurrentCrossesEveryGroup(t *testing.T) {
	for groups, want := range map[int][][2]int{2: {{0, 3}, {3, 0}}, 3: {{0, 3}, {3, 0}, {0, 3}}} {
		for row, ends := range want {
			if plus, minus := groupEnds(bank.New(groups, 4, bank.JoinGroups, bank.Diagonal), row); plus != ends[0] || minus != ends[1] {
				t.Errorf("%d groups, the one in row %d: from %d to %d, want %v", groups, row, plus, minus, ends)
			}
		}
	}
}

func TestShareNamesTheBetterTakeoff(t *testing.T) {
	x := judged(t, fixture(t, fourBeside, eighty, quarterLinks, "sheet1/discharge-max = 80 A"), share, "bank")[0]
	if next := (say.Voice{}).Say(x.Next()); !strings.Contains(next, "plus of String") || !slices.Equal(x.Parts(), []string{"sA", "b1"}) {
		t.Errorf("got %v, %s", x.Parts(), next)
	}
	// hand: ends across, the worst corner is 71.615 A; below that only bars or
	// fewer amperes help.
	diagonal := bank.New(1, 4, bank.JoinStrings, bank.Diagonal)
	x = judged(t, fixture(t, diagonal, eighty, quarterLinks, "sheet1/discharge-max = 71.6 A"), share, "bank")[0]
	if v, ok := x.Found(); !ok || math.Abs(v.High-71.615) > 1e-3 || x.Verdict() != finding.CantTell {
		t.Errorf("got %v %v", x.Verdict(), v)
	}
	if strings.Contains(say.Voice{}.Say(x.Next()), "{") {
		t.Errorf("a place left open: %s", say.Voice{}.Say(x.Next()))
	}
}

// Two side by side from one end share as R + ρ to R: 5 mΩ and links of 0.5 mΩ
// each way are 6 to 5, links of 0.75 mΩ 6.5 to 5; advice begins at 1.25 to 1.
func TestUnevenWearIsSaid(t *testing.T) {
	two := bank.New(1, 2, bank.JoinStrings, bank.OneEnd)
	const common = "b1/sheet = sheet1\nb2/sheet = sheet1\nsheet1/discharge-max = 500 A\nbank/design-current = 100 A\nb1/resistance = 5.00 mOhm\nb2/resistance = 5.00 mOhm\n"
	for ohms, want := range map[string]bool{"0.50 mOhm": false, "0.75 mOhm": true} {
		x := judged(t, fixture(t, two, common, "sA.p~sB.p/lug-to-lug = "+ohms+"\nsA.n~sB.n/lug-to-lug = "+ohms), share, "bank")[0]
		said := slices.ContainsFunc(x.Notes(), func(l say.Line) bool { return strings.Contains(say.Voice{}.Say(l), "wears them unevenly") })
		if x.Verdict() != finding.Pass || said != want {
			t.Errorf("links of %s: %v, said %v, want %v", ohms, x.Verdict(), said, want)
		}
	}
}

// Links that count for nothing, and a limit of 57 A. By hand: one block at 0.9 of
// its resistance, the others at 1.1, carries 200 · (1/0.9)/(1/0.9 + 3/1.1) =
// 57.89 A. Leads of 0.5 mΩ for each even it out: blocks of 5 mΩ then stand at 5
// and 6, and 200 · (1/5)/(1/5 + 3/6) = 57.14 A, 1.3 % less; blocks of 15 mΩ at 14
// and 17, and 57.63 A, less than one percent: fewer amperes then,
// 200 · 57/57.89 = 196.9 A.
func TestOnePercentIsNotWorthACable(t *testing.T) {
	thick := strings.ReplaceAll(quarterLinks, "0.25 mOhm", "0.00001 mOhm") + "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/discharge-max = 57 A\n"
	for ohms, words := range map[string]string{"5.0 mOhm": "two bus bars: the most that one carries is then 57.2", "15.0 mOhm": "Lower the largest steady current to 196"} {
		var blocks string
		for n := 1; n <= 4; n++ {
			blocks += bank.BlockID(n) + "/resistance = " + ohms + "\n"
		}
		x := judged(t, fixture(t, fourBeside, thick, blocks), share, "bank")[0]
		if next := (say.Voice{}).Say(x.Next()); x.Verdict() != finding.CantTell || !strings.Contains(next, words) {
			t.Errorf("%s: %v, %q, want %q", ohms, x.Verdict(), next, words)
		}
	}
}

// 2/0 AWG has 0.0967 Ω/kft at 75 °C stranded uncoated (a published table): 1 m
// 0.3173 mΩ, and with 0.04 mΩ for both lugs 0.3573 mΩ; two of them side by side
// half of it. Nothing entered is 0.25 mΩ, our choice.
func TestLinksAreMeasuredOrWorkedOut(t *testing.T) {
	const cable = "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\n"
	const metre = cable + "b1.n~b2.p/cable = cable1\nb1.n~b2.p/length = 1 m\n"
	for lines, want := range map[string]float64{
		"":    0.25e-3,
		metre: 0.3573e-3,
		metre + "b1.n~b2.p~2/cable = cable1\nb1.n~b2.p~2/length = 1 m": 0.3573e-3 / 2,
		"b1.n~b2.p/lug-to-lug = 0.30 mOhm":                             0.30e-3,
	} {
		if got := float64(fixture(t, fourInSeries, lines).linkOhm("b1.n~b2.p")); math.Abs(got-want) > 2e-7 {
			t.Errorf("%q: %v Ω, want %v", lines, got, want)
		}
	}
}

func TestUnmeasuredBlocksAreTriedBothWays(t *testing.T) {
	f := fixture(t, fourBeside, eighty, quarterLinks)
	n, gap := f.network("bank")
	if gap != nil || len(n.bands) != 2 {
		t.Fatalf("%v, %d bands", gap, len(n.bands))
	}
	first, err := circuit.Ladder{Branches: n.ladder.Branches, Rungs: n.ladder.Rungs}.Corners(200, n.bands[0].low, n.bands[0].high)
	if err != nil || math.Abs(float64(first[0].Low)-48.433) > 1e-3 || math.Abs(float64(first[0].High)-86.224) > 1e-3 {
		t.Errorf("good blocks: %v %v", first, err)
	}
	spans, err := n.currents(200)
	if want := (measure.Interval[unit.Ampere]{Low: 38.826, High: 86.224}); err != nil ||
		math.Abs(float64(spans[0].Low-want.Low)) > 1e-3 || math.Abs(float64(spans[0].High-want.High)) > 1e-3 {
		t.Errorf("both ways: %v %v", spans, err)
	}
}
