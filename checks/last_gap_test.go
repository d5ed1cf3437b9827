package checks

import (
	"slices"
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// The good job, its first rail closed and the gap of the second one read: the
// hold point of the second rail is open, until one thing is taken away.
const (
	railOn  = "sA.p~sB.p/closed = yes"
	gapRead = "sA.n~sB.n/last-gap = 0.002 V, m1"
)

// without gives the good job less every line that begins so.
func without(begins ...string) (out []string) {
	for _, l := range goodJob() {
		if !slices.ContainsFunc(begins, func(b string) bool { return strings.HasPrefix(l, b) }) {
			out = append(out, l)
		}
	}
	return out
}

// Half-widths by hand: m1 shows 1 mV and is wrong by 0.05 % + 3 counts, so
// 2 mV may be 5 mV.
func TestTheLastGap(t *testing.T) {
	rows := []struct {
		name, lines string
		open        bool
		from        string
	}{
		{"read after the other side was closed", railOn + "\n" + gapRead, true, "hand: 5 ≤ 10 mV"},
		{"not read", railOn, false, "boundary: missing is not nothing"},
		{"read before the other side was closed", gapRead + "\n" + railOn, false, "hand: an open end floats near nothing"},
		{"15 minutes old", railOn + "\n" + gapRead + ", at -15m", true, "boundary: our rule"},
		{"16 minutes old", railOn + "\n" + gapRead + ", at -16m", false, "boundary: our rule"},
		{"48 hours old", railOn + "\n" + gapRead + ", at -48h", false, "hand"},
		{"one decimal, no meter named", railOn + "\nsA.n~sB.n/last-gap = 0.0 V", false, "hand: ±(0.5 % + 3 · 0.1 V) is 300 mV"},
		{"7 mV", railOn + "\nsA.n~sB.n/last-gap = 0.007 V, m1", false, "hand: 7 + 3.0035 mV is above 10 mV"},
		{"6 mV, probes turned", railOn + "\nsA.n~sB.n/last-gap = -0.006 V, m1", true, "hand: 9.003 mV"},
		{"14 mV", railOn + "\nsA.n~sB.n/last-gap = 0.014 V, m1", false, "hand: 14 − 3.007 mV is above 10 mV"},
		{"14 mV, probes turned", railOn + "\nsA.n~sB.n/last-gap = -0.014 V, m1", false, "hand: the size counts"},
		{"the firm allows 4 mV", "house/voltage-match.spread = 0.004 V\nhouse/gap-voltage.gap = 4 mV\n" + railOn + "\n" + gapRead, false, "hand: 5 > 4 mV"},
		{"two gaps that do not agree", railOn + "\n" + gapRead + "\nsA.n~sB.n/last-gap = 0.001 V, m1", false, "hand: a conflict is never a pass"},
		{"the other side is entered as open", "sA.p~sB.p/closed = no", true, "hand: nothing flows yet"},
		{"nobody knows of the other side", "", false, "boundary: not entered is not open"},
		{"the other side is in conflict", "sA.p~sB.p/closed = no\nsA.p~sB.p/closed = yes\n" + gapRead, false, "hand: a conflict is never a no"},
		{"unsafe to measure", railOn + "\nsA.n~sB.n/last-gap = skip unsafe other", false, "hand"},
	}
	for _, r := range rows {
		h := hold(t, fixture(t, twoByTwo, append(goodJob(), r.lines)...), "parallel", "sA.n~sB.n")
		if h.Passed() != r.open {
			t.Errorf("%s: open %v, want %v (%s); shut: %v", r.name, h.Passed(), r.open, r.from, h.Shut())
		}
	}
	h := hold(t, fixture(t, twoByTwo, goodJob()...), "parallel", "sA.n~sB.n")
	if c := h.Clauses[len(h.Clauses)-1]; c.AsksNo == nil || *c.AsksNo != (finding.Key{Part: "sA.p~sB.p", Field: "closed"}) {
		t.Errorf("nobody is asked whether the other side is open: %v", c.AsksNo)
	}
}

// Of three strings the plus ends are joined one after the other: no circuit.
func TestARailAloneMakesNoCircuit(t *testing.T) {
	three := bank.New(1, 3, bank.JoinStrings, bank.OneEnd)
	f := fixture(t, three, "sA.p~sB.p/closed = yes", "sA.n~sB.n/closed = no", "sB.n~sC.n/closed = no")
	l, _ := three.Link("sB.p~sC.p")
	if c := f.lastGapClause(l); !c.Open {
		t.Errorf("hand: string C hangs by its plus alone; says %q", c.Says.English)
	}
	n, _ := three.Link("sB.n~sC.n")
	f = fixture(t, three, "sA.p~sB.p/closed = yes", "sB.p~sC.p/closed = yes", "sA.n~sB.n/closed = no")
	if c := f.lastGapClause(n); c.Open {
		t.Error("hand: B and C are joined at plus; the minus completes a circuit")
	}
}

// linksOn closes every link of two strings of two.
const linksOn = "b1.n~b2.p/closed = yes\nb3.n~b4.p/closed = yes\nsA.p~sB.p/closed = yes\nsA.n~sB.n/closed = yes"

// A bank with a drawn link left off is another bank.
func TestTheMainWaitsForEveryLink(t *testing.T) {
	for _, off := range []string{"b1.n~b2.p", "b3.n~b4.p", "sA.p~sB.p", "sA.n~sB.n"} {
		for _, said := range []string{"", off + "/closed = no"} {
			on := strings.Replace(linksOn, off+"/closed = yes", said, 1)
			h := hold(t, fixture(t, twoByTwo, append(goodJob(), on, "switch/closed = no")...), "main", "switch")
			if shut := h.Shut(); len(shut) != 1 || shut[0] != "links-on@switch" {
				t.Errorf("%s off, %q: shut by %v", off, said, shut)
			}
		}
	}
}

// A gap far beyond a match is a short circuit: nobody may take it on. Close to
// a match a named person may.
func TestNobodyClosesOverAWideGap(t *testing.T) {
	rows := []struct {
		gap    string
		barred bool
		from   string
	}{
		{"0.002 V, m1", false, "hand: below a match of 10 mV"},
		{"0.060 V, m1", false, "hand: beyond a match, 60 mV + 3.03 mV below 0.1 V"},
		{"0.094 V, m1", false, "boundary: 94 mV + 3.05 mV below 0.1 V"},
		{"0.100 V, m1", true, "boundary: 100 mV + 3.05 mV above 0.1 V"},
		{"-0.100 V, m1", true, "boundary: the size counts"},
		{"-26.700 V, m1", true, "hand: the voltage of a string of two"},
	}
	for _, r := range rows {
		job := append(goodJob(), "b1.n~b2.p/closed = yes\nb3.n~b4.p/closed = yes\nsA.n~sB.n/closed = no\nsA.p~sB.p/closed = yes\nsA.n~sB.n/last-gap = "+r.gap)
		h := hold(t, fixture(t, twoByTwo, job...), "parallel", "sA.n~sB.n")
		if h.Barred.Empty() == r.barred {
			t.Errorf("%s: barred %q, want %v (%s)", r.gap, say.Voice{}.Say(h.Barred), r.barred, r.from)
		}
	}
}

func TestTheMainIsOffOnlyWhenSomebodySaysSo(t *testing.T) {
	rows := []struct {
		name, lines string
		open        bool
	}{
		{"not entered", "", false},
		{"the switch is open", "switch/closed = no", true},
		{"the fuse is out", "fuse.main/closed = no", true},
		{"the fuse is in", "fuse.main/closed = yes", false},
		{"two answers", "switch/closed = no\nswitch/closed = yes", false},
	}
	for _, r := range rows {
		h := hold(t, fixture(t, twoByTwo, append(goodJob(), linksOn, r.lines)...), "main", "switch")
		if h.Passed() != r.open {
			t.Errorf("%s: open %v, want %v; shut: %v", r.name, h.Passed(), r.open, h.Shut())
		}
	}
	off := "switch/closed = no"
	for _, r := range []struct{ name, lines string }{
		{"precharged yesterday", "switch/precharge-left = 0.100 V, m1, at -30h"},
		{"nothing said of capacitors", "switch/precharge-left = 0.100 V, m1"},
	} {
		job := append(without("switch/precharge-left"), r.lines, off)
		if strings.HasPrefix(r.name, "nothing") {
			job = append(without("inverter1/"), off)
		}
		if hold(t, fixture(t, twoByTwo, job...), "main", "switch").Passed() {
			t.Errorf("%s: the main opens", r.name)
		}
	}
}

// A rival value lifts no bar, and neither does one beside "unsafe".
func TestARivalLiftsNoBar(t *testing.T) {
	rows := []struct{ name, gate, part, lines string }{
		{"a reversed block, another post disputed", "main", "switch", "b3.p/step-voltage = 13.000 V, m1\nb4.p/step-voltage = -13.601 V, m1"},
		{"a total disputed", "main", "switch", "bank/total-voltage = 13.2 V, m1"},
		{"the maker's number in series disputed", "series", "b1.n~b2.p", "sheet1/series-max = 1"},
		{"unsafe beside a torque", "main", "switch", "b1.p/torque-set = skip unsafe other"},
		{"unsafe beside a torque, a link", "series", "b1.n~b2.p", "b1.p/torque-set = skip unsafe other"},
		{"the last gap was unsafe", "parallel", "sA.n~sB.n", railOn + "\nsA.n~sB.n/last-gap = skip unsafe other"},
		{"unsafe, asked by no finding", "charge", "bank", "charge1.s1/sample-voltage = skip unsafe other"},
	}
	for _, r := range rows {
		h := hold(t, fixture(t, twoByTwo, append(goodJob(), r.lines)...), r.gate, r.part)
		if h.Barred.Empty() {
			t.Errorf("%s: an override is offered", r.name)
		}
	}
	if h := hold(t, fixture(t, twoByTwo, append(goodJob(), railOn)...), "parallel", "sA.n~sB.n"); !h.Barred.Empty() {
		t.Errorf("a gap that is not read bars: %q", h.Barred.English)
	}
}

// Every list of what is shut can be kept as an override, and printed.
func TestAnOverrideOfAnyHoldPointCanBeKept(t *testing.T) {
	banks := []bank.Layout{
		twoByTwo, bank.New(1, 1, bank.JoinStrings, bank.OneEnd), bank.New(5, 1, bank.JoinStrings, bank.OneEnd),
		bank.New(2, 2, bank.JoinGroups, bank.Diagonal), bank.New(1, 4, bank.JoinStrings, bank.EqualLeads), bank.New(2, 3, bank.JoinGroups, bank.EqualLeads),
	}
	for _, l := range banks {
		for _, lines := range [][]string{nil, {restedAlike + "sA.p~sB.p/closed = yes"}, goodJob()} {
			if lines != nil && l.Title() != twoByTwo.Title() {
				continue
			}
			f := fixture(t, l, lines...)
			Run(f)
			for _, h := range f.Holds() {
				if h.Passed() {
					continue
				}
				shut := h.Shut()
				if err := (job.Value{Kind: job.KindOverride, Over: shut, Who: "p1", X: job.Ref{Sum: strings.Repeat("0", 64), Len: job.Salt + 8, Type: "text/plain"}}).Validate(); err != nil {
					t.Errorf("%s: %s %s: %v", l.Title(), h.Gate, h.Part, err)
				}
				for _, s := range shut {
					id, _, _ := strings.Cut(s, "@")
					if _, ok := ClauseTitle(id); !ok && id != "voltage-class" {
						t.Errorf("%s: nothing to print for %q", h.Gate, id)
					}
				}
			}
		}
	}
}

// A link that is closed although its hold point is shut is said to be so.
func TestClosedAgainstTheHoldPoint(t *testing.T) {
	closedAll := railOn + "\n" + gapRead + "\nsA.n~sB.n/closed = yes"
	if h := hold(t, fixture(t, twoByTwo, append(goodJob(), "sA.n~sB.n/closed = no", railOn)...), "parallel", "sA.p~sB.p"); !h.Done || h.Breached() {
		t.Errorf("the first rail, closed as it should be: done %v, breached %v, shut %v", h.Done, h.Breached(), h.Shut())
	}
	if h := hold(t, fixture(t, twoByTwo, append(goodJob(), closedAll)...), "parallel", "sA.n~sB.n"); !h.Done || h.Breached() {
		t.Errorf("closed as it should be: done %v, breached %v, shut %v", h.Done, h.Breached(), h.Shut())
	}
	if h := hold(t, fixture(t, twoByTwo, append(goodJob(), railOn, "sA.n~sB.n/closed = yes")...), "parallel", "sA.n~sB.n"); !h.Breached() {
		t.Error("closed without the last gap, and nothing said")
	}
	if h := hold(t, fixture(t, twoByTwo, "switch/closed = yes"), "main", "switch"); !h.Breached() {
		t.Error("the main of an empty job is closed, and nothing said")
	}
	if h := hold(t, fixture(t, twoByTwo, goodJob()...), "main", "switch"); h.Breached() {
		t.Error("open and breached")
	}
}
