package checks

import (
	"math"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

var threeInSeries = bank.New(3, 1, bank.JoinStrings, bank.OneEnd)

// jointLines gives drops in mV at 160 A of the four joints of three blocks in
// series: 2.88, 3.04, 3.20, 4.96 mV are 18, 19, 20 and 31 µΩ.
func jointLines(first, second, third, fourth string) string {
	out := "bank/drop-current = 160.0 A\nbank/design-current = 100 A\n"
	for i, j := range []string{"b1.n~b2.p@b1.n", "b1.n~b2.p@b2.p", "b2.n~b3.p@b2.n", "b2.n~b3.p@b3.p"} {
		if mv := []string{first, second, third, fourth}[i]; mv != "" {
			out += j + "/drop = " + mv + " mV\n" + j + "/drop-zero = 0.00 mV\n"
		}
	}
	return out
}

// The clamp's ±(2 % + 5 counts + 0.5 A) is 4.2 A of 160 A, 2.6 % of R.
func TestJointResistance(t *testing.T) {
	four := jointLines("2.88", "3.04", "3.20", "4.96")
	walk(t, threeInSeries, jointResistance, "", []row{
		{"18 among 19, 20, 31", four, "b1.n~b2.p@b1.n", finding.Pass, "hand: others 19 20 31, median 20, limit 25; 18 + 0.5"},
		{"19 among 18, 20, 31", four, "b1.n~b2.p@b2.p", finding.Pass, "hand: median 20, limit 25"},
		{"20 among 18, 19, 31", four, "b2.n~b3.p@b2.n", finding.Pass, "hand: median 19, limit 24"},
		{"31 among 18, 19, 20", four, "b2.n~b3.p@b3.p", finding.Fail, "hand: median 19, bad above 19 + 10 = 29; 31 − 0.9"},
		{"below the limit", jointLines("2.88", "3.04", "3.20", "3.70"), "b2.n~b3.p@b3.p", finding.Pass, "hand: 23.1 + 0.7 ≤ 24"},
		{"at the limit", jointLines("2.88", "3.04", "3.20", "3.84"), "b2.n~b3.p@b3.p", finding.CantTell, "boundary: 24.0 ± 0.7"},
		{"between", jointLines("2.88", "3.04", "3.20", "4.32"), "b2.n~b3.p@b3.p", finding.CantTell, "hand: 27 lies between 24 and 29"},
		{"one of four not read", jointLines("2.88", "3.04", "3.20", ""), "b2.n~b3.p@b3.p", finding.ToDo, "boundary"},
		{"no zero reading", jointLines("2.88", "3.04", "3.20", "") + "b2.n~b3.p@b3.p/drop = 3.20 mV", "b2.n~b3.p@b3.p", finding.ToDo, "boundary: missing is not zero"},
		{"contact volts come off", jointLines("2.88", "3.04", "3.20", "") + "b2.n~b3.p@b3.p/drop = 5.20 mV\nb2.n~b3.p@b3.p/drop-zero = 2.00 mV", "b2.n~b3.p@b3.p", finding.Pass, "hand: (5.20 − 2.00)/160 = 20 µΩ"},
		{"probes the other way round", jointLines("2.88", "3.04", "3.20", "-3.20"), "b2.n~b3.p@b3.p", finding.Pass, "hand: 20 µΩ"},
		{"alike but burning", jointLines("17.0", "17.0", "17.0", "17.0"), "b1.n~b2.p@b1.n", finding.Fail, "hand: 106 − 3 > 100 µΩ"},
		{"alike and nearly so", jointLines("15.2", "15.2", "15.2", "15.2"), "b1.n~b2.p@b1.n", finding.Pass, "boundary: 95 ± 2.5 ≤ 100 µΩ"},
		{"the firm is stricter", "house/joint-r.resistance = 19 uOhm\n" + four, "b2.n~b3.p@b2.n", finding.CantTell, "hand: 20 ± 0.5 is above 19, below 29"},
	})
	weak := "b1.n~b2.p@b1.n/drop = 0.8 mV\nb1.n~b2.p@b1.n/drop-zero = 0.0 mV\nb1.n~b2.p@b2.p/drop = 0.8 mV\nb1.n~b2.p@b2.p/drop-zero = 0.0 mV\nb2.n~b3.p@b2.n/drop = 0.8 mV\nb2.n~b3.p@b2.n/drop-zero = 0.0 mV\nbank/design-current = 100 A\n"
	walk(t, threeInSeries, jointResistance, weak, []row{
		{"0.1 mV at 49 A", "bank/drop-current = 49.0 A", "b1.n~b2.p@b1.n", finding.CantTell, "boundary: 50 A is the least for 0.1 mV"},
		{"0.1 mV at 50 A", "bank/drop-current = 50.0 A", "b1.n~b2.p@b1.n", finding.Pass, "hand: 16 ± 1.8 µΩ; half of 5 is 2.5, limit 21"},
		{"current not entered", "", "b1.n~b2.p@b1.n", finding.ToDo, "boundary: a test current has no default"},
	})
	walk(t, threeInSeries, jointResistance, weak+"m5/measures = A\nm5/percent = 20 %\nm5/counts = 1\n", []row{
		{"a clamp that knows a fifth", "bank/drop-current = 50.0 A, m5", "b1.n~b2.p@b1.n", finding.CantTell, "hand: 16 ± 3.6 µΩ; half of 5 is 2.5"},
	})
	two := bank.New(2, 1, bank.JoinStrings, bank.OneEnd)
	pair := func(mv, design string) string {
		return "bank/drop-current = 160.0 A\nbank/design-current = " + design + "\nb1.n~b2.p@b1.n/drop = " + mv + " mV\nb1.n~b2.p@b1.n/drop-zero = 0.00 mV\nb1.n~b2.p@b2.p/drop = 3.20 mV\nb1.n~b2.p@b2.p/drop-zero = 0.00 mV\n"
	}
	walk(t, two, jointResistance, "", []row{
		{"two joints, 30 µΩ", pair("4.80", "100 A"), "b1.n~b2.p@b1.n", finding.Pass, "hand: 30 + 0.8 ≤ 50 and 0.31 W ≤ 2 W"},
		{"two joints, 50 µΩ", pair("8.00", "100 A"), "b1.n~b2.p@b1.n", finding.CantTell, "boundary: 50 ± 1.3"},
		{"two joints, 47 µΩ", pair("7.52", "100 A"), "b1.n~b2.p@b1.n", finding.Pass, "boundary: 47 + 1.3 ≤ 50"},
		{"two joints, too warm", pair("4.80", "300 A"), "b1.n~b2.p@b1.n", finding.CantTell, "hand: 300² × 30.8 µΩ = 2.8 W > 2 W"},
		{"two joints, 110 µΩ", pair("17.60", "100 A"), "b1.n~b2.p@b1.n", finding.Fail, "hand: 110 − 3 > 100 µΩ"},
		{"two joints, no design current", "bank/drop-current = 160.0 A\nb1.n~b2.p@b1.n/drop = 3.20 mV\nb1.n~b2.p@b1.n/drop-zero = 0.00 mV", "b1.n~b2.p@b1.n", finding.CantTell, "boundary: its heat is not known"},
	})
	drop := "b1.n~b2.p@b1.n/drop = 3.20 mV\nb1.n~b2.p@b1.n/drop-zero = 0.00 mV\nbank/design-current = 100 A\n"
	walk(t, twoByTwo, jointResistance, drop, []row{
		{"two strings, only the bank's current", "bank/drop-current = 160.0 A", "b1.n~b2.p@b1.n", finding.CantTell, "hand: half of 160 A would make 20 µΩ to 40"},
		{"two strings, clamped at the link", "b1.n~b2.p/drop-current = 80.0 A", "b1.n~b2.p@b1.n", finding.Pass, "hand: 3.20/80 = 40 ± 1.5 µΩ ≤ 50, 0.42 W"},
		{"two strings, no current", "", "b1.n~b2.p@b1.n", finding.ToDo, "boundary"},
	})
	walk(t, bank.New(1, 1, bank.JoinStrings, bank.OneEnd), jointResistance, "", []row{
		{"one block", "", "bank", finding.NotNeeded, "hand: no links"},
	})
}

// Published with the rule: 1.63 µΩ at 50 A and 4.08 at 20 A where the meter
// shows 0.1 mV, 0.82 at 10 A where it shows 0.01 mV. Hand: 2·d/√6/I.
func TestJointUncertainty(t *testing.T) {
	for _, r := range []struct {
		drop, amps string
		want       float64
	}{{"0.0", "50.0", 1.633}, {"0.0", "20.0", 4.082}, {"0.00", "10.0", 0.816}} {
		f := fixture(t, threeInSeries, "bank/drop-current = "+r.amps+" A", "b1.n~b2.p@b1.n/drop = "+r.drop+" mV", "b1.n~b2.p@b1.n/drop-zero = "+r.drop+" mV")
		j, gap := f.joint("b1.n~b2.p@b1.n")
		if gap != nil || math.Abs(float64(j.r.U)*1e6-r.want) > 1e-3 {
			t.Errorf("%s mV at %s A: %v µΩ, want %v", r.drop, r.amps, float64(j.r.U)*1e6, r.want)
		}
	}
}

func TestOnlyLikeJointsAreCompared(t *testing.T) {
	// hand: in two strings of two, links inside strings and between strings are
	// two makes; each has two or four joints.
	f := fixture(t, twoByTwo, "sA.p~sB.p@sA.p/drop = 3.20 mV\nsA.p~sB.p@sA.p/drop-zero = 0.00 mV\nsA.p~sB.p/drop-current = 80.0 A",
		"b1.n~b2.p@b1.n/drop = 3.20 mV\nb1.n~b2.p@b1.n/drop-zero = 0.00 mV\nb1.n~b2.p/drop-current = 80.0 A")
	if got := f.likeJoints("b1.n~b2.p@b2.p"); len(got) != 1 {
		t.Errorf("got %v, want the one other joint on a link inside a string", got)
	}
}
