//go:build js

package store

import (
	"strings"
	"syscall/js"
)

// erasedMark stands in the store, before a job and a sum: the mirror may still
// hold that blob.
const erasedMark = "erased "

// Erase implements [Store]: first in the mirror, so that nothing comes back
// from there, then in the store, each in one strict transaction.
func (d *DB) Erase(id string, sums ...string) error {
	last := token()
	err := d.inTurn(func() error {
		if !d.mirror.possible {
			return erase(d.database, id, sums, last, false)
		}
		later := true
		if m := d.mirror.db.Load(); m != nil {
			later = d.onMirror(func() error { return erase(m, id, sums, last, false) }) != nil
		}
		return erase(d.database, id, sums, last, later)
	})
	if err != nil {
		return wrap(err, "erase %d blobs of %s", len(sums), id)
	}
	d.announce(id)
	return nil
}

// erase removes blobs. With later, it notes that the mirror must still do so.
func erase(b *database, id string, sums []string, last string, later bool) error {
	return b.change(func(t *transaction) error {
		for _, sum := range sums {
			key := js.ValueOf([]any{id, sum})
			t.store("texts").Call("delete", key)
			t.store("files").Call("delete", key)
			if later {
				t.store("keys").Call("put", true, erasedMark+id+" "+sum)
			}
		}
		t.store("keys").Call("put", last, lastMark)
		return nil
	}, "texts", "files", "keys")
}

// settleErased makes the mirror erase what it could not erase at the time. What
// was kept once more since comes back to it from the store.
func (d *DB) settleErased(m *database, marks []string) error {
	for _, mark := range marks {
		id, sum, _ := strings.Cut(mark, " ")
		err := d.inTurn(func() error {
			if err := erase(m, id, []string{sum}, token(), false); err != nil {
				return err
			}
			return d.change(func(t *transaction) error {
				t.store("keys").Call("delete", erasedMark+mark)
				return nil
			}, "keys")
		})
		if err != nil {
			return err
		}
	}
	return nil
}
