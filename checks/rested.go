package checks

import (
	"time"

	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A voltage says something about charge only at rest.
var rested = &Check{
	ID: "rested", Stage: Match, Visits: AtEach,
	Title:   say.Phrase{Key: "rested.title", English: "Rest before the voltages"},
	Asks:    say.Phrase{Key: "rested.asks", English: "Have the blocks rested long enough for their voltage to mean something?"},
	Formula: "rest = t_now − t_last current ≥ 12 h [s], or |U2 − U1| ≤ 1 mV over ≥ 30 min [V]",
	Limits:  []LimitOf{{"rest", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.RestDrift},
	Fields:  []*Field{&lastCurrent.Field, &firstVoltage.Field},
	Parts:   restParts,
	Eval:    evalRested,
}

var (
	sayRestDone  = say.Phrase{Key: "rested.pass", English: "The blocks rested {rest}. The limit is {limit}."}
	sayRestDrift = say.Phrase{Key: "rested.drift", English: "No block moved by more than {drift} in 30 minutes; the limit is 1 mV."}
	sayRestShort = say.Phrase{Key: "rested.later", English: "The blocks have rested {rest}; the rule asks {limit}. Before that their voltage still creeps."}
	sayRestWait  = say.Phrase{Key: "rested.wait", English: "Wait until {due}, with nothing connected."}
	sayRestEarly = say.Phrase{Key: "rested.early", English: "The voltages were read after {rest} of rest; the rule asks {limit}. A voltage that still creeps proves nothing."}
	sayRestAgain = say.Phrase{Key: "rested.again", English: "Read the resting voltages again, with nothing connected in between."}
	sayRestFlow  = say.Phrase{Key: "rested.flow", English: "A current was read at {time}, later than the last current entered; it counts."}
	sayRestClock = say.Phrase{Key: "rested.clock", English: "The last current is entered as later than the reading, so the rest is not known."}
	sayRestFix   = say.Phrase{Key: "rested.fix-time", English: "Correct the time of the last current."}
)

const (
	// "At least 12 hours" between charge or load and the reading: common practice, no source.
	shortestRest unit.Second = 12 * 3600

	// A drift below 1 mV in 30 minutes also counts as rested: an article on
	// resting voltage. A meter that shows 1 mV is needed to see it.
	largestDrift unit.Volt = 0.001
	driftSpan              = 30 * time.Minute
)

// restParts: the bank; at a return visit only where a match rests on it.
func restParts(f *Facts) ([]string, say.Line) {
	if f.Returning() && !f.builtAgain() && f.Layout().Series < 2 {
		return nil, sayAgainAlike.With()
	}
	return onBank(f)
}

func evalRested(f *Facts, _ string) []finding.Finding {
	limit, least, notes := lower(f, "rested", "rest", base[unit.Second]{shortestRest, finding.Practice, cite.CommonPractice.Line()})
	limit = limit.In("h")
	if drift, ok := f.drift(); ok && still(drift) {
		still := finding.AtMost("drift", largestDrift, finding.Practice, cite.RestDrift.Line()).In("mV")
		return one(finding.Passes(sayRestDrift.With("drift", finding.Measured(drift, "mV", still).Text)).Against(limit).From(cite.RestDrift.Line()).Noting(notes...))
	}
	last, ok := lastCurrent.Of(f, "bank")
	if !ok {
		return one(missing(lastCurrent.Field, "bank"))
	}
	read, isRead := f.firstRestReading()
	if !isRead {
		read = f.Now()
	}
	if flowed, at := f.lastFlow(last, read); flowed {
		last, notes = at, append(notes, sayRestFlow.With("time", f.clock(at)))
	}
	rest := unit.Second(read.Sub(last).Seconds())
	said := []any{"rest", exact(unit.Second(int(rest/360)*360), "h"), "limit", exact(least, "h")}
	switch {
	case rest < 0:
		return one(finding.CannotTell(sayRestClock.With(), sayRestFix.With()).Against(limit))
	case rest >= least:
		return one(finding.Passes(sayRestDone.With(said...)).Against(limit).Noting(notes...))
	case isRead:
		return one(finding.CannotTell(sayRestEarly.With(said...), sayRestAgain.With()).Against(limit).Noting(notes...))
	}
	due := last.Add(time.Duration(float64(least) * float64(time.Second)))
	return one(finding.Waits(sayRestShort.With(said...), sayRestWait.With("due", f.clock(due)), due).Against(limit).Noting(notes...))
}

// lastFlow finds a current that was read after the last one that was entered
// and before the resting voltages: whoever charged a block at noon has not let
// it rest since the morning.
func (f *Facts) lastFlow(entered, before time.Time) (flowed bool, last time.Time) {
	last = entered
	f.quietly(func() {
		for _, b := range f.Layout().Blocks() {
			for _, q := range []Quantity[unit.Ampere]{fullCurrent, fullCurrent2} {
				if v, ok := q.Of(f, b); ok && v.Value != 0 && v.At.After(last) && v.At.Before(before) {
					flowed, last = true, v.At
				}
			}
		}
	})
	return flowed, last
}

// firstRestReading is when the first resting voltage was read.
func (f *Facts) firstRestReading() (first time.Time, ok bool) {
	f.quietly(func() {
		for _, b := range f.Layout().Blocks() {
			if v, has := restVoltage.Of(f, b); has && (!ok || v.At.Before(first)) {
				first, ok = v.At, true
			}
		}
	})
	return first, ok
}

// drift is the largest movement between an early and the resting voltage of
// any block, with its uncertainty: read at least 30 minutes apart with steps of
// 1 mV, all of it after the last current; ok is false unless every block has
// both.
func (f *Facts) drift() (largest measure.Reading[unit.Volt], ok bool) {
	last, flowed := lastCurrent.Of(f, "bank")
	for _, b := range f.Layout().Blocks() {
		early, hasEarly := firstVoltage.Of(f, b)
		if !hasEarly {
			return largest, false
		}
		late, hasLate := restVoltage.Of(f, b)
		if !hasLate || late.At.Sub(early.At) < driftSpan || early.Step > largestDrift || late.Step > largestDrift || flowed && early.At.Before(last) {
			return largest, false
		}
		d := difference(f, late, early, 0)
		d.Value = max(d.Value, -d.Value)
		if d.Value+d.U >= largest.Value+largest.U {
			largest = d
		}
	}
	return largest, len(f.Layout().Blocks()) > 0
}

// still reports whether the drift shows that the blocks have come to rest.
func still(drift measure.Reading[unit.Volt]) bool {
	return measure.AtMost(drift.Interval(), largestDrift) == measure.Inside
}

// clock says a time in the offset of the time of judging; with the date when
// it is another day.
func (f *Facts) clock(t time.Time) string {
	t = t.In(f.now.Location())
	if t.Format(time.DateOnly) == f.now.Format(time.DateOnly) {
		return t.Format("15:04")
	}
	return t.Format("15:04, 2 January")
}
