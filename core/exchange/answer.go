package exchange

import (
	"slices"
	"time"

	"lugmark/core/job"
)

// quick is how long a push may take for the next one to be twice as large.
const quick = 2 * time.Second

// Answer takes what came of an ask. It may come late, twice or never. Nothing
// that arrives is believed before it was kept; see [Step]. From a reply that
// comes when something else has been asked, only events and pieces are taken:
// what it says of the office is no longer the truth of now.
func (p *Phone) Answer(ask Ask, r Reply) Step {
	kind := ask.Message.Kind
	switch {
	case ask.number != p.asked && (r.Status != 200 || kind != Pull && ask.Kind != Get):
		return Step{}
	case (r.Status == 0 || r.Status == 413) && kind == Push:
		p.shrink(ask.Message.Events, r.Status)
		return Step{Wait: r.Status == 0, Trouble: Away}
	case r.Status == 401 || r.Status == 403:
		return Step{Wait: true, Trouble: Shut}
	case r.Status == 507:
		return Step{Wait: true, Trouble: Full}
	case r.Status == 410 && kind == Pull:
		return p.startOver()
	case r.Status == 422 && kind == Push:
		return p.refused(ask.Message.Events, r.Message)
	case r.Status == 404 && ask.Kind == Get:
		p.sought[ask.Sum] = true
		return Step{}
	case (r.Status == 404 || r.Status == 413 || r.Status == 422) && ask.Kind == Put:
		p.answerPut(ask.Sum) // in the next round it may be known, or arrive whole
		return Step{}
	case r.Status == 409 && kind == Push, r.Status == 200, r.Status == 201:
	default:
		return Step{Wait: true, Trouble: Away}
	}
	switch {
	case ask.Kind == Put:
		p.answerPut(ask.Sum)
		return Step{}
	case ask.Kind == Get:
		blob, good := p.answerGet(ask.Sum, r.Data)
		if !good {
			return Step{Trouble: Damaged}
		}
		return Step{Keep: &Keep{Blobs: []job.Blob{blob}, Cursor: p.cursor}}
	case r.Message.Job != p.job:
	case kind == Push && r.Message.Kind == Truth:
		return p.pushed(ask, r)
	case kind == Pull && r.Message.Kind == Page && r.Message.From == ask.Message.From:
		return p.page(r.Message)
	case kind == Have && r.Message.Kind == Lack:
		p.answerLack(ask.Message.Sums, r.Message.Sums)
		return Step{}
	}
	return Step{Wait: true, Trouble: Damaged}
}

// shrink halves the next push. An event that is too large by itself rests.
func (p *Phone) shrink(sent []Event, status int) {
	if p.batch = max(1, len(sent)/2); len(sent) == 1 && status == 413 {
		p.resting[sent[0].Stream] = true
	}
}

// startOver begins again at the first event of the log: the office has another
// one than when the cursor was made. What it has confirmed counts no longer.
func (p *Phone) startOver() Step {
	p.office, p.fresh = truth{}, false
	step := Step{Keep: &Keep{}, Wait: p.over} // twice in one round is an office that does not know itself
	p.over = true
	return step
}

// pushed takes the truth as it is after a push.
func (p *Phone) pushed(ask Ask, r Reply) Step {
	sent := ask.Message.Events
	p.fresh = true
	p.office = newTruth(r.Message)
	if len(sent) == p.batch && r.Took < quick {
		p.batch = min(2*p.batch, MaxEvents)
	}
	for _, e := range sent {
		// What the office has not taken rests: nothing is sent twice in a round.
		s := p.streams[e.Stream]
		if s != nil && slices.ContainsFunc(p.lacked(s), func(k *known) bool { return k.Hash == e.Hash }) {
			p.resting[e.Stream] = true
		}
	}
	step := Step{}
	if len(r.Message.Aside) > 0 {
		step.Trouble = Forked
	}
	// When the log ends with exactly what was sent, behind what was known, then
	// that is known too and need not be read back: acc proves it.
	end := ask.from
	for _, e := range sent {
		end = end.Next(e.Hash)
	}
	if len(sent) > 0 && end == p.office.end {
		step.Keep = &Keep{Cursor: end}
	}
	return step
}

func newTruth(m Message) truth {
	t := truth{end: m.End, heads: map[string]job.Head{}, aside: map[[32]byte]bool{}}
	for _, h := range m.Heads {
		t.heads[h.Stream] = h
	}
	for _, h := range m.Aside {
		t.aside[h.Hash] = true
	}
	return t
}

// refused looks at the event that the office does not trust. If it is good here
// it was damaged on its way, or the office is older than this program: its
// stream rests until the next round. If not, it rests for ever.
func (p *Phone) refused(sent []Event, m Message) Step {
	if m.Code != CodeRefused || m.Index >= len(sent) {
		return Step{Wait: true, Trouble: Away}
	}
	e := sent[m.Index]
	p.resting[e.Stream] = true
	if k := p.known[e.Hash]; k == nil || !p.good(e, p.keyOf(k)) {
		return Step{Trouble: Spoilt}
	}
	return Step{Trouble: NotUnderstood}
}

// arrived is an event of a page, with what its place here is.
type arrived struct {
	Event
	aside bool
	key   Key
}

// page takes the next events of the office's log. One that cannot be trusted
// spoils the whole page, and the cursor stays.
func (p *Phone) page(m Message) Step {
	k := Keep{Cursor: m.From}
	came := map[[32]byte]arrived{}
	type place struct {
		stream string
		seq    int
	}
	taken := map[place]bool{} // by what came
	for _, e := range m.Events {
		k.Cursor = k.Cursor.Next(e.Hash)
		a, follows := p.arrive(e, came)
		if here := p.known[e.Hash]; here != nil {
			// What comes behind it may find its key only through what came: a
			// record file can have left a hole before it.
			came[e.Hash] = arrived{e, here.aside, a.key}
			continue
		}
		if !follows || taken[place{e.Stream, e.Seq}] || !p.good(e, a.key) {
			return Step{Wait: true, Trouble: Damaged}
		}
		taken[place{e.Stream, e.Seq}] = true
		came[e.Hash] = a
		if a.aside {
			k.Aside = append(k.Aside, e)
		} else {
			k.Events = append(k.Events, e)
		}
	}
	if k.Cursor != m.To {
		return Step{Wait: true, Trouble: Damaged}
	}
	if len(m.Events) == 0 && m.From != p.office.end {
		return Step{Wait: true, Trouble: Away} // it has less than it said a moment ago
	}
	if k.Cursor.N > p.office.end.N {
		p.office.end = k.Cursor // others have written meanwhile
	}
	step := Step{Keep: &k}
	if len(k.Aside) > 0 {
		step.Trouble = Forked
	}
	return step
}

// arrive finds the place of a new event: behind the one before it in its
// stream, which is here or came before it; false when there is none. It stands
// aside when another has its place on this phone, or when the one before does.
func (p *Phone) arrive(e Event, came map[[32]byte]arrived) (a arrived, follows bool) {
	a = arrived{Event: e}
	if e.Seq == 1 {
		a.key = KeyOf(e.Event)
	} else {
		prev := prevOf(e)
		before, here := came[prev], p.known[prev]
		if before.Seq == 0 && here != nil {
			before = arrived{here.Event, here.aside, p.keyOf(here)}
		}
		if before.Stream != e.Stream || before.Seq != e.Seq-1 {
			return a, false
		}
		a.aside, a.key = before.aside, before.key
	}
	if s := p.streams[e.Stream]; s != nil {
		a.aside = a.aside || slices.ContainsFunc(s.at(e.Seq), func(k *known) bool { return !k.aside })
	}
	return a, true
}

// good reports whether e carries a signature of key.
func (p *Phone) good(e Event, key Key) bool {
	return key != nil && p.verify(key, e.Hash, e.Sig)
}
