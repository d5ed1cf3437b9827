package job

import (
	"bytes"
	"fmt"
	"slices"
)

// State is what a set of events amounts to. It grows by [State.Apply]; nothing
// is ever taken out. What its methods return belongs to the caller, except for
// the slices inside a Value, which must not be changed.
//
// A State is not safe for use while another goroutine applies.
type State struct {
	job    string
	held   map[[32]byte]*placed
	named  map[string][]*placed // by id
	over   map[string][]*placed // by id: what supersedes it, known or not yet come
	cells  map[Key]*cell
	keys   keyList // of cells that hold values
	others map[string][]*placed
	stream map[string]*stream
	maxLam int
}

// cell is what there is about one key, each list in (lam, id) order.
type cell struct {
	values []*placed // set and choose
	unread []*placed // events of a newer app that name this field
}

// The kinds of others: known types by their name, and these.
const unread = "unread"

// New returns the state of a job of which no event is known yet.
func New(job string) *State {
	return &State{
		job:    job,
		held:   map[[32]byte]*placed{},
		named:  map[string][]*placed{},
		over:   map[string][]*placed{},
		cells:  map[Key]*cell{},
		others: map[string][]*placed{},
		stream: map[string]*stream{},
	}
}

// Job returns the id of the job.
func (s *State) Job() string { return s.job }

// Len returns how many events the state holds.
func (s *State) Len() int { return len(s.held) }

// Holds reports whether the event with this hash has been applied.
func (s *State) Holds(hash [32]byte) bool { return s.held[hash] != nil }

// ApplySigned reads one stored event and applies it. It does not verify the
// signature; see core/seal.
func (s *State) ApplySigned(signed Signed) error {
	e, err := Decode(signed.Raw)
	if err != nil {
		return err
	}
	if e.Job != signed.Job || e.Stream != signed.Stream || e.Seq != signed.Seq {
		return fmt.Errorf("job: apply %s: kept as %s %s %d, but it is %s %s %d",
			e.ID, signed.Job, signed.Stream, signed.Seq, e.Job, e.Stream, e.Seq)
	}
	return s.Apply(e)
}

// Apply adds an event that [Decode] returned. Order does not matter; an event
// that the state holds already changes nothing. The only error is an event that
// does not belong here.
func (s *State) Apply(e Event) error {
	if e.Hash == ([32]byte{}) {
		return fmt.Errorf("job: apply %s: not a decoded event", e.ID)
	}
	if e.Job != s.job {
		return fmt.Errorf("job: apply %s: belongs to job %s, not %s", e.ID, e.Job, s.job)
	}
	if s.held[e.Hash] != nil {
		return nil
	}
	if e.Known {
		e.Raw = nil // the store has it
	}
	p := &placed{Event: e}
	s.held[e.Hash] = p
	s.named[e.ID] = insert(s.named[e.ID], p)
	for _, id := range e.Sup {
		s.over[id] = insert(s.over[id], p)
	}
	s.maxLam = max(s.maxLam, e.Lam)
	s.extend(p)
	if e.Field != "" {
		p.key, _ = ParseKey(e.Field) // Decode has read it
	}
	switch e.Body.(type) {
	case Set, Choose:
		c := s.cell(p.key)
		if len(c.values) == 0 {
			s.keys.add(p.key)
		}
		c.values = insert(c.values, p)
	case Unread:
		s.others[unread] = insert(s.others[unread], p)
		if p.key != (Key{}) {
			c := s.cell(p.key)
			c.unread = insert(c.unread, p)
		}
	default:
		s.others[e.Type] = insert(s.others[e.Type], p)
	}
	return nil
}

func (s *State) cell(k Key) *cell {
	c := s.cells[k]
	if c == nil {
		c = &cell{}
		s.cells[k] = c
	}
	return c
}

// gone reports whether any event supersedes e, live or itself superseded: what
// a voided event replaced does not come back.
func (s *State) gone(e *placed) bool { return len(s.over[e.ID]) > 0 }

func insert(list []*placed, e *placed) []*placed {
	at, _ := slices.BinarySearchFunc(list, e, compare)
	return slices.Insert(list, at, e)
}

// Event returns the event with this id; false when it is not here. Raw is nil
// unless the event is unread.
func (s *State) Event(id string) (Event, bool) {
	if list := s.named[id]; len(list) > 0 {
		return list[0].Event, true
	}
	return Event{}, false
}

// MaxLam returns the highest lam of any event, 0 when there is none.
func (s *State) MaxLam() int { return s.maxLam }

// stream is the events of one stream. Of two events with one seq, which only a
// broken or a lying writer makes, the lower hash stands here.
type stream struct {
	at   map[int]*placed
	head int // the last seq up to which none is missing; 0: the first is
}

func (s *State) extend(e *placed) {
	st := s.stream[e.Stream]
	if st == nil {
		st = &stream{at: map[int]*placed{}}
		s.stream[e.Stream] = st
	}
	if was := st.at[e.Seq]; was == nil || bytes.Compare(e.Hash[:], was.Hash[:]) < 0 {
		st.at[e.Seq] = e
	}
	for st.at[st.head+1] != nil {
		st.head++
	}
}
