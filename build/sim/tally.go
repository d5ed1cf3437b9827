package main

import (
	"fmt"
	"io"
	"maps"
	"slices"
)

// tally counts what happened, in one run or in many.
type tally struct {
	runs, real, broken, violations int

	counts map[string]int // what people and programs did
	faults map[string]int // what went wrong on purpose
}

func newTally() *tally { return &tally{counts: map[string]int{}, faults: map[string]int{}} }

func (t *tally) count(what string)       { t.counts[what]++ }
func (t *tally) fault(what string)       { t.faults[what]++ }
func (t *tally) more(what string, n int) { t.counts[what] += n }

func (t *tally) add(o *tally) {
	t.runs, t.real, t.violations = t.runs+o.runs, t.real+o.real, t.violations+o.violations
	for what, n := range o.counts {
		t.counts[what] += n
	}
	for what, n := range o.faults {
		t.faults[what] += n
	}
}

// The rows that say how many runs there were, and how many showed a fault.
const (
	runsRow   = "seeds                        "
	brokenRow = "seeds with a violation       "
)

func (t *tally) print(w io.Writer) {
	row := func(what string, n int) { fmt.Fprintf(w, "%-28s %9d\n", what, n) }
	fmt.Fprintf(w, "%s%9d\n", runsRow, t.runs)
	row("  of them with Ed25519", t.real)
	for _, what := range slices.Sorted(maps.Keys(t.counts)) {
		row(what, t.counts[what])
	}
	all := 0
	for _, n := range t.faults {
		all += n
	}
	row("faults", all)
	for _, what := range slices.Sorted(maps.Keys(t.faults)) {
		row("  "+what, t.faults[what])
	}
	row("violations", t.violations)
	fmt.Fprintf(w, "%s%9d\n", brokenRow, t.broken)
}
