package main

import (
	"encoding/hex"

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
	if w.chance(100) {
		w.tally.fault("record file damaged")
		file = w.damage(file)
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

// bringIn reads, checks and keeps a record file; one with a fault changes
// nothing.
func (o *opened) bringIn(file []byte) {
	w := o.device.w
	c, faults := record.Read(file)
	for _, f := range faults {
		if !f.Passed {
			w.tally.count("record files refused")
			return
		}
	}
	if w.signer.real {
		if c, faults = record.Verify(c); len(faults) > 0 {
			w.tally.count("record files refused")
			return
		}
	}
	blobs := map[string]job.Blob{}
	for _, b := range c.Blobs {
		blobs[b.Sum] = b
	}
	s := o.device.disk.job(o.job.id)
	var events []exchange.Event
	for _, signed := range c.Events {
		e, err := exchange.Read(signed)
		if err != nil || e.Job != o.job.id {
			return
		}
		if old, there := s.at[place{e.Stream, e.Seq}]; there && old.Hash != e.Hash {
			w.tally.count("record files of another way")
			return
		}
		events = append(events, e)
	}
	if !w.signer.real && !w.signer.chain(events) {
		w.tally.count("record files refused")
		return
	}
	o.bringInFrom(events, blobs)
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

// chain is record.Verify where a hash stands for signatures.
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
