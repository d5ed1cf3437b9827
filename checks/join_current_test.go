package checks

import (
	"math"
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

const joinSheet = `
	b1/sheet = sheet1
	b2/sheet = sheet1
	b3/sheet = sheet1
	b4/sheet = sheet1
	sheet1/capacity = 100 Ah
	sheet1/charge-max = 50 A
	sheet1/discharge-max = 100 A
`

// Two blocks of 100 Ah that nobody measured: 1.4 to 12 mΩ each, so ΣR is 2.8
// to 24 mΩ; the limit is 0.1 · 100 = 10 A. The gap meter is ±(0.5 % + 3 counts).
func TestJoinCurrent(t *testing.T) {
	pair := bank.New(1, 2, bank.JoinGroups, bank.OneEnd)
	walk(t, pair, joinCurrent, joinSheet, []row{
		{"small gap", "b2/gap-voltage = 20.0 mV", "gA", finding.Pass, "hand: 20.4/2.8 = 7.3 A"},
		{"just below", "b2/gap-voltage = 27.5 mV", "gA", finding.Pass, "hand: 27.9375/2.8 = 9.98 A"},
		{"just above", "b2/gap-voltage = 27.6 mV", "gA", finding.CantTell, "hand: 28.038/2.8 = 10.01 A"},
		{"the lower end at the maker's", "b2/gap-voltage = 1200.0 mV", "gA", finding.CantTell, "hand: (1200 − 6.3)/24 = 49.7 A"},
		{"the lower end above the maker's", "b2/gap-voltage = 1300.0 mV", "gA", finding.Fail, "hand: (1300 − 6.8)/24 = 53.9 A > 50"},
		{"the protection takes it for a short", "sheet1/short-trip = 300 A\nb2/gap-voltage = 900.0 mV", "gA", finding.Fail, "hand: 904.8/2.8 = 323 A > 300"},
		{"below the trip", "sheet1/short-trip = 330 A\nb2/gap-voltage = 900.0 mV", "gA", finding.CantTell, "hand: 323 A ≤ 330, 895.2/24 = 37 ≤ 50"},
		{"a small joining fuse", "bank/join-fuse = 5 A\nb2/gap-voltage = 20.0 mV", "gA", finding.CantTell, "hand: 7.3 A > 5, 19.6/24 = 0.8 A"},
		{"a joining lead", "bank/join-lead = 10 mOhm\nb2/gap-voltage = 100.0 mV", "gA", finding.Pass, "hand: 100.8/12.8 = 7.9 A"},
		{"a joining lead, the lower end", "bank/join-lead = 10 mOhm\nb2/gap-voltage = 1300.0 mV", "gA", finding.CantTell, "hand: (1300 − 6.8)/34 = 38 A ≤ 50"},
		{"measured blocks", "b1/resistance = 8.0 mOhm\nb2/resistance = 8.0 mOhm\nb2/gap-voltage = 60.0 mV", "gA", finding.Pass, "hand: 60.6/(4 + 4) = 7.6 A"},
		{"from the voltages", "b1/rest-voltage = 13.200 V\nb2/rest-voltage = 13.220 V", "gA", finding.Pass, "hand: (20 + 0.82)/2.8 = 7.4 A"},
		{"from the voltages, one meter with two decimals", "b1/rest-voltage = 13.20 V\nb2/rest-voltage = 13.22 V", "gA", finding.CantTell, "hand: (20 + 8.17)/2.8 = 10.06 A"},
		{"a reversed block", "b1/rest-voltage = 13.20 V\nb2/rest-voltage = -13.20 V", "gA", finding.Fail, "hand: 26.4 V over 24 mΩ"},
		{"read while joined", "b1.p~b2.p/closed = yes\nb1/rest-voltage = 13.20 V\nb2/rest-voltage = 13.20 V", "gA", finding.CantTell, "hand: joined blocks always read alike"},
		{"gap read while joined", "b1.p~b2.p/closed = yes\nb2/gap-voltage = 0.1 mV", "gA", finding.CantTell, "hand: joined blocks always read alike"},
		{"a long round, not closed", "b1/rest-voltage = 13.200 V, at -30m\nb2/rest-voltage = 13.200 V", "gA", finding.CantTell, "hand: 30 min and no reading at the end"},
		{"no voltage", "", "gA", finding.ToDo, "boundary: missing is not zero"},
		{"a thin link", "b1.p~b2.p/cable = cable1\ncable1/size = 14 AWG\ncable1/standard = ASTM B258\nsheet1/capacity = 100 Ah\nhouse/join-current.current = 30 A\nb2/gap-voltage = 70.0 mV", "gA", finding.CantTell, "hand: 70.65/2.8 = 25 A above the smallest cables of the table"},
		{"a link of unknown size", "b1.p~b2.p/cable = cable1\nb2/gap-voltage = 20.0 mV", "gA", finding.Pass, "hand: 7.3 ≤ 10 A; a cable without a size says no more than no cable"},
	})
	walk(t, pair, joinCurrent, "b1/sheet = sheet1\nb2/sheet = sheet1\nsheet1/capacity = 100 Ah\nb2/gap-voltage = 1.0 mV", []row{
		{"no charge limit", "sheet1/discharge-max = 100 A", "gA", finding.ToDo, "boundary: missing is not without limit"},
		{"no discharge limit", "sheet1/charge-max = 50 A", "gA", finding.ToDo, "boundary"},
		{"a charge limit below 0.1 C", "sheet1/charge-max = 0.2 A\nsheet1/discharge-max = 100 A", "gA", finding.CantTell, "hand: 1.305/2.8 = 0.47 A > 0.2"},
	})
	walk(t, pair, joinCurrent, "b2/gap-voltage = 1.0 mV", []row{
		{"no sheet", "", "gA", finding.ToDo, "boundary"},
	})
	walk(t, bank.New(2, 1, bank.JoinStrings, bank.OneEnd), joinCurrent, "", []row{
		{"nothing in parallel", "", "bank", finding.NotNeeded, "boundary"},
	})
}

// The limit is 0.3 · 100 = 30 A once both were charged to full.
func TestJoinCurrentOfFullBlocks(t *testing.T) {
	both := joinSheet + "bank/settled = no\n" + goodMeter + goodShunt + full("14.40 V", "3.00 A", "14.40 V", "2.50 A", "fell-slowly")
	other := strings.ReplaceAll(full("14.40 V", "3.00 A", "14.40 V", "2.50 A", "fell-slowly"), "b1/", "b2/")
	pair := bank.New(1, 2, bank.JoinGroups, bank.OneEnd)
	walk(t, pair, joinCurrent, both, []row{
		{"only one is full", "b2/gap-voltage = 80.0 mV", "gA", finding.CantTell, "hand: 80.7/2.8 = 28.8 A > 10"},
		{"both are full", other + "b2/gap-voltage = 80.0 mV", "gA", finding.Pass, "hand: 28.8 A ≤ 30"},
		{"both are full, too far", other + "b2/gap-voltage = 84.0 mV", "gA", finding.CantTell, "hand: 84.72/2.8 = 30.3 A"},
	})
}

// Strings of two: 2 · 1.4 mΩ each, ΣR 5.6 mΩ.
func TestJoinCurrentOfStrings(t *testing.T) {
	walk(t, twoByTwo, joinCurrent, joinSheet, []row{
		{"one count", "sA/total-voltage = 26.40 V\nsB/total-voltage = 26.41 V", "bank", finding.Pass, "hand: 18.17/5.6 = 3.2 A"},
		{"five counts", "sA/total-voltage = 26.40 V\nsB/total-voltage = 26.45 V", "bank", finding.CantTell, "hand: 58.17/5.6 = 10.4 A"},
		{"a total is missing", "sA/total-voltage = 26.40 V", "bank", finding.ToDo, "boundary"},
		{"read while joined", "sA.p~sB.p/closed = yes\nsA/total-voltage = 26.40 V\nsB/total-voltage = 26.40 V", "bank", finding.CantTell, "hand: joined strings always read alike"},
	})
}

// One against two in parallel: 1.4 + 1.4/2 = 2.1 mΩ, less than against one.
func TestJoinCurrentAgainstAGroup(t *testing.T) {
	walk(t, bank.New(1, 3, bank.JoinGroups, bank.OneEnd), joinCurrent, joinSheet, []row{
		{"20 mV apart", "b2/gap-voltage = 10.0 mV\nb3/gap-voltage = -10.0 mV", "gA", finding.Pass, "hand: (20 + 0.14)/2.1 = 9.6 A"},
		{"22 mV apart", "b2/gap-voltage = 11.0 mV\nb3/gap-voltage = -11.0 mV", "gA", finding.CantTell, "hand: (22 + 0.15)/2.1 = 10.5 A; against one alone 7.9"},
	})
}

// The resistance that a lead needs: 100.8 mV over 10 A less 4 mΩ (domain
// vector, by hand: 10.08 − 4).
func TestTheNextActionNamesTheLead(t *testing.T) {
	f := fixture(t, bank.New(1, 2, bank.JoinGroups, bank.OneEnd), joinSheet, "b1/resistance = 4.0 mOhm\nb2/resistance = 4.0 mOhm\nb2/gap-voltage = 100.0 mV")
	x := judged(t, f, joinCurrent, "gA")[0]
	if got := (say.Voice{}).Say(x.Next()); !strings.Contains(got, "6.08 mOhm") {
		t.Errorf("next: %q, want a lead of 6.08 mΩ", got)
	}
}

// A side that stands between the others may meet no voltage at all; one at the
// end meets at least its nearest: 1 V over 2 + 2 mΩ is 250 A (hand).
func TestASideBetweenTheOthersMayCarryNothing(t *testing.T) {
	ohms := measure.Interval[unit.Ohm]{Low: 0.001, High: 0.002}
	at := []unit.Volt{0, 1, -1}
	all, ok := meetings([]joinSide{{"b1", ohms}, {"b2", ohms}, {"b3", ohms}}, func(a, b int) measure.Reading[unit.Volt] {
		return measure.Reading[unit.Volt]{Value: at[a] - at[b]}
	}, 0)
	if !ok || all[0].current.Low != 0 || math.Abs(float64(all[1].current.Low)-250) > 1e-9 {
		t.Errorf("%+v", all)
	}
	// The lowest meets the others as the highest does (hand).
	if low, high := float64(all[2].current.Low), float64(all[2].current.High); math.Abs(low-250) > 1e-9 || math.Abs(high-4000.0/3) > 1e-6 {
		t.Errorf("the lowest: %v to %v A, want 250 to 1333.3", low, high)
	}
	// Upper end: 2 V over 1 + 1/2 mΩ is 1333 A (hand).
	if got := float64(all[1].current.High); math.Abs(got-4000.0/3) > 1e-6 {
		t.Errorf("upper end %v, want 1333.3 A", got)
	}
}
