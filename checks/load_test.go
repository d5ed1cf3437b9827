package checks

import (
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func underLoadOf(volts ...string) (out string) {
	for i, v := range volts {
		out += "b" + string(rune('1'+i)) + "/load-voltage = " + v + " V, m1\n"
	}
	return out
}

// 100 Ah blocks nobody measured count with 1.4 mΩ: 0.4 · 100 A · 1.4 mΩ is
// 0.056 V, so 0.10 V is the limit.
func TestLoadHold(t *testing.T) {
	const common = goodMeter + milliamps + capacitySheet + "bank/design-current = 100 A\n"
	const run = common + "bank/load-current = 100.0 A, m2\nbank/load-tripped = no\nbank/load-time = 10 min\n"
	walk(t, fourInSeries, loadHold, "", []row{
		{"they hold", run + underLoadOf("12.80", "12.80", "12.82", "12.85"), "bank", finding.Pass, "hand: 0.05 + 0.008 ≤ 0.10"},
		{"near", run + underLoadOf("12.80", "12.80", "12.82", "12.90"), "bank", finding.CantTell, "boundary: 0.10 ± 0.008"},
		{"one sags", run + underLoadOf("12.80", "12.50", "12.82", "12.85"), "bank", finding.Fail, "hand: 0.35 > 0.10"},
		{"one below its cut-off", run + underLoadOf("9.90", "9.90", "9.90", "9.90"), "bank", finding.Fail, "hand: 9.9 + 0.04 < 10"},
		{"one at its cut-off", run + underLoadOf("10.00", "10.00", "10.00", "10.00"), "bank", finding.CantTell, "boundary: 10.0 ± 0.03"},
		{"one below its maker's cut-off", "sheet1/discharge-cut-off = 11 V\n" + run + underLoadOf("10.90", "10.90", "10.90", "10.90"), "bank", finding.Fail, "hand: 10.9 + 0.04 < 11"},
		{"one stands closer to its cut-off, by a worse meter", run + "b1/load-voltage = 10.05 V, m1\nb2/load-voltage = 10.06 V\nb3/load-voltage = 10.05 V, m1\nb4/load-voltage = 10.05 V, m1\n", "bank", finding.CantTell, "hand: 10.06 − 0.08 < 10, and 10.05 − 0.035 is not"},
		{"known to be worse inside", "b1/resistance = 4.0 mOhm\nb2/resistance = 4.0 mOhm\nb3/resistance = 4.0 mOhm\nb4/resistance = 4.0 mOhm\n" + run + underLoadOf("12.80", "12.80", "12.82", "12.90"), "bank", finding.Pass, "hand: 0.4 · 100 · 4 mΩ = 0.16 V"},
		{"known to be worse inside, just within", "b1/resistance = 4.0 mOhm\nb2/resistance = 4.0 mOhm\nb3/resistance = 4.0 mOhm\nb4/resistance = 4.0 mOhm\n" + run + underLoadOf("12.80", "12.80", "12.82", "12.95"), "bank", finding.Pass, "boundary: 0.15 + 0.008 ≤ 0.4 · 100 · 4 mΩ = 0.16 V"},
		{"known to be worse inside, just beyond", "b1/resistance = 4.0 mOhm\nb2/resistance = 4.0 mOhm\nb3/resistance = 4.0 mOhm\nb4/resistance = 4.0 mOhm\n" + run + underLoadOf("12.80", "12.80", "12.82", "12.97"), "bank", finding.Fail, "boundary: 0.17 − 0.008 > 0.16 V"},
		{"tripped", common + "bank/load-tripped = yes", "bank", finding.Fail, "hand: whatever was read, it tripped"},
		{"too light", common + "bank/load-current = 70.0 A, m2\nbank/load-tripped = no\nbank/load-time = 10 min\n" + underLoadOf("12.80", "12.80", "12.82", "12.85"), "bank", finding.CantTell, "hand: 70 < 80"},
		{"79 % of the load", common + "bank/load-current = 79.0 A, m2\nbank/load-tripped = no\nbank/load-time = 10 min\n" + underLoadOf("12.80", "12.80", "12.82", "12.85"), "bank", finding.CantTell, "boundary: 79 < 0.8 · 100"},
		{"82 % of the load", common + "bank/load-current = 82.0 A, m2\nbank/load-tripped = no\nbank/load-time = 10 min\n" + underLoadOf("12.80", "12.80", "12.82", "12.85"), "bank", finding.Pass, "boundary: 82 − 0.92 ≥ 0.8 · 100"},
		{"half a minute too brief", common + "bank/load-current = 100.0 A, m2\nbank/load-tripped = no\nbank/load-time = 9.5 min\n" + underLoadOf("12.80", "12.80", "12.82", "12.85"), "bank", finding.CantTell, "boundary: ten minutes"},
		{"too light, and sags", common + "bank/load-current = 70.0 A, m2\nbank/load-tripped = no\nbank/load-time = 10 min\n" + underLoadOf("12.80", "12.50", "12.82", "12.85"), "bank", finding.Fail, "hand: more load sags more"},
		{"too brief", common + "bank/load-current = 100.0 A, m2\nbank/load-tripped = no\nbank/load-time = 9 min\n" + underLoadOf("12.80", "12.80", "12.82", "12.85"), "bank", finding.CantTell, "boundary: ten minutes"},
		{"a block not read", run + underLoadOf("12.80", "12.80", "12.82"), "bank", finding.ToDo, "boundary"},
		{"nothing read", "", "bank", finding.ToDo, "boundary"},
	})
}

// Block 1 opens at 11 V, block 2 at 10 V: block 1 is below its own, though block 2
// stands lower.
func TestEveryBlockHasItsOwnCutOff(t *testing.T) {
	const two = goodMeter + milliamps + "b1/sheet = sheet1\nb2/sheet = sheet2\nsheet1/capacity = 100 Ah\nsheet2/capacity = 100 Ah\nsheet1/discharge-cut-off = 11 V\nsheet2/discharge-cut-off = 10 V\nbank/design-current = 100 A\nbank/load-current = 100.0 A, m2\nbank/load-tripped = no\nbank/load-time = 10 min\n"
	walk(t, bank.New(2, 1, bank.JoinStrings, bank.OneEnd), loadHold, two, []row{
		{"the first below its own", underLoadOf("10.90", "10.85"), "bank", finding.Fail, "hand: 10.90 + 0.04 < 11"},
		{"both above their own", underLoadOf("11.10", "11.05"), "bank", finding.Pass, "hand: 11.10 − 0.04 ≥ 11, 11.05 − 0.04 ≥ 10"},
	})
}

func TestBlockR(t *testing.T) {
	temps := func(last string) string {
		return capacitySheet + "bank/resistance-method = step\nbank/resistance-step = 40 A\nb1/temperature = 20 C\nb2/temperature = 20 C\nb3/temperature = 20 C\nb4/temperature = " + last + "\n"
	}
	ohms := func(last string) string {
		return "b1/resistance = 4.00 mOhm\nb2/resistance = 4.10 mOhm\nb3/resistance = 4.00 mOhm\nb4/resistance = " + last + " mOhm\n"
	}
	// An unknown milliohm meter: a ratio is known to √2·5.1 %.
	walk(t, fourInSeries, blockRCheck, "", []row{
		{"alike", temps("20 C") + ohms("5.00"), "bank", finding.Pass, "hand: 1.25"},
		{"near", temps("20 C") + ohms("6.00"), "bank", finding.CantTell, "boundary: 1.50 ± 0.11"},
		{"weak, with a meter nobody knows", temps("20 C") + ohms("6.20"), "bank", finding.CantTell, "hand: 1.55·(1 − √2·0.051) = 1.44"},
		{"one is weak", temps("20 C") + ohms("6.60"), "bank", finding.Fail, "hand: 1.65·(1 − √2·0.051) = 1.53 > 1.5"},
		{"5 K apart", temps("25 C") + ohms("5.00"), "bank", finding.Pass, "boundary: 25 − 20 ≤ 5"},
		{"6 K apart", temps("26 C") + ohms("6.20"), "bank", finding.CantTell, "boundary: a cold block has more"},
		{"small step", "bank/resistance-method = step\nbank/resistance-step = 19 A\n" + capacitySheet + ohms("5.00"), "bank", finding.CantTell, "boundary: 20 A"},
		{"a step of less than 20 A", strings.Replace(temps("20 C"), "= 40 A", "= 19.9 A", 1) + ohms("5.00"), "bank", finding.CantTell, "boundary: 19.9 < 20 A"},
		{"a step of 20 A", strings.Replace(temps("20 C"), "= 40 A", "= 20 A", 1) + ohms("5.00"), "bank", finding.Pass, "boundary: 20 A"},
		{"the first is weak", temps("20 C") + strings.Replace(ohms("4.00"), "b1/resistance = 4.00", "b1/resistance = 6.60", 1), "bank", finding.Fail, "hand: 1.65·(1 − √2·0.051) = 1.53 > 1.5, wherever it stands"},
		{"temperature unknown", capacitySheet + "bank/resistance-method = step\nbank/resistance-step = 40 A\n" + ohms("5.00"), "bank", finding.CantTell, "boundary: missing is not alike"},
		{"above the sheet", "sheet1/resistance-max = 4.5 mOhm\nsheet1/resistance-how = step\n" + temps("20 C") + ohms("5.00"), "bank", finding.Fail, "hand: 5.00 − 0.255 > 4.5"},
		{"above the sheet's 1 kHz", "sheet1/resistance-max = 4.5 mOhm\nsheet1/resistance-how = 1khz\n" + temps("20 C") + ohms("5.00"), "bank", finding.CantTell, "hand: ten seconds show more than 1 kHz"},
		{"below the sheet's 1 kHz", "sheet1/resistance-max = 6 mOhm\nsheet1/resistance-how = 1khz\n" + temps("20 C") + ohms("5.00"), "bank", finding.Pass, "hand: even so it is below"},
		{"not read", temps("20 C"), "bank", finding.ToDo, "boundary"},
		{"step not entered", "bank/resistance-method = step\n" + capacitySheet + ohms("5.00"), "bank", finding.ToDo, "boundary: a test current has no default"},
	})
}

// A clamp of 1 % + 1 count of 0.01 A: a ratio is known to 1.4 %.
func TestMeasuredShare(t *testing.T) {
	const common = milliamps + capacitySheet + "bank/design-current = 100 A\nsheet1/discharge-max = 80 A\n"
	at := func(a, b, total string) string {
		return common + "bank/clamp-zeroed = yes\nsA/share-current = " + a + " A, m2\nsB/share-current = " + b + " A, m2\nbank/share-total = " + total + " A, m2\n"
	}
	walk(t, twoByTwo, measuredShare, "", []row{
		{"even", at("52.00", "48.00", "100.00"), "bank", finding.Pass, "hand: 1.083"},
		{"near", at("55.50", "44.50", "100.00"), "bank", finding.CantTell, "hand: 1.247 ± 0.018"},
		{"between", at("58.00", "42.00", "100.00"), "bank", finding.CantTell, "hand: 1.38"},
		{"nearly uneven", at("58.70", "41.30", "100.00"), "bank", finding.CantTell, "boundary: 1.42 + 0.02 ≤ 1.5"},
		{"uneven", at("62.00", "38.00", "100.00"), "bank", finding.Fail, "hand: 1.63 − 0.03 > 1.5"},
		{"over what it gives", at("82.00", "78.00", "160.00"), "bank", finding.Fail, "hand: 82 − 0.83 > 80"},
		{"they do not add up", at("52.00", "48.00", "110.00"), "bank", finding.CantTell, "hand: 10 − 2.1 > 5.5"},
		{"they just add up", at("52.00", "48.00", "95.40"), "bank", finding.Pass, "boundary: one clamp: 4.6 + 0.05 + 0.03 ≤ 0.05 · 95.4 = 4.77"},
		{"they hardly add up", at("52.00", "48.00", "95.28"), "bank", finding.CantTell, "boundary: 4.72 + 0.05 + 0.03 > 0.05 · 95.28 = 4.76"},
		{"they just do not add up", at("52.00", "48.00", "95.00"), "bank", finding.CantTell, "boundary: 5 − 0.08 > 0.05 · 95 = 4.75"},
		{"another clamp on the bank", strings.Replace(at("52.00", "48.00", "96.00"), "96.00 A, m2", "96.00 A, m9", 1) + "m9/measures = A\nm9/percent = 1 %\nm9/counts = 1\n", "bank", finding.CantTell, "hand: two clamps: 4 ± (0.53 + 0.49 + 0.97) about 0.05 · 96 = 4.8"},
		{"too light", at("20.00", "19.00", "39.00"), "bank", finding.CantTell, "hand: 39 < 40"},
		{"just heavy enough", at("21.50", "20.00", "41.50"), "bank", finding.Pass, "boundary: 41.5 − 0.43 ≥ 0.4 · 100"},
		{"not zeroed", common + "bank/clamp-zeroed = no\nsA/share-current = 50.00 A, m2\nsB/share-current = 50.00 A, m2\nbank/share-total = 100.00 A, m2", "bank", finding.CantTell, "boundary: a clamp's zero is not known"},
		{"one not read", common + "sA/share-current = 50.00 A, m2", "bank", finding.ToDo, "boundary"},
	})
	walk(t, fourInSeries, measuredShare, "", []row{{"one string", "", "bank", finding.NotNeeded, "hand: nothing divides"}})
}

func TestCounterAgrees(t *testing.T) {
	at := func(out, outClamp, in, inClamp, zero string) string {
		return milliamps + "shunt/counter-fitted = yes\nbank/design-current = 100 A\nbank/clamp-zeroed = yes\nshunt/counter-load = " + out + " A\nshunt/clamp-load = " + outClamp +
			" A, m2\nshunt/counter-charge = " + in + " A\nshunt/clamp-charge = " + inClamp + " A, m2\nshunt/counter-zero = " + zero + " A\n"
	}
	walk(t, fourInSeries, counterAgrees, "", []row{
		{"they agree", at("-50.2", "-50.00", "19.9", "20.00", "0.1"), "shunt", finding.Pass, "hand: 0.2 + 0.51 ≤ 2.5; 0.1 + 0.21 ≤ 1"},
		{"near", at("-52.2", "-50.00", "19.9", "20.00", "0.1"), "shunt", finding.CantTell, "hand: 2.2 ± 0.51 about 2.5"},
		{"just within 5 %", at("-51.9", "-50.00", "19.9", "20.00", "0.1"), "shunt", finding.Pass, "boundary: 1.9 + 0.51 ≤ 0.05 · 50 A"},
		{"10 A and nearly 1 A apart", at("-50.2", "-50.00", "10.8", "10.00", "0.1"), "shunt", finding.Pass, "boundary: 0.8 + 0.11 ≤ 1 A, more than 5 % of 10 A"},
		{"10 A and more than 1 A apart", at("-50.2", "-50.00", "11.2", "10.00", "0.1"), "shunt", finding.Fail, "boundary: 1.2 − 0.11 > 1 A"},
		{"set for another shunt", at("-25.0", "-50.00", "10.0", "20.00", "0.0"), "shunt", finding.Fail, "hand: 25 A apart"},
		{"shunt the wrong way round", at("50.0", "-50.00", "-20.0", "20.00", "0.0"), "shunt", finding.Fail, "hand: opposite signs"},
		{"clamp and shunt both the wrong way round", at("50.2", "50.00", "-19.9", "-20.00", "0.1"), "shunt", finding.CantTell, "hand: a load flows out, so a clamp that is on rightly shows minus; a counter that agrees with it counts backwards"},
		{"the clamp was not turned for the charge", at("-50.2", "-50.00", "-19.9", "-20.00", "0.1"), "shunt", finding.CantTell, "hand: a charge flows in and is plus"},
		{"zero at its limit", at("-50.2", "-50.00", "19.9", "20.00", "0.2"), "shunt", finding.Pass, "boundary: 0.2 ≤ 0.2"},
		{"zero above it", at("-50.2", "-50.00", "19.9", "20.00", "-0.3"), "shunt", finding.Fail, "boundary: 0.2 A"},
		{"zero just above it", at("-50.2", "-50.00", "19.9", "20.00", "0.21"), "shunt", finding.Fail, "boundary: 0.21 > 0.2"},
		{"too small a load", at("-15.0", "-15.00", "15.0", "15.00", "0.0"), "shunt", finding.CantTell, "hand: 15 < 20"},
		{"a little less than a fifth", at("-19.9", "-19.90", "15.0", "15.00", "0.0"), "shunt", finding.CantTell, "boundary: 19.9 < 0.2 · 100"},
		{"a fifth and more", at("-20.3", "-20.30", "15.0", "15.00", "0.0"), "shunt", finding.Pass, "boundary: 20.3 − 0.21 ≥ 0.2 · 100"},
		{"not zeroed", "shunt/counter-fitted = yes\nbank/design-current = 100 A\nbank/clamp-zeroed = no\nshunt/counter-load = -50 A\nshunt/clamp-load = -50.00 A, m2\nshunt/counter-charge = 20 A\nshunt/clamp-charge = 20.00 A, m2\nshunt/counter-zero = 0 A\n" + milliamps, "shunt", finding.CantTell, "boundary: a clamp's zero is not known"},
		{"not read", "shunt/counter-fitted = yes", "shunt", finding.ToDo, "boundary"},
		{"no counter", "shunt/counter-fitted = no", "bank", finding.NotNeeded, "hand: stated absent"},
		{"nobody said", "", "shunt", finding.ToDo, "boundary"},
	})
}

func TestJointHeat(t *testing.T) {
	at := func(hot, like, amps, minutes, method string) string {
		return milliamps + "bank/design-current = 100 A\nsite/ambient-max = 40 C\nbank/terminal = 75 C\nbank/joint-air = 20 C\nbank/joint-hottest = " + hot + " C\nbank/joint-like = " + like +
			" C\nbank/joint-load = " + amps + " A, m2\nbank/joint-time = " + minutes + " min\nbank/joint-method = " + method
	}
	walk(t, fourInSeries, jointHeat, "", []row{
		{"alike", at("32.0", "31.0", "100.0", "20", "tape"), "bank", finding.Pass, "hand: 1 + 1 ≤ 3; 40 + 12 + 3 ≤ 75"},
		{"at the limit", at("33.0", "31.0", "100.0", "20", "tape"), "bank", finding.Pass, "boundary: 2 + 1 = 3"},
		{"near", at("34.0", "31.0", "100.0", "20", "tape"), "bank", finding.CantTell, "hand: 2 … 4"},
		{"one is hot", at("35.1", "31.0", "100.0", "20", "tape"), "bank", finding.Fail, "hand: 4.1 − 1 > 3"},
		{"at half load", at("33.0", "31.0", "50.0", "20", "tape"), "bank", finding.Fail, "hand: 2 · 4 = 8 ± 4 K"},
		{"half load, alike", at("28.0", "28.0", "50.0", "20", "tape"), "bank", finding.CantTell, "boundary: a Pass takes 80 %"},
		{"79 % of the load, alike", at("31.0", "31.0", "79.0", "20", "tape"), "bank", finding.CantTell, "boundary: 79 < 0.8 · 100"},
		{"82 % of the load, alike", at("31.0", "31.0", "82.0", "20", "tape"), "bank", finding.Pass, "boundary: 82 − 0.92 ≥ 0.8 · 100; 0 ± 1.5 K; 40 + 14 · 1.49 ≤ 75"},
		{"85 % of the load, and warm", at("45.0", "44.5", "85.0", "20", "tape"), "bank", finding.CantTell, "hand: 40 + (25 ± 3) · (100/85)² = 70.4 … 78.8 about 75"},
		{"30 % of the load", at("40.0", "31.0", "30.0", "20", "tape"), "bank", finding.CantTell, "boundary: 40 % at least"},
		{"39 % of the load", at("35.0", "31.0", "39.0", "20", "tape"), "bank", finding.CantTell, "boundary: 39 < 0.4 · 100"},
		{"41 % of the load", at("35.0", "31.0", "41.0", "20", "tape"), "bank", finding.Fail, "boundary: 41 − 0.51 ≥ 0.4 · 100; 4 · (100/41)² = 23.8 ± 5.9 K"},
		{"all too hot", at("59.0", "58.5", "100.0", "20", "tape"), "bank", finding.Fail, "hand: 40 + 39 − 3 = 76 > 75"},
		{"hottest and coolest swapped", at("31.0", "35.1", "100.0", "20", "tape"), "bank", finding.Fail, "hand: 4.1 − 1 > 3, whichever is which"},
		{"colder than the air beside it", at("16.0", "16.0", "100.0", "20", "tape"), "bank", finding.CantTell, "hand: 16 + 3 < 20, and nothing cools a joint that carries current"},
		{"too early", at("32.0", "31.0", "100.0", "19", "tape"), "bank", finding.CantTell, "boundary: 20 minutes"},
		{"bare metal", at("32.0", "31.0", "100.0", "20", "bare"), "bank", finding.CantTell, "published: bare copper reads far too cold"},
		{"not read", "bank/design-current = 100 A", "bank", finding.ToDo, "boundary"},
	})
	walk(t, oneBlock, jointHeat, "", []row{{"one block", "", "bank", finding.NotNeeded, "hand: no joints between blocks"}})
}

// 2/0 AWG has 0.0967 Ω/kft at 75 °C stranded uncoated (a published table):
// 0.317 mΩ/m, so 10 m have 3.17 mΩ at 75 °C.
func TestLeadCheck(t *testing.T) {
	const common = "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nlead.p/cable = cable1\nlead.n/cable = cable1\nlead.p/length = 10 m\nlead.n/length = 10 m\nbank/lead-temperature = 75 C\n"
	at := func(p, n string) string {
		return common + "lead.p/lug-to-lug = " + p + " mOhm\nlead.n/lug-to-lug = " + n + " mOhm\n"
	}
	short := func(ohms string) string {
		return "m8/measures = Ohm\nm8/percent = 0 %\nm8/counts = 1\n" + strings.ReplaceAll(common, "10 m\n", "1 m\n") + "lead.p/lug-to-lug = " + ohms + " mOhm, m8\nlead.n/lug-to-lug = 0.320 mOhm, m8\n"
	}
	walk(t, fourInSeries, leadCheck, "", []row{
		{"good crimps", at("3.20", "3.22"), "bank", finding.Pass, "hand: 3.22·1.05 + 0.005 = 3.386 ≤ 3.17 + 0.32"},
		{"less than copper can have", at("3.20", "1.00"), "bank", finding.CantTell, "hand: 1.00·1.05 + 0.005 < 3.17 − 0.32; another length, another unit or another size"},
		{"a bad crimp", at("3.20", "3.70"), "bank", finding.Fail, "hand: 3.70·0.95 − 0.005 = 3.51 > 3.49"},
		{"copper-clad", at("5.0", "5.0"), "bank", finding.Fail, "hand: aluminium has 1.6 times the resistance"},
		{"one short metre", short("0.415"), "bank", finding.Pass, "boundary: 0.416 ≤ 0.317 + 0.1 mΩ, more than a tenth"},
		{"just a tenth more", "m8/measures = Ohm\nm8/percent = 0 %\nm8/counts = 1\n" + common + "lead.p/lug-to-lug = 3.475 mOhm, m8\nlead.n/lug-to-lug = 3.2 mOhm, m8\n", "bank", finding.Pass, "boundary: 3.476 ≤ 3.173 · 1.1 = 3.490 mΩ"},
		{"just more than a tenth more", "m8/measures = Ohm\nm8/percent = 0 %\nm8/counts = 1\n" + common + "lead.p/lug-to-lug = 3.500 mOhm, m8\nlead.n/lug-to-lug = 3.2 mOhm, m8\n", "bank", finding.Fail, "boundary: 3.499 > 3.490 mΩ"},
		{"one short metre, a bad crimp", short("0.420"), "bank", finding.Fail, "boundary: 0.419 > 0.317 + 0.1 mΩ"},
		{"temperature not read", "cable1/size = 2/0 AWG\nlead.p/cable = cable1\nlead.p/length = 10 m\nlead.p/lug-to-lug = 3.2 mOhm", "bank", finding.ToDo, "boundary"},
		{"not read", common, "bank", finding.ToDo, "boundary"},
	})
}

// The usual thermometer is known to 2 K, and to half of what it shows.
func TestSensorPair(t *testing.T) {
	const pair = "bank/sensor-method = contact\nbank/sensor-soaked = yes\n"
	const fine = "m4/measures = C\nm4/percent = 0 %\nm4/counts = 1\nm4/step = 0.1 C\n"
	walk(t, fourInSeries, sensorPair, "", []row{
		{"shown in degrees", pair + "bank/sensor-type = shown\nbank/sensor-reads = 20 C\nbank/sensor-reference = 21 C", "bank", finding.Pass, "hand: 1 + 2.5 ≤ 5"},
		{"at the limit", pair + "bank/sensor-type = shown\nbank/sensor-reads = 20 C\nbank/sensor-reference = 23.0 C, m4\nm4/measures = C\nm4/percent = 0 %\nm4/counts = 20\nm4/step = 0.1 C", "bank", finding.Pass, "boundary: 20 counts of 0.1 K; 3 + 2 = 5"},
		{"near", pair + "bank/sensor-type = shown\nbank/sensor-reads = 20 C\nbank/sensor-reference = 24 C", "bank", finding.CantTell, "hand: 4 ± 2.5"},
		{"it lies", pair + "bank/sensor-type = shown\nbank/sensor-reads = 20 C\nbank/sensor-reference = 12 C", "bank", finding.Fail, "hand: 8 − 2.5 > 5"},
		{"curve 8016 at 0 °C", pair + "bank/sensor-type = ntc-8016\nbank/sensor-ohms = 32650.9 Ohm\nbank/sensor-reference = 0 C", "bank", finding.Pass, "published: a logger manual's table"},
		{"the wrong curve at 0 °C", pair + "bank/sensor-type = ntc-3950\nbank/sensor-ohms = 33620.6 Ohm\nbank/sensor-reference = 0 C", "bank", finding.Pass, "independent: Beta 3950 at 0 °C"},
		{"Beta 3950, nearly 5 K below", pair + fine + "bank/sensor-type = ntc-3950\nbank/sensor-ohms = 33620.6 Ohm\nbank/sensor-reference = 4.8 C, m4", "bank", finding.Pass, "boundary: 4.8 + 0.1 ≤ 5; 0 °C by another program's Beta 3950"},
		{"Beta 3950, nearly 5 K above", pair + fine + "bank/sensor-type = ntc-3950\nbank/sensor-ohms = 33620.6 Ohm\nbank/sensor-reference = -4.8 C, m4", "bank", finding.Pass, "boundary: 4.8 + 0.1 ≤ 5"},
		{"Pt100 at 60 °C", pair + "bank/sensor-type = pt100\nbank/sensor-ohms = 123.24 Ohm\nbank/sensor-reference = 60 C", "bank", finding.Pass, "published: table of IEC 60751"},
		{"Pt100 beside the point", pair + "bank/sensor-type = pt100\nbank/sensor-ohms = 123.24 Ohm\nbank/sensor-reference = 50 C", "bank", finding.Fail, "hand: 10 − 2.5 > 5"},
		{"open", "bank/sensor-type = ntc-8016\nbank/sensor-ohms = 400001 Ohm", "bank", finding.Fail, "boundary: 400 kΩ"},
		{"not quite open", "bank/sensor-type = ntc-8016\nbank/sensor-ohms = 400000 Ohm", "bank", finding.ToDo, "boundary"},
		{"short", "bank/sensor-type = ntc-8016\nbank/sensor-ohms = 199 Ohm", "bank", finding.Fail, "boundary: 200 Ω"},
		{"not quite short", "bank/sensor-type = ntc-8016\nbank/sensor-ohms = 200 Ohm", "bank", finding.ToDo, "boundary"},
		{"Pt100 short", "bank/sensor-type = pt100\nbank/sensor-ohms = 79.9 Ohm", "bank", finding.Fail, "boundary: 80 Ω"},
		{"Pt100, not quite short", "bank/sensor-type = pt100\nbank/sensor-ohms = 80.0 Ohm", "bank", finding.ToDo, "boundary"},
		{"Pt100 open", "bank/sensor-type = pt100\nbank/sensor-ohms = 140.1 Ohm", "bank", finding.Fail, "boundary: 140 Ω"},
		{"Pt100, not quite open", "bank/sensor-type = pt100\nbank/sensor-ohms = 140.0 Ohm", "bank", finding.ToDo, "boundary"},
		{"infrared", "bank/sensor-soaked = yes\nbank/sensor-method = infrared\nbank/sensor-type = shown\nbank/sensor-reads = 20 C\nbank/sensor-reference = 20 C", "bank", finding.CantTell, "boundary: the case is not the sensor"},
		{"not soaked", "bank/sensor-soaked = no\nbank/sensor-method = contact\nbank/sensor-type = shown\nbank/sensor-reads = 20 C\nbank/sensor-reference = 20 C", "bank", finding.CantTell, "boundary: half an hour without current"},
		{"part unknown", "bank/sensor-type = unknown", "bank", finding.CantTell, "boundary: without a curve ohms are no temperature"},
		{"none", "bank/sensor-type = none", "bank", finding.NotNeeded, "hand: stated absent"},
		{"nobody said", "", "bank", finding.ToDo, "boundary"},
	})
}

func TestColdStart(t *testing.T) {
	at := func(amps, temp string) string {
		return heatedSheet + milliamps + "bank/cold-start-current = " + amps + " A, m2\nbank/cold-start-temperature = " + temp + " C"
	}
	walk(t, oneBlock, coldStart, "", []row{
		{"heaters alone", at("5.20", "-10"), "bank", finding.Pass, "hand: 4 … 6"},
		{"at the top", at("6.00", "-10"), "bank", finding.CantTell, "boundary: 6.00 ± 0.07"},
		{"charged while frozen", at("34.0", "-10"), "bank", finding.Fail, "hand: 34 > 6 at −7 at most"},
		{"a dead heater", at("2.00", "-10"), "bank", finding.Fail, "hand: 2 < 4"},
		{"near freezing", at("5.20", "-2"), "bank", finding.CantTell, "hand: −5 … 1"},
		{"too warm to tell", at("34.0", "10"), "bank", finding.CantTell, "boundary: not below its release"},
		{"not tested", heatedSheet, "bank", finding.CantTell, "boundary: not tested is said"},
		{"no heater", "", "bank", finding.NotNeeded, "hand"},
	})
}
