//go:build js

package store

import (
	"encoding/base64"
	"errors"
	"syscall/js"

	"lugmark/core/job"
)

// Keep implements [Store]: one strict transaction. The mirror gets the act
// afterwards; see [DB.Mirrored].
func (d *DB) Keep(act job.Act) error {
	if err := check(act); err != nil {
		return err
	}
	records := recordsOf(act)
	err := d.first(func() error {
		err := put(d.database, records, act.Draft, asNew)
		if named(err, "ConstraintError") {
			// Something was there already: look what, event by event.
			err = put(d.database, records, act.Draft, besideOld)
		}
		return err
	}, func(m *database) error { return put(m, records, "", overOld) })
	if errors.Is(err, ErrForked) {
		return err // it names the event itself
	}
	if err != nil {
		return wrap(err, "keep an act of %s", act.Job)
	}
	d.announce(act.Job)
	return nil
}

// record is one line of an object store. It is made once for the store and its
// mirror, and shares nothing with the act.
type record struct {
	store      string
	key, value js.Value
	event      *job.Signed // what it is made of, where it is an event
}

func recordsOf(act job.Act) []record {
	records := make([]record, 0, len(act.Events)+len(act.Blobs)+2)
	for _, e := range act.Events {
		records = append(records, record{"events", js.ValueOf([]any{e.Job, e.Stream, e.Seq}), js.ValueOf(eventRecord(e)), &e})
	}
	for _, b := range act.Blobs {
		key := js.ValueOf([]any{act.Job, b.Sum})
		if isText(b.Type) {
			text := b.Sum + " " + b.Type + " " + base64.StdEncoding.EncodeToString(b.Data)
			records = append(records, record{"texts", key, js.ValueOf(text), nil})
		} else {
			records = append(records, record{"files", key, blobToJS(b), nil})
		}
	}
	if act.Summary != nil {
		records = append(records, record{"summaries", js.ValueOf(act.Job), js.ValueOf(string(act.Summary)), nil})
	}
	return append(records, record{"keys", js.ValueOf(lastMark), js.ValueOf(token()), nil})
}

// What becomes of an event whose place is taken.
const (
	asNew     = iota // the browser aborts: the quick way for the act that nobody kept before
	besideOld        // it is compared, and passed over when it is the same
	overOld          // it is written over: the store has decided, the mirror follows
)

// put writes records in one strict transaction, and removes a draft.
func put(b *database, records []record, draft string, manner int) error {
	return b.change(func(t *transaction) error {
		for _, r := range records {
			store := t.store(r.store)
			switch {
			case r.event == nil || manner == overOld:
				store.Call("put", r.value, r.key)
				continue
			case manner == besideOld:
				old, err := await(store.Call("get", r.key))
				if err != nil {
					return err
				}
				if !old.IsUndefined() {
					have, err := parseEvent(r.event.Job, old.String())
					if err != nil {
						return err
					}
					if string(have.Raw) != string(r.event.Raw) {
						return forked(*r.event)
					}
					continue
				}
			}
			store.Call("add", r.value, r.key)
		}
		if draft != "" {
			t.store("drafts").Call("delete", draft)
		}
		return nil
	}, "events", "texts", "files", "summaries", "drafts", "keys")
}
