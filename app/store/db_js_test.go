package store

import (
	"errors"
	"fmt"
	"sync/atomic"
	"syscall/js"
	"testing"
	"time"

	"lugmark/core/job"
)

var databases atomic.Int32

// inBrowser ends a test where there is no IndexedDB: build/e2e runs this
// package in Chromium, and nothing else runs these tests.
func inBrowser(t *testing.T) {
	t.Helper()
	if !js.Global().Get("indexedDB").Truthy() {
		t.Fatal("these tests need a browser: go test ./build/e2e -run Store")
	}
}

func newDB(t *testing.T) (name string, d *DB) {
	t.Helper()
	name = fmt.Sprintf("test-%d-%d", time.Now().UnixNano(), databases.Add(1))
	d, err := Open(name)
	must(t, err)
	return name, d
}

func TestDBConforms(t *testing.T) {
	inBrowser(t)
	conform(t, func(t *testing.T) (one, two Store) {
		name, d := newDB(t)
		e, err := Open(name)
		must(t, err)
		return d, e
	})
}

func TestDBOutlivesItsTab(t *testing.T) {
	inBrowser(t)
	name, d := newDB(t)
	key, err := d.Key()
	must(t, err)
	must(t, d.Keep(job.Act{Job: "j1", Events: []job.Signed{signed("j1", "s1", 1, "{}")}}))
	d.Close()
	again, err := Open(name)
	must(t, err)
	defer again.Close()
	if events, _, err := again.Job("j1"); err != nil || len(events) != 1 {
		t.Errorf("got %d events, %v", len(events), err)
	}
	same, err := again.Key()
	must(t, err)
	if string(same.PublicDER) != string(key.PublicDER) {
		t.Error("the key is another one")
	}
}

func TestDBKeyIsHardHere(t *testing.T) {
	inBrowser(t)
	_, d := newDB(t)
	defer d.Close()
	key, err := d.Key()
	must(t, err)
	if key.Soft {
		t.Fatal("Chromium has Ed25519, yet the key is soft")
	}
	record, err := keyRecord(d.database, deviceKey)
	must(t, err)
	if _, err := subtle("exportKey", "pkcs8", record.Get("private")); err == nil {
		t.Error("the private half can be taken out")
	}
}

func TestDBKeyIsSoftWithoutEd25519(t *testing.T) {
	inBrowser(t)
	subtleObject := js.Global().Get("crypto").Get("subtle")
	refuse := js.FuncOf(func(js.Value, []js.Value) any {
		return js.Global().Get("Promise").Call("reject", js.Global().Get("DOMException").New("no such algorithm", "NotSupportedError"))
	})
	defer refuse.Release()
	subtleObject.Set("generateKey", refuse) // shadows the browser's own
	defer subtleObject.Delete("generateKey")
	conformKey := func(open func() (Store, Store)) {
		one, two := open()
		defer one.Close()
		defer two.Close()
		keyOnce(t, one, two)
		if key, err := one.Key(); err != nil || !key.Soft {
			t.Errorf("soft %v, %v; want a soft key", key.Soft, err)
		}
	}
	conformKey(func() (Store, Store) {
		name, d := newDB(t)
		e, err := Open(name)
		must(t, err)
		return d, e
	})
}

// Another tab with a newer release raises the form of the store: this tab lets
// go and says so, and an old release opened later still reads everything.
func TestDBLetsGoForANewerForm(t *testing.T) {
	inBrowser(t)
	name, d := newDB(t)
	must(t, d.Keep(job.Act{Job: "j1", Events: []job.Signed{signed("j1", "s1", 1, "{}")}}))
	newer, err := openForm(browsersOwn, name, form+1)
	must(t, err)
	if err := d.Keep(job.Act{Job: "j1", Events: []job.Signed{signed("j1", "s1", 2, "{}")}}); !errors.Is(err, ErrClosed) {
		t.Errorf("got %v, want ErrClosed", err)
	}
	newer.Call("close")
	old, err := Open(name)
	must(t, err)
	defer old.Close()
	must(t, old.Keep(job.Act{Job: "j1", Events: []job.Signed{signed("j1", "s2", 1, "{}")}}))
	if events, _, err := old.Job("j1"); err != nil || len(events) != 2 {
		t.Errorf("got %d events, %v; want the first and the last", len(events), err)
	}
}

func TestOpenSaysWhenTheBrowserRefuses(t *testing.T) {
	inBrowser(t)
	define := func(value any) {
		js.Global().Get("Object").Call("defineProperty", js.Global(), "indexedDB",
			map[string]any{"value": value, "configurable": true})
	}
	real := js.Global().Get("indexedDB")
	defer define(real)
	throw := js.Global().Get("Function").New(`throw new DOMException("storage is off", "SecurityError")`)
	for name, value := range map[string]any{"absent": js.Undefined(), "throws": map[string]any{"open": throw}} {
		define(value)
		if _, err := Open("refused"); !errors.Is(err, ErrRefused) {
			t.Errorf("%s: got %v, want ErrRefused", name, err)
		}
	}
}

func TestDBTellsItsSpace(t *testing.T) {
	inBrowser(t)
	_, d := newDB(t)
	defer d.Close()
	if _, known := d.Persist(); !known {
		t.Error("Chromium has persist, yet it is not known")
	}
	if used, quota := d.Estimate(); quota <= 0 || used < 0 {
		t.Errorf("used %d of %d", used, quota)
	}
}

func TestDBKnowsWhenTheBrowserThrewItAway(t *testing.T) {
	inBrowser(t)
	name, d := newDB(t)
	if d.Lost() {
		t.Error("a new store says that it was lost")
	}
	must(t, d.Keep(job.Act{Job: "j1", Summary: []byte("x")}))
	d.Close()
	again, err := Open(name)
	must(t, err)
	if again.Lost() {
		t.Error("a store that is there says that it was lost")
	}
	again.Close()
	deleteStore(t, name)
	if newMirror().possible {
		deleteMirror(t, name)
	}
	for i, want := range []bool{true, false} { // said once: then the new store is the store
		empty, err := Open(name)
		must(t, err)
		if empty.Lost() != want {
			t.Errorf("opened %d times after the loss, it says %v", i+1, empty.Lost())
		}
		empty.Close()
	}
}
