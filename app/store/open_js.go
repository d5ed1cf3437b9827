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
type DB struct {
	v       js.Value // IDBDatabase
	channel js.Value // BroadcastChannel, or undefined
	closed  atomic.Bool
	end     sync.Once
	keep    []js.Func // released by Close
	lost    bool

	watching sync.Mutex
	watchers map[*func(string)]bool
}

// form is the version of the object stores. A version may add stores and must
// leave the old ones as they are: two tabs may run two releases of the app.
const form = 1

var objectStores = []string{"events", "texts", "files", "summaries", "drafts", "keys"}

// patience is how long Open waits for a browser that answers nothing [s].
const patience = 20 * time.Second

// Open opens the store of that name, and makes it the first time. It fails with
// [ErrRefused] where the browser stores nothing for this page, and with
// [ErrClosed] when another tab will not let go of an older form of it.
func Open(name string) (*DB, error) {
	v, err := openForm(name, form)
	if named(err, "VersionError") {
		// A newer release has been here. It left the stores we know as they are.
		v, err = openForm(name, 0)
	}
	switch {
	case err == nil:
	case errors.Is(err, ErrClosed), errors.Is(err, ErrFull):
		return nil, wrap(err, "open %s", name)
	default:
		return nil, fmt.Errorf("store: open %s: %w (%v)", name, ErrRefused, err)
	}
	d := &DB{v: v, watchers: map[*func(string)]bool{}}
	if err := d.lookForLoss(name); err != nil {
		v.Call("close")
		return nil, wrap(err, "open %s", name)
	}
	d.listen(name)
	d.on(v, "onversionchange", func(js.Value) { d.Close() }) // another tab changes the form: let it
	d.on(v, "onclose", func(js.Value) { d.Close() })         // the browser took it away
	return d, nil
}

// on sets a handler that lives as long as the store.
func (d *DB) on(target js.Value, event string, f func(event js.Value)) {
	fn := js.FuncOf(func(_ js.Value, args []js.Value) any {
		f(args[0])
		return nil
	})
	d.keep = append(d.keep, fn)
	target.Set(event, fn)
}

// openForm opens a database at a version; 0 is the one it has.
func openForm(name string, version int) (js.Value, error) {
	type answer struct {
		db  js.Value
		err error
	}
	answers := make(chan answer, 4)
	var request js.Value
	err := catch(func() {
		factory := js.Global().Get("indexedDB")
		if !factory.Truthy() {
			panic(js.Error{Value: js.Global().Get("Error").New("there is no indexedDB")})
		}
		if version == 0 {
			request = factory.Call("open", name)
		} else {
			request = factory.Call("open", name, version)
		}
	})
	if err != nil {
		return js.Value{}, err
	}
	handlers := map[string]js.Func{
		"onupgradeneeded": js.FuncOf(func(js.Value, []js.Value) any {
			if err := catch(func() { makeStores(request.Get("result")) }); err != nil {
				answers <- answer{err: err}
			}
			return nil
		}),
		"onsuccess": js.FuncOf(func(js.Value, []js.Value) any {
			answers <- answer{db: request.Get("result")}
			return nil
		}),
		"onerror": js.FuncOf(func(_ js.Value, args []js.Value) any {
			args[0].Call("preventDefault")
			answers <- answer{err: fromJS(request.Get("error"))}
			return nil
		}),
		// Not an end: it is asked again when the other tab lets go, and ours do.
		"onblocked": js.FuncOf(func(js.Value, []js.Value) any { return nil }),
	}
	for event, fn := range handlers {
		request.Set(event, fn)
	}
	select {
	case a := <-answers:
		for event, fn := range handlers {
			request.Set(event, js.Null())
			fn.Release()
		}
		return a.db, a.err
	case <-time.After(patience):
		// The handlers stay: the browser may still answer, and then must not be
		// left with an open store that nobody closes.
		go func() {
			if a := <-answers; a.err == nil {
				a.db.Call("close")
			}
		}()
		return js.Value{}, ErrClosed
	}
}

func makeStores(db js.Value) {
	have := db.Get("objectStoreNames")
	for _, name := range objectStores {
		if !have.Call("contains", name).Bool() {
			db.Call("createObjectStore", name)
		}
	}
}

// Close implements [Store]. A transaction under way still ends.
func (d *DB) Close() {
	d.end.Do(func() {
		d.closed.Store(true)
		d.v.Call("close")
		if d.channel.Truthy() {
			d.channel.Call("close")
		}
		for _, event := range []string{"onversionchange", "onclose"} {
			d.v.Set(event, js.Null())
		}
		// Released later: this may run inside one of them.
		time.AfterFunc(time.Second, func() {
			for _, fn := range d.keep {
				fn.Release()
			}
		})
	})
}
