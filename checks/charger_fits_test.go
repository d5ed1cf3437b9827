package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func TestChargerFits(t *testing.T) {
	const common = "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/charge-voltage-max = 14.6 V\n"
	const amps = "sheet1/charge-max = 50 A\ncharger1/current-max = 50 A\n"
	walk(t, bank.New(4, 1, bank.JoinStrings, bank.OneEnd), chargerFits, common, []row{ // window 56.0 to 58.4 V
		{"fits", amps + "charger1/voltage-min = 50 V\ncharger1/voltage-max = 60 V", "charger1", finding.Pass, "hand: 57 V can be set; 50 A into one string ≤ 50"},
		{"range missing", amps, "charger1", finding.ToDo, "missing"},
		{"highest at the window's foot", amps + "charger1/voltage-min = 50 V\ncharger1/voltage-max = 56.0 V", "charger1", finding.Pass, "boundary: 56.0 can be set"},
		{"too low", amps + "charger1/voltage-min = 24 V\ncharger1/voltage-max = 55.9 V", "charger1", finding.Fail, "boundary: 55.9 < 56.0"},
		{"lowest at the window's head", amps + "charger1/voltage-min = 58.4 V\ncharger1/voltage-max = 60 V", "charger1", finding.Pass, "boundary: 58.4 can be set"},
		{"too high", amps + "charger1/voltage-min = 58.5 V\ncharger1/voltage-max = 64 V", "charger1", finding.Fail, "boundary: 58.5 > 58.4"},
		{"current above", "sheet1/charge-max = 50 A\ncharger1/current-max = 50.1 A\ncharger1/voltage-min = 50 V\ncharger1/voltage-max = 60 V", "charger1", finding.Fail, "boundary: 50.1 > 50"},
		{"set lower", "sheet1/charge-max = 50 A\ncharger1/current-max = 80 A\ncharger1/set-current = 40 A\ncharger1/voltage-min = 50 V\ncharger1/voltage-max = 60 V", "charger1", finding.Pass, "hand: 40 ≤ 50"},
		{"no sheet value", "charger1/current-max = 50 A\ncharger1/voltage-min = 50 V\ncharger1/voltage-max = 60 V", "charger1", finding.CantTell, "the rule: no sheet"},
	})
	walk(t, twoByTwo, chargerFits, "", []row{
		{"no sheet gives the highest", "charger1/current-max = 50 A\ncharger1/voltage-min = 29.3 V\ncharger1/voltage-max = 32 V", "charger1", finding.Fail, "common practice, no source: 2 × 14.6 = 29.2 V"},
	})
	// Two strings on one end: each may carry more than half.
	walk(t, twoByTwo, chargerFits, common+"sheet1/capacity = 100 Ah\ncharger1/voltage-min = 24 V\ncharger1/voltage-max = 30 V\nsheet1/charge-max = 50 A\n", []row{
		{"half is over", "charger1/current-max = 300 A", "charger1", finding.Fail, "hand: the larger share is never below a third: 100 > 50"},
		{"all in one", "charger1/current-max = 50 A", "charger1", finding.Pass, "hand: no share exceeds the whole"},
		{"between", "charger1/current-max = 95 A", "charger1", finding.CantTell, "hand: half is 47.5 A, the corners of ±25 % reach 62.5 % = 59 A"},
	})
}
