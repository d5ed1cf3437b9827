package main

import (
	"fmt"
	"strings"
	"testing"

	"lugmark/checks"
	"lugmark/core/finding"
)

// planted is how many failures the trade's list has.
const planted = 17

func results(t *testing.T) []result {
	t.Helper()
	plants, err := load(files)
	if err != nil {
		t.Fatal(err)
	}
	var out []result
	for _, p := range plants {
		r, err := p.judge()
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, r)
	}
	return out
}

func TestEveryPlantedFailureIsCaught(t *testing.T) {
	all := results(t)
	if len(all) != planted {
		t.Errorf("%d plants, not %d", len(all), planted)
	}
	for i, r := range all {
		if number := fmt.Sprintf("%02d-", i+1); !strings.HasPrefix(r.plant.name, number) {
			t.Errorf("%s does not begin with %s", r.plant.name, number)
		}
		for _, m := range r.missed {
			t.Errorf("%s: %s", r.plant.name, m)
		}
		if len(r.caught) == 0 {
			t.Errorf("%s: nothing caught it", r.plant.name)
		}
	}
}

func TestNothingIsRaisedInTheirTwins(t *testing.T) {
	for _, r := range results(t) {
		for _, s := range append(r.alarms, r.open...) {
			t.Errorf("the twin of %s: %s: %s", r.plant.name, s.name(), s.says)
		}
	}
}

// What is said of plants holds of every hold point of every sound job: just
// before its act it is open.
func TestEveryHoldPointOfASoundJobIsOpenBeforeItsAct(t *testing.T) {
	for _, name := range []string{"series", "strings", "parallel", "heated"} {
		whole, err := sound(files, name)
		if err != nil {
			t.Fatal(err)
		}
		facts, _, err := assess(whole)
		if err != nil {
			t.Fatal(err)
		}
		for _, h := range facts.Holds() {
			if h.Gate == "test" { // its readings are those of the test
				continue
			}
			raw, err := before(whole, h.Gate, h.Part)
			if err != nil {
				t.Fatal(err)
			}
			then, _, err := assess(raw)
			if err != nil {
				t.Fatal(err)
			}
			if now, ok := then.HoldFor(h.Gate, h.Part); !ok || !now.Passed() || now.Done && h.Closes() {
				t.Errorf("%s: %s %s is shut by %v", name, h.Gate, h.Part, now.Shut())
			}
		}
	}
}

// An expectation that names no check, or asks for a verdict that raises
// nothing, would be met by chance or never.
func TestExpectationsAskForSomething(t *testing.T) {
	plants, err := load(files)
	if err != nil {
		t.Fatal(err)
	}
	ids := map[string]bool{}
	for _, c := range checks.All {
		ids[c.ID] = true
	}
	for _, p := range plants {
		if p.Title == "" || p.Story == "" || len(p.CaughtBy) == 0 {
			t.Errorf("%s: title, story and caught-by must be there", p.name)
		}
		for _, c := range p.CaughtBy {
			if !ids[c.Check] || c.Verdict != finding.Fail.Code() && c.Verdict != finding.CantTell.Code() {
				t.Errorf("%s: %+v", p.name, c)
			}
		}
	}
}

func TestMergeKeepsTheOrder(t *testing.T) {
	for _, row := range []struct{ base, change, want, from string }{
		{`{"a":1,"b":2}`, `{"b":3}`, `{"a":1,"b":3}`, "hand"},
		{`{"a":{"x":1,"y":2}}`, `{"a":{"x":null}}`, `{"a":{"y":2}}`, "hand: null takes away"},
		{`{"a":1}`, `{"c":4}`, `{"a":1,"c":4}`, "hand: what is new comes last"},
		{`{"a":{"n":"1 V","at":"x"}}`, `{"a":{"n":"2 V"}}`, `{"a":{"n":"2 V"}}`, "hand: a reading is one thing"},
	} {
		got, err := merge([]byte(row.base), []byte(row.change))
		if flat := strings.ReplaceAll(string(got), "\n", ""); err != nil || flat != row.want {
			t.Errorf("%s + %s = %s, %v; want %s (%s)", row.base, row.change, flat, err, row.want, row.from)
		}
	}
	if _, err := merge([]byte(`{"a":1}`), []byte(`{"b":null}`)); err == nil {
		t.Error("taking away what is not there went unseen")
	}
}
