package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A block whose resistance rises ages, or has lost contact inside.
//
// As with joints it passes only against every earlier visit that read it.
var blockRDrift = &Check{
	ID: "block-r-drift", Stage: Return, Visits: AtReturn,
	Title:   say.Phrase{Key: "block-r-drift.title", English: "Blocks since the last visit"},
	Asks:    say.Phrase{Key: "block-r-drift.asks", English: "Has every block the resistance that it had?"},
	Formula: "R/R0 ≤ 1.3 is well, > 1.5 is worn",
	Limits:  []LimitOf{{"ratio", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.OurRule},
	Fields:  []*Field{&blockR.Field, &blockTemp.Field, &stepMethod.Field, &stepAmps.Field},
	Parts:   onBlocks,
	Eval:    evalBlockRDrift,
}

var (
	sayRiseGood  = say.Phrase{Key: "block-r-drift.pass", English: "It has {now}, {found} times the {was} of {visit}; the limit is {limit}."}
	sayRiseBad   = say.Phrase{Key: "block-r-drift.fail", English: "It has {now}, {found} times the {was} of {visit}; above {most} it is worn."}
	sayRiseUnk   = say.Phrase{Key: "block-r-drift.cant-tell", English: "It has {now}, {found} times the {was} of {visit}; up to {limit} it is well, above {most} it is worn."}
	sayRiseCreep = say.Phrase{Key: "block-r-drift.creeps", English: "It has {now}, {found} times the {was} of {visit}; the limit is {limit}. Against the last visit it hardly moved, but it creeps."}
	sayRiseNone  = say.Phrase{Key: "block-r-drift.none", English: "It has {now}."}
	sayRiseVague = say.Phrase{Key: "block-r-drift.vague", English: "It has {now}; what {visit} read may be nothing at all, within its uncertainty."}
	sayRiseWarm  = say.Phrase{Key: "block-r-drift.temperature", English: "It has {now}. It need not have been within {apart} of what it was at {visit}, and a cold block has more resistance."}
	sayRiseBlank = say.Phrase{Key: "block-r-drift.temperature-unknown", English: "It has {now}, but its temperature at {visit} is not known, and a cold block has more resistance."}
	sayRiseOther = say.Phrase{Key: "block-r-drift.method", English: "It has {now}, read another way than at {visit}, or nobody entered how it was read then."}
	sayRiseStep  = say.Phrase{Key: "block-r-drift.step-then", English: "It has {now}; at {visit} it was read by a step that was too small or not entered."}
	sayRiseSmall = say.Phrase{Key: "block-r-drift.small-step", English: "It has {now}, by a step of {amps} or one that is not entered; below {least} the meter's digits decide and not the block."}
	sayRiseTest  = say.Phrase{Key: "block-r-drift.test", English: "Run a capacity test on this block."}
	sayRiseAgain = say.Phrase{Key: "block-r-drift.again", English: "Read it again at the temperature of {visit}, the same way."}
	sayRiseKeep  = say.Phrase{Key: "block-r-drift.keep", English: "Keep this reading with its temperature: the next visit compares with it."}
)

// Up to 1.3 times its first value a block is well, above 1.5 it is worn; from
// memory, after what is done with lead-acid.
const blockWell, blockWorn unit.Ratio = 1.3, 1.5

// ohmsShown is the resistance of one block with what it hangs on.
type ohmsShown struct {
	r      measure.Shown[unit.Ohm]
	temp   measure.Shown[unit.Celsius]
	warm   bool // the temperature is known
	method string
	step   unit.Ampere // 0 not entered
}

func (f *Facts) ohmsShown(block string) (s ohmsShown, gap *finding.Finding) {
	var ok bool
	if s.r, ok = blockR.Of(f, block); !ok || s.r.Value <= 0 {
		x := missing(blockR.Field, block)
		return s, &x
	}
	s.temp, s.warm = blockTemp.Of(f, block)
	s.method, _ = stepMethod.Of(f, "bank")
	s.step, _ = stepAmps.Plain(f, "bank")
	return s, nil
}

// tooSmall reports whether the current step was too small for a reading.
func (s ohmsShown) tooSmall() bool { return s.method != "1khz" && s.step < leastOhmStep }

func evalBlockRDrift(f *Facts, block string) []finding.Finding {
	limit := finding.AtMost("ratio", blockWell, finding.Practice, cite.CommonPractice.Line())
	now, gap := f.ohmsShown(block)
	if gap != nil {
		return one(gap.Against(limit))
	}
	if x := firstMissing(need{now.warm, blockTemp.Field, block}, need{now.method != "", stepMethod.Field, "bank"}); x != nil {
		return one(x.Against(limit))
	}
	said := []any{"now", finding.Measured(absolute(f, now.r), "mOhm", finding.Limit{}).Text, "limit", exact(blockWell, "ratio"), "most", exact(blockWorn, "ratio"),
		"apart", exact(alikeTemp, "K"), "amps", exact(now.step, "A"), "least", exact(leastOhmStep, "A")}
	if now.tooSmall() {
		return one(finding.CannotTell(sayRiseSmall.With(said...), sayOhmAgain.With()).Against(limit))
	}
	all := baselines(f, func(then *Facts) (ohmsShown, bool) {
		s, lack := then.ohmsShown(block)
		return s, lack == nil
	})
	if len(all) == 0 {
		return one(finding.CannotTell(sayNoneYet.With("found", sayRiseNone.With(said...)), sayRiseKeep.With()).Against(limit))
	}
	x, _ := f.ohmsAgainst(now, all[0], said)
	if x.Verdict() == finding.Pass {
		for _, older := range all[1:] {
			if _, creeps := f.ohmsAgainst(now, older, said); creeps != nil {
				x = *creeps
				break
			}
		}
	}
	return one(x.Against(limit).About(block))
}

// ohmsAgainst judges a block against one earlier visit; creeps is what to say
// where it does not pass there although it passes against a later one, nil where
// the two cannot be compared at all.
func (f *Facts) ohmsAgainst(now ohmsShown, was baseline[ohmsShown], said []any) (x finding.Finding, creeps *finding.Finding) {
	then, before := was.At, was.Value
	said = append(said[:len(said):len(said)], "visit", visitLine(was.Visit, before.r.At), "was", typed(before.r))
	again := sayRiseAgain.With(said...)
	refuse := func(p say.Phrase) finding.Finding { return finding.CannotTell(p.With(said...), again) }
	r, ok := ratioTo(f, then, now.r, before.r)
	same := oneMeter(f, then, now.temp, before.temp)
	a, b := measure.Absolute(now.temp, gainless(specOf(f, now.temp), same)), measure.Absolute(before.temp, gainless(specOf(then, before.temp), same))
	apart := measure.Reading[unit.Celsius]{Value: a.Value - b.Value, U: unit.Celsius(measure.Combine(float64(a.U), float64(b.U)))}
	f.adopt(then)
	switch {
	case before.method != now.method:
		return refuse(sayRiseOther), nil
	case before.tooSmall():
		return refuse(sayRiseStep), nil
	case !before.warm:
		return refuse(sayRiseBlank), nil
	case !ok:
		x = refuse(sayRiseVague)
		return x, &x
	case measure.Within(apart.Interval(), -unit.Celsius(alikeTemp), unit.Celsius(alikeTemp)) != measure.Inside:
		x = refuse(sayRiseWarm)
		return x, &x
	}
	limit := finding.AtMost("ratio", blockWell, finding.Practice, cite.CommonPractice.Line())
	found := finding.Measured(r, "ratio", limit)
	said = append(said, "found", found.Text)
	side := measure.AtMost(r.Interval(), blockWell)
	switch {
	case side == measure.Inside:
		return finding.Passes(sayRiseGood.With(said...)).Value(found), nil
	case measure.AtMost(r.Interval(), blockWorn) == measure.Outside:
		x = finding.Fails(sayRiseBad.With(said...), sayRiseTest.With()).Value(found)
	default:
		x = finding.CannotTell(sayRiseUnk.With(said...), sayRiseTest.With()).Value(found)
	}
	y := finding.CannotTell(sayRiseCreep.With(said...), sayRiseTest.With()).Value(found)
	return x, &y
}
