package main

import (
	"fmt"
	"io"
	"maps"
	"testing"
)

func TestTheSameSeedIsTheSameRun(t *testing.T) {
	for _, seed := range []uint64{3, 10} { // one with a hash for signatures, one with Ed25519
		var digests [2]string
		var counts [2]*tally
		for i := range digests {
			w := newWorld(seed, usual(seed))
			w.trace = io.Discard
			w.run()
			digests[i], counts[i] = fmt.Sprintf("%x", w.digest.Sum(nil)), w.tally
		}
		if digests[0] != digests[1] || !maps.Equal(counts[0].counts, counts[1].counts) || !maps.Equal(counts[0].faults, counts[1].faults) {
			t.Errorf("seed %d ran in two ways", seed)
		}
	}
	a, b := newWorld(3, false), newWorld(4, false)
	a.run()
	b.run()
	if string(a.digest.Sum(nil)) == string(b.digest.Sum(nil)) {
		t.Error("two seeds are the same run")
	}
}

// What once showed a fault, and a few more; the suite runs thousands.
func TestNothingIsLostHiddenOrToldTwice(t *testing.T) {
	list, err := regressions("regressions.txt")
	if err != nil {
		t.Fatal(err)
	}
	for seed := range uint64(20) {
		list = append(list, seed+1)
	}
	sum := newTally()
	for _, seed := range list {
		w := newWorld(seed, usual(seed))
		w.run()
		for _, v := range w.violations {
			t.Errorf("seed %d: %s", seed, v)
		}
		sum.add(w.tally)
	}
	// A world in which nothing happens proves nothing.
	for what, n := range map[string]int{"events shown as kept": 500, "conflicts shown": 50, "messages": 3000} {
		if sum.counts[what] < n {
			t.Errorf("only %d %s", sum.counts[what], what)
		}
	}
	for _, what := range []string{"request lost", "reply lost", "request doubled", "reply delayed", "request damaged", "tab killed",
		"battery empty", "commit failed, disk full", "office restored from backup", "office dies before answering", "clock jumps", "profile cloned"} {
		if sum.faults[what] == 0 {
			t.Errorf("no fault of this kind: %s", what)
		}
	}
}

// What a mutant changes still stands in the tree, once.
func TestMutantsCanBeMade(t *testing.T) {
	t.Chdir("../..")
	for _, m := range mutants {
		if _, err := m.apply(); err != nil {
			t.Error(err)
		}
	}
}

func TestReadsWhatAMutantDid(t *testing.T) {
	m := mutants[0]
	out := "seed 4: O1: phone1 lacks an event\n" + runsRow + "      152\n" + brokenRow + "       12\n"
	if r := m.read(out, nil, 150, 0); r.broken != 12 || r.runs != 152 || r.first != "seed 4: O1: phone1 lacks an event" {
		t.Errorf("%+v", r)
	}
	if r := m.read("panic: index", io.EOF, 150, 0); r.broken == 0 {
		t.Error("a panic is no fault")
	}
}
