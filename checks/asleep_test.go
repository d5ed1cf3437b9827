package checks

import (
	"strings"
	"testing"

	"lugmark/core/finding"
)

func TestAsleep(t *testing.T) {
	const meter = "m1/measures = V\nm1/percent = 0 %\nm1/counts = 1\nm1/step = 0.01 V\nb1/sheet = sheet1\nsheet1/capacity = 100 Ah\n"
	const low = "b1/arrival-voltage = 3.00 V, m1\n"
	const woken = low + "b1/wake-method = yes\nb1/wake-current = 2 A\nb1/wake-time = 20 min\nb1/wake-warm = no\nb1/slept-again = no\nb1/woken-voltage = 12.80 V, m1\n"
	with := func(old, new string) string { return strings.Replace(woken, old, new, 1) }
	walk(t, twoByTwo, asleepCheck, meter, []row{
		{"nothing read", "", "bank", finding.NotNeeded, "hand: nobody sleeps yet"},
		{"all awake", "b1/arrival-voltage = 13.20 V, m1", "bank", finding.NotNeeded, "hand"},
		{"8.01 V", "b1/arrival-voltage = 8.01 V, m1", "bank", finding.NotNeeded, "boundary: 8.01 − 0.01 = 8.00"},
		{"8.00 V", "b1/arrival-voltage = 8.00 V, m1", "b1", finding.ToDo, "boundary: it may be 7.99"},
		{"0.00 V", "b1/arrival-voltage = 0.00 V, m1", "b1", finding.ToDo, "boundary: −0.01 to 0.01 V is nothing, not reversed"},
		{"reversed", "b1/arrival-voltage = -13.20 V, m1", "bank", finding.NotNeeded, "hand: it is reversed, not asleep"},
		{"not woken", low, "b1", finding.ToDo, "missing"},
		{"woken", woken, "b1", finding.Pass, "hand: 12.80 − 0.01 ≥ 12"},
		{"12.01 V", with("12.80", "12.01"), "b1", finding.Pass, "boundary: 12.01 − 0.01"},
		{"12.00 V", with("12.80", "12.00"), "b1", finding.CantTell, "boundary: 11.99 to 12.01"},
		{"10.00 V", with("12.80", "10.00"), "b1", finding.CantTell, "boundary: 9.99 to 10.01"},
		{"9.98 V", with("12.80", "9.98"), "b1", finding.Fail, "boundary: 9.99 < 10"},
		{"another method", with("method = yes", "method = no"), "b1", finding.CantTell, "boundary: only the maker's method shows anything"},
		{"warm", with("warm = no", "warm = yes"), "b1", finding.Fail, "common practice, no source: warm at so little current is a fault inside"},
		{"sleeps again", with("again = no", "again = yes"), "b1", finding.Fail, "hand: it does not stay awake"},
		{"a low cell", woken + "b1/lowest-inside = 1.98 V, m1", "b1", finding.Fail, "boundary: 1.98 + 0.01 < 2"},
		{"a cell about the limit", woken + "b1/lowest-inside = 2.00 V, m1", "b1", finding.CantTell, "boundary: 1.99 to 2.01"},
		{"a cell at the limit", woken + "b1/lowest-inside = 2.01 V, m1", "b1", finding.Pass, "boundary: 2.01 − 0.01"},
		{"5 A", with("= 2 A", "= 5 A"), "b1", finding.Pass, "boundary: 0.05·100"},
		{"5.1 A", with("= 2 A", "= 5.1 A"), "b1", finding.CantTell, "boundary: 5.1 > 0.05 × 100"},
		{"30 minutes", with("20 min", "30 min"), "b1", finding.Pass, "boundary: 30 ≤ 30"},
		{"31 minutes", with("20 min", "31 min"), "b1", finding.CantTell, "boundary: 31 > 30"},
		{"current missing", with("b1/wake-current = 2 A\n", ""), "b1", finding.ToDo, "missing"},
	})
}
