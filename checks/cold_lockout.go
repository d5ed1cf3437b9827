package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// Every source that can charge the bank must stop by itself below freezing:
// nobody stands beside the bank every cold night.
var coldLockoutCheck = &Check{
	ID: "cold-lockout", Stage: SwitchOn,
	Title:   say.Phrase{Key: "cold-lockout.title", English: "Lockout in the cold"},
	Asks:    say.Phrase{Key: "cold-lockout.asks", English: "Does every source stop charging below freezing?"},
	Formula: "lockout of every source = yes",
	Limits:  []LimitOf{{"lockout", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice},
	Fields:  []*Field{&coldLockout.Field, &otherLockout.Field, &alternator.Field},
	Parts:   onBank,
	Eval:    evalColdLockout,
}

var (
	sayLockAll  = say.Phrase{Key: "cold-lockout.pass", English: "Every source stops charging below 0 °C."}
	sayLockNo   = say.Phrase{Key: "cold-lockout.fail", English: "{source} goes on charging below 0 °C, which damages the cells for good."}
	sayLockUnk  = say.Phrase{Key: "cold-lockout.cant-tell", English: "Nobody knows whether it stops charging below 0 °C: {source}."}
	sayLockAlt  = say.Phrase{Key: "cold-lockout.alternator", English: "An alternator is entered, but no source besides the chargers."}
	sayLockFit  = say.Phrase{Key: "cold-lockout.next", English: "Fit a temperature lockout to: {source}."}
	sayLockAsk  = say.Phrase{Key: "cold-lockout.ask", English: "Look it up in its manual, or fit a temperature lockout: {source}."}
	sayOthers   = say.Phrase{Key: "cold-lockout.others", English: "Another source"}
	sayLockRule = say.Phrase{Key: "cold-lockout.limit", English: "off below 0 °C"}
)

func evalColdLockout(f *Facts, part string) []finding.Finding {
	limit := finding.Limit{Name: "lockout", Kind: finding.Practice, Source: cite.CommonPractice.Line(), Text: sayLockRule.With()}
	type source struct {
		name say.Line
		code string
		ask  need
	}
	var all []source
	chargers, _ := chargerParts(f)
	for _, id := range chargers {
		code, ok := coldLockout.Of(f, id)
		all = append(all, source{bank.Name(id), code, need{ok, coldLockout.Field, id}})
	}
	code, ok := otherLockout.Of(f, part)
	all = append(all, source{sayOthers.With(), code, need{ok, otherLockout.Field, part}})
	for _, s := range all {
		if s.code == "no" {
			return one(finding.Fails(sayLockNo.With("source", s.name), sayLockFit.With("source", s.name)).Against(limit))
		}
	}
	for _, s := range all {
		if x := firstMissing(s.ask); x != nil {
			return one(x.Against(limit))
		}
	}
	for _, s := range all {
		if s.code == "unknown" {
			return one(finding.CannotTell(sayLockUnk.With("source", s.name), sayLockAsk.With("source", s.name)).Against(limit))
		}
	}
	if path, _ := alternator.Of(f, part); code == "none" && path != "" && path != "none" {
		return one(finding.CannotTell(sayLockAlt.With(), enter(otherLockout.Field, part)).Against(limit))
	}
	return one(finding.Passes(sayLockAll.With()).Against(limit))
}
