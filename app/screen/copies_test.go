package screen

import (
	"bytes"
	"crypto/ed25519"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"lugmark/checks"
	"lugmark/checks/plain"
	"lugmark/checks/sample"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/seal"
)

// shelf is a store in memory that counts its acts and can be full.
type shelf struct {
	events map[string][]job.Signed
	blobs  map[string]map[string]job.Blob
	lines  map[string][]byte
	acts   []job.Act
	room   int // acts that still fit; below 0 any number
}

var errNoRoom = errors.New("no room")

func newShelf() *shelf {
	return &shelf{events: map[string][]job.Signed{}, blobs: map[string]map[string]job.Blob{}, lines: map[string][]byte{}, room: -1}
}

func (s *shelf) Keep(a job.Act) error {
	if s.room == 0 {
		return errNoRoom
	}
	s.room--
	s.acts = append(s.acts, a)
	s.events[a.Job] = append(s.events[a.Job], a.Events...)
	if s.blobs[a.Job] == nil {
		s.blobs[a.Job] = map[string]job.Blob{}
	}
	for _, b := range a.Blobs {
		if b.Type == "" {
			return fmt.Errorf("blob %s has no type", b.Sum)
		}
		s.blobs[a.Job][b.Sum] = b
	}
	if a.Summary != nil {
		s.lines[a.Job] = a.Summary
	}
	return nil
}

func (s *shelf) Job(id string) (events []job.Signed, blobs []job.Blob, err error) {
	for _, b := range s.blobs[id] {
		if strings.HasPrefix(b.Type, "text/") { // pictures are fetched one by one
			blobs = append(blobs, b)
		}
	}
	return s.events[id], blobs, nil
}

func (s *shelf) Blob(id, sum string) (job.Blob, bool, error) {
	b, there := s.blobs[id][sum]
	return b, there, nil
}
func (s *shelf) Summaries() (map[string][]byte, error) { return s.lines, nil }
func (s *shelf) PutDraft(string, string) error         { return nil }
func (s *shelf) Draft(string) (string, bool, error)    { return "", false, nil }
func (s *shelf) Erase(string, ...string) error         { return nil }
func (s *shelf) Forget(string) error                   { return nil }
func (s *shelf) Persist() (bool, bool)                 { return false, false }
func (s *shelf) Estimate() (int64, int64)              { return 0, 0 }
func (s *shelf) Watch(func(string)) (stop func())      { return func() {} }
func troubleOfShelf(err error) Trouble {
	if errors.Is(err, errNoRoom) {
		return Full
	}
	return Unclear
}

// phone is a root with a store and a key, without a browser.
func phone(s *shelf) *root {
	key := ed25519.NewKeyFromSeed(bytes.Repeat([]byte{9}, ed25519.SeedSize))
	return &root{ready: true, voice: say.Screen, text: map[string]string{}, slips: map[string]say.Line{}, query: map[string]string{},
		device: Device{Store: s, PublicKey: seal.EncodeKey(key.Public().(ed25519.PublicKey)), Soft: true, App: "lugmark test", Trouble: troubleOfShelf,
			Sign: func(hash []byte) ([]byte, error) { return seal.Sign(key, [32]byte(hash)), nil }}}
}

// kept puts a sample on a phone and returns its id.
func kept(t *testing.T, r *root, s sample.Sample) string {
	t.Helper()
	file, faults := plain.Parse(s.Raw)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	j, err := r.keepPlain(uuid.Must(uuid.NewV7()).String(), "p1", file, 0)
	if err != nil {
		t.Fatal(err)
	}
	return j.id
}

func said(r *root, id string, at time.Time) string {
	j, err := r.load(id)
	if err != nil {
		return err.Error()
	}
	var b strings.Builder
	for _, x := range checks.Run(checks.NewFacts(j.state, j.visit, at)) {
		fmt.Fprintln(&b, x.Check(), x.Part(), x.Verdict(), r.say(x.Reason()))
	}
	return b.String()
}

func nothing(int, int) {}

// takeRecord opens a record file as the Jobs screen does: one that is clean
// comes in at once, another is only offered.
func (r *root) takeRecord(raw []byte) (says say.Line, bad bool, jobs []string) {
	o, err := r.weigh(raw, nothing)
	if err != nil {
		return say.Phrase{English: err.Error()}.With(), true, nil
	}
	if !o.clean() {
		r.offer = o
		return o.says()[0], true, nil
	}
	says, bad = r.takeIn(o, nothing)
	for _, p := range o.plans {
		jobs = append(jobs, p.id)
	}
	return says, bad, jobs
}

// A record that was saved and opened on another phone says the same of the job,
// in acts of 100 entries at most, each with the texts that it names.
func TestASavedRecordSaysTheSameOnAnotherPhone(t *testing.T) {
	for _, s := range sample.List() {
		here, there := newShelf(), newShelf()
		one, two := phone(here), phone(there)
		id := kept(t, one, s)
		text, n, unread, err := recordOf(here, true, id)
		if err != nil || unread != 0 || n != len(here.events[id]) {
			t.Fatalf("%s: %d of %d entries, %d unread, %v", s.ID, n, len(here.events[id]), unread, err)
		}
		says, bad, jobs := two.takeRecord(text)
		if bad || len(jobs) != 1 || jobs[0] != id {
			t.Fatalf("%s: %s", s.ID, two.say(says))
		}
		at := time.Now()
		if a, b := said(one, id, at), said(two, id, at); a != b || a == "" {
			t.Errorf("%s: here\n%s\nthere\n%s", s.ID, a, b)
		}
		for _, act := range there.acts {
			named := map[string]bool{}
			for _, e := range act.Events {
				event, err := job.Decode(e.Raw)
				if err != nil {
					t.Fatal(err)
				}
				for _, x := range job.Refs(event) {
					named[x.Sum] = true
				}
			}
			for _, b := range act.Blobs {
				if !named[b.Sum] {
					t.Errorf("%s: blob %s came with entries that do not name it", s.ID, b.Sum)
				}
			}
			if len(act.Events) > 100 || act.Summary == nil {
				t.Errorf("%s: an act of %d entries, line %v", s.ID, len(act.Events), act.Summary != nil)
			}
		}
		before := len(there.acts)
		if says, bad, _ = two.takeRecord(text); bad || len(there.acts) != before || !strings.Contains(two.say(says), "0 new entries") {
			t.Errorf("%s: opened twice: %s, %d more acts", s.ID, two.say(says), len(there.acts)-before)
		}
	}
}

func TestWhatMailDoesToARecordIsPassedOver(t *testing.T) {
	here := newShelf()
	one := phone(here)
	id := kept(t, one, sample.List()[0])
	text, _, _, err := recordOf(here, true, id)
	if err != nil {
		t.Fatal(err)
	}
	for name, changed := range map[string][]byte{
		"CR LF": bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n")),
		"mark":  append([]byte("\ufeff"), text...),
	} {
		there := newShelf()
		says, bad, _ := phone(there).takeRecord(changed)
		if bad || !strings.Contains(one.say(says), "passed over") || len(there.events[id]) != len(here.events[id]) {
			t.Errorf("%s: %s", name, one.say(says))
		}
	}
}

// A phone that fills up in the middle says how much is in; the second opening
// brings the rest.
func TestAFullPhoneSaysHowMuchIsIn(t *testing.T) {
	here := newShelf()
	one := phone(here)
	var ids []string
	for _, s := range sample.List() {
		ids = append(ids, kept(t, one, s))
	}
	text, n, _, err := recordOf(here, true, ids...)
	if err != nil {
		t.Fatal(err)
	}
	there := newShelf()
	two := phone(there)
	there.room = 2
	says, bad, _ := two.takeRecord(text)
	if !bad || len(there.acts) != 2 || !strings.Contains(one.say(says), "no room left") {
		t.Fatalf("%d acts: %s", len(there.acts), one.say(says))
	}
	there.room = -1
	if says, bad, _ = two.takeRecord(text); bad {
		t.Fatal(one.say(says))
	}
	sum := 0
	for _, id := range ids {
		sum += len(there.events[id])
	}
	if sum != n {
		t.Errorf("%d of %d entries", sum, n)
	}
}

func TestFileNamesAreASCII(t *testing.T) {
	at := time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC)
	for title, want := range map[string]string{ // hand
		"Invented jetty":        "lugmark-invented-jetty-2026-11-25.txt",
		"Übungs-Hütte / Süd":    "lugmark-uebungs-huette-sued-2026-11-25.txt",
		"  .. ":                 "lugmark-job-2026-11-25.txt",
		"Выдуманный":            "lugmark-job-2026-11-25.txt",
		"Łąka 7, Nº 2":          "lugmark-laka-7-n-2-2026-11-25.txt",
		strings.Repeat("a", 90): "lugmark-" + strings.Repeat("a", 40) + "-2026-11-25.txt",
	} {
		if got := fileName(title, at, "txt"); got != want {
			t.Errorf("%q: %s, want %s", title, got, want)
		}
	}
}
