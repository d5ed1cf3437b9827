package checks

import (
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/say"
)

// A person acts on the figures of a sentence as much as on its verdict: what
// must stand in the reason, the next action, the limit or what was assumed.
func TestFiguresOfSentences(t *testing.T) {
	two := bank.New(2, 1, bank.JoinStrings, bank.OneEnd)
	const thin, thick = "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\ncable1/insulation = 90 C\n", "cable2/size = 4/0 AWG\ncable2/standard = ASTM B258\ncable2/insulation = 90 C\n"
	// Strings of 10 mΩ ± 10 % and a link of 0.25 mΩ, 0.5 mΩ between them.
	const fives = "b1/resistance = 5.0 mOhm\nb2/resistance = 5.0 mOhm\nb3/resistance = 5.0 mOhm\nb4/resistance = 5.0 mOhm\n"
	const levels = "m1/measures = V\nm1/percent = 0 %\nm1/counts = 1\nm1/step = 0.01 V\nbank/last-current = -20h\nb1/temperature = 20 C\nb2/temperature = 20 C\nb3/temperature = 20 C\n"
	const heat = "bank/design-current = 100 A\nsite/ambient-max = 40 C\nbank/terminal = 75 C\nbank/joint-air = 20 C\nbank/joint-like = 31.0 C\nbank/joint-time = 20 min\nbank/joint-method = tape\n"
	const temps = capacitySheet + "b1/charge-temperature = 20 C\nb1/sensor = own\nb2/charge-temperature = 20 C\nb2/sensor = own\nb3/charge-temperature = 20 C\nb3/sensor = own\nb4/charge-temperature = 20 C\nb4/sensor = own\n"
	for _, r := range []struct {
		name  string
		l     bank.Layout
		c     *Check
		lines string
		part  string
		words []string
		from  string
	}{
		{"a counter nobody knows", fourInSeries, capacity, capacitySheet + "capacity1/charge = 100 Ah\ncapacity1/duration = 5 h", "capacity1",
			[]string{"over 5 h assumed"}, "hand: the run lasted 5 h"},
		{"the limit of a cable", fourInSeries, cableTerminalCheck, lead75 + thin + "bank/design-current = 140 A", "lead.p",
			[]string{"at least 175 A"}, "hand: 1.25 · 140"},
		{"the thinnest cable speaks", two, cableCorrected, thin + thick + "site/kind = building\nsite/ambient-max = 30 C\nlead.p/cable = cable2\nlead.n/cable = cable1\nb1.n~b2.p/cable = cable2\nbank/design-current = 190 A", "bank",
			[]string{"195 A", "190 A"}, "NEC Table 310.16: 2/0 AWG 195 A, 4/0 AWG 260 A"},
		{"how much all chargers may give", twoByTwo, chargeRate, fives + temps + "bank/charge-current = 120 A", "bank",
			[]string{"at 17 C to 23 C", "Lower the charge current to 89.3 A in all"}, "hand: 20 ± 3 °C; (11.25 + 0.5)/21 of it goes into one string, 0.5 · 100 A over that is 89.36 A"},
		{"how much a charger may be set to", twoByTwo, chargerSettings, chargerCommon + fives + "charger1/absorption = 29.1 V\ncharger1/set-current = 120 A", "charger1",
			[]string{"29.2455 V", "between 28 V and 29 V", "Set the charge current to 89 A or less"}, "hand: 29.1 · 1.005 = 29.2455 V; 29.2/1.005 = 29.05 V; 50 A · 21/11.75 = 89.4 A"},
		{"how much a charger may have", twoByTwo, chargerFits, chargerCommon + fives + "charger1/voltage-min = 20 V\ncharger1/voltage-max = 32 V\ncharger1/current-max = 120 A", "charger1",
			[]string{"Set its current to 89 A at most"}, "hand: 50 A · 21/11.75 = 89.4 A"},
		{"how old a charge is", twoByTwo, chargedFull, goodMeter + goodShunt + oneSheet + "bank/settled = no\nb1/full-temperature = 18 C, at -204h2m\nb1/full-voltage = 14.40 V, m1, at -204h2m\nb1/full-current = 3.00 A, m2, at -204h2m\nb1/full-voltage-again = 14.40 V, m1, at -204h\nb1/full-current-again = 3.00 A, m2, at -204h\nb1/full-ended = fell-slowly", "b1",
			[]string{"charged 8 days ago"}, "hand: 204 h are 8.5 days"},
		{"how long it rested", twoByTwo, rested, "bank/last-current = -11h", "bank", []string{"rested 11 h", "asks 12 h"}, "hand"},
		{"how long it was joined", bank.New(1, 4, bank.JoinGroups, bank.OneEnd), parallelRest, "rest1/joined = -15h\nrest1/opened = -4h", "rest1", []string{"opened after 11 h"}, "hand: 15 − 4 h"},
		{"when the current was read", bank.New(1, 4, bank.JoinGroups, bank.OneEnd), parallelRest, "rest1/joined = -15h\nrest1/opened = -2h\nrest1/rest-current = 0.2 A, at -10h", "rest1", []string{"read after 5 h"}, "hand: 15 − 10 h"},
		{"the middle of the window", twoByTwo, torque, window8to10 + wrenchInDate + "b1.p/torque-set = 7.6 N.m, w1", "b1.p", []string{"Set the wrench to 9 N.m"}, "hand: between 8 and 10"},
		{"a fifth of the wrench", twoByTwo, torque, window8to10 + "w1/max = 46 N.m\nw1/due = 2027-03-01\nb1.p/torque-set = 9 N.m, w1", "b1.p", []string{"below 9.2 N.m"}, "hand: 0.2 · 46"},
		{"how far the volts fall", fourInSeries, polaritySteps, "b4.p/step-voltage = 13.30 V\nb3.p/step-voltage = 0.00 V\nb2.p/step-voltage = 13.30 V\nb1.p/step-voltage = 26.60 V", "sA", []string{"fall by 13.3 V"}, "hand: 13.30 − 0.00 downwards"},
		{"the lowest block at the end of charge", two, chargeDone, goodMeter + goodShunt + "b1/sheet = sheet1\nb2/sheet = sheet1\nsheet1/capacity = 100 Ah\nbank/charge-ended = fell-slowly\n" + topOf("b1", "14.300 V", "14.310 V") + topOf("b2", "14.290 V", "14.300 V") + tailAt("sA", "3.00 A", "2.50 A"), "bank",
			[]string{"14.290 V"}, "hand: 14.290 < 14.300, read twice each"},
		{"the lowest block stands first", two, chargeDone, goodMeter + goodShunt + "b1/sheet = sheet1\nb2/sheet = sheet1\nsheet1/capacity = 100 Ah\nbank/charge-ended = fell-slowly\n" + topOf("b1", "14.290 V", "14.300 V") + topOf("b2", "14.300 V", "14.310 V") + tailAt("sA", "3.00 A", "2.50 A"), "bank",
			[]string{"14.290 V"}, "hand: 14.290 < 14.300"},
		{"the pair that lies furthest apart", threeInSeries, chargeLevel, levels + "b1/rest-voltage = 13.60 V, m1\nb2/rest-voltage = 13.00 V, m1\nb3/rest-voltage = 13.40 V, m1", "bank",
			[]string{"Block 1 is charged", "Block 2 "}, "published: 13.60 V is 95 to 99 %, 13.40 V 59 to 97, 13.00 V 13 to 36"},
		{"the pair that lies furthest apart, last", threeInSeries, chargeLevel, levels + "b1/rest-voltage = 13.40 V, m1\nb2/rest-voltage = 13.00 V, m1\nb3/rest-voltage = 13.60 V, m1", "bank",
			[]string{"Block 3 is charged", "Block 2 "}, "published, as above"},
		{"what the heaters must get", oneBlock, chargeTrend, heatedSheet + listed(5, [3]string{"2.0 A", "13.50 V", "-10.0 C"}), "bank", []string{"at least 4 A", "draw 5 A"}, "hand: 0.8 · 5"},
		{"what the heaters draw", oneBlock, coldStart, heatedSheet + "bank/cold-start-current = 5.20 A\nbank/cold-start-temperature = -10 C", "bank", []string{"4 A to 6 A"}, "hand: 5 A ± 20 %"},
		{"what the charger must give", oneBlock, heaterSupply, heatedSheet + "charger1/set-current = 6 A", "bank", []string{"at least 6.25 A", "5 A"}, "hand: 1.25 · 5"},
		{"where the cut-out belongs", fourInSeries, heatCutout, capacitySheet + "bank/cut-out-allowed = yes\nbank/cut-out-at = 66 C", "bank", []string{"55 C to 65 C"}, "hand: 60 ± 5"},
		{"how much load a joint needs", fourInSeries, jointHeat, milliamps + heat + "bank/joint-hottest = 40.0 C\nbank/joint-load = 30.0 A, m2", "bank", []string{"30 A is less than 40 % of the 100 A"}, "hand: 30 < 0.4 · 100"},
		{"how much load a good joint needs", fourInSeries, jointHeat, milliamps + heat + "bank/joint-hottest = 31.0 C\nbank/joint-load = 50.0 A, m2", "bank", []string{"50 A is less than 80 % of the 100 A"}, "hand: 50 < 0.8 · 100"},
		{"the fuse that comes nearest to its limit", twoByTwo, fusePlace, "site/kind = boat\nfuse.main/unfused-length = 150 cm\nfuse.main/sheathed = yes\nfuse.main/at-post = yes\nfuse.A/unfused-length = 17 cm\nfuse.B/unfused-length = 5 cm", "bank", []string{"17", "at most 18 cm"}, "hand: 17/18 is more than 150/183"},
		{"what a meter must reach", twoByTwo, metersFit, "bank/use-volts = m1\nm1/measures = V\nm1/percent = 0.05 %\nm1/counts = 3\nm1/step = 0.001 V\nm1/range = 32 V\nm1/due = 2027-03-01", "bank", []string{"at least 32.12 V"}, "hand: 1.1 · 29.2"},
		{"what would tell a joint from the others", threeInSeries, jointResistance, "m5/measures = A\nm5/percent = 20 %\nm5/counts = 1\nbank/drop-current = 50.0 A, m5\nbank/design-current = 100 A\nb1.n~b2.p@b1.n/drop = 0.8 mV\nb1.n~b2.p@b1.n/drop-zero = 0.0 mV\nb1.n~b2.p@b2.p/drop = 0.8 mV\nb1.n~b2.p@b2.p/drop-zero = 0.0 mV\nb2.n~b3.p@b2.n/drop = 0.8 mV\nb2.n~b3.p@b2.n/drop-zero = 0.0 mV", "b1.n~b2.p@b1.n", []string{"must be 2.5 uOhm or less"}, "hand: half of 5 µΩ"},
		{"what a match of strings hides", twoByTwo, voltageMatch, restedAlike + "sA/total-voltage = 26.56 V\nsB/total-voltage = 26.56 V", "bank", []string{"40 points"}, "hand: 26.56 V is 2 × 13.28, within 13.10 to 13.45"},
		{"what a good meter reaches", twoByTwo, metersFit, "bank/use-volts = m1\nm1/measures = V\nm1/percent = 0.05 %\nm1/counts = 3\nm1/step = 0.001 V\nm1/range = 60 V\nm1/due = 2027-03-01", "bank", []string{"at least 32.12 V"}, "hand: 1.1 · 29.2"},
		{"how many lie together", two, cableCorrected, thin + "site/kind = building\nsite/ambient-max = 30 C\nlead.p/cable = cable1\nlead.n/cable = cable1\nb1.n~b2.p/cable = cable1\nbank/design-current = 190 A", "bank", []string{"3 conductors"}, "NEC 310.15: up to three need no correction"},
		{"how many times its rating", two, faultClear, "b1/sheet = sheet1\nb2/sheet = sheet1\nsheet1/capacity = 100 Ah\nb1.n~b2.p/lug-to-lug = 0.4 mOhm\nlead.p/lug-to-lug = 0.3 mOhm\nlead.n/lug-to-lug = 0.3 mOhm\nfuse.main/rating = 128 A\nsite/ambient-min = 5 C", "bank", []string{"through Main fuse, 7.96 times", "at least 640 A"}, "hand: 25.6 V over 24 + 0.4 + 0.6 · 1.216 mΩ (copper at 75 °C) is 1018.7 A; 5 · 128"},
	} {
		var all []string
		for _, x := range judged(t, fixture(t, r.l, r.lines), r.c, r.part) {
			l, _ := x.Limit()
			for _, line := range append(append([]say.Line{x.Reason(), x.Next(), l.Line()}, x.Assumed()...), x.Notes()...) {
				all = append(all, say.Voice{}.Say(line))
			}
		}
		said := strings.ReplaceAll(strings.Join(all, " | "), "\u00a0", " ")
		for _, w := range r.words {
			if !strings.Contains(said, w) {
				t.Errorf("%s: want %q (%s) in %q", r.name, w, r.from, said)
			}
		}
	}
}
