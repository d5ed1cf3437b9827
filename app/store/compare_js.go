//go:build js

package store

import (
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
	forgotten, erased    []string // what the mirror may still hold: jobs, blobs
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
			if blob, is := strings.CutPrefix(key, erasedMark); is {
				c.erased = append(c.erased, blob)
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
