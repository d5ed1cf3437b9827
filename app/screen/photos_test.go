package screen

import (
	"strings"
	"testing"
	"time"

	"lugmark/checks/sample"
	"lugmark/core/job"
)

// Above 95 % of the room no photo is kept, above 80 % it is said; from: the
// rule, boundary.
func TestRoomFor(t *testing.T) {
	for _, row := range []struct {
		used, quota int64
		want        room
	}{
		{0, 0, roomEnough}, {5, 0, roomEnough}, {0, 1000, roomEnough}, {800, 1000, roomEnough}, {801, 1000, roomNear},
		{950, 1000, roomNear}, {951, 1000, roomNone}, {2000, 1000, roomNone},
	} {
		if got := roomFor(row.used, row.quota); got != row.want {
			t.Errorf("%d of %d: %d, want %d", row.used, row.quota, got, row.want)
		}
	}
}

// From: hand, the longer side becomes 1600, the other in proportion.
func TestWithin(t *testing.T) {
	for _, row := range [][4]int{
		{4000, 3000, 1600, 1200}, {3000, 4000, 1200, 1600}, {1600, 1600, 1600, 1600}, {1601, 1, 1600, 1},
		{640, 480, 640, 480}, {16000, 3, 1600, 1}, {4032, 3024, 1600, 1200}, {3264, 1836, 1600, 900},
	} {
		if w, h := within(row[0], row[1], photoSide); w != row[2] || h != row[3] {
			t.Errorf("%d × %d becomes %d × %d, want %d × %d", row[0], row[1], w, h, row[2], row[3])
		}
	}
}

// How large something is, rounded up to a whole kilobyte of 1000; from: hand.
func TestBytes(t *testing.T) {
	r := phone(newShelf())
	for n, want := range map[int]string{1: "1\u00a0kB", 1000: "1\u00a0kB", 213_400: "214\u00a0kB", 4_120_000: "4.1\u00a0MB"} {
		if got := r.bytes(n); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}

// act keeps what stamp makes in a job of a phone.
func act(t *testing.T, r *root, j *opened, stamp stamper) []job.Stamped {
	t.Helper()
	stamped, blobs, err := r.keepAct(j, "", nil, stamp)
	if err != nil {
		t.Fatal(err)
	}
	j.apply(stamped, blobs)
	j.judge()
	return stamped
}

// withPhotos puts a sample on a phone, and two photos into it.
func withPhotos(t *testing.T) (r *root, j *opened, ids []string) {
	t.Helper()
	r = phone(newShelf())
	j, err := r.load(kept(t, r, sample.List()[1]))
	if err != nil {
		t.Fatal(err)
	}
	j.me = "p1"
	for _, at := range [][2]string{{"b1.p", ""}, {"bank", "arrival-photo"}} {
		times := map[string]int{"b1.p": 20000, "bank": 100}[at[0]] // of two pieces, and of one
		blob, body := job.NewPhoto(at[0], at[1], "image/jpeg", []byte(strings.Repeat("a picture of "+at[0], times)))
		made := act(t, r, j, func(w *job.Writer, stamp func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
			e, err := w.Photo(stamp(), body)
			return []job.Stamped{e}, []job.Blob{blob}, err
		})
		ids = append(ids, made[0].Event.ID)
	}
	r.job = j
	return r, j, ids
}

func TestPhotosOf(t *testing.T) {
	_, j, ids := withPhotos(t)
	for _, row := range []struct {
		part, field string
		want        []string
	}{
		{"", "", []string{ids[1], ids[0]}}, {"b1", "", []string{ids[0]}}, {"b1.p", "", []string{ids[0]}}, {"b2", "", nil},
		{"bank", "arrival-photo", []string{ids[1]}}, {"bank", "lug-photo", nil},
	} {
		var got []string
		for _, p := range j.photosOf(row.part, row.field) {
			got = append(got, p.ID)
		}
		if strings.Join(got, " ") != strings.Join(row.want, " ") {
			t.Errorf("photos of %q %q: %v, want %v", row.part, row.field, got, row.want)
		}
	}
}

// A record travels with its photos or without them, and photos that come later
// are filled in, but not those that were taken out of view.
func TestPhotosTravel(t *testing.T) {
	r, j, ids := withPhotos(t)
	act(t, r, j, func(w *job.Writer, stamp func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
		e, err := w.Void(stamp(), job.Key{}, whyErased, job.Ref{}, ids[:1])
		return []job.Stamped{e}, nil, err
	})
	with, n, _, err := recordOf(r.device.Store, true, j.id)
	if err != nil {
		t.Fatal(err)
	}
	without, m, _, err := recordOf(r.device.Store, false, j.id)
	if err != nil || n != m || len(with)-len(without) < inText(20000*len("a picture of b1.p")) {
		t.Fatalf("%d events in %d bytes, without photos %d in %d, %v", n, len(with), m, len(without), err)
	}
	other := phone(newShelf())
	if says, bad, _ := other.takeRecord(without); bad {
		t.Fatal(other.say(says))
	}
	if says, bad, _ := other.takeRecord(with); bad || !strings.Contains(other.say(says), "Missing photos that came with it: 1.") {
		t.Error(bad, other.say(says))
	}
	if says, _, _ := other.takeRecord(with); strings.Contains(other.say(says), "Missing") {
		t.Error("they come twice:", other.say(says))
	}
	back, err := other.load(j.id)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range back.state.Photos() {
		if _, there, _ := other.device.Store.Blob(j.id, p.Body.Blob.Sum); !there {
			t.Errorf("%s is not there", p.ID)
		}
	}
	if said(r, j.id, time.Now()) != said(other, j.id, time.Now()) {
		t.Error("the findings differ")
	}
}

// What can be erased: every text about people, in view or not, and every photo.
func TestPersonalOf(t *testing.T) {
	r, j, ids := withPhotos(t)
	act(t, r, j, func(w *job.Writer, stamp func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
		one, noted, err := w.Note(stamp(), "b2", "ask Ines Varga", salt())
		if err != nil {
			return nil, nil, err
		}
		k := j.key("p1", "name")
		two, named, err := w.SetPersonal(stamp(), k, "Ines Varga-Holm", salt(), j.state.Seen(k))
		if err != nil {
			return nil, nil, err
		}
		why, reason := job.Personal("she moved", salt())
		three, err := w.Void(stamp(), job.Key{}, whyErased, reason, ids[:1])
		if err != nil {
			return nil, nil, err
		}
		four, err := w.Set(stamp(), j.key("b1", "rest-voltage"), job.Value{Kind: job.KindSkip, Skip: job.SkipCannot, Why: "no-access", X: reason}, nil)
		return []job.Stamped{one, two, three, four}, []job.Blob{noted, named, why}, err
	})
	signed, _, _ := r.device.Store.Job(j.id)
	var events []job.Event
	for _, s := range signed {
		e, err := job.Decode(s.Raw)
		if err != nil {
			t.Fatal(err)
		}
		events = append(events, e)
	}
	var got []string
	for _, p := range personalOf(events) {
		text, here := job.Text(j.blobs, job.Ref{Sum: p.sums[0], Len: p.size})
		switch {
		case p.photo:
			text = map[bool]string{true: "gone", false: "there"}[p.erased]
		case !here:
			t.Errorf("%s of %s: no text", r.say(p.what), p.part)
		}
		if p.earlier {
			text += ", earlier"
		}
		got = append(got, p.part+": "+r.say(p.what)+": "+text)
	}
	list := "\n" + strings.Join(got, "\n") + "\n"
	for _, want := range []string{"b1.p: Photo: gone, earlier", "bank: Photo: there", "b2: Note: ask Ines Varga", "p1: Name: Ines Varga-Holm",
		"p1: Name: Ines Varga, earlier", ": Reason for taking something back: she moved"} {
		if !strings.Contains(list, "\n"+want+"\n") {
			t.Errorf("%q is not among%s", want, list)
		}
	}
}

// Nothing that was erased is said any more: the word for it stands in its place.
func TestErasedIsSaid(t *testing.T) {
	r, j, _ := withPhotos(t)
	e, _ := j.state.Lookup(j.visit, "site", "name", true)
	shelf := r.device.Store.(*shelf)
	delete(shelf.blobs[j.id], e.Value.X.Sum)
	again, err := r.load(j.id)
	if err != nil {
		t.Fatal(err)
	}
	if got := again.text("site", "name"); got != "(erased)" {
		t.Errorf("the site is called %q", got)
	}
	if line := r.summarise(again); line.Title != "(erased)" || line.Photos == 0 {
		t.Errorf("the list says %q, with %d bytes of photos", line.Title, line.Photos)
	}
	text, _, _, err := recordOf(shelf, true, j.id)
	if err != nil {
		t.Fatal(err)
	}
	if says, bad, _ := phone(newShelf()).takeRecord(text); bad {
		t.Error("the record no longer checks:", r.say(says))
	}
}
