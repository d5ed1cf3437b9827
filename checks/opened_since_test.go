package checks

import (
	"testing"

	"lugmark/core/finding"
)

// A link that is taken off and put on again is another joint: what was read of
// it, of its bolts and across it says nothing of the new one. Source of every
// row: common practice, a joint is judged as it was last made.
func TestWhatRestedOnALinkLapsesWhenItIsOpened(t *testing.T) {
	whole := append(goodJob(), goodWired)
	to := func(f *Facts, c *Check, part string) finding.Verdict {
		v, _ := verdict(t, f, c, part)
		return v
	}
	rows := []struct {
		check *Check
		part  string
		asked bool
	}{
		{torque, "b1.n", true}, {torque, "b2.p", true}, {torque, "b1.p", false}, {torque, "b3.n", false},
		{polaritySteps, "sA", true}, {polaritySteps, "sB", false},
		{bankTotal, "sA", true}, {bankTotal, "bank", true}, {bankTotal, "sB", false},
		{jointHeat, "bank", true}, {jointResistance, "b1.n~b2.p@b1.n", true}, {jointResistance, "b3.n~b4.p@b3.n", false},
	}
	f := fixture(t, twoByTwo, whole...)
	correct(t, f, "switch/closed", "no")
	correct(t, f, "b1.n~b2.p/closed", "no")
	for _, again := range []bool{false, true} {
		if again {
			correct(t, f, "b1.n~b2.p/closed", "yes")
		}
		for _, r := range rows {
			want := finding.Pass
			if r.asked {
				want = finding.ToDo
			}
			if got := to(f, r.check, r.part); got != want {
				t.Errorf("closed again %v: %s of %s is %v, want %v", again, r.check.ID, r.part, got, want)
			}
		}
	}
	if got := to(f, precharge, "switch"); got != finding.ToDo {
		t.Errorf("precharge after the main was opened: %v", got)
	}
	for _, c := range []string{"torque", "polarity-steps", "bank-total", "precharge"} {
		if h := hold(t, f, "main", "switch"); !shutBy(h, c) {
			t.Errorf("the main opens on a %s of before", c)
		}
	}
	correct(t, f, "switch/closed", "yes")
	if h := hold(t, f, "main", "switch"); !h.Breached() {
		t.Error("closed again on what was read before, and nobody says to open it")
	}

	// Never closed before: what is said to be open was not opened.
	first := fixture(t, twoByTwo, append(goodJob(), "b1.n~b2.p/closed = no")...)
	if got := to(first, torque, "b1.n"); got != finding.Pass {
		t.Errorf("a link that was never closed: %v", got)
	}
}
