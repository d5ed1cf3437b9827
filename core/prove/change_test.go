package prove

import (
	"bytes"
	"runtime"
	"strconv"
	"testing"

	"lugmark/core/record"
)

func itoa(n int) string { return strconv.Itoa(n) }

// Every bit of a small record, turned alone, is found: as a line, a signature,
// a chain, or a fingerprint that is no longer there.
func TestEveryTurnedBitIsFound(t *testing.T) {
	t.Parallel()
	file, print := small(t)
	if !Read(file, quiet).Holds(print) {
		t.Fatal("the record itself does not hold")
	}
	step := 1
	if runtime.GOARCH == "wasm" || testing.Short() {
		step = 101 // signatures are ten times slower there; the machine that built it tries all
	}
	tried := 0
	for bit := 0; bit < 8*len(file); bit += step {
		file[bit/8] ^= 1 << (bit % 8)
		if r := Read(file, quiet); r.Holds(print) {
			t.Errorf("byte %d bit %d: nobody noticed", bit/8, bit%8)
		}
		tried++
		file[bit/8] ^= 1 << (bit % 8)
	}
	t.Logf("%d bytes, %d bits turned, each found", len(file), tried)
}

// A file that was cut off holds only where whole lines behind the seal are
// gone, and then says which texts are missing.
func TestACutFileIsFoundOrSaysWhatIsMissing(t *testing.T) {
	file, print := small(t)
	sealed := 1 + bytes.Index(file, []byte(`"type":"seal/1"`))
	sealed += bytes.IndexByte(file[sealed:], '\n') // where the line of the seal ends
	step := 1
	if runtime.GOARCH == "wasm" {
		step = 11
	}
	unnoticed := 0
	for at := 0; at < len(file); at += step {
		r := Read(file[:at], quiet)
		if !r.Holds(print) {
			continue
		}
		lineEnd := file[at] == '\n' || file[at-1] == '\n'
		switch {
		case at < sealed, !lineEnd:
			t.Errorf("cut at byte %d of %d: nobody noticed", at, len(file))
		case at == len(file)-1: // the last line feed: nothing is missing
		case r.Jobs[0].Missing == 0:
			t.Errorf("cut at byte %d: no text is said to be missing", at)
		default:
			unnoticed++
		}
	}
	t.Logf("%d bytes: %d cuts behind the seal, between lines, leave a whole record and say what is missing; every other is a fault", len(file), unnoticed)
}

// A record is a set of lines: order and repetition mean nothing. A line that is
// gone is a fault when something else has seen it.
func TestLinesSwappedDoubledRemoved(t *testing.T) {
	file, first, second := whole(t)
	lines := bytes.SplitAfter(bytes.TrimSuffix(file, []byte("\n")), []byte("\n"))
	lines[len(lines)-1] = append(bytes.Clone(lines[len(lines)-1]), '\n')
	want := told(Read(file, quiet), second)
	join := func(parts ...[][]byte) []byte {
		out := []byte{}
		for _, p := range parts {
			out = append(out, bytes.Join(p, nil)...)
		}
		return out
	}
	for i := 1; i < len(lines); i++ {
		for j := i + 1; j < len(lines); j++ {
			swapped := append([][]byte{}, lines...)
			swapped[i], swapped[j] = swapped[j], swapped[i]
			r := Read(join(swapped), quiet)
			if !r.Holds(first) || !r.Holds(second) || told(r, second) != want {
				t.Fatalf("lines %d and %d swapped: it says otherwise", i+1, j+1)
			}
		}
		if got := told(Read(join(lines[:i+1], lines[i:]), quiet), second); got != want {
			t.Errorf("line %d doubled:\n%s", i+1, got)
		}
	}
	if Read(join(lines[1:2], lines[:1], lines[2:]), quiet).Sound() {
		t.Error("the first line is not the first")
	}
	c, _ := record.Read(file)
	for i := 1; i < len(lines); i++ {
		r := Read(join(lines[:i], lines[i+1:]), quiet)
		event := i <= len(c.Events)
		switch {
		case event && i == len(c.Events):
			// Hand: the reading after the second seal, which nobody has seen. It
			// cannot be missed; what is said is only that no later entry is here.
			if !r.Holds(second) || told(r, second) == want || len(r.Jobs[0].Seals) != 2 || r.Jobs[0].Seals[1].Since != 0 {
				t.Errorf("the last line, which nothing has seen: %v", r.Faults)
			}
			if _, cannot := r.Bounds(); len(cannot) == 0 {
				t.Error("nothing is said of what cannot be noticed")
			}
		case event && r.Holds(second):
			t.Errorf("line %d removed: nobody noticed", i+1)
		case !event && (!r.Holds(second) || r.Jobs[0].Missing != 1):
			t.Errorf("line %d, a blob, removed: %v, %d missing", i+1, r.Faults, r.Jobs[0].Missing)
		}
	}
}
