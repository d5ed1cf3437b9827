package checks

import (
	"lugmark/core/bank"
	"lugmark/core/circuit"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// All the energy that ends in the capacitors is burnt in the resistor as well.
//
// A capacitance that was timed with a stop-watch is known to a fifth.
var prechargePart = &Check{
	ID: "precharge-part", Stage: SwitchOn,
	Title:   say.Phrase{Key: "precharge-part.title", English: "Precharge resistor"},
	Asks:    say.Phrase{Key: "precharge-part.asks", English: "Does the precharge resistor bear what one precharge puts into it?"},
	Formula: "E = ½·C·V_hi² ≤ E_pulse [J]; 5·R·C ≤ t at V_hi²/R [s]; C = t/(3·R) ± 20 %",
	Limits:  []LimitOf{{"pulse", finding.Maker}},
	Sources: []*cite.Source{&cite.CircuitTheory, &cite.OurRule},
	Fields:  []*Field{&prechargeR.Field, &prechargeFarad.Field, &prechargeTime.Field, &prechargePulse.Field, &prechargeBears.Field},
	Parts:   prechargeParts,
	Eval:    evalPrechargePart,
}

var (
	sayPulseBorne = say.Phrase{Key: "precharge-part.pass", English: "One precharge burns {found} in it and lasts {time}; it bears {limit}, and {bears} at the whole voltage."}
	sayPulseOver  = say.Phrase{Key: "precharge-part.fail", English: "One precharge burns {found} in it; it bears {limit}. It can open or catch fire."}
	sayPulseUnk   = say.Phrase{Key: "precharge-part.cant-tell", English: "One precharge burns {found} in it, which may be more than the {limit} that it bears."}
	sayPulseLong  = say.Phrase{Key: "precharge-part.long", English: "A precharge lasts {time}; the resistor bears the whole voltage for {bears}."}
	sayPulseBlank = say.Phrase{Key: "precharge-part.no-sheet", English: "One precharge burns {found} in it; what it bears is not entered."}
	sayPulseFit   = say.Phrase{Key: "precharge-part.fit", English: "Fit a resistor whose sheet allows pulses of {energy} or more, and {time} at {volts}."}
)

const (
	// Five time constants fill the capacitors to 99 %: a reference design.
	fullConstants unit.Second = 5

	// How well a stop-watch and an eye on the meter find the capacitance: our
	// choice.
	stopWatchBand unit.Ratio = 0.2
)

func evalPrechargePart(f *Facts, part string) []finding.Finding {
	r, ok := prechargeR.Plain(f, part)
	if !ok {
		return one(missing(prechargeR.Field, part))
	}
	farad, gap := f.lineFarad(part, r)
	if gap != nil {
		return one(*gap)
	}
	_, volts := f.highestCharge()
	energy := func(c unit.Farad) unit.WattHour {
		const joulesPerWattHour = 3600
		return unit.WattHour(circuit.Precharge{Bank: volts, Resistor: r, Capacitance: c}.Pulse()) / joulesPerWattHour
	}
	burns := measure.Interval[unit.WattHour]{Low: energy(farad.Low), High: energy(farad.High)}
	last := circuit.Precharge{Bank: volts, Resistor: r, Capacitance: farad.High}.Tau() * fullConstants
	first := circuit.Precharge{Bank: volts, Resistor: r, Capacitance: farad.Low}.Tau() * fullConstants
	pulse, has := prechargePulse.Plain(f, part)
	limit := finding.AtMost("pulse", pulse, finding.Maker, cite.Maker("").Line()).In("J")
	found := finding.Predicted(burns, "J", limit)
	said := []any{"found", found.Text, "time", rounded(last, "s"), "volts", exact(volts, "V"), "energy", roundedUp(burns.High, "J"), "limit", exact(pulse, "J")}
	fit := sayPulseFit.With(said...)
	if !has {
		return one(finding.CannotTell(sayPulseBlank.With(said...), enter(prechargePulse.Field, part)).Value(found))
	}
	side := measure.AtMost(burns, pulse)
	if side == measure.Outside {
		return one(finding.Fails(sayPulseOver.With(said...), fit).Value(found).Against(limit))
	}
	bears, has := prechargeBears.Plain(f, part)
	if !has {
		return one(finding.CannotTell(sayPulseBlank.With(said...), enter(prechargeBears.Field, part)).Value(found).Against(limit))
	}
	said = append(said, "bears", exact(bears, "s"))
	x := finding.Passes(sayPulseBorne.With(said...))
	switch long := measure.AtMost(measure.Interval[unit.Second]{Low: first, High: last}, bears); {
	case long == measure.Outside:
		x = finding.Fails(sayPulseLong.With(said...), fit)
	case long == measure.Across:
		x = finding.CannotTell(sayPulseLong.With(said...), fit)
	case side == measure.Across:
		x = finding.CannotTell(sayPulseUnk.With(said...), fit)
	}
	return one(x.Value(found).Against(limit))
}

// lineFarad is the capacitance on the line: as entered, else by the stop-watch.
func (f *Facts) lineFarad(part string, r unit.Ohm) (measure.Interval[unit.Farad], *finding.Finding) {
	if c, ok := prechargeFarad.Plain(f, part); ok {
		return measure.Interval[unit.Farad]{Low: c, High: c}, nil
	}
	t, ok := prechargeTime.Plain(f, part)
	c, valid := circuit.CapacitanceFrom(t, r)
	if !ok || !valid {
		x := missing(prechargeFarad.Field, part)
		return measure.Interval[unit.Farad]{}, &x
	}
	return measure.Interval[unit.Farad]{Low: c * unit.Farad(1-stopWatchBand), High: c * unit.Farad(1+stopWatchBand)}, nil
}

// inverterParts: every inverter that is entered.
func inverterParts(f *Facts) ([]string, say.Line) {
	ids := f.entered(bank.KindInverter, "inverter")
	if len(ids) == 0 {
		return nil, sayNoInverter.With()
	}
	return ids, say.Line{}
}
