//go:build js

package store

import (
	"errors"
	"sync/atomic"
	"syscall/js"
	"time"
)

// mirror is a second database with the same content, in a storage bucket of its
// own, which the browser keeps in another folder. The store is written first
// and the mirror after it, never both at once: a kill tears one of them, and
// the other one has everything. Drafts are not mirrored.
//
// Only browsers that have storage buckets have a mirror. They are those that
// keep databases in LevelDB, which is what needs it; see [DB.Lost].
type mirror struct {
	possible bool                     // the browser has storage buckets
	buckets  js.Value                 // StorageBucketManager, where possible
	db       atomic.Pointer[database] // nil while it is not open
	gaveWay  atomic.Bool              // it was removed to make room
	failures atomic.Int64             // writes that the mirror has missed
	caughtUp atomic.Int64             // of these, how many were made good, plus one
	behind   chan struct{}            // wakes follow
}

const bucketName = "lugmark-mirror"

// mirrorPatience is how long one transaction of the mirror may take [s]. What is
// kept next may have to wait for it.
const mirrorPatience = 3 * time.Second

// Mirrored reports whether the mirror has everything that the store has, but
// for an act that was kept this moment. It is false where there is no mirror.
func (d *DB) Mirrored() bool {
	return d.mirror.db.Load() != nil && d.mirror.caughtUp.Load() == d.mirror.failures.Load()+1
}

// Healed returns how many events came back from the mirror since Open, because
// the browser had thrown them away.
func (d *DB) Healed() int { return int(d.healed.Load()) }

// newMirror is a mirror that is not open yet.
func newMirror() *mirror {
	m := &mirror{behind: make(chan struct{}, 1)}
	if navigator := js.Global().Get("navigator"); navigator.Truthy() {
		m.buckets = navigator.Get("storageBuckets")
		m.possible = m.buckets.Truthy()
	}
	return m
}

// openMirror opens the mirror, unless it is open or has given way.
func (d *DB) openMirror() error {
	if !d.mirror.possible || d.mirror.gaveWay.Load() || d.mirror.db.Load() != nil {
		return nil
	}
	var promise js.Value
	err := catch(func() {
		promise = d.mirror.buckets.Call("open", bucketName, map[string]any{"persisted": true, "durability": strict})
	})
	if err != nil {
		return err
	}
	bucket, err := awaitPromise(promise)
	if err != nil {
		return err
	}
	factory := bucket.Get("indexedDB")
	m, err := openDatabase(func() js.Value { return factory }, d.name, d.dropMirror)
	if err != nil {
		return err
	}
	m.holds = []js.Value{bucket, factory}
	m.slow = d.dropMirror // a new connection may do better
	select {
	case <-d.gone:
		m.close()
		return ErrClosed
	default:
	}
	if !d.mirror.db.CompareAndSwap(nil, m) {
		m.close() // opened twice
	}
	return nil
}

// dropMirror lets go of the mirror; follow opens it again.
func (d *DB) dropMirror() {
	if m := d.mirror.db.Swap(nil); m != nil {
		m.close()
	}
	d.mirror.wake()
}

// giveWay removes the mirror for good when there is no room for the next act,
// which is worth more than a copy of the last ones. It reports whether that
// made room.
func (d *DB) giveWay() bool {
	if d.mirror.db.Load() == nil || !d.mirror.gaveWay.CompareAndSwap(false, true) {
		return false
	}
	d.dropMirror()
	var promise js.Value
	if catch(func() { promise = d.mirror.buckets.Call("delete", bucketName) }) != nil {
		return false
	}
	_, err := awaitPromise(promise)
	return err == nil
}

// missed notes that the mirror has missed a write.
func (m *mirror) missed() {
	m.failures.Add(1)
	m.wake()
}

func (m *mirror) wake() {
	select {
	case m.behind <- struct{}{}:
	default: // it is being woken
	}
}

// first runs write on the store and returns when that has ended; then runs echo
// on the mirror, behind the caller's back. The next turn begins after both.
func (d *DB) first(write func() error, echo func(*database) error) error {
	leave := d.enter()
	err := write()
	if errors.Is(err, ErrFull) && d.giveWay() {
		err = write()
	}
	if err != nil || !d.mirror.possible {
		leave()
		return err
	}
	m := d.mirror.db.Load()
	if m == nil {
		d.mirror.missed()
		leave()
		return nil
	}
	go func() {
		defer leave()
		d.onMirror(func() error { return echo(m) })
	}()
	return nil
}

// onMirror runs one write to the mirror and notes when it fails.
func (d *DB) onMirror(write func() error) error {
	err := write()
	if err != nil {
		d.mirror.missed()
	}
	return err
}
