package checks

import (
	"slices"
	"strings"
	"testing"

	"lugmark/core/say"
)

// goodWired closes the good job: every drawn link, the fuse, the main.
const goodWired = `
	b1.n~b2.p/closed = yes
	b3.n~b4.p/closed = yes
	sA.p~sB.p/closed = yes
	sA.n~sB.n/last-gap = 0.002 V, m1
	sA.n~sB.n/closed = yes
	fuse.main/closed = yes
	switch/closed = yes
`

// shutBy reports whether a hold point is shut by a condition, and names what
// else shuts it.
func shutBy(h Hold, id string) bool {
	return slices.ContainsFunc(h.Clauses, func(c Clause) bool { return c.ID == id && !c.Open })
}

// The rows follow the order of disconnecting of the trade: load off, charger
// off, main open, fuse out, then links; and back in the other order.
func TestNoLinkClosesWhileTheMainIsOn(t *testing.T) {
	rows := []struct {
		name, lines string
		shut        bool
		from        string
	}{
		{"nothing entered yet", "", false, "the first links are made before the main is spoken of"},
		{"the main is closed", "fuse.main/closed = yes\nswitch/closed = yes", true, "the load would draw its first current through the link"},
		{"the main is closed, the fuse not spoken of", "switch/closed = yes", true, "as entered"},
		{"the fuse is in, the switch not spoken of", "fuse.main/closed = yes", true, "not entered as open"},
		{"the fuse is in, the switch open", "fuse.main/closed = yes\nswitch/closed = no", false, "no circuit"},
		{"the switch is closed, the fuse out", "switch/closed = yes\nfuse.main/closed = no", false, "no circuit"},
		{"two people differ", "switch/closed = no\nswitch/closed = yes", true, "a conflict opens nothing"},
	}
	for _, r := range rows {
		f := fixture(t, twoByTwo, append(goodJob(), r.lines)...)
		for _, link := range []struct{ gate, part string }{{"series", "b1.n~b2.p"}, {"parallel", "sA.p~sB.p"}} {
			h := hold(t, f, link.gate, link.part)
			if shutBy(h, "main-open") != r.shut {
				t.Errorf("%s: %s shut by the main: %v, want %v (%s)", r.name, link.part, !r.shut, r.shut, r.from)
			}
			for _, c := range h.Clauses {
				if c.ID == "main-open" && c.Says.Empty() == r.shut {
					t.Errorf("%s: %s says %q", r.name, link.part, say.Voice{}.Say(c.Says))
				}
			}
		}
	}
	// What the last visit left closed is closed until somebody enters otherwise.
	for lines, shut := range map[string]bool{"": true, "v2: switch/closed = no": false} {
		f := fixture(t, twoByTwo, append(goodJob(), goodWired, "v2: bank/built-again = yes", "v2: b1.n~b2.p/closed = no", lines)...)
		if h := hold(t, f, "series", "b1.n~b2.p"); shutBy(h, "main-open") != shut {
			t.Errorf("return visit, %q: shut by the main %v, want %v", lines, !shut, shut)
		}
	}
	// A link that was closed with the main on is closed too early; one that was
	// closed before the main is not.
	for lines, breached := range map[string]bool{"switch/closed = yes\nb1.n~b2.p/closed = yes": true, "b1.n~b2.p/closed = yes\nswitch/closed = yes": false} {
		if h := hold(t, fixture(t, twoByTwo, append(goodJob(), lines)...), "series", "b1.n~b2.p"); h.Breached() != breached {
			t.Errorf("%q: breached %v, want %v; shut: %v", lines, h.Breached(), breached, h.Shut())
		}
	}
}

// What was measured of the insulation and to the frame must not fail, nor stay
// in doubt; what nobody measured is not asked for here.
func TestTheMainWaitsForTheFrame(t *testing.T) {
	frame := []string{"bank/cable-insulation", "bank/insulation-", "bank/bond-plan", "bank/stray-"}
	rows := []struct {
		name       string
		out        []string
		in         string
		insulation bool
		stray      bool
		from       string
	}{
		{"as it should be", nil, "", false, false, "20 MΩ; 0.1 V to the frame"},
		{"nothing measured, nothing planned", frame, "", false, false, "not asked for here"},
		{"insulation fails", frame[:1], "bank/cable-insulation = 0.25 MOhm", true, false, "hand: 0.25 + 0.01 < 1"},
		{"in doubt", frame[:1], "bank/cable-insulation = 1.00 MOhm", true, false, "boundary: 1 MΩ on a meter of 1 %"},
		{"the tester was not proved", []string{"bank/insulation-proved"}, "bank/insulation-proved = no", true, false, "a good reading may be a broken lead"},
		{"half a test", []string{"bank/insulation-proved"}, "", true, false, "begun, and not done"},
		{"no tester on site", frame[:2], "bank/cable-insulation = skip not-needed agreed", false, false, "put aside is not measured"},
		{"the whole bank to the frame", []string{"bank/stray-"}, "bank/stray-plus = 27.20 V\nbank/stray-minus = 0.00 V", false, true, "hand: 10 MΩ · (27.2 / 27.2 − 1) = 0 to 0.1 MΩ: cannot tell, and full on the frame"},
		{"planned, and not measured", []string{"bank/stray-"}, "", false, true, "asked for by the plan"},
	}
	for _, r := range rows {
		h := hold(t, fixture(t, twoByTwo, append(without(r.out...), r.in)...), "main", "switch")
		if shutBy(h, cableInsulation.ID) != r.insulation || shutBy(h, strayVoltage.ID) != r.stray {
			t.Errorf("%s: insulation shuts %v, frame shuts %v (%s)", r.name, shutBy(h, cableInsulation.ID), shutBy(h, strayVoltage.ID), r.from)
		}
	}
}

// The good job before its charge ended, with one thing about its wiring spoilt.
// Source of every row: the order on site, wired and checked before a charger.
func TestNoChargerOnABankThatNobodyWired(t *testing.T) {
	rows := []struct {
		name, out, in string
		wired         string // lines taken out of goodWired
		shut          string
		barred        bool
	}{
		{"as it should be", "", "", "", "", false},
		{"a link left off", "", "", "b3.n~b4.p/closed = yes", "links-on", false},
		{"a link said to be off", "", "b3.n~b4.p/closed = no", "b3.n~b4.p/closed = yes", "links-on", false},
		{"no fuse", "", "", "fuse.main/closed = yes", "main-fuse", false},
		{"the main is open", "", "", "switch/closed = yes", "main-on", false},
		{"the main was closed too early", "b4.n/torque-set", "", "", "main-on", false},
		{"a block in backwards", "b1.p/step-voltage", "b1.p/step-voltage = 0.003 V, m1", "", "polarity-steps", true},
		{"the total is a block short", "bank/total-voltage", "bank/total-voltage = 13.60 V, m1", "", "bank-total", true},
		{"one block alone on the bench", "", "charge1/target = b1", "switch/closed = yes", "", false},
		{"one string, main open", "", "charge1/target = sA", "switch/closed = yes", "", false},
		{"one string, its link off", "", "charge1/target = sA", "b1.n~b2.p/closed = yes", "links-on", false},
	}
	for _, r := range rows {
		job := without("b1/top-voltage")
		if r.out != "" {
			job = without("b1/top-voltage", r.out)
		}
		lines := goodWired
		if r.wired != "" {
			lines = strings.Replace(goodWired, r.wired, "", 1)
		}
		h := hold(t, fixture(t, twoByTwo, append(job, lines, r.in)...), "charge", "bank")
		if r.shut != "" && !shutBy(h, r.shut) || r.shut == "" && (shutBy(h, "links-on") || shutBy(h, "main-fuse") || shutBy(h, "main-on")) {
			t.Errorf("%s: shut by %v, want %q", r.name, h.Shut(), r.shut)
		}
		if barred := !h.Barred.Empty(); barred != r.barred {
			t.Errorf("%s: barred %v, want %v", r.name, barred, r.barred)
		}
	}
	wired := strings.NewReplacer("charge1/target = b1", "").Replace(heatReady)
	if h := hold(t, fixture(t, oneBlock, wired), "heat", "bank"); h.Passed() || !shutBy(h, "main-on") || !shutBy(h, "main-fuse") {
		t.Errorf("a cold bank is heated with its main open: %v", h.Shut())
	}
}
