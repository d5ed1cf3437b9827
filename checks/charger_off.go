package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Current that nothing has released: a line of the charge list says that it
// flows while the hold points of charging and heating are shut.

var (
	sayUnreleased   = say.Phrase{Key: "charge-trend.unreleased", English: "{amps} flowed, and nothing has released this charge. Still open: {what}."}
	sayUnreleasedUn = say.Phrase{Key: "charge-trend.perhaps-unreleased", English: "{amps} may flow, and nothing has released this charge. Still open: {what}."}
	sayChargerOff   = say.Phrase{Key: "charge-trend.off", English: "Charger off. It comes on again when its hold point is released, not before."}
)

// released reports whether a hold point lets its act be done, with what a
// person took on.
func (f *Facts) released(h Hold) bool {
	if !f.unsafe(h).Empty() {
		h.Barred = f.unsafe(h)
	}
	h.Taken = f.override(h)
	return h.Released()
}

// heatReleased reports whether the heaters' current may flow.
func (f *Facts) heatReleased() bool {
	h, listed := f.heatHold()
	return listed && f.released(h)
}

// heatersTake is the current that is no charge: that of the heaters where every
// block heats itself, else what counts as none.
func (f *Facts) heatersTake() unit.Ampere {
	most := restingMost
	if heated := len(f.heated()); heated > 0 && heated == len(f.Layout().Blocks()) {
		if heater, _, gap := f.heaterAmps(); gap == nil {
			most = max(most, heater*(1+heaterBand))
		}
	}
	return most
}

// unreleased finds a line whose current nothing has released. What only the
// heaters take is released by the hold point for heating; it is asked of the
// last line alone, for what warmed the blocks an hour ago was judged then. A
// temperature that has aged while a warm charge runs is no reason: the lines
// carry their own. Where a return visit leaves the bank as it stands, charging is
// the charger's, and no hold point was asked for it.
func (f *Facts) unreleased(list []sampled) (out []finding.Finding) {
	f.quietly(func() {
		if f.Returning() && !f.builtAgain() {
			return
		}
		charge := f.chargeHold()
		if f.released(charge) {
			return
		}
		what := f.missingFor(charge, list)
		if what.Empty() {
			return
		}
		heat := f.heatReleased()
		_, flowing := currentTrace(list)
		for i, s := range flowing {
			most := f.heatersTake()
			if i == len(flowing)-1 && !heat {
				most = restingMost
			}
			amps := finding.Measured(s.amps, "A", finding.Limit{}).Text
			switch side := measure.AtMost(s.amps.Interval(), most); {
			case side == measure.Outside:
				out = one(finding.Fails(sayUnreleased.With("amps", amps, "what", what), sayChargerOff.With()).From(cite.OurRule.Line()))
				return
			case side == measure.Across:
				out = one(finding.CannotTell(sayUnreleasedUn.With("amps", amps, "what", what), sayChargerOff.With()).From(cite.OurRule.Line()))
			}
		}
	})
	return out
}

// missingFor names the first condition of the charge that is not met; empty
// where it is only a temperature that has aged, and every line with current was
// warm by its own. Once the charge is over its rate is past.
func (f *Facts) missingFor(charge Hold, list []sampled) say.Line {
	part, _ := f.charged()
	least, warm := f.chargeAbove(part).Value, true
	for _, s := range list {
		flows := s.hasAmps && measure.AtMost(s.amps.Interval(), restingMost) != measure.Inside
		warm = warm && (!flows || s.hasTemp && measure.Above(s.temp.Interval(), max(least, freezing)) == measure.Inside)
	}
	over := f.chargeEnded()
	for _, c := range charge.Clauses {
		aged := c.ID == coldGate.ID && warm && f.agedOnly(c)
		if !c.Open && !aged && !(over && c.ID == chargeRate.ID) {
			return c.Title
		}
	}
	return say.Line{}
}

// agedOnly reports whether the cold gate waits for nothing but a fresh reading.
func (f *Facts) agedOnly(c Clause) bool {
	for _, x := range c.Findings {
		if x.Reason().Key != sayColdStale.Key {
			return false
		}
	}
	return len(c.Findings) > 0
}

// ChargerOff gives the finding for which the charger must go off now: current
// flows that nothing has released, or that nothing may. A later line without
// current says that it is off; what was found stays.
func (f *Facts) ChargerOff() (x finding.Finding, now bool) {
	f.quietly(func() {
		_, flowing := currentTrace(f.samples())
		if len(flowing) == 0 || f.chargeEnded() || measure.AtMost(flowing[len(flowing)-1].amps.Interval(), restingMost) == measure.Inside {
			return
		}
		for _, check := range []*Check{chargeTrend, heaterToCharge} {
			for _, y := range f.byCheck[check.ID] {
				if !now && (y.Verdict() == finding.Fail || y.Next().Key == sayStepOff.Key || y.Next().Key == sayChargerOff.Key) {
					x, now = y, true
				}
			}
		}
	})
	return x, now
}

// Charging lists the blocks into which the charge goes.
func (f *Facts) Charging() (blocks []string) {
	f.quietly(func() {
		part, _ := f.charged()
		blocks = f.BlocksOf(part)
	})
	return blocks
}
