package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func TestSiteConditions(t *testing.T) {
	const low = "site/ambient-max = 35 C\nsite/altitude = 200 m\nsite/fuel-space = no\n"
	// 100 A at 4·12 V and 90 %: 4320 W are asked.
	const need = "bank/design-current = 100 A\ninverter1/power = 4800 W\nsite/fuel-space = no\n"
	walk(t, bank.New(4, 1, bank.JoinStrings, bank.OneEnd), siteConditions, "", []row{
		{"nothing entered", "", "bank", finding.ToDo, "missing"},
		{"mild and low", low, "bank", finding.Pass, "hand: nothing to take off"},
		{"no altitude", "site/ambient-max = 35 C\nsite/fuel-space = no", "bank", finding.ToDo, "missing"},
		{"petrol, nothing stated", "site/ambient-max = 35 C\nsite/altitude = 0 m\nsite/fuel-space = yes", "bank", finding.CantTell, "boundary: unknown parts may spark"},
		{"petrol, protected", "site/ambient-max = 35 C\nsite/altitude = 0 m\nsite/fuel-space = yes\nsite/spark-proof = yes", "bank", finding.Pass, "hand: protected parts, nothing to take off"},
		{"at the maker's air", low + "b1/sheet = sheet1\nsheet1/air-max = 35 C", "bank", finding.Pass, "boundary: 35 ≤ 35"},
		{"above the maker's air", low + "b1/sheet = sheet1\nsheet1/air-max = 34 C", "bank", finding.Fail, "boundary: 35 > 34"},
		{"inverter at 50 °C", need + "site/ambient-max = 50 C\nsite/altitude = 1000 m", "bank", finding.Pass, "boundary: 4800·0.90 = 4320"},
		{"inverter at 51 °C", need + "site/ambient-max = 51 C\nsite/altitude = 1000 m", "bank", finding.Fail, "boundary: 4800·0.89 = 4272"},
		{"inverter at 2000 m", need + "site/ambient-max = 40 C\nsite/altitude = 2000 m", "bank", finding.Pass, "boundary: 4800·0.90"},
		{"inverter at 2100 m", need + "site/ambient-max = 40 C\nsite/altitude = 2100 m", "bank", finding.Fail, "boundary: 4800·0.89"},
		{"warm and high", need + "site/ambient-max = 45 C\nsite/altitude = 1500 m", "bank", finding.Pass, "hand: 4800 · 0.95 · 0.95 = 4332 ≥ 4320"},
		{"warmer and high", need + "site/ambient-max = 46 C\nsite/altitude = 1500 m", "bank", finding.Fail, "hand: 4800 · 0.94 · 0.95 = 4286 < 4320"},
		{"fuse at 3000 m", "site/ambient-max = 35 C\nsite/fuel-space = no\nsite/altitude = 3000 m\nbank/design-current = 22.8 A\nfuse.main/rating = 30 A", "bank", finding.Pass, "a distributor's note: 30 A are 28.5 A; 1.25·22.8 = 28.5"},
		{"fuse at 3000 m, more", "site/ambient-max = 35 C\nsite/fuel-space = no\nsite/altitude = 3000 m\nbank/design-current = 23 A\nfuse.main/rating = 30 A", "bank", finding.Fail, "hand: 28.75 > 28.5"},
		{"fuse too small anywhere", low + "bank/design-current = 30 A\nfuse.main/rating = 30 A", "bank", finding.Pass, "hand: said by the check of its size"},
	})
	// Two strings of two blocks of 5 mΩ on equal leads: at 40 A and ±10 % a string
	// carries 40·11/20 = 22 A at most and 18 A at least; asked of its fuse are 27.5
	// and 22.5 A.
	const strings = "site/ambient-max = 35 C\nsite/fuel-space = no\nfuse.main/rating = 100 A\nfuse.A/rating = 30 A\nfuse.B/rating = 30 A\n" +
		"b1/resistance = 5.0 mOhm\nb2/resistance = 5.0 mOhm\nb3/resistance = 5.0 mOhm\nb4/resistance = 5.0 mOhm\n"
	walk(t, bank.New(2, 2, bank.JoinStrings, bank.EqualLeads), siteConditions, strings, []row{
		{"fuse of a string at 2500 m", "bank/design-current = 40 A\nsite/altitude = 2500 m", "bank", finding.Pass, "hand: 30·0.975 = 29.25 A"},
		{"fuse of a string at 4000 m", "bank/design-current = 40 A\nsite/altitude = 4000 m", "bank", finding.CantTell, "hand: 30·0.9 = 27 A, between 22.5 and 27.5 A"},
		{"fuse of a string at 5900 m", "bank/design-current = 43.4 A\nsite/altitude = 5900 m", "bank", finding.Fail, "hand: 30·0.805 = 24.15 A; 43.4·9/20·1.25 = 24.4 A at least"},
	})
}
