package job

import (
	"iter"
	"slices"
)

// keyList is a sorted list of different keys in short runs, so that adding one
// costs the same in a job of ten thousand samples as in a small one. The zero
// keyList is empty.
type keyList struct {
	runs [][]Key // none is empty
	n    int
}

// longestRun is how many keys are moved at most when one is added; a run that
// would be longer is parted in the middle.
const longestRun = 64

// add adds a key that is not in the list yet.
func (l *keyList) add(k Key) {
	l.n++
	if len(l.runs) == 0 {
		l.runs = [][]Key{append(make([]Key, 0, longestRun), k)}
		return
	}
	r := l.runOf(k)
	run := l.runs[r]
	if len(run) == longestRun {
		half := append(make([]Key, 0, longestRun), run[longestRun/2:]...)
		clear(run[longestRun/2:])
		l.runs[r] = run[:longestRun/2]
		l.runs = slices.Insert(l.runs, r+1, half)
		if half[0].Compare(k) < 0 {
			r++
		}
		run = l.runs[r]
	}
	at, _ := slices.BinarySearchFunc(run, k, Key.Compare)
	l.runs[r] = slices.Insert(run, at, k)
}

// runOf is the last run that begins at k or before it, the first when none does.
func (l *keyList) runOf(k Key) int {
	r, exact := slices.BinarySearchFunc(l.runs, k, func(run []Key, k Key) int { return run[0].Compare(k) })
	if !exact {
		r = max(r-1, 0)
	}
	return r
}

// from gives the keys from k on, in order.
func (l *keyList) from(k Key) iter.Seq[Key] {
	return func(yield func(Key) bool) {
		if l.n == 0 {
			return
		}
		r := l.runOf(k)
		at, _ := slices.BinarySearchFunc(l.runs[r], k, Key.Compare)
		for ; r < len(l.runs); r, at = r+1, 0 {
			for _, k := range l.runs[r][at:] {
				if !yield(k) {
					return
				}
			}
		}
	}
}

// all gives a copy of the whole list.
func (l *keyList) all() []Key { return slices.Concat(l.runs...) }
