package store

import (
	"testing"

	"lugmark/core/job"
)

// What is erased does not come back from the mirror, also when the mirror could
// not erase it at the time.
func TestErasedStaysErased(t *testing.T) {
	withMirror(t)
	name, d := newDB(t)
	acts(t, d, "j1", 6)
	settled(t, d)
	first, second := blob("text/plain", "j1 note 2"), blob("image/jpeg", "j1 photo 3")
	must(t, d.Erase("j1", first.Sum))
	settled(t, d)
	d.mirror.db.Load().v.Call("close") // it fails from now on, unnoticed
	must(t, d.Erase("j1", second.Sum))
	d.Close()
	gone := func(d *DB) {
		t.Helper()
		for _, b := range []job.Blob{first, second} {
			if _, there, err := d.Blob("j1", b.Sum); there || err != nil {
				t.Errorf("%s is there: %v, %v", b.Data, there, err)
			}
		}
		events, texts, err := d.Job("j1")
		must(t, err)
		if len(events) != 6 || len(texts) != 5 {
			t.Errorf("%d events, %d texts; want 6 and 5", len(events), len(texts))
		}
	}
	again, err := Open(name)
	must(t, err)
	gone(again)
	settled(t, again)
	gone(again)
	again.Close()
	deleteStore(t, name)
	third, err := Open(name)
	must(t, err)
	defer third.Close()
	gone(third)
}
