package main

import (
	"encoding/hex"
	"errors"

	"lugmark/core/exchange"
	"lugmark/core/job"
)

// act is what one transaction of a phone writes: all of it or nothing.
type act struct {
	job    string
	events []exchange.Event
	aside  []exchange.Event
	blobs  []job.Blob
	cursor *exchange.Cursor
}

// disk is a phone's store: the transactions in their order. What is written
// survives the end of a tab; only what is flushed survives an empty battery.
type disk struct {
	w       *world
	acts    []act
	flushed int
	jobs    map[string]*stored // what the acts amount to
}

// stored is one job on a disk.
type stored struct {
	events []exchange.Event // in the order in which they came
	aside  []exchange.Event
	at     map[place]exchange.Event
	has    map[[32]byte]bool // events and aside
	blobs  map[string]job.Blob
	sums   []string // of blobs, in the order in which they came
	cursor exchange.Cursor
}

type place struct {
	stream string
	seq    int
}

var (
	errForked = errors.New("another event has this place")
	errFull   = errors.New("no room")
)

// hole reports whether an event of the stream of e is missing before it, or is
// the other of two: then nobody else can take it.
func (s *stored) hole(e exchange.Event) bool {
	for e.Seq > 1 {
		before, there := s.at[place{e.Stream, e.Seq - 1}]
		if !there || hex.EncodeToString(before.Hash[:]) != e.Prev {
			return true
		}
		e = before
	}
	return false
}

func newDisk(w *world, acts []act) *disk {
	d := &disk{w: w}
	d.restore(acts)
	return d
}

// restore makes the disk what these transactions amount to.
func (d *disk) restore(acts []act) {
	d.acts, d.jobs = nil, map[string]*stored{}
	for _, a := range acts {
		d.write(a)
	}
	d.flushed = len(d.acts)
}

func (d *disk) job(id string) *stored {
	s := d.jobs[id]
	if s == nil {
		s = &stored{at: map[place]exchange.Event{}, has: map[[32]byte]bool{}, blobs: map[string]job.Blob{}}
		d.jobs[id] = s
	}
	return s
}

// write is one transaction.
func (d *disk) write(a act) error {
	s := d.job(a.job)
	for _, e := range a.events {
		if old, there := s.at[place{e.Stream, e.Seq}]; there && old.Hash != e.Hash {
			return errForked
		}
	}
	for _, e := range a.events {
		if !s.has[e.Hash] {
			s.has[e.Hash] = true
			s.at[place{e.Stream, e.Seq}] = e
			s.events = append(s.events, e)
		}
	}
	for _, e := range a.aside {
		if !s.has[e.Hash] {
			s.has[e.Hash] = true
			s.aside = append(s.aside, e)
		}
	}
	for _, b := range a.blobs {
		if _, there := s.blobs[b.Sum]; !there {
			s.blobs[b.Sum] = b
			s.sums = append(s.sums, b.Sum)
		}
	}
	if a.cursor != nil {
		s.cursor = *a.cursor
	}
	d.acts = append(d.acts, a)
	return nil
}

// keep is a strict transaction: then is called when it is on the platter, or
// with an error after which nobody knows whether it is.
func (t *tab) keep(a act, then func(error)) {
	d, w := t.device.disk, t.device.w
	boots := t.device.boots
	w.in(1+w.rng.Int64N(60), func() {
		if t.device.boots != boots || !t.alive && w.rng.IntN(2) == 0 {
			return // the battery was empty before, or the transaction died with its tab
		}
		if w.chance(20) {
			w.tally.fault("commit failed, disk full")
			if w.rng.IntN(3) == 0 {
				d.write(a) // and it was there all the same
				d.flush()
			}
			t.later(1, func() {
				t.reread(a.job) // nobody knows what the disk has, so it is asked
				then(errFull)
			})
			return
		}
		err := d.write(a)
		d.flush()
		if err == nil {
			t.device.tellTabs(t, a.job)
		}
		t.later(1+w.rng.Int64N(20), func() { then(err) })
	})
}

// flush puts what is written on the platter.
func (d *disk) flush() { d.flushed = len(d.acts) }

// later is in, unless the tab has ended by then.
func (t *tab) later(ms int64, do func()) {
	t.device.w.in(ms, func() {
		if t.alive {
			do()
		}
	})
}
