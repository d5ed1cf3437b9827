package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// Who comes to the bank years later, or in an emergency, knows what the labels
// say.
var labelsCheck = &Check{
	ID: "labels", Stage: HandOver,
	Title:   say.Phrase{Key: "labels.title", English: "Labels"},
	Asks:    say.Phrase{Key: "labels.asks", English: "Does the bank say on itself what it is and how to switch it off?"},
	Formula: "labels on = voltage, fault current, isolator, date, emergency",
	Limits:  []LimitOf{{"labels", finding.Standard}},
	Sources: []*cite.Source{&cite.IEC62446, &cite.NEC706},
	Fields:  []*Field{&labelsOn.Field},
	Parts:   onBank,
	Eval:    evalLabels,
}

var (
	sayLabelsGood  = say.Phrase{Key: "labels.pass", English: "The bank is labelled: system voltage, fault current, isolator, date, and what to do in an emergency."}
	sayLabelsLack  = say.Phrase{Key: "labels.fail", English: "Labels that are missing: {missing}."}
	sayLabelsFit   = say.Phrase{Key: "labels.next", English: "Fit what is missing: {missing}."}
	sayLabelsLimit = say.Phrase{Key: "labels.limit", English: "all five labels"}
)

func evalLabels(f *Facts, part string) []finding.Finding {
	limit := finding.Limit{Name: "labels", Kind: finding.Standard, Source: cite.Both(cite.IEC62446, cite.NEC706), Text: sayLabelsLimit.With()}
	left, answered := labelsOn.unticked(f, part)
	x := finding.Passes(sayLabelsGood.With())
	switch {
	case !answered:
		x = missing(labelsOn.Field, part)
	case !left.Empty():
		x = finding.Fails(sayLabelsLack.With("missing", left), sayLabelsFit.With("missing", left))
	}
	return one(x.Against(limit))
}
