package main

import (
	"bytes"
	"encoding/hex"
	"slices"

	"lugmark/core/exchange"
	"lugmark/core/job"
	"lugmark/core/record"
)

// batch is how many events one transaction of an import keeps.
const batch = 100

// handOver writes the record file of a job and brings it to another phone.
func (o *opened) handOver() {
	w := o.device.w
	s := o.device.disk.job(o.job.id)
	c := record.Contents{}
	for _, e := range s.events {
		c.Events = append(c.Events, e.Signed())
	}
	for _, sum := range s.sums {
		c.Blobs = append(c.Blobs, s.blobs[sum])
	}
	file, err := record.Write(c)
	if err != nil {
		w.broken("record file: %v", err)
		return
	}
	to := w.devices[w.rng.IntN(len(w.devices))]
	switch {
	case w.chance(100):
		w.tally.fault("record file damaged")
		file = w.damage(file)
	case len(c.Events) > 0 && w.chance(100):
		w.tally.fault("record file with a line left out")
		lines := bytes.SplitAfter(file, []byte("\n"))
		at := 1 + w.rng.IntN(len(c.Events))
		file = bytes.Join(slices.Delete(lines, at, at+1), nil)
	}
	w.tally.count("record files")
	w.in(w.rng.Int64N(20_000), func() {
		if len(to.tabs) == 0 {
			return
		}
		t := to.tabs[w.rng.IntN(len(to.tabs))]
		for _, other := range t.open {
			if other.job == o.job {
				other.bringIn(file)
			}
		}
	})
}

// bringIn reads, checks and keeps a record file. Of one with a fault the person
// brings in what is whole, or nothing.
func (o *opened) bringIn(file []byte) {
	w := o.device.w
	c, faults := record.Read(file)
	whole := !slices.ContainsFunc(faults, func(f record.Fault) bool { return !f.Passed })
	s := o.device.disk.job(o.job.id)
	var known []job.Signed
	for _, e := range s.events {
		known = append(known, e.Signed())
	}
	events, good := o.sift(c, known)
	if !whole || !good {
		if w.rng.IntN(2) == 0 {
			w.tally.count("record files refused")
			return
		}
		w.tally.count("record files taken in part")
	}
	blobs := map[string]job.Blob{}
	for _, b := range c.Blobs {
		blobs[b.Sum] = b
	}
	o.bringInFrom(events, blobs)
}

// sift returns the events of a file that are new here and can be trusted, and
// whether that is all of it.
func (o *opened) sift(c record.Contents, known []job.Signed) (events []exchange.Event, good bool) {
	w := o.device.w
	list := c.Events
	if w.signer.real {
		sifted := record.Sift(c, known, func(int, int) {})
		list, good = sifted.New.Events, sifted.Unsure+sifted.Forked+len(sifted.Faults) == 0
	} else {
		list, good = w.signer.sift(c.Events, known)
	}
	for _, signed := range list {
		e, err := exchange.Read(signed)
		if err != nil || e.Job != o.job.id {
			w.broken("record file: %v, job %s", err, e.Job)
			return nil, false
		}
		events = append(events, e)
	}
	return events, good
}

// bringInFrom keeps events in batches, each with the blobs that they name.
func (o *opened) bringInFrom(events []exchange.Event, blobs map[string]job.Blob) {
	if len(events) == 0 {
		return
	}
	a := act{job: o.job.id, events: events[:min(batch, len(events))]}
	for _, e := range a.events {
		for _, p := range exchange.Pieces(e.Event) {
			if b, there := blobs[p.Sum]; there {
				a.blobs = append(a.blobs, b)
			}
		}
	}
	o.keep(a, func(err error) {
		if err != nil {
			return // what is in is in; the file can be opened again
		}
		o.take(a.events)
		o.phone.Hold(a.events, a.blobs)
		o.bringInFrom(events[len(a.events):], blobs)
	})
}

// sift is record.Sift where a hash stands for signatures, and simpler: what is
// not signed by the key of its stream is left out, and so is the whole of a
// stream that goes another way here.
func (s signer) sift(list, known []job.Signed) (fresh []job.Signed, good bool) {
	at, keys, forked := map[place][32]byte{}, map[string]exchange.Key{}, map[string]bool{}
	for _, signed := range slices.Concat(known, list) {
		if e, err := exchange.Read(signed); err == nil && e.Seq == 1 && s.verify(exchange.KeyOf(e.Event), e.Hash, e.Sig) && keys[e.Stream] == nil {
			keys[e.Stream] = exchange.KeyOf(e.Event)
		}
	}
	for _, signed := range known {
		at[place{signed.Stream, signed.Seq}] = job.Hash(signed.Raw)
	}
	good = true
	var signedWell []exchange.Event
	for _, signed := range list {
		e, err := exchange.Read(signed)
		if err != nil || keys[e.Stream] == nil || !s.verify(keys[e.Stream], e.Hash, e.Sig) {
			good = false
			continue
		}
		old, there := at[place{e.Stream, e.Seq}]
		before, begun := at[place{e.Stream, e.Seq - 1}]
		forked[e.Stream] = forked[e.Stream] || there && old != e.Hash || begun && hex.EncodeToString(before[:]) != e.Prev
		at[place{e.Stream, e.Seq}] = e.Hash
		if !there {
			signedWell = append(signedWell, e)
		}
	}
	for _, e := range signedWell {
		if forked[e.Stream] {
			good = false
			continue
		}
		fresh = append(fresh, e.Signed())
	}
	return fresh, good
}

// chain reports whether every event is signed by its stream's key and follows
// the one before it.
func (s signer) chain(events []exchange.Event) bool {
	at := map[place]exchange.Event{}
	for _, e := range events {
		at[place{e.Stream, e.Seq}] = e
	}
	for _, e := range events {
		first, begun := at[place{e.Stream, 1}]
		if !begun || !s.verify(exchange.KeyOf(first.Event), e.Hash, e.Sig) {
			return false
		}
		if before, there := at[place{e.Stream, e.Seq - 1}]; e.Seq > 1 && (!there || hex.EncodeToString(before.Hash[:]) != e.Prev) {
			return false
		}
	}
	return true
}
