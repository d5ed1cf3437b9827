package exchange

import (
	"crypto/ed25519"
	"fmt"
	"strconv"
	"testing"
	"time"

	"lugmark/core/job"
	"lugmark/core/seal"
)

const testJob = "019ab3c0-1d00-7000-8000-000000000001"

var testTime = time.Date(2026, 11, 25, 8, 5, 39, 0, time.UTC)

// author writes the events of one invented stream; its state is what it saw.
type author struct {
	t     testing.TB
	key   ed25519.PrivateKey
	state *job.State
	w     *job.Writer
	made  int
	n     byte
}

func newAuthor(t testing.TB, n byte) *author {
	key := ed25519.NewKeyFromSeed(append(make([]byte, 31), n))
	a := &author{t: t, key: key, state: job.New(testJob), n: n}
	a.w = job.NewWriter(job.Author{By: "p1", Key: seal.EncodeKey(key.Public().(ed25519.PublicKey)), App: "test"}, [16]byte{n}, a.state)
	return a
}

// copied is the author as a copied profile has it: it goes on in the same stream.
func (a *author) copied() *author {
	b := *a
	w := *a.w
	b.w, b.made = &w, a.made+100
	return &b
}

func (a *author) stamp() job.Stamp {
	a.made++
	return job.Stamp{Now: testTime, ID: fmt.Sprintf("019ab3c0-1d00-7000-80%02x-%012x", a.n, a.made)}
}

func (a *author) sign(s job.Stamped, err error) Event {
	a.t.Helper()
	if err != nil {
		a.t.Fatal(err)
	}
	return Event{s.Event, seal.Sign(a.key, s.Hash)}
}

// writes returns so many readings of block 1.
func (a *author) writes(n int) (out []Event) {
	for range n {
		out = append(out, a.sign(a.w.SetQuantity(a.stamp(), job.Key{Visit: "v1", Part: "b1", Field: "rest-voltage"},
			"13."+strconv.Itoa(100+a.made), "V", "m1", nil)))
	}
	return out
}

func (a *author) note(text string) (Event, job.Blob) {
	s, blob, err := a.w.Note(a.stamp(), "b1", text, [job.Salt]byte{a.n, byte(a.made)})
	return a.sign(s, err), blob
}

// office is a log in memory, as a database would keep it.
type office struct {
	rows   []Row
	aside  []Event
	pieces job.Blobs
}

func (o *office) log() *Log {
	l := &Log{Job: testJob, Heads: map[string]job.Head{}, Keys: map[string]Key{}, Aside: o.aside}
	at := map[string][32]byte{}
	for _, r := range o.rows {
		l.End = r.Cursor
		l.Heads[r.Stream] = r.head()
		if r.Seq == 1 {
			l.Keys[r.Stream] = KeyOf(r.Event.Event)
		}
		at[r.Stream+strconv.Itoa(r.Seq)] = r.Hash
	}
	l.Hash = func(stream string, seq int) ([32]byte, bool) {
		h, ok := at[stream+strconv.Itoa(seq)]
		return h, ok
	}
	l.Acc = func(n int) ([32]byte, bool) {
		if n > len(o.rows) {
			return [32]byte{}, false
		}
		return o.rows[n-1].Acc, true
	}
	return l
}

func (o *office) answer(t testing.TB, ask Ask, data []byte) Reply {
	t.Helper()
	switch ask.Kind {
	case Put:
		o.pieces[ask.Sum] = data
		return Reply{Status: 201}
	case Get:
		if data, ok := o.pieces[ask.Sum]; ok {
			return Reply{Status: 200, Data: data}
		}
		return Reply{Status: 404}
	}
	m, err := Decode(Encode(ask.Message))
	if err != nil {
		t.Fatal(err)
	}
	reply, status := Message{}, 200
	switch m.Kind {
	case Push:
		l := o.log()
		d := l.Decide(seal.Verify, m.Events)
		if d.Refused != nil {
			return Reply{Status: 422, Message: Message{Kind: Problem, Code: CodeRefused, Index: d.Refused.Index, Why: d.Refused.Why}}
		}
		o.rows, o.aside = append(o.rows, d.Rows...), append(o.aside, d.Aside...)
		if reply = l.After(d); len(d.Aside) > 0 {
			status = 409
		}
	case Pull:
		if l := o.log(); !l.Names(m.From) {
			return Reply{Status: 410, Message: Message{Kind: Problem, Code: CodeCursor}}
		}
		reply = o.log().PageOf(m.From, o.rows[m.From.N:])
	case Have:
		reply = Message{Kind: Lack, Job: testJob}
		for _, sum := range m.Sums {
			if o.pieces[sum] == nil {
				reply.Sums = append(reply.Sums, sum)
			}
		}
	}
	if reply, err = Decode(Encode(reply)); err != nil {
		t.Fatal(err)
	}
	return Reply{Status: status, Message: reply}
}

// phone is a Phone and what its store has.
type phone struct {
	*Phone
	blobs  job.Blobs
	events map[[32]byte]bool
}

func newPhone(events ...Event) *phone {
	p := &phone{NewPhone(testJob, seal.Verify, Held{}), job.Blobs{}, map[[32]byte]bool{}}
	p.has(events)
	return p
}

func (p *phone) has(events []Event, blobs ...job.Blob) {
	p.Hold(events, blobs)
	p.keep(Keep{Events: events, Blobs: blobs})
}

func (p *phone) keep(k Keep) {
	for _, e := range k.Events {
		p.events[e.Hash] = true
	}
	for _, b := range k.Blobs {
		p.blobs[b.Sum] = b.Data
	}
}

// round is one round without a fault on the way; it returns every trouble.
func (p *phone) round(t testing.TB, o *office) (said []Trouble) {
	t.Helper()
	p.Begin()
	for n := 0; ; n++ {
		ask := p.Next()
		if ask.Kind == Nothing {
			return said
		}
		if n > 100 {
			t.Fatalf("a round has no end: %+v", ask)
		}
		step := p.Answer(ask, o.answer(t, ask, p.blobs[ask.Sum]))
		if step.Trouble != Fine {
			said = append(said, step.Trouble)
		}
		if step.Keep != nil {
			p.keep(*step.Keep)
			p.Kept(*step.Keep)
		}
		if step.Wait {
			return said
		}
	}
}
