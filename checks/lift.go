package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/lift"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A block is heavier than it looks. The lifting index is its mass over what
// the persons may lift where their hands must be.
var liftCheck = &Check{
	ID: "lift", Stage: Before,
	Title:   say.Phrase{Key: "lift.title", English: "Lifting a block"},
	Asks:    say.Phrase{Key: "lift.asks", English: "May a block be lifted here by hand, by so many persons?"},
	Formula: "LI = (m + u)/(RWL·f) ≤ 1 [1], f = 1, 1.33, 1.5 for 1, 2, 3 persons; RWL = 23 kg·HM·VM·DM·AM·FM·CM; fail above 2",
	Limits:  []LimitOf{{"index", finding.Standard}},
	Sources: []*cite.Source{&cite.NIOSHLift},
	Fields: []*Field{&liftHoist.Field, &liftPersons.Field, &liftReach.Field, &liftHeight.Field, &liftTravel.Field, &liftTwist.Field,
		&liftGrip.Field, &liftRate.Field, &sheetMass.Field, &blockMass.Field},
	Parts: onBank,
	Eval:  evalLift,
}

var (
	sayLiftHoist = say.Phrase{Key: "lift.hoist", English: "A hoist or a lift table does the lifting."}
	sayLiftGood  = say.Phrase{Key: "lift.pass", English: "{part} weighs {mass}; {persons} may lift {may} here. Index {found}, limit {limit}."}
	sayLiftHeavy = say.Phrase{Key: "lift.fail", English: "{part} weighs {mass}; {persons} may lift {may} here. Index {found}; above {most} backs are hurt."}
	sayLiftUnk   = say.Phrase{Key: "lift.cant-tell", English: "{part} weighs {mass}; {persons} may lift {may} here. Index {found}: up to {most} it needs a written lifting plan."}
	sayLiftNone  = say.Phrase{Key: "lift.none", English: "{part} weighs {mass}, and at this reach, height or turn nothing may be lifted by hand."}
	sayLiftOften = say.Phrase{Key: "lift.often", English: "So many lifts in a minute are beyond the table."}
	sayLiftNext  = say.Phrase{Key: "lift.next", English: "Get a second person or a hoist before lifting."}
	sayLiftSlow  = say.Phrase{Key: "lift.slow", English: "Lift less often, or use a hoist."}
	sayOnePerson = say.Phrase{Key: "lift.one", English: "one person"}
	sayPersons   = say.Phrase{Key: "lift.persons", English: "{n} persons"}

	sayAssumedLift = say.Phrase{Key: "assumed.lift", English: "One person, a poor grip, no turn and at most one lift in five minutes assumed where nothing else is entered."}
)

const (
	// Up to 1 nearly everybody may lift it; above 2 it is not done by hand.
	liftIndex, liftMost unit.Ratio = 1, 2
)

func evalLift(f *Facts, _ string) []finding.Finding {
	if !f.HasLayout() {
		return one(finding.Undone(sayNoLayout.With()))
	}
	if liftHoist.Yes(f, "bank") {
		return one(finding.Unneeded(sayLiftHoist.With()))
	}
	reach, hasReach := liftReach.Plain(f, "bank")
	height, hasHeight := liftHeight.Plain(f, "bank")
	travel, hasTravel := liftTravel.Plain(f, "bank")
	mass := f.blocksMass()
	if mass.gap != nil {
		return one(*mass.gap)
	}
	if x := firstMissing(need{hasReach, liftReach.Field, "bank"}, need{hasHeight, liftHeight.Field, "bank"}, need{hasTravel, liftTravel.Field, "bank"}); x != nil {
		return one(*x)
	}
	twist, hasTwist := liftTwist.Plain(f, "bank")
	rate, hasRate := liftRate.Plain(f, "bank")
	grip, hasGrip := liftGrip.Of(f, "bank")
	persons, hasPersons := liftPersons.Plain(f, "bank")
	if !hasTwist || !hasRate || !hasGrip || !hasPersons {
		f.assume(sayAssumedLift.With())
	}
	if !hasPersons {
		persons = 1
	}
	may, ok := lift.Recommended(lift.Lift{Reach: reach, Height: height, Travel: travel, Twist: float64(twist), PerMinute: float64(rate), Grip: gripOf(grip)})
	together, ok2 := lift.Together(int(persons))
	limit := finding.AtMost("index", liftIndex, finding.Standard, cite.NIOSHLift.Line())
	heavy := mass.heavy.Value + mass.heavy.U
	said := []any{"part", mass.blockName(), "mass", rounded(heavy, "kg"), "limit", exact(liftIndex, "ratio"), "most", exact(liftMost, "ratio")}
	switch {
	case !ok || !ok2:
		return one(finding.CannotTell(sayLiftOften.With(), sayLiftSlow.With()).Against(limit))
	case may == 0:
		return one(finding.Fails(sayLiftNone.With(said...), sayLiftNext.With()).About(mass.heavyID).Against(limit))
	}
	may *= unit.Kilogram(together)
	index := measure.Exact(unit.Ratio(heavy / may))
	found := finding.Measured(index, "ratio", limit)
	who := sayOnePerson.With()
	if persons > 1 {
		who = sayPersons.With("n", exact(persons, "1"))
	}
	said = append(said, "persons", who, "may", rounded(may, "kg"), "found", found.Text)
	x := finding.CannotTell(sayLiftUnk.With(said...), sayLiftNext.With())
	switch {
	case measure.AtMost(index.Interval(), liftIndex) == measure.Inside:
		x = finding.Passes(sayLiftGood.With(said...))
	case measure.AtMost(index.Interval(), liftMost) == measure.Outside:
		x = finding.Fails(sayLiftHeavy.With(said...), sayLiftNext.With())
	}
	return one(x.About(mass.heavyID).Value(found).Against(limit))
}

func gripOf(code string) lift.Grip {
	switch code {
	case "good":
		return lift.Good
	case "fair":
		return lift.Fair
	}
	return lift.Poor
}
