package screen

import (
	"strings"

	"github.com/google/uuid"
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// sampleFields are the columns of the charge list.
var sampleFields = []string{"sample-voltage", "sample-current", "sample-temperature"}

// viewCharge is the first charge as a list of samples, newest first.
func (r *root) viewCharge() page {
	main := append(r.chargerOff(), r.beforeCharge()...)
	main = append(main, app.H2().Text(r.t("charge.add", "Add a sample")))
	if len(r.slips) > 0 {
		main = append(main, r.putRight(sampleFields...))
	}
	for _, id := range sampleFields {
		f, _ := checks.FieldOf(id, "charge1.x")
		main = append(main, r.input(id, r.say(f.Label.With())+", "+r.voice.Unit(string(f.Entry())), r.say(f.Hint.With()), "text"))
	}
	main = append(main, r.button("btn go", r.t("charge.keep", "Keep sample"), r.keepSample))
	if rows := r.sampleRows(); len(rows) > 0 {
		main = append(main, app.Table().Body(
			app.Caption().Text(r.t("charge.samples", "Samples of the first charge")),
			app.THead().Body(app.Tr().Body(app.Th().Scope("col").Text(r.t("charge.time", "Time")), app.Th().Scope("col").Class("r").Text("V"), app.Th().Scope("col").Class("r").Text("A"), app.Th().Scope("col").Class("r").Text("°C"))),
			app.TBody().Body(rows...)))
	}
	return page{title: r.t("charge", "First charge"), sub: r.job.text("site", "name"), back: r.to("stage", string(checks.FirstCharge)), main: main, foot: []app.UI{r.tabs("")}}
}

// chargerOff is the order at the top of the charge list while current flows
// that nothing has released, or that nothing may.
func (r *root) chargerOff() []app.UI {
	x, now := r.job.facts.ChargerOff()
	if !now {
		return nil
	}
	return []app.UI{r.ruled("fail", app.P().Body(app.B().Text(r.t("next.charger-off", "Charger off"))), app.P().Text(r.say(x.Reason())),
		app.P().Text(r.t("charge.off-then", "Then keep one more sample, with the current that still flows: 0 A says that it is off.")))}
}

// beforeCharge says what may flow now: nothing, or the heaters' current alone.
// With the charge released it has nothing to say.
func (r *root) beforeCharge() []app.UI {
	charge, _ := r.job.facts.HoldFor("charge", "bank")
	if charge.Released() {
		return nil
	}
	keep := func(h checks.Hold) app.UI {
		return app.Div().Class("ruled", "todo").Body(mark("todo"), app.Div().Body(
			app.P().Body(app.B().Text(r.say(h.Keep))), goLink("btn", r.t("part.see-hold", "See the hold point"), r.to("hold", h.Gate, h.Part))))
	}
	heat, cold := r.job.facts.HoldFor("heat", "bank")
	switch {
	case !cold || heat.Done:
		return []app.UI{keep(charge)}
	case !heat.Released():
		return []app.UI{keep(charge), keep(heat)}
	}
	return []app.UI{r.ruled("todo", app.P().Body(app.B().Text(r.say(heat.Title))), app.P().Text(r.say(heat.Expect)),
		goLink("btn", r.t("part.see-hold", "See the hold point"), r.to("hold", heat.Gate, heat.Part)))}
}

func (r *root) sampleRows() []app.UI {
	seen := map[string]bool{}
	var rows []app.UI
	keys := r.job.state.KeysFrom(r.job.visit, "charge1.")
	for i := len(keys) - 1; i >= 0; i-- {
		part := keys[i].Part
		if seen[part] {
			continue
		}
		seen[part] = true
		cells := []app.UI{}
		when := ""
		for _, id := range sampleFields {
			e, s := r.job.state.Lookup(r.job.visit, part, id, false)
			text := "\u2013"
			if s == job.One {
				text, when = r.voice.Digits(e.Value.Number), r.clock(e.Moment())
			}
			cells = append(cells, app.Td().Class("r num").Text(text))
		}
		rows = append(rows, app.Tr().Body(append([]app.UI{app.Td().Text(when)}, cells...)...))
	}
	return rows
}

// keepSample keeps one row; what was not read stays missing, never zero.
func (r *root) keepSample(ctx app.Context) {
	r.slips = map[string]say.Line{}
	id, err := uuid.NewV7()
	if err != nil {
		return
	}
	part := "charge1." + id.String()
	var changes []change
	for _, field := range sampleFields {
		text := strings.TrimSpace(r.text[field])
		if text == "" {
			continue
		}
		f, _ := checks.FieldOf(field, "charge1.x")
		c, slip := r.entryOf(f, text)
		if !slip.Empty() {
			r.slips[field] = slip
			continue
		}
		c.part = part
		changes = append(changes, c)
	}
	if len(changes) == 0 && len(r.slips) == 0 {
		_, slip := unit.Parse("", "V", true)
		r.slips[sampleFields[0]] = slip.Line
	}
	if len(r.slips) > 0 {
		r.focus = "slips"
		return
	}
	r.keep(changes, "", func(_ app.Context, kept bool) {
		if !kept {
			return
		}
		for _, f := range sampleFields {
			r.text[f] = ""
		}
		r.focus = sampleFields[0]
		r.notice = notice{says: say.Phrase{Key: "screen.charge.kept", English: "Sample kept."}.With(), undo: r.undoSample(r.made)}
		if _, now := r.job.facts.ChargerOff(); now {
			r.focus = "title" // the order stands at the top of the page
			r.notice = notice{says: say.Phrase{Key: "screen.charge.kept-off", English: "Sample kept. Charger off, now."}.With(), grave: true, undo: r.undoSample(r.made)}
		}
	})
}

// undoSample takes the sample just kept out of view: a slip of the finger must
// not shut a charge for good. The record and the sheet still tell of it.
func (r *root) undoSample(made []string) func(app.Context) {
	return func(app.Context) {
		r.act1(r.job, "", nil, func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
			e, err := w.Void(at(), job.Key{}, "undo", job.Ref{}, made)
			return []job.Stamped{e}, nil, err
		}, func(_ app.Context, kept bool) {
			if kept {
				r.notice = notice{says: say.Phrase{Key: "screen.charge.undone", English: "The sample is taken back. It stays in the record."}.With()}
			}
		})
	}
}
