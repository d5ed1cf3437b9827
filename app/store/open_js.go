//go:build js

package store

import (
	"errors"
	"fmt"
	"sync"
	"sync/atomic"
	"syscall/js"
	"time"
)

// DB is a store in the browser's IndexedDB. It is made by [Open].
//
// Its object stores, and what stands in each. Records are strings where many
// are read at once: joined, they cross from JavaScript to Go in one step, which
// is three times as fast as one by one.
//
//	events     [job, stream, seq]  "stream seq base64(signature) raw"
//	texts      [job, sum]          "sum type base64(data)", blobs of type text/…
//	files      [job, sum]          Blob, all other blobs
//	summaries  job                 JSON
//	drafts     key                 text
//	keys       "device"            {private, public} or {seed}
//	           "born"              the name of this store, random
//	           "last"              a token of the last act, random
//	           "forgotten JOB"     the mirror may still hold this job
//	           "erased JOB SUM"    the mirror may still hold this blob
//
// Where the browser can be made to lose it, it has a second place to write to:
// see [DB.Mirrored].
type DB struct {
	*database
	name    string
	mirror  *mirror
	turn    sync.Mutex    // see enter
	channel js.Value      // BroadcastChannel, or undefined
	hears   js.Func       // its handler, or none
	gone    chan struct{} // closed by Close
	closing sync.Once
	lost    atomic.Bool
	healed  atomic.Int64

	watching sync.Mutex
	watchers map[*func(string)]bool
}

// Open opens the store of that name, and makes it the first time. It fails with
// [ErrRefused] where the browser stores nothing for this page, and with
// [ErrClosed] when another tab will not let go of an older form of it. What the
// browser threw away comes back from the mirror before Open returns.
func Open(name string) (*DB, error) {
	d := &DB{name: name, mirror: newMirror(), gone: make(chan struct{}), watchers: map[*func(string)]bool{}}
	mirrored := make(chan error, 1)
	go func() { mirrored <- d.openMirror() }() // meanwhile the store itself opens

	var err error
	d.database, err = openDatabase(browsersOwn, name, func() { d.Close() })
	switch {
	case err == nil:
	case errors.Is(err, ErrClosed), errors.Is(err, ErrFull):
		close(d.gone)
		return nil, wrap(err, "open %s", name)
	default:
		close(d.gone)
		return nil, fmt.Errorf("store: open %s: %w (%v)", name, ErrRefused, err)
	}
	d.listen(name)
	fresh, err := d.lookForLoss()
	if err != nil {
		d.Close()
		return nil, wrap(err, "open %s", name)
	}
	if !d.mirror.possible {
		return d, nil
	}
	// A store that is there need not wait long for a mirror that is slow to come.
	wait := 2 * time.Second
	if fresh {
		wait = patience
	}
	if within(wait, func() error { return <-mirrored }) == nil {
		if m := d.mirror.db.Load(); m != nil && (fresh || !d.agree(m)) {
			catch(func() { d.heal(m) }) // what fails here, follow tries again
		}
	}
	go d.follow()
	return d, nil
}

// Close implements [Store]. A transaction under way still ends.
func (d *DB) Close() {
	if d.database == nil {
		return // taken away while it opened
	}
	d.closing.Do(func() {
		close(d.gone)
		d.database.close()
		d.dropMirror()
		if d.channel.Truthy() {
			d.channel.Call("close")
			time.AfterFunc(time.Second, d.hears.Release) // this may run inside it
		}
	})
}

// browsersOwn is where a page keeps databases when it asks for no bucket.
func browsersOwn() js.Value { return js.Global().Get("indexedDB") }
