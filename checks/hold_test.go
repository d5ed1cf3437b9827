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
	stage.wire/hazards-read = yes
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
		{"cautions not read", strings.Replace(oneDelivery2, "stage.wire/hazards-read = yes", "", 1) + sameCodes + fourAlike + "bank/level-accepted = yes", false, "nothing that can hurt before its cautions"},
		{"a match on the flat part alone", oneDelivery2 + fourAlike, false, "13.28 V lies between 13.10 and 13.45 V: 40 points may hide"},
		{"match, one build, accepted by name", oneDelivery2 + sameCodes + fourAlike + "bank/level-accepted = yes", true, "the third way"},
		{"match, accepted, builds unknown", oneDelivery2 + fourAlike + "bank/level-accepted = yes", false, "one build is not shown"},
		{"match away from the flat part", oneDelivery2 + strings.ReplaceAll(fourAlike, "13.28", "12.98"), true, "hand: 12.983 V ± (0.5 % + 3 mV) reaches 13.051 V, below 13.10 V"},
		{"match hardly above the flat part", oneDelivery2 + strings.ReplaceAll(fourAlike, "13.28", "13.46"), false, "hand: 13.46 V ± (0.5 % + 3 mV) reaches below 13.45 V"},
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

// The good job with one thing about its temperatures taken away or spoilt.
func TestUnknownTemperatureNeverOpensTheCharge(t *testing.T) {
	rows := []struct {
		name string
		out  []string
		in   string
		open bool
	}{
		{"the good job", nil, "", true},
		{"no temperature of one block", []string{"b3/charge-temperature"}, "", false},
		{"put aside", []string{"b3/charge-temperature"}, "b3/charge-temperature = skip not-needed agreed", false},
		{"put off", []string{"b3/charge-temperature"}, "b3/charge-temperature = skip later wait", false},
		{"in conflict", nil, "b3/charge-temperature = 19 C", false},
		{"which sensor is not known", []string{"b3/sensor"}, "", false},
		{"infrared", []string{"b3/sensor"}, "b3/sensor = infrared", false},
		{"a quarter of an hour old", []string{"b3/charge-temperature"}, "b3/charge-temperature = 18 C, at -15m", true},
		{"older", []string{"b3/charge-temperature"}, "b3/charge-temperature = 18 C, at -16m", false},
		{"dated tomorrow", []string{"b3/charge-temperature"}, "b3/charge-temperature = 18 C, at 24h", false},
		{"on its case, after a cold drive", []string{"bank/settled", "b3/sensor"}, "bank/settled = yes\nb3/sensor = contact", false},
		{"on its case, nobody says since when", []string{"bank/settled", "b3/sensor"}, "b3/sensor = contact", false},
		{"frozen", []string{"b3/charge-temperature"}, "b3/charge-temperature = -4 C", false},
		{"about freezing", []string{"b3/charge-temperature"}, "b3/charge-temperature = 2 C", false},
		{"heated, cold", []string{"sheet1/charge-temp-min", "b3/charge-temperature"}, "sheet1/charge-temp-min = -20 C\nb3/charge-temperature = -4 C", false},
	}
	for _, r := range rows {
		// The end of the charge is taken out: it has not begun.
		h := hold(t, fixture(t, twoByTwo, append(without(append(r.out, "b1/top-voltage")...), goodWired, r.in)...), "charge", "bank")
		if h.Passed() != r.open {
			t.Errorf("%s: open %v, want %v; shut: %v", r.name, h.Passed(), r.open, h.Shut())
		}
		if !r.open && h.Barred.Empty() {
			t.Errorf("%s: an override of the cold is offered", r.name)
		}
	}
	if h := hold(t, fixture(t, twoByTwo), "charge", "bank"); h.Passed() || h.Barred.Empty() {
		t.Error("nothing known, and the charge is open or can be overridden")
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
