package prove

import (
	"bytes"
	"crypto/ed25519"
	"fmt"
	"slices"
	"testing"
	"time"

	"lugmark/core/job"
	"lugmark/core/record"
	"lugmark/core/seal"
)

const testJob = "019ab3c0-1d00-7000-8000-000000000001"

// results are what a seal freezes, of another program than ours.
const results = `{"check":"voltage-match","verdict":"pass"}
{"check":"torque","verdict":"fail"}
{"check":"rested","verdict":"pass"}
`

// book writes an invented record with as many phones as it is asked for.
type book struct {
	testing.TB
	state    *job.State
	contents record.Contents
	n        int
}

func newBook(t testing.TB) *book { return &book{TB: t, state: job.New(testJob)} }

// phone begins a stream of a phone whose key is made of one number.
func (b *book) phone(number byte, run byte) *pen {
	key := ed25519.NewKeyFromSeed(bytes.Repeat([]byte{number}, ed25519.SeedSize))
	author := job.Author{By: fmt.Sprintf("p%d", number), Key: seal.EncodeKey(key.Public().(ed25519.PublicKey)), Soft: number == 2, App: "lugmark test"}
	return &pen{b, key, job.NewWriter(author, [16]byte{number, run}, b.state)}
}

// pen is one stream.
type pen struct {
	*book
	key ed25519.PrivateKey
	*job.Writer
}

// keep signs and keeps what make stamps.
func (p *pen) keep(make func(at job.Stamp) (job.Stamped, error)) {
	p.Helper()
	p.n++
	stamped, err := make(job.Stamp{
		Now: time.Date(2026, 11, 25, 8, p.n, 0, 0, time.FixedZone("", 3600)),
		ID:  fmt.Sprintf("019ab3c0-1d00-7000-8000-%012x", p.n),
	})
	if err != nil {
		p.Fatal(err)
	}
	signed := stamped.Signed(seal.Sign(p.key, stamped.Hash))
	if err := p.book.state.ApplySigned(signed); err != nil {
		p.Fatal(err)
	}
	p.contents.Events = append(p.contents.Events, signed)
}

func (p *pen) blob(b job.Blob) { p.contents.Blobs = append(p.contents.Blobs, b) }

func (p *pen) begin() {
	p.keep(func(at job.Stamp) (job.Stamped, error) { return p.Start(at, job.KindBank) })
}

func (p *pen) text(part, field, text string) {
	p.keep(func(at job.Stamp) (job.Stamped, error) {
		st, blob, err := p.SetPersonal(at, job.Key{Visit: "v1", Part: part, Field: field}, text, [16]byte{byte(p.n)}, nil)
		p.blob(blob)
		return st, err
	})
}

func (p *pen) reading(block int, volts string) {
	p.keep(func(at job.Stamp) (job.Stamped, error) {
		return p.SetQuantity(at, job.Key{Visit: "v1", Part: fmt.Sprintf("b%d", block), Field: "rest-voltage"}, volts, "V", "m1", nil)
	})
}

func (p *pen) sign(role, name, about string) {
	blob, ref := job.Personal(name, [16]byte{byte(p.n)})
	p.blob(blob)
	who := map[string]string{"technician": "p1", "owner": "p3"}[role]
	p.keep(func(at job.Stamp) (job.Stamped, error) {
		return p.Sign(at, job.Sign{Who: who, Role: role, How: job.Typed, Ink: ref, Digest: seal.Digest([]byte(about))})
	})
}

func (p *pen) sealUp(about string) seal.Print {
	blob, ref := job.NewBlob("text/plain", []byte(about))
	p.blob(blob)
	var hash [32]byte
	p.keep(func(at job.Stamp) (job.Stamped, error) {
		st, err := p.Seal(at, seal.Digest([]byte(about)), ref, "2026-11")
		hash = st.Hash
		return st, err
	})
	return seal.Fingerprint(hash)
}

func (b *book) file() []byte {
	b.Helper()
	c := b.contents
	f, err := record.Write(record.Contents{Events: slices.Clone(c.Events), Blobs: slices.Clone(c.Blobs)})
	if err != nil {
		b.Fatal(err)
	}
	return f
}

// small is a record with an event, a blob and a seal, and one event after it.
func small(t testing.TB) ([]byte, seal.Print) {
	b := newBook(t)
	p := b.phone(1, 1)
	p.begin()
	p.text("site", "name", "Invented jetty")
	p.sign("technician", "Ines Varga", results)
	print := p.sealUp(results)
	p.reading(1, "13.28")
	return b.file(), print
}

// whole is a record of two phones with two seals and a change after the second.
func whole(t testing.TB) (file []byte, first, second seal.Print) {
	b := newBook(t)
	p := b.phone(1, 1)
	p.begin()
	p.text("site", "name", "Invented jetty")
	p.text("p1", "name", "Ines Varga")
	p.reading(1, "13.28")
	q := b.phone(2, 1)
	q.reading(2, "13.27")
	p = b.phone(1, 2)
	p.sign("technician", "Ines Varga", results)
	p.sign("owner", "Olu Brandt", results)
	first = p.sealUp(results)
	p.reading(1, "13.29")
	const again = results + `{"check":"extra","verdict":"cant-tell"}` + "\n"
	p.sign("technician", "Ines Varga", again)
	second = p.sealUp(again)
	p.reading(2, "13.30")
	return b.file(), first, second
}

func quiet(int, int) {}
