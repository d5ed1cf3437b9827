package sample_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"lugmark/checks"
	"lugmark/checks/plain"
	"lugmark/checks/sample"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

func judged(t *testing.T, id string) (*checks.Facts, []finding.Finding) {
	t.Helper()
	for _, s := range sample.List() {
		if s.ID != id {
			continue
		}
		file, faults := plain.Parse(s.Raw)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		if len(file.Notes) > 0 {
			t.Errorf("notes: %v", file.Notes)
		}
		state, _, err := file.State()
		if err != nil {
			t.Fatal(err)
		}
		f := checks.NewFacts(state, file.Visit, file.Now)
		return f, checks.Run(f)
	}
	t.Fatalf("no sample %s", id)
	return nil, nil
}

// row is a verdict that follows from the rules and the figures in the file.
type row struct {
	check, part string
	want        finding.Verdict
	from        string
}

func expect(t *testing.T, found []finding.Finding, rows []row) {
	t.Helper()
	for _, r := range rows {
		seen := false
		for _, x := range found {
			if x.Check() == r.check && x.Part() == r.part {
				seen = true
				if x.Verdict() != r.want {
					t.Errorf("%s %s: %v, want %v (%s): %s", r.check, r.part, x.Verdict(), r.want, r.from, say.Voice{}.Say(x.Reason()))
				}
			}
		}
		if !seen {
			t.Errorf("%s says nothing about %s", r.check, r.part)
		}
	}
}

func TestJetty(t *testing.T) {
	_, found := judged(t, "jetty")
	expect(t, found, []row{
		{"plan-series", "bank", finding.Pass, "hand: 2 of 4"},
		{"plan-parallel", "bank", finding.Pass, "hand: 2 of 4"},
		{"same-build", "bank", finding.Pass, "hand: one sheet, one date code, one firmware"},
		{"arrival-voltage", "b4", finding.Pass, "hand: 12.95 − (0.065 + 0.03) = 12.855 ≥ 12.8"},
		{"rested", "bank", finding.Pass, "hand: 20:00 to 12:00 is 16 h, asked are 12"},
		{"same-temp", "bank", finding.Pass, "hand: 1 K + 1 K ≤ 5 K"},
		{"voltage-match", "sA", finding.NotNeeded, "hand: two decimals tell 1.8 to 18.2 mV about 10; the gap read directly answers it"},
		{"voltage-match", "sB", finding.Fail, "hand: 13.28 − 12.91 = 0.37 V"},
		{"voltage-match", "bank", finding.ToDo, "hand: no string total is read"},
		{"gap-voltage", "sA", finding.Pass, "hand: 4.2 mV + (0.021 + 0.3) mV ≤ 10"},
		{"gap-voltage", "sB", finding.ToDo, "hand: nothing read"},
		{"torque", "b1.p", finding.ToDo, "hand: nothing read"},
	})
}

// The hut leaves nothing open: everything passes or is not needed.
func TestHutIsReadyToHandOver(t *testing.T) {
	f, found := judged(t, "hut")
	for _, x := range found {
		if !x.Settled() {
			t.Errorf("%s %s: %v: %s -> %s", x.Check(), x.Part(), x.Verdict(), say.Voice{}.Say(x.Reason()), say.Voice{}.Say(x.Next()))
		}
	}
	for _, h := range f.Holds() {
		for _, by := range h.Shut() {
			check, _, _ := strings.Cut(strings.TrimPrefix(by, "hold."), "@")
			if strings.HasPrefix(by, "hold.") && notBuilt(check) {
				continue // shut until this version can judge it
			}
			t.Errorf("%s %s is shut by %s", h.Gate, h.Part, by)
		}
	}
	expect(t, found, []row{
		{"rested", "bank", finding.Pass, "hand: 22 November 20:05 to 23 November 09:05 is 13 h"},
		{"voltage-match", "sA", finding.Pass, "hand: 13.405 − 13.401 = 4 mV, + 0.82 ≤ 10"},
		{"gap-voltage", "sA", finding.Pass, "hand: 3.10 + 0.95 = 4.05 mV, + less than 0.1 ≤ 10"},
		{"charged-full", "b3", finding.Pass, "hand: 14.218 − 0.0101 ≥ 14.0; 2.2 + 0.54 ≤ 5 A; 2 minutes, 3 days ago"},
		{"torque", "b4.n", finding.Pass, "hand: 8.64 to 9.36 in 8 to 10 N·m"},
		{"polarity-steps", "sA", finding.Pass, "hand: steps of 13.4 V in 8 to 14.7"},
		{"bank-total", "bank", finding.Pass, "hand: 53.61 against 53.612 V"},
		{"precharge", "switch", finding.Pass, "hand: 0.35 + 0.03 ≤ 2 V; 0.38 V over 8 mOhm is 48 A, a block bears 400"},
		{"charger-settings", "charger1", finding.Pass, "hand: 57.0 and 57.285 in 56 to 58.4; 54 ≤ 55.2; 30 ≤ 50 A; 56.98 ± 0.06"},
	})
}

// awaited are checks that hold points name and that come with a later version.
var awaited = []string{"fault-break", "charge-rate"}

func notBuilt(check string) bool {
	return slices.Contains(awaited, check) && !slices.ContainsFunc(checks.All, func(c *checks.Check) bool { return c.ID == check })
}

func TestMastRests(t *testing.T) {
	_, found := judged(t, "mast")
	expect(t, found, []row{
		{"plan-series", "bank", finding.NotNeeded, "hand: nothing in series"},
		{"plan-parallel", "bank", finding.Pass, "hand: 4 of 4"},
		{"rested", "bank", finding.Later, "hand: 5.5 h of 12; due 21:40"},
		{"voltage-match", "gA", finding.ToDo, "hand: nothing read"},
	})
}

func TestBargeHasJustBegun(t *testing.T) {
	_, found := judged(t, "barge")
	expect(t, found, []row{
		{"plan-series", "bank", finding.Pass, "hand: 4 of 4"},
		{"plan-parallel", "bank", finding.Pass, "hand: 4 of 4"},
		{"arrival-voltage", "b16", finding.ToDo, "hand: nothing read"},
		{"rested", "bank", finding.ToDo, "hand: nothing read"},
		{"voltage-match", "sD", finding.ToDo, "hand: nothing read"},
		{"torque", "b16.n", finding.ToDo, "hand: nothing read"},
	})
	for _, x := range found {
		if v := x.Verdict(); v == finding.Fail {
			t.Errorf("%s %s fails and nothing was read: %s", x.Check(), x.Part(), say.Voice{}.Say(x.Reason()))
		}
	}
}

func TestSamplesAreSmall(t *testing.T) {
	total := 0
	for _, s := range sample.List() {
		total += len(s.Raw)
	}
	if total >= 20<<10 {
		t.Errorf("%d bytes travel with the phone app", total)
	}
}

// Who opens a sample looks at it as of now: imported and moved to the present,
// it says what it says in the file.
func TestASampleMovesToThePresent(t *testing.T) {
	shift := 100*24*time.Hour + 17*time.Minute
	for _, s := range sample.List() {
		file, faults := plain.Parse(s.Raw)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		state, n := job.New("019ab3c0-1d00-7000-8000-000000000001"), 0
		w := job.NewWriter(job.Author{By: "p1", Key: []byte{1}, App: "test"}, [16]byte{1}, state)
		stamp := func() job.Stamp {
			n++
			return job.Stamp{Now: file.Now.Add(shift), ID: fmt.Sprintf("019ab3c0-1d00-7000-8000-%012x", n)}
		}
		for _, batch := range file.Batches(shift) {
			stamped, _, err := plain.Stamps(batch, w, state, stamp, func() (salt [job.Salt]byte) { return salt })
			if err != nil {
				t.Fatal(err)
			}
			for _, e := range stamped {
				if err := state.ApplySigned(e.Signed(make([]byte, 64))); err != nil {
					t.Fatal(err)
				}
			}
		}
		_, before := judged(t, s.ID)
		after := checks.Run(checks.NewFacts(state, file.Visit, file.Now.Add(shift)))
		if len(before) != len(after) {
			t.Fatalf("%s: %d findings, %d after", s.ID, len(before), len(after))
		}
		for i, x := range before {
			if y := after[i]; x.Verdict() != y.Verdict() {
				t.Errorf("%s: %s %s: %v, moved %v", s.ID, x.Check(), x.Part(), x.Verdict(), y.Verdict())
			}
		}
	}
}

// What keeps any hold point of any sample shut can be kept as an override, and
// no sample shows a link that was closed against its hold point.
func TestTheHoldPointsOfTheSamples(t *testing.T) {
	reason := job.Ref{Sum: strings.Repeat("0", 64), Len: job.Salt + 8, Type: "text/plain"}
	for _, s := range sample.List() {
		f, _ := judged(t, s.ID)
		for _, h := range f.Holds() {
			if h.Breached() {
				t.Errorf("%s: %s %s is closed against %v", s.ID, h.Gate, h.Part, h.Shut())
			}
			if h.Passed() {
				continue
			}
			if err := (job.Value{Kind: job.KindOverride, Over: h.Shut(), Who: "p1", X: reason}).Validate(); err != nil {
				t.Errorf("%s: %s %s: %v", s.ID, h.Gate, h.Part, err)
			}
			for _, shut := range h.Shut() {
				id, _, _ := strings.Cut(shut, "@")
				if _, ok := checks.ClauseTitle(id); !ok && id != "voltage-class" {
					t.Errorf("%s: nothing to print for %q", s.ID, id)
				}
			}
		}
	}
}
