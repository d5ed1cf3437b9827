package prove

import (
	"bytes"
	"strings"
	"testing"

	"lugmark/core/record"
	"lugmark/core/say"
	"lugmark/core/seal"
)

// Whatever a file holds, a report comes out whose sentences are filled, and a
// record that is sound stays it when it is written again.
func FuzzRead(f *testing.F) {
	one, _ := small(f)
	two, print, _ := whole(f)
	for _, file := range [][]byte{one, two, two[:len(two)/2], bytes.ReplaceAll(two, []byte("13."), []byte("12.")), []byte("lugmark-record 1\n"), nil} {
		f.Add(file)
	}
	f.Fuzz(func(t *testing.T, file []byte) {
		r := Read(file, quiet)
		if !r.Sound() && len(r.Faults) == 0 {
			t.Fatal("not sound, and nobody says why")
		}
		for _, p := range []seal.Print{"", print} {
			for _, facts := range [][]Fact{r.Verdict(p), r.FaultFacts(0)} {
				check(t, facts)
			}
		}
		entries := 0
		for _, j := range r.Jobs {
			check(t, j.Facts())
			entries += j.Events
		}
		if !r.Sound() {
			return
		}
		c, _ := record.Read(file)
		again, err := record.Write(c)
		if err != nil || len(c.Events) != entries {
			t.Fatalf("%d entries, told %d, %v", len(c.Events), entries, err)
		}
		if told(Read(again, quiet), print) != told(&Report{Jobs: r.Jobs}, print) {
			t.Fatal("written again, it says otherwise")
		}
	})
}

func check(t *testing.T, facts []Fact) {
	t.Helper()
	for _, f := range facts {
		if says := (say.Voice{}).Say(f.Says); says == "" || len(f.Says.Args) < strings.Count(f.Says.English, "{") || strings.ContainsAny(says, "\n\x1b") {
			t.Fatalf("%q", says)
		}
	}
}
