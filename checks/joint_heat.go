package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A bad joint is warmer than its like.
//
// After 20 minutes at 40 % of the largest steady current or more; a Pass takes
// 80 %. Bare metal shows an infrared thermometer the room and not itself.
var jointHeat = &Check{
	ID: "joint-heat", Stage: Prove,
	Title:   say.Phrase{Key: "joint-heat.title", English: "Heat of the joints"},
	Asks:    say.Phrase{Key: "joint-heat.asks", English: "Does any joint run hotter than its like?"},
	Formula: "ΔT·(I_design/I)² ≤ 3 K between like joints [K]; T_hottest + (T − T_air)·(I_design/I)² ≤ T_terminal, else 60 °C [°C]",
	Limits:  []LimitOf{{"difference", finding.Standard}, {"rating", finding.Practice}},
	Sources: []*cite.Source{&cite.NETAHeat, &cite.CommonPractice, &cite.OurRule},
	Fields:  []*Field{&heatJoint.Field, &heatLike.Field, &heatAir.Field, &heatAmps.Field, &heatTime.Field, &heatMethod.Field, &designCurrent.Field, &cableTerminal.Field, &siteHottest.Field},
	Parts:   jointHeatParts,
	Eval:    evalJointHeat,
}

var (
	sayHeatGood  = say.Phrase{Key: "joint-heat.pass", English: "At full load like joints lie {found} apart; the limit is {limit}. The hottest reaches {top}, and the terminals bear {rating}."}
	sayHeatBad   = say.Phrase{Key: "joint-heat.fail", English: "At full load like joints lie {found} apart; the limit is {limit}."}
	sayHeatUnk   = say.Phrase{Key: "joint-heat.cant-tell", English: "At full load like joints lie {found} apart, too close to the limit of {limit}."}
	sayHeatOver  = say.Phrase{Key: "joint-heat.rating", English: "At full load and in the hottest air the joint reaches {top}; the terminals bear {rating}."}
	sayHeatBare  = say.Phrase{Key: "joint-heat.bare", English: "It was read by infrared on bare metal, which shows the room and not the joint."}
	sayHeatLight = say.Phrase{Key: "joint-heat.light", English: "{amps} is less than {part} of the {design} that the bank must carry."}
	sayHeatBrief = say.Phrase{Key: "joint-heat.brief", English: "The load had lasted {time}; joints take 20 minutes to warm."}
	sayHeatCool  = say.Phrase{Key: "joint-heat.cool", English: "The hottest joint reads colder than the air beside it, {air}; nothing cools a joint that carries current."}
	sayHeatTape  = say.Phrase{Key: "joint-heat.next", English: "Put tape on the joint and read again. Else load and charger off, main open, and remake it."}
	sayHeatLoad  = say.Phrase{Key: "joint-heat.more", English: "Read again after 20 minutes at 80 % or more of the largest steady current."}
)

const (
	// Between like joints: NETA's first row.
	heatApart unit.Kelvin = 3

	// Our choice: what the load must be at least, and for a Pass.
	heatLeast, heatEnough unit.Ampere = 0.4, 0.8
	heatLong              unit.Second = 1200

	// Terminals whose rating nobody knows.
	usualTerminal unit.Celsius = 60

	// Two like targets read one after the other by one instrument.
	pairU unit.Kelvin = 1
)

func jointHeatParts(f *Facts) ([]string, say.Line) {
	if len(f.Layout().Joints()) == 0 {
		return nil, sayNoJoints.With()
	}
	return onBank(f)
}

func evalJointHeat(f *Facts, part string) []finding.Finding {
	shown, hasHot := heatJoint.Of(f, part)
	hasHot = hasHot && !f.unlinkedSince(part, shown.Lam, shown.At) // a joint made again was not looked at
	hot := shown.Value
	like, hasLike := heatLike.Plain(f, part)
	air, hasAir := heatAir.Plain(f, part)
	amps, hasAmps := heatAmps.Read(f, part)
	time, hasTime := heatTime.Plain(f, part)
	method, known := heatMethod.Of(f, part)
	if x := firstMissing(need{hasHot, heatJoint.Field, part}, need{hasLike, heatLike.Field, part}, need{hasAir, heatAir.Field, part},
		need{hasAmps, heatAmps.Field, part}, need{hasTime, heatTime.Field, part}, need{known, heatMethod.Field, part}); x != nil {
		return one(*x)
	}
	design, gap := f.designAmps()
	if gap != nil {
		return one(*gap)
	}
	hottest, ok := siteHottest.Plain(f, "site")
	if !ok {
		return one(missing(siteHottest.Field, "site"))
	}
	rating, ok := cableTerminal.Plain(f, part)
	if !ok {
		rating = usualTerminal
	}
	hot, like = max(hot, like), min(hot, like) // whoever wrote them into the wrong fields
	scale := unit.Kelvin(1)
	if amps.Value > 0 && amps.Value < design {
		scale = unit.Kelvin(float64(design/amps.Value) * float64(design/amps.Value))
	}
	limit, most, notes := upper(f, "joint-heat", "difference", base[unit.Kelvin]{heatApart, finding.Standard, cite.NETAHeat.Line()})
	apart := measure.Reading[unit.Kelvin]{Value: unit.Kelvin(hot-like) * scale, U: pairU * scale}
	found := finding.Measured(apart, "K", limit)
	above := func(t unit.Celsius) unit.Celsius { return hottest + (t-air)*unit.Celsius(scale) }
	top := measure.Interval[unit.Celsius]{Low: above(hot - sensorU), High: above(hot + sensorU)}
	said := []any{"found", found.Text, "limit", exact(most, "K"), "rating", exact(rating, "C"), "top", finding.Predicted(top, "C", finding.Limit{}).Text,
		"amps", rounded(amps.Value, "A"), "design", exact(design, "A"), "time", exact(time, "min")}
	var x finding.Finding
	heat := finding.AtMost("rating", rating, finding.Practice, cite.CommonPractice.Line())
	switch {
	case method == "bare":
		x = finding.CannotTell(sayHeatBare.With(), sayHeatTape.With())
	case measure.AtLeast(amps.Interval(), design*heatLeast) != measure.Inside:
		x = finding.CannotTell(sayHeatLight.With(append(said, "part", exact(unit.Percent(heatLeast*100), "%"))...), sayHeatLoad.With())
	case hot+sensorU < air:
		x = finding.CannotTell(sayHeatCool.With("air", exact(air, "C")), sayHeatTape.With())
	case measure.AtMost(apart.Interval(), most) == measure.Outside:
		x = finding.Fails(sayHeatBad.With(said...), sayHeatTape.With())
	case measure.AtMost(top, rating) == measure.Outside:
		return one(finding.Fails(sayHeatOver.With(said...), sayHeatTape.With()).Value(finding.Predicted(top, "C", heat)).Against(heat))
	case time < heatLong:
		x = finding.CannotTell(sayHeatBrief.With(said...), sayHeatLoad.With())
	case measure.AtLeast(amps.Interval(), design*heatEnough) != measure.Inside:
		x = finding.CannotTell(sayHeatLight.With(append(said, "part", exact(unit.Percent(heatEnough*100), "%"))...), sayHeatLoad.With())
	case measure.AtMost(apart.Interval(), most) != measure.Inside:
		x = finding.CannotTell(sayHeatUnk.With(said...), sayHeatTape.With())
	case measure.AtMost(top, rating) != measure.Inside:
		x = finding.CannotTell(sayHeatOver.With(said...), sayHeatTape.With())
	default:
		x = finding.Passes(sayHeatGood.With(said...))
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}
