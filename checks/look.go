package checks

import (
	"lugmark/core/finding"
	"lugmark/core/job"
)

// looked is one entry as it was looked up: a bank of 256 blocks asks for the
// same sheet, meter and temperature some hundred times.
type looked struct {
	entry    job.Entry
	standing job.Standing
	newer    bool // a newer app wrote about it

	eval, place int // the Eval that read it last, and where in its list
}

// look looks an entry up, once for as long as the record does not grow.
func (f *Facts) look(part, field string, setup bool) *looked {
	if f.looks == nil || f.looksAt != f.state.Len() {
		f.looks, f.looksAt = map[finding.Key]*looked{}, f.state.Len()
	}
	key := finding.Key{Part: part, Field: field}
	l := f.looks[key]
	if l == nil {
		l = &looked{newer: f.state.UnknownField(job.Key{Visit: f.visit, Part: part, Field: field})}
		l.entry, l.standing = f.state.Lookup(f.visit, part, field, setup)
		f.looks[key] = l
	}
	return l
}

// read notes that the Eval at work rests on an entry. What was read within
// another computation of the same Eval may stand elsewhere in the list, or no
// longer in it; only then the list is searched.
func (f *Facts) read(key finding.Key, l *looked) {
	if l.eval == f.eval {
		if l.place < len(f.reads) && f.reads[l.place] == key {
			return
		}
		for i, k := range f.reads {
			if k == key {
				l.place = i
				return
			}
		}
	}
	l.eval, l.place = f.eval, len(f.reads)
	f.reads = append(f.reads, key)
}
