package checks

import (
	"slices"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A block with more resistance than its like works less and sags first.
//
// A step of 20 A or more, all blocks within 5 K. What a maker measures at 1 kHz
// is lower than ten seconds of direct current show: it can pass, never fail.
var blockRCheck = &Check{
	ID: "block-r", Stage: Prove,
	Title:   say.Phrase{Key: "block-r.title", English: "Resistance of the blocks"},
	Asks:    say.Phrase{Key: "block-r.asks", English: "Are the blocks alike inside, and as good as the sheet says?"},
	Formula: "R ≤ R_sheet [Ω]; max R/min R ≤ 1.5 [1]; ΔI ≥ 20 A, max T − min T ≤ 5 K",
	Limits:  []LimitOf{{"ratio", finding.Practice}, {"resistance", finding.Maker}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&blockR.Field, &stepAmps.Field, &stepMethod.Field, &sheetR.Field, &sheetRMethod.Field, &blockTemp.Field, &useMilliohms.Field},
	Parts:   onBank,
	Eval:    evalBlockR,
}

var (
	sayAlikeGood = say.Phrase{Key: "block-r.pass", English: "The highest is {found} times the lowest; the limit is {limit}."}
	sayAlikeBad  = say.Phrase{Key: "block-r.fail", English: "{part} has {found} times the resistance of {other}; the limit is {limit}."}
	sayAlikeUnk  = say.Phrase{Key: "block-r.cant-tell", English: "{part} has {found} times the resistance of {other}, too close to the limit of {limit}."}
	sayOhmBad    = say.Phrase{Key: "block-r.sheet", English: "{part} has {found}; the sheet allows {limit}."}
	sayOhmUnk    = say.Phrase{Key: "block-r.sheet-cant-tell", English: "{part} has {found}; the sheet allows {limit}, measured another way or too close to tell."}
	sayOhmStep   = say.Phrase{Key: "block-r.small-step", English: "The step was {amps}; below {least} the meter's digits decide and not the blocks."}
	sayOhmTemp   = say.Phrase{Key: "block-r.temperature", English: "The blocks were not within {limit} of each other, and a cold block has more resistance."}
	sayOhmBlank  = say.Phrase{Key: "block-r.temperature-unknown", English: "The temperatures of the blocks are not all known."}
	sayOhmAgain  = say.Phrase{Key: "block-r.next", English: "Repeat with a larger step at the same temperature."}
)

const (
	// Our choice, both.
	alikeRatio   unit.Ratio  = 1.5
	leastOhmStep unit.Ampere = 20

	// Blocks are compared only this close together: a cold one has more.
	alikeTemp unit.Kelvin = 5
)

func evalBlockR(f *Facts, part string) []finding.Finding {
	all, gap := f.blockOhms(part)
	if gap != nil {
		return one(*gap)
	}
	step, hasStep := stepAmps.Plain(f, part)
	method, hasMethod := stepMethod.Of(f, part)
	if x := firstMissing(need{hasMethod, stepMethod.Field, part}, need{hasStep || method == "1khz", stepAmps.Field, part}); x != nil {
		return one(*x)
	}
	low, high := all[0], all[len(all)-1]
	limit := finding.AtMost("ratio", alikeRatio, finding.Practice, cite.OurRule.Line())
	r := ratioOf(high.r, low.r)
	found := finding.Measured(r, "ratio", limit)
	said := []any{"found", found.Text, "part", bank.Name(high.block), "other", bank.Name(low.block), "limit", exact(alikeRatio, "ratio"),
		"amps", exact(step, "A"), "least", exact(leastOhmStep, "A")}
	x := finding.Judge(measure.AtMost(r.Interval(), alikeRatio), finding.Words{
		Pass: sayAlikeGood.With(said...), Fail: sayAlikeBad.With(said...), CantTell: sayAlikeUnk.With(said...), Mend: sayOhmAgain.With(),
	})
	if why, unmet := f.unlikeReading(part, method, step, said); unmet {
		x = finding.CannotTell(why, sayOhmAgain.With())
	} else if y, judged := f.againstSheet(high.block, high.r, method); judged && y.Verdict().Worse(x.Verdict()) {
		return one(y)
	}
	return one(x.Value(found).Against(limit).About(high.block, low.block))
}

// unlikeReading says what forbids a comparison of resistances.
func (f *Facts) unlikeReading(part, method string, step unit.Ampere, said []any) (why say.Line, unmet bool) {
	if method != "1khz" && step < leastOhmStep {
		return sayOhmStep.With(said...), true
	}
	var low, high unit.Celsius
	for i, b := range f.BlocksOf(part) {
		t, ok := blockTemp.Plain(f, b)
		if !ok {
			return sayOhmBlank.With(), true
		}
		if i == 0 {
			low, high = t, t
		}
		low, high = min(low, t), max(high, t)
	}
	return sayOhmTemp.With("limit", exact(alikeTemp, "K")), unit.Kelvin(high-low) > alikeTemp
}

// againstSheet judges the highest resistance against the sheet's, where both
// were measured the same way; a figure at 1 kHz can only pass.
func (f *Facts) againstSheet(block string, r measure.Reading[unit.Ohm], method string) (finding.Finding, bool) {
	own := lowest(f, sheetR, block)
	if !own.All() {
		return finding.Finding{}, false
	}
	b := own.Base(f)
	limit := finding.AtMost("resistance", b.Value, b.Kind, b.Source).In("mOhm")
	found := finding.Measured(r, "mOhm", limit)
	said := []any{"part", bank.Name(block), "found", found.Text, "limit", exact(b.Value, "mOhm")}
	how, _ := sheetRMethod.Of(f, own.Sheet)
	x := finding.CannotTell(sayOhmUnk.With(said...), sayOhmAgain.With())
	switch side := measure.AtMost(r.Interval(), b.Value); {
	case side == measure.Inside && (method == "step" || how == "1khz"):
		return finding.Finding{}, false
	case side == measure.Outside && (how == "step" || how == "1khz" && method == "1khz"):
		x = finding.Fails(sayOhmBad.With(said...), sayOhmAgain.With())
	}
	return x.Value(found).Against(limit).About(block), true
}

// ohmOf is the resistance of one block.
type ohmOf struct {
	block string
	r     measure.Reading[unit.Ohm]
}

// blockOhms reads the resistance of every block of a part, in rising order.
func (f *Facts) blockOhms(part string) (out []ohmOf, gap *finding.Finding) {
	for _, b := range f.BlocksOf(part) {
		r, ok := blockR.Read(f, b)
		if !ok || r.Value <= 0 {
			x := missing(blockR.Field, b)
			return nil, &x
		}
		out = append(out, ohmOf{b, r})
	}
	if len(out) == 0 {
		x := missing(layoutField, "bank")
		return nil, &x
	}
	slices.SortStableFunc(out, func(a, b ohmOf) int {
		switch {
		case a.r.Value < b.r.Value:
			return -1
		case a.r.Value > b.r.Value:
			return 1
		}
		return 0
	})
	return out, nil
}

// ratioOf is a over b with the uncertainty of both; both are more than nothing.
func ratioOf[Q unit.Quantity](a, b measure.Reading[Q]) measure.Reading[unit.Ratio] {
	r := float64(a.Value) / float64(b.Value)
	u := r * measure.Combine(float64(a.U)/float64(a.Value), float64(b.U)/float64(b.Value))
	return measure.Reading[unit.Ratio]{Value: unit.Ratio(r), U: unit.Ratio(u)}
}

// sorted gives resistances in rising order.
func sorted(list []unit.Ohm) []unit.Ohm { return slices.Sorted(slices.Values(list)) }
