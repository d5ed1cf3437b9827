package checks

import (
	"math"
	"slices"
	"strings"
	"testing"

	"lugmark/core/finding"
)

// A counter's energy is known to 1.5 %; four blocks of 1280 Wh promise 5.12 kWh.
func TestEnergy(t *testing.T) {
	const common = capacitySheet + properRun
	const promised = common + "sheet1/rated-energy = 1280 Wh\n"
	walk(t, fourInSeries, energyGiven, "", []row{
		{"no sheet promises", common + "capacity1/energy = 5.00 kWh", "capacity1", finding.NotNeeded, "information"},
		{"above", promised + "capacity1/energy = 5.20 kWh", "capacity1", finding.Pass, "hand: 5.20 − 0.078 = 5.122 ≥ 5.12"},
		{"near", promised + "capacity1/energy = 5.19 kWh", "capacity1", finding.CantTell, "hand: 5.112 < 5.12"},
		{"very near", promised + "capacity1/energy = 5.195 kWh", "capacity1", finding.CantTell, "boundary: 5.195 − 0.0779 < 5.12"},
		{"below", promised + "capacity1/energy = 5.00 kWh", "capacity1", finding.Fail, "hand: 5.00 + 0.075 < 5.12"},
		{"below, stopped early", capacitySheet + "sheet1/rated-energy = 1280 Wh\ncapacity1/started-full = yes\ncapacity1/end-reason = person\ncapacity1/energy = 3.00 kWh", "capacity1", finding.CantTell, "hand: a lower bound cannot fail"},
		{"not counted", common, "bank", finding.NotNeeded, "hand: optional"},
	})
}

// Four in series end at 40.0 V; the good meter knows 40.00 V to 0.023 V and
// counts 3 mV beside.
// By hand: 4 × 100 Ah × 4 × 3.2 V are 5120 Wh; a sheet that is missing is not 0.
func TestNominalEnergy(t *testing.T) {
	if got := NominalEnergy(fixture(t, fourInSeries, capacitySheet)); math.Abs(float64(got)-5120) > 1e-9 {
		t.Errorf("got %v Wh", got)
	}
	if got := NominalEnergy(fixture(t, fourInSeries, "b1/sheet = sheet1\nsheet1/capacity = 100 Ah")); got != 0 {
		t.Errorf("three sheets missing: %v Wh", got)
	}
}

func TestEndPoint(t *testing.T) {
	at := func(volts, why string) string {
		return goodMeter + capacitySheet + "capacity1/end-voltage = " + volts + " V, m1\ncapacity1/end-reason = " + why
	}
	walk(t, fourInSeries, endPoint, "", []row{
		{"at the cut-off", at("40.00", "cut-off"), "capacity1", finding.Pass, "boundary: 40.00 ± 0.02 about 40"},
		{"below it", at("39.50", "cut-off"), "capacity1", finding.Fail, "hand: 39.5 + 0.05 < 40"},
		{"above it", at("44.00", "cut-off"), "capacity1", finding.CantTell, "hand: not reached"},
		{"stopped by a person", at("44.00", "person"), "capacity1", finding.CantTell, "hand: a lower bound"},
		{"a person, too low", at("39.00", "person"), "capacity1", finding.Fail, "hand: below is below"},
		{"a protection", at("12.00", "protection"), "capacity1", finding.Pass, "hand: the posts of an open protection show nothing"},
		{"the maker's cut-off", "sheet1/discharge-cut-off = 11 V\n" + at("43.00", "cut-off"), "capacity1", finding.Fail, "hand: 43 + 0.05 < 44"},
		{"why unknown", "capacity1/end-voltage = 40.0 V", "capacity1", finding.ToDo, "boundary"},
		{"no test", "", "bank", finding.NotNeeded, "hand"},
	})
}

// The usual counter has ±0.05 A: over 5 h and 103 Ah 0.0024, over 5 h and
// 104 Ah as much again.
func TestReturnRatio(t *testing.T) {
	run := func(out, in string) string {
		return capacitySheet + "capacity1/duration = 5 h\ncapacity1/recharge-duration = 5 h\ncapacity1/charge = " + out + " Ah\ncapacity1/recharge = " + in + " Ah\n"
	}
	walk(t, fourInSeries, returnRatio, "", []row{
		{"good", run("103", "104"), "capacity1", finding.Pass, "hand: 0.990 − 0.005 ≥ 0.95"},
		{"near", run("99.0", "104"), "capacity1", finding.CantTell, "hand: 0.952 ± 0.005"},
		{"just near", run("99.0", "103.8"), "capacity1", finding.CantTell, "hand: 0.9538 − 0.9538 · (0.25/99 + 0.25/103.8) = 0.9491 < 0.95"},
		{"just good", run("99.0", "103.6"), "capacity1", finding.Pass, "hand: 0.9556 − 0.9556 · (0.25/99 + 0.25/103.6) = 0.9509 ≥ 0.95"},
		{"poor", run("95.0", "104"), "capacity1", finding.Fail, "hand: 0.913 + 0.005 < 0.95"},
		{"above one", run("103", "101"), "capacity1", finding.CantTell, "independent: 1.0198, impossible for a closed cycle"},
		{"one exactly", run("104", "104"), "capacity1", finding.Pass, "boundary: 1 − 0.005"},
		{"heaters took a part", run("103", "110") + "capacity1/recharge-heater = 6 Ah", "capacity1", finding.Pass, "hand: 103/104"},
		{"heated, their part unknown", heatedSheet + "b2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\ncapacity1/duration = 5 h\ncapacity1/recharge-duration = 5 h\ncapacity1/charge = 103 Ah\ncapacity1/recharge = 104 Ah", "capacity1", finding.ToDo, "boundary: missing is not zero"},
		{"two counters", capacitySheet + "capacity1/duration = 5 h\ncapacity1/recharge-duration = 5 h\ncapacity1/charge = 103 Ah, m1\ncapacity1/recharge = 104 Ah, m2", "capacity1", finding.CantTell, "hand: the gain does not cancel"},
		{"not recharged", "capacity1/charge = 103 Ah", "capacity1", finding.ToDo, "boundary"},
		{"no test", "", "bank", finding.NotNeeded, "hand"},
	})
}

// 3 kW at 44 V and 0.9 draw 75.8 A (independent).
func TestCutoffAmps(t *testing.T) {
	const common = "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/capacity = 100 Ah\ninverter1/power = 3000 W\n"
	walk(t, fourInSeries, cutoffAmps, common, []row{
		{"borne", "inverter1/cut-off = 44 V\nsheet1/discharge-max = 76 A", "bank", finding.Pass, "hand: 75.8 ≤ 76"},
		{"not borne", "inverter1/cut-off = 44 V\nsheet1/discharge-max = 75 A", "bank", finding.Fail, "hand: 75.8 > 75"},
		{"two inverters", "inverter1/cut-off = 44 V\ninverter2/power = 500 W\ninverter2/cut-off = 44 V\nsheet1/discharge-max = 76 A", "bank", finding.Fail, "hand: 88.4 > 76"},
		{"cut-off unknown", "sheet1/discharge-max = 100 A", "bank", finding.ToDo, "boundary"},
		{"what a block gives unknown", "inverter1/cut-off = 44 V", "bank", finding.ToDo, "boundary"},
	})
	walk(t, twoByTwo, cutoffAmps, common+"inverter1/cut-off = 22 V\n", []row{
		{"two strings, it depends", "sheet1/discharge-max = 80 A", "bank", finding.CantTell, "hand: 151.5 A, half is 75.8, one string may take more"},
		{"two strings, any split", "sheet1/discharge-max = 152 A", "bank", finding.Pass, "hand: even all of it"},
		{"two strings, no split", "sheet1/discharge-max = 40 A", "bank", finding.Fail, "hand: whichever carries most carries half or more"},
	})
	walk(t, fourInSeries, cutoffAmps, "", []row{{"no inverter", "", "bank", finding.NotNeeded, "hand"}})
}

const milliamps = "m2/measures = A\nm2/percent = 1 %\nm2/counts = 1\n"

// 0.1 % of 100 Ah a day are 4.2 mA, so 10 mA count; of 480 Ah 20 mA.
func TestOwnDraw(t *testing.T) {
	walk(t, fourInSeries, ownDraw, capacitySheet+milliamps, []row{
		{"little", "bank/own-draw = 8.00 mA, m2", "bank", finding.Pass, "hand: 8.09 ≤ 10"},
		{"near", "bank/own-draw = 9.95 mA, m2", "bank", finding.CantTell, "hand: 9.95 ± 0.1"},
		{"much", "bank/own-draw = 12.0 mA, m2", "bank", finding.Fail, "hand: 12 − 0.2 > 10"},
		{"stated by the sheets", "bank/own-draw-stated = 15 mA\nbank/own-draw = 12.0 mA, m2", "bank", finding.Pass, "hand: 12.2 ≤ 15"},
		{"probes the other way round", "bank/own-draw = -12.0 mA, m2", "bank", finding.Fail, "hand: the size counts"},
		{"not read", "", "bank", finding.ToDo, "boundary"},
	})
	walk(t, fourInSeries, ownDraw, "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/capacity = 480 Ah\n"+milliamps, []row{
		{"a large bank", "bank/own-draw = 19.5 mA, m2", "bank", finding.Pass, "hand: 480 · 0.001/24 = 20 mA; 19.8 ≤ 20"},
		{"a large bank, more", "bank/own-draw = 20.5 mA, m2", "bank", finding.Fail, "hand: 20.5 − 0.31 > 20"},
	})
}

// 5 % of 100 Ah are 5 Ah: 30 days at 6.94 mA, 7 days at 29.8 mA.
func TestIdleAfterCutoff(t *testing.T) {
	walk(t, fourInSeries, idleAfterCutoff, capacitySheet+milliamps, []row{
		{"long", "bank/idle-current = 6.80 mA, m2", "bank", finding.Pass, "hand: 6.88 mA are 30.3 days"},
		{"near 30", "bank/idle-current = 6.95 mA, m2", "bank", finding.CantTell, "hand: 30.3 to 29.6 days"},
		{"between", "bank/idle-current = 15.0 mA, m2", "bank", finding.CantTell, "hand: 14 days"},
		{"just more than a week", "bank/idle-current = 27.0 mA, m2", "bank", finding.CantTell, "boundary: 27.37 mA are 7.6 days, 26.63 mA 7.8"},
		{"short", "bank/idle-current = 31.0 mA, m2", "bank", finding.Fail, "hand: 30.6 mA are 6.8 days"},
		{"short, but the sun shines", "bank/idle-source = yes\nbank/idle-current = 31.0 mA, m2", "bank", finding.CantTell, "common practice, no source: as long as it works"},
		{"an isolator", "bank/idle-isolator = yes", "bank", finding.NotNeeded, "hand: nothing flows"},
		{"not read", "", "bank", finding.ToDo, "boundary"},
	})
}

// 100 Ah from 99 to 10 %: 89 Ah. By themselves blocks lose 0.0987 Ah a day;
// 180 days leave 0.396 Ah a day, 16.5 mA.
func TestStorageDays(t *testing.T) {
	walk(t, fourInSeries, storageDays, capacitySheet+milliamps, []row{
		{"half a year", "bank/storage-level = 99 %\nbank/own-draw = 16.0 mA, m2", "bank", finding.Pass, "hand: 16.2 mA: 89/(0.389 + 0.0987) = 182"},
		{"near", "bank/storage-level = 99 %\nbank/own-draw = 16.5 mA, m2", "bank", finding.CantTell, "hand: 16.2 to 16.8 mA"},
		{"just too short", "bank/storage-level = 99 %\nbank/own-draw = 16.9 mA, m2", "bank", finding.Fail, "boundary: 16.63 mA at least: 89/(0.3991 + 0.0987) = 178.8"},
		{"too short", "bank/storage-level = 99 %\nbank/own-draw = 18.0 mA, m2", "bank", finding.Fail, "hand: 17.7 mA: 89/(0.425 + 0.0987) = 170"},
		{"fewer days planned", "bank/storage-days = 90\nbank/storage-level = 99 %\nbank/own-draw = 18.0 mA, m2", "bank", finding.Pass, "hand: 167 ≥ 90"},
		{"stored low", "bank/storage-level = 50 %\nbank/own-draw = 16.0 mA, m2", "bank", finding.Fail, "hand: 40/(0.38 + 0.0987) = 84"},
		{"level unknown", "bank/own-draw = 5.00 mA, m2", "bank", finding.CantTell, "boundary: no level, no days"},
		{"never stored", "bank/storage-days = 0", "bank", finding.NotNeeded, "hand"},
		{"draw not read", "bank/storage-level = 99 %", "bank", finding.ToDo, "boundary"},
	})
	// The good job has two strings of 100 Ah, charged to full: 178 Ah of 200 from
	// 99 to 10 %. By themselves they lose 0.197 Ah a day.
	good := slices.DeleteFunc(goodJob(), func(line string) bool {
		return strings.HasPrefix(line, "bank/storage-") || strings.HasPrefix(line, "bank/own-draw")
	})
	walk(t, twoByTwo, storageDays, strings.Join(good, "\n")+"\nm7/measures = A\nm7/percent = 1 %\nm7/counts = 1\n", []row{
		{"level proved by the charge", "bank/own-draw = 31.0 mA, m7", "bank", finding.Pass, "hand: 31.4 mA at most: 178/(0.754 + 0.197) = 187"},
		{"too much drawn from full", "bank/own-draw = 35.0 mA, m7", "bank", finding.Fail, "hand: 34.5 mA at least: 178/(0.828 + 0.197) = 174"},
	})
}

func TestHeatCutout(t *testing.T) {
	walk(t, fourInSeries, heatCutout, capacitySheet, []row{
		{"not allowed", "", "bank", finding.NotNeeded, "hand: declared by the maker"},
		{"done, and nobody said that it is allowed", "bank/cut-out-at = 120 C", "bank", finding.ToDo, "boundary: tested is not declared"},
		{"allowed, not done", "bank/cut-out-allowed = yes", "bank", finding.ToDo, "boundary"},
		{"low end", "bank/cut-out-allowed = yes\nbank/cut-out-at = 55 C", "bank", finding.Pass, "boundary: 60 − 5"},
		{"below it", "bank/cut-out-allowed = yes\nbank/cut-out-at = 54.9 C", "bank", finding.Fail, "boundary: 54.9 < 60 − 5"},
		{"high end", "bank/cut-out-allowed = yes\nbank/cut-out-at = 65 C", "bank", finding.Pass, "boundary: 65 = 60 + 5"},
		{"above it", "bank/cut-out-allowed = yes\nbank/cut-out-at = 65.1 C", "bank", finding.Fail, "boundary: 65.1 > 60 + 5"},
		{"the maker's", "sheet1/heat-cut-out = 70 C\nbank/cut-out-allowed = yes\nbank/cut-out-at = 66 C", "bank", finding.Pass, "hand: 65 … 75"},
	})
}

// The usual clamp knows 120 A to 3.4 A.
func TestOverloadTrip(t *testing.T) {
	const sheet = capacitySheet + "sheet1/overload-current = 105 A\nsheet1/overload-from = 5 s\nsheet1/overload-to = 30 s\n"
	const test = sheet + "bank/overload-current = 120.0 A\nbank/overload-steady = yes\n"
	walk(t, fourInSeries, overloadTrip, "", []row{
		{"inside", test + "bank/overload-opened = yes\nbank/overload-time = 20 s", "bank", finding.Pass, "hand: 19 … 21 in 5 … 30"},
		{"low end", test + "bank/overload-opened = yes\nbank/overload-time = 6 s", "bank", finding.Pass, "boundary: 5 … 7"},
		{"across the low end", test + "bank/overload-opened = yes\nbank/overload-time = 5 s", "bank", finding.CantTell, "boundary: 4 … 6 about 5"},
		{"too early", test + "bank/overload-opened = yes\nbank/overload-time = 3 s", "bank", finding.Fail, "hand: 4 < 5"},
		{"opened far too late", test + "bank/overload-opened = yes\nbank/overload-time = 60 s", "bank", finding.Fail, "hand: 59 > 30"},
		{"across the high end", test + "bank/overload-opened = yes\nbank/overload-time = 30 s", "bank", finding.CantTell, "boundary: 29 … 31 about 30"},
		{"did not open", test + "bank/overload-opened = no\nbank/overload-time = 32 s", "bank", finding.Fail, "hand: 31 > 30"},
		{"did not open yet", test + "bank/overload-opened = no\nbank/overload-time = 31 s", "bank", finding.CantTell, "boundary: 30 … 32"},
		{"drifted", sheet + "bank/overload-current = 120.0 A\nbank/overload-steady = no\nbank/overload-opened = yes\nbank/overload-time = 20 s", "bank", finding.CantTell, "boundary: a current that drifts has no window"},
		{"less than the sheet's overload", sheet + "bank/overload-current = 100.0 A\nbank/overload-steady = yes\nbank/overload-opened = no\nbank/overload-time = 60 s", "bank", finding.CantTell, "hand: 100 + 3 < 105"},
		{"the clamp does not prove the overload", sheet + "bank/overload-current = 107.0 A\nbank/overload-steady = yes\nbank/overload-opened = yes\nbank/overload-time = 20 s", "bank", finding.CantTell, "hand: 107 − 3.1 < 105"},
		{"it did not open, and nobody wrote the current down", sheet + "bank/overload-steady = yes\nbank/overload-opened = no\nbank/overload-time = 60 s", "bank", finding.ToDo, "boundary: tested is not declared"},
		{"it did not open, and the sheet has only the end of the window", capacitySheet + "sheet1/overload-current = 105 A\nsheet1/overload-to = 30 s\nbank/overload-current = 120.0 A\nbank/overload-steady = yes\nbank/overload-opened = no\nbank/overload-time = 60 s", "bank", finding.Fail, "hand: 59 > 30, whenever it may open first"},
		{"it opened, and the sheet has only the end of the window", capacitySheet + "sheet1/overload-current = 105 A\nsheet1/overload-to = 30 s\nbank/overload-current = 120.0 A\nbank/overload-steady = yes\nbank/overload-opened = yes\nbank/overload-time = 20 s", "bank", finding.ToDo, "boundary: too early cannot be told"},
		{"time not taken", test + "bank/overload-opened = yes", "bank", finding.ToDo, "boundary"},
		{"no window in the sheet", capacitySheet + "bank/overload-current = 120.0 A", "bank", finding.NotNeeded, "boundary: there is no usual window"},
		{"not tested", sheet, "bank", finding.NotNeeded, "hand: declared by the maker"},
	})
}
