package store

import (
	"errors"
	"fmt"
	"sync"
	"sync/atomic"
	"syscall/js"
	"testing"
	"time"

	"lugmark/core/job"
)

// withMirror ends a test where the browser has no storage buckets. Chromium,
// in which build/e2e runs this package, has them.
func withMirror(t *testing.T) {
	t.Helper()
	inBrowser(t)
	if !newMirror().possible {
		t.Fatal("these tests need a browser with storage buckets")
	}
}

// settled waits until the mirror has everything.
func settled(t *testing.T, d *DB) {
	t.Helper()
	for end := time.Now().Add(10 * time.Second); !d.Mirrored(); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("the mirror does not catch up")
		}
	}
	d.enter()() // the write under way
}

// hideBuckets makes this browser one that has no storage buckets.
func hideBuckets() (show func()) {
	navigator := js.Global().Get("navigator")
	js.Global().Get("Object").Call("defineProperty", navigator, "storageBuckets",
		map[string]any{"value": js.Undefined(), "configurable": true})
	return func() { navigator.Delete("storageBuckets") }
}

func deleteStore(t *testing.T, name string) {
	t.Helper()
	_, err := await(browsersOwn().Call("deleteDatabase", name))
	must(t, err)
}

func deleteMirror(t *testing.T, name string) {
	t.Helper()
	bucket, err := awaitPromise(newMirror().buckets.Call("open", bucketName))
	must(t, err)
	_, err = await(bucket.Get("indexedDB").Call("deleteDatabase", name))
	must(t, err)
}

// acts keeps n acts of a job, each with a text and every third with a photo.
func acts(t *testing.T, d *DB, id string, n int) {
	t.Helper()
	for i := 1; i <= n; i++ {
		blobs := []job.Blob{blob("text/plain", fmt.Sprint(id, " note ", i))}
		if i%3 == 0 {
			blobs = append(blobs, blob("image/jpeg", fmt.Sprint(id, " photo ", i)))
		}
		must(t, d.Keep(job.Act{Job: id, Events: []job.Signed{signed(id, "s1", i, fmt.Sprintf(`{"n":%d}`, i))},
			Blobs: blobs, Summary: fmt.Append(nil, i)}))
	}
}

func hasActs(t *testing.T, d *DB, id string, n int) {
	t.Helper()
	events, texts, err := d.Job(id)
	must(t, err)
	all, err := d.Summaries()
	must(t, err)
	line := ""
	if n > 0 {
		line = fmt.Sprint(n)
	}
	if len(events) != n || len(texts) != n || string(all[id]) != line {
		t.Errorf("%s: %d events, %d texts, line %q; want %d", id, len(events), len(texts), all[id], n)
	}
	for i := 3; i <= n; i += 3 {
		photo := blob("image/jpeg", fmt.Sprint(id, " photo ", i))
		if got, there, err := d.Blob(id, photo.Sum); err != nil || !there || string(got.Data) != string(photo.Data) {
			t.Errorf("%s: photo %d: there %v, %q, %v", id, i, there, got.Data, err)
		}
	}
}

func TestMirrorBringsTheStoreBack(t *testing.T) {
	withMirror(t)
	name, d := newDB(t)
	key, err := d.Key()
	must(t, err)
	acts(t, d, "j1", 7)
	acts(t, d, "j2", 2)
	acts(t, d, "j3", 3)
	must(t, d.Forget("j3"))
	settled(t, d)
	d.Close()
	deleteStore(t, name)

	again, err := Open(name)
	must(t, err)
	if again.Healed() != 9 || again.Lost() {
		t.Errorf("healed %d events, lost %v; want 9, and nothing lost", again.Healed(), again.Lost())
	}
	hasActs(t, again, "j1", 7)
	hasActs(t, again, "j2", 2)
	hasActs(t, again, "j3", 0)
	same, err := again.Key()
	must(t, err)
	if string(same.PublicDER) != string(key.PublicDER) || same.Soft != key.Soft {
		t.Error("the key is another one")
	}
	acts(t, again, "j1", 9) // the first seven again, and two more
	settled(t, again)
	again.Close()
	third, err := Open(name)
	must(t, err)
	defer third.Close()
	if third.Healed() != 0 || third.Lost() {
		t.Errorf("one start later it heals %d events, lost %v", third.Healed(), third.Lost())
	}
	hasActs(t, third, "j1", 9)
}

func TestMirrorBringsBackTheTail(t *testing.T) {
	withMirror(t)
	name, d := newDB(t)
	acts(t, d, "j1", 5)
	settled(t, d)
	// What a cut log leaves: the last two acts were never there.
	must(t, d.change(func(tx *transaction) error {
		for _, n := range []int{4, 5} {
			tx.store("events").Call("delete", js.ValueOf([]any{"j1", "s1", n}))
			tx.store("texts").Call("delete", js.ValueOf([]any{"j1", blob("text/plain", fmt.Sprint("j1 note ", n)).Sum}))
		}
		tx.store("summaries").Call("put", "3", "j1")
		tx.store("keys").Call("put", "the third", lastMark)
		return nil
	}, "events", "texts", "summaries", "keys"))
	d.Close()
	again, err := Open(name)
	must(t, err)
	defer again.Close()
	if again.Healed() != 2 {
		t.Errorf("healed %d events, want 2", again.Healed())
	}
	hasActs(t, again, "j1", 5)
}

func TestMirrorIsBuiltAgain(t *testing.T) {
	withMirror(t)
	name, d := newDB(t)
	acts(t, d, "j1", 250) // more than one batch
	settled(t, d)
	d.Close()
	deleteMirror(t, name)
	again, err := Open(name)
	must(t, err)
	settled(t, again)
	if again.Healed() != 0 || again.Lost() {
		t.Errorf("healed %d, lost %v; want nothing of that", again.Healed(), again.Lost())
	}
	again.Close()
	deleteStore(t, name)
	third, err := Open(name)
	must(t, err)
	defer third.Close()
	if third.Healed() != 250 || third.Lost() {
		t.Errorf("healed %d, lost %v; want 250, and nothing lost", third.Healed(), third.Lost())
	}
	hasActs(t, third, "j1", 250)
}

func TestLostWhenBothAreGone(t *testing.T) {
	withMirror(t)
	name, d := newDB(t)
	acts(t, d, "j1", 1)
	settled(t, d)
	d.Close()
	deleteStore(t, name)
	deleteMirror(t, name)
	again, err := Open(name)
	must(t, err)
	defer again.Close()
	if again.Healed() != 0 || !again.Lost() {
		t.Errorf("healed %d, lost %v; want nothing, and that it is lost", again.Healed(), again.Lost())
	}
}

func TestFailingMirrorHarmsNothing(t *testing.T) {
	withMirror(t)
	name, d := newDB(t)
	acts(t, d, "j1", 2)
	acts(t, d, "j2", 2)
	settled(t, d)
	m := d.mirror.db.Load()
	m.v.Call("close") // it fails from now on, unnoticed
	began := time.Now()
	must(t, d.Keep(job.Act{Job: "j1", Events: []job.Signed{signed("j1", "s2", 1, "{}")}}))
	if took := time.Since(began); took > 2*time.Second {
		t.Errorf("keeping took %v", took)
	}
	d.enter()()
	if d.Mirrored() {
		t.Error("it says that the mirror has everything")
	}
	must(t, d.Forget("j2")) // the mirror cannot forget it now
	d.Close()
	again, err := Open(name)
	must(t, err)
	if again.Healed() != 0 {
		t.Errorf("%d events of a forgotten job came back", again.Healed())
	}
	hasActs(t, again, "j2", 0)
	settled(t, again)
	again.Close()
	deleteStore(t, name)
	third, err := Open(name)
	must(t, err)
	defer third.Close()
	if third.Healed() != 3 {
		t.Errorf("healed %d events, want the three of j1", third.Healed())
	}
	hasActs(t, third, "j2", 0)
}

// A mirror that never answers is let go; what is kept next waits no longer than
// mirrorPatience, once.
func TestHangingMirrorIsLetGo(t *testing.T) {
	withMirror(t)
	_, d := newDB(t)
	defer d.Close()
	settled(t, d)
	m := d.mirror.db.Load()
	began := time.Now()
	hung := make(chan error, 1)
	go func() { // holds every object store until long after
		hung <- d.inTurn(func() error {
			return m.change(func(*transaction) error {
				time.Sleep(2 * mirrorPatience)
				return nil
			}, "events", "texts", "files", "summaries", "drafts", "keys")
		})
	}()
	time.Sleep(10 * time.Millisecond)
	acts(t, d, "j1", 3)
	if took := time.Since(began); took > mirrorPatience+time.Second {
		t.Errorf("three acts took %v", took)
	}
	if err := <-hung; !errors.Is(err, errSlow) {
		t.Errorf("got %v, want errSlow", err)
	}
	settled(t, d)
	hasActs(t, d, "j1", 3)
}

func TestMirrorIsOpenedAgain(t *testing.T) {
	withMirror(t)
	_, d := newDB(t)
	defer d.Close()
	settled(t, d)
	d.dropMirror()
	if d.Mirrored() {
		t.Error("it says that a closed mirror has everything")
	}
	acts(t, d, "j1", 3)
	settled(t, d)
	_, kept, err := d.compare(d.mirror.db.Load())
	must(t, err)
	if kept.ofJob["j1"] != 3 {
		t.Errorf("the mirror has %d events of 3", kept.ofJob["j1"])
	}
}

// What the quick look at the start does not see, the slow one behind it finds.
func TestMirrorBringsBackWhatIsMissingInBetween(t *testing.T) {
	withMirror(t)
	name, d := newDB(t)
	acts(t, d, "j1", 5)
	settled(t, d)
	must(t, d.change(func(tx *transaction) error {
		tx.store("events").Call("delete", js.ValueOf([]any{"j1", "s1", 2}))
		return nil
	}, "events"))
	d.Close()
	again, err := Open(name)
	must(t, err)
	defer again.Close()
	settled(t, again)
	if again.Healed() != 1 {
		t.Errorf("healed %d events, want 1", again.Healed())
	}
	hasActs(t, again, "j1", 5)
}

// A kill may tear what is being written. So nothing ever writes to the store
// while something writes to the mirror, in no tab.
func TestStoreAndMirrorAreNeverWrittenAtOnce(t *testing.T) {
	withMirror(t)
	name, d := newDB(t)
	e, err := Open(name)
	must(t, err)
	defer d.Close()
	defer e.Close()
	settled(t, d)
	settled(t, e)

	var open [2]atomic.Int32 // writing transactions on the store, on the mirror
	var writes, at2 atomic.Int32
	isMirror := func(v js.Value) int {
		for _, tab := range []*DB{d, e} {
			if m := tab.mirror.db.Load(); m != nil && v.Equal(m.v) {
				return 1
			}
		}
		return 0
	}
	prototype := js.Global().Get("IDBDatabase").Get("prototype")
	original := prototype.Get("transaction")
	counting := js.FuncOf(func(this js.Value, args []js.Value) any {
		list := js.Global().Get("Array").New()
		for _, a := range args {
			list.Call("push", a)
		}
		tx := original.Call("apply", this, list)
		if args[1].String() == "readwrite" {
			side := isMirror(this)
			writes.Add(1)
			open[side].Add(1)
			if open[1-side].Load() > 0 {
				at2.Add(1)
			}
			ended := js.FuncOf(func(js.Value, []js.Value) any {
				open[side].Add(-1)
				return nil
			})
			tx.Call("addEventListener", "complete", ended)
			tx.Call("addEventListener", "abort", ended)
		}
		return tx
	})
	prototype.Set("transaction", counting)
	defer prototype.Set("transaction", original)
	var all sync.WaitGroup
	for w, tab := range []*DB{d, e, d, e} {
		all.Go(func() {
			for n := range 10 {
				stream := fmt.Sprint("s", w)
				err := errors.Join(
					tab.Keep(job.Act{Job: "j1", Events: []job.Signed{signed("j1", stream, n+1, "{}")}, Summary: []byte(stream)}),
					tab.PutDraft("j1/a", fmt.Sprint(n)),
					tab.Forget(fmt.Sprint("none", w)))
				if err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	settled(t, d)
	settled(t, e)
	// 40 acts and 40 forgettings in two places, 40 drafts in one.
	if writes.Load() < 200 || at2.Load() != 0 {
		t.Errorf("of %d writes %d began while the other place was being written", writes.Load(), at2.Load())
	}
}

func TestNoMirrorWhereThereAreNoBuckets(t *testing.T) {
	withMirror(t)
	defer hideBuckets()()
	conform(t, func(t *testing.T) (one, two Store) {
		name, d := newDB(t)
		e, err := Open(name)
		must(t, err)
		if d.Mirrored() {
			t.Error("it says that it has a mirror")
		}
		return d, e
	})
}
