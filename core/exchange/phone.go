package exchange

import (
	"cmp"
	"slices"
	"strings"

	"lugmark/core/job"
)

// Phone is one job on one phone, as far as it is exchanged with the office. Use
// [NewPhone]. It is not safe for use by several goroutines.
//
// Two tabs may each have one. Whatever a late, repeated or lost reply does, the
// worst is that something is sent or read once more.
type Phone struct {
	job     string
	verify  Verify
	known   map[[32]byte]*known
	streams map[string]*stream
	names   []string // of streams, in order
	cursor  Cursor
	office  truth
	fresh   bool // the office was heard in this round
	over    bool // this round began again at the first event
	doubted bool // the office was asked again in this round
	batch   int  // how many events the next push may hold
	resting map[string]bool
	asked   int // number of the last ask
	pieces
}

// known is an event that is on this phone.
type known struct {
	Event
	prev  [32]byte
	aside bool
	key   Key // of its stream; nil until it was asked for
}

// stream is the events of one stream: by seq, those in one place by hash.
type stream struct {
	list  []*known
	twins bool // some place has more than one
}

// at returns the events with this seq, more than one only of twins.
func (s *stream) at(seq int) []*known {
	from, _ := slices.BinarySearchFunc(s.list, seq, func(k *known, seq int) int { return cmp.Compare(k.Seq, seq) })
	to := from
	for to < len(s.list) && s.list[to].Seq == seq {
		to++
	}
	return s.list[from:to]
}

// truth is what the office said last, also when it was less than before.
type truth struct {
	end   Cursor
	heads map[string]job.Head
	aside map[[32]byte]bool
}

// Held is what a phone has of a job when it begins.
type Held struct {
	Events []Event
	Aside  []Event // see [Keep]
	Pieces []string
	Cursor Cursor
}

// firstBatch is how many events the first push of a program holds: one or two
// seconds of a bad line.
const firstBatch = 50

// NewPhone returns the phone's side of a job.
func NewPhone(jobID string, verify Verify, held Held) *Phone {
	p := &Phone{
		job: jobID, verify: verify, batch: firstBatch,
		known: map[[32]byte]*known{}, streams: map[string]*stream{},
		pieces: newPieces(),
	}
	p.Kept(Keep{Events: held.Events, Aside: held.Aside, Cursor: held.Cursor})
	for _, sum := range held.Pieces {
		p.here[sum] = true
	}
	p.Begin()
	return p
}

// Begin begins a round: what was given up in the last one is tried again.
func (p *Phone) Begin() {
	p.fresh, p.over, p.doubted = false, false, false
	p.asked++ // replies to what was asked before are late
	p.resting = map[string]bool{}
	p.pieces.begin()
}

// Hold takes in what this phone has kept by other ways: acts of its person,
// another tab, a record file. Pieces are those of its blobs.
func (p *Phone) Hold(events []Event, pieces []job.Blob) {
	for _, e := range events {
		p.add(e, false)
	}
	for _, b := range pieces {
		p.here[b.Sum] = true
	}
}

// Kept takes in what was to be kept, after it was.
func (p *Phone) Kept(k Keep) {
	for _, e := range k.Events {
		p.add(e, false)
	}
	for _, e := range k.Aside {
		p.add(e, true)
	}
	for _, b := range k.Blobs {
		p.here[b.Sum] = true
	}
	p.cursor = k.Cursor
}

// Cursor returns how far the office's log is known to be here.
func (p *Phone) Cursor() Cursor { return p.cursor }

// Waiting returns how many events the office was without when it last spoke, as
// far as this phone can tell: all, as long as it has not spoken.
func (p *Phone) Waiting() int {
	n := 0
	for _, name := range p.names {
		n += len(p.lacked(p.streams[name]))
	}
	return n
}

// Aside returns the events here that stand aside, in no order that matters.
func (p *Phone) Aside() (out []Event) {
	for _, name := range p.names {
		for _, k := range p.streams[name].list {
			if k.aside {
				out = append(out, k.Event)
			}
		}
	}
	return out
}

func (p *Phone) add(e Event, aside bool) {
	if p.known[e.Hash] != nil {
		return
	}
	k := &known{Event: e, prev: prevOf(e), aside: aside}
	p.known[e.Hash] = k
	s := p.streams[e.Stream]
	if s == nil {
		s = &stream{}
		p.streams[e.Stream] = s
		at, _ := slices.BinarySearch(p.names, e.Stream)
		p.names = slices.Insert(p.names, at, e.Stream)
	}
	at, _ := slices.BinarySearchFunc(s.list, k, func(a, b *known) int {
		return cmp.Or(cmp.Compare(a.Seq, b.Seq), strings.Compare(string(a.Hash[:]), string(b.Hash[:])))
	})
	s.list = slices.Insert(s.list, at, k)
	s.twins = s.twins || at > 0 && s.list[at-1].Seq == e.Seq || at+1 < len(s.list) && s.list[at+1].Seq == e.Seq
	if !aside {
		p.name(e.Event)
	}
}

// lacked returns the events of a stream that the office is without and could
// take: each follows one that it has or is about to get.
func (p *Phone) lacked(s *stream) []*known {
	last := s.list[len(s.list)-1]
	head, begun := p.office.heads[last.Stream]
	if begun && !s.twins && head.Hash == last.Hash {
		return nil // the usual case
	}
	there := map[[32]byte]bool{}
	if begun {
		k := p.known[head.Hash]
		if k == nil {
			return nil // the office is further, or on another way: its events come here first
		}
		for ; k != nil; k = p.known[k.prev] {
			there[k.Hash] = true
		}
	}
	var out []*known
	for _, k := range s.list {
		if there[k.Hash] || p.office.aside[k.Hash] {
			there[k.Hash] = true
			continue
		}
		if k.Seq == 1 || there[k.prev] {
			there[k.Hash] = true
			out = append(out, k)
		}
	}
	return out
}

// push returns the next events for the office: what was made first, first, so
// that it never gets an answer without what it answers.
func (p *Phone) push() []Event {
	if p.office.heads == nil {
		return nil // never heard: it may have everything
	}
	type placed struct {
		*known
		lam int // never less than that of an event before it in its stream
	}
	var all []placed
	for _, name := range p.names {
		if p.resting[name] {
			continue
		}
		lam := 0
		for _, k := range p.lacked(p.streams[name]) {
			lam = max(lam, k.Lam)
			all = append(all, placed{k, lam})
		}
	}
	slices.SortFunc(all, func(a, b placed) int {
		return cmp.Or(cmp.Compare(a.lam, b.lam), strings.Compare(a.Stream, b.Stream), cmp.Compare(a.Seq, b.Seq), strings.Compare(a.ID, b.ID))
	})
	var out []Event
	size := 0
	for _, k := range all[:min(len(all), p.batch)] {
		if size += lineSize(k.Event); size > maxBatch {
			break
		}
		out = append(out, k.Event)
	}
	return out
}

// keyOf returns the key that the chain of k leads to, nil when it ends before.
func (p *Phone) keyOf(k *known) Key {
	chain := []*known{k}
	for ; k != nil && k.key == nil && k.Seq > 1; k = p.known[k.prev] {
		chain = append(chain, k)
	}
	if k == nil {
		return nil
	}
	key := k.key
	if key == nil {
		key = KeyOf(k.Event.Event)
	}
	for _, c := range chain {
		c.key = key
	}
	return key
}
