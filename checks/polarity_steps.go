package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// From minus to plus every block adds its own volts. The black probe stays on
// the lowest minus, the red one climbs from plus to plus.
// Only the steps name a block that is in backwards; the total cannot.
var polaritySteps = &Check{
	ID: "polarity-steps", Stage: Wire,
	Title:   say.Phrase{Key: "polarity-steps.title", English: "Polarity, step by step"},
	Asks:    say.Phrase{Key: "polarity-steps.asks", English: "Does every block add its volts, or is one in backwards?"},
	Formula: "step_k = U_k − U_(k−1), U_0 = 0; 8 V ≤ step_k ≤ 14.7 V [V]",
	Limits:  []LimitOf{{"step", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&stepVoltage.Field},
	Parts:   polarityParts,
	Eval:    evalPolaritySteps,
}

var (
	sayStepsGood  = say.Phrase{Key: "polarity-steps.pass", English: "Every step from minus to plus lies in the window of {limit}; the least is {found}, at {owner}."}
	sayStepBack   = say.Phrase{Key: "polarity-steps.fail", English: "At {owner} the volts fall by {down} instead of rising: {owner} is in backwards."}
	sayStepHigh   = say.Phrase{Key: "polarity-steps.high", English: "The step at {owner} is {found}, more than one block can show; the window is {limit}."}
	sayStepSmall  = say.Phrase{Key: "polarity-steps.cant-tell", English: "The step at {owner} is {found}; the window is {limit}. So small a step is a sleeping block or a lead that is off, and its sign proves nothing."}
	sayStepEdge   = say.Phrase{Key: "polarity-steps.edge", English: "The step at {owner} is {found}, too close to an end of the window of {limit} for this meter."}
	sayTurnBlock  = say.Phrase{Key: "polarity-steps.turn", English: "Open the links on both sides of {owner}, turn it, and read the steps again."}
	sayFindTie    = say.Phrase{Key: "polarity-steps.find", English: "Read this step again; if it stands, find what else lies between the two posts."}
	sayWakeBlock  = say.Phrase{Key: "polarity-steps.wake", English: "Read {owner} at its own posts; wake it by the maker's method or refit its lead, then read the steps again."}
	sayStepBetter = say.Phrase{Key: "polarity-steps.better", English: "Read this block at its own posts, or use a finer meter."}
)

const (
	// A step below 8 V is no block in service, upward or downward, and one
	// above 14.7 V is more than a block can show: our rule.
	leastStep             = aboveSleep
	largestStep unit.Volt = 14.7
)

// polarityParts: each string by itself; groups are climbed once.
func polarityParts(f *Facts) ([]string, say.Line) {
	if f.Layout().Join == bank.JoinGroups {
		return []string{"bank"}, say.Line{}
	}
	return onUnits(f)
}

// stair is one step of a climb: whose volts it adds, and the two readings.
type stair struct {
	owner string // the block, or the group
	post  string
	upper measure.Shown[unit.Volt]
	step  measure.Reading[unit.Volt]
}

// climb gives the steps of a string, or of the bank's groups, from minus up,
// as far as both readings of a step are there; gap is the first post that was
// not read, "" when none is missing.
func (f *Facts) climb(part string) (stairs []stair, gap string) {
	var posts, owners []string
	if part == "bank" && f.Layout().Join == bank.JoinGroups {
		for _, g := range f.Layout().Groups() {
			posts, owners = append(posts, g.ID+".p"), append(owners, g.ID)
		}
	} else {
		for _, b := range f.BlocksOf(part) {
			posts, owners = append(posts, b+".p"), append(owners, b)
		}
	}
	var below measure.Shown[unit.Volt]
	known := true // minus itself reads nothing
	for i := len(posts) - 1; i >= 0; i-- {
		v, ok := stepVoltage.Of(f, posts[i])
		ok = ok && !f.unlinkedSince(part, v.Lam, v.At)
		switch {
		case !ok && gap == "":
			gap = posts[i]
		case ok && known && i == len(posts)-1:
			stairs = append(stairs, stair{owners[i], posts[i], v, absolute(f, v)})
		case ok && known:
			stairs = append(stairs, stair{owners[i], posts[i], v, difference(f, v, below, 0)})
		}
		below, known = v, ok
	}
	return stairs, gap
}

// backwards reports whether the volts fall by a whole block.
func (s stair) backwards() bool {
	return measure.AtMost(s.step.Interval(), -leastStep) == measure.Inside
}

// tooHigh reports whether the step is more than one block can show.
func (s stair) tooHigh() bool {
	return measure.AtMost(s.step.Interval(), largestStep) == measure.Outside
}

// good reports whether the step lies in the window.
func (s stair) good() bool {
	return measure.Within(s.step.Interval(), leastStep, largestStep) == measure.Inside
}

func evalPolaritySteps(f *Facts, part string) []finding.Finding {
	limit := finding.Window("step", leastStep, largestStep, finding.Practice, cite.OurRule.Line())
	stairs, gap := f.climb(part)
	first := func(is func(stair) bool) *stair {
		for i := range stairs {
			if is(stairs[i]) {
				return &stairs[i]
			}
		}
		return nil
	}
	answer := func(s *stair, build func(said ...any) finding.Finding) []finding.Finding {
		found := finding.Measured(s.step, "V", limit)
		x := build("owner", bank.Name(s.owner), "found", found.Text, "limit", limit.Line(), "down", exact(-s.step.Value, "V"))
		if x.Verdict() != finding.Pass {
			x = x.About(s.owner)
		}
		return one(x.Value(found).Against(limit))
	}
	if s := first(stair.backwards); s != nil {
		return answer(s, func(said ...any) finding.Finding {
			return finding.Fails(sayStepBack.With(said...), sayTurnBlock.With(said...))
		})
	}
	if s := first(stair.tooHigh); s != nil {
		return answer(s, func(said ...any) finding.Finding {
			return finding.Fails(sayStepHigh.With(said...), sayFindTie.With())
		})
	}
	if gap != "" {
		return one(missing(stepVoltage.Field, gap).Against(limit))
	}
	if s := first(func(s stair) bool { return !s.good() }); s != nil {
		return answer(s, func(said ...any) finding.Finding {
			if s.step.Value < leastStep {
				return finding.CannotTell(sayStepSmall.With(said...), sayWakeBlock.With(said...))
			}
			return finding.CannotTell(sayStepEdge.With(said...), sayStepBetter.With())
		})
	}
	least := &stairs[0]
	for i := range stairs {
		if stairs[i].step.Value < least.step.Value {
			least = &stairs[i]
		}
	}
	return answer(least, func(said ...any) finding.Finding { return finding.Passes(sayStepsGood.With(said...)) })
}
