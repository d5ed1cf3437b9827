package record

import (
	"bytes"
	"crypto/ed25519"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"lugmark/core/job"
	"lugmark/core/seal"
)

func nobody(int, int) {}

// another goes on in the stream of contents after its first n events, otherwise
// than that did.
func another(t *testing.T, c Contents, n int) []job.Signed {
	t.Helper()
	s := job.New(testJob)
	author := job.Author{By: "p1", Key: seal.EncodeKey(testKey.Public().(ed25519.PublicKey)), Soft: true, App: "lugmark test"}
	w := job.NewWriter(author, [16]byte{1}, s)
	out := slices.Clone(c.Events[:n])
	for i, signed := range out {
		e, err := job.Decode(signed.Raw)
		if err != nil {
			t.Fatal(err)
		}
		at, _ := time.Parse(time.RFC3339, e.At)
		k, _ := job.ParseKey(e.Field)
		st, err := w.Stamp(at, e.ID, k, e.Body, e.Sup)
		if err != nil || !bytes.Equal(st.Event.Raw, signed.Raw) {
			t.Fatalf("event %d is not stamped as it was: %v", i+1, err)
		}
		if err := s.Apply(st.Event); err != nil {
			t.Fatal(err)
		}
	}
	for i := range 2 {
		st, err := w.SetQuantity(job.Stamp{Now: time.Date(2026, 11, 25, 9, i, 0, 0, time.UTC), ID: fmt.Sprintf("019ab3c0-1d00-7000-8000-0000000001%02x", i)},
			job.Key{Visit: "v1", Part: "b4", Field: "rest-voltage"}, "13.27", "V", "m1", nil)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, st.Signed(seal.Sign(testKey, st.Hash)))
	}
	return out
}

func TestSiftTakesWhatIsWholeAndNew(t *testing.T) {
	c := contents(t)
	lines := func(lines ...int) (out []job.Signed) {
		for _, n := range lines {
			out = append(out, c.Events[n-2])
		}
		return out
	}
	spoiled := func(n int, of []job.Signed) []job.Signed {
		out := slices.Clone(of)
		out[n].Raw = bytes.Replace(out[n].Raw, []byte(`"at":"2026-11`), []byte(`"at":"2026-10`), 1)
		return out
	}
	other := another(t, c, 3)
	all := c.Events
	rows := []struct {
		name          string
		file, phone   []job.Signed
		fresh, held   int
		unsure, fork  int
		faults, forks string // what the first of them says
		from          string
	}{
		{"a new job", all, nil, 6, 0, 0, 0, "", "", "hand: six entries"},
		{"a job that is here whole", all, all, 0, 6, 0, 0, "", "", "hand"},
		{"what is missing here", all, lines(2, 3, 6), 3, 3, 0, 0, "", "", "hand"},
		{"one digit of entry 3 changed", spoiled(2, all), nil, 5, 0, 1, 0, "signature", "", "hand: 6 - 1, the chain names the hole"},
		{"the same, and the phone has entry 3", spoiled(2, all), lines(4), 5, 0, 1, 0, "signature", "", "hand"},
		{"the key lost with entry 1", lines(3, 4, 5, 6, 7), nil, 0, 0, 5, 0, "none of its signatures", "", "hand: nothing can be checked"},
		{"the key lost, and the phone has it", lines(3, 4, 5, 6, 7), lines(2), 5, 0, 0, 0, "events 1 to 1 are missing", "", "hand"},
		{"entry 1 changed, and the phone has the key", spoiled(0, all), lines(2), 5, 0, 1, 0, "signature", "", "hand"},
		{"a fork at entry 4", other, all, 0, 3, 0, 2, "", "another entry as number 4", "hand: three are the same, two stand in taken places"},
		{"a fork, the phone has one entry", other, lines(2, 3, 4, 5), 0, 3, 0, 2, "", "another entry as number 4", "hand"},
		{"a fork within the file", slices.Concat(all, other[3:]), nil, 3, 0, 0, 5, "there twice", "two entries as number 4", "hand: 8 - 3"},
		{"the fork hangs on what the phone lacks", other[4:], lines(2, 3, 4, 5), 0, 0, 0, 1, "", "does not continue", "hand"},
		{"what the phone has goes on otherwise", other[:4], lines(2, 3, 4, 6), 0, 3, 0, 1, "", "goes on otherwise", "hand"},
	}
	for _, r := range rows {
		file := Contents{Events: r.file}
		for i := range r.file {
			file.Lines = append(file.Lines, i+2)
		}
		got := Sift(file, r.phone, nobody)
		if len(got.New.Events) != r.fresh || len(got.New.Lines) != r.fresh || got.Held != r.held || got.Unsure != r.unsure || got.Forked != r.fork {
			t.Errorf("%s: %d new, %d held, %d unsure, %d forked; want %d %d %d %d (%s)", r.name, len(got.New.Events), got.Held, got.Unsure, got.Forked, r.fresh, r.held, r.unsure, r.fork, r.from)
		}
		for _, x := range []struct {
			says string
			list []Fault
		}{{r.faults, got.Faults}, {r.forks, got.Forks}} {
			if (x.says == "") != (len(x.list) == 0) && r.fork == 0 || x.says != "" && !strings.Contains(fmt.Sprint(x.list), x.says) {
				t.Errorf("%s: %v, want %q", r.name, x.list, x.says)
			}
		}
		if r.fork > 0 && got.Forks[0].Line < 2 {
			t.Errorf("%s: a fork without its line", r.name)
		}
	}
}
