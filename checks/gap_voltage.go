package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// The gap between two blocks is read directly, in millivolts: minus joined by
// a thin fused lead, probes from plus to plus. Even a common meter decides so.
var gapVoltageCheck = &Check{
	ID: "gap-voltage", Stage: Match,
	Title:   say.Phrase{Key: "gap-voltage.title", English: "Gap between the posts"},
	Asks:    say.Phrase{Key: "gap-voltage.asks", English: "Is the gap, read directly, small enough to join?"},
	Formula: "D = U(this) − U(first) [V]; max D − min D ≤ 10 mV",
	Limits:  []LimitOf{{"gap", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice},
	Fields:  []*Field{&gapVoltage.Field, &stringGap.Field, &gapOver.Field},
	Needs:   []*Check{rested, sameTemp},
	Parts:   matchParts,
	Spare:   spareGap,
	Eval:    evalGapVoltage,
}

var (
	sayGapSmall   = say.Phrase{Key: "gap-voltage.pass", English: "The gaps differ by {spread} at most; the limit is {limit}."}
	sayGapLarge   = say.Phrase{Key: "gap-voltage.fail", English: "{a} stands {spread} above {b}; the limit is {limit}. Joined, the higher would push current into the lower."}
	sayGapUnk     = say.Phrase{Key: "gap-voltage.cant-tell", English: "{a} stands {spread} above {b}, too close to the limit of {limit} for this meter."}
	sayGapOver    = say.Phrase{Key: "gap-voltage.over", English: "The gap of {a} is beyond the millivolt range of the meter; the limit is {limit}."}
	sayGapEarly   = say.Phrase{Key: "gap-voltage.early", English: "The gaps were read before the blocks had rested {rest}. A voltage that still creeps proves nothing."}
	sayGapJoined  = say.Phrase{Key: "gap-voltage.joined", English: "The gaps were read while {link} was closed. The gap means something only with all other links open."}
	sayGapHigh    = say.Phrase{Key: "gap-voltage.above-class", English: "These strings reach {volts} while charging. The gap method is not for more than {limit}."}
	sayGapAgainst = say.Phrase{Key: "gap-voltage.against", English: "The gaps differ by {spread} at most, but the voltages read one by one do not match. A test lead that is off shows no gap either."}
	sayGapProbe   = say.Phrase{Key: "gap-voltage.probe", English: "See that the thin lead holds both minus posts, then read the gap and the voltages again."}
	sayGapFlat    = say.Phrase{Key: "gap-voltage.flat", English: "A small gap does not prove equal charge while blocks stand between 13.10 V and 13.45 V: there, blocks up to 40 points apart can read alike."}

	sayGapFull   = say.Phrase{Key: "gap-voltage.full", English: "Read the temperature of each block, charge each that is warm enough to full by itself, then join in parallel."}
	sayGapString = say.Phrase{Key: "gap-voltage.full-strings", English: "Charge each string to full by itself once its blocks are warm enough, then measure again."}
	sayGapFiner  = say.Phrase{Key: "gap-voltage.finer", English: "Read the gap again on the millivolt range of a meter that shows 0.1 mV."}
	sayGapOpen   = say.Phrase{Key: "gap-voltage.open", English: "Open that link, wait one hour, and read the gaps again."}
	sayGapAgain  = say.Phrase{Key: "gap-voltage.again", English: "Read the gaps again once the blocks have rested, with nothing connected in between."}
	sayGapTotals = say.Phrase{Key: "gap-voltage.totals", English: "Compare the totals of the strings with a meter that shows 1 mV."}
)

func evalGapVoltage(f *Facts, part string) []finding.Finding {
	limit, most, notes := upper(f, "gap-voltage", "gap", base[unit.Volt]{widestMatch, finding.Practice, cite.CommonPractice.Line()})
	limit = limit.In("mV")
	mend, strings := f.onceWarm(sayGapFull.With(), part), f.stringsStand(part)
	if strings {
		mend = f.onceWarm(sayGapString.With(), part)
		if v := f.highestVoltage(); v > classLimit {
			return one(finding.CannotTell(sayGapHigh.With("volts", exact(v, "V"), "limit", exact(classLimit, "V")), sayGapTotals.With()).Against(limit))
		}
	}
	run, over, lack := f.gapRun(part)
	if over != "" {
		if f.passed(rested, part) {
			return one(finding.Fails(sayGapOver.With("a", bank.Name(over), "limit", exact(most, "mV")), mend).Against(limit).About(over))
		}
		return one(finding.CannotTell(sayGapOver.With("a", bank.Name(over), "limit", exact(most, "mV")), f.nextOf(rested, part)).Against(limit).About(over))
	}
	whole := len(run)
	if lack != nil {
		if run = readGaps(run); len(run) < 2 {
			return one(*lack)
		}
	}
	if link, joined := f.closedDuring(run, strings); joined {
		return one(finding.CannotTell(sayGapJoined.With("link", bank.Name(link)), sayGapOpen.With()).Against(limit))
	}
	high, low, spread := widestOffset(f, run)
	found := finding.Measured(spread, "mV", limit)
	said := []any{"a", bank.Name(high), "b", bank.Name(low), "spread", found.Text, "limit", exact(most, "mV")}
	x := finding.Judge(measure.AtMost(spread.Interval(), most), finding.Words{
		Pass: sayGapSmall.With(said...), Fail: sayGapLarge.With(said...), CantTell: sayGapUnk.With(said...), Mend: mend, Settle: sayGapFiner.With(),
	})
	least := f.leastRest()
	early := !f.restedAt(firstOf(run), least)
	switch {
	case x.Verdict() == finding.Fail && (early || !f.passed(rested, part)) && measure.AtMost(spread.Interval(), surelyApart) != measure.Outside:
		x = finding.CannotTell(sayGapEarly.With("rest", exact(least, "h")), sayGapAgain.With())
	case x.Verdict() == finding.Pass && f.passed(rested, part) && early:
		x = finding.CannotTell(sayGapEarly.With("rest", exact(least, "h")), sayGapAgain.With())
	}
	if lack != nil && (x.Verdict() != finding.Fail || whole == len(run)) { // two that are surely apart need no third
		return one(*lack)
	}
	if p, asleep := f.anyAsleep(run); asleep && x.Verdict() == finding.Pass {
		return one(finding.CannotTell(sayGapAsleep.With("part", bank.Name(p)), sayAsleepNext.With()).Against(limit).About(p))
	}
	if x.Verdict() == finding.Pass && f.matchFails(part) {
		x = finding.CannotTell(sayGapAgainst.With("spread", found.Text), sayGapProbe.With())
	}
	if x.Verdict() != finding.Pass {
		x = x.About(high, low)
	}
	if x.Verdict() == finding.Pass && !f.allOffFlat(f.BlocksOf(part)) {
		notes = append(notes, sayGapFlat.With())
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}

// matchFails reports whether the voltages read one by one fail to match.
func (f *Facts) matchFails(part string) bool {
	for _, x := range f.byCheck["voltage-match"] {
		if x.Part() == part && x.Verdict() == finding.Fail {
			return true
		}
	}
	return false
}

// leastRest is the rest that is asked before a voltage, after the firm's rule.
func (f *Facts) leastRest() unit.Second {
	_, least, _ := lower(f, "rested", "rest", base[unit.Second]{shortestRest, finding.Practice, cite.CommonPractice.Line()})
	return least
}

// restedAt reports whether the blocks had rested at the time of a reading.
func (f *Facts) restedAt(read time.Time, least unit.Second) (ok bool) {
	f.quietly(func() {
		if drift, known := f.drift(); known && still(drift) {
			ok = true
			return
		}
		last, known := lastCurrent.Of(f, "bank")
		ok = known && unit.Second(read.Sub(last).Seconds()) >= least
	})
	return ok
}
