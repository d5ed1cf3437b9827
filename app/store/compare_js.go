//go:build js

package store

import (
	"encoding/json"
	"strings"
	"syscall/js"
)

// tally is what a database holds, counted: quick enough for the way to the
// first screen.
type tally struct {
	events, texts, files int
	ofJob                map[string]int // events of each job that has a summary, here or there
	jobs                 map[string]bool
	device, whole        bool
	forgotten            []string
}

// compare counts the store and the mirror side by side.
func (d *DB) compare(m *database) (here, kept tally, err error) {
	err = both(func() error { return here.count(d.database) }, func() error { return kept.count(m) })
	if err != nil {
		return here, kept, err
	}
	var all []string
	for id := range kept.jobs {
		all = append(all, id)
	}
	for id := range here.jobs {
		if !kept.jobs[id] {
			all = append(all, id)
		}
	}
	err = both(func() error { return here.countJobs(d.database, all) }, func() error { return kept.countJobs(m, all) })
	return here, kept, err
}

// lacks reports whether other holds something that this one does not.
func (c *tally) lacks(other *tally) bool {
	for id, n := range other.ofJob {
		if c.ofJob[id] < n || other.jobs[id] && !c.jobs[id] {
			return true
		}
	}
	return c.events < other.events || c.texts < other.texts || c.files < other.files || other.device && !c.device
}

func (c *tally) count(b *database) error {
	return b.look(func(t *transaction) error {
		got, err := awaitAll([]js.Value{
			t.store("events").Call("count"),
			t.store("texts").Call("count"),
			t.store("files").Call("count"),
			t.store("summaries").Call("getAllKeys"),
			t.store("keys").Call("getAllKeys"),
		})
		if err != nil {
			return err
		}
		c.events, c.texts, c.files = got[0].Int(), got[1].Int(), got[2].Int()
		c.jobs = map[string]bool{}
		for id := range lines(got[3].Call("join", "\n").String(), "\n") {
			c.jobs[id] = true
		}
		for key := range lines(got[4].Call("join", "\n").String(), "\n") {
			c.device = c.device || key == deviceKey
			c.whole = c.whole || key == wholeMark
			if id, is := strings.CutPrefix(key, forgottenMark); is {
				c.forgotten = append(c.forgotten, id)
			}
		}
		return nil
	}, "events", "texts", "files", "summaries", "keys")
}

func (c *tally) countJobs(b *database, all []string) error {
	return b.look(func(t *transaction) error {
		asked := make([]js.Value, len(all))
		for i, id := range all {
			asked[i] = t.store("events").Call("count", ofJob(id))
		}
		got, err := awaitAll(asked)
		if err != nil {
			return err
		}
		c.ofJob = make(map[string]int, len(all))
		for i, id := range all {
			c.ofJob[id] = got[i].Int()
		}
		return nil
	}, "events")
}

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
// meanwhile. What to has already stays, unless it is to be written over.
func (d *DB) copyRecords(from, to *database, store string, keys []string, over bool) (n int, err error) {
	for len(keys) > 0 {
		part := keys[:min(batch(store), len(keys))]
		keys = keys[len(part):]
		err := d.inTurn(func() error {
			some, err := copyBatch(from, to, store, part, over)
			n += some
			return err
		})
		if err != nil {
			return n, err
		}
	}
	return n, nil
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
