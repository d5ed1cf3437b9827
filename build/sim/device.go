package main

import (
	"crypto/ed25519"
	"slices"
	"strconv"
	"time"

	"lugmark/core/exchange"
	"lugmark/core/job"
	"lugmark/core/seal"
)

// device is one phone.
type device struct {
	w      *world
	name   string
	key    ed25519.PrivateKey
	public ed25519.PublicKey
	skew   int64 // what its clock is wrong by [ms]
	disk   *disk
	boots  int // how often its battery was empty
	tabs   []*tab
	shown  map[[32]byte]bool // what a person of this phone has seen as kept, and no loss explains
	saved  []act             // a backup of the phone; nil none
}

// tab is one running program. Two of a phone share its disk.
type tab struct {
	device *device
	alive  bool
	open   []*opened
}

// opened is one job in a tab.
type opened struct {
	*tab
	job    jobName
	state  *job.State
	random [16]byte // of the writer's stream
	writer *job.Writer
	phone  *exchange.Phone
	seen   set             // the same as state, for the history
	tried  map[string]bool // streams of which this round has sent something
	busy   bool
	asked  int // the request that is waited for, 0 none
	failed int // rounds in a row that came to nothing
}

// tenYears [ms] is how wrong a clock may be from the beginning.
const tenYears = 10 * 365 * 24 * 3600 * 1000

// addDevice adds a phone, or a copy of one.
func (w *world) addDevice(of *device) *device {
	d := &device{w: w, name: "phone" + strconv.Itoa(len(w.devices)+1), shown: map[[32]byte]bool{}}
	var acts []act
	if of == nil {
		a, b := w.random16(), w.random16()
		d.key, d.public = w.signer.keys([32]byte(append(a[:], b[:]...)))
		d.skew = w.rng.Int64N(2*tenYears) - tenYears
	} else {
		d.key, d.public, d.skew = of.key, of.public, of.skew
		acts = slices.Clone(of.disk.acts[:of.disk.flushed])
	}
	d.disk = newDisk(w, acts)
	w.devices = append(w.devices, d)
	return d
}

// clock is the time that the phone shows, with the offset of the place.
func (d *device) clock() time.Time {
	return start.Add(time.Duration(d.w.now+d.skew) * time.Millisecond).In(time.FixedZone("", 3600))
}

func (d *device) stamp() job.Stamp {
	now := d.clock()
	return job.Stamp{Now: now, ID: d.w.uuid(now.UnixMilli())}
}

// startTab starts the program: it reads the disk, and begins streams of its own.
func (d *device) startTab() *tab {
	t := &tab{device: d, alive: true}
	for _, name := range d.w.jobs {
		o := &opened{tab: t, job: name, state: job.New(name.id)}
		t.open = append(t.open, o)
		s := d.disk.job(name.id)
		o.take(s.events)
		o.phone = exchange.NewPhone(name.id, d.w.signer.verify,
			exchange.Held{Events: s.events, Aside: s.aside, Pieces: s.sums, Cursor: s.cursor})
		o.newWriter()
	}
	d.tabs = append(d.tabs, t)
	d.w.say("%s starts a tab", d.name)
	return t
}

func (o *opened) newWriter() {
	o.random = o.device.w.random16()
	o.writer = job.NewWriter(o.device.author(), o.random, o.state)
}

func (d *device) author() job.Author {
	return job.Author{By: "p1", Key: seal.EncodeKey(d.public), Soft: true, App: "sim"}
}

// take folds events and remembers them for the history.
func (o *opened) take(events []exchange.Event) {
	for _, e := range events {
		if err := o.state.Apply(e.Event); err != nil {
			o.device.w.broken("fold: %v", err)
		}
		if m := o.device.w.history.byHash[e.Hash]; m != nil {
			o.seen.put(m.at)
		} else {
			o.device.w.broken("O4: an event that nobody made: %s", e.Raw)
		}
	}
}

// refresh takes in what another tab of this phone has kept.
func (o *opened) refresh() {
	s := o.device.disk.job(o.job.id)
	o.take(s.events)
	var blobs []job.Blob
	for _, sum := range s.sums {
		blobs = append(blobs, job.Blob{Sum: sum})
	}
	o.phone.Hold(s.events, blobs)
}

// tellTabs is the channel between the tabs of one phone.
func (d *device) tellTabs(but *tab, id string) {
	for _, t := range d.tabs {
		if t == but {
			continue
		}
		t.later(d.w.rng.Int64N(100), func() { t.reread(id) })
	}
}

func (t *tab) reread(id string) {
	for _, o := range t.open {
		if o.job.id == id {
			o.refresh()
		}
	}
}

// kill ends a tab: what it had in mind is gone.
func (d *device) kill(t *tab) {
	t.alive = false
	d.tabs = slices.DeleteFunc(d.tabs, func(other *tab) bool { return other == t })
	d.checkShown()
}

// die is an empty battery: all tabs end, and what was not flushed is gone.
func (d *device) die() {
	for len(d.tabs) > 0 {
		t := d.tabs[0]
		t.alive = false
		d.tabs = d.tabs[1:]
	}
	d.boots++
	if d.disk.flushed < len(d.disk.acts) {
		d.disk.restore(d.disk.acts[:d.disk.flushed])
	}
	d.checkShown()
}

// checkShown asks whether everything that was shown as kept is still there.
func (d *device) checkShown() {
	for _, m := range d.w.history.all {
		if !d.shown[m.Hash] {
			continue
		}
		s := d.disk.job(m.Job)
		whole := s.has[m.Hash]
		for _, sum := range m.pieces {
			_, there := s.blobs[sum]
			whole = whole && there
		}
		if !whole {
			d.w.broken("O2: %s has shown event %d as kept, and it is not on its disk", d.name, m.at)
			delete(d.shown, m.Hash)
		}
	}
}
