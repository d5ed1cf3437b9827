package screen

import (
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/finding"
)

// form is what is entered about a part in a stage at one go: all of it, or one
// topic of it where it is long.
type form struct {
	part  string
	stage checks.Stage
	topic string
}

// allLinks is the form that enters one cable and one length for every link.
const allLinks = "links"

// kind is the kind of part that a form is about.
func (f form) kind() bank.Kind {
	if f.part == allLinks {
		return bank.KindLink
	}
	kind, _ := bank.PartKind(f.part)
	return kind
}

// way is the address of a form.
func (r *root) way(f form) string {
	if f.topic == "" {
		return r.to("enter", f.part, string(f.stage))
	}
	return r.to("enter", f.part, string(f.stage), f.topic)
}

// formAt is the form that an address names; without a topic the first one.
func formAt(part, stage, topic string) form {
	f := form{part, checks.Stage(stage), topic}
	if topics := checks.TopicsOf(f.kind(), f.stage); topic == "" && len(topics) > 0 {
		f.topic = topics[0].ID
	}
	return f
}

// forms lists the forms of a stage.
func (r *root) forms(s checks.Stage) (out []form) {
	if s == checks.Return {
		return r.formsAgain()
	}
	for _, part := range r.formParts(s) {
		out = append(out, r.formsOf(part, s)...)
	}
	return out
}

// formsOf lists the forms of a part in a stage.
func (r *root) formsOf(part string, s checks.Stage) (out []form) {
	f := form{part: part, stage: s}
	topics := checks.TopicsOf(f.kind(), s)
	if len(topics) == 0 {
		topics = []checks.Topic{{}}
	}
	for _, t := range topics {
		f.topic = t.ID
		if len(r.formFields(f)) > 0 {
			out = append(out, f)
		}
	}
	return out
}

// formsAgain lists what a return visit asks beside what is measured along the
// bank: the entries of any stage that one of its findings rests on, who is here
// and with which meters.
func (r *root) formsAgain() (out []form) {
	add := func(f form) {
		for _, field := range r.formFields(f) {
			kind := f.kind()
			tools := kind == bank.KindMeter || kind == bank.KindWrench || kind == bank.KindPerson
			if tools && r.job.has(finding.Key{Part: f.part, Field: field.ID}) || !field.Setup && r.job.readsHere(f.part, field) {
				out = append(out, f)
				return
			}
		}
	}
	for _, s := range []checks.Stage{checks.Return, checks.Before, checks.Match, checks.Wire, checks.SwitchOn, checks.FirstCharge, checks.Prove} {
		parts := r.formParts(s)
		if s == checks.Return {
			parts = r.job.withMore([]string{"bank"}, "inverter", "charger")
		}
		for _, part := range parts {
			f := form{part: part, stage: s}
			topics := checks.TopicsOf(f.kind(), s)
			if len(topics) == 0 {
				topics = []checks.Topic{{}}
			}
			for _, t := range topics {
				f.topic = t.ID
				add(f)
			}
		}
	}
	return out
}

// readsHere reports whether a finding of this visit rests on an entry, or would.
func (j *opened) readsHere(part string, f checks.Field) bool {
	if j.uses == nil {
		j.uses = j.findUses()
	}
	return j.uses.reads[finding.Key{Part: part, Field: f.ID}] || j.uses.of[f.ID].parts[part]
}

// formParts lists the parts about which something may be entered in a stage.
func (r *root) formParts(s checks.Stage) []string {
	l := r.job.facts.Layout()
	switch s {
	case checks.Before:
		return append(r.setupParts(), "switch", allLinks)
	case checks.Receive:
		return append([]string{"bank"}, l.Blocks()...)
	case checks.Match:
		return append(append([]string{"bank"}, l.Blocks()...), "rest1")
	case checks.Wire:
		return append(checks.Fuses(l), "bank", "lead.p", "lead.n")
	case checks.SwitchOn:
		return append(r.job.withMore([]string{"inverter1", "charger1"}, "inverter", "charger"), "switch", "bank")
	case checks.FirstCharge:
		return append(r.job.withMore([]string{"bank", "charger1"}, "charger"), l.Blocks()...)
	case checks.Prove:
		return append(r.job.withMore([]string{"capacity1"}, "capacity"), "bank", "shunt", allLinks)
	case checks.HandOver:
		return []string{"bank"}
	}
	return nil
}

// setupParts lists the parts whose sheets and plates are entered: the usual
// ones and every further one that somebody added.
func (r *root) setupParts() []string {
	return r.job.withMore(checks.SetupParts(r.job.facts.Layout()), "sheet", "m", "w", "charger", "inverter", "cable", "p")
}

// withMore adds to some parts the numbered ones of which anything is entered.
func (j *opened) withMore(parts []string, prefixes ...string) []string {
	for _, prefix := range prefixes {
		for _, p := range j.partsOf(prefix) {
			if !slices.Contains(parts, p) {
				parts = append(parts, p)
			}
		}
	}
	return parts
}

// formFields lists what a form asks: everything that is not measured along the
// bank, and that a check of this job has a use for.
func (r *root) formFields(f form) []checks.Field {
	if f.kind() == bank.KindHouse {
		return r.houseFields()
	}
	var out []checks.Field
	for _, field := range checks.FieldsOfKind(f.kind()) {
		numbers := field.Kind == checks.Number && field.Round
		elsewhere := field.Kind == checks.Drawing || field.ID == "closed" || field.ID == "last-gap" || field.ID == "hazards-read" || field.ID == "heat-watched"
		if field.Stage == f.stage && !numbers && !elsewhere && checks.TopicOf(f.kind(), field) == f.topic && r.job.asks(r.formSource(f.part), field) && !r.isFlat(f.part, field) {
			out = append(out, field)
		}
	}
	return out
}

// isFlat reports whether nobody has to measure how far a block is swollen: it was
// looked at and is whole, or was not looked at yet.
func (r *root) isFlat(part string, f checks.Field) bool {
	if f.ID != "swelling" || r.job.has(key(part, f.ID)) {
		return false
	}
	look := r.job.choiceOf(part, "condition")
	if at := r.route(); at.screen == "enter" && at.a == part {
		look = r.text["condition"]
	}
	return look == "" || look == "whole"
}

// asks reports whether this job has a use for an entry: it stands in the
// record, a finding rests on it, or it belongs to a check that is needed here.
// What no check reads is asked always, and so is what stands on a sheet or a
// plate: it is copied once, whole, before anybody knows which check needs it.
func (j *opened) asks(part string, f checks.Field) bool {
	k := finding.Key{Part: part, Field: f.ID}
	kind, _ := bank.PartKind(part)
	if slices.Contains(plates, kind) || j.isRegister() || j.has(k) {
		return true
	}
	if j.uses == nil {
		j.uses = j.findUses()
	}
	use, read := j.uses.of[f.ID]
	return !read || j.uses.reads[k] || use.parts[part] || use.kinds && !use.named[kind]
}

// plates are the parts whose entries are copied from a sheet or a plate.
var plates = []bank.Kind{bank.KindSheet, bank.KindCharger, bank.KindInverter, bank.KindFuse, bank.KindCable, bank.KindMeter, bank.KindWrench}

// uses is what the findings of a job have a use for.
type uses struct {
	reads map[finding.Key]bool
	of    map[string]use // by field; a field that no check reads is not in it
}

// use is who asks for a field: findings about these parts, and kinds of part
// that findings are about at all.
type use struct {
	kinds bool
	named map[bank.Kind]bool
	parts map[string]bool
}

func (j *opened) findUses() *uses {
	u := &uses{reads: map[finding.Key]bool{}, of: map[string]use{}}
	needed := map[string][]string{} // check → parts that it judges here
	for _, x := range j.findings {
		for _, k := range x.Reads() {
			u.reads[k] = true
		}
		if x.Verdict() != finding.NotNeeded {
			needed[x.Check()] = append(needed[x.Check()], x.Part())
		}
	}
	for _, c := range checks.All {
		for _, f := range c.Fields {
			w, ok := u.of[f.ID]
			if !ok {
				w = use{named: map[bank.Kind]bool{}, parts: map[string]bool{}}
			}
			for _, p := range needed[c.ID] {
				kind, _ := bank.PartKind(p)
				w.kinds, w.named[kind], w.parts[p] = true, true, true
			}
			u.of[f.ID] = w
		}
	}
	return u
}

// formTitle names a form: "Block sheet 1: limits".
func (r *root) formTitle(f form) string {
	for _, t := range checks.TopicsOf(f.kind(), f.stage) {
		if t.ID == f.topic {
			return r.t("form.topic", "{part}: {topic}", "part", r.partTitle(f.part), "topic", r.say(t.Title.With()))
		}
	}
	return r.partTitle(f.part)
}

func (r *root) partTitle(part string) string {
	if part == allLinks {
		return r.t("form.links", "All links alike")
	}
	if isDrawn(part) {
		return r.knownBy(r.job, part)
	}
	return r.name(part)
}

// formSource is the part whose entries a form shows: the first link for all.
func (r *root) formSource(part string) string {
	if part == allLinks {
		if links := r.job.facts.Layout().Links(); len(links) > 0 {
			return links[0].ID
		}
	}
	return part
}

// partsIn lists the parts that a form is kept for: all links of "links".
func (r *root) partsIn(f form) []string {
	if f.part != allLinks {
		return []string{f.part}
	}
	var parts []string
	for _, l := range r.job.facts.Layout().Links() {
		parts = append(parts, l.ID)
	}
	return parts
}

// formRows lists the forms of a stage with how far each is.
func (r *root) formRows(s checks.Stage) []app.UI {
	var rows []app.UI
	for _, f := range r.forms(s) {
		rows = append(rows, r.formRow(f, s))
	}
	return rows
}

// formRow is a form in a stage with how far it is. A return visit asks things of
// several stages: those are named.
func (r *root) formRow(f form, in checks.Stage) app.UI {
	fields := r.formFields(f)
	entered := 0
	for _, field := range fields {
		if r.job.has(finding.Key{Part: r.formSource(f.part), Field: field.ID}) {
			entered++
		}
	}
	title := []app.UI{app.B().Text(r.formTitle(f))}
	if f.stage != in {
		title = append(title, app.Br(), app.Span().Class("note").Text(r.say(f.stage.Title().With())))
	}
	return row(r.way(f), mark(roundState(entered, len(fields))), app.Span().Body(title...), r.t("stage.entered", "{n} of {all}", "n", itoa(entered), "all", itoa(len(fields))))
}

// row is a line of a list that leads somewhere: its mark, what it is, and a note
// at its end.
func row(way string, mark, what app.UI, note string) app.UI {
	return app.Li().Body(app.A().Class("row").Href(way).Body(mark, app.Span().Body(what), app.Span().Class("note").Text(note)))
}
