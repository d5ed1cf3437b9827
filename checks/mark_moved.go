package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// The mark across bolt and post shows a bolt that has turned before anybody
// puts a wrench to it. It says so only where the bolts were tightened and
// marked: a torque of every post, kept at an earlier visit.
var markMoved = &Check{
	ID: "mark-moved", Stage: Return, Visits: AtReturn,
	Title:   say.Phrase{Key: "mark-moved.title", English: "Marks on the bolts"},
	Asks:    say.Phrase{Key: "mark-moved.asks", English: "Does every mark still run straight from bolt to post?"},
	Formula: "marks that moved = none",
	Limits:  []LimitOf{{"marks", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.OurRule},
	Fields:  []*Field{&marksMoved.Field},
	Parts:   onBank,
	Eval:    evalMarkMoved,
}

var (
	sayMarkStill = say.Phrase{Key: "mark-moved.pass", English: "No mark has moved since the bolts were tightened."}
	sayMarkMoved = say.Phrase{Key: "mark-moved.fail", English: "A mark has moved: the bolt under it has turned."}
	sayMarkNone  = say.Phrase{Key: "mark-moved.none", English: "No torque of {part} is kept from an earlier visit, so nobody knows that its bolt was ever tightened and marked."}
	sayMarkNext  = say.Phrase{Key: "mark-moved.next", English: "Main open, then undo, clean and tighten that bolt to its torque, and mark it anew, before the bank is used."}
	sayMarkSet   = say.Phrase{Key: "mark-moved.set", English: "Main open, then tighten it to the maker's torque, mark the bolt, and enter the torque."}
	sayMarkLimit = say.Phrase{Key: "mark-moved.limit", English: "no mark moved"}
)

func evalMarkMoved(f *Facts, _ string) []finding.Finding {
	limit := finding.Limit{Name: "marks", Kind: finding.Practice, Source: cite.CommonPractice.Line(), Text: sayMarkLimit.With()}
	code, ok := marksMoved.Of(f, "bank")
	switch {
	case !ok:
		return one(missing(marksMoved.Field, "bank").Against(limit))
	case code != "no":
		return one(finding.Fails(sayMarkMoved.With(), sayMarkNext.With()).Against(limit))
	}
	for _, post := range f.Layout().Posts() {
		if _, was := torqueSet.Baseline(f, post); !was {
			return one(finding.CannotTell(sayMarkNone.With("part", bank.Name(post)), sayMarkSet.With()).Against(limit).About(post))
		}
	}
	return one(finding.Passes(sayMarkStill.With()).Against(limit))
}
