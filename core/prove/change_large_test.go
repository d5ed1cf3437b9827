//go:build !js

package prove

// A second for each bit, natively; as WebAssembly it would be minutes.

import (
	"cmp"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"
)

// flips is how many bits of the large record are turned, LUGMARK_FLIPS if set.
const flips = 6

func TestTurnedBitsOfALargeRecordAreFound(t *testing.T) {
	t.Parallel()
	b := newBook(t)
	p, q := b.phone(1, 1), b.phone(2, 1)
	p.begin()
	p.text("site", "name", "Invented jetty")
	for i := range 3000 {
		w := p
		if i%3 == 0 {
			w = q
		}
		w.reading(1+i%64, "13."+itoa(200+i%90))
	}
	p.sign("technician", "Ines Varga", results)
	print := p.sealUp(results)
	file := b.file()
	if !Read(file, quiet).Holds(print) {
		t.Fatal("the record itself does not hold")
	}
	n, _ := strconv.Atoi(os.Getenv("LUGMARK_FLIPS"))
	n = cmp.Or(n, flips)
	const seed = 20261125
	random := rand.New(rand.NewPCG(seed, 0))
	for range n {
		bit := random.IntN(8 * len(file))
		file[bit/8] ^= 1 << (bit % 8)
		if r := Read(file, quiet); r.Holds(print) {
			t.Errorf("seed %d, byte %d bit %d: nobody noticed", seed, bit/8, bit%8)
		}
		file[bit/8] ^= 1 << (bit % 8)
	}
	t.Logf("%d entries, %d bytes, %d bits turned (seed %d), each found", len(b.contents.Events), len(file), n, seed)
}
