package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A meter that cannot judge is found before the work begins, not after it: its
// range reaches over the highest voltage, its date is good, and its uncertainty
// is at most half of what is to be judged with it.
var metersFit = &Check{
	ID: "meters-fit", Stage: Before,
	Title:   say.Phrase{Key: "meters-fit.title", English: "Meters for this job"},
	Asks:    say.Phrase{Key: "meters-fit.asks", English: "Can the meters of this job judge what they are to read?"},
	Formula: "top of range ≥ 1.1·V_hi [V]; u ≤ limit/2, or window/4; U_rated ≥ V_hi; due ≥ today",
	Limits:  []LimitOf{{"range", finding.Practice}, {"rated-voltage", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.OurRule, &cite.GUM},
	Fields: []*Field{&useVolts.Field, &useMilli.Field, &useAmperes.Field, &useSmall.Field, &useCelsius.Field, &meterPercent.Field, &meterCounts.Field,
		&meterStep.Field, &meterRange.Field, &ratedVoltage.Field, &meterDue.Field},
	Parts: onBank,
	Eval:  evalMetersFit,
}

var (
	sayMetersGood  = say.Phrase{Key: "meters-fit.pass", English: "The meters of this job reach over {highest}, are in date, and are fine enough for what they are to judge."}
	sayMeterLow    = say.Phrase{Key: "meters-fit.range", English: "The range of {meter} ends at {top}; the bank reaches {highest}, and a tenth more is asked for."}
	sayMeterRated  = say.Phrase{Key: "meters-fit.rated", English: "The inputs of {meter} are rated {rated}; the bank reaches {highest}."}
	sayMeterCoarse = say.Phrase{Key: "meters-fit.coarse", English: "{meter} is uncertain by {u} where {limit} is the limit of “{check}”; at most half of the limit is asked for."}
	sayMeterWindow = say.Phrase{Key: "meters-fit.window", English: "{meter} is uncertain by {u} in the window of “{check}”; at most {limit} is asked for."}
	sayMeterLate   = say.Phrase{Key: "meters-fit.late", English: "The calibration of {meter} ran out on {due}; its uncertainty counts double."}
	sayMeterDate   = say.Phrase{Key: "meters-fit.no-date", English: "When {meter} is due for calibration is not entered."}
	sayMeterSheet  = say.Phrase{Key: "meters-fit.no-sheet", English: "What {meter} measures, its accuracy or its range is not entered, so nothing can be said before work begins."}
	sayMeterHigher = say.Phrase{Key: "meters-fit.higher", English: "Enter a higher range of this meter as well: on its sheet, “Same meter, another range”. Or bring one that reaches {least}."}
	sayMeterBring  = say.Phrase{Key: "meters-fit.next", English: "Bring a meter that meets the line shown."}
	sayMeterGap    = say.Phrase{Key: "meters-fit.gap", English: "Bring a meter that shows 1 mV, or plan to read the gap between the posts in millivolts."}
	sayMeterRating = say.Phrase{Key: "meters-fit.as-range", English: "The inputs of {meter} are taken to bear the top of its range; no rating is entered."}
)

const (
	// A range must reach a tenth over the highest value, and the uncertainty may
	// be half of a limit: our choice.
	overRange    unit.Ratio = 1.1
	halfOf       unit.Ratio = 0.5
	usualResting unit.Volt  = 13.3 // where a match is read
)

// fitting collects what is wrong with the meters, worst first.
type fitting struct {
	f     *Facts
	whole unit.Volt
	fail  *finding.Finding
	unk   *finding.Finding
}

func (t *fitting) fails(reason, next say.Line, about string, l finding.Limit) {
	if t.fail == nil {
		x := finding.Fails(reason, next).About(about).Against(l)
		t.fail = &x
	}
}

func (t *fitting) unknown(reason, next say.Line, about string) {
	if t.unk == nil {
		x := finding.CannotTell(reason, next).About(about).From(cite.OurRule.Line())
		t.unk = &x
	}
}

func evalMetersFit(f *Facts, _ string) []finding.Finding {
	if _, ok := f.entry(layoutField, "bank"); !ok || !f.HasLayout() {
		return one(finding.Undone(sayNoLayout.With()))
	}
	id, ok := useVolts.Of(f, "bank")
	if !ok {
		return one(missing(useVolts.Field, "bank"))
	}
	_, whole := f.highestCharge()
	t := &fitting{f: f, whole: whole}
	t.volts(id)
	for _, role := range []struct {
		use      TextField
		quantity unit.Symbol
	}{{useMilli, "V"}, {useAmperes, "A"}, {useSmall, "A"}, {useCelsius, "C"}} {
		id, ok := role.use.Of(f, "bank")
		if !ok {
			continue
		}
		m, known := t.sheet(id, role.quantity)
		if known && role.use.ID == useAmperes.ID {
			t.amperes(m)
		}
	}
	limit := finding.AtLeast("range", whole*unit.Volt(overRange), finding.Practice, cite.OurRule.Line())
	switch {
	case t.fail != nil:
		return one(*t.fail)
	case t.unk != nil:
		return one(*t.unk)
	}
	return one(finding.Passes(sayMetersGood.With("highest", exact(whole, "V"))).Against(limit))
}

// sheet reads a meter and its date; what is missing is noted.
func (t *fitting) sheet(id string, quantity unit.Symbol) (measure.Meter, bool) {
	m, ok := t.f.sheetMeter(id, quantity)
	if kind, is := bank.PartKind(id); !ok || !is || kind != bank.KindMeter {
		t.unknown(sayMeterSheet.With("meter", bank.Name(id)), sayMeterBring.With(), "bank")
		return m, false
	}
	due, dated := meterDue.Of(t.f, id)
	switch {
	case !dated:
		t.unknown(sayMeterDate.With("meter", bank.Name(id)), enter(meterDue.Field, id), id)
	case past(due, t.f.lastUse(id)):
		t.unknown(sayMeterLate.With("meter", bank.Name(id), "due", due.Format("2006-01-02")), sayMeterBring.With(), id)
	}
	return m, true
}

// lastUse is when the last reading of this visit was taken with a meter; now,
// while there is none. What ran out after the work was done harmed nothing.
func (f *Facts) lastUse(meter string) time.Time {
	var last time.Time
	for _, k := range f.state.KeysFrom(f.visit, "") {
		e, standing := f.state.Get(k)
		if standing == job.One && e.Value.Meter == meter && entryTime(e).After(last) {
			last = entryTime(e)
		}
	}
	if last.IsZero() {
		return f.now
	}
	return last
}

// volts judges the voltmeter: range, rating, and what it is to read.
func (t *fitting) volts(id string) {
	if _, ok := t.sheet(id, "V"); !ok {
		return
	}
	least := t.whole * unit.Volt(overRange)
	said := []any{"meter", bank.Name(id), "highest", exact(t.whole, "V"), "least", rounded(least, "V")}
	ranges := t.f.RangesOf(id, "V")
	highest := ranges[len(ranges)-1]
	top, rated := meterRange.Of(t.f, highest.ID)
	switch {
	case highest.Top == 0 || !rated:
		t.unknown(sayMeterSheet.With(said...), enter(meterRange.Field, highest.ID), id)
	case measure.AtLeast(measure.Exact(unit.Volt(highest.Top)).Interval(), least) != measure.Inside:
		t.fails(sayMeterLow.With(append(said, "top", top)...), sayMeterHigher.With(said...), id, finding.AtLeast("range", least, finding.Practice, cite.OurRule.Line()))
	}
	if v, ok := ratedVoltage.Of(t.f, id); !ok {
		t.f.assume(sayMeterRating.With(said...))
	} else if measure.AtLeast(measure.Exact(v.Value).Interval(), t.whole) != measure.Inside {
		t.fails(sayMeterRated.With(append(said, "rated", typed(v))...), sayMeterBring.With(), id, finding.AtLeast("rated-voltage", t.whole, finding.Practice, cite.CommonPractice.Line()))
	}
	resting, charging := lowestOver(ranges, usualResting), lowestOver(ranges, t.whole)
	for _, used := range []measure.Meter{resting, charging} {
		if used.Step == 0 {
			t.unknown(sayMeterSheet.With(said...), enter(meterStep.Field, used.ID), used.ID)
			return
		}
	}
	t.match(id, resting)
	t.absorption(id, charging)
}

// lowestOver is the lowest range that reaches a voltage, the highest where none
// does.
func lowestOver(ranges []measure.Meter, v unit.Volt) measure.Meter {
	for _, m := range ranges {
		if shownUpTo(m) >= float64(v) {
			return m
		}
	}
	return ranges[len(ranges)-1]
}

// match: the difference of two blocks, at the limit, with this meter; or the
// gap in millivolts.
func (t *fitting) match(id string, m measure.Meter) {
	if len(t.f.Layout().Blocks()) < 2 {
		return
	}
	a := measure.Shown[unit.Volt]{Value: usualResting, Step: unit.Volt(m.Step)}
	b := a
	b.Value += widestMatch
	u := measure.Difference(b, a, m, m, 0).U
	if u <= widestMatch*unit.Volt(halfOf) || t.gapPlanned() {
		return
	}
	t.unknown(sayMeterCoarse.With("meter", bank.Name(id), "u", roundedUp(u, "mV"), "limit", exact(widestMatch, "mV"), "check", voltageMatch.Title), sayMeterGap.With(), id)
}

// gapPlanned reports whether the millivolt meter of this job can judge a gap.
func (t *fitting) gapPlanned() bool {
	id, ok := useMilli.Of(t.f, "bank")
	m, known := t.f.sheetMeter(id, "V")
	if !ok || !known || m.Step == 0 {
		return false
	}
	u := measure.Absolute(measure.Shown[unit.Volt]{Value: widestMatch, Step: unit.Volt(m.Step)}, m).U
	return u <= widestMatch*unit.Volt(halfOf)
}

// absorption: the window between 14.0 V and the highest charge voltage, for
// all blocks in series.
func (t *fitting) absorption(id string, m measure.Meter) {
	most := t.whole
	least := leastAbsorption * unit.Volt(t.f.Layout().Series)
	allowed := (most - least) / 2 * unit.Volt(halfOf)
	u := measure.Absolute(measure.Shown[unit.Volt]{Value: (most + least) / 2, Step: unit.Volt(m.Step)}, m).U
	if most > least && u > allowed {
		t.unknown(sayMeterWindow.With("meter", bank.Name(id), "u", roundedUp(u, "V"), "limit", rounded(allowed, "V"), "check", chargerSettings.Title), sayMeterBring.With(), id)
	}
}

// amperes: the tail current that means full.
func (t *fitting) amperes(m measure.Meter) {
	var tail base[unit.Ampere]
	var gap *finding.Finding
	t.f.quietly(func() { tail, gap = t.f.tailOf(t.f.Layout().Blocks()[0]) })
	if gap != nil || m.Step == 0 {
		return // said by the checks that read it
	}
	u := measure.Absolute(measure.Shown[unit.Ampere]{Value: tail.Value, Step: unit.Ampere(m.Step)}, m).U
	if u > tail.Value*unit.Ampere(halfOf) {
		t.unknown(sayMeterCoarse.With("meter", bank.Name(m.ID), "u", roundedUp(u, "A"), "limit", exact(tail.Value, "A"), "check", chargedFull.Title), sayMeterBring.With(), m.ID)
	}
}
