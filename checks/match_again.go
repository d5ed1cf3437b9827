package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Blocks in series that were charged full together and drift apart at rest do
// not hold the same charge any more.
//
// Read twelve hours after a full charge, below 13.45 V: nearer to the top good
// blocks differ by tens of millivolts. Blocks side by side always read alike.
var matchAgain = &Check{
	ID: "match-again", Stage: Return, Visits: AtReturn,
	Title:   say.Phrase{Key: "match-again.title", English: "Match since the last visit"},
	Asks:    say.Phrase{Key: "match-again.asks", English: "Do the blocks in series still rest at the same voltage?"},
	Formula: "max U − min U ≤ max(20 mV, what it was + 10 mV) [V]",
	Limits:  []LimitOf{{"spread", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.OpenOCV, &cite.OurRule},
	Fields:  []*Field{&fullBefore.Field, &lastCurrent.Field, &restVoltage.Field, &restClose.Field},
	Needs:   []*Check{rested},
	Parts:   matchAgainParts,
	Eval:    evalMatchAgain,
}

var (
	sayAgainAlike = say.Phrase{Key: "match-again.parallel", English: "No blocks stand in series. Blocks side by side always read alike."}
	sayAgainGood  = say.Phrase{Key: "match-again.pass", English: "The readings differ by {spread}; the limit is {limit}."}
	sayAgainBad   = say.Phrase{Key: "match-again.fail", English: "{a} and {b} differ by {spread}; the limit is {limit}. They have drifted apart in charge."}
	sayAgainUnk   = say.Phrase{Key: "match-again.cant-tell", English: "{a} and {b} differ by {spread}, too close to the limit of {limit} for this meter."}
	sayAgainHigh  = say.Phrase{Key: "match-again.high", English: "{part} reads {volts}; above {top} good blocks differ by tens of millivolts, and the spread says nothing."}
	sayAgainEmpty = say.Phrase{Key: "match-again.not-full", English: "The readings differ by {spread}, but the bank was not charged to full before it rested. On the flat part of the curve unequal blocks read alike."}
	sayAgainRest  = say.Phrase{Key: "match-again.not-rested", English: "{a} and {b} differ by {spread}, but the blocks have not rested, and rest could bring them together."}
	sayAgainWas   = say.Phrase{Key: "match-again.was", English: "They differed by {was} at {visit}."}
	sayAgainNever = say.Phrase{Key: "match-again.never", English: "No earlier visit read all of them below {top}, so the fixed limit stands."}
	sayAgainTake  = say.Phrase{Key: "match-again.take", English: "Take out a tenth of the charge, rest, read again; then charge each to full, warm enough, and join again."}
	sayAgainFull  = say.Phrase{Key: "match-again.full", English: "Charge each block to full by itself once it is warm enough, join again, and read again at the next visit."}
	sayAgainFirst = say.Phrase{Key: "match-again.first-full", English: "Charge the bank to full, let it rest for twelve hours, and read again."}
	sayAgainFiner = say.Phrase{Key: "match-again.finer", English: "Read again with a meter that shows 1 mV, all blocks with the same one."}
)

const (
	// 20 mV, or 10 mV more than it was: common practice.
	driftedMost unit.Volt = 0.020
	driftedMore unit.Volt = 0.010
)

// matchAgainParts: each string, or the whole bank where groups stand in series.
func matchAgainParts(f *Facts) ([]string, say.Line) {
	switch l := f.Layout(); {
	case l.Series < 2:
		return nil, sayAgainAlike.With()
	case l.Join == bank.JoinGroups:
		return []string{"bank"}, say.Line{}
	}
	return onUnits(f)
}

// spreadOf is the worst pair of a part as this visit read it, with the highest
// reading, and whether a long run was closed; false while anything is missing.
func (f *Facts) spreadOf(part string) (worst pair, top stop, closed bool, gap *finding.Finding) {
	run, gap := f.matchRun(part)
	if gap != nil || len(run) < 2 {
		return worst, top, false, gap
	}
	drift, closed := f.closing(run)
	top = run[0]
	for _, s := range run {
		if a, b := absolute(f, s.shown), absolute(f, top.shown); a.Value+a.U > b.Value+b.U {
			top = s
		}
	}
	return worstPair(f, run, drift), top, closed, nil
}

// belowTop reports whether every reading of a run lies where the spread speaks.
func (f *Facts) belowTop(top stop) bool {
	return measure.AtMost(absolute(f, top.shown).Interval(), flatHigh) == measure.Inside
}

func evalMatchAgain(f *Facts, part string) []finding.Finding {
	worst, top, closed, gap := f.spreadOf(part)
	if gap != nil {
		return one(*gap)
	}
	full, said := fullBefore.Of(f, "bank")
	if !said {
		return one(missing(fullBefore.Field, "bank"))
	}
	limit := finding.AtMost("spread", driftedMost, finding.Practice, cite.CommonPractice.Line())
	fail := limit
	note := sayAgainNever.With("top", exact(flatHigh, "V"))
	if was, ok := f.spreadBefore(part); ok {
		// What an earlier visit allows more it must have measured: its
		// uncertainty is not added to what passes, nor taken from what fails.
		f.adopt(was.At)
		d := was.Value.spread
		limit = finding.AtMost("spread", max(driftedMost, d.Value-d.U+driftedMore), finding.Practice, cite.CommonPractice.Line())
		fail = finding.AtMost("spread", max(driftedMost, d.Value+d.U+driftedMore), finding.Practice, cite.CommonPractice.Line())
		note = sayAgainWas.With("was", finding.Measured(d, "mV", finding.Limit{}).Text, "visit", visitLine(was.Visit, was.Value.high.shown.At))
	}
	limit, fail = limit.In("mV"), fail.In("mV")
	side := measure.AtMost(worst.spread.Interval(), unit.Volt(*limit.Max))
	bad := measure.AtMost(worst.spread.Interval(), unit.Volt(*fail.Max)) == measure.Outside
	if bad {
		limit = fail
	}
	found := finding.Measured(worst.spread, "mV", limit)
	words := []any{"a", bank.Name(worst.high.part), "b", bank.Name(worst.low.part), "spread", found.Text, "limit", limit.Line(),
		"part", bank.Name(top.part), "volts", typed(top.shown), "top", exact(flatHigh, "V")}
	x := finding.CannotTell(sayAgainUnk.With(words...), sayAgainFiner.With())
	switch {
	case !f.awakeAt(worst.low):
		x = finding.CannotTell(sayMatchAsleep.With("part", bank.Name(worst.low.part), "volts", typed(worst.low.shown)), sayAsleepNext.With())
	case !f.belowTop(top):
		x = finding.CannotTell(sayAgainHigh.With(words...), sayAgainTake.With())
	case full != "yes":
		x = finding.CannotTell(sayAgainEmpty.With(words...), sayAgainFirst.With())
	case bad && !f.passed(rested, part) && measure.AtMost(worst.spread.Interval(), surelyApart) != measure.Outside:
		x = finding.CannotTell(sayAgainRest.With(words...), f.nextOf(rested, part))
	case bad:
		x = finding.Fails(sayAgainBad.With(words...), sayAgainFull.With())
	case side == measure.Inside && !closed:
		x = finding.CannotTell(sayMatchLong.With(), sayCloseNext.With())
	case side == measure.Inside:
		x = finding.Passes(sayAgainGood.With(words...))
	}
	if x.Verdict() != finding.Pass {
		x = x.About(worst.high.part, worst.low.part)
	}
	return one(x.Value(found).Against(limit).Noting(note))
}

// spreadBefore is the spread of the latest earlier visit that read all of a
// part; none where that was read near the top.
func (f *Facts) spreadBefore(part string) (was baseline[pair], ok bool) {
	all := baselines(f, func(then *Facts) (pair, bool) {
		worst, _, _, gap := then.spreadOf(part)
		return worst, gap == nil && worst.high.part != ""
	})
	if len(all) == 0 {
		return was, false
	}
	_, top, _, _ := all[0].At.spreadOf(part)
	return all[0], all[0].At.belowTop(top)
}
