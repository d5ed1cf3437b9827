package job

import (
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The laws of the fold: the state is a function of the set of events. The
// brute-force oracle at the end knows the set and nothing else.

func drawEvents(t *rapid.T, tb testing.TB) []Event {
	made = 0
	fields := []string{"v1/b1/rest-voltage", "v1/b2/rest-voltage", "v2/b1/rest-voltage", "v1/b1.n~b2.p/closed"}
	var events []Event
	var streams []*maker
	for range rapid.IntRange(1, 4).Draw(t, "streams") {
		streams = append(streams, newMaker(tb, byte('b'+len(streams))))
	}
	id := func() string {
		return testID(0x1000 + rapid.IntRange(1, 24).Draw(t, "named")) // past, future, or never made
	}
	for range rapid.IntRange(1, 20).Draw(t, "events") {
		m := rapid.SampledFrom(streams).Draw(t, "stream")
		lam := rapid.IntRange(1, 12).Draw(t, "lam")
		field := rapid.SampledFrom(fields).Draw(t, "field")
		var sup []string
		for range rapid.IntRange(0, 2).Draw(t, "sups") {
			if s := id(); !slices.Contains(sup, s) && s != testID(0x1000+made+1) {
				sup = append(sup, s)
			}
		}
		var body Body
		switch rapid.IntRange(0, 7).Draw(t, "kind") {
		case 0, 1, 2:
			body = volts(rapid.SampledFrom([]string{"13.28", "13.29", "13.280"}).Draw(t, "n"))
		case 3:
			body = choice("yes")
		case 4:
			body = Unread{"set/2", []byte(`{"q":1}`)}
		case 5:
			if len(sup) == 0 {
				sup = []string{testID(0x1fff)}
			}
			body = Void{Why: "slip"}
		case 6:
			field = ""
			body = Note{Part: "b1", X: Ref{Sum: strings.Repeat("ab", 32), Len: 20, Type: "text/plain"}}
		case 7:
			of := testID(0x1fff)
			if len(sup) > 0 {
				of = sup[0]
			} else {
				sup = []string{of}
			}
			body = Choose{volts("13.28").Value, of}
		}
		e := Event{Lam: lam, Field: field, Body: body, Sup: sup}
		made++
		e.ID = testID(0x1000 + made)
		if m.seq == 0 {
			var after []Head
			for _, h := range apply(tb, events...).Frontier() {
				if rapid.Bool().Draw(t, "saw") {
					after = append(after, h)
				}
			}
			e.Open = &Open{Dev: "MCowBQYDK2VwAyEA11qYAYKxCrfVS/7TyWQHOg7hcvPapiMlrwIaaPcHURo=", App: "test", After: after}
		}
		events = append(events, m.edit(e))
	}
	return events
}

// picture writes out everything that a state says.
func picture(s *State) string {
	var b strings.Builder
	show := func(name string, v ...any) { fmt.Fprintf(&b, "%s %+v\n", name, v) }
	show("len", s.Len(), s.MaxLam(), s.Heads(), s.Frontier(), s.Kind())
	show("keys", s.Keys(), s.UnknownFields())
	for _, k := range s.Keys() {
		e, standing := s.Get(k)
		show(k.String(), e, standing, s.Live(k), s.History(k), s.Seen(k), s.UnknownField(k))
		for lam := range 13 {
			e, standing := s.StandingAsOf(k, lam)
			show("as of", lam, e, standing)
		}
	}
	show("others", s.Notes(), s.Photos(), s.Signs(), s.Seals())
	for _, e := range s.Unknown() {
		show("unknown", e.ID, string(e.Raw))
	}
	return b.String()
}

func TestStateDependsOnTheSetAlone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		events := drawEvents(rt, t)
		want := picture(apply(t, events...))
		mixed := rapid.Permutation(events).Draw(rt, "order")
		mixed = append(mixed, rapid.SliceOf(rapid.SampledFrom(events)).Draw(rt, "repeats")...)
		s := New(testJob)
		for i, e := range mixed {
			if err := s.Apply(e); err != nil {
				rt.Fatal(err)
			}
			if i == len(mixed)/2 {
				picture(s) // looking changes nothing
			}
		}
		if got := picture(s); got != want {
			rt.Fatalf("in another order:\n%s\nfirst:\n%s", got, want)
		}
	})
}

// The rules again, written as slowly as they read.
func TestStateMatchesTheRulesReadSlowly(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		events := drawEvents(rt, t)
		s := apply(t, rapid.Permutation(events).Draw(rt, "order")...)
		gone := func(upTo int) map[string]bool {
			out := map[string]bool{}
			for _, e := range events {
				for _, id := range e.Sup {
					if e.Lam <= upTo {
						out[id] = true
					}
				}
			}
			return out
		}
		// live of a field, as "lam id number", sorted as text
		live := func(field string, upTo int) (out []string, distinct map[string]bool) {
			distinct = map[string]bool{}
			for _, e := range events {
				var v Value
				switch body := e.Body.(type) {
				case Set:
					v = body.Value
				case Choose:
					v = body.Value
				default:
					continue
				}
				if e.Field == field && e.Lam <= upTo && !gone(upTo)[e.ID] {
					out = append(out, fmt.Sprintf("%03d %s", e.Lam, e.ID))
					distinct[v.Number+v.Choice] = true
				}
			}
			slices.Sort(out)
			return out, distinct
		}
		for _, e := range events {
			if e.Field == "" {
				continue
			}
			k := key(t, e.Field)
			for _, upTo := range []int{3, 6, 9, 99} {
				list, distinct := live(e.Field, upTo)
				got, standing := s.StandingAsOf(k, upTo)
				if upTo == 99 {
					got, standing = s.Get(k)
					var text []string
					for _, e := range s.Live(k) {
						text = append(text, fmt.Sprintf("%03d %s", e.Lam, e.ID))
					}
					if !slices.Equal(text, list) {
						rt.Fatalf("%s: live %v, want %v", e.Field, text, list)
					}
				}
				want := One
				if len(distinct) == 0 {
					want = Missing
				} else if len(distinct) > 1 {
					want = Conflict
				}
				if standing != want {
					rt.Fatalf("%s up to %d: standing %d, want %d", e.Field, upTo, standing, want)
				}
				if want == One && fmt.Sprintf("%03d %s", got.Lam, got.ID) != list[0] {
					rt.Fatalf("%s up to %d: %s, want %s", e.Field, upTo, got.ID, list[0])
				}
			}
		}
		// The frontier reaches everything that is held, and no head of it is
		// reached by the others.
		frontier := s.Frontier()
		reached := s.reach(frontier)
		for name, h := range s.Heads() {
			if reached[name] != h.Seq {
				rt.Fatalf("frontier %v misses %v", frontier, h)
			}
		}
		for i, h := range frontier {
			rest := slices.Delete(slices.Clone(frontier), i, i+1)
			if s.reach(rest)[h.Stream] >= h.Seq {
				rt.Fatalf("frontier %v does not need %v", frontier, h)
			}
		}
	})
}

func TestHeadsAreTheEndsOfTheChains(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		events := drawEvents(rt, t)
		s := apply(t, events...)
		for _, e := range events {
			if e.Seq > 1 {
				before := s.stream[e.Stream].at[e.Seq-1]
				if hex.EncodeToString(before.Hash[:]) != e.Prev {
					rt.Fatalf("%s %d does not follow", e.Stream, e.Seq)
				}
			}
		}
	})
}
