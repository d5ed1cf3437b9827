package checks

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

const fixtureJob = "019ab000-0000-7000-8000-000000000000"

// fixtureNow is the time of judging of every fixture.
var fixtureNow = time.Date(2026, 11, 25, 12, 0, 0, 0, time.FixedZone("", 3600))

// fixture builds the record of a bank from lines such as
//
//	b1/rest-voltage = 13.282 V
//	b1/rest-voltage = 13.282 V, m1, moving, at -20m
//	bank/last-current = -14h
//	b1.n~b2.p/closed = yes
//	bank/heat-watched = yes, at -20m
//	bank/labels = voltage, date
//	b2/arrival-voltage = skip cannot no-access
//	b3/arrival-voltage = skip later wait 2026-11-26
//	v2: b1/rest-voltage = 13.282 V
//
// A line without a visit is of the first; the latest visit is the one judged.
// Times are relative to fixtureNow; each line is kept one second before the
// next, the last one at fixtureNow.
func fixture(t testing.TB, l bank.Layout, lines ...string) *Facts {
	t.Helper()
	state := job.New(fixtureJob)
	raw, err := json.Marshal(l)
	if err != nil {
		t.Fatal(err)
	}
	put(t, state, 0, "v1/bank/layout", job.Value{Kind: job.KindLayout, Layout: raw}, fixtureNow)
	var all []string
	for _, line := range lines {
		for _, one := range strings.Split(line, "\n") {
			if one = strings.TrimSpace(one); one != "" {
				all = append(all, one)
			}
		}
	}
	latest := firstVisit
	for i, line := range all {
		key, text, ok := strings.Cut(line, "=")
		visit, of, prefixed := strings.Cut(key, ": ")
		if !prefixed {
			visit, of = firstVisit, key
		}
		latest = max(latest, visit) // no fixture has ten visits
		part, id, _ := strings.Cut(strings.TrimSpace(of), "/")
		field, known := FieldOf(id, part)
		if !ok || !known {
			t.Fatalf("fixture: %q names no field of a part", line)
		}
		v, at := fixtureValue(t, field, strings.TrimSpace(text), fixtureNow.Add(time.Duration(i+1-len(all))*time.Second))
		put(t, state, i+1, visit+"/"+part+"/"+id, v, at)
	}
	return NewFacts(state, latest, fixtureNow)
}

func fixtureValue(t testing.TB, field Field, text string, at time.Time) (job.Value, time.Time) {
	t.Helper()
	if skip, ok := strings.CutPrefix(text, "skip "); ok {
		w := strings.Fields(skip)
		v := job.Value{Kind: job.KindSkip, Skip: w[0], Why: w[1]}
		if len(w) > 2 {
			v.Until = w[2]
		}
		return v, at
	}
	switch field.Kind {
	case Number:
		words := strings.Split(text, ", ")
		n, slip := unit.Parse(words[0], field.Unit, true)
		if slip != nil {
			t.Fatalf("fixture: %q: %v", text, slip)
		}
		v := job.Value{Kind: job.KindQuantity, Number: n.Digits, Unit: string(n.Unit), Source: "typed"}
		for _, w := range words[1:] {
			switch {
			case w == "moving":
				v.Moving = true
			case strings.HasPrefix(w, "at "):
				at = fixtureTime(t, strings.TrimPrefix(w, "at "))
			default:
				v.Meter = w
			}
		}
		return v, at
	case Choice:
		code, ago, said := strings.Cut(text, ", at ")
		if said {
			at = fixtureTime(t, ago)
		}
		return job.Value{Kind: job.KindChoice, Choice: code}, at
	case Several:
		v := job.Value{Kind: job.KindChoices}
		if text != "none" {
			v.Choices = strings.Split(text, ", ")
			slices.Sort(v.Choices)
		}
		return v, at
	case Time:
		if strings.HasPrefix(text, "-") || strings.HasPrefix(text, "+") {
			return job.Value{Kind: job.KindTime, Time: fixtureTime(t, text).Format(time.RFC3339)}, at
		}
		return job.Value{Kind: job.KindTime, Time: text}, at
	default:
		return job.Value{Kind: job.KindText, Text: text}, at
	}
}

func fixtureTime(t testing.TB, ago string) time.Time {
	t.Helper()
	d, err := time.ParseDuration(ago)
	if err != nil {
		t.Fatal(err)
	}
	return fixtureNow.Add(d)
}

// correct replaces the answer of a choice, as the next act of the record.
func correct(t testing.TB, f *Facts, key, choice string) {
	t.Helper()
	part, field, _ := strings.Cut(key, "/")
	put(t, f.state, f.state.MaxLam(), f.visit+"/"+key, job.Value{Kind: job.KindChoice, Choice: choice}, fixtureNow, f.state.Seen(job.Key{Visit: f.visit, Part: part, Field: field})...)
}

func put(t testing.TB, state *job.State, i int, key string, v job.Value, at time.Time, over ...string) {
	t.Helper()
	raw, err := job.Encode(job.Event{
		V: 1, ID: fmt.Sprintf("019ab000-0000-7000-8000-%012x", i+1), Job: fixtureJob,
		Stream: "aaaaaaaaaaaaaaaa", Seq: i + 2, Prev: strings.Repeat("0", 64), Lam: i + 2, Sup: over,
		At: at.Format("2006-01-02T15:04:05.000-07:00"), By: "p1",
		Type: "set/1", Field: key, Body: job.Set{Value: v},
	})
	if err != nil {
		t.Fatalf("%s: %v", key, err)
	}
	e, err := job.Decode(raw)
	if err == nil {
		err = state.Apply(e)
	}
	if err != nil {
		t.Fatalf("%s: %v", key, err)
	}
}

// judged runs all checks and gives the findings of one check about one part.
func judged(t testing.TB, f *Facts, c *Check, part string) []finding.Finding {
	t.Helper()
	sound(t, Run(f))
	var out []finding.Finding
	for _, x := range f.byCheck[c.ID] {
		if x.Part() == part {
			out = append(out, x)
		}
	}
	if len(out) == 0 {
		t.Fatalf("%s says nothing about %s: %v", c.ID, part, f.byCheck[c.ID])
	}
	return out
}

// sound holds every finding of a run to the rules of the house: nobody is left
// without a reason or a next action, and every place of a sentence is filled.
func sound(t testing.TB, found []finding.Finding) {
	t.Helper()
	heard(found)
	for _, x := range found {
		name := x.Check() + "@" + x.Part()
		reason, next := say.Voice{}.Say(x.Reason()), say.Voice{}.Say(x.Next())
		switch x.Verdict() {
		case finding.Fail, finding.CantTell, finding.Later:
			if reason == "" || next == "" {
				t.Errorf("%s: %v with reason %q and next action %q", name, x.Verdict(), reason, next)
			}
		case finding.ToDo:
			if next == "" {
				t.Errorf("%s: to do, and nothing says what", name)
			}
		default:
			if reason == "" {
				t.Errorf("%s: %v without a reason", name, x.Verdict())
			}
		}
		if x.Verdict() == finding.Pass && x.Source().Empty() {
			t.Errorf("%s: passes and names no source", name)
		}
		for _, l := range append(append([]say.Line{x.Reason(), x.Next(), x.Source()}, x.Notes()...), x.Assumed()...) {
			if text := (say.Voice{}).Say(l); strings.ContainsAny(text, "{}") {
				t.Errorf("%s: a place is not filled: %q", name, text)
			}
		}
	}
}

// verdict is the single verdict of one check about one part, with its sentence
// for the failure message.
func verdict(t testing.TB, f *Facts, c *Check, part string) (finding.Verdict, string) {
	t.Helper()
	x := judged(t, f, c, part)[0]
	return x.Verdict(), say.Voice{}.Say(x.Reason()) + " -> " + say.Voice{}.Say(x.Next())
}

// twoByTwo is the bank of most fixtures: two strings of two.
var twoByTwo = bank.New(2, 2, bank.JoinStrings, bank.OneEnd)

// row is one line of a check's table. From says where the expected verdict
// comes from: a publication, "hand" with its arithmetic, "boundary", or common
// practice. No row comes from running this program.
type row struct {
	name  string
	lines string
	part  string
	want  finding.Verdict
	from  string
}

// vague reports whether a row does not say where its verdict comes from. One
// word is enough only where nothing was judged.
func vague(r row) bool {
	switch r.want {
	case finding.Pass, finding.Fail, finding.CantTell:
		kind, what, _ := strings.Cut(r.from, ":")
		return what == "" && slices.Contains([]string{"", "hand", "boundary", "missing", "published", "independent", "information", "the rule"}, kind)
	}
	return r.from == ""
}

// walk runs a table.
func walk(t *testing.T, l bank.Layout, c *Check, common string, rows []row) {
	t.Helper()
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			if vague(r) {
				t.Fatalf("a row from %q: say the publication, the arithmetic, or what stands at the boundary", r.from)
			}
			got, why := verdict(t, fixture(t, l, common, r.lines), c, r.part)
			if got != r.want {
				t.Errorf("got %v (%s), want %v (%s)", got, why, r.want, r.from)
			}
		})
	}
}
