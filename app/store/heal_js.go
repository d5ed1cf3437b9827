//go:build js

package store

import (
	"crypto/rand"
	"errors"
	"syscall/js"
)

// Keys in the object store "keys", beside the device's.
const (
	deviceKey     = "device"
	bornMark      = "born"       // in the store: its name
	forgottenMark = "forgotten " // in the store, before a job: the mirror may still hold it
	wholeMark     = "whole"      // in the mirror: it once had everything
	lastMark      = "last"       // in both: the token of what was written last
)

// token names one act or one forgetting, so that a store and its mirror can be
// seen to stand at the same one, however much they hold.
func token() string { return rand.Text() }

// agree reports whether the last that was written is the same in both. It is
// quick; what it overlooks, follow finds.
func (d *DB) agree(m *database) bool {
	var here, kept js.Value
	err := both(
		func() (err error) { here, err = keyRecord(d.database, lastMark); return err },
		func() (err error) { kept, err = keyRecord(m, lastMark); return err })
	return err == nil && !here.IsUndefined() && !kept.IsUndefined() && here.Equal(kept)
}

// heal brings back from the mirror what the store no longer has, and returns
// what both hold then.
func (d *DB) heal(m *database) (here, kept tally, err error) {
	if here, kept, err = d.compare(m); err != nil {
		return here, kept, err
	}
	if len(here.forgotten)+len(here.erased) > 0 {
		if err = d.settleForgotten(m, here.forgotten); err == nil {
			err = d.settleErased(m, here.erased)
		}
		if err == nil {
			here, kept, err = d.compare(m)
		}
		if err != nil {
			return here, kept, err
		}
	}
	if here.lacks(&kept) {
		if err = d.bringBack(m, !here.device && kept.device); err == nil {
			here, kept, err = d.compare(m)
		}
	}
	if err == nil && kept.whole {
		d.lost.Store(false)
	}
	return here, kept, err
}

// bringBack copies in an order that may end anywhere: the events, by which the
// next start knows whether something is missing, come last.
func (d *DB) bringBack(m *database, device bool) error {
	if device {
		if err := d.inTurn(func() error { return copyDevice(m, d.database) }); err != nil {
			return err
		}
	}
	events, err := missing(m, d.database, "events")
	if err != nil {
		return err
	}
	lines, err := missing(m, d.database, "summaries")
	if err != nil {
		return err
	}
	// The line of a job that lacks events is older than the mirror's.
	jobs := map[string]bool{}
	for _, key := range lines {
		jobs[jobOf(key)] = true
	}
	for _, key := range events {
		if id := jobOf(key); !jobs[id] {
			jobs[id] = true
			lines = append(lines, quoted(id))
		}
	}
	// What cannot be copied is an error at the end: the rest comes back all the same.
	_, err1 := d.copyMissing(m, d.database, "texts")
	_, err2 := d.copyMissing(m, d.database, "files")
	_, err3 := d.copyRecords(m, d.database, "summaries", lines, true)
	n, err4 := d.copyRecords(m, d.database, "events", events, false)
	d.healed.Add(int64(n))
	for id := range jobs {
		d.announce(id)
	}
	return errors.Join(err1, err2, err3, err4)
}

func quoted(s string) string { return js.Global().Get("JSON").Call("stringify", s).String() }

// settleForgotten makes the mirror forget what it could not forget at the time.
func (d *DB) settleForgotten(m *database, jobs []string) error {
	for _, id := range jobs {
		err := d.inTurn(func() error {
			if err := forget(m, id, token(), false); err != nil {
				return err
			}
			return d.change(func(t *transaction) error {
				t.store("keys").Call("delete", forgottenMark+id)
				return nil
			}, "keys")
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// copyDevice copies the device's key: the browser copies the pair without
// showing the private half to anybody.
func copyDevice(from, to *database) error {
	record, err := keyRecord(from, deviceKey)
	if err != nil || record.IsUndefined() {
		return err
	}
	return to.change(func(t *transaction) error {
		t.store("keys").Call("put", record, deviceKey)
		return nil
	}, "keys")
}

// keyRecord returns a record of the object store "keys", or undefined.
func keyRecord(b *database, key string) (record js.Value, err error) {
	err = b.look(func(t *transaction) error {
		record, err = await(t.store("keys").Call("get", key))
		return err
	}, "keys")
	return record, err
}
