package job

import (
	"encoding/hex"
	"fmt"
	"testing"
)

const testJob = "019ab3c0-1d00-7000-8000-000000000001"

// maker writes the events of one invented stream for a test. Its own state is
// what its author has seen.
type maker struct {
	t    testing.TB
	name string
	seq  int
	prev string
}

var made int // ids are numbered through, in the order of making

func newMaker(t testing.TB, letter byte) *maker {
	name := []byte("aaaaaaaaaaaaaaaa")
	name[0] = letter
	return &maker{t: t, name: string(name)}
}

func testID(n int) string { return fmt.Sprintf("019ab3c0-1d00-7000-8000-%012x", n) }

// add makes the next event of the stream; edit may change it before it is
// written.
func (m *maker) add(lam int, field string, body Body, sup ...string) Event {
	made++
	return m.edit(Event{ID: testID(0x1000 + made), Lam: lam, Field: field, Body: body, Sup: sup})
}

func (m *maker) edit(e Event) Event {
	m.t.Helper()
	m.seq++
	e.V, e.Job, e.Stream, e.Seq, e.Prev, e.Type = 1, testJob, m.name, m.seq, m.prev, e.Body.Type()
	if e.At == "" {
		e.At = "2026-11-25T08:05:39.123+01:00"
	}
	e.By = "p1"
	if m.seq == 1 && e.Open == nil {
		e.Open = &Open{Dev: "MCowBQYDK2VwAyEA11qYAYKxCrfVS/7TyWQHOg7hcvPapiMlrwIaaPcHURo=", App: "test"}
	}
	raw, err := Encode(e)
	if err != nil {
		m.t.Fatal(err)
	}
	out, err := Decode(raw)
	if err != nil {
		m.t.Fatal(err)
	}
	m.prev = hex.EncodeToString(out.Hash[:])
	return out
}

func apply(t testing.TB, events ...Event) *State {
	t.Helper()
	s := New(testJob)
	for _, e := range events {
		if err := s.Apply(e); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

func volts(n string) Set {
	return Set{Value{Kind: KindQuantity, Number: n, Unit: "V", Source: "typed"}}
}

func choice(c string) Set { return Set{Value{Kind: KindChoice, Choice: c}} }

func key(t testing.TB, s string) Key {
	t.Helper()
	k, err := ParseKey(s)
	if err != nil {
		t.Fatal(err)
	}
	return k
}
