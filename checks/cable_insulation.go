package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// The cables alone are tested against the frame, both ends off, before they
// are joined to a block. Never across a block: the tester's voltage breaks its
// protection.
var cableInsulation = &Check{
	ID: "cable-insulation", Stage: Wire,
	Title:   say.Phrase{Key: "cable-insulation.title", English: "Insulation of the cables"},
	Asks:    say.Phrase{Key: "cable-insulation.asks", English: "Do the cables, free at both ends, hold their insulation against the frame?"},
	Formula: "R ≥ 1.0 MΩ [Ω] at U_test ≥ 250 V DC",
	Limits:  []LimitOf{{"insulation", finding.Standard}},
	Sources: []*cite.Source{&cite.IEC60364Insulation, &cite.OurRule},
	Fields:  []*Field{&insulFree.Field, &insulProved.Field, &insulVolts.Field, &insulation.Field, &insulTop.Field, &useInsulation.Field},
	Parts:   onBank,
	Eval:    evalCableInsulation,
}

var (
	sayInsulGood  = say.Phrase{Key: "cable-insulation.pass", English: "The cables hold {found} against the frame at {volts}; the limit is {limit}."}
	sayInsulTop   = say.Phrase{Key: "cable-insulation.over", English: "The tester showed more than {found} at {volts}; the limit is {limit}."}
	sayInsulBad   = say.Phrase{Key: "cable-insulation.fail", English: "The cables hold {found} against the frame at {volts}; the limit is {limit}. Current will find its way through the frame."}
	sayInsulUnk   = say.Phrase{Key: "cable-insulation.cant-tell", English: "The cables hold {found} at {volts}, too close to {limit} for this tester."}
	sayInsulShort = say.Phrase{Key: "cable-insulation.low-range", English: "The tester shows no more than {found}; {limit} is asked for."}
	sayInsulEnds  = say.Phrase{Key: "cable-insulation.not-free", English: "The cables were not free at both ends and joined together, so the reading is not theirs."}
	sayInsulProve = say.Phrase{Key: "cable-insulation.not-proved", English: "The tester was not proved before and after, so a good reading may be a broken lead."}
	sayInsulVolts = say.Phrase{Key: "cable-insulation.volts", English: "Tested at {volts}; {least} is asked for. Less does not find a scratch."}
	sayInsulNext  = say.Phrase{Key: "cable-insulation.next", English: "Free both cable ends, dry the cable and test again."}
	sayInsulAgain = say.Phrase{Key: "cable-insulation.prove", English: "Prove the tester on a known resistor, test again, and prove it once more."}
	sayInsulMore  = say.Phrase{Key: "cable-insulation.more", English: "Test again at {least}, cables alone."}
)

const (
	// 0.5 MΩ up to 50 V, 1.0 MΩ above it: of both rows the stricter, our choice,
	// because four blocks in series are 51.2 V. At 250 V DC.
	leastInsulation unit.Ohm  = 1e6
	insulationAt    unit.Volt = 250
)

func evalCableInsulation(f *Facts, _ string) []finding.Finding {
	return f.judgeInsulation(base[unit.Ohm]{leastInsulation, finding.Standard, cite.IEC60364Insulation.Line()})
}

// judgeInsulation judges the test of the cables against a lowest resistance.
func (f *Facts) judgeInsulation(least base[unit.Ohm]) []finding.Finding {
	limit := finding.AtLeast("insulation", least.Value, least.Kind, least.Source).In("MOhm")
	answer := func(x finding.Finding) []finding.Finding { return one(x.Against(limit)) }
	free, hasFree := insulFree.Of(f, "bank")
	proved, hasProved := insulProved.Of(f, "bank")
	volts, hasVolts := insulVolts.Of(f, "bank")
	shown, hasOhm := insulation.Of(f, "bank")
	if x := firstMissing(need{hasOhm, insulation.Field, "bank"}, need{hasVolts, insulVolts.Field, "bank"},
		need{hasFree, insulFree.Field, "bank"}, need{hasProved, insulProved.Field, "bank"}); x != nil {
		return answer(*x)
	}
	said := []any{"volts", typed(volts), "least", exact(insulationAt, "V"), "limit", exact(least.Value, "MOhm")}
	if free != "yes" {
		return answer(finding.CannotTell(sayInsulEnds.With(), sayInsulNext.With()))
	}
	r := absolute(f, shown)
	found := finding.Measured(r, "MOhm", limit)
	said = append(said, "found", found.Text)
	side := measure.AtLeast(r.Interval(), least.Value)
	over := insulTop.Yes(f, "bank")
	if over {
		said = replaced(said, "found", typed(shown))
		side = measure.AtLeast(measure.Exact(shown.Value).Interval(), least.Value)
	}
	switch {
	case over && side != measure.Inside:
		return answer(finding.CannotTell(sayInsulShort.With(said...), sayInsulAgain.With()))
	case side == measure.Outside:
		return answer(finding.Fails(sayInsulBad.With(said...), sayInsulNext.With()).Value(found))
	case proved != "yes":
		return answer(finding.CannotTell(sayInsulProve.With(), sayInsulAgain.With()))
	case measure.AtLeast(measure.Exact(volts.Value).Interval(), insulationAt) != measure.Inside:
		return answer(finding.CannotTell(sayInsulVolts.With(said...), sayInsulMore.With(said...)))
	case over:
		return answer(finding.Passes(sayInsulTop.With(said...)).Value(finding.Typed(shown)))
	case side == measure.Across:
		return answer(finding.CannotTell(sayInsulUnk.With(said...), sayInsulNext.With()).Value(found))
	}
	return answer(finding.Passes(sayInsulGood.With(said...)).Value(found))
}
