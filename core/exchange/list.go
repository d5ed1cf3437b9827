package exchange

import (
	"bytes"
	"fmt"
)

// EncodeList returns the briefs of several jobs, one on each line: what a phone
// asks for first, so that jobs in which nothing happened cost no request. A brief
// is a truth without its heads; the end of a log says that they are what they
// were.
func EncodeList(briefs []Message) []byte {
	var out []byte
	for _, m := range briefs {
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
		if err == nil && m.Kind != Brief {
			err = fmt.Errorf("a %s", m.Kind)
		}
		if err != nil {
			return nil, fmt.Errorf("exchange: list: line %d: %w", n+1, err)
		}
		out = append(out, m)
	}
	return out, nil
}

// Brief returns what a list says of this log.
func (l *Log) Brief() Message {
	m := l.After(Decision{})
	m.Kind, m.Heads = Brief, nil
	return m
}

// Heard takes the brief of this job from a list that was asked for in this
// round. If nothing has changed since the office last spoke of this job, its
// truth of then is that of now; if not, the phone asks.
func (p *Phone) Heard(m Message) {
	if m.Kind != Brief || m.Job != p.job || p.office.heads == nil || m.End != p.office.end || len(m.Aside) != len(p.office.aside) {
		return
	}
	for _, h := range m.Aside {
		if !p.office.aside[h.Hash] {
			return
		}
	}
	p.fresh = true
}
