package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestCableInsulation(t *testing.T) {
	// A tester of ±0.02 MΩ.
	const meter = "m5/measures = Ohm\nm5/percent = 0 %\nm5/counts = 2\nm5/step = 0.01 MOhm\n"
	const megohms = "m6/measures = Ohm\nm6/percent = 5 %\nm6/counts = 3\nm6/step = 0.01 MOhm\n"
	const done = "bank/insulation-volts = 250 V\nbank/insulation-free = yes\nbank/insulation-proved = yes\n"
	walk(t, twoByTwo, cableInsulation, meter, []row{
		{"nothing measured", "", "bank", finding.ToDo, "missing"},
		{"nobody has a tester", "bank/cable-insulation = skip not-needed no-meter", "bank", finding.NotNeeded, "put aside with a reason"},
		{"a tester that cannot", "bank/cable-insulation = skip cannot no-meter", "bank", finding.CantTell, "the rule of skips"},
		{"good", done + "bank/cable-insulation = 20.00 MOhm, m5", "bank", finding.Pass, "hand: far above 1"},
		{"1.02", done + "bank/cable-insulation = 1.02 MOhm, m5", "bank", finding.Pass, "boundary: 1.02 − 0.02"},
		{"1.01", done + "bank/cable-insulation = 1.01 MOhm, m5", "bank", finding.CantTell, "boundary: 0.99 to 1.03"},
		{"0.98", done + "bank/cable-insulation = 0.98 MOhm, m5", "bank", finding.CantTell, "boundary: 0.96 to 1.00, equality is kept"},
		{"0.97", done + "bank/cable-insulation = 0.97 MOhm, m5", "bank", finding.Fail, "boundary: 0.99 < 1"},
		{"over-range of 20", done + "bank/cable-insulation = 20 MOhm, m5\nbank/insulation-over = yes", "bank", finding.Pass, "the rule: the top is above 1"},
		{"over-range of 1.0", done + "bank/cable-insulation = 1.0 MOhm, m5\nbank/insulation-over = yes", "bank", finding.Pass, "boundary: more than 1.0"},
		{"over-range of 0.5", done + "bank/cable-insulation = 0.5 MOhm, m5\nbank/insulation-over = yes", "bank", finding.CantTell, "the rule: the top is below 1"},
		{"not free", "bank/insulation-volts = 250 V\nbank/insulation-free = no\nbank/insulation-proved = yes\nbank/cable-insulation = 0.10 MOhm, m5", "bank", finding.CantTell, "the rule: something else leaks"},
		{"not proved", "bank/insulation-volts = 250 V\nbank/insulation-free = yes\nbank/insulation-proved = no\nbank/cable-insulation = 20.00 MOhm, m5", "bank", finding.CantTell, "boundary: a tester that was not proved may show anything"},
		{"at 249 V", "bank/insulation-volts = 249 V\nbank/insulation-free = yes\nbank/insulation-proved = yes\nbank/cable-insulation = 20.00 MOhm, m5", "bank", finding.CantTell, "boundary: 250"},
		{"low at 100 V", "bank/insulation-volts = 100 V\nbank/insulation-free = yes\nbank/insulation-proved = yes\nbank/cable-insulation = 0.10 MOhm, m5", "bank", finding.Fail, "hand: more volts do not mend it"},
		{"5 % + 3 counts, 1.02", done + megohms + "bank/cable-insulation = 1.02 MOhm, m6", "bank", finding.CantTell, "hand: 0.051 + 0.03 = 0.081; 0.939 to 1.101"},
		{"5 % + 3 counts, 1.08", done + megohms + "bank/cable-insulation = 1.08 MOhm, m6", "bank", finding.CantTell, "hand: 1.08 − 0.054 − 0.03 = 0.996"},
		{"5 % + 3 counts, 1.09", done + megohms + "bank/cable-insulation = 1.09 MOhm, m6", "bank", finding.Pass, "hand: 1.09 − 0.0545 − 0.03 = 1.0055"},
		{"5 % + 3 counts, 0.92", done + megohms + "bank/cable-insulation = 0.92 MOhm, m6", "bank", finding.Fail, "hand: 0.92 + 0.046 + 0.03 = 0.996 < 1"},
		{"no sheet, 1.02", done + "bank/cable-insulation = 1.02 MOhm", "bank", finding.CantTell, "after IEC 61557-2, 6.2: ±30 % at most; 0.709 to 1.331"},
		{"no sheet, 1.43", done + "bank/cable-insulation = 1.43 MOhm", "bank", finding.CantTell, "hand: 1.43·0.7 − 0.005 = 0.996"},
		{"no sheet, 1.44", done + "bank/cable-insulation = 1.44 MOhm", "bank", finding.Pass, "hand: 1.44·0.7 − 0.005 = 1.003"},
		{"no sheet, in kilohms", done + "bank/cable-insulation = 1430 kOhm", "bank", finding.Pass, "hand: 1430·0.7 − 0.5 = 1000.5"},
		{"no sheet, 0.77", done + "bank/cable-insulation = 0.77 MOhm", "bank", finding.CantTell, "hand: 0.77·1.3 + 0.005 = 1.006"},
		{"no sheet, 0.76", done + "bank/cable-insulation = 0.76 MOhm", "bank", finding.Fail, "hand: 0.76·1.3 + 0.005 = 0.993 < 1"},
		{"the voltmeter's sheet is not the tester's", done + "m1/measures = V\nm1/percent = 0.1 %\nm1/counts = 1\nbank/cable-insulation = 1.02 MOhm, m1", "bank", finding.CantTell, "hand: ±30 % as without a sheet"},
		{"proof missing", "bank/insulation-volts = 250 V\nbank/insulation-free = yes\nbank/cable-insulation = 20.00 MOhm, m5", "bank", finding.ToDo, "missing"},
	})
}
