package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// After the cut-off a twentieth of the charge is left, and the idle current
// eats it.
var idleAfterCutoff = &Check{
	ID: "idle-after-cutoff", Stage: Prove,
	Title:   say.Phrase{Key: "idle-after-cutoff.title", English: "Idle after the cut-off"},
	Asks:    say.Phrase{Key: "idle-after-cutoff.asks", English: "How long does the bank last once the inverter has switched off?"},
	Formula: "days = 0.05·C/(24·I) ≥ 30 [d]; fail below 7",
	Limits:  []LimitOf{{"days", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&idleIsolator.Field, &idleAmps.Field, &idleSource.Field},
	Parts:   onBank,
	Eval:    evalIdle,
}

var (
	sayIdleOff  = say.Phrase{Key: "idle-after-cutoff.isolator", English: "An isolator opens at the cut-off."}
	sayIdleLong = say.Phrase{Key: "idle-after-cutoff.pass", English: "After the cut-off the rest lasts {found}; asked are {limit}."}
	sayIdleBad  = say.Phrase{Key: "idle-after-cutoff.fail", English: "After the cut-off the rest lasts {found}; then the protections open, and below {floor} nobody comes in time."}
	sayIdleUnk  = say.Phrase{Key: "idle-after-cutoff.cant-tell", English: "After the cut-off the rest lasts {found}; asked are {limit}."}
	sayIdleSun  = say.Phrase{Key: "idle-after-cutoff.source", English: "After the cut-off the rest lasts {found}; a source charges the bank by itself, as long as it works."}
	sayIdleNext = say.Phrase{Key: "idle-after-cutoff.next", English: "Fit an isolator that opens at the cut-off."}
	sayDays     = say.Phrase{Key: "figure.days", English: "{low} to {high} days"}
	sayDaysOne  = say.Phrase{Key: "figure.days-limit", English: "{days} days"}
)

const (
	// What is left between the cut-off and the protection, and how long it
	// shall last: our choice.
	leftAtCutoff         unit.Ratio = 0.05
	idleGood, idleFailed unit.Count = 30, 7

	hoursInDay = 24
)

func evalIdle(f *Facts, part string) []finding.Finding {
	if idleIsolator.Yes(f, part) {
		return one(finding.Unneeded(sayIdleOff.With()))
	}
	amps, ok := idleAmps.Read(f, part)
	if !ok {
		return one(missing(idleAmps.Field, part))
	}
	amps = size(amps)
	rated, silent := f.ratedCharge(part)
	if silent.Silent != "" {
		return one(silent.Missing())
	}
	days := func(i unit.Ampere) unit.Count {
		return unit.Count(float64(rated) * float64(leftAtCutoff) / (hoursInDay * max(float64(i), 1e-6)))
	}
	span := measure.Interval[unit.Count]{Low: days(amps.Value + amps.U), High: days(max(0, amps.Value-amps.U))}
	limit := finding.AtLeast("days", idleGood, finding.Practice, cite.OurRule.Line())
	found := inDays(span, limit)
	said := []any{"found", found.Text, "limit", sayDaysOne.With("days", exact(idleGood, "1")), "floor", sayDaysOne.With("days", exact(idleFailed, "1"))}
	automatic := idleSource.Yes(f, part)
	var x finding.Finding
	switch {
	case measure.AtLeast(span, idleGood) == measure.Inside:
		x = finding.Passes(sayIdleLong.With(said...))
	case measure.AtLeast(span, idleFailed) == measure.Outside && automatic:
		x = finding.CannotTell(sayIdleSun.With(said...), sayIdleNext.With())
	case measure.AtLeast(span, idleFailed) == measure.Outside:
		x = finding.Fails(sayIdleBad.With(said...), sayIdleNext.With())
	default:
		x = finding.CannotTell(sayIdleUnk.With(said...), sayIdleNext.With())
	}
	return one(x.Value(found).Against(limit))
}

// inDays says a count of days, no more of them than a record can hold.
func inDays(span measure.Interval[unit.Count], limit finding.Limit) finding.Found {
	const manyDays unit.Count = 9999
	said := measure.Interval[unit.Count]{Low: min(span.Low, manyDays), High: min(span.High, manyDays)}
	found := finding.Predicted(said, "1", limit)
	found.Text = sayDays.With("low", lowEnd(said.Low, "1"), "high", roundedUp(said.High, "1"))
	return found
}
