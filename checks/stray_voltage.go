package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A floating bank shows nearly nothing against its frame; what it shows tells
// the resistance of the leak. A bonded bank shows nothing at the bonded pole.
var strayVoltage = &Check{
	ID: "stray-voltage", Stage: Wire,
	Title:   say.Phrase{Key: "stray-voltage.title", English: "Voltage to the frame"},
	Asks:    say.Phrase{Key: "stray-voltage.asks", English: "Is the bank free of the frame, or bonded at one pole only, as planned?"},
	Formula: "R_iso = R_m·(U_bank/(|U+| + |U−|) − 1) ≥ 0.5 MΩ [Ω], or |U+|, |U−| ≤ 2 V with R_m ≥ 10 MΩ [V]; fail: R_iso < 100 Ω/V·U_bank; bonded pole: |U| ≤ 0.5 V",
	Limits:  []LimitOf{{"bonded", finding.Practice}, {"leak", finding.Standard}, {"leak", finding.Practice}, {"stray", finding.Practice}},
	Sources: []*cite.Source{&cite.IEC62485, &cite.CircuitTheory, &cite.CommonPractice, &cite.OurRule},
	Fields:  []*Field{&bondPlan.Field, &strayPlus.Field, &strayMinus.Field, &totalVoltage.Field, &strayMeter.Field},
	Parts:   onBank,
	Eval:    evalStrayVoltage,
}

var (
	sayStrayLow    = say.Phrase{Key: "stray-voltage.pass", English: "Plus reads {plus} to the frame, minus {minus}; up to {limit} a floating bank is free of it."}
	sayStrayHigh   = say.Phrase{Key: "stray-voltage.free", English: "What leaks to the frame has {found}; the limit is {limit}."}
	sayStrayFail   = say.Phrase{Key: "stray-voltage.fail", English: "What leaks to the frame has {found}; below {least} somebody may get a shock or the leak a fire."}
	sayStrayUnk    = say.Phrase{Key: "stray-voltage.cant-tell", English: "What leaks to the frame has {found}; from {limit} on the bank is free of it, below {least} it is not."}
	sayStrayDrift  = say.Phrase{Key: "stray-voltage.drift", English: "The reading drifts, so something between bank and frame still charges."}
	sayStrayBonded = say.Phrase{Key: "stray-voltage.bonded", English: "The bonded pole reads {found} to the frame; the limit is {limit}."}
	sayStrayOpen   = say.Phrase{Key: "stray-voltage.bond-open", English: "The bonded pole reads {found} to the frame; the limit is {limit}. The bond is open or carries current."}
	sayStrayClose  = say.Phrase{Key: "stray-voltage.bond-unknown", English: "The bonded pole reads {found} to the frame, too close to {limit} for this meter."}
	sayStrayLoose  = say.Phrase{Key: "stray-voltage.not-bonded", English: "The bonded pole reads {found} to the frame and the other one {other}; bonded, that one reads the whole bank."}
	sayStrayNext   = say.Phrase{Key: "stray-voltage.next", English: "Find the leak to the frame before going on."}
	sayStraySame   = say.Phrase{Key: "stray-voltage.same-sign", English: "Plus reads {plus} to the frame and minus {minus}. Both on one side of it takes another source on the frame, or turned probes."}
	sayStrayProbes = say.Phrase{Key: "stray-voltage.probes", English: "Black probe on the frame for both. If they still read alike, find what else feeds the frame."}
	sayStrayBond   = say.Phrase{Key: "stray-voltage.mend", English: "Mend the bond, then read again."}
	sayStrayWait   = say.Phrase{Key: "stray-voltage.wait", English: "Leave the probes on until the reading stands still, then read both poles again."}
	sayAssumedTen  = say.Phrase{Key: "assumed.stray-meter", English: "A voltmeter of {ohms} assumed."}
)

const (
	// Up to 2 V either way is free at once, on the usual voltmeter (from
	// memory): a smaller input pulls the voltage of a leak down. From 0.5 MΩ on
	// it is free as well (our choice).
	strayLittle unit.Volt = 2
	freeFrom    unit.Ohm  = 0.5e6
	// Below 100 Ω for each volt it is not, after IEC 62485-2; from memory.
	perVolt = 100
	// What a bonded pole may show: our choice.
	bondedLittle unit.Volt = 0.5
	usualInput   unit.Ohm  = 10e6
)

func evalStrayVoltage(f *Facts, _ string) []finding.Finding {
	plan, hasPlan := bondPlan.Of(f, "bank")
	plus, hasPlus := strayPlus.Of(f, "bank")
	minus, hasMinus := strayMinus.Of(f, "bank")
	if x := firstMissing(need{hasPlan, bondPlan.Field, "bank"}, need{hasPlus, strayPlus.Field, "bank"}, need{hasMinus, strayMinus.Field, "bank"}); x != nil {
		return one(*x)
	}
	a, b := f.abs(plus), f.abs(minus)
	if plus.Moving || minus.Moving {
		return one(finding.CannotTell(sayStrayDrift.With(), sayStrayWait.With()).From(cite.OurRule.Line()))
	}
	switch plan {
	case "plus":
		return one(f.bondedPole(a, b))
	case "minus":
		return one(f.bondedPole(b, a))
	}
	up, down := absolute(f, plus).Interval(), absolute(f, minus).Interval()
	if up.Low > 0 && down.Low > 0 || up.High < 0 && down.High < 0 {
		return one(finding.CannotTell(sayStraySame.With("plus", typed(plus), "minus", typed(minus)), sayStrayProbes.With()).From(cite.CircuitTheory.Line()))
	}
	input, entered := strayMeter.Plain(f, "bank")
	if !entered {
		input = usualInput
	}
	little := finding.AtMost("stray", strayLittle, finding.Practice, cite.CommonPractice.Line())
	if input >= usualInput && measure.AtMost(a.Interval(), strayLittle) == measure.Inside && measure.AtMost(b.Interval(), strayLittle) == measure.Inside {
		x := finding.Passes(sayStrayLow.With("plus", typed(plus), "minus", typed(minus), "limit", exact(strayLittle, "V")))
		return one(x.Value(finding.Measured(higher(a, b), "V", little)).Against(little))
	}
	whole, ok := totalVoltage.Of(f, "bank")
	if !ok {
		return one(missing(totalVoltage.Field, "bank"))
	}
	if !entered {
		f.assume(sayAssumedTen.With("ohms", exact(input, "MOhm")))
	}
	leak := leakage(f.abs(whole), a, b, input)
	least := unit.Ohm(perVolt * float64(max(whole.Value, -whole.Value)))
	limit := finding.AtLeast("leak", freeFrom, finding.Practice, cite.OurRule.Line()).In("kOhm")
	found := finding.Predicted(measure.Interval[unit.Ohm]{Low: max(0, leak.Low), High: max(0, leak.High)}, "kOhm", limit)
	said := []any{"found", found.Text, "limit", exact(freeFrom, "kOhm"), "least", rounded(least, "kOhm")}
	x := finding.CannotTell(sayStrayUnk.With(said...), sayStrayNext.With())
	switch {
	case measure.AtLeast(leak, freeFrom) == measure.Inside:
		x = finding.Passes(sayStrayHigh.With(said...))
	case measure.AtLeast(leak, least) == measure.Outside:
		limit = finding.AtLeast("leak", least, finding.Standard, cite.IEC62485.Line()).In("kOhm")
		x = finding.Fails(sayStrayFail.With(said...), sayStrayNext.With())
	}
	return one(x.Value(found).Against(limit))
}

// abs is a reading without its sign.
func (f *Facts) abs(x measure.Shown[unit.Volt]) measure.Reading[unit.Volt] {
	r := absolute(f, x)
	r.Value = max(r.Value, -r.Value)
	return r
}

func higher(a, b measure.Reading[unit.Volt]) measure.Reading[unit.Volt] {
	if b.Value+b.U > a.Value+a.U {
		return b
	}
	return a
}

// leakage is the lowest and the highest resistance between the bank and its
// frame [Ω]; below zero where the meter alone cannot carry what flows.
func leakage(whole, plus, minus measure.Reading[unit.Volt], input unit.Ohm) measure.Interval[unit.Ohm] {
	at := func(volts, sum unit.Volt) unit.Ohm { return input * unit.Ohm(float64(volts)/float64(sum)-1) }
	sum, u := plus.Value+minus.Value, plus.U+minus.U
	const smallest unit.Volt = 1e-6 // a sum that may be nothing leaks nothing
	return measure.Interval[unit.Ohm]{Low: at(whole.Value-whole.U, sum+u), High: at(whole.Value+whole.U, max(smallest, sum-u))}
}

// bondedPole judges the pole that is bonded. An open bond lets both poles float
// near nothing: then the other one does not read the whole bank, and hardly
// half of it.
func (f *Facts) bondedPole(v, other measure.Reading[unit.Volt]) finding.Finding {
	limit := finding.AtMost("bonded", bondedLittle, finding.Practice, cite.OurRule.Line())
	found := finding.Measured(v, "V", limit)
	said := []any{"found", found.Text, "limit", exact(bondedLittle, "V")}
	x := finding.Judge(measure.AtMost(v.Interval(), bondedLittle), finding.Words{
		Pass: sayStrayBonded.With(said...), Fail: sayStrayOpen.With(said...), CantTell: sayStrayClose.With(said...), Mend: sayStrayBond.With(),
	})
	half := nominal * unit.Volt(f.Layout().Series) / 2
	if x.Verdict() == finding.Pass && measure.AtLeast(other.Interval(), half) != measure.Inside {
		x = finding.CannotTell(sayStrayLoose.With("found", found.Text, "other", finding.Measured(other, "V", finding.Limit{}).Text), sayStrayBond.With())
	}
	return x.Value(found).Against(limit)
}
