package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// A block may disconnect itself at any moment. An alternator that feeds it
// straight then answers with a voltage that burns its own diodes and whatever
// else hangs on the line.
var alternatorPath = &Check{
	ID: "alternator-path", Stage: Before,
	Title:   say.Phrase{Key: "alternator-path.title", English: "Alternator"},
	Asks:    say.Phrase{Key: "alternator-path.asks", English: "Does a limiter stand between every alternator and this bank?"},
	Formula: "alternator ≠ direct to the bank",
	Limits:  []LimitOf{{"path", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice},
	Fields:  []*Field{&alternator.Field, &siteKind.Field},
	Parts:   onBank,
	Eval:    evalAlternatorPath,
}

var (
	sayAltNone    = say.Phrase{Key: "alternator-path.none", English: "No alternator charges this bank."}
	sayAltLimited = say.Phrase{Key: "alternator-path.pass", English: "The alternator charges through a limiter or a DC-DC charger, so a block may disconnect at any moment."}
	sayAltDirect  = say.Phrase{Key: "alternator-path.fail", English: "The alternator charges the bank straight. When a block disconnects, its voltage jumps and breaks what hangs on the line."}
	sayAltUnk     = say.Phrase{Key: "alternator-path.cant-tell", English: "How the alternator charges this bank is not known. Straight to it, its voltage jumps when a block disconnects."}
	sayAltFit     = say.Phrase{Key: "alternator-path.next", English: "Fit a limiter between the alternator and this bank."}
	sayAltFind    = say.Phrase{Key: "alternator-path.find", English: "Follow the alternator's cable and enter what stands in it."}
	sayAltLimit   = say.Phrase{Key: "alternator-path.limit", English: "a limiter or a DC-DC charger in between, or no alternator"}
	sayAltRoom    = say.Phrase{Key: "alternator-path.building", English: "The site is a building or a mast, and no alternator is entered."}
)

func evalAlternatorPath(f *Facts, _ string) []finding.Finding {
	limit := finding.Limit{Name: "path", Kind: finding.Practice, Source: cite.CommonPractice.Line(), Text: sayAltLimit.With()}
	code, ok := alternator.Of(f, "bank")
	if !ok {
		kind, _ := siteKind.Of(f, "site")
		if kind == "building" {
			return one(finding.Unneeded(sayAltRoom.With()))
		}
		return one(missing(alternator.Field, "bank").Against(limit))
	}
	x := finding.CannotTell(sayAltUnk.With(), sayAltFind.With())
	switch code {
	case "none":
		x = finding.Passes(sayAltNone.With())
	case "limited":
		x = finding.Passes(sayAltLimited.With())
	case "direct":
		x = finding.Fails(sayAltDirect.With(), sayAltFit.With())
	}
	return one(x.Against(limit))
}
