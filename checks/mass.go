package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A block that is too light holds less than its label says.
var massCheck = &Check{
	ID: "mass", Stage: Receive,
	Title:   say.Phrase{Key: "mass.title", English: "Mass"},
	Asks:    say.Phrase{Key: "mass.asks", English: "Does every block weigh what its sheet says?"},
	Formula: "|m − m_sheet|/m_sheet ≤ 3 % [%]; fail above 8 %",
	Limits:  []LimitOf{{"mass", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&blockMass.Field, &sheetMass.Field, &useKilograms.Field},
	Parts:   onBank,
	Eval:    evalMass,
}

var (
	sayMassGood  = say.Phrase{Key: "mass.pass", English: "Every block weighs what its sheet says, within {limit}; {part} is farthest with {found}."}
	sayMassFail  = say.Phrase{Key: "mass.fail", English: "{part} weighs {mass}, {found} from its sheet; above {most} it is not what its label says."}
	sayMassUnk   = say.Phrase{Key: "mass.cant-tell", English: "{part} weighs {mass}, {found} from its sheet; up to {limit} is usual, above {most} it is not what its label says."}
	sayMassSheet = say.Phrase{Key: "mass.no-sheet", English: "{part} weighs {mass}; no sheet says what it should weigh."}
	sayMassNext  = say.Phrase{Key: "mass.next", English: "Weigh again; if still light, ask the supplier."}
)

// Within 3 % a block is as its sheet says, beyond 8 % it is not: our choice.
const massNear, massFar unit.Percent = 3, 8

func evalMass(f *Facts, _ string) []finding.Finding {
	limit := finding.AtMost("mass", massNear, finding.Practice, cite.OurRule.Line())
	var farthest finding.Found
	var which string
	x, _ := worstOf(f.Layout().Blocks(), func(block string) finding.Finding {
		shown, ok := blockMass.Of(f, block)
		if !ok {
			return missing(blockMass.Field, block)
		}
		v := absolute(f, shown)
		said := []any{"part", bank.Name(block), "mass", typed(shown), "limit", exact(massNear, "%"), "most", exact(massFar, "%")}
		sheet := lowest(f, sheetMass, block)
		if !sheet.All() {
			return finding.CannotTell(sayMassSheet.With(said...), sheet.Enter())
		}
		off := 100 * float64((v.Value-sheet.Value)/sheet.Value)
		away := measure.Reading[unit.Percent]{Value: unit.Percent(max(off, -off)), U: unit.Percent(100 * float64(v.U/sheet.Value))}
		found := finding.Measured(away, "%", limit)
		if which == "" || found.High > farthest.High {
			farthest, which = found, block
		}
		said = append(said, "found", found.Text)
		y := finding.CannotTell(sayMassUnk.With(said...), sayMassNext.With())
		switch {
		case measure.AtMost(away.Interval(), massNear) == measure.Inside:
			y = finding.Passes(sayMassGood.With(said...))
		case measure.AtMost(away.Interval(), massFar) == measure.Outside:
			y = finding.Fails(sayMassFail.With(said...), sayMassNext.With())
		}
		return y.Value(found)
	})
	if x.Verdict() == finding.Pass {
		x = finding.Passes(sayMassGood.With("limit", exact(massNear, "%"), "part", bank.Name(which), "found", farthest.Text)).Value(farthest)
	}
	return one(x.Against(limit))
}
