package checks

import (
	"strconv"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A block that leaks, smells, hisses, is hot or has swollen is not a block any
// more: it leaves the room before anything else is done.
var arrivedWhole = &Check{
	ID: "arrived-whole", Stage: Receive,
	Title:   say.Phrase{Key: "arrived-whole.title", English: "Arrived whole"},
	Asks:    say.Phrase{Key: "arrived-whole.asks", English: "Is every block whole, dry, cool, flat and without smell or sound?"},
	Formula: "leak, smell, hiss, heat, dent, wet = no; swelling ≤ 2 % of the thickness, fail above 5 %",
	Limits:  []LimitOf{{"condition", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&condition.Field, &swelling.Field, &arrivalPhoto.Field},
	Parts:   onBank,
	Eval:    evalArrivedWhole,
}

var (
	sayWholeGood    = say.Phrase{Key: "arrived-whole.pass", English: "Every block looks whole. A photo was taken; it is not attached here."}
	sayWholeSeen    = say.Phrase{Key: "arrived-whole.pass-shown", English: "Every block looks whole. Photos of them in this record: {n}."}
	sayWholeBad     = say.Phrase{Key: "arrived-whole.fail", English: "{part}: {condition}. Its inside may be burning without a flame."}
	sayWholeSwollen = say.Phrase{Key: "arrived-whole.swollen", English: "{part} is swollen by {found} of its thickness; above {most} it makes gas."}
	sayWholeFlat    = say.Phrase{Key: "arrived-whole.some", English: "{part} is swollen by {found} of its thickness; up to {limit} is usual, above {most} it is given back."}
	sayWholeHow     = say.Phrase{Key: "arrived-whole.how-much", English: "{part} is swollen, and nobody measured how much."}
	sayWholeMark    = say.Phrase{Key: "arrived-whole.marked", English: "{part}: {condition}. What happened to it inside cannot be seen."}
	sayWholePhoto   = say.Phrase{Key: "arrived-whole.no-photo", English: "Every block looks whole, but no photo was taken that shows it."}
	sayWholeOut     = say.Phrase{Key: "arrived-whole.next", English: "Move it outdoors, keep clear, cover posts and call the supplier."}
	sayWholeAsk     = say.Phrase{Key: "arrived-whole.ask", English: "Photograph it, set it aside and ask the supplier before it is used."}
	sayWholeTake    = say.Phrase{Key: "arrived-whole.take", English: "Take a photo of the blocks from all sides and enter that it is taken."}
	sayWholeLimit   = say.Phrase{Key: "arrived-whole.limit", English: "no dent, leak, smell, hiss, heat or water; swelling at most 2 %"}
)

const (
	// Up to 2 % a case is flat enough (our choice); above 5 % the block is
	// given back (from memory).
	flatEnough, swollenToo unit.Percent = 2, 5
)

func evalArrivedWhole(f *Facts, _ string) []finding.Finding {
	limit := finding.Limit{Name: "condition", Kind: finding.Practice, Source: cite.OurRule.Line(), Text: sayWholeLimit.With()}
	x, _ := worstOf(f.Layout().Blocks(), f.wholeBlock)
	if x.Verdict() != finding.Pass {
		return one(x.Against(limit))
	}
	if code, ok := arrivalPhoto.Of(f, "bank"); !ok {
		x = missing(arrivalPhoto.Field, "bank")
	} else if code != "yes" {
		x = finding.CannotTell(sayWholePhoto.With(), sayWholeTake.With())
	} else if n := f.photosFor(arrivalPhoto.Field, condition.Field); n > 0 {
		x = finding.Passes(sayWholeSeen.With("n", strconv.Itoa(n)))
	}
	return one(x.Against(limit))
}

func (f *Facts) wholeBlock(block string) finding.Finding {
	code, ok := condition.Of(f, block)
	if !ok {
		return missing(condition.Field, block)
	}
	said := []any{"part", bank.Name(block), "condition", optionLabel(condition.Options, code), "limit", exact(flatEnough, "%"), "most", exact(swollenToo, "%")}
	switch code {
	case "leak", "smell", "hiss", "hot":
		return finding.Fails(sayWholeBad.With(said...), sayWholeOut.With())
	}
	v, measured := swelling.Of(f, block)
	if measured {
		said = append(said, "found", typed(v))
		y := measure.Exact(v.Value).Interval()
		switch {
		case measure.AtMost(y, swollenToo) == measure.Outside:
			return finding.Fails(sayWholeSwollen.With(said...), sayWholeOut.With()).Value(finding.Typed(v))
		case measure.AtMost(y, flatEnough) == measure.Outside:
			return finding.CannotTell(sayWholeFlat.With(said...), sayWholeAsk.With()).Value(finding.Typed(v))
		}
	}
	switch {
	case code == "whole" || code == "swollen" && measured:
		return finding.Passes(sayWholeGood.With())
	case code == "swollen":
		return finding.CannotTell(sayWholeHow.With(said...), enter(swelling.Field, block))
	}
	return finding.CannotTell(sayWholeMark.With(said...), sayWholeAsk.With())
}
