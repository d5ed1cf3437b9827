package plain

import (
	"fmt"
	"strings"
	"time"

	"lugmark/core/job"
)

// Where a state that is only looked at pretends to come from. Its events are
// never signed, stored or sent.
const (
	lookJob    = "00000000-0000-7000-8000-000000000000"
	lookStream = "aaaaaaaaaaaaaaaa"
)

// stamp writes a time as the record has it.
func stamp(t time.Time) string { return t.Format(time.RFC3339Nano) }

// State folds the entries into a state for the checks, and gives the personal
// texts that it names. It is for looking only: nothing in it is signed, so
// nothing of it may be kept. The file must have its Now.
func (f *File) State() (*job.State, job.Blobs, error) {
	state, blobs := job.New(lookJob), job.Blobs{}
	if f.Now.IsZero() {
		return nil, nil, fmt.Errorf("plain: state: no time to judge at")
	}
	for i, entry := range f.Entries {
		v := entry.Value
		switch {
		case v.Kind == job.KindPersonal:
			blob, ref := job.Personal(entry.Personal, [job.Salt]byte{})
			blobs[blob.Sum], v.X = blob.Data, ref
		case !entry.At.IsZero():
			v.When = stamp(entry.At)
		}
		var replaces []string
		if !entry.Rival {
			replaces = state.Seen(entry.Key)
		}
		raw, err := job.Encode(job.Event{
			V: 1, ID: fmt.Sprintf("%s%012x", lookJob[:24], i+1), Job: lookJob,
			Stream: lookStream, Seq: i + 2, Prev: strings.Repeat("0", 64), Lam: i + 1,
			At: stamp(f.Now), By: "p1", Type: "set/1", Field: entry.Key.String(), Body: job.Set{Value: v}, Sup: replaces,
		})
		if err != nil {
			return nil, nil, fmt.Errorf("plain: state: line %d: %w", entry.Line, err)
		}
		e, err := job.Decode(raw)
		if err == nil {
			err = state.Apply(e)
		}
		if err != nil {
			return nil, nil, fmt.Errorf("plain: state: line %d: %w", entry.Line, err)
		}
	}
	return state, blobs, nil
}
