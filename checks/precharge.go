package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/cell"
	"lugmark/core/circuit"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// An inverter's empty capacitors are a short circuit for an instant. They are
// filled through a resistor until little is left across the open switch.
//
// What a block sees is its share of the rush, so its own trip decides.
var precharge = &Check{
	ID: "precharge", Stage: SwitchOn,
	Title:   say.Phrase{Key: "precharge.title", English: "Precharge"},
	Asks:    say.Phrase{Key: "precharge.asks", English: "Are the inverter's capacitors full enough to close the main switch?"},
	Formula: "left ≤ min(0.05·U_bank, 2 V) [V]; s_max·left/(R_bank + R_leads) ≤ I_trip of a block, else I_discharge [A]",
	Limits:  []LimitOf{{"left", finding.Practice}, {"rush", finding.Maker}, {"rush", finding.Practice}},
	Sources: []*cite.Source{&cite.PrechargeLeft, &cite.OurRule},
	Fields:  []*Field{&capacitors.Field, &prechargeLeft.Field, &totalVoltage.Field, &inverterOff.Field, &inverterOwn.Field},
	Parts:   prechargeParts,
	Eval:    evalPrecharge,
}

var (
	sayNoInverter   = say.Phrase{Key: "precharge.no-inverter", English: "Nothing with capacitors is on this line, as answered; there is nothing to fill."}
	sayPrechargeOwn = say.Phrase{Key: "precharge.own", English: "{inverter} precharges itself by its manual, {page}."}
	sayLeftLittle   = say.Phrase{Key: "precharge.pass", English: "Across the open switch {found} is left; the limit is {limit}. Closing over that pushes {rush} through one block, which bears {bears}."}
	sayLeftMuch     = say.Phrase{Key: "precharge.fail", English: "Across the open switch {found} is left; the limit is {limit}. A load is on the line, or the resistor is wrong."}
	sayLeftUnk      = say.Phrase{Key: "precharge.cant-tell", English: "Across the open switch {found} is left, too close to the limit of {limit} for this meter."}
	sayRushMuch     = say.Phrase{Key: "precharge.rush", English: "Closing over the {left} that is left would push {found} through one block; it bears {bears}."}
	sayRushUnk      = say.Phrase{Key: "precharge.rush-cant-tell", English: "Closing over the {left} that is left could push {found} through one block, which bears {bears}."}
	sayRushNoLimit  = say.Phrase{Key: "precharge.no-limit", English: "Across the open switch {found} is left, but what one block bears when the switch closes is not entered."}
	sayInverterUnk  = say.Phrase{Key: "precharge.state", English: "Nobody entered whether {inverter} was off. With it on, the volts across the switch prove nothing."}
	sayInverterOn   = say.Phrase{Key: "precharge.on", English: "{inverter} was on. With it on, the volts across the switch prove nothing."}
	sayLeftStale    = say.Phrase{Key: "precharge.stale", English: "Across the open switch {found} was left, but not within the last 15 minutes before closing. Capacitors empty by themselves."}
	sayLeftEarly    = say.Phrase{Key: "precharge.early", English: "Across the open switch {found} was left, read before {inverter} was said to be off."}
	sayLeftAgain    = say.Phrase{Key: "precharge.again", English: "Precharge, and read across the switch again just before closing."}
	sayKeepFilling  = say.Phrase{Key: "precharge.go-on", English: "Keep precharging, or find what loads the line; then read across the switch again."}
	sayTurnOff      = say.Phrase{Key: "precharge.turn-off", English: "Switch {inverter} off, precharge, and read across the switch again."}
)

const (
	// 5 % of the bank: read in articles on precharge. The smaller of both
	// counts; 2 V alone would be 16 % of a 12.8 V bank.
	mostLeftPart unit.Ratio = 0.05
	mostLeft     unit.Volt  = 2

	// Filled capacitors lose their charge within minutes: our rule.
	prechargeHolds = 15 * time.Minute
)

func prechargeParts(f *Facts) ([]string, say.Line) {
	inverters := f.entered(bank.KindInverter, "inverter")
	if len(inverters) == 0 { // not entered is not "none": somebody has to say so
		var answer string
		f.quietly(func() { answer, _ = capacitors.Of(f, "switch") })
		if answer == "no" {
			return nil, sayNoInverter.With()
		}
		return []string{"switch"}, say.Line{}
	}
	var why say.Line
	for _, id := range inverters {
		page, has := sheetPage.Of(f, id)
		if !inverterOwn.Yes(f, id) || !has {
			return []string{"switch"}, say.Line{}
		}
		why = sayPrechargeOwn.With("inverter", bank.Name(id), "page", page)
	}
	return nil, why
}

func evalPrecharge(f *Facts, part string) []finding.Finding {
	shown, read := prechargeLeft.Of(f, part)
	if x, bad := f.leftTooMuch(part, shown, read); bad {
		return one(x)
	}
	inverters := f.entered(bank.KindInverter, "inverter")
	if _, answered := capacitors.Of(f, part); len(inverters) == 0 && !answered {
		return one(missing(capacitors.Field, part))
	}
	for _, id := range inverters {
		if inverterOwn.Yes(f, id) {
			if _, has := sheetPage.Of(f, id); !has {
				return one(missing(sheetPage.Field, id))
			}
		}
	}
	if !read {
		return one(missing(prechargeLeft.Field, part))
	}
	if f.openedSince("switch", shown.Lam, shown.At) {
		return one(finding.Undone(sayLeftAgain.With()))
	}
	if _, ok := totalVoltage.Of(f, "bank"); !ok {
		return one(missing(totalVoltage.Field, "bank"))
	}
	limit, most, notes := f.mostLeft()
	left := f.sizeLeft(shown)
	found := finding.Measured(left, "V", limit)
	answer := func(x finding.Finding) []finding.Finding {
		return one(x.Value(found).Against(limit).Noting(notes...))
	}
	if x, bad := f.inverterNotOff(shown, found.Text); bad {
		return answer(x)
	}
	said := []any{"found", found.Text, "limit", exact(most, "V")}
	if act := f.actOf(part); !f.justBefore(shown.At, act.at, prechargeHolds) {
		return answer(finding.CannotTell(sayLeftStale.With(said...), sayLeftAgain.With()))
	}
	side := measure.AtMost(left.Interval(), most)
	rush, gap := f.rush(left)
	if gap != nil {
		return one(*gap)
	}
	bears, known := f.blockBears()
	if !known {
		return answer(finding.CannotTell(sayRushNoLimit.With(said...), lowest(f, sheetDischarge, "bank").Enter()))
	}
	rushLimit := finding.AtMost("rush", bears.Value, bears.Kind, bears.Source)
	predicted := finding.Predicted(rush, "A", rushLimit)
	rushSide := measure.AtMost(rush, bears.Value)
	rushSaid := []any{"left", found.Text, "found", predicted.Text, "bears", exact(bears.Value, "A")}
	said = append(said, "rush", predicted.Text, "bears", exact(bears.Value, "A"))
	switch {
	case rushSide == measure.Outside:
		return one(finding.Fails(sayRushMuch.With(rushSaid...), sayKeepFilling.With()).Value(predicted).Against(rushLimit))
	case side == measure.Across:
		return answer(finding.CannotTell(sayLeftUnk.With(said...), sayKeepFilling.With()))
	case rushSide == measure.Across:
		return one(finding.CannotTell(sayRushUnk.With(rushSaid...), sayKeepFilling.With()).Value(predicted).Against(rushLimit))
	}
	return answer(finding.Passes(sayLeftLittle.With(said...)))
}

// mostLeft is what may be left across the open switch: 2 V, or less where 5 % of
// the bank is less and the bank's voltage is known.
func (f *Facts) mostLeft() (finding.Limit, unit.Volt, []say.Line) {
	most := mostLeft
	if volts, ok := totalVoltage.Plain(f, "bank"); ok {
		most = min(most, volts*unit.Volt(mostLeftPart))
	}
	return upper(f, "precharge", "left", base[unit.Volt]{most, finding.Practice, cite.Both(cite.PrechargeLeft, cite.OurRule)})
}

// sizeLeft is what was left, whichever way round the probes were.
func (f *Facts) sizeLeft(shown measure.Shown[unit.Volt]) measure.Reading[unit.Volt] {
	left := absolute(f, shown)
	left.Value = max(left.Value, -left.Value)
	return left
}

// leftTooMuch says that more is left than may be. Nothing that is not known, and
// no age of the reading, makes that good: an inverter that is on is the load that
// holds the volts there, and capacitors that empty by themselves leave more.
func (f *Facts) leftTooMuch(part string, shown measure.Shown[unit.Volt], read bool) (x finding.Finding, bad bool) {
	if !read {
		return x, false
	}
	limit, most, notes := f.mostLeft()
	left := f.sizeLeft(shown)
	if measure.AtMost(left.Interval(), most) != measure.Outside {
		return x, false
	}
	found := finding.Measured(left, "V", limit)
	mend := sayKeepFilling.With()
	if act := f.actOf(part); !f.justBefore(shown.At, act.at, prechargeHolds) {
		mend = sayLeftAgain.With()
	}
	for _, id := range f.entered(bank.KindInverter, "inverter") {
		if !inverterOff.Yes(f, id) && !inverterOwn.Yes(f, id) {
			mend = sayTurnOff.With("inverter", bank.Name(id))
		}
	}
	x = finding.Fails(sayLeftMuch.With("found", found.Text, "limit", exact(most, "V")), mend)
	return x.Value(found).Against(limit).Noting(notes...), true
}

// inverterNotOff says that something with capacitors was on, that nobody knows,
// or that the volts across the switch were read before it was said to be off.
// What is on the line but not entered is asked for as the first inverter.
func (f *Facts) inverterNotOff(left measure.Shown[unit.Volt], found say.Line) (finding.Finding, bool) {
	inverters := f.entered(bank.KindInverter, "inverter")
	if len(inverters) == 0 {
		inverters = []string{"inverter1"}
	}
	for _, id := range inverters {
		if inverterOwn.Yes(f, id) {
			continue
		}
		name := bank.Name(id)
		said, known := f.entry(inverterOff.Field, id)
		switch {
		case !known:
			return finding.CannotTell(sayInverterUnk.With("inverter", name), enter(inverterOff.Field, id)), true
		case said.Value.Choice != "yes":
			return finding.CannotTell(sayInverterOn.With("inverter", name), sayTurnOff.With("inverter", name)), true
		case left.Lam < said.Lam:
			return finding.CannotTell(sayLeftEarly.With("found", found, "inverter", name), sayLeftAgain.With()), true
		}
	}
	return finding.Finding{}, false
}

// rush is what one block sees when the switch closes over what is left [A]: its
// share of left / (R_bank + R_leads). Leads count where they are known.
func (f *Facts) rush(left measure.Reading[unit.Volt]) (measure.Interval[unit.Ampere], *finding.Finding) {
	rated := highest(f, sheetCapacity, "bank") // the largest block has the least resistance
	block, ok := cell.InrushResistance(rated.Value)
	if !rated.All() || !ok {
		x := rated.Missing()
		return measure.Interval[unit.Ampere]{}, &x
	}
	share, _, gap := f.largestShare()
	if gap != nil {
		return measure.Interval[unit.Ampere]{}, gap
	}
	bankR := block * unit.Ohm(f.Layout().Series) / unit.Ohm(f.Layout().Parallel)
	var leads unit.Ohm
	for _, lead := range []string{"lead.p", "lead.n"} {
		r, _ := f.conductorOhm(lead, f.coldOhm, 0)
		leads += r
	}
	low, _ := circuit.Inrush(max(0, left.Value-left.U), bankR, leads)
	high, _ := circuit.Inrush(left.Value+left.U, bankR, leads)
	return measure.Interval[unit.Ampere]{Low: low * unit.Ampere(share.Low), High: high * unit.Ampere(share.High)}, nil
}

// coldCopper is the temperature at which a conductor resists least before the
// first current: 20 °C, where its resistance is tabled.
const coldCopper unit.Celsius = 20

// blockBears is the current at which a block's protection opens in a rush: its
// trip where the sheets give it, else its continuous current once.
func (f *Facts) blockBears() (base[unit.Ampere], bool) {
	if trip := lowest(f, sheetTrip, "bank"); trip.All() {
		return trip.Base(f), true
	}
	steady := lowest(f, sheetDischarge, "bank")
	return base[unit.Ampere]{steady.Value, finding.Practice, cite.OurRule.Line()}, steady.All()
}
