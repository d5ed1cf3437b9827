package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cell"
	"lugmark/core/cite"
	"lugmark/core/figure"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// How hard a block may be charged depends on its temperature.
//
// What flows is the larger of what is planned and what all chargers together are set
// to: a charger does as it is set, whatever the plan says.
var chargeRate = &Check{
	ID: "charge-rate", Stage: FirstCharge,
	Title:   say.Phrase{Key: "charge-rate.title", English: "Charge current"},
	Asks:    say.Phrase{Key: "charge-rate.asks", English: "Is the planned current within what the blocks may take at this temperature?"},
	Formula: "I_block = max(I_planned, ΣI_set)·s [A] ≤ rate(T)·C/h; rate: T ≤ 0 °C 0; to 10 °C 0.1; to 15 °C 0.2; to 45 °C 0.5; to 50 °C 0.2; to 55 °C 0.1; above 0",
	Limits:  []LimitOf{{"current", finding.Maker}, {"current", finding.Practice}},
	Sources: []*cite.Source{&cite.ChargeByTemperature, &cite.CircuitTheory},
	Fields:  []*Field{&plannedCharge.Field, &setCurrent.Field, &chargeTemp.Field, &sensorKind.Field, &sheetCapacity.Field, &sheetChargeMax.Field},
	Parts:   onBank,
	Eval:    evalChargeRate,
}

var (
	sayRateKept = say.Phrase{Key: "charge-rate.pass", English: "{planned} in all puts {amps} into the block that takes most; at {low} to {high} the limit is {limit}."}
	sayRateOver = say.Phrase{Key: "charge-rate.fail", English: "{planned} in all puts {amps} into {part}; at {low} to {high} the limit is {limit}. A faster charge plates metal in cold cells and ages warm ones."}
	sayRateUnk  = say.Phrase{Key: "charge-rate.cant-tell", English: "{planned} in all puts {amps} into {part}; at {low} to {high} the limit may be as low as {limit}."}
	sayRateZero = say.Phrase{Key: "charge-rate.zero", English: "A charge current of {planned} is no plan."}

	sayRateLower  = say.Phrase{Key: "charge-rate.lower", English: "Lower the charge current to {amps} in all, every charger counted."}
	sayRateWarm   = say.Phrase{Key: "charge-rate.warm", English: "Wait until every block is warm enough, then read the temperatures again."}
	sayRateSet    = say.Phrase{Key: "charge-rate.set", English: "{planned} is planned, but the chargers are set to {set} together. What they are set to is judged."}
	sayRateShares = say.Phrase{Key: "charge-rate.share", English: "The largest share of one block is taken as {share} of the bank's current."}
)

func evalChargeRate(f *Facts, part string) []finding.Finding {
	planned, ok := plannedCharge.Of(f, part)
	if !ok {
		return one(missing(plannedCharge.Field, part))
	}
	if planned.Value <= 0 {
		return one(finding.CannotTell(sayRateZero.With("planned", typed(planned)), enter(plannedCharge.Field, part)))
	}
	ws := f.chargeTemps(part)
	if ws.lack != nil {
		return one(*ws.lack)
	}
	strict, loose, gap := f.rateLimits(part, ws.all)
	if gap != nil {
		return one(*gap)
	}
	target, _ := f.charged()
	share, block, gap := f.shareOf(target)
	if gap != nil {
		return one(*gap)
	}
	whole, flows := planned.Value, typed(planned)
	set := f.chargersSet()
	if set > whole {
		whole, flows = set, rounded(set, "A")
	}
	limit, most, notes := upper(f, "charge-rate", "current", strict)
	_, atBest, _ := upper(f, "charge-rate", "current", loose)
	amps := measure.Interval[unit.Ampere]{Low: whole * unit.Ampere(share.Low), High: whole * unit.Ampere(share.High)}
	found := finding.Predicted(amps, "A", limit)
	c, h := coldest(ws.all), hottest(ws.all)
	said := []any{"planned", flows, "amps", found.Text, "part", bank.Name(block), "limit", exact(most, "A"),
		"low", exact(c.r.Value-c.r.U, "C"), "high", exact(h.r.Value+h.r.U, "C")}
	next := sayRateWarm.With()
	if most > 0 {
		all := float64(most) / float64(share.High)
		down, _ := figure.Range(all, all, "A", 3)
		next = sayRateLower.With("amps", down)
	}
	x := finding.Passes(sayRateKept.With(said...))
	switch {
	case measure.AtMost(amps, atBest) == measure.Outside:
		x = finding.Fails(sayRateOver.With(said...), next).About(block)
	case most <= 0 || measure.AtMost(amps, most) != measure.Inside:
		x = finding.CannotTell(sayRateUnk.With(said...), next).About(block)
	}
	if set > planned.Value {
		notes = append(notes, sayRateSet.With("planned", typed(planned), "set", rounded(set, "A")))
	}
	if share.High < 1 {
		notes = append(notes, sayRateShares.With("share", rounded(share.High, "ratio")))
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}

// rateLimits gives the highest charge current of one block: as strict as the
// temperatures may make it, and as loose. The maker's figure replaces the
// table where the table allows its full rate; it never lifts what the table
// allows in the cold or in the heat, for the sheet's one figure has no
// temperature beside it.
func (f *Facts) rateLimits(part string, list []warmth) (strict, loose base[unit.Ampere], gap *finding.Finding) {
	rated := f.capacity(part)
	if !rated.All() {
		x := rated.Missing()
		return strict, loose, &x
	}
	maker := lowest(f, sheetChargeMax, part)
	limit := func(rate unit.Ratio) base[unit.Ampere] {
		table := base[unit.Ampere]{unit.Ampere(float64(rated.Value) * float64(rate)), finding.Practice, cite.ChargeByTemperature.Line()}
		if maker.Any() && (maker.Value < table.Value || maker.All() && rate == cell.FullRate) {
			return maker.Base(f)
		}
		return table
	}
	low, high := coldest(list), hottest(list)
	rate, ok := cell.ChargeRate(low.r.Value-low.r.U, high.r.Value+high.r.U)
	if !ok {
		x := missing(chargeTemp.Field, low.block)
		return strict, loose, &x
	}
	return limit(rate), limit(loosestRate(list)), nil
}

// loosestRate is the highest rate that the temperatures leave possible.
func loosestRate(list []warmth) unit.Ratio {
	const mild unit.Celsius = 20 // neither cold nor hot: the full rate
	cold, hot := list[0].r.Value+list[0].r.U, list[0].r.Value-list[0].r.U
	for _, w := range list {
		cold, hot = min(cold, w.r.Value+w.r.U), max(hot, w.r.Value-w.r.U)
	}
	byCold, _ := cell.ChargeRate(min(cold, mild), mild)
	byHeat, _ := cell.ChargeRate(mild, max(hot, mild))
	return min(byCold, byHeat)
}

// chargersSet is what all chargers together are set to, as far as it is
// entered.
func (f *Facts) chargersSet() (total unit.Ampere) {
	for _, id := range f.entered(bank.KindCharger, "charger") {
		set, _ := setCurrent.Plain(f, id)
		total += set
	}
	return total
}
