package checks

import (
	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// What hold points ask of the main: off while a link closes, on and closed
// rightly before a charger comes on.

var (
	sayMainOpen    = say.Phrase{Key: "hold.main-open", English: "Main open while a link closes"}
	sayMainOpenAsk = say.Phrase{Key: "hold.main-open-ask", English: "The main is entered as closed. Load off, charger off, an alternator stopped; then open the main, and enter it as open."}
)

// mainOpenClause asks that the main was not on when this link was closed, or is
// not on now while it is open: whatever hangs on the main would draw its first
// current through the link. Not entered is open here, for a bank is wired
// before its main is spoken of.
func (f *Facts) mainOpenClause(l bank.Link) Clause {
	c := Clause{ID: "main-open", Title: sayMainOpen.With(), Says: sayMainOpenAsk.With(), Asks: &finding.Key{Part: "switch", Field: closed.ID}}
	lam := f.actOf(l.ID).lam
	position, fuse := f.stood("switch", lam), f.stood("fuse.main", lam)
	c.Open = position == "no" || fuse == "no" || position == "" && fuse == ""
	c.Fails = !c.Open
	return c
}

// stood is whether a part was closed at a place of the record: "yes", "no", ""
// where nobody had said, and "yes" where two people differ. What an earlier
// visit left closed is closed until somebody enters otherwise.
func (f *Facts) stood(part string, lam int) string {
	e, standing := f.state.StandingAsOf(f.key(part, closed.Field), lam)
	switch {
	case standing == job.Conflict || standing == job.Missing && f.leftClosed(part):
		return "yes"
	case standing == job.One:
		return e.Value.Choice
	}
	return ""
}

var (
	sayMainOn       = say.Phrase{Key: "hold.main-on", English: "The main is closed, as its own hold point allows"}
	sayMainOnAsk    = say.Phrase{Key: "hold.main-on-ask", English: "Close the main by its own hold point first; a charger belongs on a bank that was wired and checked."}
	sayMainOnBreach = say.Phrase{Key: "hold.main-on-breach", English: "The main is closed while its own hold point is shut."}
	sayMainFuse     = say.Phrase{Key: "hold.main-fuse", English: "The main fuse is in place"}
	sayMainFuseAsk  = say.Phrase{Key: "hold.main-fuse-ask", English: "Enter that the main fuse is in place."}
)

// begun rests on a check once one of its entries is made: what was measured
// must pass; what nobody has measured or what somebody put aside is not asked
// for here.
func (f *Facts) begun(check *Check, fields ...Field) Clause {
	c := f.resting(check.ID)
	any := false
	for _, field := range fields {
		_, standing := f.state.Lookup(f.visit, "bank", field.ID, field.Setup)
		any = any || standing != job.Missing
	}
	c.Open = true
	for _, x := range c.Findings {
		switch x.Verdict() {
		case finding.Fail, finding.CantTell:
			c.Open = false
		case finding.ToDo:
			c.Open = c.Open && !any
		}
	}
	return c
}

// wiredClauses ask for the wiring before a charger comes on. For the bank: every
// drawn link, no block that is backwards or missing, the fuse, and the main
// closed as its own hold point allows. For a string its own links and polarity,
// with the main where it is; for a group its links; for a block alone, nothing.
// Once the charge is over the question is past.
func (f *Facts) wiredClauses() []Clause {
	part, _ := f.charged()
	kind, _ := bank.PartKind(part)
	if kind == bank.KindBlock {
		return nil
	}
	over := f.chargeEnded()
	links := f.linksOnOf(part)
	links.Open = links.Open || over
	out := []Clause{links}
	if kind != bank.KindGroup {
		for _, check := range []*Check{polaritySteps, bankTotal} {
			out = append(out, f.notFailing(check, part))
		}
	}
	if part != "bank" {
		return out
	}
	fuse := Clause{ID: "main-fuse", Title: sayMainFuse.With(), Says: sayMainFuseAsk.With(), Asks: &finding.Key{Part: "fuse.main", Field: closed.ID}}
	f.quietly(func() { fuse.Open = over || closed.Yes(f, "fuse.main") })
	return append(out, fuse, f.mainOnClause(over))
}

// mainOnClause: the main is closed, and its hold point had passed or a person
// took it on.
func (f *Facts) mainOnClause(over bool) Clause {
	c := Clause{ID: "main-on", Title: sayMainOn.With(), Says: sayMainOnAsk.With(), Asks: &finding.Key{Part: "switch", Field: closed.ID}}
	f.quietly(func() {
		on := closed.Yes(f, "switch")
		main := f.mainHold()
		main.Taken = f.override(main)
		c.Open = over || on && main.Released()
		if on && !c.Open {
			c.Says, c.Fails = sayMainOnBreach.With(), true
		}
	})
	return c
}

// notFailing rests on a check about a part that may still be to do, because the
// main asks for it; a reading that fails, or may fail behind a conflict, shuts.
func (f *Facts) notFailing(check *Check, part string) Clause {
	c := f.resting(check.ID)
	if part != "bank" {
		c = f.resting(check.ID, part)
	}
	c.Open = true
	for _, x := range c.Findings {
		c.Open = c.Open && x.Verdict() != finding.Fail && !f.troubled[x.Check()+"@"+x.Part()]
	}
	return c
}

// barredByWiring bars the override while a block is backwards or missing.
func (f *Facts) barredByWiring(wired []Clause) say.Line {
	for _, c := range wired {
		if (c.ID == polaritySteps.ID || c.ID == bankTotal.ID) && !c.Open {
			return sayBarPolarity.With()
		}
	}
	return say.Line{}
}
