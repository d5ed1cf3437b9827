package main

import (
	"slices"

	"lugmark/core/exchange"
	"lugmark/core/job"
)

// history is what really happened: every event that was ever stamped, and what
// its author had before him. It is kept beside the product and never asks the
// fold.
type history struct {
	all    []*made
	byHash map[[32]byte]*made
	values map[string][]*made // by job and field: what says something about it
}

// made is one event as its author made it.
type made struct {
	exchange.Event
	at      int    // in all
	says    string // what a value says; two that say the same agree
	value   bool   // it puts a value into its field
	past    set    // every event that was on the screen's device when it was shown
	unread  bool   // an app of tomorrow made it
	covers  []int  // of those, what it takes out of view
	pieces  []string
	reached bool // the office had it once
	shown   bool // some person saw it as kept
}

func newHistory() *history {
	return &history{byHash: map[[32]byte]*made{}, values: map[string][]*made{}}
}

func (h *history) add(m *made) {
	m.at = len(h.all)
	for _, p := range exchange.Pieces(m.Event.Event) {
		m.pieces = append(m.pieces, p.Sum)
	}
	h.all = append(h.all, m)
	h.byHash[m.Hash] = m
	if m.Field != "" {
		h.values[m.Job+m.Field] = append(h.values[m.Job+m.Field], m)
	}
}

// cover notes what an event takes out of view.
func (m *made) cover(view []*made) {
	for _, v := range view {
		m.covers = append(m.covers, v.at)
	}
}

// view returns what is said about a field and nothing in a set of events takes
// out of view: slowly, by the rule itself.
func (h *history) view(jobID string, field job.Key, in set) (out []*made) {
	list := h.values[jobID+field.String()]
	gone := map[int]bool{}
	for _, m := range list {
		if in.has(m.at) {
			for _, at := range m.covers {
				gone[at] = true
			}
		}
	}
	for _, m := range list {
		if (m.value || m.unread) && in.has(m.at) && !gone[m.at] {
			out = append(out, m)
		}
	}
	return out
}

// live is view without what only an app of tomorrow can read.
func (h *history) live(jobID string, field job.Key, in set) []*made {
	return slices.DeleteFunc(h.view(jobID, field, in), func(m *made) bool { return m.unread })
}

// set is a set of events by their place in the history.
type set []uint64

func (s set) has(i int) bool { return i/64 < len(s) && s[i/64]&(1<<(i%64)) != 0 }

func (s *set) put(i int) {
	for len(*s) <= i/64 {
		*s = append(*s, 0)
	}
	(*s)[i/64] |= 1 << (i % 64)
}

func (s set) copy() set { return append(set(nil), s...) }
