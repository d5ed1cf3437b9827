package main

import (
	"slices"

	"lugmark/core/job"
)

// day [ms].
const day = 24 * 3600 * 1000

// someFault lets one thing go wrong that is not a message.
func (w *world) someFault(d *device, t *tab) {
	happens := func(what string) {
		w.tally.fault(what)
		w.say("%s: %s", d.name, what)
	}
	switch n := w.rng.IntN(100); {
	case n < 22:
		happens("tab killed")
		d.kill(t)
		if w.rng.IntN(3) > 0 {
			d.startTab()
		}
	case n < 36:
		happens("battery empty")
		d.die()
		d.startTab()
	case n < 48:
		if len(d.tabs) < 2 {
			d.startTab()
		}
	case n < 63:
		happens("clock jumps")
		d.skew += w.rng.Int64N(2000*day) - 1000*day
	case n < 71:
		w.office.backUp()
	case n < 79:
		if len(w.office.backups) > 0 {
			happens("office restored from backup")
			w.office.restore()
		}
	case n < 85:
		d.saved = slices.Clone(d.disk.acts[:d.disk.flushed])
	case n < 90:
		if d.saved != nil {
			happens("old phone restored")
			d.rollBack(d.saved)
		}
	case n < 93:
		if lost := 1 + w.rng.IntN(2); len(d.disk.acts) > lost {
			happens("flash memory lied")
			d.rollBack(d.disk.acts[:len(d.disk.acts)-lost])
		}
	case n < 96:
		if len(w.devices) < 7 {
			happens("profile cloned")
			w.addDevice(d).startTab()
		}
	case n < 98:
		if o := t.open[w.rng.IntN(len(t.open))]; !w.forked && !o.busy && o.hasWritten() && len(w.devices) < 7 {
			happens("profile cloned while in use")
			w.fork(o)
		}
	default:
		happens("office dies")
		w.office.die("office dies between requests")
	}
}

// rollBack is a phone that comes back with an older disk. What it had shown
// since as kept is lost unless somebody else has it.
func (d *device) rollBack(acts []act) {
	d.die()
	d.disk.restore(slices.Clone(acts))
	for _, m := range d.w.history.all {
		if d.shown[m.Hash] && !d.disk.job(m.Job).has[m.Hash] {
			delete(d.shown, m.Hash)
		}
	}
	d.w.forgive()
	d.startTab()
}

// hasWritten reports whether the stream of o has begun on the disk.
func (o *opened) hasWritten() bool {
	_, begun := o.device.disk.job(o.job.id).at[place{o.writer.Stream(), 1}]
	return begun
}

// fork copies a phone with the program that runs on it: two go on in one stream,
// which is the one thing that streams of their own cannot prevent.
func (w *world) fork(o *opened) {
	w.forked = true
	t := w.addDevice(o.device).startTab()
	for _, copied := range t.open {
		if copied.job == o.job {
			copied.random = o.random
			copied.writer = job.NewWriter(o.device.author(), o.random, copied.state)
			copied.writer.Undo(o.writer.Mark)
			for range 2 {
				copied.edit()
				o.edit()
			}
		}
	}
}

// forgive goes through what was shown as kept, after disks were destroyed: of
// what no disk has a copy any more, nobody can expect to see it again.
func (w *world) forgive() {
	events, pieces := w.survivors()
	for _, m := range w.history.all {
		if !events[m.Hash] && !w.lostEvents[m.Hash] {
			w.lostEvents[m.Hash] = true
		}
		for _, sum := range m.pieces {
			if at := (pieceOf{m.Job, sum}); !pieces[at] {
				w.lostPieces[at] = true
			}
		}
	}
}

// survivors are the events and pieces of which some disk has a copy. One behind
// a hole counts for nothing: it cannot leave that disk.
func (w *world) survivors() (events map[[32]byte]bool, pieces map[pieceOf]bool) {
	events, pieces = map[[32]byte]bool{}, map[pieceOf]bool{}
	for _, d := range w.devices {
		for id, s := range d.disk.jobs {
			for _, e := range s.events {
				if !s.hole(e) {
					events[e.Hash] = true
				}
			}
			for _, e := range s.aside {
				events[e.Hash] = true
			}
			for _, sum := range s.sums {
				pieces[pieceOf{id, sum}] = true
			}
		}
	}
	for id, t := range w.office.tables {
		for _, r := range t.rows {
			events[r.Hash] = true
		}
		for _, e := range t.aside {
			events[e.Hash] = true
		}
		for _, sum := range t.sums {
			pieces[pieceOf{id, sum}] = true
		}
	}
	return events, pieces
}
