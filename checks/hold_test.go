package checks

import (
	"strings"
	"testing"

	"lugmark/core/bank"
)

func hold(t *testing.T, f *Facts, gate, part string) Hold {
	t.Helper()
	Run(f)
	h, ok := f.HoldFor(gate, part)
	if !ok {
		t.Fatalf("no hold point %s %s", gate, part)
	}
	return h
}

const oneDelivery2 = `
	sheet1/model = Invented 100
	sheet1/capacity = 100 Ah
	sheet1/series-max = 4
	sheet1/parallel-max = 4
	b1/sheet = sheet1
	b2/sheet = sheet1
	b3/sheet = sheet1
	b4/sheet = sheet1
`

const sameCodes = `
	b1/date-code = 2026-05
	b2/date-code = 2026-05
	b3/date-code = 2026-05
	b4/date-code = 2026-05
	b1/firmware = 2.1
	b2/firmware = 2.1
	b3/firmware = 2.1
	b4/firmware = 2.1
`

const fourAlike = restedAlike + `
	b1/rest-voltage = 13.281 V
	b2/rest-voltage = 13.282 V
	b3/rest-voltage = 13.280 V
	b4/rest-voltage = 13.283 V
`

// The rows say what a hold point asks, after the table of hold points of the
// trade as this program words it; no row comes from running it.
func TestSeriesLinkOpensOnProofOnly(t *testing.T) {
	rows := []struct {
		name, lines string
		open        bool
		why         string
	}{
		{"nothing known", "", false, "missing is not proof"},
		{"a match on the flat part alone", oneDelivery2 + fourAlike, false, "13.28 V lies between 13.10 and 13.45 V: 40 points may hide"},
		{"match, one build, accepted by name", oneDelivery2 + sameCodes + fourAlike + "bank/level-accepted = yes", true, "the third way"},
		{"match, accepted, builds unknown", oneDelivery2 + fourAlike + "bank/level-accepted = yes", false, "one build is not shown"},
		{"match away from the flat part", oneDelivery2 + strings.ReplaceAll(fourAlike, "13.28", "12.98"), true, "hand: 12.983 V ± (0.5 % + 3 mV) reaches 13.051 V, below 13.10 V"},
		{"maker allows fewer in series", strings.Replace(oneDelivery2, "series-max = 4", "series-max = 1", 1) + sameCodes + fourAlike + "bank/level-accepted = yes", false, "beyond the maker's number"},
	}
	for _, r := range rows {
		h := hold(t, fixture(t, twoByTwo, r.lines), "series", "b1.n~b2.p")
		if h.Passed() != r.open {
			t.Errorf("%s: open %v, want %v (%s)", r.name, h.Passed(), r.open, r.why)
		}
	}
	h := hold(t, fixture(t, twoByTwo, strings.Replace(oneDelivery2, "series-max = 4", "series-max = 1", 1)+sameCodes+fourAlike+"bank/level-accepted = yes"), "series", "b1.n~b2.p")
	if h.Barred.Empty() {
		t.Error("more in series than the maker allows can be overridden")
	}
}

func TestASkippedCheckOpensNothing(t *testing.T) {
	lines := oneDelivery2 + sameCodes + strings.Replace(fourAlike, "b2/rest-voltage = 13.282 V", "b2/rest-voltage = skip not-needed agreed", 1) + "bank/level-accepted = yes"
	if hold(t, fixture(t, twoByTwo, lines), "series", "b1.n~b2.p").Passed() {
		t.Error("a reading put aside opened a series link")
	}
	unsafe := strings.Replace(lines, "skip not-needed agreed", "skip unsafe no-access", 1)
	if h := hold(t, fixture(t, twoByTwo, unsafe), "series", "b1.n~b2.p"); h.Barred.Empty() {
		t.Error("unsafe to measure can be overridden")
	}
}

func TestAConflictKeepsAHoldPointShut(t *testing.T) {
	lines := oneDelivery2 + sameCodes + fourAlike + "bank/level-accepted = yes\nb2/rest-voltage = 13.280 V"
	if hold(t, fixture(t, twoByTwo, lines), "series", "b1.n~b2.p").Passed() {
		t.Error("two values for one block opened a series link")
	}
}

func TestUnknownTemperatureNeverOpensTheCharge(t *testing.T) {
	for _, lines := range []string{"", "b1/charge-temperature = 20 C\nb1/sensor = own", "b1/charge-temperature = skip not-needed agreed"} {
		h := hold(t, fixture(t, bank.New(1, 1, bank.JoinStrings, bank.OneEnd), lines), "charge", "bank")
		if h.Clauses[0].Open && lines != "b1/charge-temperature = 20 C\nb1/sensor = own" {
			t.Errorf("%q opened the cold clause", lines)
		}
		if h.Passed() {
			t.Errorf("%q opened the charge without charger settings", lines)
		}
		if !h.Clauses[0].Open && h.Barred.Empty() {
			t.Errorf("%q: an override of the cold is offered", lines)
		}
	}
}

func TestNoTestWithoutSheetFuseAndSecondPerson(t *testing.T) {
	h := hold(t, fixture(t, twoByTwo, oneDelivery2+"fuse.main/closed = yes"), "test", "bank")
	if h.Passed() || h.Barred.Empty() {
		t.Errorf("passed %v, barred %v", h.Passed(), h.Barred)
	}
}

func TestEveryHoldPointIsShutOnAnEmptyJob(t *testing.T) {
	for _, l := range []bank.Layout{twoByTwo, bank.New(2, 2, bank.JoinGroups, bank.Diagonal), bank.New(1, 4, bank.JoinStrings, bank.EqualLeads), bank.New(4, 1, bank.JoinStrings, bank.OneEnd)} {
		f := fixture(t, l)
		Run(f)
		for _, h := range f.Holds() {
			if h.Passed() || h.Released() {
				t.Errorf("%s: %s %s is open with nothing known", l.Title(), h.Gate, h.Part)
			}
		}
	}
}
