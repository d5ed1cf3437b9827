package checks

import (
	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/say"
	"lugmark/core/unit"
)

var (
	sayCautions   = say.Phrase{Key: "hold.cautions", English: "Cautions of “{stage}” read"}
	sayLinksOn    = say.Phrase{Key: "hold.links-on", English: "Every drawn link is closed"}
	sayLinksOnAsk = say.Phrase{Key: "hold.links-on-ask", English: "Not entered as closed: {part}."}
	sayMainOff    = say.Phrase{Key: "hold.main-off", English: "Main fuse out or main switch open"}
	sayMainOffAsk = say.Phrase{Key: "hold.main-off-ask", English: "Confirm that the main switch is open or its fuse is out."}
	saySettings   = say.Phrase{Key: "hold.settings", English: "Every charger setting, as left"}
	sayTestSheet  = say.Phrase{Key: "hold.test-sheet", English: "The maker's sheet is entered"}
	sayTestFuse   = say.Phrase{Key: "hold.test-fuse", English: "The main fuse is in place"}
	sayTestSecond = say.Phrase{Key: "hold.test-second", English: "A second person is named"}
	sayTestAsk    = say.Phrase{Key: "hold.test-ask", English: "Never alone, never without the maker's sheet and a fuse."}
	sayBarCharged = say.Phrase{Key: "hold.bar-precharge", English: "No override: too much is left across the switch. Precharging on costs a minute, closing costs the contacts and the blocks."}
	sayBarTest    = say.Phrase{Key: "hold.bar-test", English: "No override: a test needs the maker's sheet, a fuse and a second person."}
)

// mainHold: no main before polarity, total voltage, torque, fault capacity and
// precharge. Too much left across the switch nobody overrides, our choice: what
// mends it is to wait.
func (f *Facts) mainHold() Hold {
	polarity, total, charged := f.resting("polarity-steps"), f.resting("bank-total"), f.resting("precharge")
	return Hold{
		Gate: "main", Part: "switch", Title: sayCloseMain.With(), Keep: sayKeepOpen.With("part", bank.Name("switch")),
		Clauses: []Clause{f.cautionsOf(SwitchOn), f.linksOnClause(), polarity, total, f.resting("torque"), f.resting("fault-break"),
			f.begun(cableInsulation, insulation.Field), f.begun(strayVoltage, bondPlan.Field, strayPlus.Field, strayMinus.Field), f.mainOffClause(), charged},
		Barred: firstBar(f.barredBy(polarity, true, sayBarPolarity.With()), f.barredBy(total, true, sayBarPolarity.With()), f.barredBy(charged, true, sayBarCharged.With())),
	}
}

// cautionsOf rests on the cautions of a stage: nothing that can hurt is done
// before somebody read them.
func (f *Facts) cautionsOf(s Stage) Clause {
	c := f.resting(hazardsReadCheck.ID, s.Part())
	c.Title = sayCautions.With("stage", s.Title())
	return c
}

// linksOnClause asks for every link of the drawing: a bank with a link left off
// is another bank, whose strings share otherwise and whose parts were not
// judged.
func (f *Facts) linksOnClause() Clause { return f.linksOnOf("bank") }

// linksOnOf is the same of one string or group alone.
func (f *Facts) linksOnOf(part string) Clause {
	c := Clause{ID: "links-on", Title: sayLinksOn.With(), Open: true}
	f.quietly(func() {
		for _, l := range f.links {
			if c.Open && (part == "bank" || l.Of == part) && !closed.Yes(f, l.ID) {
				c.Open, c.Says, c.Asks = false, sayLinksOnAsk.With("part", bank.Name(l.ID)), &finding.Key{Part: l.ID, Field: closed.ID}
			}
		}
	})
	return c
}

// mainOffClause asks somebody to say that the main is off: not entered is not
// off, and neither is a switch that is entered as on. Once the main is closed
// the question is past.
func (f *Facts) mainOffClause() Clause {
	c := Clause{ID: "main-off", Title: sayMainOff.With(), Says: sayMainOffAsk.With(), Asks: &finding.Key{Part: "switch", Field: closed.ID}}
	f.quietly(func() {
		position, _ := closed.Of(f, "switch")
		fuse, _ := closed.Of(f, "fuse.main")
		c.Open = position == "no" || fuse == "no" || f.actOf("switch").done
	})
	return c
}

// chargeHold: no charge before the temperature reading allows it.
func (f *Facts) chargeHold() Hold {
	cold, wired := f.resting("cold-gate"), f.wiredClauses()
	return Hold{
		Gate: "charge", Part: "bank", Title: sayStartCharge.With(), Keep: sayKeepOff.With(),
		Clauses: append([]Clause{f.cautionsOf(FirstCharge), cold, f.settingsClause(), f.resting("charge-rate")}, wired...),
		Barred:  firstBar(f.barredBy(cold, false, sayBarCold.With()), f.barredByWiring(wired)),
	}
}

// settingsClause rests on every setting of the chargers but one: the absorption
// voltage can only be measured while charging, so no gate waits for it.
func (f *Facts) settingsClause() Clause {
	c := f.resting("charger-settings")
	c.Title = saySettings.With()
	var asLeft []finding.Finding
	for _, x := range c.Findings {
		if l, ok := x.Limit(); !ok || l.Name != AbsorptionMeasured {
			asLeft = append(asLeft, x)
		}
	}
	c.Findings, c.Open = asLeft, allSettled(asLeft)
	return c
}

// AbsorptionMeasured is the limit of charger-settings that only a running
// charge can show.
const AbsorptionMeasured = "absorption-measured"

// testHold: no capacity test alone, without a sheet or without a fuse.
func (f *Facts) testHold() Hold {
	ask := func(id string, title say.Phrase, open bool, key finding.Key) Clause {
		return Clause{ID: id, Title: title.With(), Open: open, Says: sayTestAsk.With(), Asks: &key}
	}
	var sheet, fuse, second bool
	f.quietly(func() {
		sheet = len(f.Layout().Blocks()) > 0
		for _, b := range f.Layout().Blocks() {
			id, ok := blockSheet.Of(f, b)
			_, has := sheetCapacity.Plain(f, id)
			sheet = sheet && ok && has
		}
		fuse = closed.Yes(f, "fuse.main")
		_, second = f.entry(siteName.Field, "p2")
		second = second && f.enteredHere(siteName.Field, "p2")
	})
	h := Hold{
		Gate: "test", Part: "bank", Title: sayStartTest.With(), Keep: sayNoTest.With(),
		Clauses: []Clause{
			f.cautionsOf(Prove),
			ask("test-sheet", sayTestSheet, sheet, finding.Key{Part: "sheet1", Field: sheetCapacity.ID}),
			ask("test-fuse", sayTestFuse, fuse, finding.Key{Part: "fuse.main", Field: closed.ID}),
			ask("test-second", sayTestSecond, second, finding.Key{Part: "p2", Field: siteName.ID}),
		},
	}
	if !sheet || !fuse || !second {
		h.Barred = sayBarTest.With()
	}
	return h
}

// highestVoltage is Ns times the highest charge voltage of a block, the usual
// one, said as assumed, where no sheet gives it.
func (f *Facts) highestVoltage() unit.Volt {
	_, whole := f.highestCharge()
	return whole
}
