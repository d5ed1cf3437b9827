package checks

import (
	"strings"
	"testing"

	"lugmark/core/finding"
)

// A shunt that shows 0.01 A: ±(1 % + 1 count).
const goodShunt = `
	m2/measures = A
	m2/percent = 1 %
	m2/counts = 1
	m2/step = 0.01 A
	m2/due = 2027-03-01
`

// full gives the samples of block 1: volts and amperes twice, the second pair
// 70 s after the first, the last one ten minutes ago.
func full(v1, i1, v2, i2, ended string) string {
	return "b1/full-temperature = 18 C, at -672s\nb1/full-voltage = " + v1 + ", m1, at -671s\nb1/full-current = " + i1 + ", m2, at -670s\n" +
		"b1/full-voltage-again = " + v2 + ", m1, at -601s\nb1/full-current-again = " + i2 + ", m2, at -600s\nb1/full-ended = " + ended + "\n"
}

// Half-widths by hand: 14.2 V reads ±(7.1 + 3) = 10.1 mV, 5 A ±(0.05 + 0.01).
func TestChargedFull(t *testing.T) {
	const meters = goodMeter + goodShunt + oneSheet + "bank/settled = no\n"
	walk(t, twoByTwo, chargedFull, meters, []row{
		{"full", full("14.40 V", "3.00 A", "14.40 V", "2.50 A", "fell-slowly"), "b1", finding.Pass, "hand: 14.38 ≥ 14.0, 3.04 ≤ 5"},
		{"the sheet is silent: just above 14.0", full("14.020 V", "3.00 A", "14.020 V", "2.50 A", "fell-slowly"), "b1", finding.Pass, "hand: 14.020 − 0.0101 ≥ 14.0"},
		{"just at 14.0", full("14.000 V", "3.00 A", "14.020 V", "2.50 A", "fell-slowly"), "b1", finding.CantTell, "boundary: 13.99 … 14.01"},
		{"below", full("13.800 V", "3.00 A", "13.800 V", "2.50 A", "fell-slowly"), "b1", finding.CantTell, "hand: not full yet is no failure"},
		{"the maker absorbs at 14.6", "sheet1/absorption-voltage = 14.6 V\n" + full("14.150 V", "3.00 A", "14.150 V", "2.50 A", "fell-slowly"), "b1", finding.CantTell, "hand: min(14.2, 14.6 − 0.2) = 14.2"},
		{"the maker absorbs at 14.6, above 14.2", "sheet1/absorption-voltage = 14.6 V\n" + full("14.220 V", "3.00 A", "14.220 V", "2.50 A", "fell-slowly"), "b1", finding.Pass, "hand: 14.22 − 0.0102 ≥ 14.2"},
		{"the maker absorbs at 14.0", "sheet1/absorption-voltage = 14.0 V\n" + full("13.900 V", "3.00 A", "13.900 V", "2.50 A", "fell-slowly"), "b1", finding.Pass, "hand: 14.0 − 0.2 = 13.8"},
		{"0.2 V below what the maker absorbs at", "sheet1/absorption-voltage = 14.0 V\n" + full("13.815 V", "3.00 A", "13.815 V", "2.50 A", "fell-slowly"), "b1", finding.Pass, "boundary: 13.815 − 0.0099 ≥ 14.0 − 0.2"},
		{"a little lower", "sheet1/absorption-voltage = 14.0 V\n" + full("13.795 V", "3.00 A", "13.795 V", "2.50 A", "fell-slowly"), "b1", finding.CantTell, "boundary: 13.795 − 0.0099 < 14.0 − 0.2"},
		{"tail just kept", full("14.40 V", "4.90 A", "14.40 V", "4.90 A", "fell-slowly"), "b1", finding.Pass, "hand: 4.9 + 0.059 ≤ 5"},
		{"tail at the limit", full("14.40 V", "5.00 A", "14.40 V", "4.00 A", "fell-slowly"), "b1", finding.CantTell, "boundary: 0.05 · 100 Ah = 5 A"},
		{"the maker's tail is smaller", "sheet1/tail-current = 2 A\n" + full("14.40 V", "3.00 A", "14.40 V", "2.50 A", "fell-slowly"), "b1", finding.CantTell, "hand: 3 > 2"},
		{"a clamp the wrong way round", full("14.40 V", "-30.00 A", "14.40 V", "-30.00 A", "fell-slowly"), "b1", finding.CantTell, "hand: 30 A is above the tail whatever its sign"},
		{"it dropped", full("14.40 V", "0.00 A", "14.40 V", "0.00 A", "dropped"), "b1", finding.Fail, "hand: a trip is not full"},
		{"it fell from 20 A to nothing", full("14.40 V", "20.00 A", "14.40 V", "0.00 A", "fell-slowly"), "b1", finding.Fail, "hand: 20 − 0.21 > 2 · 5, then 0"},
		{"it fell slowly to nothing", full("14.40 V", "3.00 A", "14.40 V", "0.00 A", "fell-slowly"), "b1", finding.Pass, "boundary: 3 A is below 2 · 5; 0.00 + 0.01 is not below nothing"},
		{"nobody saw it, and nothing flows", full("14.40 V", "0.00 A", "14.40 V", "0.00 A", "not-seen"), "b1", finding.CantTell, "hand: an open protection shows the same"},
		{"nobody saw it, but it flows", full("14.40 V", "3.00 A", "14.40 V", "2.50 A", "not-seen"), "b1", finding.Pass, "hand: 2.5 − 0.035 > 0"},
		{"nobody saw it, and it flows no more", full("14.40 V", "3.00 A", "14.40 V", "0.00 A", "not-seen"), "b1", finding.CantTell, "hand: 0.00 − 0.01 is not above 0: an open protection shows the same"},
		{"above the highest voltage", full("14.65 V", "3.00 A", "14.40 V", "2.50 A", "fell-slowly"), "b1", finding.Fail, "hand: 14.65 − 0.037 > 14.6"},
		{"at the highest voltage", full("14.590 V", "3.00 A", "14.590 V", "2.50 A", "fell-slowly"), "b1", finding.CantTell, "boundary: 14.590 + 0.0103 > 14.6"},
		{"above the maker's highest", "sheet1/charge-voltage-max = 14.4 V\n" + full("14.50 V", "3.00 A", "14.50 V", "2.50 A", "fell-slowly"), "b1", finding.Fail, "hand: 14.5 − 0.037 > 14.4"},
		{"only one sample", "b1/full-temperature = 18 C\nb1/full-voltage = 14.40 V, m1\nb1/full-current = 3.00 A, m2", "b1", finding.ToDo, "boundary: two samples"},
		{"nobody says how it ended", "b1/full-temperature = 18 C, at -90s\nb1/full-voltage = 14.40 V, m1, at -90s\nb1/full-current = 3.00 A, m2, at -90s\nb1/full-voltage-again = 14.40 V, m1\nb1/full-current-again = 3.00 A, m2", "b1", finding.ToDo, "boundary: missing is not slowly"},
		{"59 s apart", "b1/full-temperature = 18 C, at -60s\nb1/full-voltage = 14.40 V, m1, at -60s\nb1/full-current = 3.00 A, m2, at -60s\nb1/full-voltage-again = 14.40 V, m1, at -1s\nb1/full-current-again = 3.00 A, m2, at -1s\nb1/full-ended = fell-slowly", "b1", finding.CantTell, "boundary: 59 < 60"},
		{"60 s apart", "b1/full-temperature = 18 C, at -61s\nb1/full-voltage = 14.40 V, m1, at -61s\nb1/full-current = 3.00 A, m2, at -61s\nb1/full-voltage-again = 14.40 V, m1, at -1s\nb1/full-current-again = 3.00 A, m2, at -1s\nb1/full-ended = fell-slowly", "b1", finding.Pass, "boundary: 60 ≥ 60"},
		{"current an hour after the voltage", "b1/full-temperature = 18 C, at -3h\nb1/full-voltage = 14.40 V, m1, at -3h\nb1/full-current = 3.00 A, m2, at -2h\nb1/full-voltage-again = 14.40 V, m1, at -170m\nb1/full-current-again = 3.00 A, m2, at -110m\nb1/full-ended = fell-slowly", "b1", finding.CantTell, "hand: not one sample"},
		{"current two minutes after the voltage", "b1/full-temperature = 18 C, at -10m\nb1/full-voltage = 14.40 V, m1, at -10m\nb1/full-current = 3.00 A, m2, at -8m\nb1/full-voltage-again = 14.40 V, m1, at -6m\nb1/full-current-again = 3.00 A, m2, at -4m\nb1/full-ended = fell-slowly", "b1", finding.Pass, "boundary: two minutes"},
		{"current more than two minutes after the voltage", "b1/full-temperature = 18 C, at -10m\nb1/full-voltage = 14.40 V, m1, at -10m\nb1/full-current = 3.00 A, m2, at -450s\nb1/full-voltage-again = 14.40 V, m1, at -6m\nb1/full-current-again = 3.00 A, m2, at -210s\nb1/full-ended = fell-slowly", "b1", finding.CantTell, "boundary: two and a half minutes"},
		{"two people, two capacities", "sheet1/capacity = 200 Ah\n" + full("14.40 V", "3.00 A", "14.40 V", "2.50 A", "fell-slowly"), "b1", finding.CantTell, "hand: a conflict is never a pass"},
	})
	old := func(h string) string {
		return "b1/full-temperature = 18 C, at -" + h + "5m\nb1/full-voltage = 14.40 V, m1, at -" + h + "2m\nb1/full-current = 3.00 A, m2, at -" + h + "2m\nb1/full-voltage-again = 14.40 V, m1, at -" + h + "\nb1/full-current-again = 3.00 A, m2, at -" + h + "\nb1/full-ended = fell-slowly\n"
	}
	walk(t, twoByTwo, chargedFull, meters, []row{
		{"seven days ago", old("168h"), "b1", finding.Pass, "boundary: 7 · 24 h"},
		{"more than seven days ago", old("169h"), "b1", finding.CantTell, "boundary: 169 > 7 × 24 = 168 h"},
		{"used since", old("48h") + "bank/last-current = -24h", "b1", finding.CantTell, "hand: a current a day later"},
		{"not used since", old("48h") + "bank/last-current = -47h30m", "b1", finding.Pass, "hand: the end of its own charge"},
		{"another block was charged since", old("48h") + "b2/full-voltage-again = 14.40 V, m1, at -24h\nbank/last-current = -23h30m", "b1", finding.Pass, "hand: that current was the other block's charge"},
		{"dated two minutes after now", "b1/full-temperature = 18 C, at 60s\nb1/full-voltage = 14.40 V, m1, at 60s\nb1/full-current = 3.00 A, m2, at 60s\nb1/full-voltage-again = 14.40 V, m1, at 120s\nb1/full-current-again = 3.00 A, m2, at 120s\nb1/full-ended = fell-slowly", "b1", finding.Pass, "boundary: clocks differ by two minutes"},
		{"dated later than that", "b1/full-temperature = 18 C, at 60s\nb1/full-voltage = 14.40 V, m1, at 60s\nb1/full-current = 3.00 A, m2, at 60s\nb1/full-voltage-again = 14.40 V, m1, at 150s\nb1/full-current-again = 3.00 A, m2, at 150s\nb1/full-ended = fell-slowly", "b1", finding.CantTell, "boundary: two and a half minutes after now"},
		{"dated tomorrow", strings.ReplaceAll(old("24h"), "at -", "at "), "b1", finding.CantTell, "hand: an unknown age"},
	})
	walk(t, twoByTwo, chargedFull, goodMeter+goodShunt+"bank/settled = no\n", []row{
		{"no sheet", full("14.40 V", "3.00 A", "14.40 V", "2.50 A", "fell-slowly"), "b1", finding.ToDo, "boundary: no capacity, no tail"},
		{"no sheet, but it dropped", full("14.40 V", "3.00 A", "14.40 V", "2.50 A", "dropped"), "b1", finding.Fail, "hand: a trip is a trip"},
	})
}
