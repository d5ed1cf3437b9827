package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A bank in use is read against its frame as it stands, by the voltages of both
// poles; only where cables were taken off are they tested by themselves.
//
//	R ≥ 0.5 MΩ  [Ω]
var insulationAgain = &Check{
	ID: "insulation-again", Stage: Return, Visits: AtReturn,
	Title:   say.Phrase{Key: "insulation-again.title", English: "Insulation since the last visit"},
	Asks:    say.Phrase{Key: "insulation-again.asks", English: "Is the bank still as free of the frame as it should be?"},
	Formula: "R ≥ 0.5 MΩ [Ω]; bank as it stands: R = R_m·(V/(|U+| + |U−|) − 1), or both poles ≤ 2 V",
	Limits:  []LimitOf{{"bonded", finding.Practice}, {"insulation", finding.Practice}, {"leak", finding.Standard}, {"leak", finding.Practice}, {"stray", finding.Practice}},
	Sources: []cite.Source{cite.IEC62485, cite.CircuitTheory, cite.CommonPractice, cite.OurRule},
	Fields: []Field{bondPlan.Field, strayPlus.Field, strayMinus.Field, totalVoltage.Field, strayMeter.Field,
		insulation.Field, insulVolts.Field, insulFree.Field, insulProved.Field, insulTop.Field},
	Parts: onBank,
	Eval:  evalInsulationAgain,
}

// A bank in use is warm, dusty and damp: half of what new cables must hold.
// Common practice.
const insulationInUse unit.Ohm = 0.5e6

func evalInsulationAgain(f *Facts, part string) []finding.Finding {
	cables := []Field{insulation.Field, insulVolts.Field, insulFree.Field, insulProved.Field}
	for _, field := range cables {
		if f.holds(field, "bank") {
			return f.judgeInsulation(base[unit.Ohm]{insulationInUse, finding.Practice, cite.CommonPractice.Line()})
		}
	}
	return evalStrayVoltage(f, part)
}
