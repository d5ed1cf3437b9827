package exchange

import (
	"slices"
	"testing"
	"time"

	"lugmark/core/job"
	"lugmark/core/seal"
)

func TestTwoPhonesAndAnOfficeBecomeEqual(t *testing.T) {
	o := &office{pieces: job.Blobs{}}
	a, b := newAuthor(t, 1), newAuthor(t, 2)
	one, two := newPhone(a.writes(120)...), newPhone(b.writes(3)...)
	note, blob := b.note("the lug is loose")
	two.has([]Event{note}, blob)
	for range 2 {
		if said := append(one.round(t, o), two.round(t, o)...); len(said) > 0 {
			t.Errorf("said %v", said)
		}
	}
	if len(o.rows) != 124 || len(one.events) != 124 || len(two.events) != 124 || one.Cursor() != two.Cursor() || one.Cursor() != o.log().End {
		t.Errorf("office %d, phones %d and %d", len(o.rows), len(one.events), len(two.events))
	}
	if string(one.blobs[blob.Sum]) != string(blob.Data) || one.Missing()+one.Waiting()+two.Waiting() != 0 {
		t.Error("the note's text did not arrive")
	}
}

// What was just pushed behind a known log is not read back.
func TestAPushMovesTheCursor(t *testing.T) {
	o := &office{}
	a := newAuthor(t, 1)
	p := newPhone(a.writes(5)...)
	p.round(t, o)
	asked := 0
	p.Begin()
	p.has(a.writes(2))
	for ask := p.Next(); ask.Kind != Nothing; ask = p.Next() {
		asked++
		step := p.Answer(ask, o.answer(t, ask, nil))
		p.Kept(*step.Keep)
	}
	if asked != 1 || p.Cursor() != o.log().End || len(o.rows) != 7 {
		t.Errorf("%d requests, cursor %v", asked, p.Cursor())
	}
}

// The reply to a push of the last round comes in this one: what it says of the
// office is old, and nothing may rest because of it.
func TestALateReplyChangesNothingOfTheRound(t *testing.T) {
	o := &office{}
	a := newAuthor(t, 1)
	p := newPhone(a.writes(3)...)
	p.Answer(p.Next(), Reply{Status: 200, Message: o.log().After(Decision{})})
	late := p.Next()
	p.Answer(late, Reply{}) // patience has ended
	p.Begin()
	now := p.Next()
	for _, r := range []Reply{{Status: 200, Message: o.log().After(Decision{})}, {Status: 410}, {},
		{Status: 422, Message: Message{Kind: Problem, Code: CodeRefused}}} {
		if step := p.Answer(late, r); step != (Step{}) {
			t.Errorf("%+v", step)
		}
	}
	p.Answer(now, o.answer(t, now, nil))
	if len(o.rows) == 0 || len(p.Next().Message.Events) == 0 { // pushes are small after a reply that never came
		t.Error("its stream rests")
	}
}

// A restored office gets back what it lost, also when it has grown past the
// cursor meanwhile, and from a phone that did not write it.
func TestARestoredOfficeIsHealedByAnyPhone(t *testing.T) {
	o := &office{}
	a, b := newAuthor(t, 1), newAuthor(t, 2)
	one, two := newPhone(a.writes(4)...), newPhone()
	one.round(t, o)
	backup := slices.Clone(o.rows)
	one.has(a.writes(3))
	one.round(t, o)
	two.round(t, o) // has all seven
	o.rows = backup
	three := newPhone(b.writes(9)...)
	three.round(t, o) // the office now has 13, more than the 7 of the cursor
	two.round(t, o)
	three.round(t, o)
	if len(o.rows) != 16 || len(two.events) != 16 || len(three.events) != 16 {
		t.Errorf("office %d, phones %d and %d; want 16", len(o.rows), len(two.events), len(three.events))
	}
}

// A copied profile that goes on in the same stream: nothing of either is lost,
// one way is in the log, the other stands aside, and both hear of it.
func TestAForkStandsAsideAndIsTold(t *testing.T) {
	o := &office{}
	a := newAuthor(t, 1)
	common := a.writes(2)
	twin := a.copied()
	one, two := newPhone(append(common, a.writes(3)...)...), newPhone(append(common, twin.writes(2)...)...)
	if said := one.round(t, o); len(said) > 0 {
		t.Errorf("the first said %v", said)
	}
	two.round(t, o)
	said := two.round(t, o)
	if !slices.Contains(said, Forked) || len(o.rows) != 5 || len(o.aside) != 2 {
		t.Errorf("said %v, log %d, aside %d", said, len(o.rows), len(o.aside))
	}
	if len(two.Aside()) != 3 || len(two.events) != 4 || two.Cursor() != o.log().End || two.Waiting() != 0 {
		t.Errorf("the copy: aside %d, held %d, waiting %d", len(two.Aside()), len(two.events), two.Waiting())
	}
	if said := one.round(t, o); !slices.Contains(said, Forked) {
		t.Error("the first does not hear of the fork")
	}
	o.aside = nil // an older backup
	two.round(t, o)
	if len(o.aside) != 2 {
		t.Error("what stood aside is not sent again")
	}
}

// The first event of a stream is there twice, the second time with another key.
// Who holds that key can put things aside, and can never go on in the log.
func TestAForeignKeyNeverEntersAStream(t *testing.T) {
	a := newAuthor(t, 1)
	good := a.writes(2)
	thief := newAuthor(t, 9)
	first := good[0].Event
	first.Open = &job.Open{Dev: newAuthorDev(thief), App: "test"}
	first.ID = thief.stamp().ID
	raw, err := job.Encode(first)
	if err != nil {
		t.Fatal(err)
	}
	first, _ = job.Decode(raw)
	o := &office{}
	newPhone(good...).round(t, o)
	l := o.log()
	d := l.Decide(seal.Verify, []Event{{first, seal.Sign(thief.key, first.Hash)}})
	if len(d.Aside) != 1 || len(d.Rows) != 0 {
		t.Fatalf("%+v", d)
	}
	o.aside = d.Aside
	next := a.writes(1)[0]
	next.Sig = seal.Sign(thief.key, next.Hash)
	if d := o.log().Decide(seal.Verify, []Event{next}); d.Refused == nil {
		t.Errorf("%+v", d)
	}
}

// The log has event 3 of one way; event 4 of the other comes alone.
func TestAnEventThatDoesNotFollowTheLogStandsAside(t *testing.T) {
	a := newAuthor(t, 1)
	common := a.writes(2)
	twin := a.copied()
	o := &office{}
	newPhone(append(common, a.writes(1)...)...).round(t, o)
	d := o.log().Decide(seal.Verify, twin.writes(2)[1:])
	if len(d.Rows) != 0 || len(d.Aside) != 1 {
		t.Errorf("%d rows, %d aside", len(d.Rows), len(d.Aside))
	}
}

// An office that refuses the cursor again and again is left alone.
func TestBeginningAgainTwiceEndsTheRound(t *testing.T) {
	o := &office{}
	p := newPhone(newAuthor(t, 1).writes(2)...)
	p.round(t, o)
	other := &office{}
	newPhone(newAuthor(t, 2).writes(3)...).round(t, other)
	p.Begin()
	for n := range 10 {
		ask := p.Next()
		reply := other.answer(t, ask, nil)
		if ask.Message.Kind == Pull {
			reply = Reply{Status: 410}
		}
		step := p.Answer(ask, reply)
		if step.Keep != nil {
			p.Kept(*step.Keep)
		}
		if step.Wait {
			return
		}
		if n == 9 {
			t.Error("it goes on")
		}
	}
}

func newAuthorDev(a *author) string { return a.writes(1)[0].Open.Dev }

func TestDecide(t *testing.T) {
	a := newAuthor(t, 1)
	e := a.writes(5)
	forged := e[1]
	forged.Sig = e[2].Sig
	other := newAuthor(t, 2).writes(1)
	for _, c := range []struct {
		name                       string
		has, push                  []Event
		rows, aside, repeated, gap int
		refused                    int // index, -1 none
		from                       string
	}{
		{"nothing", nil, nil, 0, 0, 0, 0, -1, "hand: no event, no row"},
		{"all new", nil, e, 5, 0, 0, 0, -1, "hand: five in order"},
		{"half repeated", e[:3], e, 2, 0, 3, 0, -1, "hand: 3 of 5 are there"},
		{"all repeated", e, e, 0, 0, 5, 0, -1, "hand"},
		{"a gap", e[:1], e[2:], 0, 0, 0, 3, -1, "hand: event 2 is missing before 3 4 5"},
		{"a gap beside another stream", nil, append(slices.Clone(e[1:]), other...), 1, 0, 0, 4, -1, "hand: the other stream is whole"},
		{"twice in one push", nil, []Event{e[0], e[0], e[1]}, 2, 0, 1, 0, -1, "hand"},
		{"a forged one", nil, []Event{e[0], forged, e[2]}, 0, 0, 0, 0, 1, "nothing of a push with an untrusted event is kept"},
	} {
		o := &office{}
		newPhone(c.has...).round(t, o)
		d := o.log().Decide(seal.Verify, c.push)
		refused := -1
		if d.Refused != nil {
			refused = d.Refused.Index
		}
		if len(d.Rows) != c.rows || len(d.Aside) != c.aside || d.Repeated != c.repeated || d.Early != c.gap || refused != c.refused {
			t.Errorf("%s: %d rows, %d aside, %d repeated, %d early, refused %d", c.name, len(d.Rows), len(d.Aside), d.Repeated, d.Early, refused)
		}
	}
}

func TestAPageThatCannotBeTrustedChangesNothing(t *testing.T) {
	o := &office{}
	newPhone(newAuthor(t, 1).writes(4)...).round(t, o)
	good := o.log().PageOf(Cursor{}, o.rows)
	twin := newAuthor(t, 1)
	twin.made = 50
	twins := twin.writes(1)
	for name, spoil := range map[string]func(*Message){
		"a signature of another event": func(m *Message) { m.Events[1].Sig = m.Events[2].Sig },
		"an event left out":            func(m *Message) { m.Events = slices.Delete(m.Events, 1, 2) },
		"two in the wrong order":       func(m *Message) { m.Events[1], m.Events[2] = m.Events[2], m.Events[1] },
		"another end":                  func(m *Message) { m.To.Acc[0]++ },
		"another job":                  func(m *Message) { m.Job = "019ab3c0-1d00-7000-8000-000000000002" },
		"two in one place":             func(m *Message) { m.Events = append(m.Events, twins[0]); m.To = m.To.Next(twins[0].Hash) },
		"another beginning":            func(m *Message) { m.From.N++ },
	} {
		p := newPhone()
		ask := p.Next()
		p.Answer(ask, o.answer(t, ask, nil))
		ask = p.Next()
		bad := good
		bad.Events = slices.Clone(good.Events)
		spoil(&bad)
		step := p.Answer(ask, Reply{Status: 200, Message: bad})
		if step.Trouble != Damaged || step.Keep != nil || !step.Wait {
			t.Errorf("%s: %+v", name, step)
		}
	}
}

func TestWhatThePhoneMakesOfAnAnswer(t *testing.T) {
	a := newAuthor(t, 1)
	events := a.writes(60)
	begin := func() (*phone, Ask) {
		p := newPhone(events...)
		p.Answer(p.Next(), Reply{Status: 200, Message: Message{Kind: Truth, Job: testJob}})
		return p, p.Next()
	}
	for _, c := range []struct {
		status  int
		trouble Trouble
		wait    bool
		next    int // events of the next push
		from    string
	}{
		{0, Away, true, 25, "half of the 50 of a first push"},
		{413, Away, false, 25, "half, and at once"},
		{401, Shut, true, 50, "nothing is thrown away"},
		{403, Shut, true, 50, "likewise"},
		{429, Away, true, 50, "the office is busy, not the line slow"},
		{503, Away, true, 50, "likewise"},
		{507, Full, true, 50, "likewise"},
		{400, Away, true, 50, "likewise"},
	} {
		p, ask := begin()
		if len(ask.Message.Events) != firstBatch {
			t.Fatalf("a first push of %d", len(ask.Message.Events))
		}
		step := p.Answer(ask, Reply{Status: c.status})
		if step.Trouble != c.trouble || step.Wait != c.wait || step.Keep != nil {
			t.Errorf("%d: %+v", c.status, step)
		}
		if n := len(p.Next().Message.Events); n != c.next {
			t.Errorf("%d: next %d", c.status, n)
		}
	}
	// Refused although it is good here: its stream rests until the next round.
	p, ask := begin()
	refusal := Reply{Status: 422, Message: Message{Kind: Problem, Code: CodeRefused, Index: 3}}
	if step := p.Answer(ask, refusal); step.Trouble != NotUnderstood || step.Wait {
		t.Errorf("%+v", step)
	}
	if next := p.Next(); len(next.Message.Events) != 0 {
		t.Errorf("it is sent again at once: %+v", next)
	}
	if p.Begin(); len(p.Next().Message.Events) == 0 {
		t.Error("it is never sent again")
	}
	// Refused and no longer as it was signed.
	spoilt := slices.Clone(events[:5])
	spoilt[3].Sig = spoilt[2].Sig
	p = newPhone(spoilt...)
	p.Answer(p.Next(), Reply{Status: 200, Message: Message{Kind: Truth, Job: testJob}})
	if step := p.Answer(p.Next(), refusal); step.Trouble != Spoilt {
		t.Errorf("%+v", step)
	}
}

func TestPause(t *testing.T) {
	for _, c := range []struct {
		failed  int
		random  uint64
		asked   time.Duration
		atLeast time.Duration
		atMost  time.Duration
		from    string
	}{
		{0, 0, 0, time.Second, time.Second, "never less than 1 s"},
		{1, 1<<64 - 1, 0, time.Second, 2 * time.Second, "the first bound, 2 s"},
		{4, 1<<64 - 1, 0, time.Second, 16 * time.Second, "2 s doubled three times"},
		{1000, 1<<64 - 1, 0, time.Second, 5 * time.Minute, "the last bound"},
		{1, 0, 30 * time.Second, 30 * time.Second, 30 * time.Second, "the office asked for it"},
		{1, 0, 900 * time.Hour, time.Hour, time.Hour, "no office keeps a phone away for days"},
	} {
		if got := Pause(c.failed, c.random, c.asked); got < c.atLeast || got > c.atMost {
			t.Errorf("%d failed: %v", c.failed, got)
		}
	}
}

func TestPhotosAreCutAndJoined(t *testing.T) {
	data := make([]byte, 2*job.Chunk+5)
	data[7], data[job.Chunk] = 1, 2
	whole, ref := job.NewBlob("image/jpeg", data)
	pieces, sums := Cut(whole)
	photo := job.Photo{Part: "b1", Blob: ref, Chunks: sums}
	if len(pieces) != 3 || photo.Validate() != nil {
		t.Fatalf("%d pieces, %v", len(pieces), photo.Validate())
	}
	at := job.Blobs{}
	for _, p := range pieces {
		if CheckPiece(p.Sum, p.Data) != nil || CheckPiece(p.Sum, data) == nil {
			t.Error("a piece is not checked")
		}
		at[p.Sum] = p.Data
	}
	if got, ok := Join(photo, at); !ok || string(got) != string(data) {
		t.Error("not joined")
	}
	delete(at, sums[2])
	if _, ok := Join(photo, at); ok {
		t.Error("joined without its end")
	}
}

// A piece waits as long as the office lacks an event.
func TestEventsGoBeforePhotos(t *testing.T) {
	o := &office{pieces: job.Blobs{}}
	a := newAuthor(t, 1)
	note, blob := a.note("scratch on the case")
	p := newPhone()
	p.has([]Event{note}, blob)
	p.has(a.writes(130))
	p.Begin()
	for ask := p.Next(); ask.Kind != Nothing; ask = p.Next() {
		if (ask.Kind == Put || ask.Message.Kind == Have) && len(o.rows) != 131 {
			t.Fatalf("a piece after %d events", len(o.rows))
		}
		if step := p.Answer(ask, o.answer(t, ask, blob.Data)); step.Keep != nil {
			p.Kept(*step.Keep)
		}
	}
	if o.pieces[blob.Sum] == nil {
		t.Error("it never came")
	}
}
