package checks

import (
	"math"
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// sheetOfAll is one sheet for n blocks. 70 Ah has 140/70 = 2 mΩ at least, 100 Ah
// 1.4 mΩ; at most they have 1200/70 = 17.1 and 12 mΩ.
func sheetOfAll(n int, capacity string) string {
	var b strings.Builder
	for i := 1; i <= n; i++ {
		b.WriteString(bank.BlockID(i) + "/sheet = sheet1\n")
	}
	return b.String() + "sheet1/charge-voltage-max = 14.6 V\nsheet1/capacity = " + capacity + "\n"
}

// Two of 100 Ah side by side, 14.6 V: 14.6/(1.4 mΩ/2) = 20 857 A without copper,
// 14.6/(0.7 + 0.1 mΩ) = 18 250 A, and 14.6/(12 mΩ/2 + 0.1 mΩ) = 2393 A at least.
func TestFaultBreak(t *testing.T) {
	two := bank.New(1, 2, bank.JoinStrings, bank.OneEnd)
	hundred := sheetOfAll(2, "100 Ah") + "fuse.main/voltage = 58 V\n"
	walk(t, two, faultBreak, hundred, []row{
		{"breaks it", "fuse.main/breaking = 18250 A\nfuse.main/copper-before = 0.1 mOhm", "fuse.main", finding.Pass, "boundary: 18 250 A"},
		{"one ampere short", "fuse.main/breaking = 18249 A\nfuse.main/copper-before = 0.1 mOhm", "fuse.main", finding.CantTell, "boundary: 18 249 < 18 250 A"},
		{"copper not known", "fuse.main/breaking = 18250 A", "fuse.main", finding.CantTell, "hand: 20 857 A without it"},
		{"between both ends", "fuse.main/breaking = 5000 A\nfuse.main/copper-before = 0.1 mOhm", "fuse.main", finding.CantTell, "hand: 2393 … 18 250"},
		{"surely too weak", "fuse.main/breaking = 2000 A\nfuse.main/copper-before = 0.1 mOhm", "fuse.main", finding.Fail, "hand: 2000 < 2393"},
		{"the charger adds", "charger1/current-max = 100 A\nfuse.main/breaking = 18250 A\nfuse.main/copper-before = 0.1 mOhm", "fuse.main", finding.CantTell, "hand: 18 350 A"},
		{"the sheet's own current", "sheet1/short-circuit = 2500 A\nfuse.main/breaking = 5000 A", "fuse.main", finding.Pass, "boundary: 2 × 2500"},
		{"above the sheet's own", "sheet1/short-circuit = 2501 A\nfuse.main/breaking = 5000 A", "fuse.main", finding.Fail, "hand: 5002 > 5000, and the sheet leaves no doubt"},
		{"not entered", "", "fuse.main", finding.ToDo, "boundary"},
	})
	const strong = "fuse.main/voltage = 125 V\nfuse.main/breaking = 20000 A\nfuse.A/voltage = 125 V\nfuse.A/breaking = 20000 A\n"
	walk(t, two, faultBreak, sheetOfAll(2, "100 Ah"), []row{
		{"20 kA everywhere", strong + "fuse.B/voltage = 125 V\nfuse.B/breaking = 20000 A", "fuse.main", finding.Pass, "ABYC E-11 as quoted: 20 kA at 125 V DC, 14.6 ≤ 30 V"},
		{"not in every string", strong, "fuse.main", finding.CantTell, "hand: string B has none; 20 857 A > 20 kA"},
		{"rated at too few volts", strong + "fuse.B/voltage = 80 V\nfuse.B/breaking = 20000 A", "fuse.main", finding.CantTell, "hand: 80 < 125 V"},
		{"rated just below", strong + "fuse.B/voltage = 124 V\nfuse.B/breaking = 20000 A", "fuse.main", finding.CantTell, "boundary: 124 < 125 V"},
		{"breaks just less", strong + "fuse.B/voltage = 125 V\nfuse.B/breaking = 19999 A", "fuse.main", finding.CantTell, "boundary: 19 999 < 20 000 A"},
		{"on a boat", "site/kind = boat\n" + strong + "fuse.B/voltage = 125 V\nfuse.B/breaking = 20000 A", "fuse.main", finding.Pass, "ABYC E-11 as quoted: 20 kA at 125 V DC, 14.6 ≤ 30 V"},
		{"volts missing", "fuse.main/breaking = 20000 A", "fuse.main", finding.ToDo, "boundary"},
	})
	four := sheetOfAll(4, "100 Ah")
	charged := func(volts string) string { return strings.Replace(four, "= 14.6 V", "= "+volts, 1) }
	everywhere := strong + "fuse.B/voltage = 125 V\nfuse.B/breaking = 20000 A"
	walk(t, twoByTwo, faultBreak, "", []row{
		{"30 V and 20 kA everywhere", charged("15.0 V") + everywhere, "fuse.main", finding.Pass, "ABYC E-11 as quoted: 2 × 15.0 = 30 V; 30/1.4 mΩ is 21.4 kA"},
		{"more than 30 V", charged("15.1 V") + everywhere, "fuse.main", finding.CantTell, "boundary: 2 × 15.1 > 30 V"},
	})
	walk(t, fourInSeries, faultBreak, four, []row{
		{"too few volts", "fuse.main/voltage = 32 V\nfuse.main/breaking = 20000 A", "fuse.main", finding.Fail, "hand: 32 < 58.4"},
		{"one string", "fuse.main/voltage = 58.4 V\nfuse.main/breaking = 10429 A", "fuse.main", finding.Pass, "hand: 58.4/5.6 mΩ = 10 428.6 A"},
	})
	// 6 m of 50 mm² between the blocks, solid annealed copper at 20 °C (IEC
	// 60028): 6/58/50 = 2.069 mΩ; 58.4/(5.6 + 2.069 mΩ) = 7615 A. The highest
	// resistance that IEC 60228 allows would make it 58.4/7.958 mΩ = 7338 A.
	const metres = "cable1/size = 50 mm2\ncable1/standard = IEC 60228\nb1.n~b2.p/cable = cable1\nb2.n~b3.p/cable = cable1\nb3.n~b4.p/cable = cable1\nb1.n~b2.p/length = 2 m\nb2.n~b3.p/length = 2 m\nb3.n~b4.p/length = 2 m\nfuse.main/voltage = 80 V\n"
	walk(t, fourInSeries, faultBreak, four+metres, []row{
		{"breaks what the least copper lets through", "fuse.main/breaking = 7616 A", "fuse.main", finding.Pass, "hand: 7615 A"},
		{"breaks what the table's copper lets through", "fuse.main/breaking = 7400 A", "fuse.main", finding.CantTell, "hand: 7400 < 7615"},
	})
	// One block of 15.4 V among 14.6 V: 4 × 15.4/5.6 mΩ = 11 000 A.
	const mixed = "b4/sheet = sheet2\nsheet2/capacity = 100 Ah\nsheet2/charge-voltage-max = 15.4 V\nfuse.main/voltage = 80 V\n"
	walk(t, fourInSeries, faultBreak, strings.Replace(four, "b4/sheet = sheet1\n", "", 1)+mixed, []row{
		{"one block is charged higher", "fuse.main/breaking = 10999 A", "fuse.main", finding.CantTell, "hand: 61.6/5.6 mΩ = 11 000 A"},
		{"one block is charged higher, enough", "fuse.main/breaking = 11000 A", "fuse.main", finding.Pass, "boundary: 11 000 A"},
	})
	walk(t, fourInSeries, faultBreak, "", []row{
		{"nothing about the blocks", "fuse.main/voltage = 58.4 V\nfuse.main/breaking = 20000 A", "fuse.main", finding.ToDo, "boundary: missing is not zero"},
		{"too few volts, and no sheet gives the highest", "fuse.main/voltage = 58.3 V\nfuse.main/breaking = 20000 A", "fuse.main", finding.Fail, "common practice, no source: 4 × 14.6 = 58.4 V"},
	})
}

// Worked before this program, by another hand and program; arithmetic beside.
func TestFaultCurrents(t *testing.T) {
	links := func(strs, inEach int, ohms ...string) string {
		var b strings.Builder
		for s := 0; s < strs; s++ {
			for i := 0; i < inEach-1; i++ {
				n := s*inEach + i + 1
				b.WriteString(bank.LinkID(bank.BlockID(n)+".n", bank.BlockID(n+1)+".p") + "/lug-to-lug = " + ohms[i] + " mOhm\n")
			}
		}
		return b.String()
	}
	for _, r := range []struct {
		name  string
		l     bank.Layout
		fuse  string
		lines string
		want  float64
		from  string
	}{
		{"1S2P, 1.4 mΩ, shared 0.1", bank.New(1, 2, bank.JoinStrings, bank.OneEnd), "fuse.main", sheetOfAll(2, "100 Ah") + "fuse.main/copper-before = 0.1 mOhm", 18250, "14.6/0.8 mΩ"},
		{"1S2P, 2 mΩ, shared 0.1", bank.New(1, 2, bank.JoinStrings, bank.OneEnd), "fuse.main", sheetOfAll(2, "70 Ah") + "fuse.main/copper-before = 0.1 mOhm", 13272.727, "14.6/1.1 mΩ"},
		{"1S2P on bars, 1.4 mΩ, leads of 0.1", bank.New(1, 2, bank.JoinStrings, bank.EqualLeads), "fuse.main", sheetOfAll(2, "100 Ah") + "bar.p~sA.p/lug-to-lug = 0.1 mOhm\nbar.n~sA.n/lug-to-lug = 0.1 mOhm\nbar.p~sB.p/lug-to-lug = 0.1 mOhm\nbar.n~sB.n/lug-to-lug = 0.1 mOhm", 18250, "14.6/(1.6/2) mΩ"},
		{"4S2P, 2 mΩ, 0.8 outside", bank.New(4, 2, bank.JoinStrings, bank.OneEnd), "fuse.main", sheetOfAll(8, "70 Ah") + "fuse.main/copper-before = 0.8 mOhm", 12166.667, "58.4/4.8 mΩ"},
		{"4S2P, 0.6 mΩ, branch 0.68, shared 0.1", bank.New(4, 2, bank.JoinStrings, bank.OneEnd), "fuse.main", sheetOfAll(8, "300 Ah") + links(2, 4, "0.23", "0.23", "0.22") + "fuse.main/copper-before = 0.1 mOhm", 35609.756, "58.4/(3.08/2 + 0.1) mΩ"},
		{"4S4P, fuse of a string, three others", bank.New(4, 4, bank.JoinStrings, bank.OneEnd), "fuse.A", sheetOfAll(16, "70 Ah") + "fuse.A/copper-before = 0.8 mOhm", 16846.154, "58.4/(8/3 + 0.8) mΩ"},
		{"4S2P in groups, links shared", bank.New(4, 2, bank.JoinGroups, bank.Diagonal), "fuse.main", sheetOfAll(8, "70 Ah") + "gA.n~gB.p/lug-to-lug = 0.3 mOhm\ngB.n~gC.p/lug-to-lug = 0.3 mOhm\ngC.n~gD.p/lug-to-lug = 0.2 mOhm", 12166.667, "58.4/(8/2 + 0.8) mΩ"},
	} {
		f := fixture(t, r.l, r.lines)
		p, gap := f.fault(r.fuse, 14.6)
		if gap != nil {
			t.Fatalf("%s: %s", r.name, say.Voice{}.Say(gap.Next()))
		}
		if got := float64(p.span(p.branch, p.shared).High); math.Abs(got-r.want) > 1e-3 {
			t.Errorf("%s: %v A, want %v (hand: %s)", r.name, got, r.want, r.from)
		}
	}
}

func TestFaultShowsBothFigures(t *testing.T) {
	// hand: 58.4/5.6 mΩ = 10 429 A; with leads of 1 + 1 mΩ 58.4/7.6 = 7684 A.
	f := fixture(t, fourInSeries, sheetOfAll(4, "100 Ah"), "fuse.main/voltage = 58.4 V\nfuse.main/breaking = 20000 A\nlead.p/lug-to-lug = 1 mOhm\nlead.n/lug-to-lug = 1 mOhm")
	x := judged(t, f, faultBreak, "fuse.main")[0]
	note := say.Voice{}.Say(x.Notes()[0])
	if !strings.Contains(note, "10\u00a0500 A") || !strings.Contains(note, "7680 A") {
		t.Errorf("got %q", note)
	}
}
