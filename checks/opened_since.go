package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// What was read of a joint, a bolt or a string says nothing any more once a
// link of it was opened: it counts as not read since.

var sayTightenAgain = say.Phrase{Key: "torque.opened", English: "Tighten again: the link at this post was opened after it was tightened."}

// opening is the last time that something closed was entered as open.
type opening struct {
	ever bool
	lam  int
	at   time.Time
}

// openingOf finds when a link or the main was last opened.
func (f *Facts) openingOf(part string) (o opening) {
	k := f.key(part, closed.Field)
	for _, e := range f.state.History(k) {
		if e.Value.Choice != "no" {
			continue
		}
		before, standing := f.state.StandingAsOf(k, e.Lam-1)
		if standing == job.Conflict || standing == job.One && before.Value.Choice == "yes" || standing == job.Missing && f.leftClosed(part) {
			o = opening{true, e.Lam, entryTime(e)}
		}
	}
	return o
}

// openedSince reports whether a link or the main was opened after a reading, by
// the order of the record; also when the reading is dated before an opening
// that another phone entered.
func (f *Facts) openedSince(part string, lam int, read time.Time) bool {
	o := rememberQuietly(f, "opened "+part, func() opening { return f.openingOf(part) })
	return o.ever && (lam < o.lam || read.Before(o.at.Add(-clockSlack)))
}

// opened lists the links of the drawing that were ever opened: mostly none.
func (f *Facts) opened() []bank.Link {
	return rememberQuietly(f, "opened links", func() (out []bank.Link) {
		for _, l := range f.links {
			if f.openingOf(l.ID).ever {
				out = append(out, l)
			}
		}
		return out
	})
}

// unlinkedSince reports whether a link inside a string was opened after a
// reading across it, or any link of the drawing for the bank.
func (f *Facts) unlinkedSince(part string, lam int, read time.Time) bool {
	for _, l := range f.opened() {
		if (part == "bank" || l.Of == part) && f.openedSince(l.ID, lam, read) {
			return true
		}
	}
	return false
}

// loosened is To do for a bolt whose link was opened after it was tightened.
func (f *Facts) loosened(post string, lam int, read time.Time) (x finding.Finding, again bool) {
	for _, l := range f.opened() {
		if (l.From == post || l.To == post) && f.openedSince(l.ID, lam, read) {
			return finding.Undone(sayTightenAgain.With()).Reading([]finding.Key{{Part: post, Field: torqueSet.ID}}), true
		}
	}
	return x, false
}
