package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Energy is what the owner bought, but few sheets promise it: without a figure
// in the sheet it is information.
var energyGiven = &Check{
	ID: "energy", Stage: Prove,
	Title:   say.Phrase{Key: "energy.title", English: "Energy"},
	Asks:    say.Phrase{Key: "energy.asks", English: "Does the bank give back the energy on its label?"},
	Formula: "E − u ≥ n·E_sheet [Wh]",
	Limits:  []LimitOf{{"energy", finding.Maker}},
	Sources: []*cite.Source{&cite.IEC62620, &cite.OurRule},
	Fields:  []*Field{&capEnergy.Field, &sheetEnergy.Field, &capFull.Field},
	Parts:   energyParts,
	Eval:    evalEnergy,
}

var (
	sayNoEnergy   = say.Phrase{Key: "energy.none", English: "No energy was counted in a capacity test; it is optional."}
	sayEnergySays = say.Phrase{Key: "energy.information", English: "It gave {found}. No sheet promises an energy, so this is information."}
	sayEnergyGood = say.Phrase{Key: "energy.pass", English: "It gave {found}; the limit is {limit}."}
	sayEnergyBad  = say.Phrase{Key: "energy.fail", English: "It gave {found}; the sheets promise {limit}."}
	sayEnergyUnk  = say.Phrase{Key: "energy.cant-tell", English: "It gave {found}, too close to the {limit} that the sheets promise, or the test did not run from a proved full charge to the cut-off."}
	sayEnergyNext = say.Phrase{Key: "energy.next", English: "Compare with the energy on the label, charge to full and repeat."}
)

// What a counter's energy is worth: 1 % of the current and 0.5 % of the
// voltage, both hard. Our choice, as for common counters.
const energyGain unit.WattHour = 0.015

func energyParts(f *Facts) ([]string, say.Line) {
	var out []string
	for _, part := range f.done(bank.KindCapacity, "capacity") {
		if f.holds(capEnergy.Field, part) {
			out = append(out, part)
		}
	}
	if len(out) == 0 {
		return nil, sayNoEnergy.With()
	}
	return out, say.Line{}
}

func evalEnergy(f *Facts, part string) []finding.Finding {
	e, ok := capEnergy.Plain(f, part)
	if !ok {
		return one(missing(capEnergy.Field, part))
	}
	r := measure.Reading[unit.WattHour]{Value: e, U: e * energyGain}
	target := f.runTarget(part)
	rated := lowest(f, sheetEnergy, target)
	if !rated.All() {
		found := finding.Measured(r, "kWh", finding.Limit{})
		return one(finding.Unneeded(sayEnergySays.With("found", found.Text)).Value(found))
	}
	b := rated.Base(f)
	limit := finding.AtLeast("energy", b.Value*unit.WattHour(len(f.BlocksOf(target))), b.Kind, b.Source).In("kWh")
	found := finding.Measured(r, "kWh", limit)
	said := []any{"found", found.Text, "limit", limit.Line()}
	x := finding.Judge(measure.AtLeast(r.Interval(), unit.WattHour(*limit.Min)), finding.Words{
		Pass: sayEnergyGood.With(said...), Fail: sayEnergyBad.With(said...), CantTell: sayEnergyUnk.With(said...), Mend: sayEnergyNext.With(),
	})
	if x.Verdict() == finding.Fail && (!capFull.Yes(f, part) || f.stoppedEarly(part, target)) {
		x = finding.CannotTell(sayEnergyUnk.With(said...), sayEnergyNext.With())
	}
	return one(x.Value(found).Against(limit))
}

// runTarget is what a capacity test discharged; the bank when left open.
func (f *Facts) runTarget(part string) string {
	if target, ok := capTarget.Of(f, part); ok && len(f.BlocksOf(target)) > 0 {
		return target
	}
	return "bank"
}
