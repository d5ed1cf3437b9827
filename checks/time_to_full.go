package checks

import (
	"math"

	"lugmark/core/cell"
	"lugmark/core/cite"
	"lugmark/core/figure"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// When somebody must come back, at both ends of what the charge level may be.
// Information: a time is no verdict.
var timeToFull = &Check{
	ID: "time-to-full", Stage: FirstCharge,
	Title:   say.Phrase{Key: "time-to-full.title", English: "Time to full"},
	Asks:    say.Phrase{Key: "time-to-full.asks", English: "How long will this charge take?"},
	Formula: "t = (1 − z)·C/I + τ·ln(I/I_tail) [s], at both ends of z",
	Sources: []*cite.Source{&cite.OpenOCV, &cite.OurRule},
	Fields:  []*Field{&plannedCharge.Field, &restVoltage.Field, &tailSeconds.Field},
	Parts:   onBank,
	Eval:    evalTimeToFull,
}

var (
	sayFullIn   = say.Phrase{Key: "time-to-full.band", English: "For your plans only: {found} at {amps}, from a charge level of {low} to {high}. Come back then and read volts and amperes."}
	sayFullBulk = say.Phrase{Key: "time-to-full.bulk", English: "For your plans only: {found} at {amps}, from a charge level of {low} to {high}, and then the time in which the current falls. Come back then and read volts and amperes."}
	sayFullDone = say.Phrase{Key: "time-to-full.done", English: "The first charge is over."}
	sayFullVoid = say.Phrase{Key: "time-to-full.no-level", English: "For your plans only, and no resting voltage tells the charge level."}
)

func evalTimeToFull(f *Facts, part string) []finding.Finding {
	if f.chargeEnded() {
		return one(finding.Unneeded(sayFullDone.With()))
	}
	planned, ok := plannedCharge.Of(f, part)
	if !ok || planned.Value <= 0 {
		return one(missing(plannedCharge.Field, part))
	}
	rated, silent := f.ratedCharge(part)
	if silent.Silent != "" {
		return one(silent.Missing())
	}
	level, ok := f.restLevel(part)
	if !ok {
		return one(finding.Unneeded(sayFullVoid.With()))
	}
	bulk := func(z unit.Percent) float64 {
		const secondsPerHour = 3600
		return (1 - float64(z)/100) * float64(rated) / float64(planned.Value) * secondsPerHour
	}
	tau, hasTau := tailSeconds.Plain(f, part)
	var falls float64
	if tail := tailRate * unit.Ratio(rated); hasTau && float64(planned.Value) > float64(tail) {
		falls = float64(tau) * math.Log(float64(planned.Value)/float64(tail))
	}
	span := measure.Interval[unit.Second]{Low: unit.Second(bulk(level.High) + falls), High: unit.Second(bulk(level.Low) + falls)}
	found := finding.Predicted(span, "h", finding.Limit{})
	says := sayFullBulk
	if hasTau {
		says = sayFullIn
	}
	return one(finding.Unneeded(says.With("found", found.Text, "amps", typed(planned),
		"low", lowEnd(level.Low, "%"), "high", roundedUp(level.High, "%"))).Value(found).From(cite.OpenOCV.Line()))
}

// restLevel is what the charge level of the blocks of a part may be, from the
// lowest end of any to the highest end of any.
func (f *Facts) restLevel(part string) (out measure.Interval[unit.Percent], ok bool) {
	for i, b := range f.BlocksOf(part) {
		v, has := restVoltage.Read(f, b)
		l, known := cell.Level(v)
		if !has || !known {
			return out, false
		}
		if i == 0 {
			out = l
		}
		out.Low, out.High, ok = min(out.Low, l.Low), max(out.High, l.High), true
	}
	return out, ok
}

// lowEnd says a computed figure with three digits, never more than it is.
func lowEnd[Q unit.Quantity](v Q, show unit.Symbol) say.Figure {
	down, _ := figure.Range(float64(v), float64(v), show, 3)
	return down
}
