package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// Nobody starts a stage that can hurt without having read its cautions.
var hazardsReadCheck = &Check{
	ID: "hazards-read", Stage: Before,
	Visits:  AtEach,
	Title:   say.Phrase{Key: "hazards-read.title", English: "Cautions read"},
	Asks:    say.Phrase{Key: "hazards-read.asks", English: "Has somebody read the cautions of each stage and confirmed them by name?"},
	Formula: "hazards-read = yes for every stage",
	Limits:  []LimitOf{{"confirmed", finding.House}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&hazardsRead.Field},
	Parts:   hazardParts,
	Eval:    evalHazardsRead,
}

var (
	sayHazardsRead    = say.Phrase{Key: "hazards-read.pass", English: "{who} read the cautions of “{stage}” and confirmed them."}
	sayHazardsRefused = say.Phrase{Key: "hazards-read.fail", English: "{who} cannot work under the cautions of “{stage}”. All of them must be confirmed before the stage begins."}
	sayHazardsOther   = say.Phrase{Key: "hazards-read.other", English: "The answer to the cautions of “{stage}” is not one that this version knows."}
	sayHazardsStop    = say.Phrase{Key: "hazards-read.stop", English: "Do not start this stage; make the place safe or find somebody who can do it."}
	sayHazardsNext    = say.Phrase{Key: "hazards-read.next", English: "Read the cautions of “{stage}” and confirm with your name."}
	sayHazardsLimit   = say.Phrase{Key: "hazards-read.limit", English: "all cautions of the stage confirmed"}
)

// hazardParts lists the stages of this visit that can hurt: at a return visit
// its own and the tests, and all of them once the bank is built up again.
func hazardParts(f *Facts) ([]string, say.Line) {
	var parts []string
	for _, s := range Stages {
		here := s != Return
		if f.Returning() {
			here = s == Return || s == Prove || f.builtAgain()
		}
		if here && len(s.Hazards()) > 0 {
			parts = append(parts, s.Part())
		}
	}
	return parts, say.Line{}
}

func evalHazardsRead(f *Facts, part string) []finding.Finding {
	stage := stageOf(part)
	limit := finding.Limit{Name: "confirmed", Kind: finding.House, Source: cite.OurRule.Line(), Text: sayHazardsLimit.With()}
	e, ok := f.entry(hazardsRead.Field, part)
	said := []any{"stage", stage.Title(), "who", bank.Name(e.By)}
	switch {
	case !ok:
		return one(finding.Undone(sayHazardsNext.With(said...)).Against(limit))
	case e.Value.Choice == "yes":
		return one(finding.Passes(sayHazardsRead.With(said...)).Against(limit))
	case e.Value.Choice == "no":
		return one(finding.Fails(sayHazardsRefused.With(said...), sayHazardsStop.With()).Against(limit))
	}
	return one(finding.CannotTell(sayHazardsOther.With(said...), sayHazardsNext.With(said...)).Against(limit))
}

// stageOf is the stage whose own entries are kept under a part.
func stageOf(part string) Stage {
	for _, s := range Stages {
		if s.Part() == part {
			return s
		}
	}
	return ""
}
