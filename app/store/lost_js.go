//go:build js

package store

import (
	"encoding/hex"
	"syscall/js"
)

// Lost reports whether the browser has thrown away what this store held. It
// then looks like a new one, and a person who is shown an empty list would
// think the jobs were never there: say it, and ask for the safe copy.
//
// It happens. A browser that keeps this store in LevelDB, and is killed in the
// middle of writing to its log, goes on behind the torn end at the next start,
// finds it at the start after that, and deletes the store. People delete "site
// data", and browsers that are short of space do too.
func (d *DB) Lost() bool { return d.lost }

// lookForLoss compares the name that stands in the store with the one in the
// page's other storage. A store that has no name, where there was one, is not
// the store that was there.
func (d *DB) lookForLoss(name string) error {
	const born = "born"
	var here string
	err := d.look(func(t *transaction) error {
		got, err := await(t.store("keys").Call("get", born))
		if err == nil && !got.IsUndefined() {
			here = got.String()
		}
		return err
	}, "keys")
	if err != nil {
		return err
	}
	remembered := "lugmark.store." + name
	there, known := "", false
	catch(func() { // storage of this kind may be switched off: then nothing is known
		if v := js.Global().Get("localStorage").Call("getItem", remembered); v.Type() == js.TypeString {
			there = v.String()
		}
		known = true
	})
	if here == "" {
		d.lost = there != ""
		seed, err := newSeed()
		if err != nil {
			return err
		}
		here = hex.EncodeToString(seed[:16])
		t, err := d.write(strict, "keys")
		if err != nil {
			return err
		}
		err = t.do(func() error {
			t.store("keys").Call("add", here, born)
			return nil
		})
		if named(err, "ConstraintError") {
			return nil // another tab opened it at the same moment, and has said it
		}
		if err != nil {
			return err
		}
	}
	if known && there != here {
		catch(func() { js.Global().Get("localStorage").Call("setItem", remembered, here) })
	}
	return nil
}
