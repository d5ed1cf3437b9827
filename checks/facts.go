package checks

import (
	"encoding/json"
	"time"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Facts is what the checks may know: the folded record at one visit and the
// time now. It also notes what one Eval reads, so that conflicts, skips and
// assumptions reach the finding without the check's help.
type Facts struct {
	state  *job.State
	visit  string
	now    time.Time
	layout *bank.Layout
	links  []bank.Link         // of the layout, made once
	blocks map[string][]string // of the parts asked for so far

	asked    []*Check // the list of the last [Run]
	findings []finding.Finding
	byCheck  map[string][]finding.Finding
	troubled map[string]bool // check@part that met a conflict or something unreadable

	looks   map[finding.Key]*looked // entries looked up, of a record of looksAt events
	looksAt int
	eval    int // counts Evals

	reads   []finding.Key
	assumed []say.Line
	trouble *finding.Finding // conflict or unreadable entry met while reading
	skipped *finding.Finding // what a skip says about an entry that was asked for

	memo map[string]noted // results that many parts share, of this Run
}

// NewFacts looks at a record at a visit ("v1" is commissioning) and a time.
func NewFacts(state *job.State, visit string, now time.Time) *Facts {
	f := &Facts{state: state, visit: visit, now: now, byCheck: map[string][]finding.Finding{}, blocks: map[string][]string{}}
	newer := state.UnknownField(job.Key{Visit: visit, Part: "bank", Field: layoutField.ID})
	if e, standing := state.Lookup(visit, "bank", layoutField.ID, true); standing == job.One && !newer {
		var l bank.Layout
		if json.Unmarshal(e.Value.Layout, &l) == nil && l.Validate() == nil {
			f.layout, f.links = &l, l.Links()
		}
	}
	return f
}

// Now is the time of judging.
func (f *Facts) Now() time.Time { return f.now }

// Layout is the bank; the zero Layout while none is entered.
func (f *Facts) Layout() bank.Layout {
	if f.layout == nil {
		return bank.Layout{}
	}
	return *f.layout
}

// HasLayout reports whether a valid layout is entered.
func (f *Facts) HasLayout() bool { return f.layout != nil }

// Findings gives what [Run] found last.
func (f *Facts) Findings() []finding.Finding { return f.findings }

// begin forgets what the last Eval read.
func (f *Facts) begin() { f.reads, f.assumed, f.trouble, f.skipped = nil, nil, nil, nil }

// settle lets a conflict or a skip of an entry that was read decide.
func (f *Facts) settle(x finding.Finding) finding.Finding {
	switch {
	case f.trouble != nil:
		return f.trouble.About(x.Parts()...)
	case f.skipped != nil && (x.Verdict() == finding.ToDo || f.skipped.Verdict() == finding.Fail):
		return f.skipped.About(x.Parts()...)
	}
	return x
}

// assume notes that something was taken for granted.
func (f *Facts) assume(l say.Line) {
	for _, a := range f.assumed {
		if alike(a, l) {
			return
		}
	}
	f.assumed = append(f.assumed, l)
}

// entry looks one field up and notes that it was read.
func (f *Facts) entry(field Field, part string) (job.Entry, bool) {
	l := f.look(part, field.ID, field.Setup)
	f.read(finding.Key{Part: part, Field: field.ID}, l)
	e, standing := l.entry, l.standing
	switch {
	case l.newer:
		x := finding.CannotTell(sayNewer.With("field", field.Label, "part", bank.Name(part)), sayUpdate.With())
		f.trouble = &x
		return job.Entry{}, false
	case standing == job.Conflict:
		x := finding.CannotTell(sayConflict.With("field", field.Label, "part", bank.Name(part)), sayChoose.With())
		f.trouble = &x
		return job.Entry{}, false
	case standing != job.One:
		return job.Entry{}, false
	case e.Value.Skip != "":
		f.note(e.Value, field, part)
		return job.Entry{}, false
	}
	return e, true
}

// Of reads a number as it was shown; ok is false when it is missing, skipped
// or in conflict.
func (q Quantity[Q]) Of(f *Facts, part string) (measure.Shown[Q], bool) {
	e, ok := f.entry(q.Field, part)
	if !ok {
		return measure.Shown[Q]{}, false
	}
	n, ok := unit.Stored(e.Value.Number, unit.Symbol(e.Value.Unit))
	if base, _ := n.Unit.Base(); !ok || base != q.Unit {
		return measure.Shown[Q]{}, false
	}
	return measure.Shown[Q]{
		Value: Q(n.Value), Step: Q(n.Step), Decimals: n.Decimals, Typed: n,
		Meter: e.Value.Meter, Moving: e.Value.Moving, At: entryTime(e), Lam: e.Lam,
	}, true
}

// Plain reads an entry that has no meter: a plate value, a setting, a length.
func (q Quantity[Q]) Plain(f *Facts, part string) (Q, bool) {
	s, ok := q.Of(f, part)
	return s.Value, ok
}

// Read reads a number with the limits of error of its meter.
func (q Quantity[Q]) Read(f *Facts, part string) (measure.Reading[Q], bool) {
	s, ok := q.Of(f, part)
	if !ok {
		return measure.Reading[Q]{}, false
	}
	return absolute(f, s), true
}

// Of reads the code of the chosen option.
func (c ChoiceField) Of(f *Facts, part string) (string, bool) {
	e, ok := f.entry(c.Field, part)
	return e.Value.Choice, ok && e.Value.Choice != ""
}

// Yes reports whether the answer is yes; missing is not yes.
func (c ChoiceField) Yes(f *Facts, part string) bool {
	code, ok := c.Of(f, part)
	return ok && code == "yes"
}

// Of reads the codes that were ticked, maybe none of them; ok is false when
// nobody has answered.
func (s SeveralField) Of(f *Facts, part string) (codes []string, ok bool) {
	e, ok := f.entry(s.Field, part)
	return e.Value.Choices, ok && e.Value.Kind == job.KindChoices
}

// Of reads plain text.
func (t TextField) Of(f *Facts, part string) (string, bool) {
	e, ok := f.entry(t.Field, part)
	return e.Value.Text, ok && e.Value.Text != ""
}

// Of reads a time.
func (t TimeField) Of(f *Facts, part string) (time.Time, bool) {
	e, ok := f.entry(t.Field, part)
	if !ok {
		return time.Time{}, false
	}
	return parseTime(e.Value.Time)
}

// entryTime is when a value was measured: the time given with it, else the
// time at which it was kept.
func entryTime(e job.Entry) time.Time {
	if t, ok := parseTime(e.Value.When); ok {
		return t
	}
	t, _ := parseTime(e.At)
	return t
}

// parseTime reads a time with its offset, or a date.
func parseTime(s string) (time.Time, bool) {
	form := time.RFC3339Nano
	if len(s) == len(time.DateOnly) {
		form = time.DateOnly
	}
	t, err := time.Parse(form, s)
	return t, err == nil
}
