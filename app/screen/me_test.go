package screen

import (
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks/plain"
	"lugmark/checks/sample"
	"lugmark/core/job"
)

// second is a phone that has read in a record which another one wrote as its
// person 1, with that job open.
func second(t *testing.T) (*root, *opened) {
	t.Helper()
	here, there := newShelf(), newShelf()
	id := kept(t, phone(here), sample.List()[0])
	text, _, _, err := recordOf(here, true, id)
	if err != nil {
		t.Fatal(err)
	}
	r := phone(there)
	r.device.PublicKey = append([]byte(nil), r.device.PublicKey...)
	r.device.PublicKey[43]++ // another phone has another key
	if says, bad, _ := r.takeRecord(text); bad {
		t.Fatal(r.say(says))
	}
	j, err := r.load(id)
	if err != nil {
		t.Fatal(err)
	}
	r.job, r.path = j, "/j/"+id
	return r, j
}

// written keeps one reading as the app does, and says by whom.
func written(t *testing.T, r *root, j *opened) string {
	t.Helper()
	stamped, blobs, err := r.keepAct(j, "", nil, func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
		e, err := w.SetQuantity(at(), j.key("b1", "rest-voltage"), "13.282", "V", "", nil)
		return []job.Stamped{e}, nil, err
	})
	if err != nil {
		t.Fatal(err)
	}
	j.apply(stamped, blobs)
	return stamped[0].Event.By
}

// What is entered in a record that came from another phone is not kept, and
// never under the name of the other phone's person 1, before somebody has said
// who it is.
func TestASecondPhoneAsksWhoItIs(t *testing.T) {
	r, j := second(t)
	if j.me != "" {
		t.Fatalf("the second phone takes itself for %s", j.me)
	}
	events := len(r.device.Store.(*shelf).events[j.id])
	r.keepChoice(app.Context{}, "stage.wire", "hazards-read", "yes")
	if r.question == nil || len(r.device.Store.(*shelf).events[j.id]) != events {
		t.Fatal("it was kept without asking")
	}
	html := app.HTMLString(r.frame(r.view()))
	for _, want := range []string{"Who are you?", "I am " + j.text("p1", "name"), "Add me", "Not now: keep nothing"} {
		if !strings.Contains(html, want) {
			t.Errorf("%q is not asked", want)
		}
	}
	if _, _, err := r.keepAct(j, "", nil, func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
		e, err := w.SetQuantity(at(), j.key("b1", "rest-voltage"), "13.282", "V", "", nil)
		return []job.Stamped{e}, nil, err
	}); err == nil {
		t.Error("an entry without an author was stamped")
	}
}

// The answer holds for this job and this person: after the next opening too, and
// no longer once somebody else holds the phone.
func TestTheAnswerHoldsForThePersonWhoGaveIt(t *testing.T) {
	r, j := second(t)
	me := j.newPerson()
	r.am(j, me, "Jory Tam")
	if by := written(t, r, j); by != me || by == "p1" {
		t.Errorf("written by %s, want %s", by, me)
	}
	again, err := r.load(j.id)
	if err != nil || again.me != me {
		t.Errorf("opened again as %q, %v, want %s", again.me, err, me)
	}
	r.changeHolder("Mira Okoro")
	if r.job.me != "" {
		t.Errorf("somebody else holds the phone, and it goes on as %s", r.job.me)
	}
	r.changeHolder("Jory Tam") // that person has no name in the record yet, so nothing tells who it was
	if r.job.me != "" {
		t.Errorf("a name that is not in the record made the phone %s", r.job.me)
	}
}

// A phone that wrote a job before it remembered who holds it goes on as whom it
// wrote, where that person has the name of the holder.
func TestAPhoneKnowsItsOwnJobs(t *testing.T) {
	r := phone(newShelf())
	id := kept(t, r, sample.List()[0])
	for name, want := range map[string]string{"Ines Varga": "p1", "Jory Tam": "", "": ""} { // hand: jetty or hut, both by Ines Varga
		r.prefs.Name, r.prefs.Person = name, "p200000"
		j, err := r.load(id)
		if err != nil || j.text("p1", "name") != "Ines Varga" {
			t.Fatal(err, j.text("p1", "name"))
		}
		if j.me != want {
			t.Errorf("held by %q it is %q, want %q", name, j.me, want)
		}
	}
	r.bind(id, anyHolder, "p1")
	if j, _ := r.load(id); j.me != "p1" {
		t.Error("in an invented job somebody must say who it is")
	}
}

// Who brings a plain file in is one of its people only by name.
func TestWhoBringsAFileIn(t *testing.T) {
	for _, row := range []struct {
		holder, people, want string // want "" is a number of its own
		named                bool
	}{
		{"Ines Varga", `"p1": {"name": "Ines Varga"}, "p2": {"name": "Jory Tam"}`, "p1", true},
		{"Jory Tam", `"p1": {"name": "Ines Varga"}, "p2": {"name": "Jory Tam"}`, "p2", true},
		{"Mira Okoro", `"p1": {"name": "Ines Varga"}`, "", true},
		{"", `"p1": {"name": "Ines Varga"}`, "", false},
		{"Mira Okoro", `"site": {"kind": "boat"}`, "p1", true},
		{"", `"site": {"kind": "boat"}`, "p1", false},
	} {
		file, faults := plain.Parse([]byte(`{"lugmark": "job/1", "now": "2026-11-25T12:00:00Z", "parts": {` + row.people + `}}`))
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		r := phone(newShelf())
		r.prefs.Name = row.holder
		me, named := r.bringer(file)
		if named != row.named || row.want != "" && me != row.want || row.want == "" && len(me) != 7 {
			t.Errorf("%s brings in %s: %s, %v, want %q, %v", row.holder, row.people, me, named, row.want, row.named)
		}
		j, err := r.keepPlain("019ab3c0-1d00-7000-8000-000000000001", me, file, 0)
		if err != nil {
			t.Fatal(err)
		}
		if j.text(me, "name") != row.holder {
			t.Errorf("%s is called %q, want %q", me, j.text(me, "name"), row.holder)
		}
	}
}

// The technician of another phone signs other results: the signature of the
// first leaves the view, and the sheet can be sealed.
func TestASecondTechnicianSignsOtherResults(t *testing.T) {
	r, j := second(t)
	sign := func(me, digest string) {
		t.Helper()
		j.me = me
		_, ink := job.Personal(me, salt())
		s := job.Sign{Who: me, Role: "technician", How: job.Typed, Ink: ink, Digest: digest}
		past := j.pastSigns(s)
		stamped, blobs, err := r.keepAct(j, "", nil, func(w *job.Writer, at func() job.Stamp) (out []job.Stamped, _ []job.Blob, err error) {
			if len(past) > 0 {
				e, err := w.Void(at(), job.Key{}, "results-changed", job.Ref{}, past)
				if err != nil {
					return nil, nil, err
				}
				out = append(out, e)
			}
			e, err := w.Sign(at(), s)
			return append(out, e), nil, err
		})
		if err != nil {
			t.Fatal(err)
		}
		j.apply(stamped, blobs)
	}
	one, two := strings.Repeat("ab", 32), strings.Repeat("cd", 32)
	sign("p1", one)
	sign("p200000", one)
	if n := len(j.state.Signs()); n != 2 {
		t.Fatalf("%d signatures under the same results, want 2", n)
	}
	sign("p200000", two)
	if s := j.state.Signs(); len(s) != 1 || s[0].Body.Who != "p200000" {
		t.Fatalf("%d signatures in view, want the new one alone", len(s))
	}
	if _, err := j.writer.Seal(newStamp(), two, job.Ref{Sum: one, Len: 9, Type: "text/plain"}, "2026-11"); err != nil {
		t.Errorf("the seal is refused: %v", err)
	}
}
