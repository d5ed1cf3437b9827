package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"lugmark/core/exchange"
	"lugmark/core/job"
	"lugmark/core/seal"
)

// making is an act while it is made.
type making struct {
	act
	made []*made
}

// edit is one act of a person: something is shown, they think, they keep.
// What others bring meanwhile was not on the screen.
func (o *opened) edit() {
	w := o.device.w
	if o.state.Kind() == "" {
		o.later(0, func() {
			o.perform("start", func(m *making) error {
				s, err := o.writer.Start(o.device.stamp(), o.job.kind)
				return o.stamped(m, s, err, nil)
			})
		})
		return
	}
	k := job.Key{Visit: "v1", Part: "b" + strconv.Itoa(1+w.rng.IntN(4)), Field: "rest-voltage"}
	if o.job.kind == job.KindRegister {
		k.Part, k.Field = "m1", "due"
	}
	saw, past := o.state.Seen(k), o.seen.copy()
	live, view := w.history.live(o.job.id, k, past), w.history.view(o.job.id, k, past)
	think := w.rng.Int64N(8000)
	var do func(*making) error
	what := ""
	switch n := w.rng.IntN(100); {
	case n < 6 && len(live) > 0:
		what, do = "void", o.void(k, live, past)
	case n < 30 && len(live) > 1:
		chosen := live[w.rng.IntN(len(live))]
		what, do = "choose", func(m *making) error {
			s, err := o.writer.Choose(o.device.stamp(), k, chosen.ID, saw)
			return o.value(m, s, err, chosen.says, view, past)
		}
	case n < 64:
		number := strconv.Itoa(13200 + w.rng.IntN(5))
		what, do = "set", func(m *making) error {
			s, err := o.writer.SetQuantity(o.device.stamp(), k, number, "mV", "m1", saw)
			return o.value(m, s, err, number, view, past)
		}
	case n < 72:
		what, do = "skip", func(m *making) error {
			s, err := o.writer.Skip(o.device.stamp(), k, job.SkipCannot, "no-access", "", job.Ref{}, saw)
			return o.value(m, s, err, "cannot", view, past)
		}
	case n < 80:
		what, do = "choice", func(m *making) error {
			c := []string{"yes", "no"}[w.rng.IntN(2)]
			s, err := o.writer.SetChoice(o.device.stamp(), k, c, saw)
			return o.value(m, s, err, c, view, past)
		}
	case n < 88:
		what, do = "note", func(m *making) error {
			s, blob, err := o.writer.Note(o.device.stamp(), k.Part, "seen at "+strconv.Itoa(int(w.now)), o.device.w.random16())
			m.blobs = append(m.blobs, blob)
			return o.stamped(m, s, err, past)
		}
	case n < 94:
		what, do = "photo", o.photo(k.Part, past)
	case n < 96:
		what, do = "newer", o.newer(k, saw, view, past)
	default:
		what, do = "sign", o.sign
	}
	o.later(think, func() { o.perform(what, do) })
}

// value stamps an event that puts a value into a field, in the place of all that
// was in view.
func (o *opened) value(m *making, s job.Stamped, err error, says string, view []*made, past set) error {
	if err := o.stamped(m, s, err, past); err != nil {
		return err
	}
	it := m.made[len(m.made)-1]
	it.value, it.says = true, says
	it.cover(view)
	return nil
}

// newer is what an app of tomorrow does to a field, in a stream of its own: this
// one cannot read it, and must keep it, send it on and leave the field open.
func (o *opened) newer(k job.Key, saw []string, view []*made, past set) func(*making) error {
	return func(m *making) error {
		at := o.device.stamp()
		w := job.NewWriter(o.device.author(), o.device.w.random16(), o.state)
		like, err := w.Skip(at, k, job.SkipCannot, "no-access", "", job.Ref{}, saw)
		if err != nil {
			return err
		}
		e := like.Event
		e.Type, e.Body = "set/2", job.Unread{Kind: "set/2", Raw: []byte(`{"range":["13.2","13.3"]}`)}
		raw, err := job.Encode(e)
		if err != nil {
			return err
		}
		if e, err = job.Decode(raw); err != nil {
			return err
		}
		if err := o.stamped(m, job.Stamped{Event: e, Hash: e.Hash}, nil, past); err != nil {
			return err
		}
		m.made[0].unread = true
		m.made[0].cover(view)
		return nil
	}
}

// void takes some of what is in view out of it.
func (o *opened) void(k job.Key, live []*made, past set) func(*making) error {
	from := o.device.w.rng.IntN(len(live))
	var ids []string
	for _, l := range live[from:] {
		ids = append(ids, l.ID)
	}
	return func(m *making) error {
		s, err := o.writer.Void(o.device.stamp(), k, "slip", job.Ref{}, ids)
		if err := o.stamped(m, s, err, past); err != nil {
			return err
		}
		for _, l := range live[from:] {
			m.made[0].covers = append(m.made[0].covers, l.at)
		}
		return nil
	}
}

// photo is mostly small; one in ten has two pieces.
func (o *opened) photo(part string, past set) func(*making) error {
	w := o.device.w
	size := 100 + w.rng.IntN(900)
	if w.rng.IntN(10) == 0 {
		size += job.Chunk
	}
	data := make([]byte, size)
	for at := 0; at < size; at += job.Chunk {
		r := w.random16()
		copy(data[at:], r[:])
	}
	whole, ref := job.NewBlob("image/jpeg", data)
	pieces, sums := exchange.Cut(whole)
	return func(m *making) error {
		m.blobs = append(m.blobs, pieces...)
		at := o.device.stamp()
		s, err := o.writer.Stamp(at.Now, at.ID, job.Key{}, job.Photo{Part: part, Blob: ref, Chunks: sums}, nil)
		return o.stamped(m, s, err, past)
	}
}

// results is what a sheet would be printed from.
func (o *opened) results() []byte {
	var b strings.Builder
	for _, k := range o.state.Keys() {
		e, standing := o.state.Get(k)
		fmt.Fprintf(&b, "%s %d %s\n", k, standing, e.ID)
	}
	return []byte(b.String())
}

// sign signs the results; a moment later they are sealed.
func (o *opened) sign(m *making) error {
	results := o.results()
	ink, ref := job.Personal("Ines Varga", o.device.w.random16())
	m.blobs = append(m.blobs, ink)
	s, err := o.writer.Sign(o.device.stamp(), job.Sign{Who: "p1", Role: "technician", How: job.Typed, Ink: ref, Digest: seal.Digest(results)})
	o.later(o.device.w.rng.Int64N(3000), func() { o.perform("seal", o.seal) })
	return o.stamped(m, s, err, o.seen.copy())
}

func (o *opened) seal(m *making) error {
	results := o.results()
	blob, ref := job.NewBlob("text/plain", results)
	m.blobs = append(m.blobs, blob)
	s, err := o.writer.Seal(o.device.stamp(), seal.Digest(results), ref, "2026-11")
	if err != nil {
		o.device.w.tally.count("seals refused")
		return err
	}
	return o.stamped(m, s, nil, o.seen.copy())
}

// stamped signs what was stamped and writes it into the history. Past is what
// was on the screen, which may be less than what the writer has heard of.
func (o *opened) stamped(m *making, s job.Stamped, err error, past set) error {
	if err != nil {
		return err
	}
	w := o.device.w
	e := exchange.Event{Event: s.Event, Sig: w.signer.sign(o.device.key, s.Hash)}
	for i, other := range w.history.all {
		if o.seen.has(i) && other.Job == e.Job && other.Lam >= e.Lam {
			w.broken("O8: event %s has count %d, and its author had seen %d", e.ID, e.Lam, other.Lam)
			break
		}
	}
	m.events = append(m.events, e)
	m.made = append(m.made, &made{Event: e, past: past})
	w.history.add(m.made[len(m.made)-1])
	return nil
}

// perform is the act itself: stamp, sign, keep in one strict transaction, and
// only when that has completed fold, and show it as kept. While one act is being
// kept another is not begun.
func (o *opened) perform(what string, do func(*making) error) {
	w := o.device.w
	if o.busy {
		return
	}
	m := &making{act: act{job: o.job.id}}
	mark := o.writer.Mark
	if err := do(m); err != nil {
		o.writer.Undo(mark)
		return
	}
	o.busy = true
	w.tally.more("events", len(m.events))
	w.say("%s %s: %s %d", o.device.name, o.job.kind, what, m.made[0].at)
	o.keep(m.act, func(err error) {
		o.busy = false
		if err != nil {
			o.newWriter() // nobody knows what the disk has
			w.say("%s keeps nothing: %v", o.device.name, err)
			return
		}
		o.show(m)
	})
}

// show takes what was kept into the record, and says so to the person.
func (o *opened) show(m *making) {
	o.take(m.events)
	o.phone.Hold(m.events, m.blobs)
	for _, it := range m.made {
		o.device.shown[it.Hash], it.shown = true, true
		delete(o.device.w.lostEvents, it.Hash)
		for _, sum := range it.pieces {
			delete(o.device.w.lostPieces, pieceOf{it.Job, sum})
		}
		o.device.w.tally.count("events shown as kept")
	}
	o.checkFields(keysOf(m.made))
}

func keysOf(list []*made) (out []string) {
	for _, m := range list {
		if m.Field != "" && !slices.Contains(out, m.Field) {
			out = append(out, m.Field)
		}
	}
	return out
}
