package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// Papers that left with the technician help nobody: they stay with the bank.
var documentsCheck = &Check{
	ID: "documents", Stage: HandOver,
	Title:   say.Phrase{Key: "documents.title", English: "Papers left"},
	Asks:    say.Phrase{Key: "documents.asks", English: "Do the papers and the spare fuse stay with the bank?"},
	Formula: "papers left = all of the list",
	Limits:  []LimitOf{{"documents", finding.House}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&papersLeft.Field},
	Parts:   onBank,
	Eval:    evalDocuments,
}

var (
	sayPapersGood  = say.Phrase{Key: "documents.pass", English: "Left with the bank: the drawing, the makers' manuals, the settings as left, this sheet, the maintenance dates and a spare fuse."}
	sayPapersLack  = say.Phrase{Key: "documents.fail", English: "Not left with the bank: {missing}."}
	sayPapersLeave = say.Phrase{Key: "documents.next", English: "Leave with the bank what is missing: {missing}."}
	sayPapersLimit = say.Phrase{Key: "documents.limit", English: "all of the list"}
)

func evalDocuments(f *Facts, part string) []finding.Finding {
	limit := finding.Limit{Name: "documents", Kind: finding.House, Source: cite.OurRule.Line(), Text: sayPapersLimit.With()}
	left, answered := papersLeft.unticked(f, part)
	x := finding.Passes(sayPapersGood.With())
	switch {
	case !answered:
		x = missing(papersLeft.Field, part)
	case !left.Empty():
		x = finding.Fails(sayPapersLack.With("missing", left), sayPapersLeave.With("missing", left))
	}
	return one(x.Against(limit))
}
