package plain

import (
	"fmt"
	"time"

	"lugmark/core/job"
)

// batch is how many values one act keeps at an import.
const batch = 100

// Batches gives the entries for an import, in order, at most 100 to an act,
// with every time moved by shift: 0 for a job as it was, the distance from the
// file's Now to the present for an invented one. Readings then say when they
// were measured, because they are kept later than that. A batch holds no two
// values of which one replaces the other, so each can be saved before the next
// is stamped.
func (f *File) Batches(shift time.Duration) [][]Entry {
	var out [][]Entry
	held := map[job.Key]bool{}
	for _, e := range f.Entries {
		last := len(out) - 1
		if last < 0 || len(out[last]) == batch || held[e.Key] && !e.Rival {
			out, held, last = append(out, nil), map[job.Key]bool{}, last+1
		}
		held[e.Key] = true
		out[last] = append(out[last], e.moved(f.Now, shift))
	}
	return out
}

// Stamps stamps a batch with the writer of the new job: what is to be signed,
// saved as one act together with the blobs, and then applied to the state.
// Stamp gives the moment and a fresh id for each event, salt random bytes for
// each personal text. On an error nothing is stamped.
func Stamps(batch []Entry, w *job.Writer, state *job.State, stamp func() job.Stamp, salt func() [job.Salt]byte) (stamps []job.Stamped, blobs []job.Blob, err error) {
	before := w.Mark
	for _, e := range batch {
		var saw []string
		if !e.Rival {
			saw = state.Seen(e.Key)
		}
		v := e.Value
		if v.Kind == job.KindPersonal {
			blob, ref := job.Personal(e.Personal, salt())
			blobs, v.X = append(blobs, blob), ref
		}
		s, err := w.Set(stamp(), e.Key, v, saw)
		if err != nil {
			w.Undo(before)
			return nil, nil, fmt.Errorf("plain: stamp line %d: %w", e.Line, err)
		}
		stamps = append(stamps, s)
	}
	return stamps, blobs, nil
}

// moved gives e with its times shifted, and with the time of the file where it
// has none of its own.
func (e Entry) moved(now time.Time, shift time.Duration) Entry {
	own := !e.At.IsZero()
	if !own {
		e.At = now
	}
	if !e.At.IsZero() {
		e.At = e.At.Add(shift)
		if e.Value.Kind == job.KindQuantity || own && e.Value.Kind == job.KindChoice {
			e.Value.When = stamp(e.At)
		}
	}
	e.Value.Time, e.Value.Until = shifted(e.Value.Time, shift), shifted(e.Value.Until, shift)
	return e
}

// shifted moves a time or a day; a day by whole days, to the nearest.
func shifted(s string, shift time.Duration) string {
	if t, err := time.Parse(time.DateOnly, s); err == nil {
		return t.Add(shift.Round(24 * time.Hour)).Format(time.DateOnly)
	}
	if t, err := time.Parse(time.RFC3339, s); err == nil && shift != 0 {
		return stamp(t.Add(shift))
	}
	return s
}
