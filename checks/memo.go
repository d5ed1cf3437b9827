package checks

import (
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
	m := f.recall(key, func() any { return compute() })
	f.replay(m)
	return m.value.(T)
}

// rememberQuietly is [remember] for what a finding is compared with but does
// not rest on.
func rememberQuietly[T any](f *Facts, key string, compute func() T) T {
	return f.recall(key, func() any { return compute() }).value.(T)
}

func (f *Facts) recall(key string, compute func() any) noted {
	m, ok := f.memo[key]
	if ok {
		return m
	}
	reads, assumed, trouble, skipped := f.reads, f.assumed, f.trouble, f.skipped
	f.begin()
	m.value = compute()
	m.reads, m.assumed, m.trouble, m.skipped = f.reads, f.assumed, f.trouble, f.skipped
	f.reads, f.assumed, f.trouble, f.skipped = reads, assumed, trouble, skipped
	if f.memo == nil {
		f.memo = map[string]noted{}
	}
	f.memo[key] = m
	return m
}

// replay adds what a result rests on to what this finding rests on.
func (f *Facts) replay(m noted) {
	for _, k := range m.reads {
		f.read(k, f.looks[k])
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

// alike reports whether two lines say the same, without saying them.
func alike(a, b say.Line) bool {
	if a.Key != b.Key || a.English != b.English || len(a.Args) != len(b.Args) {
		return false
	}
	for i, x := range a.Args {
		y := b.Args[i]
		inner, isLine := x.Value.(say.Line)
		other, isLineToo := y.Value.(say.Line)
		switch {
		case x.Name != y.Name || isLine != isLineToo:
			return false
		case isLine && !alike(inner, other):
			return false
		case !isLine && x.Value != y.Value:
			return false
		}
	}
	return true
}
