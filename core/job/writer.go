package job

import (
	"crypto/sha256"
	"encoding/base32"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"sort"
	"time"
)

// Writer stamps the events of one stream: one run of the program on one device
// in one job. A stream is begun at its first event, not when the Writer is
// made, and is never taken up again by another run.
//
// The order of an act: Mark, stamp everything, sign the hashes, save, then
// Apply to the state. When the save is known to have failed, Undo takes the
// stamps back, and the stream has no hole. When nobody knows whether it
// failed, make a new Writer instead: a seq that was saved must not be used
// twice.
type Writer struct {
	job, by string
	stream  string
	open    Open
	state   *State
	Mark
}

// Mark is how far a Writer has come.
type Mark struct {
	seq  int
	prev string
	lam  int
}

// Author is who writes: the person, and the device with its key.
type Author struct {
	By   string // p1
	Key  []byte // the device's public key, DER
	Soft bool   // the key can be copied out of its store
	App  string // "lugmark 0.1.0"
}

// NewWriter returns the writer of a new stream in the job of state. The random
// bytes must never have been used before.
func NewWriter(author Author, random [16]byte, state *State) *Writer {
	h := sha256.New()
	h.Write(author.Key)
	h.Write([]byte(state.job))
	h.Write(random[:])
	return &Writer{
		job:    state.job,
		by:     author.By,
		stream: base32Lower.EncodeToString(h.Sum(nil))[:16],
		open:   Open{Dev: base64.StdEncoding.EncodeToString(author.Key), Soft: author.Soft, App: author.App},
		state:  state,
	}
}

var base32Lower = base32.NewEncoding("abcdefghijklmnopqrstuvwxyz234567").WithPadding(base32.NoPadding)

// By changes the person whose events follow.
func (w *Writer) By(person string) { w.by = person }

// Stream returns the name of the stream.
func (w *Writer) Stream() string { return w.stream }

// Undo goes back to a mark that was taken as w.Mark, after a save that is known
// to have failed.
func (w *Writer) Undo(m Mark) { w.Mark = m }

// Stamped is an event that waits for its signature.
type Stamped struct {
	Event Event
	Hash  [32]byte // what the device signs
}

// Signed joins the event and the device's signature over its hash.
func (s Stamped) Signed(sig []byte) Signed {
	return Signed{Job: s.Event.Job, Stream: s.Event.Stream, Seq: s.Event.Seq, Raw: s.Event.Raw, Sig: sig}
}

// Stamp makes the next event of the stream. Now carries the offset of the
// place; id is a fresh UUIDv7; the zero Key means no field. Sup is what the
// event supersedes, at most [MaxSup] events.
//
// On an error nothing is stamped.
func (w *Writer) Stamp(now time.Time, id string, field Key, body Body, sup []string) (Stamped, error) {
	e := Event{
		V: 1, ID: id, Job: w.job, Stream: w.stream, Seq: w.seq + 1, Prev: w.prev,
		Lam: max(w.lam, w.state.MaxLam()) + 1,
		At:  now.Format(stampLayout), By: w.by,
		Type: body.Type(), Field: field.String(), Body: body, Sup: sup,
	}
	if e.Seq == 1 {
		open := w.open
		open.After = w.after()
		e.Open = &open
	}
	raw, err := Encode(e)
	if err != nil {
		return Stamped{}, err
	}
	if e, err = Decode(raw); err != nil {
		return Stamped{}, err
	}
	if !e.Known {
		return Stamped{}, fmt.Errorf("job: stamp %s: a %s is not written", id, e.Type)
	}
	w.seq, w.prev, w.lam = e.Seq, hex.EncodeToString(e.Hash[:]), e.Lam
	return Stamped{Event: e, Hash: e.Hash}, nil
}

// Milliseconds and the offset in figures, also for UTC.
const stampLayout = "2006-01-02T15:04:05.000-07:00"

// maxAfter is how many heads fit on the first line of a stream beside a body
// of MaxBody: 88 bytes each.
const maxAfter = 80

// after returns the frontier. Of one that is too long the streams that wrote
// last are named; the others stay on the frontier.
func (w *Writer) after() []Head {
	heads := w.state.Frontier()
	if len(heads) <= maxAfter {
		return heads
	}
	lam := func(h Head) int { return w.state.stream[h.Stream].at[h.Seq].Lam }
	sort.SliceStable(heads, func(i, j int) bool { return lam(heads[i]) > lam(heads[j]) })
	heads = heads[:maxAfter]
	sort.Slice(heads, func(i, j int) bool { return heads[i].Stream < heads[j].Stream })
	return heads
}
