//go:build js

package store

import (
	"errors"
	"syscall/js"
	"time"
)

// After a failure follow waits this long, and each time twice as long [s].
const (
	firstPause   = 5 * time.Second
	longestPause = 5 * time.Minute
)

var errNoRoom = errors.New("no room for a mirror")

// follow keeps the mirror up to the store, in the background, until the store
// is closed or the mirror has given way.
func (d *DB) follow() {
	pause := firstPause
	for !d.mirror.gaveWay.Load() {
		var err error
		if thrown := catch(func() { err = d.catchUp() }); thrown != nil {
			err = thrown
		}
		if err == nil {
			pause = firstPause
			select {
			case <-d.gone:
				return
			case <-d.mirror.behind:
			}
			continue
		}
		timer := time.NewTimer(pause)
		select {
		case <-d.gone:
			timer.Stop()
			return
		case <-timer.C:
			pause = min(2*pause, longestPause)
		}
	}
}

// catchUp makes the mirror the same as the store: what the store lost comes
// back, then what the mirror lacks is copied.
func (d *DB) catchUp() error {
	failures := d.mirror.failures.Load()
	if err := d.openMirror(); err != nil {
		return err
	}
	m := d.mirror.db.Load()
	if m == nil {
		return ErrClosed
	}
	here, kept, err := d.heal(m)
	if err != nil {
		return err
	}
	if !kept.whole || kept.lacks(&here) {
		if err := d.fillMirror(m, kept.whole); err != nil {
			return err
		}
	}
	if err := d.inTurn(func() error { return d.copyLines(m) }); err != nil {
		return err
	}
	if !kept.whole {
		err := d.inTurn(func() error { return mark(m, "put", true, wholeMark) })
		if err != nil {
			return err
		}
	}
	d.mirror.caughtUp.Store(failures + 1)
	return nil
}

// fillMirror copies to the mirror what it lacks.
func (d *DB) fillMirror(m *database, partly bool) error {
	// A whole new mirror takes as much again as the store: only where that much
	// stays free after it.
	if used, quota := d.Estimate(); !partly && quota > 0 && quota-used < 2*used {
		return errNoRoom
	}
	if err := d.inTurn(func() error { return copyDevice(d.database, m) }); err != nil {
		return err
	}
	_, err1 := d.copyMissing(d.database, m, "texts")
	_, err2 := d.copyMissing(d.database, m, "files")
	_, err3 := d.copyMissing(d.database, m, "events")
	return errors.Join(err1, err2, err3)
}

// copyLines writes the lines of the list that are other ones in the mirror, and
// then both stand at the same act.
func (d *DB) copyLines(m *database) error {
	var here, kept map[string][]byte
	err := both(
		func() (err error) { here, err = summaries(d.database); return err },
		func() (err error) { kept, err = summaries(m); return err })
	if err != nil {
		return err
	}
	changed := map[string]string{}
	for id, line := range here {
		if old, there := kept[id]; !there || string(old) != string(line) {
			changed[id] = string(line)
		}
	}
	if len(changed) == 0 && d.agree(m) {
		return nil
	}
	last, err := keyRecord(d.database, lastMark)
	if err != nil {
		return err
	}
	return m.change(func(t *transaction) error {
		if !last.IsUndefined() {
			t.store("keys").Call("put", last, lastMark)
		}
		for id, line := range changed {
			t.store("summaries").Call("put", line, id)
		}
		return nil
	}, "summaries", "keys")
}

// mark writes one record of the object store "keys".
func mark(b *database, method string, value any, key string) error {
	return b.change(func(t *transaction) error {
		t.store("keys").Call(method, js.ValueOf(value), key)
		return nil
	}, "keys")
}
