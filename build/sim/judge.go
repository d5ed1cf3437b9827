package main

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

	"lugmark/core/exchange"
	"lugmark/core/job"
	"lugmark/core/seal"
)

// What a run has to answer, by the names that violations have:
//
//	O1   the office and every phone have the same events
//	O2   what was shown as kept is on that phone's disk, also after a kill, and
//	     at the office, as long as any disk had a copy; one can go on keeping
//	O3   the same record, and the same fingerprint of its seal, everywhere
//	O4   one event in each place; chains and signatures are good
//	O5   nothing is twice in the log
//	O6   every cursor, and acc, name the whole log
//	O7   the same seed is the same run: a test, not asked here
//	O8   no value is out of view that nobody who saw it replaced; different
//	     values in view are a conflict; counts rise above what was seen
//	O9   every piece of a blob is there, and is it; events go before pieces
//	O10  it comes to rest
//
// With a profile that was copied while in use (w.forked) one way stands aside at
// the office; those phones show their own way, and both sides are told.

// heal ends the time of faults: messages arrive, half of the phones start their
// program again and the others go on, and all exchange until nothing changes.
func (w *world) heal() {
	w.healing = true
	w.say("from here on nothing fails")
	w.settle()
	w.office.down = false
	for _, d := range w.devices {
		if len(d.tabs) == 0 || w.rng.IntN(2) == 0 {
			for len(d.tabs) > 0 {
				d.kill(d.tabs[0])
			}
			d.startTab()
		}
	}
	for _, d := range w.devices {
		for _, t := range d.tabs {
			for _, o := range t.open {
				w.checkCanKeep(o)
			}
		}
	}
	before, calm := "", 0
	for round := range 40 {
		for _, d := range w.devices {
			for _, t := range d.tabs {
				for _, o := range t.open {
					o.sync()
				}
			}
			if w.settle(); w.restless {
				return
			}
		}
		now := w.standing()
		if now == before {
			if calm++; calm == 2 {
				w.tally.more("rounds until equal", round-1)
				return
			}
		} else {
			before, calm = now, 0
		}
	}
	w.broken("O10: after 40 rounds without a fault they still exchange")
}

// checkCanKeep: whatever happened, a person can go on. A writer may find its
// place taken once, when the phone was copied in use.
func (w *world) checkCanKeep(o *opened) {
	k := job.Key{Visit: "v1", Part: "b9", Field: "rest-voltage"}
	for range 2 {
		saw, past := o.state.Seen(k), o.seen.copy()
		view := w.history.view(o.job.id, k, past)
		var at [32]byte
		o.perform("set", func(m *making) error {
			s, err := o.writer.SetQuantity(o.device.stamp(), k, "13300", "mV", "m1", saw)
			at = s.Hash
			return o.value(m, s, err, "13300", view, past)
		})
		w.settle()
		if m := w.history.byHash[at]; m != nil && m.shown {
			return
		}
	}
	w.broken("O2: nothing can be kept any more on %s", o.device.name)
}

// standing is how far everybody is.
func (w *world) standing() string {
	var b strings.Builder
	for _, name := range w.jobs {
		t := w.office.tables[name.id]
		fmt.Fprintln(&b, len(t.rows), len(t.aside), len(t.sums))
		for _, d := range w.devices {
			s := d.disk.job(name.id)
			fmt.Fprintln(&b, len(s.events), len(s.aside), len(s.sums), s.cursor)
		}
	}
	return b.String()
}

// judge asks every question that a run has to answer.
func (w *world) judge() {
	for _, d := range w.devices {
		d.checkShown()
	}
	for _, name := range w.jobs {
		log := w.office.tables[name.id]
		w.judgeLog(name.id, log)
		want := picture(w.foldOf(name.id, log))
		for _, d := range w.devices {
			w.judgePhone(d, name.id, log, want)
		}
	}
	for _, m := range w.history.all {
		if !m.shown {
			continue
		}
		if w.lostEvents[m.Hash] {
			w.tally.count("events lost with every copy")
			continue
		}
		if t := w.office.tables[m.Job]; t.at[place{m.Stream, m.Seq}] != m.Hash && !isAside(t.aside, m.Hash) {
			w.broken("O2: event %d was shown as kept, and the office has not got it", m.at)
		}
	}
}

func isAside(list []exchange.Event, hash [32]byte) bool {
	for _, e := range list {
		if e.Hash == hash {
			return true
		}
	}
	return false
}

// judgeLog looks at the office: no fork, no hole, nothing twice, every signature
// good, acc as it must be, every piece there.
func (w *world) judgeLog(id string, t *table) {
	var all []job.Signed
	var events []exchange.Event
	twice := map[[32]byte]bool{}
	acc := [32]byte{}
	for i, r := range t.rows {
		all, events = append(all, r.Signed()), append(events, r.Event)
		if twice[r.Hash] {
			w.broken("O5: an event is twice in the log")
		}
		twice[r.Hash] = true
		if acc = sha256.Sum256(append(acc[:], r.Hash[:]...)); acc != r.Acc || r.N != i+1 {
			w.broken("O6: row %d of the log does not carry its number and acc", i+1)
		}
	}
	if len(t.aside) > 0 && !w.forked {
		w.broken("O4: %d events stand aside, and nobody forked", len(t.aside))
	}
	if !w.signer.chain(events) {
		w.broken("O4: a chain or a signature in the log is not good")
	}
	if w.signer.real {
		for _, f := range seal.VerifyChain(id, all) {
			if f.Trouble != seal.Unseen || !w.forked && len(w.lostEvents) == 0 {
				w.broken("O4: the log: %v", f)
			}
		}
	}
	places := map[place]bool{}
	for _, e := range events {
		if places[place{e.Stream, e.Seq}] {
			w.broken("O4: two events in one place of the log")
		}
		places[place{e.Stream, e.Seq}] = true
		w.judgePieces("the office", e, func(sum string) ([]byte, bool) { data, ok := t.blobs[sum]; return data, ok })
	}
}

// judgePieces: every piece that an event names is there, and is it.
func (w *world) judgePieces(where string, e exchange.Event, get func(string) ([]byte, bool)) {
	for _, p := range exchange.Pieces(e.Event) {
		data, there := get(p.Sum)
		switch {
		case !there && !w.lostPieces[pieceOf{e.Job, p.Sum}]:
			w.broken("O9: %s lacks a piece of event %s", where, e.ID)
		case there && hexSum(data) != p.Sum:
			w.broken("O9: %s has other bytes for a piece of event %s", where, e.ID)
		}
	}
}

func hexSum(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// judgePhone compares one phone with the office.
func (w *world) judgePhone(d *device, id string, t *table, want string) {
	s := d.disk.job(id)
	inLog := map[[32]byte]bool{}
	for _, r := range t.rows {
		inLog[r.Hash] = true
		if !s.has[r.Hash] {
			w.broken("O1: %s lacks an event of the log", d.name)
			break
		}
	}
	var whole []exchange.Event
	for _, e := range s.events {
		if s.hole(e) {
			if before, there := s.at[place{e.Stream, e.Seq - 1}]; there && !s.hole(before) && !w.forked {
				w.broken("O4: an event of %s does not follow the one before it, and nobody forked", d.name)
			}
			w.tally.count("events behind a hole for good")
			continue
		}
		whole = append(whole, e)
		if !inLog[e.Hash] && !isAside(t.aside, e.Hash) {
			w.broken("O1: %s has an event that the office has not got", d.name)
			break
		}
		w.judgePieces(d.name, e, func(sum string) ([]byte, bool) { b, ok := s.blobs[sum]; return b.Data, ok })
	}
	if !w.signer.chain(whole) {
		w.broken("O4: a chain or a signature on %s is not good", d.name)
	}
	if end := t.log(id).End; s.cursor != end {
		w.broken("O6: the cursor of %s is %d, the log has %d", d.name, s.cursor.N, end.N)
	}
	if len(s.aside) > 0 && !w.forked {
		w.broken("O4: %s has events aside, and nobody forked", d.name)
	}
	for _, tab := range d.tabs {
		for _, o := range tab.open {
			if o.job.id != id {
				continue
			}
			o.checkFields(nil)
			if o.state.Len() != len(s.events) {
				w.broken("O1: a tab of %s shows %d events, its disk has %d", d.name, o.state.Len(), len(s.events))
			}
			own := 0 // what is here and stands aside at the office, or behind a hole
			for _, e := range s.events {
				if !inLog[e.Hash] {
					own++
				}
			}
			if got := picture(o.state); own+len(s.aside) == 0 && got != want {
				w.broken("O3: %s shows another record than the office", d.name)
			}
		}
	}
}

// foldOf is the record as the office would fold it, from the bytes alone.
func (w *world) foldOf(id string, t *table) *job.State {
	s := job.New(id)
	for i := range t.rows { // in the other order than phones
		if err := s.ApplySigned(t.rows[len(t.rows)-1-i].Signed()); err != nil {
			w.broken("O3: %v", err)
		}
	}
	return s
}

// picture writes out what a state says, and the fingerprint of its seal.
func picture(s *job.State) string {
	var b strings.Builder
	for _, k := range s.Keys() {
		e, standing := s.Get(k)
		fmt.Fprintln(&b, k, standing, e.ID)
		for _, l := range s.Live(k) {
			fmt.Fprintln(&b, l.ID)
		}
	}
	for _, n := range s.Notes() {
		fmt.Fprintln(&b, "note", n.ID)
	}
	for _, p := range s.Photos() {
		fmt.Fprintln(&b, "photo", p.ID)
	}
	for _, p := range s.Signs() {
		fmt.Fprintln(&b, "sign", p.ID)
	}
	if last, sealed := s.SealedAt(); sealed {
		changed, err := s.ChangedSince(last.ID)
		fmt.Fprintln(&b, seal.Fingerprint(last.Hash), len(changed), err)
	}
	fmt.Fprintln(&b, s.Kind(), s.Len(), s.MaxLam(), s.Frontier())
	return b.String()
}
