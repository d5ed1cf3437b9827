package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// What the owner was told in person is what the owner does at night. It never
// fails: what was not gone through is still to do.
var ownerBriefedCheck = &Check{
	ID: "owner-briefed", Stage: HandOver,
	Title:   say.Phrase{Key: "owner-briefed.title", English: "Owner briefed"},
	Asks:    say.Phrase{Key: "owner-briefed.asks", English: "Has somebody gone through every topic with the owner?"},
	Formula: "topics gone through = all of the list",
	Limits:  []LimitOf{{"topics", finding.House}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&ownerBriefed.Field},
	Parts:   onBank,
	Eval:    evalOwnerBriefed,
}

var (
	sayBriefed      = say.Phrase{Key: "owner-briefed.pass", English: "{who} went through every topic with the owner on {day}."}
	sayBriefNext    = say.Phrase{Key: "owner-briefed.next", English: "Go through the open topics together: {missing}."}
	sayBriefedLimit = say.Phrase{Key: "owner-briefed.limit", English: "every topic"}
)

func evalOwnerBriefed(f *Facts, part string) []finding.Finding {
	limit := finding.Limit{Name: "topics", Kind: finding.House, Source: cite.OurRule.Line(), Text: sayBriefedLimit.With()}
	left, answered := ownerBriefed.unticked(f, part)
	switch {
	case !answered:
		return one(missing(ownerBriefed.Field, part).Against(limit))
	case !left.Empty():
		return one(finding.Undone(sayBriefNext.With("missing", left)).Against(limit))
	}
	e, _ := f.entry(ownerBriefed.Field, part)
	return one(finding.Passes(sayBriefed.With("who", bank.Name(e.By), "day", entryTime(e).Format(time.DateOnly))).Against(limit))
}
