package checks

import (
	"encoding/json"
	"slices"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
)

// What was read at commissioning, all of it good, releases nothing at a return
// visit: neither as long as the bank stands, nor once it is built up again.
func TestAnEarlierVisitOpensNothing(t *testing.T) {
	for _, again := range []string{"v2: bank/marks-moved = no", "v2: bank/built-again = no", "v2: bank/built-again = yes",
		"v2: bank/built-again = skip cannot other"} {
		f := fixture(t, twoByTwo, append(goodJob(), "switch/capacitors = yes", "switch/closed = no", "fuse.main/closed = yes", "p2/name = Ines Varga", again)...)
		sound(t, Run(f))
		for _, h := range f.Holds() {
			if h.Passed() || h.Released() || h.Breached() {
				t.Errorf("%s: %s %s is open", again, h.Gate, h.Part)
			}
		}
	}
}

// A return visit asks what belongs to it, and all of it once something is
// opened or exchanged; a first visit knows nothing of return visits.
func TestEachVisitAsksItsOwn(t *testing.T) {
	asked := func(lines string) (out []Visits) {
		f := fixture(t, twoByTwo, lines)
		Run(f)
		for _, c := range All {
			if len(f.byCheck[c.ID]) > 0 && !slices.Contains(out, c.Visits) {
				out = append(out, c.Visits)
			}
		}
		slices.Sort(out)
		return out
	}
	for lines, want := range map[string][]Visits{
		"bank/links-clear = yes":                                {AtFirst, AtEach, WhenListed},
		"v2: bank/marks-moved = no":                             {AtReturn, AtEach},
		"v2: bank/built-again = no":                             {AtReturn, AtEach},
		"v2: bank/built-again = yes":                            {AtFirst, AtReturn, AtEach, WhenListed},
		"v3: bank/marks-moved = no":                             {AtReturn, AtEach},
		"v2: bank/built-again = yes\nv3: bank/marks-moved = no": {AtReturn, AtEach},
	} {
		if got := asked(lines); !slices.Equal(got, want) {
			t.Errorf("%q asks %v, want %v", lines, got, want)
		}
	}
}

// A link that the first visit left closed is closed until somebody says
// otherwise: joined blocks always read alike.
func TestALinkLeftClosedIsClosed(t *testing.T) {
	rest := "v2: bank/built-again = yes\nv2: bank/last-current = -14h\n"
	for _, b := range twoByTwo.Blocks() {
		rest += "v2: " + b + "/temperature = 18 C\nv2: " + b + "/rest-voltage = 13.600 V, m1\n"
	}
	for _, s := range []string{"sA", "sB"} {
		rest += "v2: " + s + "/total-voltage = 27.200 V, m1\n"
	}
	for _, r := range []struct {
		before, after string
		want          finding.Verdict
	}{
		{"sA.p~sB.p/closed = yes\n", "", finding.CantTell},
		{"sA.p~sB.p/closed = yes\n", "v2: sA.p~sB.p/closed = no\n", finding.Pass},
		{"sA.p~sB.p/closed = yes\nsA.p~sB.p/closed = no\n", "", finding.CantTell}, // two people disagree
		{"", "", finding.Pass},
	} {
		got, why := verdict(t, fixture(t, twoByTwo, goodMeter, r.before, r.after, rest), voltageMatch, "bank")
		if got != r.want {
			t.Errorf("%q then %q: %v (%s), want %v", r.before, r.after, got, why, r.want)
		}
	}
	f := fixture(t, twoByTwo, "b2.n~b3.p/closed = yes\nv2: bank/built-again = yes")
	if got, why := verdict(t, f, linksClearCheck, "bank"); got != finding.Fail {
		t.Errorf("a link that is not drawn was left on: %v (%s)", got, why)
	}
}

// A drawing that is another one than the last visit's is a bank that was built
// again, until somebody says that only the paper was wrong.
func TestAnotherDrawingIsBuiltAgain(t *testing.T) {
	other, err := json.Marshal(bank.New(2, 2, bank.JoinStrings, bank.Diagonal))
	if err != nil {
		t.Fatal(err)
	}
	for answer, want := range map[string]bool{"": true, "v2: bank/built-again = no": false, "v2: bank/built-again = yes": true} {
		f := fixture(t, twoByTwo, "v2: bank/marks-moved = no", answer)
		put(t, f.state, f.state.MaxLam(), "v2/bank/layout", job.Value{Kind: job.KindLayout, Layout: other}, fixtureNow)
		f = NewFacts(f.state, "v2", fixtureNow)
		Run(f)
		if got := len(f.byCheck[polaritySteps.ID]) > 0; got != want {
			t.Errorf("%q: asked as on the first day: %v", answer, got)
		}
	}
}

// Who stood by on the first day need not be here today, and a fuse that was in
// then need not be in now.
func TestPeopleAreNamedAtEachVisit(t *testing.T) {
	before := append(goodJob(), "fuse.main/closed = yes", "p2/name = Ines Varga", "v2: stage.prove/hazards-read = yes")
	for lines, want := range map[string]bool{
		"v2: bank/built-again = no":                            false,
		"v2: fuse.main/closed = yes":                           false,
		"v2: p2/name = Ines Varga":                             false,
		"v2: p2/name = Ines Varga\nv2: fuse.main/closed = yes": true,
	} {
		if got := hold(t, fixture(t, twoByTwo, append(before, lines)...), "test", "bank").Passed(); got != want {
			t.Errorf("%q: the test may begin: %v", lines, got)
		}
	}
	high := "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/charge-voltage-max = 15.1 V\nsheet1/series-max = 4\nbank/licensed-person = Ines Varga\nv2: bank/built-again = yes\n"
	for lines, want := range map[string]finding.Verdict{"": finding.CantTell, "v2: bank/licensed-person = Ines Varga": finding.Pass} {
		if got, why := verdict(t, fixture(t, fourInSeries, high, lines), voltageClass, "bank"); got != want {
			t.Errorf("%q: %v (%s)", lines, got, why)
		}
	}
}
