package job

import (
	"slices"
	"strings"
	"testing"
)

func opened(after ...Head) *Open {
	return &Open{Dev: "MCowBQYDK2VwAyEA11qYAYKxCrfVS/7TyWQHOg7hcvPapiMlrwIaaPcHURo=", App: "test", After: after}
}

func TestAStreamThatSawAnotherCoversIt(t *testing.T) {
	a, b := newMaker(t, 'b'), newMaker(t, 'c')
	s := apply(t, a.add(1, volt, volts("13.20")), a.add(2, "v1/b4/rest-voltage", volts("13.20")))
	made++
	s.Apply(b.edit(Event{ID: testID(0x1000 + made), Lam: 3, Field: "v1/b5/rest-voltage", Body: volts("13.2"), Open: opened(s.Frontier()...)}))
	if f := s.Frontier(); len(f) != 1 || f[0].Stream != b.name {
		t.Errorf("frontier %v", f)
	}
	// The first stream goes on: what was seen of it no longer covers it.
	s.Apply(a.add(4, "v1/b6/rest-voltage", volts("13.2")))
	if f := s.Frontier(); len(f) != 2 {
		t.Errorf("frontier %v", f)
	}
}

func TestAHoleEndsAStreamsHead(t *testing.T) {
	a := newMaker(t, 'b')
	one, two, three := a.add(1, volt, volts("1")), a.add(2, volt, volts("2")), a.add(3, volt, volts("3"))
	s := apply(t, one, three)
	if h := s.Heads()[a.name]; h.Seq != 1 || h.Hash != one.Hash {
		t.Errorf("head %v", h)
	}
	s.Apply(two)
	if h := s.Heads()[a.name]; h.Seq != 3 || h.Hash != three.Hash {
		t.Errorf("head %v", h)
	}
	if h := apply(t, two, three).Heads(); len(h) != 0 {
		t.Errorf("no beginning, no head: %v", h)
	}
}

func seal(rev int, frontier []Head) Seal {
	digest := strings.Repeat("cd", 32)
	return Seal{Rev: rev, Frontier: frontier, Digest: digest, Rules: "2026-11",
		Results: Ref{Sum: digest, Len: 100, Type: "application/json"}}
}

func TestChangedSinceASeal(t *testing.T) {
	a, b, c := newMaker(t, 'b'), newMaker(t, 'c'), newMaker(t, 'd')
	s := apply(t, a.add(1, volt, volts("13.20")))
	made++
	s.Apply(b.edit(Event{ID: testID(0x1000 + made), Lam: 2, Field: volt, Body: volts("13.3"), Open: opened(s.Frontier()...)}))
	sealed := b.add(3, "", seal(1, s.Frontier()))
	s.Apply(sealed)
	if changed, err := s.ChangedSince(sealed.ID); err != nil || len(changed) != 0 {
		t.Errorf("just sealed: %v, %v", changed, err)
	}
	late := c.add(2, "v1/b9/rest-voltage", volts("13.1")) // made apart, before the seal, arrives after
	onward := a.add(4, volt, volts("13.4"))
	s.Apply(onward)
	s.Apply(late)
	changed, err := s.ChangedSince(sealed.ID)
	if err != nil || len(changed) != 2 || changed[0].ID != late.ID || changed[1].ID != onward.ID {
		t.Errorf("changed %v, %v", changed, err)
	}
	again := b.add(5, "", seal(2, s.Frontier()), sealed.ID)
	s.Apply(again)
	if changed, _ := s.ChangedSince(again.ID); len(changed) != 0 {
		t.Errorf("sealed again: %v", changed)
	}
	if changed, _ := s.ChangedSince(sealed.ID); len(changed) != 2 {
		t.Errorf("the first seal is what it was: %v", changed)
	}
	if at, ok := s.SealedAt(); !ok || at.ID != again.ID {
		t.Errorf("sealed at %+v", at)
	}
	if list := s.Seals(); len(list) != 2 || list[0].SupersededBy[0] != again.ID {
		t.Errorf("seals %+v", list)
	}
	if _, err := s.ChangedSince(onward.ID); err == nil {
		t.Error("a reading is no seal")
	}
}

// Two events with one seq: the seal covers one of them, and the other shows,
// whichever of the two has the lower hash.
func TestASealDoesNotCoverTheOtherOfTwoTwins(t *testing.T) {
	a := newMaker(t, 'b')
	one := a.add(1, volt, volts("13.20"))
	twin := *a
	pair := []Event{a.add(2, volt, volts("13.21")), twin.add(2, volt, volts("13.22"))}
	for i := range pair {
		sealedOne, other := pair[i], pair[1-i]
		s := apply(t, one, sealedOne)
		sealer := newMaker(t, 'c')
		sealed := sealer.add(3, "", seal(1, s.Frontier()))
		s.Apply(sealed)
		s.Apply(other)
		changed, _ := s.ChangedSince(sealed.ID)
		if !slices.ContainsFunc(changed, func(e Event) bool { return e.ID == other.ID }) {
			t.Errorf("twin %d: %v", i, changed)
		}
	}
	if picture(apply(t, one, pair[0], pair[1])) != picture(apply(t, pair[1], pair[0], one)) {
		t.Error("the order of twins matters")
	}
}

func TestTheSealInForceIsTheHighestRevision(t *testing.T) {
	a := newMaker(t, 'b')
	s := apply(t, a.add(1, volt, volts("13.20")))
	two := a.add(5, "", seal(2, s.Frontier()))
	s.Apply(two)
	s.Apply(a.add(9, "", seal(1, s.Frontier()))) // from a phone that did not know
	if at, ok := s.SealedAt(); !ok || at.ID != two.ID {
		t.Errorf("sealed at revision %d", at.Body.Rev)
	}
}
