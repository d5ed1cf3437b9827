package screen

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/checks/sample"
	"lugmark/core/bank"
	"lugmark/core/job"
)

// empty is a root with a job that has nothing but a layout.
func empty(t *testing.T, l bank.Layout) *root {
	t.Helper()
	raw, err := json.Marshal(l)
	if err != nil {
		t.Fatal(err)
	}
	return shown(t, sample.Sample{ID: l.Title(), Raw: []byte(`{"lugmark": "job/1", "title": "Invented mast", "now": "2026-11-25T12:00:00Z", "layout": ` + string(raw) + `}`)})
}

var (
	openLink = regexp.MustCompile(`href="[^"]*\?open=([^"]*)"`)
	hitPart  = regexp.MustCompile(`data-part="([^"]*)"`)
	partLink = regexp.MustCompile(`href="/j/[^/"]*/part/([^"]*)"`)
)

func (r *root) at(address string) string {
	path, query, _ := strings.Cut(address, "?")
	r.path, r.query = path, map[string]string{}
	if name, value, ok := strings.Cut(query, "="); ok {
		r.query[name] = value
	}
	return app.HTMLString(r.frame(r.view()))
}

// Every block and every link of a bank of any size is on some drawing that the
// bank sheet leads to, and in the words.
func TestEveryBlockAndLinkIsReachable(t *testing.T) {
	for _, l := range []bank.Layout{
		bank.New(2, 2, bank.JoinStrings, bank.Diagonal),
		bank.New(4, 4, bank.JoinStrings, bank.Diagonal),
		bank.New(2, 5, bank.JoinStrings, bank.Diagonal),
		bank.New(2, 5, bank.JoinGroups, bank.Diagonal),
		bank.New(8, 3, bank.JoinGroups, bank.EqualLeads),
		bank.New(16, 16, bank.JoinStrings, bank.OneEnd),
		bank.New(16, 16, bank.JoinGroups, bank.Diagonal),
		bank.New(16, 16, bank.JoinStrings, bank.EqualLeads),
	} {
		name := l.Title() + " " + string(l.Join) + " " + string(l.Takeoff)
		r := empty(t, l)
		seen, on := map[string]bool{}, map[string]bool{}
		for todo := []string{""}; len(todo) > 0; todo = todo[1:] {
			if seen[todo[0]] {
				continue
			}
			seen[todo[0]] = true
			address := r.to()
			if todo[0] != "" {
				address += "?open=" + todo[0]
			}
			html := r.at(address)
			for _, m := range hitPart.FindAllStringSubmatch(html, -1) {
				on[m[1]] = true
			}
			for _, m := range openLink.FindAllStringSubmatch(html, -1) {
				todo = append(todo, m[1])
			}
		}
		words := map[string]bool{}
		r.panel = "words"
		for _, m := range partLink.FindAllStringSubmatch(r.at(r.to()), -1) {
			words[m[1]] = true
		}
		r.panel = ""
		parts := l.Blocks()
		for _, k := range l.Links() {
			parts = append(parts, k.ID)
		}
		for _, p := range parts {
			if !on[p] {
				t.Errorf("%s: %s is on no drawing", name, p)
			}
			if !words[p] {
				t.Errorf("%s: %s is not in the words", name, p)
			}
		}
		t.Logf("%s: %d drawings, %d parts", name, len(seen), len(on))
	}
}

// The sheet for paper draws every block of a large bank.
func TestThePaperDrawsEveryString(t *testing.T) {
	for _, l := range []bank.Layout{bank.New(2, 5, bank.JoinStrings, bank.Diagonal), bank.New(16, 16, bank.JoinStrings, bank.Diagonal), bank.New(2, 5, bank.JoinGroups, bank.Diagonal)} {
		r := empty(t, l)
		want := len(l.Units()) + 1
		if l.Join == bank.JoinGroups {
			want = 2*2 + 1 // hand: groups of five are drawn as three and two
		}
		if got := len(r.sheetDrawings(l)); got != want {
			t.Errorf("%s: %d drawings, want %d", l.Title(), got, want)
		}
	}
}

// Changing the layout keeps the blocks, lists what left, and needs one entry.
func TestAChangedLayoutKeepsTheBlocksAndListsWhatLeft(t *testing.T) {
	r := shown(t, sample.List()[0])
	old := r.job.facts.Layout()
	r.path = r.to("layout")
	r.startLayout()
	if got := r.changedLayout(); !slices.Equal(got.Place, old.Place) || got.Takeoff != old.Takeoff || got.Join != old.Join {
		t.Errorf("opened and not touched: %+v, was %+v", got, old)
	}
	r.draft = newJob{series: 1, parallel: 1}
	l := r.changedLayout()
	if l.Blocks()[0] != old.Blocks()[0] || len(l.Blocks()) != 1 {
		t.Errorf("one block left: %v", l.Blocks())
	}
	gone := r.leaving(l)
	if len(gone) == 0 {
		t.Error("nothing left the drawing")
	}
	for _, k := range gone {
		if bank.Exists(l, k.Part) {
			t.Errorf("%v is in the drawing", k)
		}
	}
	if html := r.at(r.to("layout")); !strings.Contains(html, "No longer in the drawing") {
		t.Error("the form does not say that entries leave")
	}
}

// Two layouts that disagree: every screen of the job still draws, and the bank
// sheet offers the choice.
func TestALayoutInConflictCanBeChosen(t *testing.T) {
	r := phone(newShelf())
	id := kept(t, r, sample.List()[0])
	j, err := r.load(id)
	if err != nil {
		t.Fatal(err)
	}
	j.me = "p1"
	raw, _ := json.Marshal(bank.New(1, 1, bank.JoinStrings, bank.OneEnd))
	stamped, blobs, err := r.keepAct(j, "", nil, func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
		e, err := w.Set(at(), j.key("bank", "layout"), job.Value{Kind: job.KindLayout, Layout: raw}, nil)
		return []job.Stamped{e}, nil, err
	})
	if err != nil {
		t.Fatal(err)
	}
	j.apply(stamped, blobs)
	j.judge()
	r.job = j
	if r.job.facts.HasLayout() {
		t.Fatal("there is no conflict")
	}
	if html := r.at(r.to()); !strings.Contains(html, "Two values: Layout") || !strings.Contains(html, "1S × 1P") {
		t.Error("the bank sheet does not offer the choice")
	}
	for _, at := range []string{r.to("steps"), r.to("open"), r.to("handover"), r.to("layout"), r.to("part", "bank"), r.to("stage", string(checks.Wire))} {
		if r.path = at; strings.HasSuffix(at, "/layout") {
			r.startLayout()
		}
		if html := r.at(at); strings.Contains(html, "has a fault") {
			t.Errorf("%s does not draw", at)
		}
	}
}
