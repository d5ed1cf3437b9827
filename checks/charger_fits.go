package checks

import (
	"math"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A charger fits when its absorption can be set to a voltage that fills these
// blocks and does not harm them, and when its current is not too much for the
// block that takes the largest share.
var chargerFits = &Check{
	ID: "charger-fits", Stage: Before,
	Title:   say.Phrase{Key: "charger-fits.title", English: "Fit for this bank"},
	Asks:    say.Phrase{Key: "charger-fits.asks", English: "Can this charger be set to the bank's voltage, and does no block get too much current?"},
	Formula: "[V_min, V_max of the charger] meets [Ns·14.0 V, Ns·V_max] [V]; I·s_max ≤ I_charge of a block [A]",
	Limits:  []LimitOf{{"current", finding.Maker}, {"window", finding.Maker}, {"window", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.CircuitTheory},
	Fields:  []*Field{&chargerLowest.Field, &chargerHighest.Field, &chargerRating.Field, &setCurrent.Field, &sheetVmax.Field, &sheetChargeMax.Field},
	Parts:   chargerParts,
	Eval:    evalChargerFits,
}

var (
	sayChargerGood   = say.Phrase{Key: "charger-fits.pass", English: "{part} can be set within {window}, and a block gets {found} of its {amps}; it may get {limit}."}
	sayChargerVolts  = say.Phrase{Key: "charger-fits.volts", English: "{part} can be set from {low} to {high}; this bank needs {window}. Lower leaves it half full, higher opens its protection."}
	sayChargerAmps   = say.Phrase{Key: "charger-fits.amps", English: "Of the {amps} of {part} a block gets {found}; it may get {limit}."}
	sayChargerUnk    = say.Phrase{Key: "charger-fits.cant-tell", English: "Of the {amps} of {part} a block may get {found}, depending on resistances that were not measured; it may get {limit}."}
	sayChargerSheet  = say.Phrase{Key: "charger-fits.no-sheet", English: "{part} gives up to {amps}, but the highest charge current of a block is not entered."}
	sayChargerChoose = say.Phrase{Key: "charger-fits.next", English: "Choose a charger that can be set within {window}."}
	sayChargerLower  = say.Phrase{Key: "charger-fits.lower", English: "Set its current to {most} at most, or choose a smaller charger."}
)

func evalChargerFits(f *Facts, part string) []finding.Finding {
	if !f.HasLayout() {
		return one(finding.Undone(sayNoLayout.With()))
	}
	low, hasLow := chargerLowest.Of(f, part)
	high, hasHigh := chargerHighest.Of(f, part)
	rated, hasAmps := chargerRating.Of(f, part)
	if x := firstMissing(need{hasLow, chargerLowest.Field, part}, need{hasHigh, chargerHighest.Field, part}, need{hasAmps, chargerRating.Field, part}); x != nil {
		return one(*x)
	}
	vmax, most := f.highestCharge()
	least := leastAbsorption * unit.Volt(f.Layout().Series)
	window := finding.Window("window", least, most, vmax.Kind, vmax.Source)
	said := []any{"part", bank.Name(part), "window", window.Line(), "low", typed(low), "high", typed(high)}
	lowFits := measure.AtMost(measure.Exact(low.Value).Interval(), most) == measure.Inside
	highFits := measure.AtLeast(measure.Exact(high.Value).Interval(), least) == measure.Inside
	if !lowFits || !highFits || low.Value > high.Value {
		return one(finding.Fails(sayChargerVolts.With(said...), sayChargerChoose.With(said...)).Against(window))
	}
	amps := rated
	if set, ok := setCurrent.Of(f, part); ok && set.Value < rated.Value {
		amps = set
	}
	said = append(said, "amps", typed(amps))
	takes := lowest(f, sheetChargeMax, "bank")
	if !takes.All() {
		return one(finding.CannotTell(sayChargerSheet.With(said...), takes.Enter()).Against(window))
	}
	share, _, gap := f.largestShare()
	if gap != nil {
		return one(*gap)
	}
	b := takes.Base(f)
	limit := finding.AtMost("current", b.Value, b.Kind, b.Source)
	gets := measure.Interval[unit.Ampere]{Low: amps.Value * unit.Ampere(share.Low), High: amps.Value * unit.Ampere(share.High)}
	found := finding.Predicted(gets, "A", limit)
	said = append(said, "found", found.Text, "limit", exact(b.Value, "A"), "most", exact(unit.Ampere(math.Floor(float64(b.Value)/float64(share.High))), "A"))
	return one(finding.Judge(measure.AtMost(gets, b.Value), finding.Words{
		Pass: sayChargerGood.With(said...), Fail: sayChargerAmps.With(said...), CantTell: sayChargerUnk.With(said...), Mend: sayChargerLower.With(said...),
	}).Value(found).Against(limit))
}
