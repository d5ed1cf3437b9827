package checks

import (
	"slices"

	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A bank in use is read against its frame as it stands, by the voltages of both
// poles; where cables were taken off they may be tested by themselves. Where
// both were done both must be well.
//
//	R ≥ 0.5 MΩ  [Ω]
var insulationAgain = &Check{
	ID: "insulation-again", Stage: Return, Visits: AtReturn,
	Title:   say.Phrase{Key: "insulation-again.title", English: "Insulation since the last visit"},
	Asks:    say.Phrase{Key: "insulation-again.asks", English: "Is the bank still as free of the frame as it should be?"},
	Formula: "R ≥ 0.5 MΩ [Ω]; bank as it stands: R = R_m·(V/(|U+| + |U−|) − 1), or both poles ≤ 2 V",
	Limits:  []LimitOf{{"bonded", finding.Practice}, {"insulation", finding.Practice}, {"leak", finding.Standard}, {"leak", finding.Practice}, {"stray", finding.Practice}},
	Sources: []*cite.Source{&cite.IEC62485, &cite.CircuitTheory, &cite.CommonPractice, &cite.OurRule},
	Fields: []*Field{&bondPlan.Field, &strayPlus.Field, &strayMinus.Field, &totalVoltage.Field, &strayMeter.Field,
		&insulation.Field, &insulVolts.Field, &insulFree.Field, &insulProved.Field, &insulTop.Field},
	Parts: onBank,
	Eval:  evalInsulationAgain,
}

// A bank in use is warm, dusty and damp: half of what new cables must hold.
// Common practice.
const insulationInUse unit.Ohm = 0.5e6

func evalInsulationAgain(f *Facts, part string) []finding.Finding {
	cables := []Field{insulation.Field, insulVolts.Field, insulFree.Field, insulProved.Field}
	tested := slices.ContainsFunc(cables, func(field Field) bool { return f.holds(field, "bank") })
	stood := f.holds(strayPlus.Field, "bank") || f.holds(strayMinus.Field, "bank")
	var out []finding.Finding
	if tested {
		out = f.judgeInsulation(base[unit.Ohm]{insulationInUse, finding.Practice, cite.CommonPractice.Line()})
	}
	if stood || !tested {
		out = append(out, evalStrayVoltage(f, part)...)
	}
	if last := len(out) - 1; out[last].Verdict().Worse(out[0].Verdict()) {
		return out[last:]
	}
	return out[:1]
}
