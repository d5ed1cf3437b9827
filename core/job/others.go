package job

import (
	"slices"
	"sort"
)

// Notes returns the notes that are in view, in (lam, id) order; likewise
// Photos and Signs.
func (s *State) Notes() []Item[Note] { return inView(items[Note](s, "note/1")) }

func (s *State) Photos() []Item[Photo] { return inView(items[Photo](s, "photo/1")) }

func (s *State) Signs() []Item[Sign] { return inView(items[Sign](s, "sign/1")) }

// Seals returns every seal in (lam, id) order, superseded ones too: an old
// sheet goes on to verify as what it was.
func (s *State) Seals() []Item[Seal] { return items[Seal](s, "seal/1") }

// Kind returns what the record is about, KindBank or KindRegister; "" as long
// as the event that says so is not here.
func (s *State) Kind() string {
	for _, start := range inView(items[Start](s, "job/1")) {
		return start.Body.Kind
	}
	return ""
}

func items[B Body](s *State, kind string) (out []Item[B]) {
	for _, e := range s.others[kind] {
		out = append(out, Item[B]{s.meta(e), e.Body.(B)})
	}
	return out
}

func inView[B Body](list []Item[B]) []Item[B] {
	return slices.DeleteFunc(list, func(i Item[B]) bool { return len(i.SupersededBy) > 0 })
}

// Unknown returns the events that a newer app wrote, in (lam, id) order, with
// their bytes. They are kept, counted and shown.
func (s *State) Unknown() (out []Event) {
	for _, e := range s.others[unread] {
		out = append(out, e.Event)
	}
	return out
}

// UnknownFields returns, in order, the keys about which a newer app wrote
// something that nothing here has superseded. Whoever judges them with what
// this app can read would not know everything: their checks stay open.
func (s *State) UnknownFields() (out []Key) {
	for _, e := range s.others[unread] {
		if e.key != (Key{}) && s.UnknownField(e.key) {
			out = append(out, e.key)
		}
		for _, id := range e.Sup {
			for _, under := range s.named[id] {
				if under.key != (Key{}) && s.UnknownField(under.key) {
					out = append(out, under.key)
				}
			}
		}
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Compare(out[j]) < 0 })
	return slices.Compact(out)
}

// UnknownField reports whether k is among the UnknownFields: an unread event in
// view names it as its field, or took away the last value that it had.
func (s *State) UnknownField(k Key) bool {
	c := s.cells[k]
	if c == nil {
		return false
	}
	inView := func(e *placed) bool { return !s.gone(e) }
	if slices.ContainsFunc(c.unread, inView) {
		return true
	}
	if slices.ContainsFunc(c.values, inView) {
		return false
	}
	return slices.ContainsFunc(c.values, func(e *placed) bool {
		return slices.ContainsFunc(s.over[e.ID], func(by *placed) bool { return !by.Known && inView(by) })
	})
}
