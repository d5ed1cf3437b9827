package job

import (
	"strings"
	"testing"
)

const volt = "v1/b3/rest-voltage"

func number(t *testing.T, s *State, field, want string) {
	t.Helper()
	e, standing := s.Get(key(t, field))
	if standing != One || e.Value.Number != want {
		t.Errorf("%s: %q, standing %d; want %q", field, e.Value.Number, standing, want)
	}
}

func TestCorrectionSupersedesWhatItsAuthorSaw(t *testing.T) {
	a := newMaker(t, 'b')
	first := a.add(1, volt, volts("13.20"))
	second := a.add(2, volt, volts("13.28"), first.ID)
	s := apply(t, first, second)
	number(t, s, volt, "13.28")
	history := s.History(key(t, volt))
	if len(history) != 2 || history[0].SupersededBy[0] != second.ID || len(history[1].SupersededBy) != 0 {
		t.Errorf("history %+v", history)
	}
}

func TestTwoLiveValuesAreAConflictAndShowNoAnswer(t *testing.T) {
	a, b := newMaker(t, 'b'), newMaker(t, 'c')
	s := apply(t, a.add(1, volt, volts("13.20")), b.add(9, volt, volts("13.28")))
	e, standing := s.Get(key(t, volt))
	if standing != Conflict || e.ID != "" || e.Value.Kind != NoValue {
		t.Errorf("standing %d, entry %+v", standing, e)
	}
	if _, ok := s.AsOf(key(t, volt), 9); ok {
		t.Error("a conflict has no value as of any time")
	}
	if e, ok := s.AsOf(key(t, volt), 8); !ok || e.Value.Number != "13.20" {
		t.Error("before the rival came there was one value")
	}
}

func TestACorrectionLeavesTheRivalItDidNotSee(t *testing.T) {
	a, b := newMaker(t, 'b'), newMaker(t, 'c')
	first := a.add(1, volt, volts("13.20"))
	rival := b.add(2, volt, volts("13.21"), first.ID)
	mine := a.add(3, volt, volts("13.28"), first.ID)
	if _, standing := apply(t, first, rival, mine).Get(key(t, volt)); standing != Conflict {
		t.Errorf("standing %d", standing)
	}
}

func TestChoosingSettlesAConflict(t *testing.T) {
	a, b := newMaker(t, 'b'), newMaker(t, 'c')
	x, y := a.add(1, volt, volts("13.20")), b.add(1, volt, volts("13.28"))
	chosen := a.add(2, volt, Choose{volts("13.28").Value, y.ID}, x.ID, y.ID)
	s := apply(t, x, y, chosen)
	number(t, s, volt, "13.28")
	if e, _ := s.Get(key(t, volt)); e.Of != y.ID {
		t.Errorf("of %q", e.Of)
	}
	// Another person chose the other way: a conflict again.
	other := b.add(2, volt, Choose{volts("13.20").Value, x.ID}, x.ID, y.ID)
	if _, standing := apply(t, x, y, chosen, other).Get(key(t, volt)); standing != Conflict {
		t.Errorf("two ways of settling: standing %d", standing)
	}
}

func TestValuesThatAgreeAreOne(t *testing.T) {
	a, b := newMaker(t, 'b'), newMaker(t, 'c')
	late := a.add(5, volt, volts("13.20"))
	v := volts("13.20").Value
	v.Source, v.When = "file", "2026-11-25T07:00:00Z"
	early := b.add(4, volt, Set{v})
	e, standing := apply(t, late, early).Get(key(t, volt))
	if standing != One || e.ID != early.ID {
		t.Errorf("standing %d, %s; the lowest lam stands for both", standing, e.ID)
	}
}

func TestAgreementLooksAtEverythingButSourceAndWhen(t *testing.T) {
	base := volts("13.20").Value
	base.Meter = "m1"
	for name, edit := range map[string]func(*Value){
		"zeros":  func(v *Value) { v.Number = "13.2" },
		"unit":   func(v *Value) { v.Unit = "mV" },
		"meter":  func(v *Value) { v.Meter = "m2" },
		"moving": func(v *Value) { v.Moving = true },
		"odd":    func(v *Value) { v.Odd = true },
		"kind":   func(v *Value) { *v = Value{Kind: KindSkip, Skip: SkipLater, Why: "no-access"} },
	} {
		other := base
		edit(&other)
		if Agree(base, other) || !Agree(other, other) {
			t.Errorf("%s: another value must not agree", name)
		}
	}
	rows := [][2]Value{
		{{Kind: KindChoice, Choice: "yes"}, {Kind: KindChoice, Choice: "no"}},
		{{Kind: KindChoices, Choices: []string{"a"}}, {Kind: KindChoices, Choices: []string{"a", "b"}}},
		{{Kind: KindText, Text: "a"}, {Kind: KindText, Text: "b"}},
		{{Kind: KindTime, Time: "2027-03-01"}, {Kind: KindTime, Time: "2027-03-02"}},
		{{Kind: KindFile, File: Ref{Sum: "a"}}, {Kind: KindFile, File: Ref{Sum: "b"}}},
		{{Kind: KindPersonal, X: Ref{Sum: "a"}}, {Kind: KindPersonal, X: Ref{Sum: "b"}}},
		{{Kind: KindLayout, Layout: []byte(`{"a":1}`)}, {Kind: KindLayout, Layout: []byte(`{"a":2}`)}},
		{{Kind: KindSkip, Skip: SkipLater}, {Kind: KindSkip, Skip: SkipCannot}},
		{{Kind: KindSkip, Why: "a"}, {Kind: KindSkip, Why: "b"}},
		{{Kind: KindSkip, Until: "2027-03-01"}, {Kind: KindSkip}},
		{{Kind: KindOverride, Over: []string{"a@b1"}}, {Kind: KindOverride, Over: []string{"a@b2"}}},
		{{Kind: KindOverride, Who: "p1"}, {Kind: KindOverride, Who: "p2"}},
	}
	for _, row := range rows {
		if Agree(row[0], row[1]) || !Agree(row[0], row[0]) {
			t.Errorf("%+v and %+v must not agree", row[0], row[1])
		}
	}
}

func TestAVoidedCorrectionDoesNotBringTheOldValueBack(t *testing.T) {
	a := newMaker(t, 'b')
	first := a.add(1, volt, volts("13.20"))
	second := a.add(2, volt, volts("13.28"), first.ID)
	void := a.add(3, volt, Void{Why: "wrong-part"}, second.ID)
	s := apply(t, first, second, void)
	if _, standing := s.Get(key(t, volt)); standing != Missing {
		t.Errorf("standing %d", standing)
	}
	if len(s.Keys()) != 1 || len(s.History(key(t, volt))) != 2 {
		t.Error("the history is still there")
	}
	if e, ok := s.Event(void.ID); !ok || e.Body.(Void).Why != "wrong-part" {
		t.Error("the reason is still there")
	}
}

func TestThePhonesClockDecidesNothing(t *testing.T) {
	a, b := newMaker(t, 'b'), newMaker(t, 'c')
	first := a.edit(Event{ID: testID(0x10), Lam: 1, Field: volt, Body: volts("13.20"), At: "2036-01-01T00:00:00Z"})
	second := b.edit(Event{ID: testID(0x11), Lam: 2, Field: volt, Body: volts("13.28"), At: "2016-01-01T00:00:00Z", Sup: []string{first.ID}})
	s := apply(t, first, second)
	number(t, s, volt, "13.28")
	if h := s.History(key(t, volt)); h[0].ID != first.ID {
		t.Error("history goes by lam, not by the clock")
	}
	if e, _ := s.AsOf(key(t, volt), 1); e.ID != first.ID {
		t.Error("as of lam 1 the first value stood")
	}
}

func TestMeasuringLaterSupersedesASkip(t *testing.T) {
	a := newMaker(t, 'b')
	skip := a.add(1, volt, Set{Value{Kind: KindSkip, Skip: SkipLater, Why: "no-access"}})
	s := apply(t, skip)
	if e, standing := s.Get(key(t, volt)); standing != One || e.Value.Kind != KindSkip {
		t.Errorf("standing %d, %+v", standing, e.Value)
	}
	s.Apply(a.add(2, volt, volts("13.28"), skip.ID))
	number(t, s, volt, "13.28")
}

// Was the link closed when that reading was taken?
func TestAsOfTellsHowALinkStood(t *testing.T) {
	const link = "v1/b1.n~b2.p/closed"
	a := newMaker(t, 'b')
	open := a.add(1, link, choice("no"))
	closed := a.add(5, link, choice("yes"), open.ID)
	opened := a.add(8, link, choice("no"), closed.ID)
	s := apply(t, opened, closed, open)
	for lam, want := range map[int]string{0: "", 1: "no", 4: "no", 5: "yes", 7: "yes", 8: "no", 99: "no"} {
		e, ok := s.AsOf(key(t, link), lam)
		if ok != (want != "") || e.Value.Choice != want {
			t.Errorf("as of %d: %q, want %q", lam, e.Value.Choice, want)
		}
	}
}

func TestSetupFallsBackToAnEarlierVisitAndReadingsNever(t *testing.T) {
	a := newMaker(t, 'b')
	s := apply(t,
		a.add(1, "v1/bank/model", choice("old")),
		a.add(2, "v2/bank/model", choice("new")),
		a.add(3, "v10/b1/serial", choice("late")))
	find := func(visit, part, field string, setup bool) string {
		e, _ := s.Lookup(visit, part, field, setup)
		return e.Value.Choice
	}
	rows := []struct {
		visit, part, field string
		setup              bool
		want               string
	}{
		{"v1", "bank", "model", true, "old"},
		{"v2", "bank", "model", true, "new"},
		{"v3", "bank", "model", true, "new"},
		{"v10", "bank", "model", true, "new"},
		{"v3", "bank", "model", false, ""},
		{"v9", "b1", "serial", true, ""},
		{"v11", "b1", "serial", true, "late"},
		{"other", "bank", "model", true, ""},
	}
	for _, r := range rows {
		if got := find(r.visit, r.part, r.field, r.setup); got != r.want {
			t.Errorf("%+v: %q", r, got)
		}
	}
	// A conflict at the later visit is not dodged by falling back.
	b := newMaker(t, 'c')
	s.Apply(b.add(3, "v2/bank/model", choice("newer")))
	if _, standing := s.Lookup("v3", "bank", "model", true); standing != Conflict {
		t.Errorf("standing %d", standing)
	}
}

func TestEventsOfANewerAppAreKeptAndLeaveTheirFieldsOpen(t *testing.T) {
	a, b := newMaker(t, 'b'), newMaker(t, 'c')
	first := a.add(1, volt, volts("13.20"))
	newer := b.add(2, volt, Unread{"set/2", []byte(`{"q":1}`)}, first.ID)
	s := apply(t, newer, first)
	if u := s.Unknown(); len(u) != 1 || string(u[0].Raw) != string(newer.Raw) {
		t.Errorf("unknown %+v", u)
	}
	if _, standing := s.Get(key(t, volt)); standing != Missing {
		t.Errorf("what it superseded is out of view; standing %d", standing)
	}
	if f := s.UnknownFields(); len(f) != 1 || f[0] != key(t, volt) {
		t.Errorf("fields %v", f)
	}
	if seen := s.Seen(key(t, volt)); len(seen) != 1 || seen[0] != newer.ID {
		t.Errorf("seen %v", seen)
	}
	// Measured again by somebody who saw it: settled.
	s.Apply(a.add(3, volt, volts("13.28"), newer.ID))
	if len(s.UnknownFields()) != 0 || len(s.Unknown()) != 1 {
		t.Errorf("fields %v, unknown %d", s.UnknownFields(), len(s.Unknown()))
	}
}

func TestANewerEventThatOnlyTakesAwayNamesTheFieldToo(t *testing.T) {
	a, b := newMaker(t, 'b'), newMaker(t, 'c')
	first := a.add(1, volt, volts("13.20"))
	s := apply(t, first, b.add(2, "", Unread{"void/2", []byte(`{}`)}, first.ID))
	if f := s.UnknownFields(); len(f) != 1 || !s.UnknownField(key(t, volt)) {
		t.Errorf("fields %v", f)
	}
}

func TestNotesLeaveViewWhenVoided(t *testing.T) {
	a := newMaker(t, 'b')
	x := Ref{Sum: strings.Repeat("ab", 32), Len: 20, Type: "text/plain"}
	one, two := a.add(1, "", Note{"b1", x}), a.add(2, "", Note{"b2", x})
	s := apply(t, one, two, a.add(3, "", Void{Why: "slip"}, one.ID))
	if n := s.Notes(); len(n) != 1 || n[0].Body.Part != "b2" {
		t.Errorf("notes %+v", n)
	}
}

func TestKeysFromFindsTheSamplesOfACharge(t *testing.T) {
	a := newMaker(t, 'b')
	s := apply(t,
		a.add(1, "v1/charge1.x/voltage", volts("1")), a.add(1, "v1/charge1.a/voltage", volts("1")),
		a.add(1, "v1/charge1/target", choice("bank")), a.add(1, "v1/charge10.a/voltage", volts("1")),
		a.add(1, "v2/charge1.b/voltage", volts("1")))
	if got := s.KeysFrom("v1", "charge1."); len(got) != 2 || got[0].Part != "charge1.a" || got[1].Part != "charge1.x" {
		t.Errorf("%v", got)
	}
	if got := s.KeysFrom("v1", ""); len(got) != 4 {
		t.Errorf("%v", got)
	}
}

func TestApplyRefusesWhatDoesNotBelongHere(t *testing.T) {
	a := newMaker(t, 'b')
	e := a.add(1, volt, volts("13.20"))
	if New("019ab3c0-1d00-7000-8000-000000000002").Apply(e) == nil {
		t.Error("an event of another job")
	}
	if New(testJob).Apply(Event{Job: testJob}) == nil {
		t.Error("an event that was not decoded")
	}
	signed := Signed{Job: testJob, Stream: e.Stream, Seq: 2, Raw: e.Raw}
	if New(testJob).ApplySigned(signed) == nil {
		t.Error("an event kept under another seq")
	}
	signed.Seq = 1
	if s := New(testJob); s.ApplySigned(signed) != nil || !s.Holds(e.Hash) {
		t.Error("a stored event is applied")
	}
}

func TestPersonalTextIsReadThroughItsRandomBytes(t *testing.T) {
	b, x := Personal("Ines Varga", [Salt]byte{1, 2, 3})
	blobs := Blobs{b.Sum: b.Data}
	if s, ok := Text(blobs, x); !ok || s != "Ines Varga" {
		t.Errorf("%q %v", s, ok)
	}
	if other, _ := Personal("Ines Varga", [Salt]byte{4}); other.Sum == b.Sum {
		t.Error("the same name twice must not have the same sum")
	}
	if _, ok := Text(Blobs{}, x); ok {
		t.Error("an erased text is missing")
	}
	changed := append([]byte(nil), b.Data...)
	changed[20] ^= 1
	if _, ok := Text(Blobs{b.Sum: changed}, x); ok {
		t.Error("a changed text is missing")
	}
}
