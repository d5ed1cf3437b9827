package checks

import (
	"slices"
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

// Rows at the edges of rules whose middle is walked beside their checks.

func TestTwelveHoursOfRest(t *testing.T) {
	walk(t, oneBlock, rested, "", []row{
		{"five hours", "bank/last-current = -5h", "bank", finding.Later, "hand: 5 < 12, and the time it is due is known"},
		{"eleven hours fifty-nine", "bank/last-current = -11h59m", "bank", finding.Later, "boundary: 12 h"},
		{"twelve hours", "bank/last-current = -12h", "bank", finding.Pass, "boundary: 12 ≥ 12 h"},
		{"read after eleven", "bank/last-current = -12h\nb1/rest-voltage = 13.20 V, at -1h", "bank", finding.CantTell, "hand: 12 − 1 = 11 h"},
		{"read after twelve", "bank/last-current = -13h\nb1/rest-voltage = 13.20 V, at -1h", "bank", finding.Pass, "boundary: 13 − 1 = 12 h"},
		{"a current that is yet to come", "bank/last-current = +1h", "bank", finding.CantTell, "hand: a clock is wrong"},
		{"nobody knows the last current", "", "bank", finding.ToDo, "boundary: missing is not long ago"},
		{"the firm is stricter", "house/rested.rest = 24 h\nbank/last-current = -14h", "bank", finding.Later, "hand: 14 < 24"},
		{"the firm is looser", "house/rested.rest = 1 h\nbank/last-current = -2h", "bank", finding.Pass, "hand: practice may be loosened, and is then said as assumed"},
	})
	f := fixture(t, oneBlock, "bank/last-current = -5h")
	if x := judged(t, f, rested, "bank")[0]; !x.Due().Equal(fixtureTime(t, "7h")) {
		t.Errorf("due at %v, want in 12 − 5 = 7 h", x.Due())
	}
}

func TestTwoThermometersCountBoth(t *testing.T) {
	// The usual thermometer of 0.1 K steps: 2 + 0.05 K; two of them √2 · 2.05 = 2.9 K.
	walk(t, bank.New(2, 1, bank.JoinStrings, bank.OneEnd), sameTemp, "", []row{
		{"2 K apart", "b1/temperature = 18.0 C, m1\nb2/temperature = 20.0 C, m2", "bank", finding.Pass, "hand: 2 + 2.9 ≤ 5"},
		{"2.2 K apart", "b1/temperature = 18.0 C, m1\nb2/temperature = 20.2 C, m2", "bank", finding.CantTell, "hand: 2.2 + 2.9 > 5"},
		{"8 K apart", "b1/temperature = 18.0 C, m1\nb2/temperature = 26.0 C, m2", "bank", finding.Fail, "hand: 8 − 2.9 > 5"},
	})
}

// Which block is the coldest and which the hottest counts its uncertainty: the
// own sensor has 3 K, the usual contact thermometer 2.05 K at 0.1 K steps.
func TestTheColdestIsTheOneThatMayBeColdest(t *testing.T) {
	at := func(first, second string) string {
		return "bank/settled = no\nb1/charge-temperature = " + first + " C\nb1/sensor = own\nb2/charge-temperature = " + second + " C\nb2/sensor = contact\n"
	}
	last := func(first, second string) string {
		return "bank/settled = no\nb1/charge-temperature = " + first + " C\nb1/sensor = contact\nb2/charge-temperature = " + second + " C\nb2/sensor = own\n"
	}
	walk(t, bank.New(2, 1, bank.JoinStrings, bank.OneEnd), coldGate, "", []row{
		{"the coarser one may be colder", at("2.9", "2.5"), "bank", finding.CantTell, "hand: 2.9 − 3 < 0, though 2.5 − 2.05 > 0"},
		{"both surely above", at("3.1", "2.5"), "bank", finding.Pass, "hand: 3.1 − 3 and 2.5 − 2.05 are above 0"},
		{"the coarser one may be hotter", at("42.1", "42.5"), "bank", finding.CantTell, "hand: 42.1 + 3 > 45, though 42.5 + 2.05 ≤ 45"},
		{"both surely below", at("42.0", "42.5"), "bank", finding.Pass, "boundary: 42 + 3 = 45"},
		{"the coarser one stands last and may be colder", last("2.5", "2.9"), "bank", finding.CantTell, "hand: 2.9 − 3 < 0, though 2.5 − 2.05 > 0"},
		{"the coarser one stands last and may be hotter", last("42.5", "42.1"), "bank", finding.CantTell, "hand: 42.1 + 3 > 45, though 42.5 + 2.05 ≤ 45"},
	})
}

func TestTorqueOfSheetsThatSayLittle(t *testing.T) {
	const at9, at95 = wrenchInDate + "b1.p/torque-set = 9 N.m, w1", wrenchInDate + "b1.p/torque-set = 9.5 N.m, w1"
	walk(t, twoByTwo, torque, torqueSheet, []row{
		{"only a least torque", "sheet1/torque-min = 8 N.m\n" + at9, "b1.p", finding.CantTell, "hand: 8.64 ≥ 8, and no upper end is known"},
		{"below the least", "sheet1/torque-min = 8 N.m\n" + wrenchInDate + "b1.p/torque-set = 7.6 N.m, w1", "b1.p", finding.Fail, "hand: 7.6 × 1.04 = 7.904 < 8"},
		{"about the least", "sheet1/torque-min = 8 N.m\n" + wrenchInDate + "b1.p/torque-set = 7.8 N.m, w1", "b1.p", finding.CantTell, "hand: 7.488 … 8.112"},
		{"one torque and a largest", "sheet1/torque-nominal = 9 N.m\nsheet1/torque-max = 9.2 N.m\n" + at9, "b1.p", finding.CantTell, "hand: 9.36 > 9.2"},
		{"one torque and a wide largest", "sheet1/torque-nominal = 9 N.m\nsheet1/torque-max = 10 N.m\n" + wrenchInDate + "b1.p/torque-set = 9.6 N.m, w1", "b1.p", finding.Pass, "hand: 9.984 ≤ 10, though 9.9 would be usual"},
		{"one torque and a least", "sheet1/torque-nominal = 9 N.m\nsheet1/torque-min = 8.8 N.m\n" + at9, "b1.p", finding.CantTell, "hand: 8.64 < 8.8"},
		{"one torque and a wide least", "sheet1/torque-nominal = 9 N.m\nsheet1/torque-min = 7.6 N.m\n" + wrenchInDate + "b1.p/torque-set = 8 N.m, w1", "b1.p", finding.Pass, "hand: 7.68 ≥ 7.6, though 8.1 would be usual"},
		{"only a largest, its low end", "sheet1/torque-max = 10 N.m\n" + at95, "b1.p", finding.CantTell, "hand: 9.12 … 9.88 in 8 … 10, and the maker did not confirm it"},
	})
}

func TestJointsBetweenTheirLimits(t *testing.T) {
	const heat = milliamps + "bank/design-current = 100 A\nsite/ambient-max = 40 C\nbank/joint-air = 20 C\nbank/joint-load = 100.0 A, m2\nbank/joint-time = 20 min\nbank/joint-method = tape\n"
	walk(t, fourInSeries, jointHeat, heat, []row{
		{"near the rating", "bank/terminal = 75 C\nbank/joint-hottest = 55.0 C\nbank/joint-like = 54.5 C", "bank", finding.CantTell, "hand: 40 + 35 ± 3 is 72 … 78 about 75"},
		{"below the rating", "bank/terminal = 75 C\nbank/joint-hottest = 52.0 C\nbank/joint-like = 51.5 C", "bank", finding.Pass, "boundary: 40 + 32 + 3 = 75"},
		{"rating not known", "bank/joint-hottest = 44.0 C\nbank/joint-like = 43.5 C", "bank", finding.Fail, "hand: 40 + 24 − 3 > 60"},
		{"rating not known, cool", "bank/joint-hottest = 37.0 C\nbank/joint-like = 36.5 C", "bank", finding.Pass, "boundary: 40 + 17 + 3 = 60"},
	})
	// 60 µΩ at 50 A in steps of 0.1 mV: the clamp's 2 A are 4 %, 2·0.04/√3·60 =
	// 2.77 µΩ; 2·0.1 mV/√6/50 A = 1.63 µΩ; together 3.2, above half of 6 µΩ.
	coarse := "bank/drop-current = 50.0 A\nbank/design-current = 100 A\n"
	for _, j := range []string{"b1.n~b2.p@b1.n", "b1.n~b2.p@b2.p", "b2.n~b3.p@b2.n", "b2.n~b3.p@b3.p"} {
		coarse += j + "/drop = 3.0 mV\n" + j + "/drop-zero = 0.0 mV\n"
	}
	walk(t, threeInSeries, jointResistance, coarse, []row{
		{"too coarse for its margin", "", "b1.n~b2.p@b1.n", finding.CantTell, "hand: U 3.2 > 6/2 µΩ, though 60 + 3.2 ≤ 66"},
	})
}

func TestSharesAtTheirEdges(t *testing.T) {
	const common = milliamps + capacitySheet + "bank/clamp-zeroed = yes\n"
	at := func(a, b, total string) string {
		return "sA/share-current = " + a + " A, m2\nsB/share-current = " + b + " A, m2\nbank/share-total = " + total + " A, m2\n"
	}
	walk(t, twoByTwo, measuredShare, common, []row{
		{"near what it gives", "bank/design-current = 160 A\nsheet1/discharge-max = 80 A\n" + at("79.50", "78.00", "157.50"), "bank", finding.CantTell, "hand: 79.5 + 0.81 > 80"},
		{"a branch without current", "bank/design-current = 100 A\nsheet1/discharge-max = 200 A\n" + at("90.00", "0.00", "90.00"), "bank", finding.Fail, "hand: 90 − 0.91 > 1.5 · (0 + 0.01): one string is open"},
		{"a branch with next to nothing", "bank/design-current = 100 A\nsheet1/discharge-max = 200 A\n" + at("90.00", "0.02", "90.02"), "bank", finding.Fail, "hand: 90 − 0.91 > 1.5 · (0.02 + 0.01)"},
		{"two readings that cannot be of one bank", "bank/design-current = 100 A\nsheet1/discharge-max = 200 A\n" + at("90.00", "0.00", "50.00"), "bank", finding.CantTell, "hand: 90 − 0.91 > 50 + 0.51: no branch carries more than all"},
		{"no sheet gives a limit", "bank/design-current = 100 A\n" + at("52.00", "48.00", "100.00"), "bank", finding.ToDo, "boundary: missing is not enough"},
		{"no design current", "sheet1/discharge-max = 80 A\n" + at("52.00", "48.00", "100.00"), "bank", finding.ToDo, "boundary"},
	})
}

func TestChargesThatAreNotQuiteFull(t *testing.T) {
	const meters = goodMeter + goodShunt + oneSheet + "bank/settled = no\n"
	walk(t, twoByTwo, chargedFull, meters, []row{
		{"it fell in between", full("14.40 V", "3.00 A", "13.950 V", "2.50 A", "fell-slowly"), "b1", finding.CantTell, "hand: the lower of both counts, 13.96 < 14.0"},
		{"the current an hour before the volts", "b1/full-temperature = 18 C, at -3h\nb1/full-voltage = 14.40 V, m1, at -3h\nb1/full-current = 3.00 A, m2, at -4h\nb1/full-voltage-again = 14.40 V, m1, at -2h\nb1/full-current-again = 2.50 A, m2, at -2h\nb1/full-ended = fell-slowly", "b1", finding.CantTell, "boundary: a sample is volts and current together"},
		{"a small current out of it", full("14.40 V", "-2.00 A", "14.40 V", "-2.00 A", "fell-slowly"), "b1", finding.CantTell, "hand: −2 + 0.03 < 0: it gives current"},
	})
	alone := bank.New(2, 1, bank.JoinStrings, bank.OneEnd)
	good := topOf("b1", "14.300 V", "14.310 V") + topOf("b2", "14.280 V", "14.290 V") + "bank/charge-ended = fell-slowly\n"
	walk(t, alone, chargeDone, goodMeter+goodShunt+"b1/sheet = sheet1\nb2/sheet = sheet1\nsheet1/capacity = 100 Ah\n"+good, []row{
		{"currents 30 s apart", "sA/tail-current = 3.00 A, m2, at -40s\nsA/tail-current-again = 2.50 A, m2, at -10s", "bank", finding.CantTell, "boundary: 30 < 60 s"},
	})
	walk(t, fourInSeries, returnRatio, capacitySheet+"capacity1/duration = 5 h\ncapacity1/recharge-duration = 5 h\n", []row{
		{"the heaters took all", "capacity1/charge = 103 Ah\ncapacity1/recharge = 6 Ah\ncapacity1/recharge-heater = 6 Ah", "capacity1", finding.CantTell, "hand: 6 − 6 = 0, nothing to divide by"},
		{"nothing came out", "capacity1/charge = 0 Ah\ncapacity1/recharge = 6 Ah", "capacity1", finding.CantTell, "hand: a ratio of nothing"},
	})
}

func TestWarmUpAsksForWhatItNeeds(t *testing.T) {
	cold := "b1/charge-temperature = -10 C\nb1/sensor = own\nbank/air-now = -10 C\n"
	for _, line := range []string{"sheet1/mass = 22 kg", "sheet1/heater-current = 5 A"} {
		walk(t, oneBlock, warmUp, strings.Replace(heatedSheet, line, "", 1)+cold, []row{
			{"without " + line, "", "bank", finding.ToDo, "boundary: missing is not light"},
		})
	}
}

func TestPrechargeByTheStopWatch(t *testing.T) {
	// 0.75 s/(3·25 Ω) = 10 mF ± 20 %: five time constants are 1.0 … 1.5 s.
	walk(t, fourInSeries, prechargePart, "inverter1/power = 3000 W\nswitch/precharge-resistor = 25 Ohm\nswitch/precharge-time = 0.75 s\nswitch/precharge-pulse = 25 J\n", []row{
		{"perhaps too long", "switch/precharge-bears = 1.2 s", "switch", finding.CantTell, "hand: 1.0 < 1.2 < 1.5"},
		{"long enough", "switch/precharge-bears = 1.51 s", "switch", finding.Pass, "hand: 1.5 ≤ 1.51"},
		{"surely too long", "switch/precharge-bears = 0.99 s", "switch", finding.Fail, "hand: 1.0 > 0.99"},
	})
	walk(t, fourInSeries, precharge, strings.Replace(prechargeCommon, "sheet1/discharge-max = 100 A", "", 1)+"inverter1/off = yes\nbank/total-voltage = 53.20 V\n", []row{
		{"nobody knows what a block bears", "switch/precharge-left = 0.50 V, m1", "switch", finding.CantTell, "boundary: no trip and no current is stated"},
	})
}

// A person walks along the bank; the red probe climbs from the lowest plus.
func TestRoundsGoAlongTheBank(t *testing.T) {
	groups := bank.New(2, 2, bank.JoinGroups, bank.OneEnd)
	for _, r := range []struct {
		name   string
		layout bank.Layout
		field  Field
		want   string
		from   string
	}{
		{"steps of strings", twoByTwo, stepVoltage.Field, "b2.p b1.p b4.p b3.p", "hand: block 1 holds the plus end"},
		{"steps of groups", groups, stepVoltage.Field, "gB.p gA.p", "hand: group A holds the plus end"},
		{"totals of strings", twoByTwo, totalVoltage.Field, "sA sB bank", "hand"},
		{"total of groups", groups, totalVoltage.Field, "bank", "hand: groups have no totals of their own"},
		{"shares of strings", twoByTwo, shareAmps.Field, "sA sB", "hand"},
		{"shares of groups", groups, shareAmps.Field, "b1 b2 b3 b4", "hand: blocks stand side by side"},
		{"shares of single blocks", bank.New(1, 2, bank.JoinStrings, bank.OneEnd), shareAmps.Field, "b1 b2", "hand: a string of one is its block"},
		{"no shares in series", fourInSeries, shareAmps.Field, "", "hand: nothing divides"},
		{"blocks", twoByTwo, restVoltage.Field, "b1 b2 b3 b4", "hand"},
		{"currents of strings", twoByTwo, tailCurrent.Field, "sA sB", "hand"},
		{"the switch", twoByTwo, prechargeLeft.Field, "switch", "hand"},
	} {
		if got := strings.Join(RoundParts(r.layout, r.field), " "); got != r.want {
			t.Errorf("%s: %q, want %q (%s)", r.name, got, r.want, r.from)
		}
	}
	if posts := RoundParts(bank.New(1, 1, bank.JoinStrings, bank.OneEnd), torqueSet.Field); !slices.Equal(posts, []string{"b1.p", "b1.n"}) {
		t.Errorf("posts %v", posts)
	}
	if fuses := Fuses(twoByTwo); !slices.Equal(fuses, []string{"fuse.main", "fuse.A", "fuse.B"}) {
		t.Errorf("fuses %v", fuses)
	}
	if fuses := Fuses(groups); !slices.Equal(fuses, []string{"fuse.main"}) {
		t.Errorf("fuses %v", fuses)
	}
}
