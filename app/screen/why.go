package screen

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/draw"
	"lugmark/core/figure"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/unit"
)

// whyWay is the address of one finding. Findings of one check about one part
// are told apart by the name of their limit.
func (r *root) whyWay(x finding.Finding) string {
	way := r.to("why", x.Check(), x.Part())
	if l, ok := x.Limit(); ok {
		way += "?limit=" + l.Name
	}
	return way
}

func (r *root) findingAt(check, part string) (finding.Finding, bool) {
	var found finding.Finding
	ok := false
	for _, x := range r.job.findings {
		if x.Check() != check || x.Part() != part {
			continue
		}
		l, has := x.Limit()
		if want := r.query["limit"]; want != "" && has && l.Name == want {
			return x, true
		}
		if !ok {
			found, ok = x, true
		}
	}
	return found, ok
}

// viewWhy is one finding: the verdict in a sentence, the span across the
// limit, what to do, and where all of it comes from.
func (r *root) viewWhy(check, part string) page {
	x, ok := r.findingAt(check, part)
	if !ok {
		return page{title: r.titleOf(check), back: r.to("open"), main: []app.UI{app.P().Text(r.t("why.gone", "This check says nothing about that part any more."))}, foot: []app.UI{r.tabs("")}}
	}
	state := stateOf(x.Verdict())
	says := x.Reason()
	if says.Empty() {
		says = x.Next()
	}
	main := []app.UI{app.Div().Class("ruled", "big", string(state)).Role("status").Body(mark(state),
		app.Div().Body(app.H2().Text(r.word(x.Verdict())), app.P().Text(r.say(says))))}
	if span, ok := r.span(x); ok {
		main = append(main, app.Figure().Class("fig").Body(svg(span)))
	}
	if !x.Next().Empty() && x.Verdict() != finding.Pass {
		main = append(main, app.H2().Text(r.t("why.do", "Do this")), app.Ol().Class("do").Body(app.Li().Body(app.P().Text(r.say(x.Next())), r.doLink(x))))
	}
	for _, n := range x.Notes() {
		main = append(main, app.Div().Class("ruled").Body(app.Span(), app.Div().Body(app.P().Text(r.say(n)))))
	}
	main = append(main, app.Details().Class("why").Open(true).Body(app.Summary().Text(r.t("why", "Why")), app.Dl().Class("kv").Body(r.whyRows(x)...)))
	if rows := r.readRows(x); len(rows) > 0 {
		main = append(main, app.H2().Text(r.t("why.rests", "It rests on")), app.Ul().Class("rows").Body(rows...))
	}
	return page{title: r.titleOf(check), sub: subOf(r, x), back: r.to("stage", string(stageOf(x))), main: main, foot: []app.UI{r.tabs("")}}
}

func subOf(r *root, x finding.Finding) string {
	if x.Part() == "bank" {
		return r.job.text("site", "name")
	}
	return r.name(x.Part())
}

// doLink is the button of the next action.
func (r *root) doLink(x finding.Finding) app.UI {
	k, ok := r.job.wants(x)
	if !ok {
		return app.Span()
	}
	label := r.t("why.enter", "Enter it")
	if f, _ := checks.FieldOf(k.Field, k.Part); f.Round {
		label = r.t("why.measure", "Measure")
		if r.job.has(k) {
			label = r.t("why.again", "Measure again")
		}
	} else if r.job.has(k) {
		label = r.t("why.change", "Change the entry")
	}
	return goLink("btn", label, r.wayTo(k))
}

// whyRows are found, limit, rule, kind, source and what was assumed.
func (r *root) whyRows(x finding.Finding) []app.UI {
	var rows []app.UI
	row := func(name, value string) {
		if value != "" {
			rows = append(rows, app.Dt().Text(name), app.Dd().Text(value))
		}
	}
	if v, ok := x.Found(); ok {
		row(r.t("why.found", "Found"), r.say(v.Text)+" "+r.t("why.k2", "(k = 2)"))
	}
	if l, ok := x.Limit(); ok {
		row(r.t("why.limit", "Limit"), r.say(l.Line()))
		row(r.t("why.kind", "Kind"), r.kind(l.Kind))
	}
	row(r.t("why.source", "Source"), r.say(x.Source()))
	for _, a := range x.Assumed() {
		row(r.t("why.assumed", "Assumed"), r.say(a))
	}
	for _, c := range checks.All {
		if c.ID == x.Check() {
			row(r.t("why.asks", "Question"), r.say(c.Asks.With()))
			row(r.t("why.formula", "Formula"), c.Formula)
		}
	}
	rows = append(rows, app.Dt().Text(r.t("why.check", "Check")), app.Dd().Body(app.Code().Text(x.Check()), app.Text(", "+r.t("why.rules", "rules {edition}", "edition", checks.Rules))))
	return rows
}

func (r *root) kind(k finding.Kind) string {
	switch k {
	case finding.Maker:
		return r.t("kind.maker", "the maker's value")
	case finding.Standard:
		return r.t("kind.standard", "standard")
	case finding.House:
		return r.t("kind.house", "the firm's own rule")
	case finding.Practice:
		return r.t("kind.practice", "practice")
	}
	return ""
}

// readRows lists the entries that a finding rests on, as they were typed.
func (r *root) readRows(x finding.Finding) []app.UI {
	var rows []app.UI
	for _, k := range x.Reads() {
		f, ok := checks.FieldOf(k.Field, k.Part)
		if !ok {
			continue
		}
		e, st := r.job.state.Lookup(r.job.visit, k.Part, k.Field, f.Setup)
		if st != job.One || e.Value.Kind == job.KindLayout {
			continue
		}
		rows = append(rows, app.Li().Body(app.A().Class("row").Href(r.wayTo(k)).Body(app.Span(),
			app.Span().Body(app.Text(r.say(bank.Name(k.Part))+", "+lowerFirst(r.say(f.Label.With()))), app.Br(), app.Span().Class("note").Text(r.entryMeta(e))),
			app.B().Class("num").Text(r.valueText(k, e.Value)))))
	}
	return rows
}

// span draws what was found across its limit; ok is false when the check has
// no figure or no limit.
func (r *root) span(x finding.Finding) (string, bool) {
	v, has := x.Found()
	l, ok := x.Limit()
	if !has || !ok || l.Min == nil && l.Max == nil {
		return "", false
	}
	show := v.Show
	if show == "" {
		show = v.Unit
	}
	if base, known := show.Base(); !known || base != v.Unit && base != l.Unit {
		return "", false
	}
	low, high := show.FromBase(v.Low), show.FromBase(v.High)
	s := draw.Span{Low: low, High: high, Unit: string(show), State: stateOf(x.Verdict()), Voice: r.voice}
	s.Min, s.MinText = limitIn(l.Min, show)
	s.Max, s.MaxText = limitIn(l.Max, show)
	return s.Draw().SVG, true
}

func limitIn(limit *float64, show unit.Symbol) (*float64, string) {
	if limit == nil {
		return nil, ""
	}
	v := show.FromBase(*limit)
	return &v, strings.ReplaceAll(figure.Exact(*limit, show).Digits, "\u00a0", "")
}
