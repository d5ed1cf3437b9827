package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func TestLeadDrop(t *testing.T) {
	// Four in series: 0.03·51.2 = 1.536 V. 2/0 AWG at 75 °C is 0.0967 Ω per 1000
	// ft (NEC chapter 9, table 8), 0.31726 mΩ/m; 0.04 mΩ for the lugs of a lead.
	const cable = "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nlead.p/cable = cable1\nlead.n/cable = cable1\n"
	walk(t, bank.New(4, 1, bank.JoinStrings, bank.OneEnd), leadDrop, "", []row{
		{"short", cable + "lead.p/length = 1.5 m\nlead.n/length = 1.5 m\nbank/design-current = 100 A", "bank", finding.Pass, "hand: 100·(0.952 + 0.08) mΩ = 0.103 V"},
		{"long", cable + "lead.p/length = 12 m\nlead.n/length = 12 m\nbank/design-current = 200 A", "bank", finding.Fail, "hand: 200·(7.614 + 0.08) mΩ = 1.539 V > 1.536"},
		{"just short enough", cable + "lead.p/length = 11.9 m\nlead.n/length = 12 m\nbank/design-current = 200 A", "bank", finding.Pass, "hand: 200·(7.583 + 0.08) mΩ = 1.533 V"},
		{"measured hot", "bank/lead-temperature = 75 C\nlead.p/lug-to-lug = 3.84 mOhm\nlead.n/lug-to-lug = 3.84 mOhm\nbank/design-current = 200 A", "bank", finding.Pass, "boundary: 200·7.68 mΩ = 1.536 V"},
		{"measured hot, more", "bank/lead-temperature = 75 C\nlead.p/lug-to-lug = 3.84 mOhm\nlead.n/lug-to-lug = 3.85 mOhm\nbank/design-current = 200 A", "bank", finding.Fail, "boundary: 1.538 V"},
		{"measured cold", "bank/lead-temperature = 20 C\nlead.p/lug-to-lug = 3.15 mOhm\nlead.n/lug-to-lug = 3.15 mOhm\nbank/design-current = 200 A", "bank", finding.Pass, "hand: 1 + 0.00393 · 55 = 1.21615 at 75 °C; 200 · 6.30 mΩ · 1.21615 = 1.532 V"},
		{"measured cold, more", "bank/lead-temperature = 20 C\nlead.p/lug-to-lug = 3.20 mOhm\nlead.n/lug-to-lug = 3.20 mOhm\nbank/design-current = 200 A", "bank", finding.Fail, "hand: 200 · 6.40 mΩ · 1.21615 = 1.557 V"},
		{"measured in frost", "bank/lead-temperature = -10 C\nlead.p/lug-to-lug = 3.15 mOhm\nlead.n/lug-to-lug = 3.15 mOhm\nbank/design-current = 200 A", "bank", finding.Fail, "hand: 1.21615/0.8821 = 1.3787; 200 · 6.30 mΩ · 1.3787 = 1.737 V"},
		{"measured, nobody knows how warm", "lead.p/lug-to-lug = 3.20 mOhm\nlead.n/lug-to-lug = 3.20 mOhm\nbank/design-current = 200 A", "bank", finding.Fail, "hand: 20 °C assumed, 1.557 V"},
		{"length missing", cable + "lead.p/length = 1.5 m\nbank/design-current = 100 A", "bank", finding.ToDo, "missing"},
		{"cable missing", "bank/design-current = 100 A", "bank", finding.ToDo, "missing"},
		{"current missing", cable + "lead.p/length = 1.5 m\nlead.n/length = 1.5 m", "bank", finding.ToDo, "missing"},
	})
}
