package checks

import (
	"slices"
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/say"
)

func TestVoltageClass(t *testing.T) {
	const four = "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\n"
	walk(t, bank.New(4, 1, bank.JoinStrings, bank.OneEnd), voltageClass, four, []row{
		{"four of 14.6", "b4/sheet = sheet1\nsheet1/charge-voltage-max = 14.6 V", "bank", finding.Pass, "hand: 58.4 ≤ 60 V"},
		{"no sheet", "b4/sheet = sheet1", "bank", finding.Pass, "hand: 4·14.6 = 58.4, assumed"},
		{"at the limit", "b4/sheet = sheet1\nsheet1/charge-voltage-max = 15.0 V", "bank", finding.Pass, "boundary: 60.0 ≤ 60"},
		{"just above", "b4/sheet = sheet1\nsheet1/charge-voltage-max = 15.1 V", "bank", finding.CantTell, "boundary: 60.4 > 60, nobody licensed"},
		{"above, licensed, no series count", "b4/sheet = sheet1\nsheet1/charge-voltage-max = 15.1 V\nbank/licensed-person = Ines Varga", "bank", finding.CantTell, "the rule: the sheet's series count must confirm it"},
		{"above, licensed, confirmed", "b4/sheet = sheet1\nsheet1/charge-voltage-max = 15.1 V\nbank/licensed-person = Ines Varga\nsheet1/series-max = 4", "bank", finding.Pass, "hand: 60.4 > 60, a person is named and 4 ≤ 4 stated"},
		{"above, licensed, too many", "b4/sheet = sheet1\nsheet1/charge-voltage-max = 15.1 V\nbank/licensed-person = Ines Varga\nsheet1/series-max = 3", "bank", finding.CantTell, "the rule: 4 of 3"},
		{"unlike blocks", "sheet1/charge-voltage-max = 14.2 V\nb4/sheet = sheet2\nsheet2/charge-voltage-max = 15.1 V", "bank", finding.CantTell, "hand: the highest counts, 4·15.1 = 60.4"},
		{"fuse below", "b4/sheet = sheet1\nfuse.main/voltage = 58 V", "bank", finding.Fail, "hand: 58 < 58.4"},
		{"fuse at", "b4/sheet = sheet1\nfuse.main/voltage = 58.4 V", "bank", finding.Pass, "boundary: 58.4 ≥ 58.4"},
		{"switch below", "b4/sheet = sheet1\nswitch/rated-voltage = 32 V", "bank", finding.Fail, "hand: 32 < 58.4"},
		{"meter below", "b4/sheet = sheet1\nbank/use-volts = m1\nm1/rated-voltage = 50 V", "bank", finding.Fail, "hand: 50 < 58.4"},
		{"another meter below", "b4/sheet = sheet1\nbank/use-volts = m1\nm2/rated-voltage = 50 V", "bank", finding.Pass, "hand: it is not the voltmeter of this job"},
		{"gloves below", "b4/sheet = sheet1\nbank/glove-voltage = 50 V", "bank", finding.Fail, "hand: 50 < 58.4"},
		{"gloves above", "b4/sheet = sheet1\nbank/glove-voltage = 1000 V", "bank", finding.Pass, "hand: 1000 ≥ 58.4"},
	})
	walk(t, bank.New(5, 1, bank.JoinStrings, bank.OneEnd), voltageClass, "", []row{
		{"five", "", "bank", finding.CantTell, "hand: 5·14.6 = 73 V"},
	})
}

// By hand: 4 × 12.5 = 50.0 V, 4 × 12.6 = 50.4 V; the caution begins above 50 V.
func TestAbove50VoltsIsCautioned(t *testing.T) {
	for volts, want := range map[string]bool{"12.5 V": false, "12.6 V": true} {
		x := judged(t, fixture(t, fourInSeries, "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/charge-voltage-max = "+volts), voltageClass, "bank")[0]
		said := slices.ContainsFunc(x.Notes(), func(l say.Line) bool { return strings.Contains(say.Voice{}.Say(l), "rated gloves") })
		if x.Verdict() != finding.Pass || said != want {
			t.Errorf("%s: %v, said %v, want %v", volts, x.Verdict(), said, want)
		}
	}
}

// The series hold point rests on this check above 60 V only.
func TestSeriesHoldAsksForTheClass(t *testing.T) {
	asks := func(lines string) (asked, open bool) {
		f := fixture(t, bank.New(4, 1, bank.JoinStrings, bank.OneEnd), lines)
		for _, c := range hold(t, f, "series", "b1.n~b2.p").Clauses {
			if c.Title.Key == "voltage-class.title" {
				return true, c.Open
			}
		}
		return false, false
	}
	const high = "b1/sheet = sheet1\nsheet1/charge-voltage-max = 15.1 V\nsheet1/series-max = 4\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\n"
	if asked, _ := asks(""); asked {
		t.Error("58.4 V: asked (boundary: 60)")
	}
	if asked, open := asks(high); !asked || open {
		t.Errorf("60.4 V, nobody licensed: asked %v, open %v", asked, open)
	}
	if asked, open := asks(high + "bank/licensed-person = Ines Varga"); !asked || !open {
		t.Errorf("60.4 V, licensed and confirmed: asked %v, open %v", asked, open)
	}
}
