package checks

import (
	"slices"
	"time"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// The last look before a parallel link closes a circuit: the volts across its
// open gap. They mean something only once the other side is on, for until then
// the gap floats and always reads near nothing; and only while they are fresh.

var (
	sayLastGap      = say.Phrase{Key: "hold.last-gap", English: "Volts across the open gap"}
	sayLastGapAsk   = say.Phrase{Key: "hold.last-gap-ask", English: "Read the volts across the open gap, as the last thing before it closes; at most {limit}."}
	sayLastGapFar   = say.Phrase{Key: "hold.last-gap-far", English: "The gap shows {found}; what was judged is at most {limit}. Find out what changed."}
	sayLastGapUnk   = say.Phrase{Key: "hold.last-gap-coarse", English: "The gap shows {found}, too close to {limit} for this meter. Read it again on the millivolt range."}
	sayLastGapEarly = say.Phrase{Key: "hold.last-gap-early", English: "The gap was read before the other side was closed. An open end floats near nothing; read it again now, at most {limit}."}
	sayLastGapOld   = say.Phrase{Key: "hold.last-gap-old", English: "The gap was not read within the last 15 minutes before closing. Read it again, at most {limit}."}
	sayLastGapNone  = say.Phrase{Key: "hold.last-gap-none", English: "It was closed without a reading of its gap in the 15 minutes before. Open it, read the gap, at most {limit}, and close it again."}
	sayBarGap       = say.Phrase{Key: "hold.bar-gap", English: "No override: across the open gap stand {found}. Closed now, they drive a short-circuit current through the link."}
	sayFirstRail    = say.Phrase{Key: "hold.first-rail", English: "Nothing flows yet: the other side is entered as open."}
	saySideUnknown  = say.Phrase{Key: "hold.side-unknown", English: "No link is entered as closed on the other side. If one is, enter it first; if not, say that {link} is open."}
	saySideDisputed = say.Phrase{Key: "hold.side-disputed", English: "Whether {link} is closed is in conflict. Choose what is right first."}
)

// A gap read longer ago says nothing about now: our rule.
const lastGapHolds = 15 * time.Minute

// lastGapClause asks for the volts across the gap that completes a circuit: at
// most what was judged, with the uncertainty of the meter. The first side of a
// pair closes on nothing, once every other way is entered as open. A link that
// is closed is judged by the moment at which it was closed.
func (f *Facts) lastGapClause(l bank.Link) Clause {
	c := Clause{ID: "last-gap", Title: sayLastGap.With()}
	act := f.actOf(l.ID)
	on, unsure := f.othersOn(l, act)
	loop, latest := joins(l, on)
	if !loop {
		c.Open = true
		c.Says = sayFirstRail.With()
		if link, ask := f.unsureWay(l, on, unsure); ask {
			c.Open, c.Says = false, saySideUnknown.With("link", bank.Name(link))
			c.AsksNo = &finding.Key{Part: link, Field: closed.ID}
			if _, standing := f.state.Get(f.key(link, closed.Field)); standing == job.Conflict {
				c.Says, c.AsksNo, c.Asks = saySideDisputed.With("link", bank.Name(link)), nil, nil
			}
		}
		return c
	}
	f.quietly(func() { c.Open, c.Says = f.judgeGap(l, act, latest) })
	c.Fails = c.Says.Key == sayLastGapFar.Key
	c.Asks = &finding.Key{Part: l.ID, Field: lastGap.ID}
	return c
}

// judgeGap judges the volts across a gap; latest is the last closing before it.
func (f *Facts) judgeGap(l bank.Link, act closingAct, latest int) (open bool, says say.Line) {
	most := f.judgedGap(l)
	limit := finding.AtMost("gap", most, finding.Practice, say.Line{}).In("mV")
	v, ok := lastGap.Of(f, l.ID)
	switch {
	case !ok && act.done:
		return false, sayLastGapNone.With("limit", rounded(most, "mV"))
	case !ok:
		return false, sayLastGapAsk.With("limit", rounded(most, "mV"))
	}
	r := absolute(f, v)
	r.Value = max(r.Value, -r.Value)
	said := []any{"found", finding.Measured(r, "mV", limit).Text, "limit", rounded(most, "mV")}
	switch side := measure.AtMost(r.Interval(), most); {
	case side == measure.Outside:
		return false, sayLastGapFar.With(said...)
	case v.Lam <= latest:
		return false, sayLastGapEarly.With(said...)
	case act.done && (!f.justBefore(v.At, act.at, lastGapHolds) || v.Lam > act.lam):
		return false, sayLastGapNone.With(said...)
	case !f.justBefore(v.At, act.at, lastGapHolds):
		return false, sayLastGapOld.With(said...)
	case side != measure.Inside:
		return false, sayLastGapUnk.With(said...)
	}
	return true, say.Line{}
}

// dangerousGap is the voltage from which nobody may take a gap on that is wider
// than what was judged: ten times a match, which drives tens of amperes through
// a link of some milliohms; our choice.
const dangerousGap unit.Volt = 0.1

// barredByGap says that nobody may close a link over what its gap shows.
func (f *Facts) barredByGap(l bank.Link, clauses []Clause) (why say.Line) {
	far := slices.ContainsFunc(clauses, func(c Clause) bool { return c.ID == "last-gap" && c.Fails })
	f.quietly(func() {
		v, ok := lastGap.Of(f, l.ID)
		if !far || !ok {
			return
		}
		r := absolute(f, v)
		r.Value = max(r.Value, -r.Value)
		if r.Value+r.U > dangerousGap {
			why = sayBarGap.With("found", finding.Measured(r, "V", finding.AtMost("gap", dangerousGap, finding.Practice, say.Line{})).Text)
		}
	})
	return why
}

// closingAct is when a link is closed: by the record where it is, else now.
type closingAct struct {
	done bool
	at   time.Time
	lam  int
}

// actOf is the moment for which the proofs of a link count.
func (f *Facts) actOf(link string) closingAct {
	if e, standing := f.state.Get(f.key(link, closed.Field)); standing == job.One && e.Value.Choice == "yes" {
		return closingAct{true, entryTime(e), e.Lam}
	}
	return closingAct{false, f.now, f.state.MaxLam()}
}

// justBefore reports whether a reading was taken within a while before an act.
// Two phones' clocks may differ a little.
func (f *Facts) justBefore(read, act time.Time, within time.Duration) bool {
	before := act.Sub(read)
	return before <= within && before >= -clockSlack
}

func (f *Facts) key(part string, field Field) job.Key {
	return job.Key{Visit: f.visit, Part: part, Field: field.ID}
}

// othersOn lists the other parallel links that are on at a moment, with the
// place of their closing in the record, and those of which nobody knows.
func (f *Facts) othersOn(l bank.Link, act closingAct) (on map[bank.Link]int, unsure []bank.Link) {
	on = map[bank.Link]int{}
	for _, o := range f.links {
		if o.ID == l.ID || o.Kind != bank.Parallel {
			continue
		}
		k := f.key(o.ID, closed.Field)
		e, standing := f.state.StandingAsOf(k, act.lam)
		if now, s := f.state.Get(k); standing == job.Missing && s == job.One && now.Lam > act.lam {
			continue // closed only afterwards
		}
		switch {
		case standing == job.One && e.Value.Choice == "yes":
			on[o] = e.Lam
		case standing != job.One || e.Value.Choice != "no":
			unsure = append(unsure, o)
		}
	}
	return on, unsure
}

// joins reports whether the links that are on already connect both ends of l,
// so that closing it completes a circuit, and the last closing among those that
// hang together with it.
func joins(l bank.Link, on map[bank.Link]int) (loop bool, latest int) {
	reached := map[string]bool{stands(l.From): true}
	for grown := true; grown; {
		grown = false
		for o, lam := range on {
			a, b := reached[stands(o.From)], reached[stands(o.To)]
			if a || b {
				latest = max(latest, lam)
			}
			if a != b {
				reached[stands(o.From)], reached[stands(o.To)], grown = true, true, true
			}
		}
	}
	return reached[stands(l.To)], latest
}

// stands is what an end belongs to: both posts of a block or string are one,
// for current passes through it; the ends of a bus bar are not.
func stands(end string) string {
	owner := bank.OwnerOf(end)
	if kind, ok := bank.PartKind(owner); ok && (kind == bank.KindBlock || kind == bank.KindString) {
		return owner
	}
	return end
}

// unsureWay finds a link of which nobody knows whether it is on and with which
// the ends of l could already be connected.
func (f *Facts) unsureWay(l bank.Link, on map[bank.Link]int, unsure []bank.Link) (string, bool) {
	maybe := map[bank.Link]int{}
	for o, lam := range on {
		maybe[o] = lam
	}
	for _, o := range unsure {
		maybe[o] = 0
		if loop, _ := joins(l, maybe); loop {
			return o.ID, true
		}
	}
	return "", false
}

// judgedGap is the widest gap that what opened has judged: the limit of a match
// that passed, or the difference that was found harmless. Where nothing passed,
// because a person took it on, it is the limit of a match.
func (f *Facts) judgedGap(l bank.Link) (most unit.Volt) {
	var match, gap *finding.Finding
	for _, w := range []struct {
		clause Clause
		of     **finding.Finding
	}{{f.resting("voltage-match", l.Of), &match}, {f.gaps(l.Of), &gap}} {
		for _, x := range w.clause.Findings {
			*w.of = &x
			if limit, ok := x.Limit(); ok && limit.Max != nil && passes(w.clause).Open {
				most = max(most, unit.Volt(*limit.Max))
			}
		}
	}
	if passes(f.resting("join-current", l.Of, l.ID)).Open {
		judged := gap
		if match != nil && (match.Verdict() == finding.Fail || judged == nil) {
			judged = match
		}
		if judged != nil {
			if v, ok := judged.Found(); ok {
				most = max(most, unit.Volt(v.High))
			}
		}
	}
	if most == 0 {
		f.quietly(func() {
			_, most, _ = upper(f, "voltage-match", "spread", base[unit.Volt]{Value: widestMatch, Kind: finding.Practice})
		})
	}
	return most
}
