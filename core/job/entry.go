package job

import (
	"bytes"
	"cmp"
	"strings"
	"time"
)

// Meta is what stands around the body of an event.
type Meta struct {
	ID     string
	Stream string
	Seq    int
	Lam    int
	At     string // what the phone's clock claimed
	By     string
	Type   string
	Field  string
	Hash   [32]byte
	Sup    []string // the events that this one superseded

	SupersededBy []string // ids, in (lam, id) order; empty while it is live
}

// Item is one event of a known type other than set and choose.
type Item[B Body] struct {
	Meta
	Body B
}

// Entry is one value that was put into a field, live or not.
type Entry struct {
	Meta
	Key   Key
	Value Value
	Of    string // for a choose, the id of the rival that was chosen; else ""
}

// Moment returns when the value was measured: its When, else the time at which
// it was kept. Both are claims of a phone's clock.
func (e Entry) Moment() time.Time {
	text := e.Value.When
	if text == "" {
		text = e.At
	}
	t, _ := time.Parse(time.RFC3339, text) // Decode has read it
	return t
}

// Standing says what the record holds for a key.
type Standing int

const (
	Missing  Standing = iota // no live value; never zero, never "no"
	One                      // one value, or several that agree
	Conflict                 // live values that do not agree: a person has to choose
)

// placed is an event that the state holds, without its bytes.
type placed struct {
	Event
	key Key
}

// compare is the one order of a job: (lam, id). The hash parts two events that
// carry one id, which only a broken or a lying writer makes.
func compare(a, b *placed) int {
	return cmp.Or(cmp.Compare(a.Lam, b.Lam), strings.Compare(a.ID, b.ID), bytes.Compare(a.Hash[:], b.Hash[:]))
}

func (s *State) meta(e *placed) Meta {
	return Meta{
		ID: e.ID, Stream: e.Stream, Seq: e.Seq, Lam: e.Lam, At: e.At, By: e.By,
		Type: e.Type, Field: e.Field, Hash: e.Hash, Sup: e.Sup, SupersededBy: ids(s.over[e.ID]),
	}
}

func (s *State) entry(e *placed) Entry {
	out := Entry{Meta: s.meta(e), Key: e.key}
	switch body := e.Body.(type) {
	case Set:
		out.Value = body.Value
	case Choose:
		out.Value, out.Of = body.Value, body.Of
	}
	return out
}

func ids(list []*placed) (out []string) {
	for _, e := range list {
		out = append(out, e.ID)
	}
	return out
}
