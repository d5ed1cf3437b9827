package checks

import (
	"strings"
	"testing"

	"lugmark/core/finding"
)

func TestMetersFit(t *testing.T) {
	const meter = "bank/use-volts = m1\nm1/measures = V\nm1/percent = 0.05 %\nm1/counts = 3\nm1/step = 0.001 V\nm1/range = 60 V\nm1/due = 2027-03-01\n"
	with := func(old, new string) string { return strings.Replace(meter, old, new, 1) }
	const milli = "bank/use-millivolts = m2\nm2/measures = V\nm2/percent = 0.5 %\nm2/counts = 3\nm2/step = 0.1 mV\nm2/due = 2027-03-01\n"
	const clamp = "bank/use-amperes = m3\nm3/measures = A\nm3/percent = 2 %\nm3/counts = 5\nm3/step = 0.1 A\nm3/due = 2027-03-01\nb1/sheet = sheet1\nsheet1/capacity = 100 Ah\n"
	walk(t, twoByTwo, metersFit, "", []row{ // two in series: 29.2 V while charging
		{"fine meter", meter, "bank", finding.Pass, "hand: 2·0.001/√6 = 0.82 mV ≤ 5; 0.014 + 0.003 V ≤ 0.3; 60 ≥ 32.12"},
		{"no meter chosen", "", "bank", finding.ToDo, "missing"},
		{"range at", with("60 V", "32.12 V"), "bank", finding.Pass, "boundary: 1.1·29.2 = 32.12"},
		{"range below", with("60 V", "32 V"), "bank", finding.Fail, "boundary: 32 < 32.12"},
		{"range unknown", with("m1/range = 60 V\n", ""), "bank", finding.CantTell, "missing is not enough"},
		{"rated below", meter + "m1/rated-voltage = 24 V", "bank", finding.Fail, "hand: 24 < 29.2"},
		{"rated above", meter + "m1/rated-voltage = 600 V", "bank", finding.Pass, "hand: 600 ≥ 29.2"},
		{"no date", with("m1/due = 2027-03-01\n", ""), "bank", finding.CantTell, "the rule: no due date"},
		{"due today", with("2027-03-01", "2026-11-25"), "bank", finding.Pass, "boundary: the day itself"},
		{"due yesterday", with("2027-03-01", "2026-11-24"), "bank", finding.CantTell, "boundary; it counts double"},
		{"ten millivolts", with("0.001 V", "0.01 V"), "bank", finding.CantTell, "hand: 8.2 mV > 5: read the gap"},
		{"ten millivolts, gap planned", with("0.001 V", "0.01 V") + milli, "bank", finding.Pass, "hand: 0.05 + 0.3 mV ≤ 5"},
		{"ten millivolts, a coarse gap", with("0.001 V", "0.01 V") + strings.Replace(milli, "0.1 mV", "2 mV", 1), "bank", finding.CantTell, "hand: 3 counts of 2 mV are 6 > 5"},
		{"step unknown", with("m1/step = 0.001 V\n", ""), "bank", finding.CantTell, "missing: without it no uncertainty is known"},
		{"accuracy unknown", with("m1/percent = 0.05 %\nm1/counts = 3\n", ""), "bank", finding.CantTell, "missing: without it no uncertainty is known"},
		{"one percent", with("0.05 %", "1 %"), "bank", finding.Pass, "hand: 0.286 + 0.003 V ≤ 0.3 of the window 28.0 to 29.2"},
		{"one and a tenth", with("0.05 %", "1.1 %"), "bank", finding.CantTell, "hand: 0.3146 V > 0.3"},
		{"clamp", meter + clamp, "bank", finding.Pass, "hand: 0.1 + 0.5 A ≤ 2.5 of the tail of 5 A"},
		{"coarse clamp", meter + strings.Replace(clamp, "0.1 A", "0.5 A", 1), "bank", finding.CantTell, "hand: 0.1 + 2.5 A > 2.5"},
		{"clamp out of date", meter + strings.Replace(clamp, "2027", "2026", 1), "bank", finding.CantTell, "boundary: due before today"},
		{"a clamp as voltmeter", with("measures = V", "measures = A"), "bank", finding.CantTell, "hand: it measures no volts"},
	})
}
