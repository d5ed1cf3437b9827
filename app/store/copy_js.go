//go:build js

package store

import (
	"encoding/json"
	"errors"
	"strings"
	"syscall/js"
)

// keysOf returns the keys of an object store, in order, each as JSON.
func keysOf(b *database, store string) ([]string, error) {
	var text string
	err := b.look(func(t *transaction) error {
		got, err := await(t.store(store).Call("getAllKeys"))
		if err == nil {
			text = js.Global().Get("JSON").Call("stringify", got).String()
		}
		return err
	}, store)
	if err != nil {
		return nil, err
	}
	var raw []json.RawMessage
	if err := json.Unmarshal([]byte(text), &raw); err != nil {
		return nil, err
	}
	keys := make([]string, len(raw))
	for i := range raw {
		keys[i] = string(raw[i])
	}
	return keys, nil
}

// missing returns the keys that stand in from but not in to.
func missing(from, to *database, store string) (keys []string, err error) {
	var all, have []string
	err = both(
		func() (err error) { all, err = keysOf(from, store); return err },
		func() (err error) { have, err = keysOf(to, store); return err })
	if err != nil {
		return nil, err
	}
	there := make(map[string]bool, len(have))
	for _, key := range have {
		there[key] = true
	}
	for _, key := range all {
		if !there[key] {
			keys = append(keys, key)
		}
	}
	return keys, nil
}

// jobOf returns the job of a key of events, texts, files or summaries.
func jobOf(key string) string {
	var id string
	if json.Unmarshal([]byte(key), &id) == nil {
		return id
	}
	var parts []any
	json.Unmarshal([]byte(key), &parts)
	if len(parts) > 0 {
		id, _ = parts[0].(string)
	}
	return id
}

// batch is how many records are copied in one turn. A photo is some hundred
// kilobytes; all others are small.
func batch(store string) int {
	if store == "files" {
		return 4
	}
	return 200
}

// copyRecords copies the records of these keys, in turns of a batch, and returns
// how many. What from no longer has is passed over: somebody forgot it
// meanwhile. What to has already stays, unless it is to be written over. A
// record that cannot be copied does not keep the others from it; its error is
// returned at the end.
func (d *DB) copyRecords(from, to *database, store string, keys []string, over bool) (n int, err error) {
	for size := batch(store); len(keys) > 0; {
		part := keys[:min(size, len(keys))]
		var some int
		failed := d.inTurn(func() (err error) {
			some, err = copyBatch(from, to, store, part, over)
			return err
		})
		switch {
		case failed == nil:
			n += some
		case errors.Is(failed, ErrClosed) || errors.Is(failed, ErrFull):
			return n, failed
		case size > 1:
			size = 1 // which of them is it?
			continue
		default:
			err = failed
		}
		keys = keys[len(part):]
	}
	return n, err
}

// copyMissing copies what from has and to has not.
func (d *DB) copyMissing(from, to *database, store string) (n int, err error) {
	keys, err := missing(from, to, store)
	if err != nil {
		return 0, err
	}
	return d.copyRecords(from, to, store, keys, false)
}

func copyBatch(from, to *database, store string, keys []string, over bool) (n int, err error) {
	list := js.Global().Get("JSON").Call("parse", "["+strings.Join(keys, ",")+"]")
	ask := func(b *database, method string) (got []js.Value, err error) {
		err = b.look(func(t *transaction) error {
			asked := make([]js.Value, len(keys))
			for i := range asked {
				asked[i] = t.store(store).Call(method, list.Index(i))
			}
			got, err = awaitAll(asked)
			return err
		}, store)
		return got, err
	}
	values, err := ask(from, "get")
	if err != nil {
		return 0, err
	}
	var there []js.Value
	if !over {
		if there, err = ask(to, "getKey"); err != nil {
			return 0, err
		}
	}
	err = to.change(func(t *transaction) error {
		for i, value := range values {
			if value.IsUndefined() || !over && !there[i].IsUndefined() {
				continue
			}
			t.store(store).Call("put", value, list.Index(i))
			n++
		}
		return nil
	}, store)
	if err != nil {
		return 0, err
	}
	return n, nil
}
