package checks

import (
	"fmt"
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

// topOf gives a block its voltage twice, 70 s apart.
func topOf(block, v1, v2 string) string {
	return block + "/top-voltage = " + v1 + ", m1, at -80s\n" + block + "/top-voltage-again = " + v2 + ", m1, at -10s\n"
}

// tailAt gives a string or group its current twice, 70 s apart.
func tailAt(part, i1, i2 string) string {
	return part + "/tail-current = " + i1 + ", m2, at -80s\n" + part + "/tail-current-again = " + i2 + ", m2, at -10s\n"
}

// Half-widths by hand: 14.3 V ±(7.2 + 3) = 10.2 mV, 4.9 A ±(0.049 + 0.01).
func TestChargeDone(t *testing.T) {
	alone := bank.New(2, 1, bank.JoinStrings, bank.OneEnd)
	const slow = "bank/charge-ended = fell-slowly\n"
	const meters = goodMeter + goodShunt + "b1/sheet = sheet1\nb2/sheet = sheet1\nsheet1/capacity = 100 Ah\n"
	good := topOf("b1", "14.300 V", "14.310 V") + topOf("b2", "14.280 V", "14.290 V")
	longRound := func(seconds int) string { // each round from block 1 to block 2, the tail read at its end
		return fmt.Sprintf("b1/top-voltage = 14.300 V, m1, at -%ds\nb1/top-voltage-again = 14.300 V, m1, at -%ds\n", seconds+80, seconds+10) +
			"b2/top-voltage = 14.300 V, m1, at -80s\nb2/top-voltage-again = 14.300 V, m1, at -10s\n" + tailAt("sA", "3.00 A", "2.50 A") + slow
	}
	walk(t, alone, chargeDone, meters, []row{
		{"done", good + tailAt("sA", "3.00 A", "2.50 A") + slow, "bank", finding.Pass, "hand: 14.27 ≥ 14.0, 3.04 ≤ 5"},
		{"one block just above 14.0", topOf("b1", "14.300 V", "14.300 V") + topOf("b2", "14.020 V", "14.020 V") + tailAt("sA", "3.00 A", "2.50 A") + slow, "bank", finding.Pass, "hand: 14.0099 ≥ 14.0"},
		{"one block at 14.0", topOf("b1", "14.300 V", "14.300 V") + topOf("b2", "14.000 V", "14.020 V") + tailAt("sA", "3.00 A", "2.50 A") + slow, "bank", finding.CantTell, "boundary: 14.000 − 0.0100 < 14.0"},
		{"its second reading a little below", topOf("b1", "14.300 V", "14.300 V") + topOf("b2", "14.020 V", "14.005 V") + tailAt("sA", "3.00 A", "2.50 A") + slow, "bank", finding.CantTell, "boundary: 14.005 − 0.0100 < 14.0"},
		{"its second reading a little higher than allowed", topOf("b1", "14.580 V", "14.595 V") + topOf("b2", "14.300 V", "14.300 V") + tailAt("sA", "3.00 A", "2.50 A") + slow, "bank", finding.CantTell, "boundary: 14.595 + 0.0103 > 14.6, though 14.580 + 0.0103 is not"},
		{"its first reading a little higher than allowed", topOf("b1", "14.595 V", "14.580 V") + topOf("b2", "14.300 V", "14.300 V") + tailAt("sA", "3.00 A", "2.50 A") + slow, "bank", finding.CantTell, "boundary: 14.595 + 0.0103 > 14.6"},
		{"one block far below", topOf("b1", "14.300 V", "14.300 V") + topOf("b2", "13.500 V", "13.500 V") + tailAt("sA", "3.00 A", "2.50 A") + slow, "bank", finding.CantTell, "hand: not full yet is no failure"},
		{"tail just kept", good + tailAt("sA", "4.90 A", "4.90 A") + slow, "bank", finding.Pass, "hand: 4.96 ≤ 5"},
		{"tail at the limit", good + tailAt("sA", "5.00 A", "4.00 A") + slow, "bank", finding.CantTell, "boundary: 5.00 + 0.06 > 5"},
		{"still charging", good + tailAt("sA", "20.00 A", "19.00 A") + slow, "bank", finding.CantTell, "hand: 20 > 5, and it still flows"},
		{"a clamp the wrong way round", good + tailAt("sA", "-20.00 A", "-19.00 A") + slow, "bank", finding.CantTell, "hand: 20 A whatever its sign"},
		{"from 20 A to nothing", good + tailAt("sA", "20.00 A", "0.00 A") + slow, "bank", finding.Fail, "hand: 20 > 2 · 5, then 0"},
		{"the tail read a day before", good + "sA/tail-current = 3.00 A, m2, at -24h2m\nsA/tail-current-again = 2.50 A, m2, at -24h\n" + slow, "bank", finding.CantTell, "boundary: a sample is volts and current together"},
		{"a round of ten minutes", longRound(600), "bank", finding.Pass, "boundary: ten minutes"},
		{"a round of more than ten minutes", longRound(630), "bank", finding.CantTell, "boundary: ten and a half minutes"},
		{"a small current out of it", good + tailAt("sA", "-2.00 A", "-2.00 A") + slow, "bank", finding.CantTell, "hand: −2 + 0.03 < 0: it gives current"},
		{"it dropped", good + tailAt("sA", "0.00 A", "0.00 A") + "bank/charge-ended = dropped", "bank", finding.Fail, "hand: a trip is not full"},
		{"nobody saw it, nothing flows", good + tailAt("sA", "0.00 A", "0.00 A") + "bank/charge-ended = not-seen", "bank", finding.CantTell, "hand: an open protection shows the same"},
		{"nobody saw it, but it flows", good + tailAt("sA", "3.00 A", "2.50 A") + "bank/charge-ended = not-seen", "bank", finding.Pass, "hand: 2.5 − 0.035 > 0"},
		{"a block above its highest", topOf("b1", "14.650 V", "14.300 V") + tailAt("sA", "3.00 A", "2.50 A") + slow, "bank", finding.Fail, "hand: 14.65 − 0.0103 > 14.6, whatever is missing"},
		{"a block at its highest", topOf("b1", "14.595 V", "14.595 V") + topOf("b2", "14.300 V", "14.300 V") + tailAt("sA", "3.00 A", "2.50 A") + slow, "bank", finding.CantTell, "boundary: 14.6053 > 14.6"},
		{"a block above its maker's highest", "sheet1/charge-voltage-max = 14.4 V\n" + topOf("b1", "14.450 V", "14.300 V"), "bank", finding.Fail, "hand: 14.45 − 0.0102 > 14.4"},
		{"above its maker's tail", "sheet1/tail-current = 3 A\n" + good + tailAt("sA", "3.50 A", "3.50 A") + slow, "bank", finding.CantTell, "hand: 3.5 > 3, though 5 A would be usual"},
		{"one sample", "b1/top-voltage = 14.300 V, m1\nb2/top-voltage = 14.300 V, m1\nsA/tail-current = 3.00 A, m2\n" + slow, "bank", finding.ToDo, "boundary: two samples"},
		{"samples 10 s apart", strings.ReplaceAll(good+tailAt("sA", "3.00 A", "2.50 A"), "at -80s", "at -20s") + slow, "bank", finding.CantTell, "boundary: 10 s"},
		{"only the bank is known", "bank/total-voltage = 28.60 V\n" + slow, "bank", finding.ToDo, "hand: a total names no block"},
		{"nobody says how it ended", good + tailAt("sA", "3.00 A", "2.50 A"), "bank", finding.ToDo, "boundary"},
	})
	two := bank.New(1, 2, bank.JoinGroups, bank.OneEnd)
	walk(t, two, chargeDone, meters+good+slow, []row{
		{"a group of two takes two tails", tailAt("gA", "9.80 A", "9.80 A"), "bank", finding.Pass, "hand: 9.908 ≤ 2 · 5"},
		{"more than two tails", tailAt("gA", "10.00 A", "9.00 A"), "bank", finding.CantTell, "boundary: 10 + 0.11 > 2 × 5"},
	})
}

// 0.20 V read one by one with one meter of 1 mV steps: U = 0.82 mV and
// 0.05 % of the difference.
func TestTopSpread(t *testing.T) {
	alone := bank.New(2, 1, bank.JoinStrings, bank.OneEnd)
	const meters = goodMeter + goodShunt + "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/capacity = 100 Ah\n"
	const tail = "sA/tail-current = 3.00 A, m2\n"
	top := func(a, b string) string {
		return "b1/top-voltage = " + a + ", m1\nb2/top-voltage = " + b + ", m1\n"
	}
	walk(t, alone, topSpread, meters, []row{
		{"even", tail + top("14.250 V", "14.200 V"), "bank", finding.Pass, "hand: 50 + 0.8 ≤ 200"},
		{"just even", tail + top("14.399 V", "14.200 V"), "bank", finding.Pass, "hand: 199 + 0.83 ≤ 200"},
		{"at the limit", tail + top("14.400 V", "14.200 V"), "bank", finding.CantTell, "boundary: 200 + 0.83 > 200"},
		{"between", tail + top("14.500 V", "14.150 V"), "bank", finding.CantTell, "hand: 0.2 < 0.35 < 0.5"},
		{"at the far limit", tail + top("14.500 V", "14.000 V"), "bank", finding.CantTell, "boundary: 500 − 0.9 < 500"},
		{"uneven", tail + top("14.510 V", "14.000 V"), "bank", finding.Fail, "hand: 510 − 0.9 > 500"},
		{"above the maker's highest", "sheet1/charge-voltage-max = 14.4 V\n" + tail + top("14.450 V", "14.400 V"), "bank", finding.Fail, "hand: 14.45 − 0.0102 > 14.4"},
		{"uneven and low", tail + top("14.300 V", "13.300 V"), "bank", finding.Fail, "hand: at less volts 1 V is all the more charge"},
		{"low", tail + top("13.700 V", "13.650 V"), "bank", finding.CantTell, "hand: 27.35 < 28: at 13.6 V 0.2 V hides 3 points"},
		{"just high enough", tail + top("14.020 V", "14.010 V"), "bank", finding.Pass, "hand: 28.030 − (0.0140 + 0.006) ≥ 28.0"},
		{"not surely high enough", tail + top("14.010 V", "14.005 V"), "bank", finding.CantTell, "hand: 28.015 − 0.020 < 28.0"},
		{"not at the tail", "sA/tail-current = 20.00 A, m2\n" + top("14.250 V", "14.200 V"), "bank", finding.CantTell, "hand: 20 > 5"},
		{"uneven, not at the tail", "sA/tail-current = 20.00 A, m2\n" + top("14.550 V", "14.000 V"), "bank", finding.CantTell, "hand: the current could have caused it"},
		{"above the highest", top("14.650 V", "14.200 V"), "bank", finding.Fail, "hand: 14.65 − 0.0103 > 14.6, whatever is missing"},
		{"at the highest", tail + top("14.595 V", "14.500 V"), "bank", finding.CantTell, "boundary: 14.6053 > 14.6"},
		{"the tail read a day before", "sA/tail-current = 3.00 A, m2, at -24h\n" + top("14.250 V", "14.200 V"), "bank", finding.CantTell, "boundary: not at the tail, as far as anybody knows"},
		{"a current out of it", "sA/tail-current = -2.00 A, m2\n" + top("14.250 V", "14.200 V"), "bank", finding.CantTell, "hand: −2 + 0.03 < 0: it gives current"},
		{"a current of nearly nothing", "sA/tail-current = 0.01 A, m2\n" + top("14.250 V", "14.200 V"), "bank", finding.Pass, "boundary: 0.01 ± 0.0101 A is not surely out of it"},
		{"slow", tail + "b1/top-voltage = 14.250 V, m1, at -150s\nb2/top-voltage = 14.200 V, m1", "bank", finding.CantTell, "boundary: 150 s > 120"},
		{"two minutes", tail + "b1/top-voltage = 14.250 V, m1, at -120s\nb2/top-voltage = 14.200 V, m1, at 0s", "bank", finding.Pass, "boundary: 120 ≤ 120 s"},
		{"one block not read", tail + "b1/top-voltage = 14.250 V, m1", "bank", finding.ToDo, "boundary"},
		{"the tail not read", top("14.250 V", "14.200 V"), "bank", finding.ToDo, "boundary: missing is not the tail"},
		{"the firm is stricter", "house/top-spread.spread = 0.1 V\n" + tail + top("14.350 V", "14.200 V"), "bank", finding.CantTell, "hand: 0.15 > 0.1"},
	})
	walk(t, twoByTwo, topSpread, meters+tail+top("14.250 V", "14.200 V"), []row{
		{"each string by itself", "sB/tail-current = 3.00 A, m2\nb3/top-voltage = 14.450 V, m1\nb4/top-voltage = 14.400 V, m1", "bank", finding.Pass, "hand: 50 mV in each; between strings the leads count"},
		{"the second string is uneven", "sB/tail-current = 3.00 A, m2\nb3/top-voltage = 14.550 V, m1\nb4/top-voltage = 14.000 V, m1", "bank", finding.Fail, "hand: 550 mV"},
		{"the second string is not at its tail", "b3/top-voltage = 14.450 V, m1\nb4/top-voltage = 14.400 V, m1\nsB/tail-current = 9.00 A, m2", "bank", finding.CantTell, "hand: 9 > 5"},
	})
	second := func(a, b, c, d string) string {
		return meters + tail + "sB/tail-current = 3.00 A, m2\n" + top(a, b) + "b3/top-voltage = " + c + ", m1\nb4/top-voltage = " + d + ", m1\n"
	}
	walk(t, twoByTwo, topSpread, "", []row{
		{"the second string just wider", second("14.398 V", "14.200 V", "14.3995 V", "14.200 V"), "bank", finding.CantTell, "boundary: 199.5 + 0.83 > 200, though 198 + 0.83 is not"},
		{"the first string just wider", second("14.3995 V", "14.200 V", "14.398 V", "14.200 V"), "bank", finding.CantTell, "boundary: 199.5 + 0.83 > 200"},
	})
	walk(t, bank.New(1, 2, bank.JoinStrings, bank.OneEnd), topSpread, "", []row{
		{"nothing in series", "", "bank", finding.NotNeeded, "boundary"},
	})
	walk(t, bank.New(2, 2, bank.JoinGroups, bank.OneEnd), topSpread, meters+"gA/tail-current = 6.00 A, m2\ngB/tail-current = 6.00 A, m2\n"+top("14.250 V", "14.250 V"), []row{
		{"groups against each other", "b3/top-voltage = 14.100 V, m1\nb4/top-voltage = 14.100 V, m1", "bank", finding.Pass, "hand: 150 + 0.83 ≤ 200, 6 ≤ 2 · 5"},
		{"a group behind", "b3/top-voltage = 13.700 V, m1\nb4/top-voltage = 13.700 V, m1", "bank", finding.Fail, "hand: 550 − 0.95 > 500"},
	})
}
