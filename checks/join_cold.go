package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Joining in parallel charges the lower side, so it has a temperature gate too,
// and no maker's figure below freezing opens it.
var joinCold = &Check{
	ID: "join-cold", Stage: Match,
	Title:   say.Phrase{Key: "join-cold.title", English: "Warm enough to join"},
	Asks:    say.Phrase{Key: "join-cold.asks", English: "Are all blocks that are joined in parallel warm enough to be charged?"},
	Formula: "min(T − u) > max(T_coldest, 0 °C); max(T + u) ≤ T_hottest, else 45 °C [°C]",
	Limits:  []LimitOf{{"coldest", finding.Maker}, {"coldest", finding.Practice}, {"hottest", finding.Maker}, {"hottest", finding.Practice}},
	Sources: []*cite.Source{&cite.ChargeByTemperature, &cite.OurRule},
	Fields:  []*Field{&blockTemp.Field, &hoursHere.Field, &sheetColdest.Field, &sheetHottest.Field},
	Parts:   joinParts,
	Eval:    evalJoinCold,
}

var sayJoinWarm = say.Phrase{Key: "join-cold.next", English: "Warm both blocks above freezing before joining."}

func evalJoinCold(f *Facts, part string) []finding.Finding {
	at := f.joinedAt(part)
	var ws warmths
	for _, b := range f.BlocksOf(part) {
		t, has := blockTemp.Of(f, b)
		if !has {
			if ws.lack == nil {
				x := missing(blockTemp.Field, b)
				ws.lack = &x
			}
			continue
		}
		ws.add(f, warmth{b, f.sensed(t, contactSensor), t.At, contactSensor}, moments(at))
	}
	least := f.chargeAbove(part)
	if least.Value < freezing {
		least = base[unit.Celsius]{freezing, finding.Practice, cite.OurRule.Line()}
	}
	return one(f.judgeCold(ws, least, f.chargeUpTo(part), sayJoinWarm.With()))
}

// joinedAt is the time for which the temperatures of a join count: when the
// last of its links was closed, or now while one of them is open.
func (f *Facts) joinedAt(part string) time.Time {
	var last time.Time
	for _, l := range f.links {
		if l.Kind != bank.Parallel || part != "bank" && l.Of != part {
			continue
		}
		e, standing := f.state.Lookup(f.visit, l.ID, closed.ID, false)
		if standing != job.One || e.Value.Choice != "yes" {
			return f.now
		}
		if t := entryTime(e); t.After(last) {
			last = t
		}
	}
	if last.IsZero() {
		return f.now
	}
	return last
}
