package checks

import (
	"strconv"

	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A lug lies with its copper on the pad of the post. A washer in between
// carries the current badly, and too many lugs leave the bolt too little thread.
var lugStack = &Check{
	ID: "lug-stack", Stage: Wire,
	Title:   say.Phrase{Key: "lug-stack.title", English: "Lugs on the posts"},
	Asks:    say.Phrase{Key: "lug-stack.asks", English: "Does every lug lie on its pad, in the right order and not too many?"},
	Formula: "lug on the pad, largest first; n_lugs ≤ 4; thread ≥ 1 diameter of the bolt",
	Limits:  []LimitOf{{"lugs", finding.Standard}, {"stack", finding.Standard}},
	Sources: []*cite.Source{&cite.LugStack},
	Fields:  []*Field{&lugStacks.Field, &lugCount.Field, &lugThread.Field, &lugPhoto.Field},
	Parts:   onBank,
	Eval:    evalLugStack,
}

var (
	sayStackGood   = say.Phrase{Key: "lug-stack.pass", English: "At every post the lugs lie on the pad, largest first, {n} at most. A photo was taken; it is not attached here."}
	sayStackSeen   = say.Phrase{Key: "lug-stack.pass-shown", English: "At every post the lugs lie on the pad, largest first, {n} at most. Photos of them in this record: {photos}."}
	sayStackBad    = say.Phrase{Key: "lug-stack.fail", English: "Not every lug lies on its pad, without a washer between and largest first. Steel between copper gets hot."}
	sayStackMany   = say.Phrase{Key: "lug-stack.many", English: "One post holds {n} lugs; at most {limit} are allowed. Each one more is a joint more and thread less."}
	sayStackThread = say.Phrase{Key: "lug-stack.thread", English: "Not every bolt holds one diameter of thread without touching the ground of its hole. It may feel tight and press nothing."}
	sayStackPhoto  = say.Phrase{Key: "lug-stack.no-photo", English: "The lugs lie as they should, but no photo was taken that shows it."}
	sayStackNext   = say.Phrase{Key: "lug-stack.next", English: "Undo and rebuild the stack as drawn."}
	sayStackFewer  = say.Phrase{Key: "lug-stack.bar", English: "Move a lug to a bus bar, then rebuild the stack."}
	sayStackBolt   = say.Phrase{Key: "lug-stack.bolt", English: "Fit a bolt of the right length."}
	sayStackTake   = say.Phrase{Key: "lug-stack.take", English: "Take a photo of every post and enter that it is taken."}
	sayStackLimit  = say.Phrase{Key: "lug-stack.limit", English: "copper on the pad, largest first, at most 4 lugs"}
)

// At most 4 lugs on one post: a marine article.
const mostLugs unit.Count = 4

func evalLugStack(f *Facts, _ string) []finding.Finding {
	limit := finding.Limit{Name: "stack", Kind: finding.Standard, Source: cite.LugStack.Line(), Text: sayStackLimit.With()}
	answer := func(x finding.Finding) []finding.Finding { return one(x.Against(limit)) }
	order, hasOrder := lugStacks.Of(f, "bank")
	count, hasCount := lugCount.Of(f, "bank")
	thread, hasThread := lugThread.Of(f, "bank")
	photo, hasPhoto := lugPhoto.Of(f, "bank")
	switch {
	case hasOrder && order != "yes":
		return answer(finding.Fails(sayStackBad.With(), sayStackNext.With()))
	case hasCount && measure.AtMost(measure.Exact(count.Value).Interval(), mostLugs) != measure.Inside:
		most := finding.AtMost("lugs", mostLugs, finding.Standard, cite.LugStack.Line())
		x := finding.Fails(sayStackMany.With("n", typed(count), "limit", exact(mostLugs, "1")), sayStackFewer.With())
		return one(x.Value(finding.Typed(count)).Against(most))
	case hasThread && thread != "yes":
		return answer(finding.Fails(sayStackThread.With(), sayStackBolt.With()))
	}
	if x := firstMissing(need{hasOrder, lugStacks.Field, "bank"}, need{hasCount, lugCount.Field, "bank"},
		need{hasThread, lugThread.Field, "bank"}, need{hasPhoto, lugPhoto.Field, "bank"}); x != nil {
		return answer(*x)
	}
	if photo != "yes" {
		return answer(finding.CannotTell(sayStackPhoto.With(), sayStackTake.With()))
	}
	if n := f.photosFor(lugPhoto.Field); n > 0 {
		return answer(finding.Passes(sayStackSeen.With("n", typed(count), "photos", strconv.Itoa(n))))
	}
	return answer(finding.Passes(sayStackGood.With("n", typed(count))))
}
