package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/thermal"
	"lugmark/core/unit"
)

var (
	sayHeatKeep       = say.Phrase{Key: "hold.heat-keep", English: "Keep the charger off while the blocks are cold"}
	sayHeatTitle      = say.Phrase{Key: "hold.heat", English: "Warm the blocks with the charger"}
	sayHeatExpect     = say.Phrase{Key: "hold.heat-expect", English: "Heater current only: about {amps} in all. The cells take nothing until they are warm; the charge has a hold point of its own. Stay: write current and temperature down every minute for the first ten minutes, and again at the step. More current than that while a block is cold: charger off."}
	sayHeatSheet      = say.Phrase{Key: "hold.heat-sheet", English: "Every block of what is charged heats itself; any other cold block waits"}
	sayHeatSheetAsk   = say.Phrase{Key: "hold.heat-sheet-ask", English: "Not shown by its sheet that it heats itself from the charger and keeps its cells off below a release above 0 °C: {part}."}
	sayHeatCurrent    = say.Phrase{Key: "hold.heat-current", English: "Charger set as low as the heaters allow"}
	sayHeatCurrentAsk = say.Phrase{Key: "hold.heat-current-ask", English: "Set all chargers together to {low} to {high}, no more: what the heaters do not take is ready to flow into cold cells."}
	sayHeatSetAsk     = say.Phrase{Key: "hold.heat-set-ask", English: "Enter the heater's current and what every charger is set to."}
	sayHeatWatched    = say.Phrase{Key: "hold.heat-watched", English: "Somebody watches, and writes the current down"}
	sayHeatWatchAsk   = say.Phrase{Key: "hold.heat-watch-ask", English: "Confirm it just before the charger comes on: somebody stays for the first ten minutes and at the step, with a line in the charge list at least every five minutes."}
	sayHeatBeyond     = say.Phrase{Key: "hold.heat-beyond", English: "More than the heaters' current flowed while a block was not proved warm. Charger off."}

	sayBarHeatSheet = say.Phrase{Key: "hold.bar-heat-sheet", English: "No override: only a sheet that says so proves that cold cells are kept off."}
	sayBarHeatAlone = say.Phrase{Key: "hold.bar-heat-alone", English: "No override: nobody heats a bank unwatched."}
	sayBarHeatStep  = say.Phrase{Key: "hold.bar-heat-step", English: "No override: charger off until the blocks are proved warm enough to charge."}
)

const (
	// Chargers are set in steps; the coarsest of them are taken as 5 A. Our
	// choice.
	chargerStep unit.Ampere = 5

	// How long somebody stays with the heaters, the longest gap in what is
	// written down meanwhile, and how long after the last line of the charge
	// list a run of heating is over. Our choice.
	heatWatch, heatGap, heatOver = 10 * time.Minute, 5 * time.Minute, 6 * time.Hour
)

// heatHold: no charger on a cold bank but for its own heaters. It lets the
// heaters' current flow and not the charge, which keeps its own hold point.
// False where nothing heats, or where the blocks are proved warm and nobody
// overrode this: then there is nothing to hold.
func (f *Facts) heatHold() (h Hold, listed bool) {
	f.quietly(func() {
		supply := passes(f.resting(heaterSupply.ID))
		wired := f.wiredClauses()
		sheet, current, watched, step := f.heatSheetClause(), f.heatCurrentClause(), f.heatWatchedClause(), f.heatStepClause()
		h = Hold{
			Gate: "heat", Part: "bank", Title: sayHeatTitle.With(), Keep: sayHeatKeep.With(),
			Clauses: append(append([]Clause{f.cautionsOf(FirstCharge), sheet, supply, f.settingsClause(), current}, wired...), watched, step),
			Barred:  firstBar(f.barredByWiring(wired), barShut(sheet, sayBarHeatSheet), barShut(watched, sayBarHeatAlone), barShut(step, sayBarHeatStep)),
		}
		if amps, _, gap := f.heaterAmps(); gap == nil && amps > 0 {
			h.Expect = sayHeatExpect.With("amps", rounded(amps, "A"))
		}
		listed = len(f.heated()) > 0 && (!f.resting(coldGate.ID).Open || f.override(h) != nil)
	})
	return h, listed
}

// barShut bars the override while a clause is shut.
func barShut(c Clause, why say.Phrase) say.Line {
	if c.Open {
		return say.Line{}
	}
	return why.With()
}

// heatSheetClause asks of every block of what is charged that its sheet says
// both: it heats itself from the charger, and it keeps its cells off below its
// release. A release at or below freezing would let charge into frozen cells.
func (f *Facts) heatSheetClause() Clause {
	part, _ := f.charged()
	blocks := f.BlocksOf(part)
	c := Clause{ID: "heat-sheet", Title: sayHeatSheet.With(), Open: len(blocks) > 0}
	for _, b := range blocks {
		sheet, has := f.sheetOf(b)
		release, stated := sheetRelease.Plain(f, sheet)
		asks := finding.Key{Part: sheet, Field: sheetRelease.ID}
		switch {
		case !has:
			asks = finding.Key{Part: b, Field: blockSheet.ID}
		case !sheetHeated.Yes(f, sheet):
			asks.Field = sheetHeated.ID
		case stated && measure.Above(measure.Exact(release).Interval(), freezing) == measure.Inside:
			continue
		}
		c.Open, c.Asks, c.Says = false, &asks, sayHeatSheetAsk.With("part", bank.Name(b))
		return c
	}
	return c
}

// heatCurrentClause: all chargers together give what the heaters ask for and
// hardly more. That a block takes it is a setting of its own.
//
//	I_chargers ≤ 1.25 · Np · max I_heater + one step  [A]
func (f *Facts) heatCurrentClause() Clause {
	c := Clause{ID: "heat-current", Title: sayHeatCurrent.With(), Says: sayHeatSetAsk.With(), Asks: &finding.Key{Part: "charger1", Field: setCurrent.ID}}
	heaters, _, gap := f.heaterAmps()
	if gap != nil || heaters <= 0 {
		return c
	}
	low := heaters * heaterFactor
	c.Says = sayHeatCurrentAsk.With("low", exact(low, "A"), "high", exact(low+chargerStep, "A"))
	set, gap := f.chargerAmps()
	c.Open = gap == nil && measure.AtMost(measure.Exact(set).Interval(), low+chargerStep) == measure.Inside
	return c
}

// heatWatchedClause: somebody said that they stay, and the charger came on
// within a quarter of an hour. From then on the charge list tells: a gap in the
// first ten minutes is nobody there. To say it again begins a new run.
func (f *Facts) heatWatchedClause() Clause {
	c := Clause{ID: "heat-watched", Title: sayHeatWatched.With(), Says: sayHeatWatchAsk.With(), Asks: &finding.Key{Part: "bank", Field: heatWatched.ID}}
	e, ok := f.entry(heatWatched.Field, "bank")
	if !ok || e.Value.Choice != "yes" {
		return c
	}
	said := entryTime(e)
	if _, dated := f.age(said); !dated {
		return c
	}
	var lines []time.Time
	for _, s := range f.samples() {
		if s.hasAmps && !s.at.Before(said) {
			lines = append(lines, s.at)
		}
	}
	if len(lines) == 0 {
		c.Open = f.now.Sub(said) <= freshFor
		return c
	}
	on, last := lines[0], lines[len(lines)-1]
	c.Open = on.Sub(said) <= freshFor && f.now.Sub(last) <= heatOver && !gapped(lines, earlier(f.now, on.Add(heatWatch)))
	return c
}

// gapped reports whether lines in the order of their times leave a gap that is
// too long, until a moment.
func gapped(lines []time.Time, until time.Time) bool {
	for i, at := range lines {
		next := until
		if i+1 < len(lines) {
			next = earlier(until, lines[i+1])
		}
		if next.Sub(at) > heatGap {
			return true
		}
	}
	return false
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

// heatStepClause: what the charge list shows so far is heater current. It is
// shut by a step that was not proved warm, and by a current beyond the heaters'
// from the start, in which there is no step to find.
func (f *Facts) heatStepClause() Clause {
	proved := passes(f.resting("heater-to-charge"))
	c := Clause{ID: proved.ID, Title: proved.Title, Open: true}
	trace, of := currentTrace(f.samples())
	if len(trace) == 0 {
		return c
	}
	heaters, _, gap := f.heaterAmps()
	if gap != nil {
		c.Open, c.Says = false, sayHeatSetAsk.With()
		return c
	}
	if _, found := thermal.HandsOver(trace, heaters); found {
		return proved
	}
	for _, s := range of {
		warm := s.hasTemp && measure.Above(s.temp.Interval(), freezing) == measure.Inside
		if !warm && measure.AtMost(s.amps.Interval(), heaters*(1+heaterBand)) == measure.Outside {
			c.Open, c.Says = false, sayHeatBeyond.With()
		}
	}
	return c
}
