package screen

import (
	"slices"
	"strings"

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
	l := r.job.facts.Layout()
	drawings := r.sheetDrawings(l)
	var legend []app.UI
	for _, v := range []finding.Verdict{finding.ToDo, finding.Pass, finding.Fail, finding.CantTell, finding.NotNeeded, finding.Later} {
		legend = append(legend, app.Li().Class(string(stateOf(v))).Body(r.stateWord(v), svg(draw.LineSample(stateOf(v)))))
	}
	return r.sheetPage(r.kickerAnnex(), r.t("annex.drawing", "A System and drawing"),
		app.Div().Class("half").Body(drawings[0],
			app.Div().Body(app.H3().Text(r.t("annex.legend", "Legend")),
				app.P().Text(r.t("annex.height", "Plus is up. Height is voltage; the scale gives the expected volts above bank minus.")),
				app.Ul().Class("legend").Body(legend...))),
		app.Div().Class("half").Body(drawings[1:]...),
		r.partTable(r.t("annex.system", "System"), append(r.setupParts(), "switch", "shunt")...))
}

// partTable lists the entries of parts, one row per part and topic: what was
// entered, as it was typed.
func (r *root) partTable(caption string, parts ...string) app.UI {
	var rows []app.UI
	for _, p := range parts {
		kind, _ := bank.PartKind(p)
		var forms []form
		said := map[form][]string{}
		for _, f := range checks.FieldsOfKind(kind) {
			e, s := r.job.state.Lookup(r.job.visit, p, f.ID, f.Setup)
			if s != job.One || f.Kind == checks.Drawing {
				continue
			}
			of := form{part: p}
			if topic := checks.TopicOf(kind, f); topic != "" {
				of = form{p, f.Stage, topic}
			}
			if said[of] == nil {
				forms = append(forms, of)
			}
			said[of] = append(said[of], r.t("annex.pair", "{field}: {value}", "field", lowerFirst(r.say(f.Label.With())), "value", r.valueText(key(p, f.ID), e.Value)))
		}
		for _, of := range forms {
			rows = append(rows, app.Tr().Body(app.Th().Scope("row").Text(r.formTitle(of)), app.Td().Text(strings.Join(said[of], "; "))))
		}
	}
	if len(rows) == 0 {
		return app.P().Class("note").Text(r.t("annex.none", "{what}: nothing entered.", "what", caption))
	}
	return app.Table().TabIndex(0).Body(app.Caption().Text(caption),
		app.THead().Body(app.Tr().Body(r.th(r.t("annex.part", "Part")), r.th(r.t("annex.value", "Entered, as typed")))),
		app.TBody().Body(rows...))
}

// annexParts is one row per block, per link and per joint, the charge list,
// and what was overridden.
func (r *root) annexParts() app.UI {
	l := r.job.facts.Layout()
	var links []string
	for _, k := range l.Links() {
		links = append(links, k.ID)
	}
	var units []string
	for _, u := range l.Units() {
		units = append(units, u.ID)
	}
	body := []app.UI{
		r.matrix(r.t("annex.blocks", "C Blocks"), l.Blocks()),
		r.matrix(r.t("annex.posts", "D Posts"), l.Posts()),
		r.matrix(r.t("annex.units", "E Strings, groups and bank"), append(units, "switch")),
		r.matrix(r.t("annex.links", "F Links"), links),
		r.matrix(r.t("annex.joints", "G Joints"), l.Joints()),
	}
	if rows := r.sampleRows(); len(rows) > 0 {
		slices.Reverse(rows) // paper tells it from the beginning
		body = append(body, app.Table().TabIndex(0).Body(app.Caption().Text(r.t("annex.charge", "H First charge")),
			app.THead().Body(app.Tr().Body(r.th(r.t("charge.time", "Time")), app.Th().Scope("col").Class("r").Text("V"), app.Th().Scope("col").Class("r").Text("A"), app.Th().Scope("col").Class("r").Text("°C"))), app.TBody().Body(rows...)))
	}
	body = append(body, r.partTable(r.t("annex.capacity", "I Capacity and rest"), append(r.job.partsOf("capacity"), r.job.partsOf("rest")...)...), r.overrides(), r.annexReplaced())
	return r.sheetPage(r.kickerAnnex(), r.t("annex.parts", "Blocks, links and joints"), body...)
}

// matrix is one row per part and one column per field that any of them has,
// each value as it was typed; a skipped one says so.
func (r *root) matrix(caption string, parts []string) app.UI {
	var fields []checks.Field
	kinds := map[bank.Kind]bool{}
	for _, p := range parts {
		kind, _ := bank.PartKind(p)
		if kinds[kind] {
			continue
		}
		kinds[kind] = true
		for _, f := range checks.FieldsOfKind(kind) {
			for _, q := range parts {
				if f.ID != "sheet" && r.job.has(key(q, f.ID)) {
					fields = append(fields, f)
					break
				}
			}
		}
	}
	if len(fields) == 0 {
		return app.Div()
	}
	var tables []app.UI
	for len(fields) > 0 {
		n := min(len(fields), widestTable)
		tables = append(tables, r.matrixTable(caption, parts, fields[:n]))
		fields = fields[n:]
	}
	return app.Div().Class("body").Body(tables...)
}

// widestTable is how many columns of values fit on paper beside the names.
const widestTable = 8

func (r *root) matrixTable(caption string, parts []string, fields []checks.Field) app.UI {
	head := []app.UI{app.Td().Text("")}
	for _, f := range fields {
		head = append(head, r.th(r.say(f.Label.With())))
	}
	var rows []app.UI
	for _, p := range parts {
		cells := []app.UI{app.Th().Scope("row").Text(r.name(p))}
		for _, f := range fields {
			text := "\u2013"
			if e, s := r.job.state.Lookup(r.job.visit, p, f.ID, f.Setup); s == job.One {
				text = r.valueText(key(p, f.ID), e.Value)
			} else if s == job.Conflict {
				text = r.t("part.two", "two values")
			}
			cells = append(cells, app.Td().Class("num").Text(text))
		}
		rows = append(rows, app.Tr().Body(cells...))
	}
	return app.Table().Class("matrix").TabIndex(0).Body(app.Caption().Text(caption), app.THead().Body(app.Tr().Body(head...)), app.TBody().Body(rows...))
}

// overrides lists every decision that a person took on.
func (r *root) overrides() app.UI {
	var rows []app.UI
	for _, h := range r.job.holds() {
		if h.Breached() {
			rows = append(rows, app.Tr().Body(app.Th().Scope("row").Text(r.say(h.Title)), app.Td().Text("\u2013"), app.Td().Text(r.t("annex.breached", "Closed while the hold point was shut."))))
		}
		if h.Taken == nil {
			continue
		}
		reason := r.written(h.Taken.Reason)
		rows = append(rows, app.Tr().Body(app.Th().Scope("row").Text(r.say(h.Title)), app.Td().Text(r.job.text(h.Taken.Who, "name")), app.Td().Body(app.Text(reason), app.Div().Text(r.takenOver(h)))))
	}
	if len(rows) == 0 {
		return app.P().Class("note").Text(r.t("annex.no-overrides", "No hold point was overridden."))
	}
	return app.Table().TabIndex(0).Body(app.Caption().Text(r.t("annex.overrides", "Hold points that were overridden, or shut while closed")),
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
