package checks

import (
	"slices"

	"lugmark/core/finding"
	"lugmark/core/say"
)

// noted is a result together with what was read and assumed on the way, so
// that every finding that rests on it says so, however often it is asked for.
type noted struct {
	value   any
	reads   []finding.Key
	assumed []say.Line
	trouble *finding.Finding
	skipped *finding.Finding
}

// remember computes something that many parts share once per [Run].
func remember[T any](f *Facts, key string, compute func() T) T {
	m, ok := f.memo[key]
	if !ok {
		reads, assumed, trouble, skipped := f.reads, f.assumed, f.trouble, f.skipped
		f.begin()
		m.value = compute()
		m.reads, m.assumed, m.trouble, m.skipped = f.reads, f.assumed, f.trouble, f.skipped
		f.reads, f.assumed, f.trouble, f.skipped = reads, assumed, trouble, skipped
		if f.memo == nil {
			f.memo = map[string]noted{}
		}
		f.memo[key] = m
	}
	f.replay(m)
	return m.value.(T)
}

// replay adds what a result rests on to what this finding rests on.
func (f *Facts) replay(m noted) {
	before := f.reads
	for _, k := range m.reads {
		if !slices.Contains(before, k) { // those of m are already different from each other
			f.reads = append(f.reads, k)
		}
	}
	for _, a := range m.assumed {
		f.assume(a)
	}
	if m.trouble != nil {
		f.trouble = m.trouble
	}
	if m.skipped != nil && (f.skipped == nil || m.skipped.Verdict() == finding.Fail) {
		f.skipped = m.skipped
	}
}
