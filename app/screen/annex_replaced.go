package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/finding"
	"lugmark/core/job"
)

// annexReplaced lists every value of this visit that somebody changed or took
// back afterwards: a paper that only shows what stood in the end hides what was
// measured first. Nothing when nothing was changed.
func (r *root) annexReplaced() app.UI {
	var rows []app.UI
	for _, k := range r.job.state.KeysFrom(r.job.visit, "") {
		f, known := checks.FieldOf(k.Field, k.Part)
		if !known || f.Kind == checks.Drawing {
			continue
		}
		history := r.job.state.History(k)
		for _, e := range history {
			if len(e.SupersededBy) == 0 {
				continue
			}
			now, changed := r.replacedBy(history, e)
			if !changed {
				continue
			}
			at := key(k.Part, k.Field)
			rows = append(rows, app.Tr().Body(app.Th().Scope("row").Text(r.entryName(at)),
				app.Td().Class("num").Text(r.valueText(at, e.Value)), app.Td().Class("num").Text(now), app.Td().Text(r.t("annex.kept-by", "{when}, {who}", "who", r.orDash(r.job.text(e.By, "name")), "when", r.moment(e.At)))))
		}
	}
	if len(rows) == 0 {
		return app.Div()
	}
	return app.Table().Class("results").TabIndex(0).Body(
		app.Caption().Text(r.t("annex.replaced", "Values that were changed or taken back")),
		app.THead().Body(app.Tr().Body(r.th(r.t("annex.entry", "Entry")), r.th(r.t("annex.was", "Was")), r.th(r.t("annex.then", "Then")), r.th(r.t("annex.was-kept", "First kept")))),
		app.TBody().Body(rows...))
}

// replacedBy says what came in the place of a value; changed is false when it
// was entered once more as it was.
func (r *root) replacedBy(history []job.Entry, was job.Entry) (now string, changed bool) {
	for _, id := range was.SupersededBy {
		for _, e := range history {
			if e.ID == id {
				return r.valueText(finding.Key{Part: was.Key.Part, Field: was.Key.Field}, e.Value), !job.Agree(was.Value, e.Value)
			}
		}
	}
	return r.t("annex.taken-back", "taken back"), true
}
