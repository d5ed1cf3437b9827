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
//
// The mirror is made for that; Lost is for the rest. It is false when what was
// lost has come back: see [DB.Healed].
func (d *DB) Lost() bool { return d.lost.Load() }

// lookForLoss compares the name that stands in the store with the one in the
// page's other storage. A store that has no name, where there was one, is not
// the store that was there. fresh means that it has no name.
func (d *DB) lookForLoss() (fresh bool, err error) {
	var here string
	got, err := keyRecord(d.database, bornMark)
	if err != nil {
		return false, err
	}
	if !got.IsUndefined() {
		here = got.String()
	}
	remembered := "lugmark.store." + d.name
	there, known := "", false
	catch(func() { // storage of this kind may be switched off: then nothing is known
		if v := js.Global().Get("localStorage").Call("getItem", remembered); v.Type() == js.TypeString {
			there = v.String()
		}
		known = true
	})
	if here == "" {
		fresh = true
		d.lost.Store(there != "")
		seed, err := newSeed()
		if err != nil {
			return fresh, err
		}
		here = hex.EncodeToString(seed[:16])
		err = d.inTurn(func() error { return mark(d.database, "add", here, bornMark) })
		if named(err, "ConstraintError") {
			return fresh, nil // another tab opened it at the same moment, and has said it
		}
		if err != nil {
			return fresh, err
		}
	}
	if known && there != here {
		catch(func() { js.Global().Get("localStorage").Call("setItem", remembered, here) })
	}
	return fresh, nil
}
