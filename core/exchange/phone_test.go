package exchange

import (
	"strings"
	"testing"

	"lugmark/core/job"
	"lugmark/core/seal"
)

// heard is a phone that has heard of an office without anything.
func heard(events ...Event) *phone {
	p := newPhone(events...)
	p.Answer(p.Next(), Reply{Status: 200, Message: Message{Kind: Truth, Job: testJob}})
	return p
}

func TestAnEventTooLargeByItselfRests(t *testing.T) {
	p := heard(newAuthor(t, 1).writes(1)...)
	if step := p.Answer(p.Next(), Reply{Status: 413}); step.Wait {
		t.Errorf("%+v", step)
	}
	if ask := p.Next(); ask.Kind != Nothing {
		t.Errorf("%+v", ask)
	}
}

// What an office takes without having it, and what it does not, is not sent
// again in the round.
func TestNothingIsSentTwiceInARound(t *testing.T) {
	events := newAuthor(t, 1).writes(3)
	p := heard(events...)
	step := p.Answer(p.Next(), Reply{Status: 200, Message: Message{Kind: Truth, Job: testJob}})
	if ask := p.Next(); step.Wait || ask.Kind != Nothing {
		t.Errorf("%+v, then %+v", step, ask)
	}
	if p.Begin(); len(p.Next().Message.Events) != 3 {
		t.Error("nor in the next one")
	}
}

// A truth with one head that nobody knows keeps a stream from being sent. When
// the whole log is here the phone asks again, once.
func TestADamagedTruthIsAskedForAgain(t *testing.T) {
	o := &office{}
	a := newAuthor(t, 1)
	p := newPhone(a.writes(2)...)
	p.round(t, o)
	p.has(a.writes(1))
	p.Begin()
	bad := o.log().After(Decision{})
	bad.Heads[0].Hash[0]++
	p.Answer(p.Next(), Reply{Status: 200, Message: bad})
	ask := p.Next()
	if ask.Message.Kind != Push || len(ask.Message.Events) != 0 {
		t.Fatalf("it asks %+v", ask)
	}
	p.Answer(ask, o.answer(t, ask, nil))
	if ask := p.Next(); len(ask.Message.Events) != 1 {
		t.Errorf("it asks %+v", ask)
	}
	p.Begin()
	for range 2 {
		p.Answer(p.Next(), Reply{Status: 200, Message: bad})
	}
	if ask := p.Next(); ask.Kind != Nothing {
		t.Errorf("it asks %+v", ask)
	}
}

// A hole: what comes behind it cannot be taken by anybody, and is not sent.
func TestWhatHasAHoleBeforeItIsNotSent(t *testing.T) {
	events := newAuthor(t, 1).writes(4)
	p := heard(events[0], events[2], events[3])
	if ask := p.Next(); len(ask.Message.Events) != 1 {
		t.Errorf("%d events", len(ask.Message.Events))
	}
	p.Hold(events, nil)
	if ask := p.Next(); len(ask.Message.Events) != 4 {
		t.Errorf("%d events", len(ask.Message.Events))
	}
}

// A damaged record file has brought 1 and 3; the office has all five.
func TestAPageFillsAHole(t *testing.T) {
	o := &office{}
	events := newAuthor(t, 1).writes(5)
	newPhone(events...).round(t, o)
	p := newPhone(events[0], events[2])
	if said := p.round(t, o); len(said) > 0 || len(p.events) != 5 {
		t.Errorf("said %v, %d events", said, len(p.events))
	}
	p = newPhone(events[2]) // not even the first, and with it the key
	if said := p.round(t, o); len(said) > 0 || len(p.events) != 5 {
		t.Errorf("said %v, %d events", said, len(p.events))
	}
}

func TestPiecesThatDoNotComeThrough(t *testing.T) {
	a := newAuthor(t, 1)
	data := make([]byte, job.Chunk+3)
	whole, ref := job.NewBlob("image/jpeg", data)
	pieces, sums := Cut(whole)
	at := a.stamp()
	e := a.sign(a.w.Stamp(at.Now, at.ID, job.Key{}, job.Photo{Part: "b1", Blob: ref, Chunks: sums}, nil))
	if got := Pieces(e.Event); len(got) != 2 || got[1] != (Piece{sums[1], "image/jpeg"}) {
		t.Fatalf("%v", got)
	}
	o := &office{pieces: job.Blobs{}}
	p := newPhone()
	p.has([]Event{e}, pieces...)
	for _, status := range []int{404, 413, 422} {
		p.Begin()
		puts := 0
		for ask := p.Next(); ask.Kind != Nothing; ask = p.Next() {
			reply := Reply{Status: status}
			if ask.Kind != Put {
				reply = o.answer(t, ask, nil)
			} else {
				puts++
			}
			if step := p.Answer(ask, reply); step.Keep != nil {
				p.Kept(*step.Keep)
			} else if step.Wait {
				t.Fatalf("%d: %+v", status, step)
			}
		}
		if puts != 2 {
			t.Errorf("%d: %d pieces in one round", status, puts)
		}
	}
	p.round(t, o)
	if len(o.pieces) != 2 {
		t.Errorf("%d pieces came", len(o.pieces))
	}
	// On the other side other bytes come, then the right ones.
	two := newPhone()
	bad := &office{rows: o.rows, pieces: job.Blobs{sums[0]: data[:5], sums[1]: pieces[1].Data}}
	if said := two.round(t, bad); len(said) != 1 || said[0] != Damaged || two.Missing() != 1 {
		t.Errorf("said %v, %d missing", said, two.Missing())
	}
	if said := two.round(t, o); len(said) != 0 || two.Missing() != 0 {
		t.Errorf("said %v, %d missing", said, two.Missing())
	}
	if err := CheckPiece(sums[0], make([]byte, MaxPiece+1)); err == nil || !strings.Contains(err.Error(), "at most") {
		t.Errorf("%v", err)
	}
	// A program that starts again knows what is here.
	again := NewPhone(testJob, seal.Verify, Held{Events: []Event{e}, Pieces: sums, Cursor: two.Cursor()})
	if again.Missing() != 0 || again.Cursor() != o.log().End {
		t.Error("it begins with less than it has")
	}
}

// Large events: messages stay below their limit, and everything arrives.
func TestMessagesStayBelowTheirLimit(t *testing.T) {
	a := newAuthor(t, 1)
	var events []Event
	for range 450 {
		events = append(events, a.sign(a.w.SetText(a.stamp(), job.Key{Visit: "v1", Part: "b1", Field: "serial"}, strings.Repeat("x", 8100), nil)))
	}
	o := &office{}
	p := newPhone(events...)
	p.batch = MaxEvents
	p.round(t, o)
	two := newPhone()
	two.round(t, o)
	if len(o.rows) != 450 || len(two.events) != 450 {
		t.Errorf("office %d, phone %d", len(o.rows), len(two.events))
	}
	if n := len(o.log().PageOf(Cursor{}, o.rows).Events); n == 450 || n == 0 {
		t.Errorf("a page of %d large events", n)
	}
}

func TestReadsWhatAStoreKeeps(t *testing.T) {
	e := newAuthor(t, 1).writes(1)[0]
	if got, err := Read(e.Signed()); err != nil || got.Hash != e.Hash || string(got.Sig) != string(e.Sig) {
		t.Errorf("%v", err)
	}
	if _, err := Read(job.Signed{Raw: []byte("{}")}); err == nil {
		t.Error("no event is read")
	}
}

// An event of another job never comes this far; a decision refuses it all the
// same. Nor does a key of a kind that is not known.
func TestDecideRefusesStrangers(t *testing.T) {
	a := newAuthor(t, 1)
	e := a.writes(1)[0]
	l := (&office{}).log()
	l.Job = "019ab3c0-1d00-7000-8000-000000000002"
	if d := l.Decide(seal.Verify, []Event{e}); d.Refused == nil {
		t.Error("of another job")
	}
	e.Open = &job.Open{Dev: "AAAA", App: "test"}
	raw, err := job.Encode(e.Event)
	if err != nil {
		t.Fatal(err)
	}
	e.Event, _ = job.Decode(raw)
	if d := (&office{}).log().Decide(seal.Verify, []Event{e}); d.Refused == nil {
		t.Error("with an unknown key")
	}
}
