package screen

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/checks/plain"
	"lugmark/checks/sample"
	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// shown is a root with one sample open, without a browser.
func shown(t *testing.T, s sample.Sample) *root {
	t.Helper()
	file, faults := plain.Parse(s.Raw)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	state, blobs, err := file.State()
	if err != nil {
		t.Fatal(err)
	}
	j := &opened{id: state.Job(), me: "p1", visit: firstVisit, state: state, blobs: blobs}
	j.facts = checks.NewFacts(state, firstVisit, file.Now)
	j.findings = checks.Run(j.facts)
	return &root{ready: true, job: j, voice: say.Screen, prefs: prefs{Theme: "light", Paper: "a4"}, text: map[string]string{}, slips: map[string]say.Line{}, query: map[string]string{}}
}

// addresses lists every screen of a job.
func (r *root) addresses() []string {
	at := []string{"/", "/new", "/menu", "/check", r.to(), r.to("steps"), r.to("open"), r.to("charge"), r.to("handover"), r.to("layout"), r.to("part", "bank")}
	for _, s := range checks.Stages {
		at = append(at, r.to("stage", string(s)))
		for _, f := range r.forms(s) {
			at = append(at, r.way(f))
		}
	}
	for _, h := range r.job.holds() {
		at = append(at, r.to("hold", h.Gate, h.Part), r.to("part", h.Part))
	}
	for _, x := range r.job.findings {
		at = append(at, r.whyWay(x))
	}
	for _, b := range r.job.facts.Layout().Blocks() {
		at = append(at, r.to("part", b))
	}
	for _, f := range checks.Fields() {
		if parts := checks.RoundParts(r.job.facts.Layout(), f); f.Round && f.Kind == checks.Number && len(parts) > 0 {
			at = append(at, r.to("read", f.ID, parts[0]))
		}
	}
	return at
}

var unfilled = regexp.MustCompile(`\{[a-z-]+\}`)

// alike is how many addresses of one screen are drawn for each job: a bank of
// 256 blocks has thousands that differ by the name of a block.
const alike = 120

// Every screen of every sample draws, fills all its sentences, and has one h1.
func TestEveryScreenOfEverySampleDraws(t *testing.T) {
	shows := []*root{empty(t, bank.New(2, 5, bank.JoinStrings, bank.Diagonal)), empty(t, bank.New(16, 16, bank.JoinStrings, bank.OneEnd))}
	names := []string{"2S5P", "16S16P"}
	for _, s := range sample.List() {
		shows, names = append(shows, shown(t, s)), append(names, s.ID)
	}
	for i, r := range shows {
		name, n := names[i], 0
		of := map[string]int{}
		for _, at := range r.addresses() {
			if r.path = at; strings.Contains(at, "?") {
				r.path, _, _ = strings.Cut(at, "?")
			}
			if of[r.route().screen]++; of[r.route().screen] > alike {
				continue
			}
			path, query, _ := strings.Cut(at, "?limit=")
			r.path, r.query = path, map[string]string{"limit": query}
			if w := r.route(); w.screen == "read" {
				f, _ := checks.FieldOf(w.a, w.b)
				r.read = reading{field: f, part: w.b, parts: checks.RoundParts(r.job.facts.Layout(), f)}
			} else if w.screen == "new" {
				r.startNewJob()
			} else if w.screen == "layout" {
				r.startLayout()
			} else if w.screen == "enter" {
				r.enterForm(formAt(w.a, w.b, w.c))
			}
			html := app.HTMLString(r.frame(r.view()))
			if gap := unfilled.FindString(html); gap != "" {
				t.Errorf("%s %s: %s is not filled", name, at, gap)
			}
			if strings.Count(html, "<h1") != 1 {
				t.Errorf("%s %s: %d titles", name, at, strings.Count(html, "<h1"))
			}
			if strings.Contains(html, " style=") {
				t.Errorf("%s %s: a style attribute, which the content policy forbids", name, at)
			}
			n++
		}
		t.Logf("%s: %d screens", name, n)
	}
}

// The point sets itself: four digits and Keep enter 13.20.
func TestThePointSetsItself(t *testing.T) {
	rows := []struct{ keys, want, from string }{
		{"1320", "13.20", "hand"}, {"13282", "13.282", "hand"}, {"13.2", "13.2", "hand: typed points are left alone"},
		{"-1320", "-13.20", "hand: reversed"}, {"13", "13", "hand"},
	}
	f, _ := checks.FieldOf("rest-voltage", "b1")
	for _, row := range rows {
		text := ""
		for _, k := range row.keys {
			text = pointed(f, text, text+string(k), ".")
		}
		if text != row.want {
			t.Errorf("%s: got %s, want %s (%s)", row.keys, text, row.want, row.from)
		}
	}
	if got := pointed(f, "", "1320", "."); got != "13.20" {
		t.Errorf("1320 pasted: got %s, want 13.20 (hand)", got)
	}
	if got := pointed(f, "13.2", "1320", "."); got != "13.20" {
		t.Errorf("1320 faster than a frame: got %s, want 13.20 (hand)", got)
	}
	if got := pointed(f, "13.20", "1320", "."); got != "1320" {
		t.Errorf("the point of 13.20 taken away: got %s, want 1320 (hand)", got)
	}
	if got := pointed(f, "132", "1320", "."); got != "1320" {
		t.Errorf("1320 after the point was taken away: got %s, want 1320 (hand: it stays away)", got)
	}
}

// What is asked about a value that cannot be, and what is offered instead.
func TestAValueOutsidePhysicsIsAskedAbout(t *testing.T) {
	f, _ := checks.FieldOf("rest-voltage", "b1")
	for v, want := range map[float64]bool{132.0: true, 20: false, -20: false, 13.2: false, 20.01: true} {
		if outside(f, v) != want {
			t.Errorf("%v V on one block: outside %v, want %v (boundary: -20 to 20 V)", v, !want, want)
		}
	}
}

func TestTheNextStepComesInTheOrderOnSite(t *testing.T) {
	for _, s := range sample.List() {
		r := shown(t, s)
		x, ok := r.job.nextFinding()
		if !ok {
			continue
		}
		for _, y := range r.job.findings {
			if y.Verdict() == finding.ToDo && place(stageOf(y)) < place(stageOf(x)) {
				t.Errorf("%s: next is %s in %s, but %s in %s is to do", s.ID, x.Check(), stageOf(x), y.Check(), stageOf(y))
			}
		}
	}
}

func place(s checks.Stage) int {
	for i, x := range checks.Stages {
		if x == s {
			return i
		}
	}
	return -1
}

func TestClockNamesTheDayWhenItIsAnother(t *testing.T) {
	r := &root{}
	if got := r.clock(now()); strings.Contains(got, ",") {
		t.Errorf("today: %q", got)
	}
	if got := r.clock(now().Add(48 * time.Hour)); !strings.Contains(got, ",") {
		t.Errorf("in two days: %q", got)
	}
}
