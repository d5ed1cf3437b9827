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
	Gate    string // "parallel", "series", "main", "heat", "charge", "test"
	Part    string // the link, the switch, the bank or the test
	Title   say.Line
	Keep    say.Line // what to do while it is shut: "Keep the main open"
	Expect  say.Line // what to look for once the act is done; empty: nothing more
	Clauses []Clause
	Barred  say.Line // why nobody may override it; empty: a named person may
	Taken   *Override
	Done    bool // the link or the main is closed already, the charge is over
}

// Clause is one condition of a hold point. With Ways it is open as soon as one
// of them is.
type Clause struct {
	ID       string // for ever, as an override names it: a check, or one of clauseTitles
	Title    say.Line
	Open     bool
	Findings []finding.Finding // what it rests on
	Says     say.Line          // what it asks, where no finding does
	Asks     *finding.Key      // the entry that would settle it
	AsksNo   *finding.Key      // the yes-no entry that must be answered "no" first
	Ways     []Clause
	Fails    bool // a reading says that it is not so; else it is only not known
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

// Breached reports whether a link or the main is closed although its hold
// point is shut: nobody took it on, or what was taken on has changed. It should
// be opened. A charge or a test that is over leaves nothing to open.
func (h Hold) Breached() bool {
	return h.Done && h.Closes() && !h.Released()
}

// Closes reports whether the act is to close a link or the main, and not to
// begin to heat, to charge or to test.
func (h Hold) Closes() bool { return h.Gate != "heat" && h.Gate != "charge" && h.Gate != "test" }

// Shut lists the check@part of every finding, and the id@part of every other
// condition, that keeps the hold point shut, as an override must name them.
func (h Hold) Shut() []string {
	var out []string
	add := func(id, part string) {
		if s := id + "@" + part; !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	var walk func(Clause)
	walk = func(c Clause) {
		if c.Open {
			return
		}
		said := len(c.Ways) > 0
		for _, x := range c.Findings {
			if !x.Settled() {
				add(x.Check(), x.Part())
				said = true
			}
		}
		if !said {
			add(c.ID, h.Part)
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

// clauseTitles are the conditions that are no check, by their id.
var clauseTitles = map[string]say.Phrase{
	"last-gap": sayLastGap, "main-off": sayMainOff, "main-open": sayMainOpen, "main-on": sayMainOn, "main-fuse": sayMainFuse, "links-on": sayLinksOn, "polarity": sayPolarity, "harmless": sayHarmless,
	"level": sayLevelWays, "match-off-flat": sayMatchOff, "match-taken": sayMatchTaken,
	"standing": sayStanding, "test-sheet": sayTestSheet, "test-fuse": sayTestFuse, "test-second": sayTestSecond,
	"heat-sheet": sayHeatSheet, "heat-current": sayHeatCurrent, "heat-watched": sayHeatWatched,
}

// ClauseTitle says what an override names, a condition or a check; false for
// an id that this version does not know.
func ClauseTitle(id string) (say.Line, bool) {
	if p, ok := clauseTitles[id]; ok {
		return p.With(), true
	}
	if c := known(id); c != nil {
		return c.Title.With(), true
	}
	return say.Line{}, false
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
	out = append(out, f.mainHold())
	if h, listed := f.heatHold(); listed {
		out = append(out, h)
	}
	out = append(out, f.chargeHold(), f.testHold())
	for i := range out {
		stands := f.Returning() && !f.builtAgain()
		if stands {
			out[i] = f.standing(out[i])
		}
		for k := range out[i].Clauses { // what is met asks for nothing; the first side of a join says why it is open
			if c := &out[i].Clauses[k]; c.Open && c.ID != "last-gap" {
				c.Says = say.Line{}
			}
		}
		out[i].Taken = f.override(out[i])
		switch out[i].Gate {
		case "heat", "charge":
			out[i].Done = f.chargeEnded()
		case "test":
		default:
			if !stands { // what is on was never opened
				f.quietly(func() { out[i].Done = closed.Yes(f, out[i].Part) })
			}
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
	c := find(f.asked, check)
	if c == nil {
		return Clause{ID: check, Title: say.Phrase{Key: "hold." + check, English: check}.With(), Says: sayNotBuilt.With()}
	}
	out := Clause{ID: check, Title: c.Title.With()}
	for _, x := range f.byCheck[check] {
		if len(parts) == 0 || slices.Contains(parts, x.Part()) || x.Part() == "bank" && x.Verdict() == finding.NotNeeded {
			out.Findings = append(out.Findings, x)
		}
	}
	out.Open = allSettled(out.Findings)
	return out
}

// known finds a check of the list by its id; nil when there is none.
func known(id string) *Check { return find(All, id) }

func find(list []*Check, id string) *Check {
	for _, c := range list {
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
func either(id string, title say.Phrase, ways ...Clause) Clause {
	c := Clause{ID: id, Title: title.With(), Ways: ways}
	for _, w := range ways {
		c.Open = c.Open || w.Open
	}
	return c
}

// every is a way that needs all of its clauses.
func every(id string, title say.Phrase, all ...Clause) Clause {
	c := Clause{ID: id, Title: title.With(), Open: true}
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

// holdStages are the stages on whose readings a hold point rests.
var holdStages = map[string][]Stage{
	"series": {Match, Wire}, "parallel": {Match, Wire}, "main": {Wire, SwitchOn},
	"heat": {SwitchOn, FirstCharge}, "charge": {SwitchOn, FirstCharge}, "test": {Prove},
}

// unsafe bars the override while anything of its stages, or anything that the
// hold point asks or rests on, was unsafe to measure; also where somebody else
// entered a value beside it.
func (f *Facts) unsafe(h Hold) say.Line {
	for _, k := range f.unsafeKeys() {
		field, ok := FieldOf(k.Field, k.Part)
		if ok && slices.Contains(holdStages[h.Gate], field.Stage) || slices.ContainsFunc(h.Clauses, func(c Clause) bool { return c.restsOn(k) }) {
			return sayUnsafeBars.With()
		}
	}
	return say.Line{}
}

// unsafeKeys lists what somebody found unsafe to measure and nobody has since
// measured in its place.
func (f *Facts) unsafeKeys() []finding.Key {
	return rememberQuietly(f, "unsafe", func() (out []finding.Key) {
		for _, k := range f.state.KeysFrom(f.visit, "") {
			if slices.ContainsFunc(f.state.Live(k), func(e job.Entry) bool { return e.Value.Skip == job.SkipUnsafe }) {
				out = append(out, finding.Key{Part: k.Part, Field: k.Field})
			}
		}
		return out
	})
}

func (c Clause) restsOn(k finding.Key) bool {
	return c.Asks != nil && *c.Asks == k ||
		slices.ContainsFunc(c.Findings, func(x finding.Finding) bool { return slices.Contains(x.Reads(), k) }) ||
		slices.ContainsFunc(c.Ways, func(w Clause) bool { return w.restsOn(k) })
}

// barredBy bars the override while a check is not settled (or fails). What is
// in conflict or unreadable may be a Fail behind it, and keeps the bar.
func (f *Facts) barredBy(c Clause, failOnly bool, why say.Line) say.Line {
	for _, x := range c.Findings {
		if failOnly && (x.Verdict() == finding.Fail || f.troubled[x.Check()+"@"+x.Part()]) || !failOnly && !x.Settled() {
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
