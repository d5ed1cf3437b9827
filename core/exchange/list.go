package exchange

import (
	"bytes"
	"fmt"
)

// EncodeList returns the truths of several jobs, one on each line: what a phone
// asks for first, so that jobs in which nothing happened cost no request.
func EncodeList(truths []Message) []byte {
	var out []byte
	for _, m := range truths {
		out = append(out, Encode(m)...)
	}
	return out
}

// DecodeList reads what EncodeList writes, as strictly as [Decode].
func DecodeList(data []byte) ([]Message, error) {
	if len(data) > MaxBytes {
		return nil, fmt.Errorf("exchange: list: %d bytes, at most %d", len(data), MaxBytes)
	}
	var out []Message
	for n, line := range bytes.SplitAfter(data, []byte("\n")) {
		if len(line) == 0 {
			continue // behind the last line end
		}
		m, err := Decode(line)
		if err == nil && m.Kind != Truth {
			err = fmt.Errorf("a %s", m.Kind)
		}
		if err != nil {
			return nil, fmt.Errorf("exchange: list: line %d: %w", n+1, err)
		}
		out = append(out, m)
	}
	return out, nil
}

// Heard takes the truth of this job from a list that was asked for in this
// round; that of another job is passed over.
func (p *Phone) Heard(m Message) {
	if m.Kind == Truth && m.Job == p.job {
		p.office, p.fresh = newTruth(m), true
	}
}
