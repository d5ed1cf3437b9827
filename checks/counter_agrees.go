package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A counter with its shunt the wrong way round or set for another one lies
// about everything that follows.
var counterAgrees = &Check{
	ID: "counter-agrees", Stage: Prove,
	Title:   say.Phrase{Key: "counter-agrees.title", English: "Counter against clamp"},
	Asks:    say.Phrase{Key: "counter-agrees.asks", English: "Does the counter show what really flows, with the right sign?"},
	Formula: "sign(I_counter) = sign(I_clamp), minus out and plus in; |I_counter − I_clamp| ≤ max(0.05·|I_clamp|, 1 A) [A], out and in; |I_counter| ≤ 0.2 A at I = 0",
	Limits:  []LimitOf{{"difference", finding.Practice}, {"zero", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&counterFitted.Field, &counterOut.Field, &clampOut.Field, &counterIn.Field, &clampIn.Field, &counterZero.Field, &clampZeroed.Field, &designCurrent.Field},
	Parts:   counterParts,
	Eval:    evalCounter,
}

var (
	sayCountNone  = say.Phrase{Key: "counter-agrees.none", English: "No counter is fitted."}
	sayCountGood  = say.Phrase{Key: "counter-agrees.pass", English: "Counter and clamp lie {found} apart at most; the limit is {limit}."}
	sayCountBad   = say.Phrase{Key: "counter-agrees.fail", English: "Counter and clamp lie {found} apart; the limit is {limit}."}
	sayCountUnk   = say.Phrase{Key: "counter-agrees.cant-tell", English: "Counter and clamp lie {found} apart, too close to the limit of {limit} for this clamp."}
	sayCountSign  = say.Phrase{Key: "counter-agrees.sign", English: "The counter shows {counter} and the clamp {clamp}: opposite signs."}
	sayCountTurn  = say.Phrase{Key: "counter-agrees.turned", English: "The clamp shows {clamp} where current flows {way} the bank. Out of it is minus, into it plus; so the sign of the counter is not proved."}
	sayCountOut   = say.Phrase{Key: "counter-agrees.out-of", English: "out of"}
	sayCountInto  = say.Phrase{Key: "counter-agrees.into", English: "into"}
	sayCountArrow = say.Phrase{Key: "counter-agrees.arrow", English: "Put the clamp on with its arrow into the bank, and read both again."}
	sayCountZero  = say.Phrase{Key: "counter-agrees.zero", English: "The counter shows {counter} with no current; the limit is {least}."}
	sayCountSmall = say.Phrase{Key: "counter-agrees.small", English: "{clamp} is less than 20 % of the {design} that the bank must carry."}
	sayCountNext  = say.Phrase{Key: "counter-agrees.next", English: "Turn the shunt leads or set the counter, then read again."}
	sayCountMore  = say.Phrase{Key: "counter-agrees.more", English: "Zero the clamp and read both again at a larger current."}
)

const (
	// Our choice, all of them.
	countPart   unit.Ampere = 0.05
	countLeast  unit.Ampere = 1
	countAtRest unit.Ampere = 0.2
	countEnough unit.Ampere = 0.2
)

func counterParts(f *Facts) ([]string, say.Line) {
	var none bool
	f.quietly(func() {
		code, ok := counterFitted.Of(f, "shunt")
		none = ok && code == "no"
	})
	if none {
		return nil, sayCountNone.With()
	}
	return []string{"shunt"}, say.Line{}
}

func evalCounter(f *Facts, part string) []finding.Finding {
	if _, ok := counterFitted.Of(f, part); !ok {
		return one(missing(counterFitted.Field, part))
	}
	type way struct{ counter, clamp Quantity[unit.Ampere] }
	var worst finding.Finding
	design, noDesign := f.designAmps()
	for i, w := range []way{{counterOut, clampOut}, {counterIn, clampIn}} {
		shown, has := w.counter.Of(f, part)
		clamp, hasClamp := w.clamp.Read(f, part)
		if x := firstMissing(need{has, w.counter.Field, part}, need{hasClamp, w.clamp.Field, part}); x != nil {
			return one(*x)
		}
		x := f.judgeCounter(shown, clamp, design, i == 0 && noDesign == nil)
		into, side := sayCountOut, measure.AtMost(clamp.Interval(), 0)
		if i == 1 {
			into, side = sayCountInto, measure.AtLeast(clamp.Interval(), 0)
		}
		if x.Verdict() == finding.Pass && side == measure.Outside {
			x = finding.CannotTell(sayCountTurn.With("clamp", rounded(clamp.Value, "A"), "way", into), sayCountArrow.With())
		}
		if i == 0 || x.Verdict().Worse(worst.Verdict()) {
			worst = x
		}
	}
	zero, has := counterZero.Of(f, part)
	if !has {
		return one(missing(counterZero.Field, part))
	}
	if worst.Verdict() != finding.Fail && max(zero.Value, -zero.Value) > countAtRest+1e-9 {
		limit := finding.AtMost("zero", countAtRest, finding.Practice, cite.OurRule.Line())
		return one(finding.Fails(sayCountZero.With("counter", typed(zero), "least", exact(countAtRest, "A")), sayCountNext.With()).Value(finding.Typed(zero)).Against(limit))
	}
	if worst.Verdict() == finding.Pass {
		if noDesign != nil {
			return one(*noDesign)
		}
		zeroed, known := clampZeroed.Of(f, "bank")
		switch {
		case !known:
			return one(missing(clampZeroed.Field, "bank"))
		case zeroed != "yes":
			return one(finding.CannotTell(saySideZero.With(), sayCountMore.With()))
		}
	}
	return one(worst)
}

// judgeCounter judges one direction. Only a load can be asked for 20 % of the
// design current: a charger gives what it gives.
func (f *Facts) judgeCounter(shown measure.Shown[unit.Ampere], clamp measure.Reading[unit.Ampere], design unit.Ampere, enough bool) finding.Finding {
	at := size(clamp)
	most := max(countLeast, countPart*at.Value)
	limit := finding.AtMost("difference", most, finding.Practice, cite.OurRule.Line())
	d := measure.Reading[unit.Ampere]{Value: max(shown.Value-clamp.Value, clamp.Value-shown.Value), U: clamp.U}
	found := finding.Measured(d, "A", limit)
	said := []any{"found", found.Text, "limit", exact(most, "A"), "counter", typed(shown), "clamp", rounded(clamp.Value, "A"), "design", exact(design, "A")}
	x := finding.Judge(measure.AtMost(d.Interval(), most), finding.Words{
		Pass: sayCountGood.With(said...), Fail: sayCountBad.With(said...), CantTell: sayCountUnk.With(said...),
		Mend: sayCountNext.With(), Settle: sayCountMore.With(),
	})
	switch {
	case shown.Value*clamp.Value < 0 && at.Value > at.U && max(shown.Value, -shown.Value) > countAtRest:
		x = finding.Fails(sayCountSign.With(said...), sayCountNext.With())
	case x.Verdict() == finding.Pass && enough && measure.AtLeast(at.Interval(), design*countEnough) != measure.Inside:
		x = finding.CannotTell(sayCountSmall.With(said...), sayCountMore.With())
	}
	return x.Value(found).Against(limit)
}
