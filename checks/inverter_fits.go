package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// An inverter fits when its DC window holds every voltage between its cut-off
// and the highest that the charger makes.
var inverterFits = &Check{
	ID: "inverter-fits", Stage: Before,
	Title:   say.Phrase{Key: "inverter-fits.title", English: "Fit for this bank"},
	Asks:    say.Phrase{Key: "inverter-fits.asks", English: "Does the inverter's DC window hold every voltage of this bank?"},
	Formula: "dc-min ≤ V_cut, dc-max ≥ Ns·V_max [V]",
	Limits:  []LimitOf{{"dc-window", finding.Maker}},
	Sources: []*cite.Source{&cite.CommonPractice},
	Fields:  []*Field{&inverterLowest.Field, &inverterMost.Field, &inverterCutoff.Field, &sheetCutoff.Field, &sheetVmax.Field},
	Parts: func(f *Facts) ([]string, say.Line) {
		return f.entered(bank.KindInverter, "inverter"), sayInverterNone.With()
	},
	Eval: evalInverterFits,
}

var (
	sayInverterNone   = say.Phrase{Key: "inverter-fits.none", English: "No inverter is entered."}
	sayInverterGood   = say.Phrase{Key: "inverter-fits.pass", English: "{part} takes {low} to {high}; the bank stands between {limit}."}
	sayInverterHigh   = say.Phrase{Key: "inverter-fits.high", English: "{part} takes up to {high}; while charging the bank reaches {highest}. It may switch off or break."}
	sayInverterLow    = say.Phrase{Key: "inverter-fits.low", English: "{part} takes {low} and more; its cut-off is to be {cut}. It would switch off before."}
	sayInverterChoose = say.Phrase{Key: "inverter-fits.next", English: "Choose an inverter whose DC window covers {limit}."}
	sayInverterSlip   = say.Phrase{Key: "inverter-fits.cut-off", English: "{part} takes {low} and more; its cut-off is entered as {cut}. At {least} the blocks' own protection is open already, so the cut-off is wrong before the inverter is."}
	sayInverterRead   = say.Phrase{Key: "inverter-fits.read-cut-off", English: "Read the cut-off of {part} again: {cut} is too low for this bank, whatever the inverter."}
	sayAssumedCut     = say.Phrase{Key: "assumed.inverter-cut-off", English: "The blocks' own discharge cut-off, {volts} for the bank, taken as the inverter's; none is entered."}
)

func evalInverterFits(f *Facts, part string) []finding.Finding {
	if !f.HasLayout() {
		return one(finding.Undone(sayNoLayout.With()))
	}
	low, hasLow := inverterLowest.Of(f, part)
	high, hasHigh := inverterMost.Of(f, part)
	if x := firstMissing(need{hasLow, inverterLowest.Field, part}, need{hasHigh, inverterMost.Field, part}); x != nil {
		return one(*x)
	}
	cut, ok := inverterCutoff.Plain(f, part)
	if !ok {
		sheet := highest(f, sheetCutoff, "bank")
		if !sheet.All() {
			return one(missing(inverterCutoff.Field, part))
		}
		cut = sheet.Value * unit.Volt(f.Layout().Series)
		f.assume(sayAssumedCut.With("volts", exact(cut, "V")))
	}
	_, whole := f.highestCharge()
	limit := finding.Window("dc-window", cut, whole, finding.Maker, f.makerSource(part))
	least := f.ownProtection()
	said := []any{"part", bank.Name(part), "least", exact(least, "V"), "low", typed(low), "high", typed(high), "cut", exact(cut, "V"), "highest", exact(whole, "V"), "limit", limit.Line()}
	next := sayInverterChoose.With(said...)
	switch {
	case measure.AtLeast(measure.Exact(high.Value).Interval(), whole) != measure.Inside:
		return one(finding.Fails(sayInverterHigh.With(said...), next).Value(finding.Typed(high)).Against(limit))
	case measure.AtMost(measure.Exact(low.Value).Interval(), cut) != measure.Inside && cut < least:
		return one(finding.Fails(sayInverterSlip.With(said...), sayInverterRead.With(said...)).Value(finding.Typed(low)).Against(limit))
	case measure.AtMost(measure.Exact(low.Value).Interval(), cut) != measure.Inside:
		return one(finding.Fails(sayInverterLow.With(said...), next).Value(finding.Typed(low)).Against(limit))
	}
	return one(finding.Passes(sayInverterGood.With(said...)).Against(limit))
}

// ownProtection is the voltage of the bank at which the blocks' own protection
// is open already: below it no cut-off is meant.
func (f *Facts) ownProtection() (v unit.Volt) {
	series := unit.Volt(f.Layout().Series)
	v = cutoffNever * series
	f.quietly(func() {
		if s := highest(f, sheetLowest, "bank"); s.All() {
			v = series * cellsInBlock * s.Value
		}
	})
	return v
}
