package finding

import (
	"time"

	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Kind says where a limit comes from, strongest first.
type Kind string

const (
	Maker    Kind = "maker"
	Standard Kind = "standard"
	House    Kind = "house"
	Practice Kind = "practice"
)

// Limit is what a finding is judged against. Min and Max are in the base unit;
// nil is no limit on that side.
type Limit struct {
	Name     string
	Min, Max *float64
	Unit     unit.Symbol
	Show     unit.Symbol // the unit in which figures are said; "" is Unit
	Kind     Kind
	Source   say.Line
	Text     say.Line // how the limit is said when "at most …" does not do
}

// Found is the figure that was judged, in the base unit. HasValue is false for
// a prediction, which has only Low and High.
type Found struct {
	Value     float64
	HasValue  bool
	Low, High float64
	Unit      unit.Symbol
	Show      unit.Symbol
	Text      say.Line
}

// Key names what a check read: part and field.
type Key struct{ Part, Field string }

// Finding is one answer of one check about one part. Build it with [Passes],
// [Fails], [CannotTell], [Undone], [Unneeded] or [Waits].
type Finding struct{ *body }

// body is shared by copies of a finding and never changed after it was built:
// each step of the building makes a new one.
type body struct {
	check   string
	part    string
	parts   []string
	verdict Verdict
	reason  say.Line
	next    say.Line
	found   *Found
	limit   *Limit
	source  say.Line
	assumed []say.Line
	notes   []say.Line
	reads   []Key
	due     time.Time
	aside   bool
}

// Passes says that the limit is kept with its uncertainty.
func Passes(reason say.Line) Finding { return Finding{&body{verdict: Pass, reason: reason}} }

// Fails says that the limit is broken with its uncertainty, and what to do.
func Fails(reason, next say.Line) Finding {
	return Finding{&body{verdict: Fail, reason: needed(reason), next: needed(next)}}
}

// CannotTell says why the readings do not decide, and what would.
func CannotTell(reason, next say.Line) Finding {
	return Finding{&body{verdict: CantTell, reason: needed(reason), next: needed(next)}}
}

// Undone says what to measure or enter first.
func Undone(next say.Line) Finding { return Finding{&body{verdict: ToDo, next: needed(next)}} }

// Unneeded says why the check does not apply.
func Unneeded(reason say.Line) Finding {
	return Finding{&body{verdict: NotNeeded, reason: needed(reason)}}
}

// SetAside says that a person put the check aside as not needed. It reads like
// [Unneeded], but it opens nothing: a person's word is not a reading.
func SetAside(reason say.Line) Finding {
	return Finding{&body{verdict: NotNeeded, reason: needed(reason), aside: true}}
}

// Waits says until when, and why; a zero due time is "later, no time given".
func Waits(reason, next say.Line, due time.Time) Finding {
	return Finding{&body{verdict: Later, reason: needed(reason), next: needed(next), due: due}}
}

// needed stops a finding that would leave the reader without an answer. It is
// a mistake in our own tables, found by the tests that run every check.
func needed(l say.Line) say.Line {
	if l.Empty() {
		panic("finding: a verdict without its sentence")
	}
	return l
}

// Words are the sentences of one judged limit.
type Words struct {
	Pass, Fail, CantTell say.Line
	Mend                 say.Line // next action of a Fail
	Settle               say.Line // what would settle a Can't tell; Mend when empty
}

// Judge turns the side of a limit into a finding.
func Judge(side measure.Side, w Words) Finding {
	switch side {
	case measure.Inside:
		return Passes(w.Pass)
	case measure.Outside:
		return Fails(w.Fail, w.Mend)
	}
	if w.Settle.Empty() {
		return CannotTell(w.CantTell, w.Mend)
	}
	return CannotTell(w.CantTell, w.Settle)
}

// Of names the check and the part; the engine does this.
func (f Finding) Of(check, part string) Finding {
	return f.with(func(b *body) { b.check, b.part = check, part })
}

// with gives a finding that differs by one step.
func (f Finding) with(step func(*body)) Finding {
	b := *f.held()
	step(&b)
	return Finding{&b}
}

// held is the body; an empty one for the zero Finding.
func (f Finding) held() *body {
	if f.body == nil {
		return &body{}
	}
	return f.body
}

// About names every part that the finding speaks of, worst first.
func (f Finding) About(parts ...string) Finding {
	return f.with(func(b *body) { b.parts = append([]string(nil), parts...) })
}

// Value adds the measured figure.
func (f Finding) Value(v Found) Finding { return f.with(func(b *body) { b.found = &v }) }

// Against adds the limit; its source becomes the finding's source.
func (f Finding) Against(l Limit) Finding {
	return f.with(func(b *body) {
		b.limit = &l
		if !l.Source.Empty() {
			b.source = l.Source
		}
	})
}

// From names the source where there is no limit, or another one.
func (f Finding) From(source say.Line) Finding { return f.with(func(b *body) { b.source = source }) }

// Assuming adds what was assumed for want of an entry.
func (f Finding) Assuming(lines ...say.Line) Finding {
	return f.with(func(b *body) { b.assumed = append(append([]say.Line(nil), b.assumed...), lines...) })
}

// Noting adds what the reader should know beside the verdict.
func (f Finding) Noting(lines ...say.Line) Finding {
	return f.with(func(b *body) { b.notes = append(append([]say.Line(nil), b.notes...), lines...) })
}

// Reading records which entries were used; the engine does this.
func (f Finding) Reading(keys []Key) Finding { return f.with(func(b *body) { b.reads = keys }) }

func (f Finding) Check() string       { return f.held().check }
func (f Finding) Part() string        { return f.held().part }
func (f Finding) Verdict() Verdict    { return f.held().verdict }
func (f Finding) Reason() say.Line    { return f.held().reason }
func (f Finding) Next() say.Line      { return f.held().next }
func (f Finding) Source() say.Line    { return f.held().source }
func (f Finding) Assumed() []say.Line { return f.held().assumed }
func (f Finding) Notes() []say.Line   { return f.held().notes }
func (f Finding) Reads() []Key        { return f.held().reads }
func (f Finding) Due() time.Time      { return f.held().due }

// Settled reports whether the finding lets work go on: it passed, or the check
// does not apply to this bank.
func (f Finding) Settled() bool {
	return f.held().verdict == Pass || f.held().verdict == NotNeeded && !f.held().aside
}

// Parts gives every part the finding speaks of; its own part when none is named.
func (f Finding) Parts() []string {
	if len(f.held().parts) == 0 && f.held().part != "" {
		return []string{f.held().part}
	}
	return f.held().parts
}

// Found gives the figure; ok is false when the check has none.
func (f Finding) Found() (Found, bool) {
	if f.held().found == nil {
		return Found{}, false
	}
	return *f.held().found, true
}

// Limit gives the limit; ok is false when the check has none.
func (f Finding) Limit() (Limit, bool) {
	if f.held().limit == nil {
		return Limit{}, false
	}
	return *f.held().limit, true
}
