package store

import (
	"bytes"
	"cmp"
	"maps"
	"slices"
	"strings"
	"sync"

	"lugmark/core/job"
)

// Memory is a store that lasts as long as the program. The zero value is not
// ready; use [NewMemory].
type Memory struct {
	*shared
	closed bool // of this tab only
}

// shared is what all tabs of one memory store see.
type shared struct {
	mu        sync.Mutex
	events    map[string]map[place]job.Signed
	blobs     map[string]map[string]job.Blob
	summaries map[string][]byte
	drafts    map[string]string
	seed      []byte
	watchers  map[*watcher]bool
}

type place struct {
	stream string
	seq    int
}

type watcher struct {
	tab *Memory
	f   func(string)
}

// NewMemory returns an empty store.
func NewMemory() *Memory {
	return &Memory{shared: &shared{
		events:    map[string]map[place]job.Signed{},
		blobs:     map[string]map[string]job.Blob{},
		summaries: map[string][]byte{},
		drafts:    map[string]string{},
		watchers:  map[*watcher]bool{},
	}}
}

// Tab returns the same store as another tab of the browser would see it.
func (m *Memory) Tab() *Memory { return &Memory{shared: m.shared} }

// lock takes the store, or reports that this tab has closed it.
func (m *Memory) lock() error {
	m.mu.Lock()
	if m.closed {
		m.mu.Unlock()
		return ErrClosed
	}
	return nil
}

// Keep implements [Store].
func (m *Memory) Keep(act job.Act) error {
	if err := check(act); err != nil {
		return err
	}
	if err := m.lock(); err != nil {
		return err
	}
	defer m.mu.Unlock()
	events := maps.Clone(m.events[act.Job])
	if events == nil {
		events = map[place]job.Signed{}
	}
	for _, e := range act.Events {
		at := place{e.Stream, e.Seq}
		if old, there := events[at]; there {
			if !bytes.Equal(old.Raw, e.Raw) {
				return forked(e)
			}
			continue
		}
		e.Raw, e.Sig = bytes.Clone(e.Raw), bytes.Clone(e.Sig)
		events[at] = e
	}
	m.events[act.Job] = events
	for _, b := range act.Blobs {
		if m.blobs[act.Job] == nil {
			m.blobs[act.Job] = map[string]job.Blob{}
		}
		b.Data = bytes.Clone(b.Data)
		m.blobs[act.Job][b.Sum] = b
	}
	if act.Summary != nil {
		m.summaries[act.Job] = bytes.Clone(act.Summary)
	}
	delete(m.drafts, act.Draft)
	m.announce(act.Job)
	return nil
}

// Job implements [Store].
func (m *Memory) Job(id string) ([]job.Signed, []job.Blob, error) {
	if err := m.lock(); err != nil {
		return nil, nil, err
	}
	defer m.mu.Unlock()
	events := slices.SortedFunc(maps.Values(m.events[id]), func(a, b job.Signed) int {
		return cmp.Or(strings.Compare(a.Stream, b.Stream), cmp.Compare(a.Seq, b.Seq))
	})
	for i, e := range events {
		events[i].Raw, events[i].Sig = bytes.Clone(e.Raw), bytes.Clone(e.Sig)
	}
	var texts []job.Blob
	for _, sum := range slices.Sorted(maps.Keys(m.blobs[id])) {
		if b := m.blobs[id][sum]; isText(b.Type) {
			b.Data = bytes.Clone(b.Data)
			texts = append(texts, b)
		}
	}
	return events, texts, nil
}

// Blob implements [Store].
func (m *Memory) Blob(id, sum string) (job.Blob, bool, error) {
	if err := m.lock(); err != nil {
		return job.Blob{}, false, err
	}
	defer m.mu.Unlock()
	b, there := m.blobs[id][sum]
	b.Data = bytes.Clone(b.Data)
	return b, there, nil
}

// Summaries implements [Store].
func (m *Memory) Summaries() (map[string][]byte, error) {
	if err := m.lock(); err != nil {
		return nil, err
	}
	defer m.mu.Unlock()
	return maps.Clone(m.summaries), nil
}

// PutDraft implements [Store].
func (m *Memory) PutDraft(key, text string) error {
	if err := m.lock(); err != nil {
		return err
	}
	defer m.mu.Unlock()
	if text == "" {
		delete(m.drafts, key)
	} else {
		m.drafts[key] = text
	}
	return nil
}

// Draft implements [Store].
func (m *Memory) Draft(key string) (string, bool, error) {
	if err := m.lock(); err != nil {
		return "", false, err
	}
	defer m.mu.Unlock()
	text, there := m.drafts[key]
	return text, there, nil
}

// Erase implements [Store].
func (m *Memory) Erase(id string, sums ...string) error {
	if err := m.lock(); err != nil {
		return err
	}
	defer m.mu.Unlock()
	for _, sum := range sums {
		delete(m.blobs[id], sum)
	}
	m.announce(id)
	return nil
}

// Forget implements [Store].
func (m *Memory) Forget(id string) error {
	if err := m.lock(); err != nil {
		return err
	}
	defer m.mu.Unlock()
	delete(m.events, id)
	delete(m.blobs, id)
	delete(m.summaries, id)
	maps.DeleteFunc(m.drafts, func(key, _ string) bool { return strings.HasPrefix(key, id+"/") })
	m.announce(id)
	return nil
}

// Key implements [Store]. The key is always soft.
func (m *Memory) Key() (Key, error) {
	if err := m.lock(); err != nil {
		return Key{}, err
	}
	defer m.mu.Unlock()
	made := m.seed == nil
	if made {
		seed, err := newSeed()
		if err != nil {
			return Key{}, err
		}
		m.seed = seed
	}
	key := softKey(m.seed)
	key.New = made
	return key, nil
}

// Persist implements [Store]: memory has no such promise to give.
func (m *Memory) Persist() (granted, known bool) { return false, false }

// Estimate implements [Store].
func (m *Memory) Estimate() (used, quota int64) { return 0, 0 }

// Watch implements [Store].
func (m *Memory) Watch(f func(job string)) (stop func()) {
	m.mu.Lock()
	defer m.mu.Unlock()
	w := &watcher{m, f}
	m.watchers[w] = true
	return func() {
		m.mu.Lock()
		defer m.mu.Unlock()
		delete(m.watchers, w)
	}
}

// announce tells the other tabs. The lock is held.
func (m *Memory) announce(id string) {
	for w := range m.watchers {
		if w.tab != m {
			go w.f(id)
		}
	}
}

// Close implements [Store].
func (m *Memory) Close() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.closed = true
}
