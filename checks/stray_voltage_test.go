package checks

import (
	"math"
	"testing"

	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/unit"
)

func TestStrayVoltage(t *testing.T) {
	// A meter of ±0.01 V and 10 MΩ; 53.20 V across the bank.
	const meter = "m1/measures = V\nm1/percent = 0 %\nm1/counts = 1\nm1/step = 0.01 V\nbank/total-voltage = 53.20 V, m1\n"
	const floating = "bank/bond-plan = none\n"
	walk(t, twoByTwo, strayVoltage, meter, []row{
		{"nothing entered", "", "bank", finding.ToDo, "missing"},
		{"little", floating + "bank/stray-plus = 0.50 V, m1\nbank/stray-minus = -0.70 V, m1", "bank", finding.Pass, "hand: both below 2 V"},
		{"1.99 V", floating + "bank/stray-plus = 1.99 V, m1\nbank/stray-minus = -1.99 V, m1", "bank", finding.Pass, "boundary: 1.99 + 0.01"},
		{"more than 2 V, yet free", floating + "bank/stray-plus = 2.50 V, m1\nbank/stray-minus = -2.50 V, m1", "bank", finding.Pass, "hand: 10·(53.2/5 − 1) = 96 MΩ"},
		{"half a megohm", floating + "bank/stray-plus = 25.30 V, m1\nbank/stray-minus = -25.30 V, m1", "bank", finding.Pass, "hand: 10·(53.19/50.62 − 1) = 0.508 MΩ at least"},
		{"hardly half a megohm", floating + "bank/stray-plus = 25.32 V, m1\nbank/stray-minus = -25.32 V, m1", "bank", finding.CantTell, "boundary: 10·(53.19/50.66 − 1) = 0.499 MΩ at least"},
		{"a little less", floating + "bank/stray-plus = 25.34 V, m1\nbank/stray-minus = -25.34 V, m1", "bank", finding.CantTell, "hand: 10·(53.20/50.68 − 1) = 0.497 MΩ"},
		{"far less", floating + "bank/stray-plus = 26.59 V, m1\nbank/stray-minus = -26.59 V, m1", "bank", finding.CantTell, "hand: 10·(53.21/53.16 − 1) = 9.4 kΩ at most, 5.3 kΩ asked"},
		{"a dead earth", floating + "bank/stray-plus = 53.20 V, m1\nbank/stray-minus = -0.10 V, m1", "bank", finding.Fail, "hand: 10·(53.21/53.28 − 1) is below 0"},
		{"drifts", floating + "bank/stray-plus = 12.00 V, m1, moving\nbank/stray-minus = -12.00 V, m1", "bank", finding.CantTell, "hand: a leak that moves has no figure"},
		{"minus missing", floating + "bank/stray-plus = 0.50 V, m1", "bank", finding.ToDo, "missing"},
		{"bonded at minus", "bank/bond-plan = minus\nbank/stray-plus = 53.20 V, m1\nbank/stray-minus = -0.01 V, m1", "bank", finding.Pass, "hand: 0.02 ≤ 0.5"},
		{"bonded, 0.49 V", "bank/bond-plan = minus\nbank/stray-plus = 53.20 V, m1\nbank/stray-minus = -0.49 V, m1", "bank", finding.Pass, "boundary: 0.50"},
		{"bonded, 0.50 V", "bank/bond-plan = minus\nbank/stray-plus = 53.20 V, m1\nbank/stray-minus = -0.50 V, m1", "bank", finding.CantTell, "boundary: 0.49 to 0.51"},
		{"bonded, 0.52 V", "bank/bond-plan = minus\nbank/stray-plus = 53.20 V, m1\nbank/stray-minus = -0.52 V, m1", "bank", finding.Fail, "boundary: 0.51 > 0.5"},
		{"a bond is planned, and both poles float", "bank/bond-plan = minus\nbank/stray-plus = 0.10 V, m1\nbank/stray-minus = -0.10 V, m1", "bank", finding.CantTell, "hand: bonded at minus, plus reads 53.2 V; two blocks of 12.8 V halved are 12.8 V"},
		{"a small input and little voltage", floating + "bank/stray-meter = 10 kOhm\nbank/stray-plus = 0.90 V, m1\nbank/stray-minus = -0.90 V, m1", "bank", finding.CantTell, "hand: 10 kΩ · (53.2/1.8 − 1) = 286 kΩ, less than 0.5 MΩ"},
		{"a large input and little voltage", floating + "bank/stray-meter = 11 MOhm\nbank/stray-plus = 0.90 V, m1\nbank/stray-minus = -0.90 V, m1", "bank", finding.Pass, "hand: both below 2 V"},
		{"both above the frame", floating + "bank/stray-plus = 1.50 V, m1\nbank/stray-minus = 1.50 V, m1", "bank", finding.CantTell, "hand: what leaks through one meter from plus comes back at minus, below the frame"},
		{"the probes turned both times", floating + "bank/stray-plus = -0.50 V, m1\nbank/stray-minus = 0.70 V, m1", "bank", finding.Pass, "hand: both below 2 V, on either side"},
		{"bonded at plus", "bank/bond-plan = plus\nbank/stray-plus = 0.01 V, m1\nbank/stray-minus = -53.20 V, m1", "bank", finding.Pass, "hand: a positive earth"},
	})
	walk(t, twoByTwo, strayVoltage, "m1/measures = V\nm1/percent = 0 %\nm1/counts = 1\nm1/step = 0.01 V\n", []row{
		{"no total", floating + "bank/stray-plus = 12.00 V, m1\nbank/stray-minus = -12.00 V, m1", "bank", finding.ToDo, "missing"},
		{"1.99 V, no total", floating + "bank/stray-plus = 1.99 V, m1\nbank/stray-minus = -1.99 V, m1", "bank", finding.Pass, "boundary: 1.99 + 0.01 ≤ 2 V is free at once"},
		{"2.00 V, no total", floating + "bank/stray-plus = 2.00 V, m1\nbank/stray-minus = -2.00 V, m1", "bank", finding.ToDo, "boundary: 2.00 + 0.01 > 2 V"},
		{"small meter", floating + "bank/total-voltage = 53.20 V, m1\nbank/stray-meter = 10 kOhm\nbank/stray-plus = 5.00 V, m1\nbank/stray-minus = -5.00 V, m1", "bank", finding.CantTell, "published: 10 kΩ, 5 and 5 V are 43 kΩ"},
		{"small meter, more than 2 V", floating + "bank/total-voltage = 53.20 V, m1\nbank/stray-meter = 10 kOhm\nbank/stray-plus = 2.50 V, m1\nbank/stray-minus = -2.50 V, m1", "bank", finding.CantTell, "boundary: above 2 V the leak decides: 10·(53.2/5 − 1) = 96 kΩ"},
		{"small meter, below 100 Ω a volt", floating + "bank/total-voltage = 53.20 V, m1\nbank/stray-meter = 10 kOhm\nbank/stray-plus = 17.51 V, m1\nbank/stray-minus = -17.51 V, m1", "bank", finding.Fail, "boundary: 10·(53.21/35.00 − 1) = 5.20 kΩ at most, below 5.32 kΩ"},
		{"small meter, above 100 Ω a volt", floating + "bank/total-voltage = 53.20 V, m1\nbank/stray-meter = 10 kOhm\nbank/stray-plus = 17.30 V, m1\nbank/stray-minus = -17.30 V, m1", "bank", finding.CantTell, "boundary: 10·(53.19/34.62 − 1) = 5.36 kΩ at least, above 5.32 kΩ"},
		{"small meter, at 100 Ω a volt", floating + "bank/total-voltage = 53.20 V, m1\nbank/stray-meter = 10 kOhm\nbank/stray-plus = 17.38 V, m1\nbank/stray-minus = -17.37 V, m1", "bank", finding.CantTell, "boundary: 10·(53.21/34.73 − 1) = 5.321 kΩ at most, 5.32 kΩ asked"},
	})
	// What is found is the pole that reads more, whichever it is.
	for _, lines := range []string{"bank/stray-plus = 0.70 V, m1\nbank/stray-minus = -0.69 V, m1", "bank/stray-plus = 0.69 V, m1\nbank/stray-minus = -0.70 V, m1"} {
		v, ok := judged(t, fixture(t, twoByTwo, meter, floating, lines), strayVoltage, "bank")[0].Found()
		if !ok || math.Abs(v.High-0.71) > 1e-9 { // 0.70 + 0.01
			t.Errorf("%q: found %v", lines, v)
		}
	}
	// Published: 53.2 V, 0.5 and 0.7 V, 10 MΩ are 433 MΩ; 5 and 5 V at 10 kΩ 43 kΩ.
	for _, v := range []struct{ plus, minus, input, want float64 }{{0.5, 0.7, 10e6, 433e6}, {5, 5, 10e3, 43e3}} {
		got := leakage(measure.Exact(unit.Volt(53.2)), measure.Exact(unit.Volt(v.plus)), measure.Exact(unit.Volt(v.minus)), unit.Ohm(v.input))
		if math.Abs(float64(got.Low)/v.want-1) > 0.01 || got.High != got.Low {
			t.Errorf("%v and %v V: %v, want %v ohm", v.plus, v.minus, got, v.want)
		}
	}
}
