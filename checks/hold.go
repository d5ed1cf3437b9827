package checks

import (
	"slices"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// Hold is a hold point: an act that can hurt, and what must be so before it.
// It opens on Pass only. Can't tell, Later, To do, Fail and a check that a
// person put aside keep it shut; a check that does not apply here is open.
type Hold struct {
	Gate    string // "parallel", "series", "main", "charge", "test"
	Part    string // the link, the switch, the bank or the test
	Title   say.Line
	Keep    say.Line // what to do while it is shut: "Keep the main open"
	Clauses []Clause
	Barred  say.Line // why nobody may override it; empty: a named person may
	Taken   *Override
	Done    bool // the link or the main is closed already, the charge is over
}

// Clause is one condition of a hold point. With Ways it is open as soon as one
// of them is.
type Clause struct {
	Title    say.Line
	Open     bool
	Findings []finding.Finding // what it rests on
	Says     say.Line          // what it asks, where no finding does
	Asks     *finding.Key      // the entry that would settle it
	Ways     []Clause
}

// Override is a named person's decision to go on. The verdicts stay.
type Override struct {
	Who    string // the person who takes it on
	Over   []string
	Reason job.Ref
	At     string
	Lapsed bool // something outside its list does not pass any more
}

// Released reports whether the act may be done: every clause is open, or a
// person took it on and the override still holds.
func (h Hold) Released() bool {
	return h.Passed() || h.Barred.Empty() && h.Taken != nil && !h.Taken.Lapsed
}

// Passed reports whether every clause is open without an override.
func (h Hold) Passed() bool {
	for _, c := range h.Clauses {
		if !c.Open {
			return false
		}
	}
	return len(h.Clauses) > 0
}

// Shut lists the check@part of every finding that keeps the hold point shut,
// as an override must name them.
func (h Hold) Shut() []string {
	var out []string
	add := func(s string) {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	var walk func(Clause)
	walk = func(c Clause) {
		if c.Open {
			return
		}
		for _, x := range c.Findings {
			if !x.Settled() {
				add(x.Check() + "@" + x.Part())
			}
		}
		if len(c.Findings) == 0 && len(c.Ways) == 0 {
			add(c.Title.Key + "@" + h.Part)
		}
		for _, w := range c.Ways {
			walk(w)
		}
	}
	for _, c := range h.Clauses {
		walk(c)
	}
	slices.Sort(out)
	return out
}

var (
	sayNotBuilt    = say.Phrase{Key: "hold.not-built", English: "This version cannot judge it, so it stays shut."}
	sayKeepOpen    = say.Phrase{Key: "hold.keep-open", English: "Keep open: {part}"}
	sayKeepOff     = say.Phrase{Key: "hold.keep-off", English: "Keep the charger off"}
	sayNoTest      = say.Phrase{Key: "hold.no-test", English: "Do not start the test"}
	sayCloseLink   = say.Phrase{Key: "hold.close-link", English: "Close: {part}"}
	sayCloseMain   = say.Phrase{Key: "hold.close-main", English: "Close the main"}
	sayStartCharge = say.Phrase{Key: "hold.charge", English: "Start the first charge"}
	sayStartTest   = say.Phrase{Key: "hold.test", English: "Start the capacity test"}
)

// Holds lists the hold points of this bank, in the order in which a job meets
// them. It reads the findings of the last [Run].
func (f *Facts) Holds() []Hold {
	if f.layout == nil {
		return nil
	}
	var out []Hold
	for _, l := range f.links {
		if l.Kind == bank.Series {
			out = append(out, f.seriesHold(l))
		}
	}
	for _, l := range f.links {
		if l.Kind == bank.Parallel {
			out = append(out, f.parallelHold(l))
		}
	}
	out = append(out, f.mainHold(), f.chargeHold(), f.testHold())
	for i := range out {
		out[i].Taken = f.override(out[i])
		switch out[i].Gate {
		case "charge":
			out[i].Done = f.chargeEnded()
		case "test":
		default:
			f.quietly(func() { out[i].Done = closed.Yes(f, out[i].Part) })
		}
		if l := f.unsafe(out[i]); !l.Empty() {
			out[i].Barred = l
		}
	}
	return out
}

// HoldFor finds the hold point of an act.
func (f *Facts) HoldFor(gate, part string) (Hold, bool) {
	for _, h := range f.Holds() {
		if h.Gate == gate && h.Part == part {
			return h, true
		}
	}
	return Hold{}, false
}

// resting makes a clause of a check's findings about the parts; without parts,
// of all its findings. A check that this version does not have keeps shut.
func (f *Facts) resting(check string, parts ...string) Clause {
	c := known(check)
	if c == nil {
		return Clause{Title: say.Phrase{Key: "hold." + check, English: check}.With(), Says: sayNotBuilt.With()}
	}
	out := Clause{Title: c.Title.With()}
	for _, x := range f.byCheck[check] {
		if len(parts) == 0 || slices.Contains(parts, x.Part()) || x.Part() == "bank" && x.Verdict() == finding.NotNeeded {
			out.Findings = append(out.Findings, x)
		}
	}
	out.Open = allSettled(out.Findings)
	return out
}

// known finds a check of the list by its id; nil when there is none.
func known(id string) *Check {
	for _, c := range All {
		if c.ID == id {
			return c
		}
	}
	return nil
}

// allSettled is false for no findings at all.
func allSettled(list []finding.Finding) bool {
	for _, x := range list {
		if !x.Settled() {
			return false
		}
	}
	return len(list) > 0
}

// passes is stricter than allSettled: at least one finding and all Pass. A
// proof that opens one of several ways must be there, not merely unneeded.
func passes(c Clause) Clause {
	c.Open = len(c.Findings) > 0
	for _, x := range c.Findings {
		c.Open = c.Open && x.Verdict() == finding.Pass
	}
	return c
}

// either is a clause that is open as soon as one way is.
func either(title say.Phrase, ways ...Clause) Clause {
	c := Clause{Title: title.With(), Ways: ways}
	for _, w := range ways {
		c.Open = c.Open || w.Open
	}
	return c
}

// every is a way that needs all of its clauses.
func every(title say.Phrase, all ...Clause) Clause {
	c := Clause{Title: title.With(), Open: true}
	for _, a := range all {
		c.Open = c.Open && a.Open
		c.Findings = append(c.Findings, a.Findings...)
		if !a.Open && c.Asks == nil {
			c.Asks, c.Says = a.Asks, a.Says
		}
	}
	return c
}

// override gives the decision that a person entered for this hold point.
func (f *Facts) override(h Hold) *Override {
	e, standing := f.state.Lookup(f.visit, h.Part, h.Gate+"-gate", false)
	if standing != job.One || e.Value.Kind != job.KindOverride {
		return nil
	}
	o := &Override{Who: e.Value.Who, Over: e.Value.Over, Reason: e.Value.X, At: e.At}
	for _, s := range h.Shut() {
		o.Lapsed = o.Lapsed || !slices.Contains(o.Over, s)
	}
	return o
}

var sayUnsafeBars = say.Phrase{Key: "hold.unsafe", English: "Something here was unsafe to measure. Nobody may override that."}

// unsafe bars the override while any finding of the hold point rests on an
// entry that was unsafe to measure.
func (f *Facts) unsafe(h Hold) say.Line {
	var walk func(Clause) bool
	walk = func(c Clause) bool {
		for _, x := range c.Findings {
			for _, k := range x.Reads() {
				if e, s := f.state.Lookup(f.visit, k.Part, k.Field, false); s == job.One && e.Value.Skip == job.SkipUnsafe {
					return true
				}
			}
		}
		return slices.ContainsFunc(c.Ways, walk)
	}
	if slices.ContainsFunc(h.Clauses, walk) {
		return sayUnsafeBars.With()
	}
	return say.Line{}
}

// barredBy bars the override while a check is not settled (or fails).
func barredBy(c Clause, failOnly bool, why say.Line) say.Line {
	for _, x := range c.Findings {
		if failOnly && x.Verdict() == finding.Fail || !failOnly && !x.Settled() {
			return why
		}
	}
	if !failOnly && len(c.Findings) == 0 {
		return why
	}
	return say.Line{}
}

// firstBar gives the first reason why nobody may override.
func firstBar(lines ...say.Line) say.Line {
	for _, l := range lines {
		if !l.Empty() {
			return l
		}
	}
	return say.Line{}
}
