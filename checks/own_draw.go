package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// What flows with everything off empties the bank unseen.
var ownDraw = &Check{
	ID: "own-draw", Stage: Prove,
	Title:   say.Phrase{Key: "own-draw.title", English: "Own consumption"},
	Asks:    say.Phrase{Key: "own-draw.asks", English: "Is the bank at rest when everything is off?"},
	Formula: "I ≤ I_sheet, else max(10 mA, 0.001·C/24 h) [A]",
	Limits:  []LimitOf{{"current", finding.Maker}, {"current", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&ownDrawAmps.Field, &ownDrawStated.Field},
	Parts:   onBank,
	Eval:    evalOwnDraw,
}

var (
	sayDrawSmall = say.Phrase{Key: "own-draw.pass", English: "With everything off {found} flows; the limit is {limit}."}
	sayDrawLarge = say.Phrase{Key: "own-draw.fail", English: "With everything off {found} flows; the limit is {limit}."}
	sayDrawUnk   = say.Phrase{Key: "own-draw.cant-tell", English: "With everything off {found} flows, too close to the limit of {limit} for this meter."}
	sayDrawNext  = say.Phrase{Key: "own-draw.next", English: "Find what still draws current, or fit an isolator."}
)

const (
	// Our choice.
	drawLeast unit.Ampere = 0.010
	drawPart  unit.Ratio  = 0.001
)

func evalOwnDraw(f *Facts, part string) []finding.Finding {
	amps, ok := ownDrawAmps.Read(f, part)
	if !ok {
		return one(missing(ownDrawAmps.Field, part))
	}
	amps = size(amps)
	b := base[unit.Ampere]{Kind: finding.Practice, Source: cite.OurRule.Line()}
	if own, ok := ownDrawStated.Plain(f, part); ok {
		b = base[unit.Ampere]{own, finding.Maker, cite.Maker("").Line()}
	} else {
		rated, silent := f.ratedCharge(part)
		if silent.Silent != "" {
			return one(silent.Missing())
		}
		const hoursPerDay = 24
		b.Value = max(drawLeast, unit.Ampere(float64(rated)*float64(drawPart)/hoursPerDay))
	}
	limit, most, notes := upper(f, "own-draw", "current", b)
	limit = limit.In("mA")
	found := finding.Measured(amps, "mA", limit)
	said := []any{"found", found.Text, "limit", rounded(most, "mA")}
	return one(finding.Judge(measure.AtMost(amps.Interval(), most), finding.Words{
		Pass: sayDrawSmall.With(said...), Fail: sayDrawLarge.With(said...), CantTell: sayDrawUnk.With(said...), Mend: sayDrawNext.With(),
	}).Value(found).Against(limit).Noting(notes...))
}
