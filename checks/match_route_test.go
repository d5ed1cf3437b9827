package checks

import (
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func TestMatchRoute(t *testing.T) {
	const common = "m1/measures = V\nm1/percent = 0.05 %\nm1/counts = 3\nm1/step = 0.001 V\nbank/last-current = -20h\n" +
		"sheet1/model = Invented 100\nsheet1/capacity = 100 Ah\n"
	var blocks string
	for _, b := range []string{"b1", "b2", "b3", "b4"} {
		blocks += strings.ReplaceAll("B/sheet = sheet1\nB/date-code = 2026-08\nB/firmware = 1\nB/temperature = 20 C\n", "B", b)
	}
	const alike = "b1/rest-voltage = 13.200 V, m1\nb2/rest-voltage = 13.201 V, m1\nb3/rest-voltage = 13.200 V, m1\nb4/rest-voltage = 13.201 V, m1\n"
	const apart = "b1/rest-voltage = 13.200 V, m1\nb2/rest-voltage = 13.240 V, m1\nb3/rest-voltage = 13.200 V, m1\nb4/rest-voltage = 13.201 V, m1\n"
	walk(t, bank.New(1, 4, bank.JoinGroups, bank.OneEnd), matchRoute, common+blocks, []row{ // side by side
		{"nothing read", "", "bank", finding.ToDo, "missing"},
		{"match", alike, "bank", finding.Pass, "the rule: match, one delivery, one temperature"},
		{"no match", apart, "bank", finding.CantTell, "the rule: charge each"},
		{"leak", alike + "b2/condition = leak", "bank", finding.Fail, "the rule: send back"},
		{"too light", alike + "sheet1/mass = 12 kg\nb1/mass = 12.0 kg\nb2/mass = 8.0 kg\nb3/mass = 12.0 kg\nb4/mass = 12.0 kg", "bank", finding.Fail, "the rule: send back"},
	})
	walk(t, bank.New(1, 4, bank.JoinGroups, bank.OneEnd), matchRoute, common+strings.Replace(blocks, "b4/date-code = 2026-08\n", "b4/date-code = 2025-08\n", 1), []row{
		{"two deliveries", alike, "bank", finding.CantTell, "the rule: one delivery"},
	})
	walk(t, bank.New(1, 4, bank.JoinGroups, bank.OneEnd), matchRoute, common+strings.Replace(blocks, "b4/temperature = 20 C\n", "", 1), []row{
		{"no temperature", alike, "bank", finding.ToDo, "missing: the match needs it"},
	})
	walk(t, bank.New(4, 1, bank.JoinStrings, bank.OneEnd), matchRoute, common+blocks, []row{ // in series
		{"match on the flat part", alike, "bank", finding.CantTell, "the rule: it does not prove equal charge"},
		{"match, accepted by name", alike + "bank/level-accepted = yes", "bank", finding.Pass, "hand: the match passes, one delivery, accepted"},
		{"match off the flat part", strings.ReplaceAll(alike, "13.2", "13.6"), "bank", finding.Pass, "the rule: 13.600 lies above 13.45 V"},
		{"no match", apart, "bank", finding.CantTell, "the rule: charge each"},
	})
	walk(t, bank.New(1, 1, bank.JoinStrings, bank.OneEnd), matchRoute, "", []row{
		{"one block", "", "bank", finding.NotNeeded, "hand"},
	})
	if got, why := verdict(t, fixture(t, twoByTwo, goodJob()...), matchRoute, "bank"); got != finding.Pass {
		t.Errorf("each charged to full: %v (%s), want pass (the rule)", got, why)
	}
}
