package job

import (
	"fmt"
	"sort"
)

// Heads returns how far each stream goes without a hole.
func (s *State) Heads() map[string]Head {
	out := map[string]Head{}
	for name, st := range s.stream {
		if st.head > 0 {
			out[name] = Head{name, st.head, st.at[st.head].Hash}
		}
	}
	return out
}

// Frontier returns the heads that no other stream has seen, in order: what it
// takes to name everything that is here. A stream that began after another had
// ended names its head, so the frontier stays short.
func (s *State) Frontier() []Head {
	heads := s.Heads()
	for name, st := range s.stream {
		first := st.at[1]
		if first == nil {
			continue
		}
		for _, seen := range first.Open.After {
			// Only the very head is covered: what was said about a stream
			// that has gone on since, or that differs, covers nothing.
			if seen.Stream != name && heads[seen.Stream] == seen {
				delete(heads, seen.Stream)
			}
		}
	}
	out := make([]Head, 0, len(heads))
	for _, h := range heads {
		out = append(out, h)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Stream < out[j].Stream })
	return out
}

// SealedAt returns the seal in force: the highest revision, the first of them
// in (lam, id) order; false when the job was never sealed.
func (s *State) SealedAt() (Item[Seal], bool) {
	var last Item[Seal]
	for _, seal := range s.Seals() {
		if seal.Body.Rev > last.Body.Rev {
			last = seal
		}
	}
	return last, last.Body.Rev > 0
}

// ChangedSince returns the events that the seal with this id does not cover, in
// (lam, id) order, seals left out: what has changed since that handover.
func (s *State) ChangedSince(seal string) ([]Event, error) {
	e, _ := s.Event(seal)
	body, ok := e.Body.(Seal)
	if !ok {
		return nil, fmt.Errorf("job: changed since %s: no such seal", seal)
	}
	covered := s.reach(append([]Head{{e.Stream, e.Seq, e.Hash}}, body.Frontier...))
	var changed []*placed
	for _, p := range s.held {
		if _, isSeal := p.Body.(Seal); isSeal {
			continue
		}
		// The second of two events with one seq is committed to by nobody.
		if p.Seq > covered[p.Stream] || s.stream[p.Stream].at[p.Seq] != p {
			changed = append(changed, p)
		}
	}
	sort.Slice(changed, func(i, j int) bool { return compare(changed[i], changed[j]) < 0 })
	out := make([]Event, len(changed))
	for i, p := range changed {
		out[i] = p.Event
	}
	return out, nil
}

// reach returns, for each stream, the seq up to which these heads commit to it,
// directly or through what its first event had seen.
func (s *State) reach(heads []Head) map[string]int {
	reached := map[string]int{}
	for len(heads) > 0 {
		h := heads[0]
		heads = heads[1:]
		st := s.stream[h.Stream]
		if st == nil || reached[h.Stream] >= h.Seq {
			continue
		}
		if at := st.at[h.Seq]; at == nil || at.Hash != h.Hash {
			continue // not here, or not what was named
		}
		if first := st.at[1]; reached[h.Stream] == 0 && first != nil {
			heads = append(heads, first.Open.After...)
		}
		reached[h.Stream] = h.Seq
	}
	return reached
}
