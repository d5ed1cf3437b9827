//go:build js

package store

import "syscall/js"

// Keys in the object store "keys", beside the device's.
const (
	deviceKey     = "device"
	bornMark      = "born"       // in the store: its name
	forgottenMark = "forgotten " // in the store, before a job: the mirror may still hold it
	wholeMark     = "whole"      // in the mirror: it once had everything
)

// heal brings back from the mirror what the store no longer has.
func (d *DB) heal(m *database) error {
	here, kept, err := d.compare(m)
	if err != nil {
		return err
	}
	if len(here.forgotten) > 0 {
		if err := d.settleForgotten(m, here.forgotten); err != nil {
			return err
		}
		if here, kept, err = d.compare(m); err != nil {
			return err
		}
	}
	if here.lacks(&kept) {
		if err := d.bringBack(m, !here.device && kept.device); err != nil {
			return err
		}
	}
	if kept.whole {
		d.lost.Store(false)
	}
	return nil
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
	for _, store := range []string{"texts", "files"} {
		keys, err := missing(m, d.database, store)
		if err == nil {
			_, err = d.copyRecords(m, d.database, store, keys, false)
		}
		if err != nil {
			return err
		}
	}
	// The line of a job that lacks events is older than the mirror's.
	summaries, err := missing(m, d.database, "summaries")
	if err != nil {
		return err
	}
	jobs := map[string]bool{}
	for _, key := range summaries {
		jobs[jobOf(key)] = true
	}
	for _, key := range events {
		if id := jobOf(key); !jobs[id] {
			jobs[id] = true
			summaries = append(summaries, quoted(id))
		}
	}
	if _, err := d.copyRecords(m, d.database, "summaries", summaries, true); err != nil {
		return err
	}
	n, err := d.copyRecords(m, d.database, "events", events, false)
	d.healed.Add(int64(n))
	for id := range jobs {
		d.announce(id)
	}
	return err
}

func quoted(s string) string { return js.Global().Get("JSON").Call("stringify", s).String() }

// settleForgotten makes the mirror forget what it could not forget at the time.
func (d *DB) settleForgotten(m *database, jobs []string) error {
	for _, id := range jobs {
		err := d.inTurn(func() error {
			if err := forget(m, id, false); err != nil {
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
	record, err := deviceRecord(from)
	if err != nil || record.IsUndefined() {
		return err
	}
	return to.change(func(t *transaction) error {
		t.store("keys").Call("put", record, deviceKey)
		return nil
	}, "keys")
}

// deviceRecord returns the device's key as it stands, or undefined.
func deviceRecord(b *database) (record js.Value, err error) {
	err = b.look(func(t *transaction) error {
		record, err = await(t.store("keys").Call("get", deviceKey))
		return err
	}, "keys")
	return record, err
}
