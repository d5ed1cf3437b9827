package checks

import (
	"time"

	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/thermal"
	"lugmark/core/unit"
)

// How long a cold bank heats before it takes charge.
//
// What nobody measures makes a wide band: from 0.3 of the nominal time, which
// is common practice, to the worst corner. Ten minutes of readings narrow it.
var warmUp = &Check{
	ID: "warm-up", Stage: FirstCharge,
	Title:   say.Phrase{Key: "warm-up.title", English: "Warming up"},
	Asks:    say.Phrase{Key: "warm-up.asks", English: "Will the heaters warm the bank in the time planned?"},
	Formula: "m·c·dT/dt = P − k·(T − T_air) [W]; t_hi ≤ t_planned [s]; t_lo = 0.3·t_nominal",
	Limits:  []LimitOf{{"time", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.OurRule},
	Fields:  []*Field{&sheetHeated.Field, &sheetHeaterAmps.Field, &sheetRelease.Field, &sheetMass.Field, &chargeTemp.Field, &airNow.Field, &warmUpPlan.Field, &sampleTemp.Field},
	Parts:   onHeated,
	Eval:    evalWarmUp,
}

var (
	sayWarmWithin = say.Phrase{Key: "warm-up.pass", English: "From {from} to {to} in air of {air} takes {found}."}
	sayWarmNever  = say.Phrase{Key: "warm-up.fail", English: "From {from} in air of {air} these heaters never reach {to}."}
	sayWarmMaybe  = say.Phrase{Key: "warm-up.cant-tell", English: "From {from} in air of {air} these heaters may never reach {to}: it depends on what the case loses."}
	sayWarmLate   = say.Phrase{Key: "warm-up.late", English: "From {from} to {to} in air of {air} takes {found}; {limit} are planned."}
	sayWarmStuck  = say.Phrase{Key: "warm-up.no-slope", English: "The temperature has not risen in the last ten minutes."}
	sayWarmNot    = say.Phrase{Key: "warm-up.warm", English: "The coldest block is at {from}; above {to} nothing needs to be heated."}
	sayWarmHelp   = say.Phrase{Key: "warm-up.next", English: "Insulate the bank or add heat; it will not warm as planned."}
	sayWarmWait   = say.Phrase{Key: "warm-up.wait", English: "Write the temperature down again after ten minutes of heating; the slope tells."}
)

const (
	// A heater of so many amperes takes this voltage: the charge voltage of a
	// block on its way up.
	heaterVolts unit.Volt = 13.6

	// The slope is taken over at least so long.
	slopeOver = 10 * time.Minute
)

func evalWarmUp(f *Facts, part string) []finding.Finding {
	target := f.release()
	slope, now, at, measured := f.warmingSlope()
	if ws := f.chargeTemps(part); !measured || ws.lack == nil && coldest(ws.all).at.After(at) {
		if ws.lack != nil {
			return one(*ws.lack)
		}
		now, measured = coldest(ws.all).r, false // a list of yesterday says nothing of this morning
	}
	from := now.Value
	said := []any{"from", finding.Measured(now, "C", finding.Limit{}).Text, "to", exact(target, "C")}
	if measure.AtLeast(now.Interval(), target) == measure.Inside {
		return one(finding.Unneeded(sayWarmNot.With(said...)))
	}
	air, hasAir := airNow.Plain(f, part)
	if !hasAir {
		return one(missing(airNow.Field, part))
	}
	said = append(said, "air", exact(air, "C"))
	if measured {
		span, rises := thermal.FromSlope(from, target, slope)
		if !rises {
			return one(finding.CannotTell(sayWarmStuck.With(), sayWarmHelp.With()))
		}
		return one(f.judgeWarmUp(span, said))
	}
	mass, _, gap := ofHeated(f, sheetMass, func(a, b unit.Kilogram) bool { return a > b })
	if gap != nil {
		return one(*gap)
	}
	amps, _, gap := ofHeated(f, sheetHeaterAmps, func(a, b unit.Ampere) bool { return a < b })
	if gap != nil {
		return one(*gap)
	}
	cast, ok := thermal.Foresee(mass, unit.Watt(float64(amps)*float64(heaterVolts)), from, air, target)
	switch {
	case !ok:
		return one(missing(sheetMass.Field, "sheet1"))
	case !cast.Ever:
		return one(finding.Fails(sayWarmNever.With(said...), sayWarmHelp.With()).From(cite.OurRule.Line()))
	case !cast.Always:
		return one(finding.CannotTell(sayWarmMaybe.With(said...), sayWarmWait.With()).From(cite.OurRule.Line()))
	}
	return one(f.judgeWarmUp(cast.Span, said))
}

// judgeWarmUp holds a forecast against the time planned; without a plan a time
// that ends is enough.
func (f *Facts) judgeWarmUp(span measure.Interval[unit.Second], said []any) finding.Finding {
	found := finding.Predicted(span, "min", finding.Limit{})
	said = append(said, "found", found.Text)
	plan, has := warmUpPlan.Plain(f, "bank")
	if !has {
		return finding.Passes(sayWarmWithin.With(said...)).Value(found).From(cite.OurRule.Line())
	}
	limit := finding.AtMost("time", plan, finding.Practice, cite.OurRule.Line()).In("min")
	said = append(said, "limit", exact(plan, "min"))
	return finding.Judge(measure.AtMost(span, plan), finding.Words{
		Pass: sayWarmWithin.With(said...), Fail: sayWarmLate.With(said...), CantTell: sayWarmLate.With(said...),
		Mend: sayWarmHelp.With(), Settle: sayWarmWait.With(),
	}).Value(found).Against(limit)
}

// warmingSlope is how fast the coldest block warms [K/s], from the last line of
// the charge list and one at least ten minutes before it; at is when that line
// was written.
func (f *Facts) warmingSlope() (slope float64, now measure.Reading[unit.Celsius], at time.Time, ok bool) {
	var warm []sampled
	for _, s := range f.samples() {
		if s.hasTemp {
			warm = append(warm, s)
		}
	}
	for i := len(warm) - 2; i >= 0; i-- {
		last := warm[len(warm)-1]
		if d := last.at.Sub(warm[i].at); d >= slopeOver {
			return float64(last.temp.Value-warm[i].temp.Value) / d.Seconds(), last.temp, last.at, true
		}
	}
	return 0, now, at, false
}
