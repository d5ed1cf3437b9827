package checks

import (
	"fmt"
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

// listed writes lines of the charge list, so many minutes apart, the last one
// now: current, voltage and temperature, "" for what was not written down.
func listed(minutes int, lines ...[3]string) (out string) {
	for i, l := range lines {
		for k, field := range []string{"sample-current", "sample-voltage", "sample-temperature"} {
			if l[k] != "" {
				out += fmt.Sprintf("charge1.019ab000-0000-7000-8000-%012x/%s = %s, at -%dm\n", 0xa00+i, field, l[k], minutes*(len(lines)-1-i))
			}
		}
	}
	return out
}

// heatedSheet: blocks of 22 kg and 200 Ah that heat with 5 A and let charge in
// at 5 °C.
const heatedSheet = `
	b1/sheet = sheet1
	sheet1/heated = yes
	sheet1/heater-current = 5 A
	sheet1/heater-release = 5 C
	sheet1/mass = 22 kg
	sheet1/capacity = 200 Ah
`

var oneBlock = bank.New(1, 1, bank.JoinStrings, bank.OneEnd)

func TestHeaterSupply(t *testing.T) {
	walk(t, oneBlock, heaterSupply, heatedSheet, []row{
		{"enough", "charger1/set-current = 7 A", "bank", finding.Pass, "independent: 7 ≥ 6.25"},
		{"at the limit", "charger1/set-current = 6.25 A", "bank", finding.Pass, "boundary: 1.25 · 5"},
		{"tight", "charger1/set-current = 6 A", "bank", finding.CantTell, "independent: 5 … 6.25"},
		{"starved", "charger1/set-current = 4 A", "bank", finding.Fail, "independent: 4 < 5"},
		{"two chargers", "charger1/set-current = 4 A\ncharger2/set-current = 3 A", "bank", finding.Pass, "hand: 7 ≥ 6.25"},
		{"set to more than it can give", "charger1/set-current = 10 A\ncharger1/current-max = 4 A", "bank", finding.Fail, "hand: 4 A is all that it has, and 4 < 5"},
		{"setting not entered", "charger1/current-max = 30 A", "bank", finding.ToDo, "boundary: what it is set to counts"},
	})
	two := heatedSheet + "b2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\n"
	walk(t, twoByTwo, heaterSupply, two, []row{
		{"two strings share", "charger1/set-current = 12 A", "bank", finding.CantTell, "hand: 2 · 5 = 10, asked are 12.5; series blocks share one path"},
		{"two strings, enough", "charger1/set-current = 12.5 A", "bank", finding.Pass, "boundary: 1.25 × 2 × 5 = 12.5"},
	})
	walk(t, oneBlock, heaterSupply, "", []row{{"no sheet says so", "", "bank", finding.NotNeeded, "hand: nothing heats"}})
	walk(t, oneBlock, heaterSupply, "b1/sheet = sheet1\nsheet1/heated = no", []row{{"stated absent", "", "bank", finding.NotNeeded, "hand"}})
	walk(t, oneBlock, heaterSupply, "b1/sheet = sheet1\nsheet1/heated = yes\ncharger1/set-current = 7 A", []row{{"heater unknown", "", "bank", finding.ToDo, "boundary: missing is not zero"}})
}

// 5 A at 13.6 V are 68 W. Worst corner: 22 kg · 1150 J/(kg·K), 61.2 W, 3 W/K.
func TestWarmUp(t *testing.T) {
	at := func(temp, air string) string {
		return "b1/charge-temperature = " + temp + "\nb1/sensor = own\nbank/air-now = " + air + "\n"
	}
	walk(t, oneBlock, warmUp, heatedSheet, []row{
		{"mild air", at("-10 C", "-10 C"), "bank", finding.Pass, "hand: −10 + 61.2/3 = 10.4 > 5: even the worst corner reaches"},
		{"just too cold for the worst corner", at("-16 C", "-16 C"), "bank", finding.CantTell, "boundary: −16 + 0.9 · 5 A · 13.6 V/3 = 4.4 < 5"},
		{"depends on the case", at("-20 C", "-20 C"), "bank", finding.CantTell, "hand: −20 + 20.4 = 0.4 < 5; −20 + 74.8/0.5 = 130"},
		{"plan is long enough", at("-10 C", "-10 C") + "bank/warm-up-plan = 4 h", "bank", finding.Pass, "hand: worst 8433 s · ln(20.4/5.4) = 11 209 s, 3.1 h"},
		{"plan within the band", at("-10 C", "-10 C") + "bank/warm-up-plan = 1 h", "bank", finding.CantTell, "hand: 0.3 of the nominal 5909 s is 0.5 h; worst 3.1 h"},
		{"plan is hopeless", at("-10 C", "-10 C") + "bank/warm-up-plan = 0.2 h", "bank", finding.Fail, "hand: 0.2 < 0.5 h"},
		{"warm already", at("18 C", "18 C"), "bank", finding.NotNeeded, "hand: 18 − 3 ≥ 5"},
		{"by its slope", at("-20 C", "-20 C") + "bank/warm-up-plan = 2 h\n" + listed(10, [3]string{"5.0 A", "13.5 V", "-15.0 C"}, [3]string{"5.0 A", "13.5 V", "-10.0 C"}), "bank", finding.Pass, "hand: 15 K at 0.5 K/min are 30 min, 23 … 43"},
		{"the list is older than the block is cold", at("-10 C", "-10 C") + "bank/warm-up-plan = 1 h\n" + strings.ReplaceAll(listed(10, [3]string{"5.0 A", "13.5 V", "2.0 C"}, [3]string{"5.0 A", "13.5 V", "4.0 C"}), "at -", "at -15"), "bank", finding.CantTell, "hand: from −10 °C the worst corner takes 3.1 h, whatever a list of a day before says"},
		{"nine minutes show no slope", at("-20 C", "-20 C") + "bank/warm-up-plan = 2 h\n" + listed(9, [3]string{"5.0 A", "13.5 V", "-15.0 C"}, [3]string{"5.0 A", "13.5 V", "-10.0 C"}), "bank", finding.CantTell, "boundary: ten minutes; the forecast still depends on the case"},
		{"no slope", at("-20 C", "-20 C") + listed(10, [3]string{"5.0 A", "13.5 V", "-10.0 C"}, [3]string{"5.0 A", "13.5 V", "-10.0 C"}), "bank", finding.CantTell, "boundary: it does not warm"},
		{"air unknown", "b1/charge-temperature = -10 C\nb1/sensor = own", "bank", finding.ToDo, "boundary"},
		{"temperature unknown", "bank/air-now = -10 C", "bank", finding.ToDo, "boundary: an unknown temperature says nothing"},
	})
	weak := strings.Replace(heatedSheet, "heater-current = 5 A", "heater-current = 0.5 A", 1)
	walk(t, oneBlock, warmUp, weak, []row{
		{"never", at("-20 C", "-40 C"), "bank", finding.Fail, "hand: 0.5 · 13.6 · 1.1/0.5 = 15 K above −40"},
	})
	walk(t, oneBlock, warmUp, "", []row{{"no heater", "", "bank", finding.NotNeeded, "hand"}})
}

func TestHeaterToCharge(t *testing.T) {
	step := func(temp string) string {
		return listed(1, [3]string{"5.0 A", "13.5 V", "-5.0 C"}, [3]string{"5.0 A", "13.5 V", "-4.0 C"}, [3]string{"34.0 A", "13.6 V", temp}, [3]string{"34.0 A", "13.6 V", temp}, [3]string{"34.0 A", "13.6 V", temp})
	}
	walk(t, oneBlock, heaterToCharge, heatedSheet, []row{
		{"warm", step("6.0 C"), "bank", finding.Pass, "hand: 6 − 3 > 0"},
		{"at its own uncertainty", step("3.0 C"), "bank", finding.CantTell, "boundary: 3 − 3 is not above 0"},
		{"just above", step("3.1 C"), "bank", finding.Pass, "boundary: 3.1 − 3 > 0"},
		{"near freezing", step("-2.0 C"), "bank", finding.CantTell, "hand: −5 … 1"},
		{"frozen", step("-3.0 C"), "bank", finding.Fail, "boundary: −3 + 3 = 0 is not above 0"},
		{"no temperature", step(""), "bank", finding.CantTell, "boundary: unknown opens nothing"},
		{"it cools", listed(1, [3]string{"5.0 A", "13.5 V", "6.0 C"}, [3]string{"34.0 A", "13.6 V", "8.0 C"}, [3]string{"34.0 A", "13.6 V", "7.0 C"}, [3]string{"34.0 A", "13.6 V", "6.0 C"}), "bank", finding.Fail, "hand: nothing heats any more"},
		{"no step yet", listed(1, [3]string{"5.0 A", "13.5 V", "-5.0 C"}, [3]string{"5.1 A", "13.5 V", "-4.0 C"}), "bank", finding.CantTell, "boundary: 5.1 − 5.0 < 0.3 × 5"},
		{"nothing written", "", "bank", finding.ToDo, "boundary"},
	})
	walk(t, oneBlock, heaterToCharge, "", []row{{"no heater", "", "bank", finding.NotNeeded, "hand"}})
}

// 1 % of 4 · 14.4 V is 0.576 V. Both read on one meter to 0.01 V: the
// difference is known to 2·0.01/√6 = 0.0082 V.
func TestChargeDrop(t *testing.T) {
	const common = goodMeter + "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/capacity = 100 Ah\ncharger1/set-current = 30 A\ncharger1/lead-current = 20.0 A\n"
	at := func(source, posts string) string {
		return "charger1/volts-at-charger = " + source + " V, m1\ncharger1/volts-at-bank = " + posts + " V, m1\n"
	}
	walk(t, fourInSeries, chargeDrop, common, []row{
		{"little", at("56.50", "56.00"), "charger1", finding.Pass, "hand: 0.5082 ≤ 0.576"},
		{"near the limit", at("56.57", "56.00"), "charger1", finding.CantTell, "hand: 0.57 ± 0.0082"},
		{"much", at("56.60", "56.00"), "charger1", finding.Fail, "hand: 0.60 − 0.0082 > 0.576"},
		{"swapped", at("55.00", "56.00"), "charger1", finding.CantTell, "hand: −1.00 + 0.008 < 0; current flows downhill"},
		{"no drop to be seen", at("56.00", "56.00"), "charger1", finding.Pass, "boundary: 0 ± 0.0082 V"},
		{"posts not read", "charger1/volts-at-charger = 56.50 V", "charger1", finding.ToDo, "boundary"},
		{"the firm is stricter", "house/charge-drop.drop = 0.3 V\n" + at("56.50", "56.00"), "charger1", finding.Fail, "hand: 0.4918 > 0.3"},
	})
	weak := goodMeter + "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/capacity = 100 Ah\ncharger1/set-current = 30 A\n"
	walk(t, fourInSeries, chargeDrop, weak, []row{
		{"too little current", "charger1/lead-current = 5.0 A\n" + at("56.20", "56.00"), "charger1", finding.CantTell, "hand: 5 A + 1.1 A < 20 A"},
		{"much at little current", "charger1/lead-current = 5.0 A\n" + at("56.70", "56.00"), "charger1", finding.Fail, "hand: more current drops more"},
		{"a little less than a fifth", milliamps + "charger1/lead-current = 19.00 A, m2\n" + at("56.20", "56.00"), "charger1", finding.CantTell, "boundary: 19 + 0.2 < 0.2 · 100 A"},
		{"a fifth and more", milliamps + "charger1/lead-current = 20.30 A, m2\n" + at("56.20", "56.00"), "charger1", finding.Pass, "boundary: 20.3 − 0.22 ≥ 0.2 · 100 A"},
	})
	small := goodMeter + "b1/sheet = sheet1\nsheet1/capacity = 100 Ah\ncharger1/set-current = 5 A\ncharger1/lead-current = 5.0 A\n"
	walk(t, oneBlock, chargeDrop, small, []row{
		{"a small charger at its full setting", at("14.45", "14.40"), "charger1", finding.Pass, "hand: 0.05 + 0.01 ≤ 0.144; more than 5 A never flows"},
	})
}

func TestTimeToFull(t *testing.T) {
	const common = goodMeter + "b1/sheet = sheet1\nsheet1/capacity = 200 Ah\n"
	walk(t, oneBlock, timeToFull, common, []row{
		{"a band", "bank/charge-current = 40 A\nb1/rest-voltage = 13.20 V, m1", "bank", finding.NotNeeded, "information: never a verdict"},
		{"no current planned", "b1/rest-voltage = 13.20 V, m1", "bank", finding.ToDo, "boundary"},
		{"no level", "bank/charge-current = 40 A", "bank", finding.NotNeeded, "information"},
	})
	// From 20 to 75 % of 200 Ah at 40 A: 1.25 h to 4 h bound the band of 13.20 V,
	// which lies between 23 and 72 % (open data): 1.4 to 3.85 h.
	x := judged(t, fixture(t, oneBlock, common, "bank/charge-current = 40 A\nb1/rest-voltage = 13.20 V, m1"), timeToFull, "bank")[0]
	v, ok := x.Found()
	if !ok || v.Low < 1.25*3600 || v.Low > 1.6*3600 || v.High < 3.6*3600 || v.High > 4*3600 {
		t.Errorf("13.20 V: %v to %v s", v.Low, v.High)
	}
	// τ = 1200 s from 40 A to a tail of 10 A: 1663.6 s more (1200 · ln 4).
	y, _ := judged(t, fixture(t, oneBlock, common, "bank/charge-current = 40 A\nb1/rest-voltage = 13.20 V, m1\nbank/tail-constant = 20 min"), timeToFull, "bank")[0].Found()
	if d := y.Low - v.Low; d < 1663.5 || d > 1663.6 {
		t.Errorf("the falling current takes %v s", d)
	}
}

func TestChargeTrend(t *testing.T) {
	const common = goodMeter + releasedAlone
	quiet := [3]string{"20.0 A", "13.80 V, m1", "20.0 C"}
	off := [3]string{"0.0 A", "13.60 V, m1", "20.0 C"}
	walk(t, oneBlock, chargeTrend, common, []row{
		{"quiet", listed(5, quiet, quiet, quiet), "bank", finding.Pass, "boundary: five minutes apart"},
		{"one line", listed(5, quiet), "bank", finding.CantTell, "boundary: a course takes two"},
		{"one line, and it is hot", listed(5, [3]string{"20.0 A", "13.80 V, m1", "48.1 C"}), "bank", finding.Fail, "hand: 48.1 − 3 > 45"},
		{"a gap", listed(6, quiet, quiet), "bank", finding.CantTell, "boundary: six minutes"},
		{"hot", listed(5, quiet, [3]string{"20.0 A", "13.80 V, m1", "48.1 C"}), "bank", finding.Fail, "hand: 48.1 − 3 > 45"},
		{"perhaps hot", listed(5, quiet, [3]string{"20.0 A", "13.80 V, m1", "43.0 C"}), "bank", finding.CantTell, "hand: 40 … 46"},
		{"hotter than its maker wants", "sheet1/charge-temp-max = 40 C\n" + listed(5, quiet, [3]string{"20.0 A", "13.80 V, m1", "43.1 C"}), "bank", finding.Fail, "hand: 43.1 − 3 > 40"},
		{"its maker bears more heat", "sheet1/charge-temp-max = 55 C\n" + listed(5, quiet, [3]string{"20.0 A", "13.80 V, m1", "52.0 C"}), "bank", finding.Pass, "boundary: 52 + 3 ≤ 55"},
		{"too high", listed(5, quiet, [3]string{"20.0 A", "14.75 V, m1", "20.0 C"}), "bank", finding.Fail, "hand: 14.75 − 0.04 > 14.6"},
		{"two restarts", listed(5, quiet, off, quiet, off, quiet), "bank", finding.Pass, "boundary: two"},
		{"three restarts", listed(5, quiet, off, quiet, off, quiet, off, quiet), "bank", finding.Fail, "boundary: three"},
		{"half a line", listed(5, quiet, [3]string{"20.0 A", "", "20.0 C"}), "bank", finding.CantTell, "boundary: missing is not quiet"},
		{"frozen", listed(5, quiet, [3]string{"20.0 A", "13.80 V, m1", "-3.0 C"}), "bank", finding.Fail, "two makers' charge tables: none at 0 °C or below; boundary: −3 + 3 is not above 0"},
		{"perhaps frozen", listed(5, quiet, [3]string{"20.0 A", "13.80 V, m1", "3.0 C"}), "bank", finding.CantTell, "boundary: 3 − 3 is not above 0"},
		{"just warm enough", listed(5, quiet, [3]string{"20.0 A", "13.80 V, m1", "3.1 C"}), "bank", finding.Pass, "boundary: 3.1 − 3 > 0"},
		{"its maker wants it warmer", "sheet1/charge-temp-min = 5 C\n" + listed(5, quiet, [3]string{"20.0 A", "13.80 V, m1", "2.0 C"}), "bank", finding.Fail, "boundary: 2 + 3 is not above 5"},
		{"frozen, and nothing flows", listed(5, off, [3]string{"0.0 A", "13.20 V, m1", "-9.0 C"}), "bank", finding.Pass, "hand: 0 + 2·√(0.5² + 0.5²)/√3 = 0.82 ≤ 1 A, as at rest"},
		{"the clamp is the wrong way round", listed(5, quiet, [3]string{"-20.0 A", "13.80 V, m1", "20.0 C"}), "bank", finding.CantTell, "hand: −20 + 1.4 A is no charge"},
		{"nothing written", "", "bank", finding.ToDo, "boundary"},
	})
	// A sheet that does not say from where it lets charge in: 5 °C, common
	// practice, no source.
	silent := strings.Replace(swapped(t, "bank/heat-watched", "bank/heat-watched = yes, at -6m"), "sheet1/heater-release = 5 C", "", 1)
	walk(t, oneBlock, chargeTrend, silent, []row{
		{"starved, surely below 5 °C", listed(5, [3]string{"2.0 A", "13.50 V", "1.5 C"}, [3]string{"2.0 A", "13.50 V", "1.5 C"}), "bank", finding.Fail, "boundary: 1.5 + 3 < 5 °C"},
		{"perhaps below 5 °C", listed(5, [3]string{"2.0 A", "13.50 V", "2.5 C"}, [3]string{"2.0 A", "13.50 V", "2.5 C"}), "bank", finding.CantTell, "boundary: 2.5 + 3 > 5 °C"},
	})
	walk(t, oneBlock, chargeTrend, strings.Replace(common, "sheet1/charge-voltage-max = 14.6 V", "", 1), []row{
		{"too high for any of its kind", listed(5, quiet, [3]string{"20.0 A", "14.75 V, m1", "20.0 C"}), "bank", finding.Fail, "hand: 14.75 − 0.04 > 14.6, the usual highest"},
	})
	cold := func(amps string) string {
		return listed(5, [3]string{amps, "13.50 V, m2", "-10.0 C"}, [3]string{amps, "13.50 V, m2", "-9.0 C"})
	}
	const clamp = "m3/measures = A\nm3/percent = 2 %\nm3/counts = 5\nm3/step = 0.1 A\n"
	const fine = "m7/measures = A\nm7/percent = 1 %\nm7/counts = 1\n"
	walk(t, oneBlock, chargeTrend, swapped(t, "bank/heat-watched", "bank/heat-watched = yes, at -6m")+fine, []row{
		{"fed", clamp + cold("5.0 A, m3"), "bank", finding.Pass, "hand: 5.0 + 0.6 ≤ 1.2 · 5"},
		{"a little more than the heaters draw", clamp + cold("6.6 A, m3"), "bank", finding.CantTell, "hand: 6.6 − 0.63 = 5.97 < 6"},
		{"cells take current while they are frozen", clamp + cold("10.0 A, m3"), "bank", finding.Fail, "hand: 10 − 0.7 > 6 with the block at −10 + 3 °C, from the first line on"},
		{"starved", cold("2.0 A"), "bank", finding.Fail, "hand: 2.0 + 1.1 < 4"},
		{"just starved", cold("3.90 A, m7"), "bank", finding.Fail, "boundary: 3.90 + 0.05 < 0.8 · 5 A"},
		{"perhaps starved", cold("3.98 A, m7"), "bank", finding.CantTell, "boundary: 3.93 to 4.03 A about 0.8 · 5 A"},
		{"just fed", cold("4.10 A, m7"), "bank", finding.Pass, "boundary: 4.10 − 0.05 ≥ 0.8 · 5 A"},
		{"starved, and just below the release", listed(5, [3]string{"2.0 A", "13.50 V", "1.9 C"}, [3]string{"2.0 A", "13.50 V", "1.9 C"}), "bank", finding.Fail, "boundary: 1.9 + 3 < 5 °C"},
		{"little current, and perhaps below the release", listed(5, [3]string{"2.0 A", "13.50 V", "2.5 C"}, [3]string{"2.0 A", "13.50 V", "2.5 C"}), "bank", finding.CantTell, "boundary: 2.5 ± 3 about 5 °C"},
		{"little current once warm", listed(5, [3]string{"2.0 A", "13.50 V", "8.0 C"}, [3]string{"2.0 A", "13.50 V", "8.0 C"}), "bank", finding.Pass, "boundary: 8 − 3 ≥ 5 °C: the heaters are off"},
	})
}
