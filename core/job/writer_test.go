package job

import (
	"crypto/sha256"
	"encoding/base32"
	"encoding/hex"
	"slices"
	"strings"
	"testing"
	"time"
)

var testKey, _ = hex.DecodeString("302a300506032b6570032100d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a")

func testWriter(s *State, random byte) *Writer {
	return NewWriter(Author{By: "p1", Key: testKey, Soft: true, App: "lugmark test"}, [16]byte{random}, s)
}

var testNow = time.Date(2026, 11, 25, 8, 5, 39, 123_000_000, time.FixedZone("", 3600))

func stamp(n int) Stamp { return Stamp{testNow, testID(n)} }

// keep does what an app does after a save that went well.
func keep(t *testing.T, s *State, stamped Stamped, err error) Event {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.ApplySigned(stamped.Signed(make([]byte, 64))); err != nil {
		t.Fatal(err)
	}
	return stamped.Event
}

func TestAWriterChainsItsEvents(t *testing.T) {
	s := New(testJob)
	w := testWriter(s, 7)
	k := key(t, volt)
	one, err := w.Start(stamp(1), KindBank)
	e1 := keep(t, s, one, err)
	two, err := w.SetQuantity(stamp(2), k, "13.280", "V", "m1", s.Seen(k))
	e2 := keep(t, s, two, err)

	random := [16]byte{7}
	h := sha256.Sum256(slices.Concat(testKey, []byte(testJob), random[:]))
	if want := strings.ToLower(base32.StdEncoding.EncodeToString(h[:]))[:16]; e1.Stream != want || w.Stream() != want {
		t.Errorf("stream %s, want %s", e1.Stream, want)
	}
	if e1.Seq != 1 || e1.Prev != "" || e1.Open == nil || e1.Lam != 1 || !e1.Open.Soft {
		t.Errorf("first %+v", e1)
	}
	if e2.Seq != 2 || e2.Prev != hex.EncodeToString(one.Hash[:]) || e2.Open != nil || e2.Lam != 2 {
		t.Errorf("second %+v", e2)
	}
	if e1.At != "2026-11-25T08:05:39.123+01:00" {
		t.Errorf("at %s", e1.At)
	}
	number(t, s, volt, "13.280")
	if s.Kind() != KindBank {
		t.Errorf("kind %q", s.Kind())
	}
}

func TestAFailedSaveLeavesNoHole(t *testing.T) {
	s := New(testJob)
	w := testWriter(s, 7)
	k := key(t, volt)
	before := w.Mark
	lost, err := w.SetQuantity(stamp(1), k, "13.28", "V", "", nil)
	if err != nil || lost.Event.Seq != 1 {
		t.Fatal(err)
	}
	w.Undo(before)
	one, err := w.SetQuantity(stamp(2), k, "13.29", "V", "", nil)
	e := keep(t, s, one, err)
	if e.Seq != 1 || e.Open == nil || e.Lam != 1 {
		t.Errorf("after an undo %+v", e)
	}
	before = w.Mark
	w.SetQuantity(stamp(3), k, "13.30", "V", "", nil)
	w.Undo(before)
	two, err := w.SetQuantity(stamp(4), k, "13.31", "V", "", s.Seen(k))
	if e := keep(t, s, two, err); e.Seq != 2 || e.Prev != hex.EncodeToString(one.Hash[:]) || e.Lam != 2 {
		t.Errorf("after a second undo %+v", e)
	}
}

func TestASlipStampsNothing(t *testing.T) {
	s := New(testJob)
	w := testWriter(s, 7)
	k := key(t, volt)
	mark := w.Mark
	for name, err := range map[string]error{
		"comma":      second(w.SetQuantity(stamp(1), k, "13,28", "V", "", nil)),
		"no reason":  second(w.Void(stamp(1), k, "", Ref{}, []string{testID(9)})),
		"void of 65": second(w.Void(stamp(1), k, "slip", Ref{}, manyIDs(65))),
		"bad id":     second(w.SetChoice(Stamp{testNow, "x"}, k, "yes", nil)),
		"no field":   second(w.SetChoice(stamp(1), Key{}, "yes", nil)),
		"reserved":   second(w.Stamp(testNow, testID(1), Key{}, Unread{"grant/1", []byte("{}")}, nil)),
		"not there":  second(w.Choose(stamp(1), k, testID(9), nil)),
		"unsigned":   second(w.Seal(stamp(1), strings.Repeat("ab", 32), Ref{}, "2026-11")),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if w.Mark != mark {
		t.Errorf("something was stamped: %+v", w.Mark)
	}
}

func TestTheEventsOfOneActFollowEachOther(t *testing.T) {
	s := New(testJob)
	w := testWriter(s, 7)
	one, err1 := w.SetChoice(stamp(1), key(t, "v1/b1/closed"), "no", nil)
	two, err2 := w.SetChoice(stamp(2), key(t, "v1/b2/closed"), "no", nil)
	if err1 != nil || err2 != nil || one.Event.Lam != 1 || two.Event.Lam != 2 || two.Event.Seq != 2 {
		t.Errorf("lam %d and %d, seq %d", one.Event.Lam, two.Event.Lam, two.Event.Seq)
	}
	e := keep(t, s, two, nil)
	keep(t, s, one, nil)
	if s.Heads()[e.Stream].Seq != 2 {
		t.Error("both are there")
	}
}

func second(_ Stamped, err error) error { return err }

func manyIDs(n int) (out []string) {
	for i := range n {
		out = append(out, testID(0x5000+i))
	}
	return out
}

func TestARivalThatItsAuthorDidNotSeeStaysARival(t *testing.T) {
	s := New(testJob)
	mine, theirs := testWriter(s, 1), newMaker(t, 'b')
	k := key(t, volt)
	one, err := mine.SetQuantity(stamp(1), k, "13.20", "V", "", s.Seen(k))
	keep(t, s, one, err)
	saw := s.Seen(k)                                                 // the field is shown
	s.Apply(theirs.add(2, volt, volts("13.21")))                     // a colleague's value comes in
	two, err := mine.SetQuantity(stamp(2), k, "13.28", "V", "", saw) // Keep
	e := keep(t, s, two, err)
	if e.Lam != 3 {
		t.Errorf("lam %d is above all that the state holds", e.Lam)
	}
	if _, standing := s.Get(k); standing != Conflict {
		t.Errorf("standing %d", standing)
	}
	chosen, err := mine.Choose(stamp(3), k, e.ID, s.Seen(k))
	keep(t, s, chosen, err)
	number(t, s, volt, "13.28")
	if len(chosen.Event.Sup) != 2 {
		t.Errorf("sup %v", chosen.Event.Sup)
	}
}

func TestOfManyRivalsSomeStayInView(t *testing.T) {
	s := New(testJob)
	var all []string
	for i := range 70 {
		m := newMaker(t, 'b')
		m.name = "b" + string("abcdefghij"[i/10]) + string("abcdefghij"[i%10]) + m.name[3:]
		e := m.add(1, volt, volts("13.20"))
		all = append(all, e.ID)
		s.Apply(e)
	}
	w := testWriter(s, 1)
	k := key(t, volt)
	one, err := w.SetQuantity(stamp(1), k, "13.28", "V", "", s.Seen(k))
	keep(t, s, one, err)
	if n := len(s.Live(k)); n != 70-64+1 {
		t.Errorf("%d live", n)
	}
	chosen, err := w.Choose(stamp(2), k, all[69], append(manyIDs(64), all[69]))
	if err != nil || chosen.Event.Sup[0] != all[69] || len(chosen.Event.Sup) != 64 {
		t.Errorf("%v", err)
	}
}

func TestTheFirstEventNamesWhatWasSeen(t *testing.T) {
	s := New(testJob)
	for i := range 100 {
		m := newMaker(t, 'b')
		m.name = "b" + string("abcdefghij"[i/10]) + string("abcdefghij"[i%10]) + m.name[3:]
		s.Apply(m.add(i+1, volt, volts("13.20")))
	}
	w := testWriter(s, 1)
	one, err := w.SetText(stamp(1), key(t, "v1/b1/model"), strings.Repeat("x", MaxBody-8), nil)
	e := keep(t, s, one, err)
	if n := len(e.Open.After); n != maxAfter || len(e.Raw) > MaxLine {
		t.Errorf("%d heads, %d bytes", n, len(e.Raw))
	}
	// 100 less the 80 that were named, and the new stream itself
	if f := s.Frontier(); len(f) != 21 {
		t.Errorf("frontier of %d", len(f))
	}
	if e.Open.After[0].Stream[:3] != "bca" {
		t.Errorf("the streams that wrote last are named, not from %s", e.Open.After[0].Stream)
	}
}

func TestEveryActIsKept(t *testing.T) {
	s := New(testJob)
	w := testWriter(s, 1)
	n := 0
	do := func(make func(at Stamp) (Stamped, error)) Event {
		t.Helper()
		n++
		stamped, err := make(stamp(n))
		return keep(t, s, stamped, err)
	}
	_, x := Personal("because", [Salt]byte{1})
	k := func(s string) Key { return key(t, s) }
	do(func(at Stamp) (Stamped, error) {
		return w.SetChoices(at, k("v1/b1/damage"), []string{"z", "a", "z"}, nil)
	})
	do(func(at Stamp) (Stamped, error) {
		st, blob, err := w.SetPersonal(at, k("v1/p1/name"), "Ines Varga", [Salt]byte{2}, nil)
		if text, ok := Text(Blobs{blob.Sum: blob.Data}, st.Event.Body.(Set).Value.X); !ok || text != "Ines Varga" {
			t.Errorf("%q", text)
		}
		return st, err
	})
	do(func(at Stamp) (Stamped, error) { return w.SetTime(at, k("v1/m1/due"), "2027-03-01", nil) })
	do(func(at Stamp) (Stamped, error) {
		return w.SetLayout(at, k("v1/bank/layout"), []byte(`{"series":2,"place":["b1"]}`), nil)
	})
	do(func(at Stamp) (Stamped, error) {
		return w.Skip(at, k(volt), SkipLater, "no-access", "2026-12-01", Ref{}, nil)
	})
	do(func(at Stamp) (Stamped, error) {
		return w.Override(at, k("v1/bank/parallel-gate"), []string{"torque@b2.p", "torque@b1.p"}, "p1", x, nil)
	})
	note := do(func(at Stamp) (Stamped, error) {
		st, _, err := w.Note(at, "b1", "dusty", [Salt]byte{3})
		return st, err
	})
	do(func(at Stamp) (Stamped, error) { return w.Void(at, Key{}, "slip", x, []string{note.ID}) })
	if len(s.Notes()) != 0 || s.Len() != 8 {
		t.Errorf("%d notes, %d events", len(s.Notes()), s.Len())
	}
	if e, _ := s.Get(k("v1/b1/damage")); !slices.Equal(e.Value.Choices, []string{"a", "z"}) {
		t.Errorf("choices %v", e.Value.Choices)
	}
	w.By("p2")
	if e := do(func(at Stamp) (Stamped, error) { return w.SetText(at, k("v1/b1/model"), "Invented 100", nil) }); e.By != "p2" {
		t.Errorf("by %s", e.By)
	}
}

func TestASealComesAfterSignaturesUnderTheSameResults(t *testing.T) {
	s := New(testJob)
	w := testWriter(s, 1)
	_, ink := Personal("Ines Varga", [Salt]byte{1})
	digest, other := strings.Repeat("ab", 32), strings.Repeat("cd", 32)
	results := Ref{Sum: digest, Len: 9, Type: "application/json"}
	sign := func(n int, who, digest string) {
		t.Helper()
		st, err := w.Sign(stamp(n), Sign{Who: who, Role: "technician", How: Typed, Ink: ink, Digest: digest})
		keep(t, s, st, err)
	}
	refused := func(n int, digest string) {
		t.Helper()
		if _, err := w.Seal(stamp(n), digest, results, "2026-11"); err == nil {
			t.Error("the seal must be refused")
		}
	}
	refused(1, digest)
	sign(2, "p1", other)
	sign(3, "p2", digest)
	refused(4, digest) // p1 signed something else
	sign(5, "p1", digest)
	if n := len(s.Signs()); n != 2 {
		t.Errorf("%d signatures; signing again replaces one's own", n)
	}
	st, err := w.Seal(stamp(6), digest, results, "2026-11")
	first := keep(t, s, st, err)
	if first.Body.(Seal).Rev != 1 || len(first.Sup) != 0 {
		t.Errorf("first seal %+v", first)
	}
	refused(7, digest) // nobody has signed since
	st, err = w.SetChoice(stamp(8), key(t, volt), "yes", nil)
	keep(t, s, st, err)
	sign(9, "p1", other)
	if n := len(s.Signs()); n != 3 {
		t.Errorf("%d signatures; a sealed one stays", n)
	}
	st, err = w.Seal(stamp(10), other, results, "2026-11")
	again := keep(t, s, st, err)
	if again.Body.(Seal).Rev != 2 || again.Sup[0] != first.ID {
		t.Errorf("second seal %+v", again)
	}
}
