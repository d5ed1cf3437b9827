package job

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
)

// Chunk is the size [bytes] of the pieces in which a photo travels; the last
// piece may be shorter.
const Chunk = 256 << 10

// Photo is a picture of a part. Photos never conflict.
type Photo struct {
	Part   string
	Field  string // the field of the part that it shows, or ""
	Blob   Ref
	Chunks []string // SHA-256 in hex of each piece, in order
}

// NewPhoto makes the blob of a picture of a part, and the body that names it.
// Kind is its media type, "image/jpeg".
func NewPhoto(part, field, kind string, data []byte) (Blob, Photo) {
	blob, ref := NewBlob(kind, data)
	p := Photo{Part: part, Field: field, Blob: ref}
	if len(data) <= Chunk {
		p.Chunks = []string{ref.Sum}
		return blob, p
	}
	for piece := range slices.Chunk(data, Chunk) {
		h := sha256.Sum256(piece)
		p.Chunks = append(p.Chunks, hex.EncodeToString(h[:]))
	}
	return blob, p
}

func (Photo) Type() string { return "photo/1" }

func (p Photo) Validate() error {
	if !isSegment(p.Part) {
		return fmt.Errorf("part: %q is not a part", p.Part)
	}
	if p.Field != "" && !isSegment(p.Field) {
		return fmt.Errorf("field: %q is not a field", p.Field)
	}
	if err := p.Blob.validate(); err != nil {
		return under("blob", err)
	}
	if p.Blob.Len == 0 {
		return fmt.Errorf("blob: an empty picture")
	}
	if n := (p.Blob.Len-1)/Chunk + 1; n != len(p.Chunks) {
		return fmt.Errorf("chunks: %d bytes are %d pieces, found %d", p.Blob.Len, n, len(p.Chunks))
	}
	for _, c := range p.Chunks {
		if !isSum(c) {
			return fmt.Errorf("chunks: %q is not a SHA-256 in lower-case hex", c)
		}
	}
	if len(p.Chunks) == 1 && p.Chunks[0] != p.Blob.Sum {
		return fmt.Errorf("chunks: the only piece is not the picture")
	}
	return nil
}

func (p Photo) append(b []byte) []byte {
	o := object{b: b}
	o.text("part", p.Part)
	o.optText("field", p.Field)
	o.ref("blob", p.Blob)
	o.texts("chunks", p.Chunks)
	return o.end()
}

func readPhoto(r *reader) (Body, error) {
	var p Photo
	seen, err := r.fields([]string{"part", "field", "blob", "chunks"}, func(i int) (err error) {
		switch i {
		case 0:
			p.Part, err = r.text()
		case 1:
			p.Field, err = r.something()
		case 2:
			p.Blob, err = r.ref()
		case 3:
			p.Chunks, err = r.texts(MaxBody)
		}
		return err
	})
	if err == nil && seen&^2 != 13 {
		err = r.fail("a photo has part, blob and chunks")
	}
	return p, err
}
