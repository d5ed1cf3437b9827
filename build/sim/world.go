package main

import (
	"container/heap"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"hash"
	"io"
	"math/rand/v2"
	"time"

	"lugmark/core/job"
)

// world is one run: everything in it follows from the seed.
type world struct {
	seed    uint64
	rng     *rand.Rand
	now     int64 // virtual time [ms]
	queue   queue
	order   int
	signer  signer
	office  *office
	devices []*device
	jobs    []jobName
	history *history
	healing bool // the time of faults is over

	lostEvents map[[32]byte]bool // no disk had a copy any more: nothing can bring them back
	lostPieces map[pieceOf]bool
	restless   bool // it did not end by itself
	forked     bool // a profile was copied while a stream was being written

	tally      *tally
	violations []string
	trace      io.Writer // nil: nobody looks
	digest     hash.Hash // of the trace
}

// pieceOf is a piece of one job; the same bytes in another job are another copy.
type pieceOf struct{ job, sum string }

type jobName struct{ id, kind string }

func newWorld(seed uint64, real bool) *world {
	w := &world{
		seed: seed, rng: rand.New(rand.NewPCG(seed, 0)), signer: signer{real},
		lostEvents: map[[32]byte]bool{}, lostPieces: map[pieceOf]bool{},
		tally: newTally(), digest: sha256.New(),
	}
	w.history = newHistory()
	w.tally.runs = 1
	if real {
		w.tally.real = 1
	}
	return w
}

// run plays one life and judges it.
func (w *world) run() {
	for i, kind := range []string{job.KindBank, job.KindBank, job.KindRegister} {
		w.jobs = append(w.jobs, jobName{w.uuid(int64(i)), kind})
	}
	w.office = newOffice(w)
	for range 2 + w.rng.IntN(4) {
		w.addDevice(nil).startTab()
	}
	for range 90 + w.rng.IntN(210) {
		w.step()
		w.runUntil(w.now + w.rng.Int64N(6000))
	}
	w.heal()
	if !w.restless {
		w.judge()
	}
	w.tally.violations = len(w.violations)
}

// step is one thing that happens.
func (w *world) step() {
	d := w.devices[w.rng.IntN(len(w.devices))]
	if len(d.tabs) == 0 {
		d.startTab()
	}
	t := d.tabs[w.rng.IntN(len(d.tabs))]
	o := t.open[w.rng.IntN(len(t.open))]
	switch n := w.rng.IntN(100); {
	case n < 50:
		o.edit()
	case n < 78:
		o.sync()
	case n < 81:
		o.handOver()
	case n < 94:
		w.someFault(d, t)
	}
}

// event is something that happens at a moment.
type event struct {
	at    int64
	order int
	do    func()
}

type queue []event

func (q queue) Len() int { return len(q) }
func (q queue) Less(i, j int) bool {
	return q[i].at < q[j].at || q[i].at == q[j].at && q[i].order < q[j].order
}
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)   { *q = append(*q, x.(event)) }
func (q *queue) Pop() any {
	last := (*q)[len(*q)-1]
	(*q)[len(*q)-1] = event{}
	*q = (*q)[:len(*q)-1]
	return last
}

// in lets something happen after so many milliseconds.
func (w *world) in(ms int64, do func()) {
	w.order++
	heap.Push(&w.queue, event{w.now + ms, w.order, do})
}

func (w *world) runUntil(at int64) {
	for len(w.queue) > 0 && w.queue[0].at <= at {
		e := heap.Pop(&w.queue).(event)
		w.now = e.at
		e.do()
	}
	w.now = at
}

// settle runs until nothing is left to happen.
func (w *world) settle() {
	for n := 0; len(w.queue) > 0; n++ {
		if n > 20_000 {
			w.broken("O10: it never comes to rest")
			w.queue, w.restless = nil, true
			return
		}
		w.runUntil(w.queue[0].at)
	}
}

// chance is true so many times in a thousand, and never once faults are over.
func (w *world) chance(perMille int) bool {
	return !w.healing && w.rng.IntN(1000) < perMille
}

func (w *world) say(format string, args ...any) {
	line := fmt.Sprintf("%9d ", w.now) + fmt.Sprintf(format, args...) + "\n"
	io.WriteString(w.digest, line)
	if w.trace != nil {
		io.WriteString(w.trace, line)
	}
}

func (w *world) broken(format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	w.violations = append(w.violations, text)
	w.say("VIOLATION %s", text)
}

// uuid makes a UUIDv7 (RFC 9562, section 5.7) with the time that a clock shows.
func (w *world) uuid(ms int64) string {
	var b [16]byte
	binary.BigEndian.PutUint64(b[:8], uint64(ms)<<16|w.rng.Uint64()&0xffff)
	binary.BigEndian.PutUint64(b[8:], w.rng.Uint64())
	b[6], b[8] = b[6]&0x0f|0x70, b[8]&0x3f|0x80
	return fmt.Sprintf("%x-%x-%x-%x-%x", b[:4], b[4:6], b[6:8], b[8:10], b[10:])
}

func (w *world) random16() (out [16]byte) {
	binary.LittleEndian.PutUint64(out[:8], w.rng.Uint64())
	binary.LittleEndian.PutUint64(out[8:], w.rng.Uint64())
	return out
}

// start is when the clocks of the world begin.
var start = time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC)
