package job

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strconv"
	"unicode/utf8"
)

// Ref names a blob from inside an event: its SHA-256 in hex, its length [bytes]
// and its media type. The zero Ref names none.
type Ref struct {
	Sum  string
	Len  int
	Type string
}

// Salt is the number of random bytes in front of personal text. A bare hash of
// a name can be guessed; once the blob is erased, a salted one says nothing.
const Salt = 16

// Personal makes the blob of a personal text, and what an event calls it.
func Personal(text string, random [Salt]byte) (Blob, Ref) {
	return NewBlob("text/plain", append(random[:], text...))
}

// NewBlob makes a blob of data as it is, and what an event calls it.
func NewBlob(kind string, data []byte) (Blob, Ref) {
	h := sha256.Sum256(data)
	b := Blob{Sum: hex.EncodeToString(h[:]), Type: kind, Data: data}
	return b, Ref{Sum: b.Sum, Len: len(data), Type: kind}
}

// Blobs are blobs at hand, by their sum. A blob may be missing for good: a
// person can be erased without breaking a record.
type Blobs map[string][]byte

// Text returns the personal text that x names; false when its blob is missing,
// is not the one that was named, or holds no text.
func Text(blobs Blobs, x Ref) (string, bool) {
	data, ok := blobs[x.Sum]
	if !ok || len(data) < Salt || len(data) != x.Len || !utf8.Valid(data[Salt:]) {
		return "", false
	}
	if h := sha256.Sum256(data); hex.EncodeToString(h[:]) != x.Sum {
		return "", false
	}
	return string(data[Salt:]), true
}

func (x Ref) validate() error {
	switch {
	case !isSum(x.Sum):
		return fmt.Errorf("blob: %q is not a SHA-256 in lower-case hex", x.Sum)
	case x.Len < 0 || x.Len > maxWhole:
		return fmt.Errorf("blob: length %d", x.Len)
	case !isPlain(x.Type):
		return fmt.Errorf("blob: %q is not a media type", x.Type)
	}
	return nil
}

// personal is validate for a text that begins with random bytes.
func (x Ref) personal() error {
	if err := x.validate(); err != nil {
		return err
	}
	if x.Len < Salt {
		return fmt.Errorf("blob: a personal text begins with %d random bytes, this one has %d in all", Salt, x.Len)
	}
	return nil
}

func (x Ref) append(b []byte) []byte {
	b = append(b, `{"b":`...)
	b = appendText(b, x.Sum)
	b = append(b, `,"len":`...)
	b = strconv.AppendInt(b, int64(x.Len), 10)
	b = append(b, `,"type":`...)
	b = appendText(b, x.Type)
	return append(b, '}')
}

func (r *reader) ref() (x Ref, err error) {
	seen, err := r.fields([]string{"b", "len", "type"}, func(i int) (err error) {
		switch i {
		case 0:
			x.Sum, err = r.text()
		case 1:
			x.Len, err = r.whole(0)
		case 2:
			x.Type, err = r.text()
		}
		return err
	})
	if err == nil && seen != 7 {
		err = r.fail("a blob has b, len and type")
	}
	return x, err
}
