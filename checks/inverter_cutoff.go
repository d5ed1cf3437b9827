package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// The inverter must stop before a protection does, and not so early that a
// fifth of the charge stays in the bank.
//
// Without load there is no drop to help, so the lower limit has none.
var inverterCutoffCheck = &Check{
	ID: "inverter-cutoff", Stage: SwitchOn,
	Title:   say.Phrase{Key: "inverter-cutoff.title", English: "Low-voltage cut-off"},
	Asks:    say.Phrase{Key: "inverter-cutoff.asks", English: "Does the inverter stop before the blocks' protection does, but not too early?"},
	Formula: "V_cut ≥ Ns·(V_under + 0.5 V); V_cut ≤ Ns·12.85 V − I·(R_bank + R_leads) [V]",
	Limits:  []LimitOf{{"cut-off", finding.Maker}, {"cut-off", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&inverterCutoff.Field, &sheetLowest.Field, &designCurrent.Field, &partCable.Field, &partLength.Field, &leadTemp.Field},
	Parts:   inverterParts,
	Eval:    evalInverterCutoff,
}

var (
	sayCutGood   = say.Phrase{Key: "inverter-cutoff.pass", English: "It stops at {set}; it may be {limit}."}
	sayCutLow    = say.Phrase{Key: "inverter-cutoff.fail", English: "It stops at {set}; below {min} a block's protection may open first, and everything goes dark at once."}
	sayCutLowUnk = say.Phrase{Key: "inverter-cutoff.cant-tell", English: "It stops at {set}. Where the protection of the blocks opens is not entered; {min} would be high enough for any."}
	sayCutHigh   = say.Phrase{Key: "inverter-cutoff.high", English: "It stops at {set}; with a fifth of the charge left the bank stands at {loaded} under full load, so it stops too early."}
	sayCutHiUnk  = say.Phrase{Key: "inverter-cutoff.high-cant-tell", English: "It stops at {set}; with a fifth of the charge left the bank stands at {loaded} under full load, so it may stop too early."}
	sayCutRaise  = say.Phrase{Key: "inverter-cutoff.raise", English: "Raise the cut-off to {min} or more and read it back."}
	sayCutDrop   = say.Phrase{Key: "inverter-cutoff.lower", English: "Lower the cut-off to {most} or less and read it back."}
)

const (
	// Half a volt per block above the protection: our choice.
	cutoffMargin unit.Volt = 0.5

	// Protections open between 2.2 and 2.8 V per cell; used where the sheet is
	// silent: with the margin 11.7 V is above all of them, 9.3 V below all.
	cutoffSurely, cutoffNever unit.Volt = 11.7, 9.3

	// A block with a fifth of its charge, resting: our choice.
	fifthLeft unit.Volt = 12.85

	cellsInBlock = 4
)

func evalInverterCutoff(f *Facts, part string) []finding.Finding {
	set, ok := inverterCutoff.Of(f, part)
	if !ok {
		return one(missing(inverterCutoff.Field, part))
	}
	series := unit.Volt(f.Layout().Series)
	least := base[unit.Volt]{cutoffSurely * series, finding.Practice, cite.OurRule.Line()}
	surelyLow := cutoffNever * series
	if s := highest(f, sheetLowest, "bank"); s.All() {
		least = s.Base(f)
		least.Value = series * (cellsInBlock*s.Value + cutoffMargin)
		surelyLow = least.Value
	}
	plain := measure.Exact(set.Value).Interval()
	low := finding.AtLeast("cut-off", least.Value, least.Kind, least.Source)
	said := []any{"set", typed(set), "min", exact(least.Value, "V")}
	raise := sayCutRaise.With(said...)
	if measure.AtLeast(plain, surelyLow) == measure.Outside {
		return one(finding.Fails(sayCutLow.With(said...), raise).Value(finding.Typed(set)).Against(low))
	}
	loaded, gap := f.loadedAtFifth()
	if gap != nil {
		return one(*gap)
	}
	limit := finding.Window("cut-off", least.Value, loaded.Low, least.Kind, least.Source)
	said = append(said, "limit", limit.Line(), "loaded", finding.Predicted(loaded, "V", finding.Limit{}).Text, "most", rounded(loaded.Low, "V"))
	var x finding.Finding
	switch {
	case set.Value > loaded.High:
		x = finding.Fails(sayCutHigh.With(said...), sayCutDrop.With(said...))
	case measure.AtLeast(plain, least.Value) != measure.Inside:
		x = finding.CannotTell(sayCutLowUnk.With(said...), raise)
	case measure.AtMost(plain, loaded.Low) != measure.Inside:
		x = finding.CannotTell(sayCutHiUnk.With(said...), sayCutDrop.With(said...))
	default:
		x = finding.Passes(sayCutGood.With(said...))
	}
	return one(x.Value(finding.Typed(set)).Against(limit))
}

// loadedAtFifth is the voltage at the inverter with a fifth of the charge left
// and the largest steady current flowing.
func (f *Facts) loadedAtFifth() (measure.Interval[unit.Volt], *finding.Finding) {
	amps, gap := f.designAmps()
	if gap != nil {
		return measure.Interval[unit.Volt]{}, gap
	}
	var leads unit.Ohm
	for _, lead := range []string{"lead.p", "lead.n"} {
		r, known := f.hotLeadOhm(lead)
		if !known {
			x := missing(partCable.Field, lead)
			return measure.Interval[unit.Volt]{}, &x
		}
		leads += r
	}
	r, gap := f.bankOhm()
	if gap != nil {
		return measure.Interval[unit.Volt]{}, gap
	}
	rest := fifthLeft * unit.Volt(f.Layout().Series)
	at := func(r unit.Ohm) unit.Volt { return rest - unit.Volt(float64(amps)*float64(r+leads)) }
	return measure.Interval[unit.Volt]{Low: at(r.High), High: at(r.Low)}, nil
}

// bankOhm is the resistance of the blocks of the bank together [Ω]: the mean
// block, Ns of them, Np side by side.
func (f *Facts) bankOhm() (sum measure.Interval[unit.Ohm], gap *finding.Finding) {
	l := f.Layout()
	for _, b := range l.Blocks() {
		r, gap := f.blockOhm(b)
		if gap != nil {
			return sum, gap
		}
		sum.Low, sum.High = sum.Low+r.Low, sum.High+r.High
	}
	side := unit.Ohm(l.Parallel * l.Parallel)
	return measure.Interval[unit.Ohm]{Low: sum.Low / side, High: sum.High / side}, nil
}

// allInverters reads the rated power and the cut-off of every inverter; each
// figure that is missing is a finding.
func (f *Facts) allInverters(read func(power unit.Watt, cutoff unit.Volt)) *finding.Finding {
	for _, id := range f.entered(bank.KindInverter, "inverter") {
		power, hasPower := inverterPower.Plain(f, id)
		cutoff, hasCutoff := inverterCutoff.Plain(f, id)
		if x := firstMissing(need{hasPower, inverterPower.Field, id}, need{hasCutoff, inverterCutoff.Field, id}); x != nil {
			return x
		}
		read(power, cutoff)
	}
	return nil
}
