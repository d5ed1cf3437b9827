package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/draw"
	"lugmark/core/finding"
	"lugmark/core/job"
)

func key(part, field string) finding.Key { return finding.Key{Part: part, Field: field} }

// viewPart is everything about one part: its hold point, what was found, what
// was entered, and the ways to measure again.
func (r *root) viewPart(part string) page {
	if _, ok := bank.PartKind(part); !ok {
		return r.viewBank()
	}
	var main []app.UI
	for _, k := range r.conflicts(part) {
		main = append(main, r.conflict(k))
	}
	for _, h := range r.job.holds() {
		if h.Part == part {
			main = append(main, r.holdCard(h))
		}
	}
	var found []app.UI
	for _, x := range r.job.findings {
		if names(x, part) {
			found = append(found, r.findingRow(x))
		}
	}
	if len(found) > 0 {
		main = append(main, app.H2().Text(r.t("stage.found", "What was found")), app.Ul().Class("rows").Body(found...))
	}
	main = append(append(main, app.H2().Text(r.t("photos", "Photos"))), r.photosBox(part, "")...)
	if rows := r.entryRows(part); len(rows) > 0 {
		main = append(main, app.H2().Text(r.t("part.entries", "Entries")), app.Ul().Class("rows").Body(rows...))
	}
	main = append(main, r.leftRows(part)...)
	return page{title: r.name(part), sub: r.job.text("site", "name"), back: r.to(), main: main, foot: []app.UI{r.tabs("")}}
}

// names reports whether a finding speaks of a part, or of a post of it.
func names(x finding.Finding, part string) bool {
	for _, p := range x.Parts() {
		if p == part || bank.OwnerOf(p) == part {
			return true
		}
	}
	return false
}

// entryRows lists the fields of a part and of its posts with their values;
// each row leads to where it is entered.
func (r *root) entryRows(part string) []app.UI {
	var rows []app.UI
	parts := []string{part}
	if kind, _ := bank.PartKind(part); kind == bank.KindBlock {
		parts = append(parts, part+".p", part+".n")
	}
	for _, p := range parts {
		kind, _ := bank.PartKind(p)
		for _, f := range checks.FieldsOfKind(kind) {
			k := key(p, f.ID)
			if !r.job.has(k) {
				continue
			}
			e, st := r.job.state.Lookup(r.job.visit, p, f.ID, f.Setup)
			text, meta := r.t("part.two", "two values"), ""
			if st == job.One {
				text, meta = r.valueText(k, e.Value), r.entryMeta(e)
			}
			label := r.say(f.Label.With())
			if p != part {
				label = r.name(p) + ": " + lowerFirst(label)
			}
			rows = append(rows, app.Li().Body(app.A().Class("row").Href(r.wayTo(k)).Body(
				app.Span(), app.Span().Body(app.Text(label), app.Br(), app.Span().Class("note").Text(meta)), app.B().Class("num").Text(text))))
		}
	}
	return rows
}

// conflicts lists the entries of a part and of its posts on which two people
// differ.
func (r *root) conflicts(part string) []finding.Key {
	var out []finding.Key
	for _, k := range r.job.state.KeysFrom(r.job.visit, part) {
		if k.Part != part && bank.OwnerOf(k.Part) != part {
			continue // b10 begins like b1
		}
		if _, st := r.job.state.Get(k); st == job.Conflict {
			out = append(out, key(k.Part, k.Field))
		}
	}
	return out
}

// holdCard shows whether the act of a hold point may be done, and does it.
func (r *root) holdCard(h checks.Hold) app.UI {
	switch {
	case h.Breached():
		return r.breach(h)
	case h.Done && !h.Closes():
		return r.ruled("pass", app.P().Body(app.B().Text(r.say(h.Title))), app.P().Text(r.t("hold.charged", "The first charge is over.")))
	case h.Done:
		return r.ruled("pass", app.P().Body(app.B().Text(r.t("part.closed", "Closed."))),
			r.button("btn", r.t("part.open-again", "It is open again"), func(ctx app.Context) { r.keepChoice(ctx, h.Part, "closed", "no") }))
	case h.Released():
		return r.ruled("pass", app.P().Body(app.B().Text(r.say(h.Title))), app.P().Text(r.t("part.released", "The hold point is released.")),
			goLink("btn", r.t("part.see-hold", "See the hold point"), r.to("hold", h.Gate, h.Part)))
	}
	return r.ruled("todo", app.P().Body(app.B().Text(r.say(h.Keep))), goLink("btn", r.t("part.see-hold", "See the hold point"), r.to("hold", h.Gate, h.Part)))
}

// holdRows lists the hold points of a stage.
func (r *root) holdRows(s checks.Stage) []app.UI {
	stage := map[string]checks.Stage{"series": checks.Wire, "parallel": checks.Wire, "main": checks.SwitchOn, "heat": checks.FirstCharge, "charge": checks.FirstCharge, "test": checks.Prove}
	var rows []app.UI
	for _, h := range r.job.holds() {
		if stage[h.Gate] != s {
			continue
		}
		says, state := r.holdTitle(h), "todo"
		if h.Breached() {
			state = "fail"
		} else if h.Done || h.Released() {
			state = "pass"
		}
		word := r.t("hold.shut", "Held")
		switch {
		case h.Breached():
			word = r.t("hold.closed-shut", "Closed too early")
		case h.Done && h.Closes():
			word = r.t("hold.closed", "Closed")
		case h.Done:
			word = r.t("hold.over", "Over")
		case h.Passed():
			word = r.t("hold.released", "Released")
		case h.Released():
			word = r.t("hold.overridden", "Overridden")
		}
		rows = append(rows, app.Li().Body(app.A().Class("row").Href(r.to("hold", h.Gate, h.Part)).Body(
			mark(draw.State(state)), app.Span().Text(says), app.Span().Class("st", state).Text(word))))
	}
	return rows
}
