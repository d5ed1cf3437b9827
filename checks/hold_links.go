package checks

import (
	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

var (
	sayHarmless    = say.Phrase{Key: "hold.harmless", English: "The join is harmless"}
	sayLevelWays   = say.Phrase{Key: "hold.level", English: "Equal charge, one way or another"}
	sayAllFull     = say.Phrase{Key: "hold.all-full", English: "Every block charged to full"}
	sayMatchOff    = say.Phrase{Key: "hold.match-off-flat", English: "A match away from the flat part of the curve"}
	sayMatchTaken  = say.Phrase{Key: "hold.match-taken", English: "A match, one build, and “equal charge not proved” accepted by name"}
	sayPolarity    = say.Phrase{Key: "hold.polarity", English: "Polarity of both sides"}
	sayPolarityAsk = say.Phrase{Key: "hold.polarity-ask", English: "The resting voltage of both blocks, read with its sign, at least 8 V."}
	sayOffFlatAsk  = say.Phrase{Key: "hold.off-flat-ask", English: "Every block outside 13.10 to 13.45 V."}
	sayTakenAsk    = say.Phrase{Key: "hold.taken-ask", English: "Accept “equal charge is not proved” by name."}

	sayBarCold     = say.Phrase{Key: "hold.bar-cold", English: "No override: joining or charging a block that may be frozen damages it for good."}
	sayBarClear    = say.Phrase{Key: "hold.bar-clear", English: "No override: a series link left on makes this a dead short."}
	sayBarSeries   = say.Phrase{Key: "hold.bar-series", English: "No override: more blocks in series than the maker allows needs the maker's written word."}
	sayBarPolarity = say.Phrase{Key: "hold.bar-polarity", English: "No override: a reversed or missing block must be found first."}
)

// aboveSleep is the least that a block shows whose protection is closed: below
// it the sign proves nothing. Common practice.
const aboveSleep unit.Volt = 8

// seriesHold: no series link before a match or proof of full, nor beyond the
// maker's number in series.
func (f *Facts) seriesHold(l bank.Link) Hold {
	unitID := l.Of
	if f.layout.Join == bank.JoinGroups {
		unitID = "bank"
	}
	blocks := f.BlocksOf(unitID)
	full := passes(f.resting("charged-full", blocks...))
	full.Title = sayAllFull.With()
	full.Open = full.Open && len(full.Findings) == len(blocks)
	match := either("harmless", sayHarmless, passes(f.resting("voltage-match", unitID)), passes(f.gaps(unitID)))
	match.Findings = append(match.Ways[0].Findings, match.Ways[1].Findings...)
	offFlat := Clause{ID: "match-off-flat", Title: sayMatchOff.With(), Open: f.allOffFlat(blocks), Says: sayOffFlatAsk.With()}
	taken := Clause{ID: "match-taken", Title: sayMatchTaken.With(), Open: f.levelAccepted(blocks), Says: sayTakenAsk.With(), Asks: &finding.Key{Part: "bank", Field: levelTaken.ID}}
	plan := f.resting("plan-series")
	h := Hold{
		Gate: "series", Part: l.ID,
		Title: sayCloseLink.With("part", bank.Name(l.ID)), Keep: sayKeepOpen.With("part", bank.Name(l.ID)),
		Clauses: []Clause{
			f.cautionsOf(Wire),
			either("level", sayLevelWays, full, every("match-off-flat", sayMatchOff, match, offFlat), every("match-taken", sayMatchTaken, match, passes(f.resting("same-build")), taken)),
			plan, f.mainOpenClause(l),
		},
	}
	if f.highestVoltage() > classLimit {
		h.Clauses = append(h.Clauses, f.resting("voltage-class"))
	}
	h.Barred = f.barredBy(plan, true, sayBarSeries.With())
	return h
}

// 60 V DC ends the range in which many codes ask for no licensed person; from
// memory.
const classLimit unit.Volt = 60

// parallelHold: no parallel link while a series link is on between what it
// joins, nor before a match or the proof that the join is harmless.
func (f *Facts) parallelHold(l bank.Link) Hold {
	scope := l.Of
	clear, cold := f.resting("links-clear"), f.resting("join-cold", scope, l.ID, "bank")
	h := Hold{
		Gate: "parallel", Part: l.ID,
		Title: sayCloseLink.With("part", bank.Name(l.ID)), Keep: sayKeepOpen.With("part", bank.Name(l.ID)),
		Clauses: []Clause{
			f.cautionsOf(Match), f.cautionsOf(Wire),
			clear, cold, f.polarityClause(l),
			either("harmless", sayHarmless, passes(f.resting("voltage-match", scope)), passes(f.gaps(scope)), passes(f.resting("join-current", scope, l.ID))),
			f.mainOpenClause(l), f.lastGapClause(l),
		},
	}
	h.Barred = firstBar(f.barredBy(clear, false, sayBarClear.With()), f.barredBy(cold, false, sayBarCold.With()), f.barredByGap(l, h.Clauses))
	return h
}

// gaps rests on the gap voltages of every block or string of a scope.
func (f *Facts) gaps(scope string) Clause {
	parts := append([]string{scope}, f.BlocksOf(scope)...)
	if scope == "bank" {
		for _, u := range f.layout.Units() {
			parts = append(parts, u.ID)
		}
	}
	return f.resting("gap-voltage", parts...)
}

// polarityClause rests on polarity-steps of both strings, or on the signed
// resting voltages of the two blocks that a link inside a group joins.
func (f *Facts) polarityClause(l bank.Link) Clause {
	if l.Of == "bank" {
		c := f.resting("polarity-steps", f.layout.Beside(l.ID)...)
		c.Title = sayPolarity.With()
		return c
	}
	c := Clause{ID: "polarity", Title: sayPolarity.With(), Open: true, Says: sayPolarityAsk.With()}
	f.quietly(func() {
		for _, b := range f.layout.Beside(l.ID) {
			v, ok := restVoltage.Read(f, b)
			if !ok || measure.AtLeast(v.Interval(), aboveSleep) != measure.Inside {
				c.Open = false
				if c.Asks == nil {
					c.Asks = &finding.Key{Part: b, Field: restVoltage.ID}
				}
			}
		}
	})
	return c
}

// allOffFlat reports whether every block's resting voltage is known to lie
// outside the flat part of the curve, with its uncertainty.
func (f *Facts) allOffFlat(blocks []string) bool {
	all := len(blocks) > 0
	f.quietly(func() {
		for _, b := range blocks {
			v, ok := restVoltage.Read(f, b)
			off := ok && (v.Value+v.U < flatLow || v.Value-v.U > flatHigh)
			all = all && off
		}
	})
	return all
}

// levelAccepted reports whether somebody accepted by name that equal charge is
// not proved, of the resting voltages that stand now: a yes that is older than
// one of them spoke of other readings.
func (f *Facts) levelAccepted(blocks []string) (ok bool) {
	f.quietly(func() {
		e, has := f.entry(levelTaken.Field, "bank")
		ok = has && e.Value.Choice == "yes"
		for _, b := range blocks {
			if v, read := restVoltage.Of(f, b); read && v.Lam > e.Lam {
				ok = false
			}
		}
	})
	return ok
}
