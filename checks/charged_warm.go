package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A block that is charged alone is charged all the same: nobody is led to it,
// and nothing is proved by it, unless the block is known to be warm enough then.

var (
	sayAloneWarm   = say.Phrase{Key: "charged-full.warm", English: "Warm this block first, do not charge it yet: {why} Then read its temperature again."}
	sayAloneFrozen = say.Phrase{Key: "charged-full.frozen", English: "It was charged while it was too cold or too hot: {why}"}
	sayAloneOff    = say.Phrase{Key: "charged-full.off", English: "Charger off. Bring the block to a temperature that its sheet allows, ask its maker what that charge did to it, and only then charge it again."}
	sayAloneStale  = say.Phrase{Key: "charged-full.stale", English: "The temperature of {part} was not read within 15 minutes of its voltage and current."}
	sayAloneAgain  = say.Phrase{Key: "charged-full.read-together", English: "Read temperature, voltage and current of this block together, and voltage and current again at least 60 s later."}
	sayAloneWait   = say.Phrase{Key: "charged-full.settle", English: "Wait until the block has stood 6 hours in air that is warm enough, then read its temperature again."}
)

// notWarmAlone says what keeps a block from being charged alone, or its charge
// from proving anything: the rule of the cold gate for its own temperature. A
// temperature speaks for a quarter of an hour: for now while no sample is there,
// else for the samples.
func (f *Facts) notWarmAlone(block string, v1, v2 measure.Shown[unit.Volt], charged bool) (x finding.Finding, cold bool) {
	temp, has := fullTemp.Of(f, block)
	if !has {
		return missing(fullTemp.Field, block), true
	}
	ws, when := warmths{}, moments(f.now)
	if charged {
		when = samplesSpan(v1, v2, f.now)
		ws.lam = max(v1.Lam, v2.Lam)
	}
	ws.add(f, warmth{block, f.sensed(temp, contactSensor), temp.At, contactSensor}, when)
	least := f.chargeAbove(block)
	if _, min, _ := lower(f, coldGate.ID, "coldest", least); min != least.Value {
		least = base[unit.Celsius]{Value: min, Kind: finding.House, Source: cite.Firm.Line()}
	}
	x = f.judgeCold(ws, least, f.chargeUpTo(block), sayColdWait.With())
	stale := len(ws.stale) > 0
	switch v := x.Verdict(); {
	case v == finding.Pass:
		return x, false
	case v == finding.ToDo:
		return x, true
	case !charged && stale:
		return missing(fullTemp.Field, block).Reading(justThis(block)), true
	case !charged:
		return finding.Undone(sayAloneWarm.With("why", x.Reason())).Reading(justThis(block)), true
	case v == finding.Fail:
		y := finding.Fails(sayAloneFrozen.With("why", x.Reason()), sayAloneOff.With())
		return carried(y, x), true
	case stale:
		return carried(finding.CannotTell(sayAloneStale.With("part", bank.Name(block)), sayAloneAgain.With()), x), true
	case x.Next().Key == sayColdOwn.Key:
		return carried(finding.CannotTell(x.Reason(), sayAloneWait.With()), x), true
	}
	return x, true
}

// carried gives a finding the figure and the limit of another.
func carried(y, from finding.Finding) finding.Finding {
	if v, ok := from.Found(); ok {
		y = y.Value(v)
	}
	if l, ok := from.Limit(); ok {
		y = y.Against(l)
	}
	return y
}

func justThis(block string) []finding.Key { return []finding.Key{{Part: block, Field: fullTemp.ID}} }

// samplesSpan is from the first to the last sample that is there.
func samplesSpan(v1, v2 measure.Shown[unit.Volt], now time.Time) span {
	switch {
	case v1.At.IsZero() && v2.At.IsZero():
		return moments(now) // a current alone: its voltage is asked for next
	case v1.At.IsZero():
		return moments(v2.At)
	case v2.At.IsZero():
		return moments(v1.At)
	case v2.At.Before(v1.At):
		return span{v2.At, v1.At}
	}
	return span{v1.At, v2.At}
}

// WarmAlone reports whether a block is known to be warm enough now to be
// charged by itself, so that a person may be led to it.
func (f *Facts) WarmAlone(block string) (warm bool) {
	f.quietly(func() {
		_, cold := f.notWarmAlone(block, measure.Shown[unit.Volt]{}, measure.Shown[unit.Volt]{}, false)
		warm = !cold
	})
	return warm
}

var sayWarmEach = say.Phrase{Key: "charged-full.warm-each", English: "{part} is at {temp}, and charging is allowed {limit}. Warm every block above that first, read its temperature, and only then charge each to full by itself."}

// onceWarm is an advice to charge blocks by themselves, or to warm them first
// where the last temperature that is known of one does not allow it.
func (f *Facts) onceWarm(advice say.Line, part string) say.Line {
	f.quietly(func() {
		for _, b := range f.BlocksOf(part) {
			temp, has := fullTemp.Of(f, b)
			if t, read := blockTemp.Of(f, b); read && (!has || t.Lam > temp.Lam) {
				temp, has = t, true
			}
			if !has {
				continue
			}
			r, least := f.sensed(temp, contactSensor), f.chargeAbove(b)
			if measure.Above(r.Interval(), max(least.Value, freezing)) != measure.Inside {
				limit := strictlyAbove("coldest", least)
				advice = sayWarmEach.With("part", bank.Name(b), "temp", finding.Measured(r, "C", limit).Text, "limit", limit.Line())
				return
			}
		}
	})
	return advice
}
