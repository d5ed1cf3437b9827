package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// baseline is what an earlier visit found, for a return visit to compare with.
type baseline[T any] struct {
	Value T
	Visit string // "v1"
	At    *Facts // what was known then: its meters on their days, its drawing
}

// baselines reads the same thing at every earlier visit that has it, the latest
// first. The first is the baseline; the older ones show what creeps. A reading
// is never taken from another visit in any other way. Where two people disagreed
// about one of them nothing is known: the conflict speaks for the finding.
func baselines[T any](f *Facts, read func(then *Facts) (T, bool)) (out []baseline[T]) {
	for _, then := range f.earlier() {
		then.begin()
		v, ok := read(then)
		if then.trouble != nil {
			f.trouble = then.trouble
			return nil
		}
		if ok {
			out = append(out, baseline[T]{v, then.visit, then})
		}
	}
	return out
}

// Baseline reads a number at the latest earlier visit that has it.
func (q Quantity[Q]) Baseline(f *Facts, part string) (b baseline[measure.Shown[Q]], ok bool) {
	all := baselines(f, func(then *Facts) (measure.Shown[Q], bool) { return q.Of(then, part) })
	if len(all) == 0 {
		return b, false
	}
	return all[0], true
}

// earlier gives what was known at each earlier visit, the latest first.
func (f *Facts) earlier() []*Facts {
	return rememberQuietly(f, "earlier", func() (out []*Facts) {
		for _, visit := range f.visitsBefore() {
			out = append(out, NewFacts(f.state, visit, f.now))
		}
		return out
	})
}

// adopt notes for a finding what an earlier visit had to assume.
func (f *Facts) adopt(then *Facts) {
	for _, a := range then.assumed {
		f.assume(a)
	}
}

var (
	sayVisit   = say.Phrase{Key: "visit.of", English: "visit {n} ({date})"}
	sayNoneYet = say.Phrase{Key: "visit.no-baseline", English: "{found} No earlier visit has anything to compare it with."}
	sayIsFirst = say.Phrase{Key: "visit.is-first", English: "Keep this reading: the next visit compares with it. Until then judge it by its like: {part}."}
)

// visitLine names a visit and the day of what was read at it.
func visitLine(visit string, at time.Time) say.Line {
	n, _ := visitNumber(visit)
	return sayVisit.With("n", exact(unit.Count(n), "1"), "date", at.Format("2 January 2006"))
}

// isFirst is the next action where no earlier visit has a value.
func isFirst(part string) say.Line { return sayIsFirst.With("part", bank.Name(part)) }

// oneMeter reports whether two visits read with one meter on one range that
// nobody can have adjusted in between: it is named, and its calibration date is
// known and the same at both. Then its gain is the same in both readings and
// falls out of their ratio. A meter that was calibrated in between counts as
// another one.
func oneMeter[Q unit.Quantity](f, then *Facts, now, was measure.Shown[Q]) bool {
	if now.Meter == "" || now.Meter != was.Meter || now.Decimals != was.Decimals || now.Typed.Unit != was.Typed.Unit {
		return false
	}
	today, before := f.dueDate(now.Meter), then.dueDate(was.Meter)
	return !today.IsZero() && today.Equal(before)
}

// gainless is a meter whose gain falls out.
func gainless(m measure.Meter, falls bool) measure.Meter {
	if falls {
		m.Percent = 0
	}
	return m
}

// ratioTo is now over was, with the gain left out where one meter read both;
// false when the baseline may be nothing.
func ratioTo[Q unit.Quantity](f *Facts, then *Facts, now, was measure.Shown[Q]) (measure.Reading[unit.Ratio], bool) {
	same := oneMeter(f, then, now, was)
	return measure.Ratio(measure.Absolute(now, gainless(specOf(f, now), same)), measure.Absolute(was, gainless(specOf(then, was), same)))
}
