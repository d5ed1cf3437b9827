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
	// Four in series: 58.4 V while charging, 1.1 · 58.4 = 64.24 V.
	const known = "m1/model = Invented M60\n" + meter
	const higher = "m5/model = Invented M60\nm5/measures = V\nm5/percent = 0.05 %\nm5/counts = 3\nm5/step = 0.01 V\nm5/range = 600 V\nm5/due = 2027-03-01\n"
	walk(t, fourInSeries, metersFit, "", []row{
		{"its 60 V range alone", known, "bank", finding.Fail, "hand: 60 < 64.24"},
		{"its 600 V range as well", known + higher, "bank", finding.Pass, "hand: 600 ≥ 64.24; the 60 V range reads 13.3 V to 1 mV; 0.0286 + 0.03 V ≤ 0.6 of the window 56.0 to 58.4"},
		{"the 600 V range named", strings.Replace(known, "use-volts = m1", "use-volts = m5", 1) + higher, "bank", finding.Pass, "hand: as before, it is one meter"},
		{"another model's 600 V range", known + strings.Replace(higher, "M60", "M61", 1), "bank", finding.Fail, "hand: it is another meter"},
		{"models not named", meter + strings.Replace(higher, "m5/model = Invented M60\n", "", 1), "bank", finding.Fail, "boundary: nobody said that it is one meter"},
		{"its 600 V range, no step", known + strings.Replace(higher, "m5/step = 0.01 V\n", "", 1), "bank", finding.Pass, "hand: 58.4 V still stands on the 60 V range"},
		{"a 20 V and a 600 V range, no step of the higher", strings.Replace(known, "60 V\n", "20 V\n", 1) + strings.Replace(higher, "m5/step = 0.01 V\n", "", 1), "bank", finding.CantTell, "missing: 58.4 V is read on it"},
		{"a coarse higher range", strings.Replace(known, "60 V\n", "20 V\n", 1) + strings.Replace(higher, "0.01 V", "0.3 V", 1), "bank", finding.CantTell, "hand: 0.0286 + 0.9 V > 0.6"},
	})
}

// The range of a reading is the one that shows its digits.
func TestTheRangeOfAReading(t *testing.T) {
	f := fixture(t, fourInSeries, "m1/model = Invented M60\nm1/measures = V\nm1/percent = 0.05 %\nm1/counts = 3\nm1/step = 0.001 V\nm1/range = 60 V\n"+
		"m5/model = Invented M60\nm5/measures = V\nm5/percent = 0.05 %\nm5/counts = 3\nm5/step = 0.01 V\nm5/range = 600 V\n"+
		"m6/model = Invented M61\nm6/measures = V\nm6/percent = 1 %\nm6/counts = 3\nm6/step = 0.1 V\nm6/range = 1000 V\n")
	for _, r := range []struct {
		use         string
		value, step float64
		want, from  string
	}{
		{"m1", 13.282, 0.001, "m1", "hand: in steps of 1 mV"},
		{"m1", -13.28, 0.01, "m5", "hand: in steps of 10 mV, reversed"},
		{"m1", 58.40, 0.01, "m5", "hand: in steps of 10 mV"},
		{"m1", 64.0, 0.1, "m5", "hand: no range shows these digits, and 60 V is below it"},
		{"m1", 13, 1, "m1", "hand: no range shows these digits; the one in use reaches it"},
		{"m5", 13.282, 0.001, "m1", "hand: in steps of 1 mV"},
		{"m1", 700, 1, "m1", "hand: none reaches it"},
		{"m6", 13.28, 0.01, "m6", "hand: another model"},
		{"m9", 13.28, 0.01, "m9", "hand: it has no sheet"},
	} {
		if got := f.RangeFor(r.use, "V", r.value, r.step); got != r.want {
			t.Errorf("%v in steps of %v with %s: %s, want %s (%s)", r.value, r.step, r.use, got, r.want, r.from)
		}
	}
}
