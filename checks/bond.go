package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Where a pole is bonded to the frame it is bonded once, and well: a second
// bond lets working current flow through the frame.
var bondCheck = &Check{
	ID: "bond", Stage: Wire,
	Title:   say.Phrase{Key: "bond.title", English: "Bond to the frame"},
	Asks:    say.Phrase{Key: "bond.asks", English: "Is the bank bonded in one place, and by a low resistance?"},
	Formula: "n_bonds = 1; R_bond ≤ 1 Ω [Ω]",
	Limits:  []LimitOf{{"bond", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice},
	Fields:  []*Field{&bondPlan.Field, &bondPlaces.Field, &bondOhm.Field, &useOhms.Field},
	Parts:   onBank,
	Eval:    evalBond,
}

var (
	sayBondNone = say.Phrase{Key: "bond.floating", English: "The bank is planned to float: no pole is bonded."}
	sayBondGood = say.Phrase{Key: "bond.pass", English: "Bonded in one place by {found}; the limit is {limit}."}
	sayBondBad  = say.Phrase{Key: "bond.fail", English: "The bond has {found}; the limit is {limit}. A fault would not open the fuse."}
	sayBondUnk  = say.Phrase{Key: "bond.cant-tell", English: "The bond has {found}, too close to {limit} for this meter."}
	sayBondMany = say.Phrase{Key: "bond.many", English: "A pole is bonded in {n} places. Working current flows through the frame."}
	sayBondZero = say.Phrase{Key: "bond.missing", English: "A bond is planned, and there is none."}
	sayBondWild = say.Phrase{Key: "bond.unplanned", English: "The bank is planned to float, and a pole is bonded in {n} places."}
	sayBondNext = say.Phrase{Key: "bond.next", English: "Fit one bond at the place shown."}
	sayBondTake = say.Phrase{Key: "bond.remove", English: "Remove every bond but the one that is planned."}
)

// A bond of up to 1 Ω: from memory.
const mostBond unit.Ohm = 1

func evalBond(f *Facts, _ string) []finding.Finding {
	limit := finding.AtMost("bond", mostBond, finding.Practice, cite.CommonPractice.Line())
	answer := func(x finding.Finding) []finding.Finding { return one(x.Against(limit)) }
	plan, ok := bondPlan.Of(f, "bank")
	if !ok {
		return answer(missing(bondPlan.Field, "bank"))
	}
	places, hasPlaces := bondPlaces.Of(f, "bank")
	if plan == "none" {
		if hasPlaces && places.Value > 0 {
			return answer(finding.Fails(sayBondWild.With("n", typed(places)), sayBondTake.With()))
		}
		if !hasPlaces && f.holds(bondOhm.Field, "bank") {
			return answer(missing(bondPlaces.Field, "bank")) // somebody measured a bond that is not planned
		}
		return one(finding.Unneeded(sayBondNone.With()))
	}
	if !hasPlaces {
		return answer(missing(bondPlaces.Field, "bank"))
	}
	switch {
	case places.Value < 1:
		return answer(finding.Fails(sayBondZero.With(), sayBondNext.With()))
	case places.Value > 1:
		return answer(finding.Fails(sayBondMany.With("n", typed(places)), sayBondTake.With()))
	}
	r, ok := bondOhm.Read(f, "bank")
	if !ok {
		return answer(missing(bondOhm.Field, "bank"))
	}
	found := finding.Measured(r, "Ohm", limit)
	said := []any{"found", found.Text, "limit", exact(mostBond, "Ohm")}
	return answer(finding.Judge(measure.AtMost(r.Interval(), mostBond), finding.Words{
		Pass: sayBondGood.With(said...), Fail: sayBondBad.With(said...), CantTell: sayBondUnk.With(said...), Mend: sayBondNext.With(),
	}).Value(found))
}
