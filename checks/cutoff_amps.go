package checks

import (
	"lugmark/core/circuit"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// An inverter draws most when the bank is lowest.
var cutoffAmps = &Check{
	ID: "cutoff-amps", Stage: Prove,
	Title:   say.Phrase{Key: "cutoff-amps.title", English: "Current at the cut-off"},
	Asks:    say.Phrase{Key: "cutoff-amps.asks", English: "Does every block bear the inverter's full power at the lowest voltage?"},
	Formula: "P/(V_cut·η)·s_max ≤ I_discharge of a block [A]",
	Limits:  []LimitOf{{"current", finding.Maker}},
	Sources: []*cite.Source{&cite.CircuitTheory, &cite.OurRule},
	Fields:  []*Field{&inverterPower.Field, &inverterCutoff.Field, &sheetDischarge.Field},
	Parts: func(f *Facts) ([]string, say.Line) {
		if _, why := inverterParts(f); !why.Empty() {
			return nil, why
		}
		return onBank(f)
	},
	Eval: evalCutoffAmps,
}

var (
	sayLowAmpsGood = say.Phrase{Key: "cutoff-amps.pass", English: "At the cut-off one block gives {found}; it may give {limit}."}
	sayLowAmpsBad  = say.Phrase{Key: "cutoff-amps.fail", English: "At the cut-off one block gives {found}; it may give {limit}."}
	sayLowAmpsUnk  = say.Phrase{Key: "cutoff-amps.cant-tell", English: "At the cut-off one block gives {found}, depending on how the current divides; it may give {limit}."}
	sayLowAmpsNext = say.Phrase{Key: "cutoff-amps.next", English: "Lower the inverter's power limit or add a string."}
	sayAssumedEta  = say.Phrase{Key: "assumed.efficiency", English: "90 % of what the inverter takes is assumed to reach the load."}
)

func evalCutoffAmps(f *Facts, part string) []finding.Finding {
	var total unit.Ampere
	if gap := f.allInverters(func(power unit.Watt, cutoff unit.Volt) {
		amps, _ := circuit.InverterCurrent(power, cutoff, usualEfficiency)
		total += amps
	}); gap != nil {
		return one(*gap)
	}
	f.assume(sayAssumedEta.With())
	may := lowest(f, sheetDischarge, part)
	if !may.All() {
		return one(may.Missing())
	}
	share, block, gap := f.largestShare()
	if gap != nil {
		return one(*gap)
	}
	b := may.Base(f)
	limit, most, notes := upper(f, "cutoff-amps", "current", b)
	amps := measure.Interval[unit.Ampere]{Low: total * unit.Ampere(share.Low), High: total * unit.Ampere(share.High)}
	found := finding.Predicted(amps, "A", limit)
	said := []any{"found", found.Text, "limit", exact(most, "A")}
	x := finding.Judge(measure.AtMost(amps, most), finding.Words{
		Pass: sayLowAmpsGood.With(said...), Fail: sayLowAmpsBad.With(said...), CantTell: sayLowAmpsUnk.With(said...), Mend: sayLowAmpsNext.With(),
	})
	if x.Verdict() != finding.Pass {
		x = x.About(block)
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}
