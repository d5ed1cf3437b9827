package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func TestChargeLevel(t *testing.T) {
	// A meter of ±10 mV, all rested at 20 °C. Levels by another program from the
	// same open data: 13.00 V 13 to 36 %, 13.20 V 23 to 72, 13.40 V 59 to 97,
	// 13.60 V 95 to 99.
	const common = "m1/measures = V\nm1/percent = 0 %\nm1/counts = 1\nm1/step = 0.01 V\nbank/last-current = -20h\nb1/temperature = 20 C\nb2/temperature = 20 C\nb3/temperature = 20 C\nb4/temperature = 20 C\n"
	const string2 = "b3/rest-voltage = 13.20 V, m1\nb4/rest-voltage = 13.20 V, m1\n"
	walk(t, twoByTwo, chargeLevel, common, []row{
		{"alike", string2 + "b1/rest-voltage = 13.20 V, m1\nb2/rest-voltage = 13.20 V, m1", "bank", finding.CantTell, "the rule: never a pass by voltage"},
		{"overlap", string2 + "b1/rest-voltage = 13.20 V, m1\nb2/rest-voltage = 13.40 V, m1", "bank", finding.CantTell, "published: 23 to 72 and 59 to 97 %"},
		{"apart", string2 + "b1/rest-voltage = 13.00 V, m1\nb2/rest-voltage = 13.40 V, m1", "bank", finding.Fail, "published: 13 to 36 and 59 to 97 %"},
		{"apart, in two strings", "b1/rest-voltage = 13.00 V, m1\nb2/rest-voltage = 13.00 V, m1\nb3/rest-voltage = 13.60 V, m1\nb4/rest-voltage = 13.60 V, m1", "bank", finding.CantTell, "the rule: in series only"},
		{"missing", string2 + "b1/rest-voltage = 13.20 V, m1", "bank", finding.ToDo, "missing"},
		{"no rested block shows it", string2 + "b1/rest-voltage = 15.00 V, m1\nb2/rest-voltage = 13.20 V, m1", "bank", finding.CantTell, "published: 100 % is 14.40 V"},
	})
	walk(t, twoByTwo, chargeLevel, string2+"b1/rest-voltage = 13.00 V\nb2/rest-voltage = 13.60 V\nb1/temperature = 20 C\nb2/temperature = 20 C\nb3/temperature = 20 C\n", []row{
		{"apart, not rested", "b4/temperature = 20 C", "bank", finding.CantTell, "a voltage that creeps condemns nothing"},
		{"below freezing", "bank/last-current = -20h\nb4/temperature = -1 C", "bank", finding.CantTell, "boundary: 0 to 45 °C"},
		{"no temperature", "bank/last-current = -20h", "bank", finding.ToDo, "missing"},
	})
	walk(t, bank.New(1, 4, bank.JoinGroups, bank.OneEnd), chargeLevel, "", []row{
		{"in parallel only", "", "bank", finding.NotNeeded, "the rule: in series only"},
	})
	if got, why := verdict(t, fixture(t, twoByTwo, goodJob()...), chargeLevel, "bank"); got != finding.Pass {
		t.Errorf("all charged to full: %v (%s), want pass (the rule)", got, why)
	}
}
