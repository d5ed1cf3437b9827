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

// Blocks that were charged to full may stand joined in parallel until they
// agree. It takes half a day, ends when no lead carries a current any more, and
// proves nothing while they are joined: then they always read alike.
var parallelRest = &Check{
	ID: "parallel-rest", Stage: Match,
	Title:   say.Phrase{Key: "parallel-rest.title", English: "Rest in parallel"},
	Asks:    say.Phrase{Key: "parallel-rest.asks", English: "Did the joined blocks rest long enough, and were they read again after they were opened?"},
	Formula: "t_open − t_joined ≥ 12 h [s]; I_end ≤ max(1 A, 0.005·C/h) [A]; 1 h open before the gap is read",
	Limits:  []LimitOf{{"current", finding.Practice}, {"rest", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.OurRule, &cite.OpenOCV},
	Fields:  []*Field{&restJoined.Field, &restCurrent.Field, &restOpened.Field, &gapVoltage.Field},
	Parts: func(f *Facts) ([]string, say.Line) {
		return f.restsDone(), sayRestNone.With()
	},
	Eval: evalParallelRest,
}

var (
	sayRestNone   = say.Phrase{Key: "parallel-rest.none", English: "No rest in parallel was begun."}
	sayJoinedGood = say.Phrase{Key: "parallel-rest.pass", English: "Joined for {hours}; at the end {found} flowed, and the blocks were read again an hour after they were opened. The limit is {limit} and {amps}."}
	sayJoinedWait = say.Phrase{Key: "parallel-rest.later", English: "Joined for {hours} so far; the rule asks {limit}."}
	sayJoinedTill = say.Phrase{Key: "parallel-rest.until", English: "Leave it joined until {due}, then read the current in every lead."}
	sayJoinedFlow = say.Phrase{Key: "parallel-rest.flows", English: "At the end {found} still flowed; at rest it is at most {amps}."}
	sayJoinedMore = say.Phrase{Key: "parallel-rest.more", English: "Leave it joined until less flows, then read the current in every lead again."}
	sayJoinedRead = say.Phrase{Key: "parallel-rest.early-current", English: "The current was read after {hours}; the rule asks {limit} first."}
	sayJoinedOpen = say.Phrase{Key: "parallel-rest.opened", English: "It was opened after {hours}; the rule asks {limit}."}
	sayJoinedOver = say.Phrase{Key: "parallel-rest.again", English: "Join the blocks again and enter the rest as a new one."}
	sayJoinedLook = say.Phrase{Key: "parallel-rest.while-joined", English: "A resting voltage was read while the blocks were joined. Joined blocks always read alike."}
	sayJoinedNext = say.Phrase{Key: "parallel-rest.next", English: "Open the links, wait one hour, then measure the gap again."}
	sayJoinedTime = say.Phrase{Key: "parallel-rest.clock", English: "The times entered do not fit: it was joined after now, or opened before it was joined."}
	sayJoinedFix  = say.Phrase{Key: "parallel-rest.fix-time", English: "Correct the times of joining and opening."}
	sayJoinedHour = say.Phrase{Key: "parallel-rest.hour", English: "Opened at {opened}; an hour later the blocks stand for themselves."}
	sayJoinedGap  = say.Phrase{Key: "parallel-rest.gap", English: "From {due} on measure the gap again."}
	sayJoinedFlat = say.Phrase{Key: "parallel-rest.flat", English: "It evens the charge only of blocks that began near full: on the flat part 24 of 40 points remained (computed)."}
)

const (
	// Half a day: common practice, no source.
	restJoinedFor unit.Second = 12 * 3600
	// What flows at the end: the clamp's own uncertainty is 0.5 A; our choice.
	restFlow     unit.Ampere = 1
	restFlowRate unit.Ratio  = 0.005
	// After opening, before a gap means something: our choice.
	restSettles = time.Hour
)

func evalParallelRest(f *Facts, part string) []finding.Finding {
	limit, least, notes := lower(f, "parallel-rest", "rest", base[unit.Second]{restJoinedFor, finding.Practice, cite.CommonPractice.Line()})
	limit = limit.In("h")
	answer := func(x finding.Finding) []finding.Finding {
		return one(x.Against(limit).Noting(append(notes, sayJoinedFlat.With())...))
	}
	joined, ok := restJoined.Of(f, part)
	if !ok {
		return answer(missing(restJoined.Field, part))
	}
	opened, isOpen := restOpened.Of(f, part)
	until := f.now
	if isOpen {
		until = opened
	}
	if _, known := f.age(joined); !known || until.Before(joined) && isOpen || isOpen && opened.After(f.now.Add(clockSlack)) {
		return answer(finding.CannotTell(sayJoinedTime.With(), sayJoinedFix.With()))
	}
	due := joined.Add(time.Duration(float64(least) * float64(time.Second)))
	stood := unit.Second(max(0, until.Sub(joined).Seconds()))
	said := []any{"hours", exact(unit.Second(int(stood/360)*360), "h"), "limit", exact(least, "h"), "due", f.clock(due)}
	switch {
	case isOpen && opened.Before(due):
		return answer(finding.CannotTell(sayJoinedOpen.With(said...), sayJoinedOver.With()))
	case f.now.Before(due):
		return answer(finding.Waits(sayJoinedWait.With(said...), sayJoinedTill.With(said...), due))
	}
	if b, alike := f.readBetween(joined, until); alike {
		return answer(finding.CannotTell(sayJoinedLook.With(), sayJoinedNext.With()).About(b))
	}
	amps, ok := restCurrent.Of(f, part)
	if !ok {
		return answer(missing(restCurrent.Field, part))
	}
	if amps.At.Before(due) {
		return answer(finding.CannotTell(sayJoinedRead.With("hours", exact(unit.Second(int(amps.At.Sub(joined).Seconds()/360)*360), "h"), "limit", exact(least, "h")), sayJoinedMore.With()))
	}
	rated := f.capacity("bank")
	if !rated.All() {
		return answer(rated.Missing())
	}
	most := max(restFlow, unit.Ampere(rated.Value)*unit.Ampere(restFlowRate))
	flow := size(measure.Absolute(amps, f.meter(amps.Meter, "A")))
	flows := finding.AtMost("current", most, finding.Practice, cite.OurRule.Line())
	found := finding.Measured(flow, "A", flows)
	said = append(said, "found", found.Text, "amps", exact(most, "A"))
	if measure.AtMost(flow.Interval(), most) != measure.Inside {
		return one(finding.CannotTell(sayJoinedFlow.With(said...), sayJoinedMore.With()).Value(found).Against(flows).Noting(notes...))
	}
	if !isOpen {
		return answer(finding.Undone(sayJoinedNext.With()).Value(found))
	}
	again := opened.Add(restSettles)
	for _, b := range f.Layout().Blocks() {
		if f.readAfter(b, again) {
			continue
		}
		if f.now.Before(again) {
			return answer(finding.Waits(sayJoinedHour.With("opened", f.clock(opened)), sayJoinedGap.With("due", f.clock(again)), again).Value(found))
		}
		return answer(missing(gapVoltage.Field, b).Value(found))
	}
	return answer(finding.Passes(sayJoinedGood.With(said...)).Value(found))
}

// restsDone lists the rests of this visit.
func (f *Facts) restsDone() []string { return f.done(bank.KindRest, "rest") }

// readBetween finds a block whose resting voltage was read between two times.
func (f *Facts) readBetween(from, to time.Time) (block string, found bool) {
	f.quietly(func() {
		for _, b := range f.Layout().Blocks() {
			if v, ok := restVoltage.Of(f, b); ok && v.At.After(from) && v.At.Before(to) {
				block, found = b, true
				return
			}
		}
	})
	return block, found
}

// readAfter reports whether a block was read again after a time: its gap, its
// resting voltage, or, for the first block of a string or group, nothing: the
// others are read against it.
func (f *Facts) readAfter(block string, at time.Time) bool {
	for _, u := range f.Layout().Units() {
		if len(u.Blocks) > 0 && u.Blocks[0] == block {
			return true
		}
	}
	for _, field := range []Quantity[unit.Volt]{gapVoltage, restVoltage} {
		if v, ok := field.Of(f, block); ok && !v.At.Before(at) {
			return true
		}
	}
	return false
}
