package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A heat cut-out is tried with a resistor in place of its sensor, and only
// where the maker allows that. Nobody heats a block.
var heatCutout = &Check{
	ID: "heat-cutout", Stage: Prove,
	Title:   say.Phrase{Key: "heat-cutout.title", English: "Heat cut-out"},
	Asks:    say.Phrase{Key: "heat-cutout.asks", English: "Does the heat cut-out open where the maker says?"},
	Formula: "|T_opened − T_sheet| ≤ 5 K [K], else about 60 °C",
	Limits:  []LimitOf{{"cut-out", finding.Maker}, {"cut-out", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.OurRule},
	Fields:  []*Field{&cutOutAllowed.Field, &cutOutAt.Field, &sheetCutOut.Field},
	Parts:   onBank,
	Eval:    evalHeatCutout,
}

var (
	sayHotTrust = say.Phrase{Key: "heat-cutout.declared", English: "Declared by the maker, not tested."}
	sayHotGood  = say.Phrase{Key: "heat-cutout.pass", English: "It opened at {found}; the window is {limit}."}
	sayHotBad   = say.Phrase{Key: "heat-cutout.fail", English: "It opened at {found}; the window is {limit}."}
	sayHotNext  = say.Phrase{Key: "heat-cutout.next", English: "Ask the maker for the cut-out's test record."}
)

const (
	usualCutOut unit.Celsius = 60 // 140 °F, common practice
	cutOutBand  unit.Celsius = 5  // our choice
)

func evalHeatCutout(f *Facts, part string) []finding.Finding {
	if _, asked := cutOutAllowed.Of(f, part); !asked && f.holds(cutOutAt.Field, part) {
		return one(missing(cutOutAllowed.Field, part)) // it was tested, so it is not the maker's word alone
	}
	if !cutOutAllowed.Yes(f, part) {
		return one(finding.Unneeded(sayHotTrust.With()))
	}
	at, ok := cutOutAt.Plain(f, part)
	if !ok {
		return one(missing(cutOutAt.Field, part))
	}
	middle := base[unit.Celsius]{usualCutOut, finding.Practice, cite.Both(cite.CommonPractice, cite.OurRule)}
	if own := lowest(f, sheetCutOut, part); own.All() {
		middle = own.Base(f)
	}
	limit := finding.Window("cut-out", middle.Value-cutOutBand, middle.Value+cutOutBand, middle.Kind, middle.Source)
	span := measure.Exact(at).Interval()
	found := finding.Predicted(span, "C", limit)
	said := []any{"found", found.Text, "limit", limit.Line()}
	return one(finding.Judge(measure.Within(span, middle.Value-cutOutBand, middle.Value+cutOutBand), finding.Words{
		Pass: sayHotGood.With(said...), Fail: sayHotBad.With(said...), CantTell: sayHotBad.With(said...), Mend: sayHotNext.With(),
	}).Value(found).Against(limit))
}
