//go:build js

package store

import (
	"sync"
	"sync/atomic"
	"syscall/js"
	"time"
)

// database is one database of the browser, open in this tab: the store itself,
// or its mirror. It has the object stores that [DB] lists.
type database struct {
	v js.Value // IDBDatabase

	// Of the mirror alone:
	holds  []js.Value // its bucket: a browser that collects that lets the database hang
	slow   func()     // called when a transaction took longer than mirrorPatience
	closed atomic.Bool
	end    sync.Once
	taken  js.Func // released by close
}

// form is the version of the object stores. A version may add stores and must
// leave the old ones as they are: two tabs may run two releases of the app.
const form = 1

var objectStores = []string{"events", "texts", "files", "summaries", "drafts", "keys"}

// patience is how long Open waits for a browser that answers nothing [s].
const patience = 20 * time.Second

// openDatabase opens the database of that name, and makes it the first time.
// taken is called when another tab changes its form, or when the browser takes
// it away; it must lead to close.
func openDatabase(factory func() js.Value, name string, taken func()) (*database, error) {
	v, err := openForm(factory, name, form)
	if named(err, "VersionError") {
		// A newer release has been here. It left the stores we know as they are.
		v, err = openForm(factory, name, 0)
	}
	if err != nil {
		return nil, err
	}
	b := &database{v: v, taken: js.FuncOf(func(js.Value, []js.Value) any {
		taken()
		return nil
	})}
	for _, event := range takenAway {
		v.Set(event, b.taken)
	}
	return b, nil
}

var takenAway = []string{"onversionchange", "onclose"}

// close lets go of the database. A transaction under way still ends. Twice is
// no harm.
func (b *database) close() {
	b.end.Do(func() {
		b.closed.Store(true)
		b.v.Call("close")
		for _, event := range takenAway {
			b.v.Set(event, js.Null())
		}
		// Released later: this may run inside it.
		time.AfterFunc(time.Second, b.taken.Release)
	})
}

// openForm opens a database at a version; 0 is the one it has.
func openForm(factory func() js.Value, name string, version int) (js.Value, error) {
	type answer struct {
		db  js.Value
		err error
	}
	answers := make(chan answer, 4)
	var request js.Value
	err := catch(func() {
		factory := factory()
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
