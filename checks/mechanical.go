package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
)

// What a look round the bank shows: straps, chafe, corrosion, air, swelling, and
// whether anything of it is opened or exchanged today.
// Swelling is judged as on arrival: up to 2 % of the thickness is flat, above
// 5 % the block makes gas, and between them nobody can say.
var mechanicalCheck = &Check{
	ID: "mechanical", Stage: Return, Visits: AtReturn,
	Title:   say.Phrase{Key: "mechanical.title", English: "Look round the bank"},
	Asks:    say.Phrase{Key: "mechanical.asks", English: "Is every block flat, strapped and dry, and nothing chafed, corroded or blocked?"},
	Formula: "swelling ≤ 2 % of the thickness; nothing damaged, chafed, corroded or blocked",
	Limits:  []LimitOf{{"swelling", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&rebuilt.Field, &soundStill.Field, &swellAgain.Field},
	Parts:   onBank,
	Eval:    evalMechanical,
}

var (
	sayLookGood  = say.Phrase{Key: "mechanical.pass", English: "Nothing is damaged, and the worst block is swollen by {found} of its thickness; up to {limit} is flat."}
	sayLookBad   = say.Phrase{Key: "mechanical.fail", English: "Something is damaged, chafed, corroded or has its air blocked."}
	sayLookGas   = say.Phrase{Key: "mechanical.swollen", English: "The worst block is swollen by {found} of its thickness; above {most} it makes gas."}
	sayLookUnk   = say.Phrase{Key: "mechanical.cant-tell", English: "The worst block is swollen by {found} of its thickness; up to {limit} is flat, above {most} it makes gas."}
	sayLookNext  = say.Phrase{Key: "mechanical.next", English: "Repair what moved before the bank is used."}
	sayLookOut   = say.Phrase{Key: "mechanical.out", English: "Load and charger off, main open. Take that block out of use, keep clear and call its supplier."}
	sayLookWatch = say.Phrase{Key: "mechanical.watch", English: "Photograph and measure that block, ask its supplier, and measure again within a month."}
)

func evalMechanical(f *Facts, _ string) []finding.Finding {
	limit := finding.AtMost("swelling", flatEnough, finding.Practice, cite.OurRule.Line())
	_, answered := rebuilt.Of(f, "bank")
	sound, looked := soundStill.Of(f, "bank")
	v, measured := swellAgain.Of(f, "bank")
	said := []any{"limit", exact(flatEnough, "%"), "most", exact(swollenToo, "%")}
	if measured {
		said = append(said, "found", typed(v))
	}
	y := measure.Exact(v.Value).Interval()
	switch {
	case measured && measure.AtMost(y, swollenToo) == measure.Outside:
		return one(finding.Fails(sayLookGas.With(said...), sayLookOut.With()).Value(finding.Typed(v)).Against(limit))
	case looked && sound != "yes":
		return one(finding.Fails(sayLookBad.With(), sayLookNext.With()).Against(limit))
	}
	if x := firstMissing(need{answered, rebuilt.Field, "bank"}, need{looked, soundStill.Field, "bank"}, need{measured, swellAgain.Field, "bank"}); x != nil {
		return one(x.Against(limit))
	}
	if measure.AtMost(y, flatEnough) != measure.Inside {
		return one(finding.CannotTell(sayLookUnk.With(said...), sayLookWatch.With()).Value(finding.Typed(v)).Against(limit))
	}
	return one(finding.Passes(sayLookGood.With(said...)).Value(finding.Typed(v)).Against(limit))
}
