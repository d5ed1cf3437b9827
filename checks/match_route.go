package checks

import (
	"slices"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// Four ways lead to a bank: join now, charge each block to full first, rest in
// parallel after that, or send a block back. Which one follows from what was
// found; this check says it, with its reason, and adds no limit of its own.
var matchRoute = &Check{
	ID: "match-route", Stage: Match,
	Title:   say.Phrase{Key: "match-route.title", English: "Way to join"},
	Asks:    say.Phrase{Key: "match-route.asks", English: "Which way may these blocks be joined, and is it complete?"},
	Formula: "one of: join now; full, then join; full, then parallel rest; send back",
	Limits:  []LimitOf{{"route", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice},
	Fields:  []*Field{&levelTaken.Field},
	Parts: func(f *Facts) ([]string, say.Line) {
		if len(f.Layout().Blocks()) < 2 {
			return nil, sayRouteAlone.With()
		}
		return []string{"bank"}, say.Line{}
	},
	Eval: evalMatchRoute,
}

var (
	sayRouteAlone = say.Phrase{Key: "match-route.one-block", English: "One block alone is not joined to another."}
	sayRouteBack  = say.Phrase{Key: "match-route.back", English: "Send back: {part}. {why}"}
	sayRouteSwap  = say.Phrase{Key: "match-route.swap", English: "Return it and begin again with the block that replaces it."}
	sayRouteNow   = say.Phrase{Key: "match-route.now", English: "Join now: the voltages match, and the blocks are of one delivery and one temperature."}
	sayRouteOff   = say.Phrase{Key: "match-route.off-flat", English: "Join now: the voltages match away from the flat part of the curve, and the blocks are of one delivery and one temperature."}
	sayRouteTaken = say.Phrase{Key: "match-route.taken", English: "Join now: the voltages match, and “equal charge is not proved” is accepted by name."}
	sayRouteFull  = say.Phrase{Key: "match-route.full", English: "Join now: each block is charged to full by itself."}
	sayRouteBoth  = say.Phrase{Key: "match-route.full-harmless", English: "Join now, one at a time, then let them rest for 12 hours: each block is charged to full by itself, and what a join pushes is harmless."}
	sayRouteEach  = say.Phrase{Key: "match-route.each", English: "Charge each first: the voltages do not match, or the meter cannot tell."}
	sayRouteLevel = say.Phrase{Key: "match-route.level", English: "Charge each first: the voltages match, but on the flat part of the curve blocks up to 40 points apart read alike, and in series nothing evens that out."}
	sayRouteBuild = say.Phrase{Key: "match-route.build", English: "The voltages match, but the blocks are not shown to be of one delivery."}
	sayRouteJoin  = say.Phrase{Key: "match-route.join", English: "Each block is charged to full, but nothing shows yet that joining them is harmless."}
	sayRouteNext  = say.Phrase{Key: "match-route.charge", English: "Read the temperature of each block, charge each that is warm enough to full by itself, join them in parallel one at a time, and let them rest for 12 hours."}
	sayRouteLimit = say.Phrase{Key: "match-route.limit", English: "one complete way to equal charge and a harmless join"}
)

func evalMatchRoute(f *Facts, _ string) []finding.Finding {
	limit := finding.Limit{Name: "route", Kind: finding.Practice, Source: cite.CommonPractice.Line(), Text: sayRouteLimit.With()}
	answer := func(x finding.Finding) []finding.Finding { return one(x.Against(limit)) }
	if x, back := f.sentBack(); back {
		return answer(x)
	}
	blocks := f.Layout().Blocks()
	full := true
	for _, b := range blocks {
		full = full && f.allPass("charged-full", b)
	}
	parts := f.routeParts()
	matched := !slices.ContainsFunc(parts, func(p string) bool { return !f.matched(p) })
	build := f.allPass("same-build", "bank")
	inSeries := f.Layout().Series > 1
	switch {
	case full && inSeries:
		return answer(finding.Passes(sayRouteFull.With()))
	case full && !matched && f.allPass("join-current", "bank"):
		return answer(finding.Passes(sayRouteBoth.With()))
	case matched && !build:
		return answer(finding.CannotTell(sayRouteBuild.With(), f.nextOf(sameBuild, "bank")))
	case matched && !inSeries:
		return answer(finding.Passes(sayRouteNow.With()))
	case matched && f.allOffFlat(blocks):
		return answer(finding.Passes(sayRouteOff.With()))
	case matched && levelTaken.Yes(f, "bank"):
		return answer(finding.Passes(sayRouteTaken.With()))
	case matched:
		return answer(finding.CannotTell(sayRouteLevel.With(), f.onceWarm(sayRouteNext.With(), "bank")))
	}
	for _, p := range parts {
		x := f.worst(voltageMatch, p)
		v := x.Verdict()
		ready := f.passed(rested, p) && f.passed(sameTemp, p)
		switch {
		case full || f.matched(p):
		case v == finding.ToDo || v == finding.Later:
			return answer(finding.Undone(sayAfterFirst.With("need", voltageMatch.Title)))
		case v == finding.CantTell && !ready: // it waits for a rest or a temperature
			return answer(finding.Undone(x.Next()))
		}
	}
	if full {
		return answer(finding.CannotTell(sayRouteJoin.With(), f.nextOf(joinCurrent, "bank")))
	}
	return answer(finding.CannotTell(sayRouteEach.With(), f.onceWarm(sayRouteNext.With(), "bank")))
}

// sentBack finds the blocks that a look, a scale or a waking condemned.
func (f *Facts) sentBack() (finding.Finding, bool) {
	for _, check := range []*Check{arrivedWhole, asleepCheck, massCheck} {
		for _, x := range f.byCheck[check.ID] {
			if x.Verdict() != finding.Fail {
				continue
			}
			parts := x.Parts()
			return finding.Fails(sayRouteBack.With("part", bank.Name(parts[0]), "why", x.Reason()), sayRouteSwap.With()).About(parts...), true
		}
	}
	return finding.Finding{}, false
}

// routeParts are the parts whose match decides before anything is joined: the
// totals of strings are read later, when the strings are made.
func (f *Facts) routeParts() []string {
	parts, _ := matchParts(f)
	if len(parts) > 1 && f.Layout().Join == bank.JoinStrings {
		parts = slices.DeleteFunc(parts, func(p string) bool { return p == "bank" })
	}
	return parts
}

// matched reports whether a part matches by its voltages or by its gaps.
func (f *Facts) matched(part string) bool {
	return f.allPass("voltage-match", part) || f.allPass("gap-voltage", part)
}
