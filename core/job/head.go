package job

import (
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"
)

// Head is how far a stream goes. Its hash commits to the whole stream, because
// each event holds the hash of the one before.
type Head struct {
	Stream string
	Seq    int
	Hash   [32]byte
}

// String returns stream, seq and hash with blanks between, as in an event.
func (h Head) String() string {
	return h.Stream + " " + strconv.Itoa(h.Seq) + " " + hex.EncodeToString(h.Hash[:])
}

// ParseHead reads what [Head.String] writes, in that one spelling only.
func ParseHead(s string) (Head, error) {
	parts := strings.Split(s, " ")
	if len(parts) == 3 && isStream(parts[0]) && isSum(parts[2]) {
		seq, err := strconv.Atoi(parts[1])
		h := Head{parts[0], seq, sum(parts[2])}
		if err == nil && seq >= 1 && seq <= maxWhole && h.String() == s {
			return h, nil
		}
	}
	return Head{}, fmt.Errorf("%q is not stream, seq and hash", s)
}

// checkHeads asks for one order, so that a set of heads has one spelling.
func checkHeads(where string, heads []Head) error {
	for i, h := range heads {
		if i > 0 && heads[i-1].Stream >= h.Stream {
			return fmt.Errorf("%s: not in ascending order of streams", where)
		}
	}
	return nil
}

func headTexts(heads []Head) []string {
	out := make([]string, len(heads))
	for i, h := range heads {
		out[i] = h.String()
	}
	return out
}

func (r *reader) heads() ([]Head, error) {
	texts, err := r.texts(MaxLine)
	if err != nil {
		return nil, err
	}
	out := make([]Head, len(texts))
	for i, text := range texts {
		if out[i], err = ParseHead(text); err != nil {
			return nil, err
		}
	}
	return out, nil
}
