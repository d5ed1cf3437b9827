package exchange

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"
)

// Cursor names the first N events of a job's log at the office. Acc is the
// SHA-256 over all of their hashes, one after the other, so that after a
// restore from a backup the same N is another Cursor. The zero Cursor is the
// beginning.
type Cursor struct {
	N   int
	Acc [32]byte
}

// Next returns the cursor behind one more event.
func (c Cursor) Next(hash [32]byte) Cursor {
	h := sha256.New()
	h.Write(c.Acc[:])
	h.Write(hash[:])
	return Cursor{c.N + 1, [32]byte(h.Sum(nil))}
}

// String returns N and Acc in hex with a blank between; "0" at the beginning.
func (c Cursor) String() string {
	if c == (Cursor{}) {
		return "0"
	}
	return strconv.Itoa(c.N) + " " + hex.EncodeToString(c.Acc[:])
}

// ParseCursor reads what [Cursor.String] writes, in that one spelling only.
func ParseCursor(s string) (Cursor, error) {
	if s == "0" {
		return Cursor{}, nil
	}
	count, acc, _ := strings.Cut(s, " ")
	n, err := strconv.Atoi(count)
	sum, err2 := hex.DecodeString(acc)
	if err != nil || err2 != nil || len(sum) != 32 || n < 1 || n > maxCount {
		return Cursor{}, fmt.Errorf("exchange: %.100q is not a cursor", s)
	}
	c := Cursor{n, [32]byte(sum)}
	if c.String() != s {
		return Cursor{}, fmt.Errorf("exchange: %.100q is not a cursor", s)
	}
	return c, nil
}

// maxCount is more events than a job can have, and fits 32 bits.
const maxCount = 1 << 30
