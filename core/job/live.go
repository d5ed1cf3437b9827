package job

import (
	"slices"
	"strconv"
)

// Live returns the values of k that no event supersedes, in (lam, id) order.
func (s *State) Live(k Key) []Entry {
	return s.entries(k, func(e *placed) bool { return !s.gone(e) })
}

// History returns every value that k ever had, in (lam, id) order; SupersededBy
// names what took it out of view. [State.Event] tells why a void did.
func (s *State) History(k Key) []Entry {
	return s.entries(k, func(*placed) bool { return true })
}

func (s *State) entries(k Key, which func(*placed) bool) (out []Entry) {
	if c := s.cells[k]; c != nil {
		for _, e := range c.values {
			if which(e) {
				out = append(out, s.entry(e))
			}
		}
	}
	return out
}

// Get returns the value of k. On Conflict the entry is zero, so that no rival
// can be taken for the answer; [State.Live] has them all.
func (s *State) Get(k Key) (Entry, Standing) {
	if c := s.cells[k]; c != nil && len(c.values) == 1 && !s.gone(c.values[0]) {
		return s.entry(c.values[0]), One // the usual case, without a list
	}
	return settle(s.Live(k))
}

func settle(live []Entry) (Entry, Standing) {
	if len(live) == 0 {
		return Entry{}, Missing
	}
	for _, e := range live[1:] {
		if !Agree(live[0].Value, e.Value) {
			return Entry{}, Conflict
		}
	}
	return live[0], One
}

// AsOf returns the value of k as it stood at a point of the record: of the
// events up to lam, what none of them superseded. False when there was none, or
// when the values then in view did not agree.
func (s *State) AsOf(k Key, lam int) (Entry, bool) {
	e, standing := s.StandingAsOf(k, lam)
	return e, standing == One
}

// StandingAsOf is AsOf for a caller that must tell "none" from "in conflict".
func (s *State) StandingAsOf(k Key, lam int) (Entry, Standing) {
	return settle(s.entries(k, func(e *placed) bool {
		return e.Lam <= lam && !slices.ContainsFunc(s.over[e.ID], func(by *placed) bool { return by.Lam <= lam })
	}))
}

// Lookup returns the value of a field at a visit such as "v2". A setup field
// that this visit does not have falls back to the latest earlier visit that has
// it; a reading never does, for it ages.
func (s *State) Lookup(visit, part, field string, setup bool) (Entry, Standing) {
	for {
		e, standing := s.Get(Key{visit, part, field})
		if standing != Missing || !setup || len(visit) < 2 || visit[0] != 'v' || !isCount(visit[1:]) {
			return e, standing
		}
		n, _ := strconv.Atoi(visit[1:])
		if n == 1 {
			return Entry{}, Missing
		}
		visit = "v" + strconv.Itoa(n-1)
	}
}

// Keys returns, in order, every key that ever had a value, also those whose
// values have all been voided.
func (s *State) Keys() []Key { return s.keys.all() }

// KeysFrom returns the keys of one visit whose part begins with prefix:
// "charge1." finds the samples of a charge, "" everything.
func (s *State) KeysFrom(visit, prefix string) (out []Key) {
	for k := range s.keys.from(Key{Visit: visit, Part: prefix}) {
		if k.Visit != visit || len(k.Part) < len(prefix) || k.Part[:len(prefix)] != prefix {
			break
		}
		out = append(out, k)
	}
	return out
}

// Seen returns what an author who now looks at k has in view: the ids of its
// live values and of what a newer app wrote about it. A screen takes it when it
// shows the field, and hands it to the [Writer] with the correction; a rival
// that arrives in between is not in it, and stays a rival.
func (s *State) Seen(k Key) []string {
	c := s.cells[k]
	if c == nil {
		return nil
	}
	var out []*placed
	for _, list := range [][]*placed{c.values, c.unread} {
		for _, e := range list {
			if !s.gone(e) {
				out = insert(out, e)
			}
		}
	}
	return slices.Compact(ids(out))
}
