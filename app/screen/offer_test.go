package screen

import (
	"bytes"
	"encoding/hex"
	"slices"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks/sample"
	"lugmark/core/job"
	"lugmark/core/record"
	"lugmark/core/say"
)

// saved is the record of a sample as one phone keeps it, and that phone.
func savedSample(t *testing.T) (one *root, here *shelf, id string, text []byte) {
	t.Helper()
	here = newShelf()
	one = phone(here)
	id = kept(t, one, sample.List()[0])
	text, _, _, err := recordOf(here, true, id)
	if err != nil {
		t.Fatal(err)
	}
	return one, here, id, text
}

// box is what stands in the offer, as text.
func (r *root) box() string {
	var out strings.Builder
	for _, x := range r.offerBox() {
		out.WriteString(app.HTMLString(x))
	}
	return out.String()
}

// Of a damaged record nothing is brought in unasked. What is whole can be.
func TestADamagedRecordIsOfferedAndNamesItsLine(t *testing.T) {
	_, here, id, text := savedSample(t)
	lines := bytes.Split(text, []byte("\n"))
	lines[4] = bytes.Replace(lines[4], []byte(`"at":"20`), []byte(`"at":"21`), 1)
	lines[7] = lines[7][1:]
	there := newShelf()
	two := phone(there)
	says, bad, _ := two.takeRecord(bytes.Join(lines, []byte("\n")))
	if !bad || len(there.acts) != 0 || !strings.Contains(two.say(says), "line 8: begins neither") && !strings.Contains(two.say(says), "line 5") {
		t.Fatalf("%d acts: %s", len(there.acts), two.say(says))
	}
	whole := len(here.events[id]) - 2 // hand: one cannot be read, one is forged
	box := two.box()
	for _, want := range []string{"Line 5: ", "Entries that are whole: " + itoa(whole) + " of " + itoa(whole+1),
		"Entries that cannot be trusted: 1.", "Bring in the " + itoa(whole) + " entries that are whole", "Bring in nothing", "added as a new job: Invented"} {
		if !strings.Contains(box, want) {
			t.Errorf("%q is not offered in\n%s", want, box)
		}
	}
	says, bad = two.takeIn(two.offer, nothing)
	if bad || len(there.events[id]) != whole || !strings.Contains(two.say(says), "Added as a new job: Invented") {
		t.Errorf("%d of %d entries: %s", len(there.events[id]), whole, two.say(says))
	}
	for _, e := range there.events[id] {
		if bytes.Contains(e.Raw, []byte(`"at":"21`)) {
			t.Error("a forged entry came in")
		}
	}
	// The sound file brings the rest, and says to what.
	says, bad, _ = two.takeRecord(text)
	if bad || len(there.events[id]) != whole+2 || !strings.Contains(two.say(says), "2 new entries") || !strings.Contains(two.say(says), "what was missing came: Invented") {
		t.Errorf("%d entries: %s", len(there.events[id]), two.say(says))
	}
}

// A text that was damaged on its way comes with the next file, although the
// entry that names it is here.
func TestAMissingTextIsBrought(t *testing.T) {
	one, here, id, text := savedSample(t)
	there := newShelf()
	two := phone(there)
	at := bytes.Index(text, []byte("\nb ")) + 4
	spoiled := bytes.Clone(text)
	spoiled[at] ^= 1
	if _, bad, _ := two.takeRecord(spoiled); !bad {
		t.Fatal("a text that is not what its sum says")
	}
	two.takeIn(two.offer, nothing)
	if len(there.blobs[id]) != len(here.blobs[id])-1 {
		t.Fatalf("%d texts of %d", len(there.blobs[id]), len(here.blobs[id]))
	}
	says, bad, jobs := two.takeRecord(text)
	if bad || len(there.blobs[id]) != len(here.blobs[id]) || len(jobs) != 1 || !strings.Contains(one.say(says), "0 new entries") {
		t.Errorf("%d texts of %d, jobs %v: %s", len(there.blobs[id]), len(here.blobs[id]), jobs, one.say(says))
	}
}

// Two records that hold different entries in one place: nothing is written
// unasked, and of that stream nothing at all from there on.
func TestAForkIsSeenBeforeTheFirstWrite(t *testing.T) {
	one, here, id, text := savedSample(t)
	c, _ := record.Read(text)
	// Another phone with a copy of the key went on otherwise from entry 9.
	events := slices.Clone(here.events[id][:8])
	s := job.New(id)
	w := job.NewWriter(job.Author{By: "p1", Key: one.device.PublicKey, Soft: true, App: "lugmark test"}, [16]byte{1}, s)
	st, err := w.Start(newStamp(), job.KindBank)
	if err != nil {
		t.Fatal(err)
	}
	raw := bytes.Replace(st.Event.Raw, []byte(st.Event.Stream), []byte(events[7].Stream), 1)
	there := newShelf()
	two := phone(there)
	there.blobs[id] = here.blobs[id]
	there.events[id] = append(events, job.Signed{Job: id, Stream: events[7].Stream, Seq: 9, Raw: seqNine(t, raw, events[7])})
	says, bad, _ := two.takeRecord(text)
	if !bad || len(there.acts) != 0 || !strings.Contains(one.say(says), "differ at line "+itoa(c.Lines[8])) {
		t.Fatalf("%d acts: %s", len(there.acts), one.say(says))
	}
	box := two.box()
	if all := len(c.Events); !strings.Contains(box, "Entries that go another way: "+itoa(all-8)+".") || !strings.Contains(box, "nothing in it to bring in") || strings.Contains(box, "Bring in the") {
		t.Errorf("%s", box)
	}
}

// seqNine makes event 9 of a stream out of a first one.
func seqNine(t *testing.T, raw []byte, before job.Signed) []byte {
	t.Helper()
	e, err := job.Decode(raw)
	if err != nil {
		t.Fatal(err)
	}
	last, err := job.Decode(before.Raw)
	if err != nil {
		t.Fatal(err)
	}
	e.Seq, e.Prev, e.Open = 9, hexOf(last.Hash), nil
	out, err := job.Encode(e)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestAnOfferNamesAFewJobs(t *testing.T) {
	var o offer
	for _, title := range []string{"a", "b", "c", "d", "e"} {
		o.plans = append(o.plans, arrival{title: title, fresh: true})
	}
	o.plans = append(o.plans, arrival{title: "f"})
	if got, want := say.Screen.Say(o.jobs()), "Added as a new job: a, b, c and 2 more. Here before, and what was missing came: f. "; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func hexOf(hash [32]byte) string { return hex.EncodeToString(hash[:]) }
