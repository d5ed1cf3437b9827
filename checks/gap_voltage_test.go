package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

// arrivedAwake says that every block showed itself awake on arrival.
const arrivedAwake = "b1/arrival-voltage = 13.20 V\nb2/arrival-voltage = 13.20 V\nb3/arrival-voltage = 13.20 V\nb4/arrival-voltage = 13.20 V\n"

// A common meter, ±(0.5 % + 3 counts), showing 0.1 mV, by hand: at 9.6 mV
// U = 0.048 + 0.3 = 0.348 mV, at 10 mV 0.35 mV, at 10.4 mV 0.352 mV.
func TestGapVoltage(t *testing.T) {
	walk(t, twoByTwo, gapVoltageCheck, arrivedAwake, []row{
		{"the voltages say otherwise", restedAlike + "b1/rest-voltage = 13.300 V\nb2/rest-voltage = 13.600 V\nb2/gap-voltage = 0.1 mV", "sA", finding.CantTell, "hand: 300 mV and 0.1 mV cannot both be"},
		{"both asleep", restedAlike + "b1/rest-voltage = 0.000 V\nb2/rest-voltage = 0.000 V\nb2/gap-voltage = 0.0 mV", "sA", finding.CantTell, "hand: no gap between two open protections"},
		{"both turned", restedAlike + "b1/rest-voltage = -13.500 V\nb2/rest-voltage = -13.500 V\nb2/gap-voltage = 0.0 mV", "sA", finding.CantTell, "hand: below 8 V"},
		{"link on at the same moment", restedAlike + "b1.n~b2.p/closed = yes\nb2/gap-voltage = 1.0 mV, at -1s", "sA", finding.CantTell, "hand: not shown to be later"},
		{"below", restedAlike + "b2/gap-voltage = 9.6 mV", "sA", finding.Pass, "hand: 9.6 + 0.348 = 9.948"},
		{"below, the other way round", restedAlike + "b2/gap-voltage = -9.6 mV", "sA", finding.Pass, "hand: the sign does not matter"},
		{"just below", restedAlike + "b2/gap-voltage = 9.7 mV", "sA", finding.CantTell, "hand: 9.7 + 0.3485 = 10.05"},
		{"at the limit", restedAlike + "b2/gap-voltage = 10.0 mV", "sA", finding.CantTell, "boundary: 10.0 + 0.35 > 10"},
		{"just above", restedAlike + "b2/gap-voltage = 10.3 mV", "sA", finding.CantTell, "hand: 10.3 − 0.3515 = 9.95"},
		{"above", restedAlike + "b2/gap-voltage = 10.4 mV", "sA", finding.Fail, "hand: 10.4 − 0.352 = 10.048"},
		{"whole millivolts", restedAlike + "b2/gap-voltage = 4 mV", "sA", finding.Pass, "hand: 4 + 0.02 + 3 = 7.02"},
		{"ten-millivolt steps", restedAlike + "b2/gap-voltage = 0.00 V", "sA", finding.CantTell, "hand: ±3 counts of 10 mV is 30 mV"},
		{"over-range", restedAlike + "b2/gap-over-range = yes", "sA", finding.Fail, "hand: beyond any millivolt range"},
		{"not over-range, and no reading", restedAlike + "b2/gap-over-range = no", "sA", finding.ToDo, "boundary: missing is not zero"},
		{"at the top of the range", restedAlike + "m1/measures = V\nm1/percent = 0.5 %\nm1/counts = 3\nm1/range = 0.06 V\nb2/gap-voltage = 60.0 mV, m1", "sA", finding.Fail, "hand: what stands at the top is no reading"},
		{"over-range, no rest known", "b2/gap-over-range = yes", "sA", finding.CantTell, "hand: rest could have caused it"},
		{"missing", restedAlike, "sA", finding.ToDo, "boundary"},
		{"small, no rest known", "b2/gap-voltage = 1.0 mV", "sA", finding.CantTell, "common practice, no source: rest first"},
		{"20 mV, no rest known", "b2/gap-voltage = 20.0 mV", "sA", finding.CantTell, "hand: rest could have caused it"},
		{"0.2 V, no rest known", "b2/gap-voltage = 200 mV", "sA", finding.Fail, "hand: above 0.10 V no rest causes it"},
		{"read after one hour of rest", restedAlike + "b2/gap-voltage = 1.0 mV, at -13h", "sA", finding.CantTell, "hand: last current 14 h ago, read 13 h ago"},
		{"read after twelve hours of rest", restedAlike + "b2/gap-voltage = 1.0 mV, at -2h", "sA", finding.Pass, "boundary: 14 − 2 = 12 h"},
		{"the series link was on", restedAlike + "b1.n~b2.p/closed = yes\nb2/gap-voltage = 1.0 mV", "sA", finding.CantTell, "hand: all other links open"},
		{"the string was joined elsewhere", restedAlike + "sA.p~sB.p/closed = yes\nb2/gap-voltage = 1.0 mV", "sA", finding.CantTell, "hand: never on a string that is joined elsewhere"},
		{"an undrawn link was on", restedAlike + "b1.p~b2.p/closed = yes\nb2/gap-voltage = 0.1 mV", "sA", finding.CantTell, "hand: joined blocks always read alike"},
		{"the link was on only afterwards", restedAlike + "b2/gap-voltage = 1.0 mV\nb1.n~b2.p/closed = yes", "sA", finding.Pass, "hand: read before it was closed, 1 + 0.3 ≤ 10"},
		{"the firm is stricter", restedAlike + "house/gap-voltage.gap = 5 mV\nb2/gap-voltage = 6.0 mV", "sA", finding.Fail, "hand: 6 − 0.33 > 5"},
		{"strings, small", restedAlike + "sB/string-gap = 2.0 mV", "bank", finding.Pass, "hand: 2 + 0.31"},
		{"strings, with their series links on", restedAlike + "b1.n~b2.p/closed = yes\nb3.n~b4.p/closed = yes\nsB/string-gap = 2.0 mV", "bank", finding.Pass, "hand: the links inside a string belong there"},
		{"strings, joined already", restedAlike + "sA.n~sB.n/closed = yes\nsB/string-gap = 2.0 mV", "bank", finding.CantTell, "hand: joined while read never counts"},
		{"strings, not read", restedAlike, "bank", finding.ToDo, "boundary"},
	})
}

// Three against one first block: 6 and −6 mV are 12 mV apart, though each is
// near the first (hand).
func TestTheWidestGapIsJudged(t *testing.T) {
	const fine = "m2/measures = V\nm2/percent = 0.5 %\nm2/counts = 3\nm2/step = 0.01 mV\n"
	three := bank.New(1, 3, bank.JoinGroups, bank.OneEnd)
	walk(t, three, gapVoltageCheck, restedAlike+arrivedAwake, []row{
		{"both above", "b2/gap-voltage = 6.0 mV\nb3/gap-voltage = 5.0 mV", "gA", finding.Pass, "hand: 6 + 0.33 ≤ 10"},
		{"one above, one below", "b2/gap-voltage = 6.0 mV\nb3/gap-voltage = -6.0 mV", "gA", finding.Fail, "hand: 12 − 0.06 − 0.3 = 11.64 > 10"},
		{"nearly the limit apart, no sheet", "b2/gap-voltage = 8.9 mV\nb3/gap-voltage = -0.9 mV", "gA", finding.CantTell, "hand: 9.8 + 0.049 + 0.3 = 10.149; d/√6 alone would pass it with 9.9"},
		{"less apart, no sheet", "b2/gap-voltage = 8.7 mV\nb3/gap-voltage = -0.9 mV", "gA", finding.Pass, "hand: 9.6 + 0.048 + 0.3 = 9.948"},
		{"nearly the limit apart, in steps of 0.01 mV", fine + "b2/gap-voltage = 8.90 mV, m2\nb3/gap-voltage = -0.90 mV, m2", "gA", finding.Pass, "hand: 9.8 + 0.049 + 0.03 = 9.879"},
		{"closer still, in steps of 0.01 mV", fine + "b2/gap-voltage = 9.03 mV, m2\nb3/gap-voltage = -0.90 mV, m2", "gA", finding.CantTell, "hand: 9.93 + 0.0497 + 0.03 = 10.01"},
		{"digits that move", fine + "b2/gap-voltage = 8.99 mV, m2, moving\nb3/gap-voltage = -0.90 mV, m2, moving", "gA", finding.Pass, "hand: 9.89 + 0.0495 + 0.03 + 2·0.01 = 9.99"},
		{"digits that move, a count more", fine + "b2/gap-voltage = 9.01 mV, m2, moving\nb3/gap-voltage = -0.90 mV, m2, moving", "gA", finding.CantTell, "hand: 9.91 + 0.0496 + 0.03 + 2·0.01 = 10.01"},
	})
	groups := bank.New(2, 2, bank.JoinGroups, bank.OneEnd)
	walk(t, groups, gapVoltageCheck, restedAlike+arrivedAwake, []row{
		{"inside the second group", "b4/gap-voltage = 9.0 mV", "gB", finding.Pass, "hand: 9 + 0.345 ≤ 10, against block 3"},
		{"all groups", "b2/gap-voltage = 1.0 mV\nb3/gap-voltage = 4.0 mV\nb4/gap-voltage = 4.0 mV", "bank", finding.Pass, "hand: block 4 stands 4 + 4 above block 1, U 0.32 + 0.32"},
		{"all groups, on one side of the first", "b2/gap-voltage = 5.0 mV\nb3/gap-voltage = 4.0 mV\nb4/gap-voltage = 4.0 mV", "bank", finding.Pass, "hand: block 4 stands 8 above block 1, U 0.64, and 3 above block 2"},
		{"all groups, too far", "b2/gap-voltage = -1.0 mV\nb3/gap-voltage = 6.0 mV\nb4/gap-voltage = 5.0 mV", "bank", finding.Fail, "hand: block 4 stands 6 + 5 + 1 = 12 above block 2, U 0.33 + 0.325 + 0.305"},
		{"the first of the second group is not read", "b2/gap-voltage = 1.0 mV\nb4/gap-voltage = 4.0 mV", "bank", finding.ToDo, "boundary"},
	})
	walk(t, bank.New(1, 2, bank.JoinStrings, bank.OneEnd), gapVoltageCheck, restedAlike+arrivedAwake, []row{
		{"strings of one block", "b2/gap-voltage = 1.0 mV", "bank", finding.Pass, "hand: the block is the string"},
	})
	walk(t, bank.New(5, 2, bank.JoinStrings, bank.OneEnd), gapVoltageCheck, restedAlike+arrivedAwake, []row{
		{"above 60 V", "sB/string-gap = 1.0 mV", "bank", finding.CantTell, "hand: 5 · 14.6 = 73 V; the method is not for it"},
	})
}
