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

// Blocks that are to be joined need nearly equal resting voltages; strings
// that are to stand in parallel need nearly equal totals, to the same limit.
//
// A match on the flat part of the curve does not prove equal charge.
var voltageMatch = &Check{
	ID: "voltage-match", Stage: Match,
	Title:     say.Phrase{Key: "voltage-match.title", English: "Voltage match"},
	Asks:      say.Phrase{Key: "voltage-match.asks", English: "Are the resting voltages near enough to join?"},
	Formula:   "max U − min U ≤ 10 mV [V], one meter, one range",
	Limits:    []LimitOf{{"spread", finding.Practice}},
	Sources:   []*cite.Source{&cite.CommonPractice, &cite.OpenOCV},
	Fields:    []*Field{&restVoltage.Field, &restClose.Field, &totalVoltage.Field},
	Needs:     []*Check{rested, sameTemp},
	Parts:     matchParts,
	SettledBy: gapVoltageCheck,
	Eval:      evalVoltageMatch,
}

var (
	sayMatch       = say.Phrase{Key: "voltage-match.pass", English: "The readings differ by {spread}; the limit is {limit}."}
	sayNoMatch     = say.Phrase{Key: "voltage-match.fail", English: "{a} and {b} differ by {spread}; the limit is {limit}. In series they would not fill and empty together; side by side the higher would push current into the lower."}
	sayMatchUnk    = say.Phrase{Key: "voltage-match.cant-tell", English: "{a} and {b} differ by {typed}; the limit is {limit}. With this meter the true difference may be {low} to {high}."}
	sayMatchRest   = say.Phrase{Key: "voltage-match.not-rested", English: "{a} and {b} differ by {spread}, but the blocks have not rested, and rest could bring them together."}
	sayMatchEarly  = say.Phrase{Key: "voltage-match.early", English: "The voltages were read before the blocks had rested {rest}. A voltage that still creeps proves nothing."}
	sayMatchJoined = say.Phrase{Key: "voltage-match.joined", English: "The voltages were read while {link} was already closed. Joined blocks always read alike."}
	sayMatchLong   = say.Phrase{Key: "voltage-match.long-round", English: "The round took more than ten minutes or eight blocks, and the first block was not read again at its end."}
	sayOneBlock    = say.Phrase{Key: "voltage-match.one-block", English: "One block alone has nothing to match."}

	sayGapNext    = say.Phrase{Key: "voltage-match.gap", English: "Measure the gap between the posts directly, or charge each block to full once its temperature is read and allows it."}
	sayFullNext   = say.Phrase{Key: "voltage-match.full", English: "Read the temperature of each block, charge each that is warm enough to full by itself, then measure again."}
	sayOpenNext   = say.Phrase{Key: "voltage-match.open", English: "Open that link, wait one hour, and read the voltages again."}
	sayMatchAgain = say.Phrase{Key: "voltage-match.again", English: "Read the voltages again once the blocks have rested, with nothing connected in between."}
	sayCloseNext  = say.Phrase{Key: "voltage-match.close-round", English: "Read the first block again and enter it as the end of the round."}
	sayFlatNote   = say.Phrase{Key: "voltage-match.flat", English: "A match here does not prove equal charge: on this part of the curve blocks up to 40 points apart can read alike."}
	sayTotalsNote = say.Phrase{Key: "voltage-match.totals", English: "Judged on the totals of the strings."}
)

const (
	// "Within 0.01 V of each other before they are joined": read in vendors'
	// texts; common practice. The block maker's own figure wins.
	widestMatch unit.Volt = 0.010

	// Above this no rest could have caused the difference: our choice.
	surelyApart unit.Volt = 0.10

	// A run longer than this needs the first block again at its end: our choice.
	longRun       = 10 * time.Minute
	longRunBlocks = 8
)

// matchParts: each string or group by itself; all blocks where groups stand in
// series; the totals where strings stand in parallel.
func matchParts(f *Facts) ([]string, say.Line) {
	l := f.Layout()
	var parts []string
	for _, u := range l.Units() {
		if len(u.Blocks) > 1 {
			parts = append(parts, u.ID)
		}
	}
	if len(l.Units()) > 1 {
		parts = append(parts, "bank")
	}
	return parts, sayOneBlock.With()
}

func evalVoltageMatch(f *Facts, part string) []finding.Finding {
	limit, most, notes := upper(f, "voltage-match", "spread", base[unit.Volt]{widestMatch, finding.Practice, cite.CommonPractice.Line()})
	run, gap := f.matchRun(part)
	if gap != nil && len(run) < 2 {
		return one(*gap)
	}
	for _, r := range run {
		if !f.awakeAt(r) {
			return one(finding.CannotTell(sayMatchAsleep.With("part", bank.Name(r.part), "volts", typed(r.shown)), sayAsleepNext.With()).Against(limit).About(r.part))
		}
	}
	if link, joined := f.joinedDuring(run); joined {
		return one(finding.CannotTell(sayMatchJoined.With("link", bank.Name(link)), sayOpenNext.With()).Against(limit))
	}
	closing, closed := f.closing(run)
	worst := worstPair(f, run, closing)
	found := finding.Measured(worst.spread, "V", limit)
	low, high := ends(found)
	said := []any{"a", bank.Name(worst.high.part), "b", bank.Name(worst.low.part), "spread", found.Text, "limit", exact(most, "V"),
		"typed", exact(worst.spread.Value, "V"), "low", low, "high", high}
	side := measure.AtMost(worst.spread.Interval(), most)
	x := finding.Judge(side, finding.Words{
		Pass: sayMatch.With(said...), Fail: sayNoMatch.With(said...), CantTell: sayMatchUnk.With(said...),
		Mend: f.onceWarm(sayFullNext.With(), part), Settle: sayGapNext.With(),
	})
	least := f.leastRest()
	early := f.passed(rested, part) && !f.restedAt(firstRead(run), least)
	switch {
	case early && (x.Verdict() == finding.Pass || measure.AtMost(worst.spread.Interval(), surelyApart) != measure.Outside):
		x = finding.CannotTell(sayMatchEarly.With("rest", exact(least, "h")), sayMatchAgain.With())
	case x.Verdict() == finding.Fail && !f.passed(rested, part) && measure.AtMost(worst.spread.Interval(), surelyApart) != measure.Outside:
		x = finding.CannotTell(sayMatchRest.With(said...), f.nextOf(rested, part))
	case x.Verdict() == finding.Pass && !closed:
		x = finding.CannotTell(sayMatchLong.With(), sayCloseNext.With())
	}
	if gap != nil && x.Verdict() != finding.Fail { // two that are surely apart need no third
		return one(*gap)
	}
	if x.Verdict() != finding.Pass {
		x = x.About(worst.high.part, worst.low.part)
	}
	if x.Verdict() == finding.Pass && f.onFlat(run) {
		notes = append(notes, sayFlatNote.With())
	}
	if run[0].field.ID == totalVoltage.ID {
		notes = append(notes, sayTotalsNote.With())
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}
