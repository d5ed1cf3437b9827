package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

// Rows that stand so near a limit that a tenth more or less of it shows.
func TestATenthOfALimitShows(t *testing.T) {
	walk(t, twoByTwo, torque, torqueSheet, []row{
		{"a wrench of 10.5 N·m", "sheet1/torque-min = 8.5 N.m\nsheet1/torque-max = 9.5 N.m\nw1/max = 10.5 N.m\nw1/due = 2027-03-01\nb1.p/torque-set = 9 N.m, w1", "b1.p", finding.Pass, "ISO 6789-1:2017: above 10 N·m 4 %, 8.64 … 9.36"},
	})
	pair := "bank/drop-current = 160.0 A\nbank/design-current = 250 A\nb1.n~b2.p@b1.n/drop = 4.80 mV\nb1.n~b2.p@b1.n/drop-zero = 0.00 mV\nb1.n~b2.p@b2.p/drop = 3.20 mV\nb1.n~b2.p@b2.p/drop-zero = 0.00 mV\n"
	walk(t, bank.New(2, 1, bank.JoinStrings, bank.OneEnd), jointResistance, pair, []row{
		{"two joints, nearly too warm", "", "b1.n~b2.p@b1.n", finding.Pass, "hand: 250² × 30.8 µΩ = 1.93 W ≤ 2 W"},
	})
	walk(t, fourInSeries, capacity, capacitySheet+"capacity1/charge-error = 1.2 Ah\ncapacity1/end-reason = cut-off\ncapacity1/end-voltage = 40.0 V\ncapacity1/started-full = yes\ncapacity1/test-current = 20 A\n", []row{
		{"thermometer near 20", "capacity1/test-temperature = 22 C\ncapacity1/charge = 80 Ah", "capacity1", finding.CantTell, "hand: 22 − 2.5 < 20, cold may be the reason"},
	})
	walk(t, twoByTwo, voltageMatch, restedAlike, []row{
		{"one asleep in each string", "sA/total-voltage = 13.20 V\nsB/total-voltage = 13.20 V", "bank", finding.CantTell, "hand: 13.2 < 2 · 8"},
	})
	walk(t, twoByTwo, chargedFull, goodMeter+goodShunt+oneSheet, []row{
		{"from 12 A to nothing", full("14.40 V", "12.00 A", "14.40 V", "0.00 A", "fell-slowly"), "b1", finding.Fail, "hand: 12 − 0.13 > 2 · 5, then 0"},
		{"current 90 s after the volts", "bank/settled = no\nb1/full-temperature = 18 C, at -600s\nb1/full-voltage = 14.40 V, m1, at -600s\nb1/full-current = 3.00 A, m2, at -510s\nb1/full-voltage-again = 14.40 V, m1, at -360s\nb1/full-current-again = 2.50 A, m2, at -270s\nb1/full-ended = fell-slowly", "b1", finding.Pass, "hand: 90 s ≤ 2 min"},
	})
	walk(t, twoByTwo, measuredShare, milliamps+capacitySheet+"bank/design-current = 100 A\nsheet1/discharge-max = 80 A\nbank/clamp-zeroed = yes\n", []row{
		{"they hardly add up", "sA/share-current = 52.00 A, m2\nsB/share-current = 48.00 A, m2\nbank/share-total = 108.00 A, m2", "bank", finding.CantTell, "hand: 8 − 2.11 > 0.05 · 108 = 5.4"},
	})
	walk(t, fourInSeries, cableTerminalCheck, "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\ncable1/insulation = 90 C\ncable1/terminal = 75 C\nb1.n~b2.p/cable = cable1\nb1.n~b2.p~2/cable = cable1\n", []row{
		{"two side by side", "bank/design-current = 280 A", "b1.n~b2.p", finding.Pass, "boundary: 1.25 · 280/2 = 175 A after NEC Table 310.16"},
		{"two side by side, too little", "bank/design-current = 281 A", "b1.n~b2.p", finding.Fail, "boundary: 175.6 > 175 A"},
	})
	worse := "b1/resistance = 4.0 mOhm\nb2/resistance = 4.0 mOhm\nb3/resistance = 4.0 mOhm\nb4/resistance = 4.0 mOhm\nbank/design-current = 100 A\nbank/load-current = 100.0 A, m2\nbank/load-tripped = no\nbank/load-time = 10 min\n"
	walk(t, fourInSeries, loadHold, goodMeter+milliamps+capacitySheet+worse, []row{
		{"sags a little more", underLoadOf("12.80", "12.80", "12.82", "12.97"), "bank", finding.Fail, "hand: 0.17 − 0.0082 > 0.4 · 100 · 4 mΩ = 0.16"},
	})
}
