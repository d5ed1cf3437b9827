package exchange

import (
	"bytes"
	"cmp"
	"crypto/ed25519"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"lugmark/core/job"
	"lugmark/core/seal"
)

// Verify reports whether sig is key's signature over hash: [seal.Verify], or
// what a browser has for it. On a phone it is called up to [MaxPage] times in one
// Answer, and may pause to let the screen paint.
type Verify func(key ed25519.PublicKey, hash [32]byte, sig []byte) bool

// Log is what an office knows of the log of one job, as far as a decision needs
// it. Whoever stores the log reads it and appends in one transaction that no
// other of the same job can enter.
type Log struct {
	Job   string
	End   Cursor              // the zero Cursor: no event yet
	Heads map[string]job.Head // by stream, of the streams in the log
	Aside []Event             // what stands aside; rarely any
	Keys  map[string]Key      // by stream: of the first event in the log
	Hash  func(stream string, seq int) ([32]byte, bool)
	Acc   func(n int) (acc [32]byte, there bool) // n from 1 to End.N
}

// Key is the public key of a stream; nil when there is none that can be used.
type Key = ed25519.PublicKey

// Row is one event of a log and the cursor behind it.
type Row struct {
	Cursor
	Event
}

// Decision is what a push amounts to. Nothing has been changed: the office
// stores Rows and Aside in one transaction, and answers when it has committed.
type Decision struct {
	Rows     []Row   // to append, in this order
	Aside    []Event // to set aside: another event has the place, and a person is told
	Repeated int     // are here already
	Early    int     // passed over, because an event of their stream is missing before them
	Refused  *Refusal
}

// Refusal says which event of a push is not to be trusted. Then nothing of the
// push is kept.
type Refusal struct {
	Index int // from 0
	Why   string
}

// Decide judges the events of a push.
func (l *Log) Decide(verify Verify, events []Event) Decision {
	d := Decision{}
	end := l.End
	heads := map[string]job.Head{} // of the streams that this push takes further
	keys := map[string]Key{}       // of the streams that it begins
	taken, aside := map[[32]byte]bool{}, map[[32]byte]bool{}
	others := map[string][]Key{} // of first events that stand aside
	setAside := func(e Event) {
		aside[e.Hash] = true
		if key := KeyOf(e.Event); key != nil {
			others[e.Stream] = append(others[e.Stream], key)
		}
	}
	for _, e := range l.Aside {
		setAside(e)
	}
	for i, e := range events {
		head, moved := heads[e.Stream]
		if !moved {
			head = l.Heads[e.Stream]
		}
		if e.Job != l.Job {
			return Decision{Refused: &Refusal{i, "belongs to job " + e.Job}}
		}
		was, there := l.Hash(e.Stream, e.Seq)
		if there && was == e.Hash || aside[e.Hash] || taken[e.Hash] {
			d.Repeated++
			continue
		}
		prev := prevOf(e)
		other := e.Seq <= head.Seq || e.Seq > 1 && aside[prev] || e.Seq == head.Seq+1 && prev != head.Hash
		if e.Seq > head.Seq+1 && !other {
			d.Early++
			continue
		}
		key := l.Keys[e.Stream]
		if key == nil {
			key = keys[e.Stream]
		}
		may := []Key{key}
		switch {
		case e.Seq == 1:
			may = []Key{KeyOf(e.Event)}
		case other:
			may = append(may, others[e.Stream]...)
		}
		if !slices.ContainsFunc(may, func(k Key) bool { return k != nil && verify(k, e.Hash, e.Sig) }) {
			return Decision{Refused: &Refusal{i, fmt.Sprintf("event %d of stream %s: the signature does not match", e.Seq, e.Stream)}}
		}
		if other {
			setAside(e)
			d.Aside = append(d.Aside, e)
			continue
		}
		if e.Seq == 1 {
			keys[e.Stream] = may[0]
		}
		end = end.Next(e.Hash)
		heads[e.Stream] = e.head()
		taken[e.Hash] = true
		d.Rows = append(d.Rows, Row{end, e})
	}
	return d
}

// prevOf returns the hash of the event before e in its stream, zero for the
// first.
func prevOf(e Event) (out [32]byte) {
	hex.Decode(out[:], []byte(e.Prev)) // Decode has read it
	return out
}

// KeyOf returns the key in the first event of a stream, nil when e is another
// one or the key is of a kind that is not known here.
func KeyOf(e job.Event) Key {
	if e.Open == nil {
		return nil
	}
	der, err := base64.StdEncoding.DecodeString(e.Open.Dev)
	if err != nil {
		return nil // Decode has read it
	}
	key, err := seal.ParseKey(der)
	if err != nil {
		return nil
	}
	return key
}

// After returns the truth as it is when a decision has been committed.
func (l *Log) After(d Decision) Message {
	m := Message{Kind: Truth, Job: l.Job, End: l.End}
	heads := map[string]job.Head{}
	for name, h := range l.Heads {
		heads[name] = h
	}
	for _, row := range d.Rows {
		heads[row.Stream] = row.head()
		m.End = row.Cursor
	}
	for _, h := range heads {
		m.Heads = append(m.Heads, h)
	}
	for _, list := range [][]Event{l.Aside, d.Aside} {
		for _, e := range list {
			m.Aside = append(m.Aside, e.head())
		}
	}
	slices.SortFunc(m.Heads, compareHeads)
	slices.SortFunc(m.Aside, compareHeads)
	return m
}

func compareHeads(a, b job.Head) int {
	return cmp.Or(strings.Compare(a.Stream, b.Stream), cmp.Compare(a.Seq, b.Seq), bytes.Compare(a.Hash[:], b.Hash[:]))
}

// Names reports whether c is the cursor of the first c.N events of this log.
// When it is not, the office answers [CodeCursor], and the phone begins again.
func (l *Log) Names(c Cursor) bool {
	if c.N == 0 {
		return c == Cursor{}
	}
	acc, there := l.Acc(c.N)
	return there && acc == c.Acc
}

// PageOf makes the page that begins behind from; rows are the next of the log,
// at most [MaxPage], and none at its end.
func (l *Log) PageOf(from Cursor, rows []Row) Message {
	m := Message{Kind: Page, Job: l.Job, From: from, To: from}
	size := 0
	for _, row := range rows[:min(len(rows), MaxPage)] {
		if size += lineSize(row.Event); size > maxBatch {
			break
		}
		m.Events = append(m.Events, row.Event)
		m.To = row.Cursor
	}
	return m
}

// maxBatch leaves room [bytes] for the first line of a message.
const maxBatch = MaxBytes - 512<<10

func lineSize(e Event) int { return len(e.Raw) + 96 }
