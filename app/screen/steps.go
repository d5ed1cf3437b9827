package screen

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/draw"
	"lugmark/core/finding"
)

// viewSteps lists the stages in the order on site.
func (r *root) viewSteps() page {
	current := r.job.current()
	var rows []app.UI
	for _, s := range r.job.stagesHere() {
		c := count(r.job.ofStage(s))
		worst := finding.ToDo
		if v, ok := finding.Worst(r.job.verdictsOf(s)...); ok {
			worst = v
		}
		said := r.t("steps.count", "{n} of {all}", "n", strconv.Itoa(c.answered()), "all", strconv.Itoa(c.needed()))
		row := app.A().Class("row").Href(r.to("stage", string(s))).Body(mark(stateOf(worst)),
			app.Span().Body(app.B().Text(r.say(s.Title().With())), app.Br(), app.Span().Class("note").Text(said)), r.stateWordOnly(worst))
		if s == current {
			row = row.Aria("current", "step")
		}
		rows = append(rows, app.Li().Body(row))
	}
	return page{title: r.t("tab.steps", "Steps"), sub: r.job.text("site", "name"), back: r.to(), main: append(r.visitBar(), app.Nav().Aria("label", r.t("tab.steps", "Steps")).Body(app.Ol().Class("rows").Body(rows...))), foot: r.nextFoot("steps")}
}

func (r *root) stateWordOnly(v finding.Verdict) app.UI {
	return app.Span().Class("st", string(stateOf(v))).Text(r.word(v))
}

func (j *opened) ofStage(s checks.Stage) []finding.Finding {
	var out []finding.Finding
	for _, x := range j.findings {
		if stageOf(x) == s {
			out = append(out, x)
		}
	}
	return out
}

func (j *opened) verdictsOf(s checks.Stage) []finding.Verdict {
	var vs []finding.Verdict
	for _, x := range j.ofStage(s) {
		vs = append(vs, x.Verdict())
	}
	return vs
}

// viewStage is one stage: its cautions, what is measured and entered in it,
// its hold points, and what was found.
func (r *root) viewStage(id string) page {
	s := checks.Stage(id)
	main := []app.UI{}
	if len(s.Hazards()) > 0 {
		main = append(main, r.cautions(s))
	}
	if rows := r.roundRows(s); len(rows) > 0 {
		main = append(main, app.H2().Text(r.t("stage.rounds", "Measure along the bank")), app.Ul().Class("rows").Body(rows...))
	}
	if rows := r.formRows(s); len(rows) > 0 {
		main = append(main, app.H2().Text(r.t("stage.entries", "Enter")), app.Ul().Class("rows").Body(rows...))
	}
	if rows := r.holdRows(s); len(rows) > 0 {
		main = append(main, app.H2().Text(r.t("stage.holds", "Hold points")), app.Ul().Class("rows").Body(rows...))
	}
	if s == checks.FirstCharge {
		main = append(main, goLink("btn", r.t("bank.charge", "Charge list"), r.to("charge")))
	}
	if s == checks.HandOver {
		main = append(main, app.P().Text(r.t("stage.hand-over", "Go through the sheet with the owner, then sign.")), goLink("btn go", r.t("tab.handover", "Hand over"), r.to("handover")))
	}
	if groups := r.foundGroups(s); len(groups) > 0 {
		main = append(append(main, app.H2().Text(r.t("stage.found", "What was found"))), groups...)
	}
	return page{title: r.say(s.Title().With()), sub: r.job.text("site", "name"), back: r.to("steps"), main: main, foot: r.nextFoot("steps")}
}

// settingName says which of several findings of one check this is.
func (r *root) settingName(name string) string {
	switch name {
	case "temp-comp":
		return r.t("limit.temp-comp", "temperature compensation")
	case "absorption-measured":
		return r.t("limit.absorption-measured", "absorption, measured")
	}
	return r.t("limit."+name, name)
}

// foundGroups lists what a stage found: what was answered first, then folded
// what is still to do and what this job does not need.
func (r *root) foundGroups(s checks.Stage) []app.UI {
	var answered, waiting, unneeded []finding.Finding
	for _, c := range checks.All {
		for _, x := range r.job.ofStage(s) {
			switch {
			case x.Check() != c.ID || c.ID == "hazards-read":
			case x.Verdict() == finding.ToDo:
				waiting = append(waiting, x)
			case x.Verdict() == finding.NotNeeded:
				unneeded = append(unneeded, x)
			default:
				answered = append(answered, x)
			}
		}
	}
	out := r.byCheck(answered)
	if len(waiting) > 0 {
		out = append(out, r.foldOf(r.t("stage.waiting", "Still to do"), waiting))
	}
	if len(unneeded) > 0 {
		out = append(out, r.foldOf(r.t("stage.unneeded", "Not needed here"), unneeded))
	}
	return out
}

// byCheck lists findings that stand in the order of their checks: a line for
// each, and a fold for a check with many.
func (r *root) byCheck(all []finding.Finding) (out []app.UI) {
	var lines []app.UI
	flush := func() {
		if len(lines) > 0 {
			out, lines = append(out, app.Ul().Class("rows").Body(lines...)), nil
		}
	}
	for len(all) > 0 {
		n := 1
		for n < len(all) && all[n].Check() == all[0].Check() {
			n++
		}
		if n > 2 {
			flush()
			out = append(out, r.foldOf(r.titleOf(all[0].Check()), all[:n]))
		} else {
			for _, x := range all[:n] {
				lines = append(lines, r.findingRow(x))
			}
		}
		all = all[n:]
	}
	flush()
	return out
}

// foldOf folds findings under their worst verdict.
func (r *root) foldOf(title string, list []finding.Finding) app.UI {
	var rows []app.UI
	var vs []finding.Verdict
	for _, x := range list {
		rows, vs = append(rows, r.findingRow(x)), append(vs, x.Verdict())
	}
	worst, _ := finding.Worst(vs...)
	return app.Details().Class("fold").Body(
		app.Summary().Body(mark(stateOf(worst)), app.Span().Text(title), app.Span().Class("note").Text(itoa(len(list))), r.stateWordOnly(worst)),
		app.Ul().Class("rows").Body(rows...))
}

// findingRow is one finding as a line that leads to why.
func (r *root) findingRow(x finding.Finding) app.UI {
	return app.Li().Body(app.A().Class("row").Href(r.whyWay(x)).Body(mark(stateOf(x.Verdict())),
		app.Span().Text(r.about(x)+r.limitName(x)), r.stateWordOnly(x.Verdict())))
}

// limitName tells findings of one check about one part apart.
func (r *root) limitName(x finding.Finding) string {
	l, ok := x.Limit()
	if !ok {
		return ""
	}
	for _, other := range r.job.findings {
		if other.Check() == x.Check() && other.Part() == x.Part() {
			if ol, has := other.Limit(); has && ol.Name != l.Name {
				return ": " + r.settingName(l.Name)
			}
		}
	}
	return ""
}

// roundRows lists the rounds of a stage with how far each is.
func (r *root) roundRows(s checks.Stage) []app.UI {
	var rows []app.UI
	for _, f := range checks.Fields() {
		if !f.Round || f.Kind != checks.Number || f.Stage != s && s != checks.Return {
			continue
		}
		parts := checks.RoundParts(r.job.facts.Layout(), f)
		if len(parts) == 0 || r.job.returning() && !r.job.asks(parts[0], f) {
			continue
		}
		kept, first := 0, ""
		for _, p := range parts {
			if r.job.has(finding.Key{Part: p, Field: f.ID}) {
				kept++
			} else if first == "" {
				first = p
			}
		}
		if first == "" {
			first = parts[0]
		}
		rows = append(rows, app.Li().Body(app.A().Class("row").Href(r.to("read", f.ID, first)).Body(
			mark(roundState(kept, len(parts))),
			app.Span().Body(app.B().Text(r.say(f.Label.With()))),
			app.Span().Class("note").Text(r.t("stage.kept", "{n} of {all}", "n", strconv.Itoa(kept), "all", strconv.Itoa(len(parts)))))))
	}
	return rows
}

// highSeries is from how many blocks in series the caution about 48 V and more
// speaks of this bank.
const highSeries = 4

// cautions are the sentences of a stage that can hurt, confirmed once with a
// name.
func (r *root) cautions(s checks.Stage) app.UI {
	var rows []app.UI
	for _, h := range s.Hazards() {
		if h.Key == "hazard.volts" && r.job.facts.HasLayout() && r.job.facts.Layout().Series < highSeries {
			continue
		}
		rows = append(rows, app.Li().Body(app.P().Text(r.say(h.With()))))
	}
	list := []app.UI{app.Ol().Class("do").Body(rows...),
		app.P().Class("note").Text(r.t("stage.manual", "The maker's manual and the local code come before this list."))}
	if r.job.choiceOf(s.Part(), "hazards-read") == "yes" {
		return app.Details().Class("fold").Body(app.Summary().Body(mark(draw.Pass), app.Span().Text(r.t("stage.read-by", "Cautions read: {name}", "name", r.answeredBy(s.Part(), "hazards-read")))), app.Div().Body(list...))
	}
	body := append([]app.UI{app.H2().Text(r.t("stage.cautions", "Read first"))}, list...)
	body = append(body, r.button("btn go", r.signedWord(r.t("stage.i-read", "I have read this"), "stage.read", "I have read this: {name}"), func(ctx app.Context) {
		r.keepChoice(ctx, s.Part(), "hazards-read", "yes")
	}))
	if r.job.choiceOf(s.Part(), "hazards-read") == "no" {
		body = append(body, r.ruled("fail", app.P().Text(r.t("stage.refused", "Kept: {name} cannot work under these. Do not start this stage.", "name", r.answeredBy(s.Part(), "hazards-read")))))
	} else {
		body = append(body, r.button("btn", r.t("stage.refuse", "I cannot work under these"), func(ctx app.Context) { r.keepChoice(ctx, s.Part(), "hazards-read", "no") }))
	}
	return app.Section().Class("cautions").Body(body...)
}
