package checks

import (
	"math"
	"slices"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Every setting of a charger, as it was left, by itself. Ns is that of what is charged. What the charger really holds can only be
// read during the first charge; that is a finding of its own, and no gate
// before the charge waits for it.
var chargerSettings = &Check{
	ID: "charger-settings", Stage: SwitchOn,
	Title:   say.Phrase{Key: "charger-settings.title", English: "Charger settings"},
	Asks:    say.Phrase{Key: "charger-settings.asks", English: "Is every setting of the charger one that these blocks bear?"},
	Formula: "Ns·14.0 V ≤ absorption, absorption·(1 + 0.005) ≤ Ns·V_max [V]; float ≤ Ns·13.8 V or off; equalise, temp-comp, recover = off; ΣI_set·s_max ≤ I_charge of a block [A]",
	Limits:  []LimitOf{{"absorption", finding.Maker}, {"absorption", finding.Practice}, {"absorption-measured", finding.Maker}, {"absorption-measured", finding.Practice}, {"current", finding.Maker}, {"equalise", finding.Practice}, {"float", finding.Practice}, {"recover", finding.Practice}, {"temp-comp", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.OurRule},
	Fields: []*Field{&setAbsorption.Field, &setFloat.Field, &setEqualise.Field, &setTempComp.Field, &setRecover.Field,
		&setCurrent.Field, &heldAbsorb.Field, &foundAbsorb.Field, &chargeTarget.Field},
	Parts: chargerParts,
	Eval:  evalChargerSettings,
}

var (
	sayAbsorbGood = say.Phrase{Key: "charger-settings.absorption.pass", English: "Absorption is set to {set}; it may be {limit}."}
	sayAbsorbHigh = say.Phrase{Key: "charger-settings.absorption.fail", English: "Absorption is set to {set}; the highest charge voltage of what is charged is {max}."}
	sayAbsorbLow  = say.Phrase{Key: "charger-settings.absorption.low", English: "Absorption is set to {set}; below {min} these blocks do not get full."}
	sayAbsorbUnk  = say.Phrase{Key: "charger-settings.absorption.cant-tell", English: "Absorption is set to {set}. A charger may hold 0.5 % more than it says, {top}, and the highest charge voltage is {max}."}
	sayAbsorbSet  = say.Phrase{Key: "charger-settings.absorption.set", English: "Set the absorption voltage to between {min} and {most} and read it back."}
	sayFloatGood  = say.Phrase{Key: "charger-settings.float.pass", English: "Float is set to {set}; the limit is {max}."}
	sayFloatOff   = say.Phrase{Key: "charger-settings.float.off", English: "Float is off."}
	sayFloatHigh  = say.Phrase{Key: "charger-settings.float.fail", English: "Float is set to {set}; the limit is {max}. A full block held higher than that ages."}
	sayFloatLow   = say.Phrase{Key: "charger-settings.float.low", English: "Float is set to {set}. Below {least} it is no float of this bank; was one string of fewer blocks meant?"}
	sayFloatSet   = say.Phrase{Key: "charger-settings.float.set", English: "Switch float off, or set it to {max} at most, and read it back."}
	saySwitchOff  = say.Phrase{Key: "charger-settings.switch.pass", English: "{setting}: off."}
	saySwitchOn   = say.Phrase{Key: "charger-settings.switch.fail", English: "{setting}: on. It belongs to lead-acid batteries and drives these blocks above their voltage."}
	saySwitchSet  = say.Phrase{Key: "charger-settings.switch.set", English: "Switch it off and read it back: {setting}."}
	saySetOff     = say.Phrase{Key: "charger-settings.off", English: "off"}
	sayAmpsGood   = say.Phrase{Key: "charger-settings.current.pass", English: "Set to {set}, at most {found} reach one block; it takes {max}."}
	sayAmpsHigh   = say.Phrase{Key: "charger-settings.current.fail", English: "Set to {set}, {found} reach one block; it takes {max}."}
	sayAmpsUnk    = say.Phrase{Key: "charger-settings.current.cant-tell", English: "Set to {set}, {found} reach one block, depending on how the current divides; it takes {max}."}
	sayAmpsNone   = say.Phrase{Key: "charger-settings.current.no-limit", English: "Set to {set}, but the highest charge current of a block is not entered."}
	sayAmpsSet    = say.Phrase{Key: "charger-settings.current.set", English: "Set the charge current to {most} or less and read it back."}
	sayAmpsAll    = say.Phrase{Key: "charger-settings.current.together", English: "All chargers together are set to {total}; that is what is judged."}
	sayAmpsSetAll = say.Phrase{Key: "charger-settings.current.set-all", English: "Set all chargers to {most} or less together and read them back."}
	sayHeldGood   = say.Phrase{Key: "charger-settings.measured.pass", English: "At the posts the charger holds {found}; it may be {limit}."}
	sayHeldBad    = say.Phrase{Key: "charger-settings.measured.fail", English: "At the posts the charger holds {found}; it may be {limit}."}
	sayHeldUnk    = say.Phrase{Key: "charger-settings.measured.cant-tell", English: "At the posts the charger holds {found}, too close to an end of {limit} for this meter."}
	sayHeldSet    = say.Phrase{Key: "charger-settings.measured.set", English: "Stop the charge, correct the absorption voltage by what the posts showed, and measure again."}
)

const (
	// Below 14.0 V a block does not get full: sheets name 14.0 to 14.6 V.
	leastAbsorption unit.Volt = 14.0

	// A float below 12 V for each block would hold it empty: our choice.
	lowestFloat unit.Volt = 12

	// Float off, or 13.4 to 13.8 V: sheets.
	mostFloat unit.Volt = 13.8

	// What a charger may hold above its setting. Our choice.
	chargerError unit.Ratio = 0.005
)

// chargerParts: every charger that is entered; the first one even when nothing
// is, because a bank is charged by something.
func chargerParts(f *Facts) ([]string, say.Line) {
	if ids := f.entered(bank.KindCharger, "charger"); len(ids) > 0 {
		return ids, say.Line{}
	}
	return []string{"charger1"}, say.Line{}
}

// charged is what the latest charge is for: a block, a string, a group or, when
// nobody says, the bank; series is how many blocks of it stand in series.
func (f *Facts) charged() (part string, series int) {
	part = "bank"
	charges := f.done(bank.KindCharge, "charge")
	if len(charges) > 0 {
		if target, ok := chargeTarget.Of(f, charges[len(charges)-1]); ok {
			part = target
		}
	}
	kind, _ := bank.PartKind(part)
	switch {
	case len(f.BlocksOf(part)) == 0:
		return "bank", f.Layout().Series
	case kind == bank.KindBlock || kind == bank.KindGroup:
		return part, 1
	}
	return part, f.Layout().Series
}

func evalChargerSettings(f *Facts, charger string) []finding.Finding {
	part, series := f.charged()
	absorption := func(judge func(string, finding.Limit, unit.Volt, unit.Volt) finding.Finding) finding.Finding {
		highest, least := f.vmax(part), leastAbsorption*unit.Volt(series)
		most := highest.Value * unit.Volt(series)
		return judge(charger, finding.Window("absorption", least, most, highest.Kind, highest.Source), least, most)
	}
	return []finding.Finding{
		f.byItself(func() finding.Finding { return absorption(f.settingAbsorption) }),
		f.byItself(func() finding.Finding {
			return f.settingFloat(charger, lowestFloat*unit.Volt(series), mostFloat*unit.Volt(series))
		}),
		f.byItself(func() finding.Finding { return f.settingSwitch(charger, setEqualise) }),
		f.byItself(func() finding.Finding { return f.settingSwitch(charger, setTempComp) }),
		f.byItself(func() finding.Finding { return f.settingSwitch(charger, setRecover) }),
		f.byItself(func() finding.Finding { return f.settingCurrent(charger, part) }),
		f.byItself(func() finding.Finding { return absorption(f.absorptionHeld) }),
	}
}

// byItself judges one of several findings about a part so that a conflict or a
// skip met on the way, what it had to assume and what it read speak for it
// alone, and it keeps its name.
func (f *Facts) byItself(judge func() finding.Finding) finding.Finding {
	trouble, skipped, assumed, reads := f.trouble, f.skipped, f.assumed, f.reads
	f.trouble, f.skipped, f.assumed, f.reads = nil, nil, nil, slices.Clone(reads)
	x := judge()
	y := f.settle(x).Assuming(f.assumed...).Reading(f.reads)
	if l, ok := x.Limit(); ok {
		y = y.Against(l)
	}
	f.trouble, f.skipped, f.assumed, f.reads = trouble, skipped, assumed, reads
	return y
}

func (f *Facts) settingAbsorption(charger string, limit finding.Limit, least, most unit.Volt) finding.Finding {
	set, ok := setAbsorption.Of(f, charger)
	if !ok {
		return missing(setAbsorption.Field, charger).Against(limit)
	}
	top := set.Value * unit.Volt(1+chargerError)
	found := finding.Typed(set)
	found.High = float64(top)
	safe := unit.Volt(math.Floor(float64(most)/float64(1+chargerError)*10+1e-9) / 10)
	said := []any{"set", typed(set), "limit", limit.Line(), "max", exact(most, "V"), "min", exact(least, "V"), "top", exact(top, "V"), "most", exact(safe, "V")}
	next := sayAbsorbSet.With(said...)
	var x finding.Finding
	plain := measure.Exact(set.Value).Interval()
	switch {
	case measure.AtMost(plain, most) == measure.Outside:
		x = finding.Fails(sayAbsorbHigh.With(said...), next)
	case measure.AtLeast(plain, least) == measure.Outside:
		x = finding.Fails(sayAbsorbLow.With(said...), next)
	case measure.AtMost(measure.Exact(top).Interval(), most) == measure.Outside:
		x = finding.CannotTell(sayAbsorbUnk.With(said...), next)
	default:
		x = finding.Passes(sayAbsorbGood.With(said...))
	}
	return x.Value(found).Against(limit)
}

func (f *Facts) settingFloat(charger string, least, most unit.Volt) finding.Finding {
	limit := finding.AtMost("float", most, finding.Practice, cite.CommonPractice.Line())
	set, ok := setFloat.Of(f, charger)
	if !ok {
		return missing(setFloat.Field, charger).Against(limit)
	}
	said := []any{"set", typed(set), "max", exact(most, "V")}
	if set.Value != 0 && measure.AtLeast(measure.Exact(set.Value).Interval(), least) != measure.Inside {
		return finding.CannotTell(sayFloatLow.With(append(said, "least", exact(least, "V"))...), sayFloatSet.With(said...)).Value(finding.Typed(set)).Against(limit)
	}
	if set.Value == 0 {
		return finding.Passes(sayFloatOff.With()).Value(finding.Typed(set)).Against(limit)
	}
	return finding.Judge(measure.AtMost(measure.Exact(set.Value).Interval(), most), finding.Words{
		Pass: sayFloatGood.With(said...), Fail: sayFloatHigh.With(said...), CantTell: sayFloatHigh.With(said...), Mend: sayFloatSet.With(said...),
	}).Value(finding.Typed(set)).Against(limit)
}

func (f *Facts) settingSwitch(charger string, setting ChoiceField) finding.Finding {
	limit := finding.Limit{Name: setting.ID, Kind: finding.Practice, Source: cite.CommonPractice.Line(), Text: saySetOff.With()}
	code, ok := setting.Of(f, charger)
	said := []any{"setting", setting.Label}
	switch {
	case !ok:
		return missing(setting.Field, charger).Against(limit)
	case code == "off":
		return finding.Passes(saySwitchOff.With(said...)).Against(limit)
	}
	return finding.Fails(saySwitchOn.With(said...), saySwitchSet.With(said...)).Against(limit)
}

func (f *Facts) settingCurrent(charger, part string) finding.Finding {
	named := finding.Limit{Name: "current", Unit: "A"}
	set, ok := setCurrent.Of(f, charger)
	if !ok {
		return missing(setCurrent.Field, charger).Against(named)
	}
	takes := lowest(f, sheetChargeMax, part)
	if !takes.All() {
		return finding.CannotTell(sayAmpsNone.With("set", typed(set)), takes.Enter()).Against(named)
	}
	share, _, gap := f.shareOf(part)
	if gap != nil {
		return gap.Against(named)
	}
	b := takes.Base(f)
	limit := finding.AtMost("current", b.Value, b.Kind, b.Source)
	total := max(set.Value, f.chargersSet())
	amps := measure.Interval[unit.Ampere]{Low: total * unit.Ampere(share.Low), High: total * unit.Ampere(share.High)}
	found := finding.Predicted(amps, "A", limit)
	most := unit.Ampere(math.Floor(float64(b.Value) / float64(share.High)))
	said := []any{"set", typed(set), "found", found.Text, "max", exact(b.Value, "A"), "most", exact(most, "A")}
	mend := sayAmpsSet.With(said...)
	var notes []say.Line
	if total > set.Value {
		mend, notes = sayAmpsSetAll.With(said...), []say.Line{sayAmpsAll.With("total", rounded(total, "A"))}
	}
	return finding.Judge(measure.AtMost(amps, b.Value), finding.Words{
		Pass: sayAmpsGood.With(said...), Fail: sayAmpsHigh.With(said...), CantTell: sayAmpsUnk.With(said...), Mend: mend,
	}).Value(found).Against(limit).Noting(notes...)
}

// shareOf is the largest part that one block carries of a current into part,
// and that block.
func (f *Facts) shareOf(part string) (measure.Interval[unit.Ratio], string, *finding.Finding) {
	whole := measure.Interval[unit.Ratio]{Low: 1, High: 1}
	switch kind, _ := bank.PartKind(part); kind {
	case bank.KindBlock, bank.KindString:
		return whole, f.BlocksOf(part)[0], nil
	case bank.KindGroup:
		n, gap := f.network(part)
		if gap != nil {
			return whole, "", gap
		}
		return n.largestShare()
	}
	return f.largestShare()
}

// absorptionHeld is what the charger really holds at the posts: To do until
// the first charge shows it.
func (f *Facts) absorptionHeld(charger string, limit finding.Limit, least, most unit.Volt) finding.Finding {
	limit.Name = AbsorptionMeasured
	v, ok := heldAbsorb.Read(f, charger)
	if !ok {
		return missing(heldAbsorb.Field, charger).Against(limit)
	}
	found := finding.Measured(v, "V", limit)
	said := []any{"found", found.Text, "limit", limit.Line()}
	return finding.Judge(measure.Within(v.Interval(), least, most), finding.Words{
		Pass: sayHeldGood.With(said...), Fail: sayHeldBad.With(said...), CantTell: sayHeldUnk.With(said...), Mend: sayHeldSet.With(),
	}).Value(found).Against(limit)
}
