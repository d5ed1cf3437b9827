package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// What comes out over what goes back in until full again.
//
// On one counter the gain cancels; the offset does not, it works the other way
// round on the way back. A ratio above one cannot be: something is not known.
var returnRatio = &Check{
	ID: "return-ratio", Stage: Prove,
	Title:   say.Phrase{Key: "return-ratio.title", English: "Charge out and in"},
	Asks:    say.Phrase{Key: "return-ratio.asks", English: "Does the bank give back nearly all that is put in?"},
	Formula: "r = Q_out/(Q_in − Q_heater) ≥ 0.95 [1], r ≤ 1; u = r·(off·t_out/Q_out + off·t_in/Q_in)",
	Limits:  []LimitOf{{"ratio", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&capCharge.Field, &capHours.Field, &backCharge.Field, &backHours.Field, &backHeater.Field},
	Parts:   runParts,
	Eval:    evalReturnRatio,
}

var (
	sayBackGood  = say.Phrase{Key: "return-ratio.pass", English: "Out over in is {found}; the limit is {limit}."}
	sayBackBad   = say.Phrase{Key: "return-ratio.fail", English: "Out over in is {found}; the limit is {limit}. Charge is lost on the way: heat, a load that was not counted, or a weak block."}
	sayBackUnk   = say.Phrase{Key: "return-ratio.cant-tell", English: "Out over in is {found}, too close to the limit of {limit} for this counter."}
	sayBackAbove = say.Phrase{Key: "return-ratio.above-one", English: "Out over in is {found}. More cannot come out than went in: it was not full at the end, or the counter drifts."}
	sayBackOther = say.Phrase{Key: "return-ratio.two-counters", English: "Out over in is {found}, but it was read on two counters, and their difference is not known."}
	sayBackNone  = say.Phrase{Key: "return-ratio.nothing", English: "After the heaters' part nothing is left of what was put back."}
	sayBackNext  = say.Phrase{Key: "return-ratio.next", English: "Repeat from a proved full charge with the same counter."}
)

// Our choice; blocks that were measured with care give 0.99.
const leastReturn unit.Ratio = 0.95

func evalReturnRatio(f *Facts, part string) []finding.Finding {
	out, hasOut := capCharge.Of(f, part)
	in, hasIn := backCharge.Of(f, part)
	heater, hasHeater := backHeater.Plain(f, part)
	hoursOut, knownOut := f.runHours(part, out.Value)
	seconds, knownIn := backHours.Plain(f, part)
	if x := firstMissing(need{hasOut, capCharge.Field, part}, need{hasIn, backCharge.Field, part}, need{knownOut, capHours.Field, part},
		need{knownIn, backHours.Field, part}, need{hasHeater || len(f.heated()) == 0, backHeater.Field, part}); x != nil {
		return one(*x)
	}
	charged := in.Value - heater
	if charged <= 0 || out.Value <= 0 {
		return one(finding.CannotTell(sayBackNone.With(), sayBackNext.With()))
	}
	const secondsPerHour = 3600
	offset := float64(counterOffset)
	if m, ok := f.sheetMeter(out.Meter, "A"); ok {
		offset = m.Counts * m.Step
	} else {
		f.assume(sayAssumedCounter.With("hours", rounded(unit.Second(hoursOut*secondsPerHour), "h")))
	}
	ratio := float64(out.Value / charged)
	u := ratio * (offset*hoursOut/float64(out.Value) + offset*float64(seconds)/secondsPerHour/float64(charged))
	r := measure.Reading[unit.Ratio]{Value: unit.Ratio(ratio), U: unit.Ratio(u)}
	limit, least, notes := lower(f, "return-ratio", "ratio", base[unit.Ratio]{leastReturn, finding.Practice, cite.OurRule.Line()})
	found := finding.Measured(r, "ratio", limit)
	said := []any{"found", found.Text, "limit", exact(least, "ratio")}
	var x finding.Finding
	switch {
	case ratio > 1:
		x = finding.CannotTell(sayBackAbove.With(said...), sayBackNext.With())
	case out.Meter != in.Meter:
		x = finding.CannotTell(sayBackOther.With(said...), sayBackNext.With())
	default:
		x = finding.Judge(measure.AtLeast(r.Interval(), least), finding.Words{
			Pass: sayBackGood.With(said...), Fail: sayBackBad.With(said...), CantTell: sayBackUnk.With(said...), Mend: sayBackNext.With(),
		})
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}
