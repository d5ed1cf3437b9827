package bank

import (
	"encoding/json"
	"reflect"
	"testing"
)

// Any text may stand where the name of a part should.
func FuzzPartKind(f *testing.F) {
	for _, id := range []string{"b1", "b256.p", "sA.n", "gP", "bar.p", "b1.n~b2.p", "sA.p~sB.p~2", "b1.n~b2.p@b2.p", "charge1.019a", "stage.wire", "fuse.main", "fuse.A",
		"~", "@", "b0", "b00001", "b99999999999999999999", "b1.n~b1.n", "sA.p~sB.p@", ".", "m1."} {
		f.Add(id)
	}
	l := New(4, 4, JoinStrings, Diagonal)
	f.Fuzz(func(t *testing.T, id string) {
		kind, known := PartKind(id)
		if known && kind == "" {
			t.Fatalf("%q: kind %q, known %v", id, kind, known)
		}
		if n, ok := BlockNumber(id); ok && (n < 1 || !known) {
			t.Fatalf("%q is block %d", id, n)
		}
		if link, at, ok := LinkOf(id); ok && link+"@"+at != id {
			t.Fatalf("%q: joint of %q at %q", id, link, at)
		}
		if link, ok := l.Link(id); ok && !known {
			t.Fatalf("%q is drawn as %v and not known", id, link)
		}
		l.Beside(id)
		l.SeriesBeside(id)
		l.Shorts(id, "b1.n~b2.p")
		OwnerOf(id)
	})
}

// A layout comes out of a file: one that is valid can be drawn from, and is
// written and read again the same.
func FuzzLayout(f *testing.F) {
	for _, l := range []Layout{New(1, 1, JoinStrings, OneEnd), New(2, 2, JoinGroups, EqualLeads), New(4, 4, JoinStrings, TakeoffAt("A", "C"))} {
		raw, err := json.Marshal(l)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(raw)
	}
	f.Add([]byte(`{"series":-1,"parallel":9999999}`))
	f.Add([]byte(`{"series":2,"parallel":1,"join":"strings","takeoff":["A"],"place":["b1","b1"]}`))
	f.Fuzz(func(t *testing.T, raw []byte) {
		var l Layout
		if json.Unmarshal(raw, &l) != nil || l.Validate() != nil {
			return
		}
		if n := len(l.Blocks()); n != l.Series*l.Parallel {
			t.Fatalf("%d blocks in %s", n, l.Title())
		}
		for _, link := range l.Links() {
			if _, ok := l.Link(link.ID); !ok {
				t.Fatalf("%s draws %s and does not know it", l.Title(), link.ID)
			}
		}
		l.Joints()
		l.Posts()
		l.Levels()
		l.LeadColumns()
		again, err := json.Marshal(l)
		if err != nil {
			t.Fatal(err)
		}
		var back Layout
		if err := json.Unmarshal(again, &back); err != nil || !reflect.DeepEqual(back, l) {
			t.Fatalf("%+v is written as %s and read as %+v, %v", l, again, back, err)
		}
	})
}
