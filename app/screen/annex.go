package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/draw"
	"lugmark/core/figure"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

func (r *root) kickerAnnex() string {
	return r.t("hand.for-inspector", "Handover sheet, for the electrician or inspector")
}

// annexDrawing is the bank as wired, with its legend.
func (r *root) annexDrawing() app.UI {
	p := r.drawing(true)
	var legend []app.UI
	for _, v := range []finding.Verdict{finding.ToDo, finding.Pass, finding.Fail, finding.CantTell, finding.NotNeeded, finding.Later} {
		legend = append(legend, app.Li().Class(string(stateOf(v))).Body(r.stateWord(v), svg(draw.LineSample(stateOf(v)))))
	}
	return r.sheetPage(r.kickerAnnex(), r.t("annex.drawing", "A System and drawing"),
		app.Div().Class("half").Body(
			app.Figure().Class("fig").Body(svg(p.SVG), app.FigCaption().Class("note").Text(r.say(p.Alt))),
			app.Div().Body(app.H3().Text(r.t("annex.legend", "Legend")),
				app.P().Text(r.t("annex.height", "Plus is up. Height is voltage; the scale gives the expected volts above bank minus.")),
				app.Ul().Class("legend").Body(legend...))),
		r.partTable(r.t("annex.system", "System"), checks.SetupParts(r.job.facts.Layout())...))
}

// partTable lists the entries of parts, one row each, with their source.
func (r *root) partTable(caption string, parts ...string) app.UI {
	var rows []app.UI
	for _, p := range parts {
		kind, _ := bank.PartKind(p)
		for _, f := range checks.FieldsOfKind(kind) {
			e, s := r.job.state.Lookup(r.job.visit, p, f.ID, f.Setup)
			if s != job.One || f.Kind == checks.Drawing {
				continue
			}
			rows = append(rows, app.Tr().Body(
				app.Th().Scope("row").Text(r.name(p)), app.Td().Text(r.say(f.Label.With())),
				app.Td().Class("r num").Text(r.valueText(key(p, f.ID), e.Value)), app.Td().Text(r.entryMeta(e))))
		}
	}
	if len(rows) == 0 {
		return app.P().Class("note").Text(caption + ": " + r.t("annex.none", "nothing entered"))
	}
	return app.Table().Body(app.Caption().Text(caption),
		app.THead().Body(app.Tr().Body(r.th(r.t("annex.part", "Part")), r.th(r.t("annex.entry", "Entry")), app.Th().Scope("col").Class("r").Text(r.t("annex.value", "Value, as typed")), r.th(r.t("annex.who", "Who, when, meter")))),
		app.TBody().Body(rows...))
}

// annexResults is one row per finding.
func (r *root) annexResults() app.UI {
	var rows []app.UI
	for _, x := range r.job.findings {
		if x.Verdict() == finding.NotNeeded && x.Settled() {
			continue
		}
		found, limit, kind := "", "", ""
		if v, ok := x.Found(); ok {
			found = r.say(v.Text)
		}
		if l, ok := x.Limit(); ok {
			limit, kind = r.say(l.Line()), r.kind(l.Kind)
		}
		why := x.Reason()
		if why.Empty() {
			why = x.Next()
		}
		source := r.say(x.Source())
		if source == "" {
			source = kind
		}
		rows = append(rows, app.Tr().Body(
			app.Th().Scope("row").Text(r.about(x)+r.limitName(x)), app.Td().Class("num").Text(found), app.Td().Class("num").Text(limit),
			app.Td().Body(r.stateWord(x.Verdict())), app.Td().Text(r.say(why)), app.Td().Text(source)))
	}
	return r.sheetPage(r.kickerAnnex(), r.t("annex.results", "B Results"),
		app.Table().Body(
			app.Caption().Text(r.t("annex.results-caption", "Every check, with what was found (± at k = 2), its limit and its source")),
			app.THead().Body(app.Tr().Body(r.th(r.t("annex.check", "Check")), r.th(r.t("why.found", "Found")), r.th(r.t("why.limit", "Limit")), r.th(r.t("annex.verdict", "Verdict")), r.th(r.t("why", "Why")), r.th(r.t("why.source", "Source")))),
			app.TBody().Body(rows...)))
}

// annexParts is one table per block and per link, the charge list, and what
// was not done.
func (r *root) annexParts() app.UI {
	l := r.job.facts.Layout()
	var blocks []string
	for _, b := range l.Blocks() {
		blocks = append(blocks, b, b+".p", b+".n")
	}
	for _, u := range l.Units() {
		blocks = append(blocks, u.ID)
	}
	var links []string
	for _, k := range l.Links() {
		links = append(links, k.ID)
	}
	links = append(append(links, l.Joints()...), "switch")
	body := []app.UI{r.partTable(r.t("annex.blocks", "C Blocks"), blocks...), r.partTable(r.t("annex.links", "D Links, joints and main"), links...)}
	if rows := r.sampleRows(); len(rows) > 0 {
		body = append(body, app.Table().Body(app.Caption().Text(r.t("annex.charge", "E First charge")),
			app.THead().Body(app.Tr().Body(r.th(r.t("charge.time", "Time")), r.th("V"), r.th("A"), r.th("°C"))), app.TBody().Body(rows...)))
	}
	body = append(body, r.partTable(r.t("annex.capacity", "F Capacity"), "capacity1"), r.overrides())
	return r.sheetPage(r.kickerAnnex(), r.t("annex.parts", "Blocks, links and settings"), body...)
}

// overrides lists every decision that a person took on.
func (r *root) overrides() app.UI {
	var rows []app.UI
	for _, h := range r.job.holds {
		if h.Taken == nil {
			continue
		}
		reason, _ := job.Text(r.job.blobs, h.Taken.Reason)
		rows = append(rows, app.Tr().Body(app.Th().Scope("row").Text(r.say(h.Title)), app.Td().Text(r.job.text(h.Taken.Who, "name")), app.Td().Text(reason)))
	}
	if len(rows) == 0 {
		return app.P().Class("note").Text(r.t("annex.no-overrides", "No hold point was overridden."))
	}
	return app.Table().Body(app.Caption().Text(r.t("annex.overrides", "Overridden hold points")),
		app.THead().Body(app.Tr().Body(r.th(r.t("hold", "Hold point")), r.th(r.t("annex.by", "By")), r.th(r.t("annex.reason", "Reason")))), app.TBody().Body(rows...))
}

// gaveInTest says what the capacity test delivered.
func (r *root) gaveInTest() string {
	e, s := r.job.state.Lookup(r.job.visit, "capacity1", "charge", false)
	if s != job.One || e.Value.Kind != job.KindQuantity {
		return ""
	}
	gave := r.voice.Figure(say.Figure{Digits: e.Value.Number, Unit: e.Value.Unit})
	if t, s := r.job.state.Lookup(r.job.visit, "capacity1", "test-temperature", false); s == job.One {
		if n, ok := unit.Stored(t.Value.Number, unit.Symbol(t.Value.Unit)); ok {
			return r.t("hand.gave-at", "{what} at {t}", "what", gave, "t", r.voice.Figure(figure.Typed(n)))
		}
	}
	return gave
}

func (r *root) markOnly(state string) app.UI { return mark(draw.State(state)) }
