package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/draw"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// choiceOf gives the code of a choice; "" while there is none.
func (j *opened) choiceOf(part, field string) string {
	f, _ := checks.FieldOf(field, part)
	e, s := j.state.Lookup(j.visit, part, field, f.Setup)
	if s != job.One {
		return ""
	}
	return e.Value.Choice
}

// keepChoice keeps one answer of a choice.
func (r *root) keepChoice(ctx app.Context, part, field, code string) {
	undo := r.undoOf(part, field)
	r.keep([]change{{part: part, field: field, value: job.Value{Kind: job.KindChoice, Choice: code}}}, "", func(_ app.Context, kept bool) {
		if kept {
			r.notice = notice{says: r.choiceKept(part, field, code), undo: undo()}
		}
	})
}

// choiceKept says what now stands in the record. What is open and what is
// closed is said in these words, and not by the name of an entry.
func (r *root) choiceKept(part, field, code string) say.Line {
	switch {
	case field == "closed" && code == "yes":
		return say.Phrase{Key: "screen.kept.closed", English: "{part}: stands as closed."}.With("part", bank.Name(part))
	case field == "closed":
		return say.Phrase{Key: "screen.kept.open", English: "{part}: stands as open."}.With("part", bank.Name(part))
	case field == "hazards-read" && code == "no":
		return say.Phrase{Key: "screen.kept.refused", English: "Kept: nobody works under these cautions. Do not start this stage."}.With()
	}
	return say.Phrase{Key: "screen.kept.choice", English: "{part}: {field} kept."}.With("part", bank.Name(part), "field", r.labelOf(field, part))
}

func (r *root) labelOf(field, part string) say.Line {
	f, ok := checks.FieldOf(field, part)
	if !ok {
		return say.Phrase{Key: "screen.as-it-stands", English: "{text}"}.With("text", field)
	}
	return f.Label.With()
}

// undoOf gives what takes the act just kept back: the old value again, or a
// void of what the act made when there was none before. Nothing is deleted, and
// what another person entered meanwhile stays. It is made before the act and
// named after it.
func (r *root) undoOf(part, field string) (undo func() func(app.Context)) {
	j := r.job
	f, _ := checks.FieldOf(field, part)
	before, standing := j.state.Lookup(j.visit, part, field, f.Setup)
	return func() func(app.Context) {
		made := r.made
		k := j.key(part, field)
		done := func(_ app.Context, kept bool) {
			if kept {
				if code := r.job.choiceOf(part, field); field == "closed" && code != "" {
					r.notice = notice{says: r.choiceKept(part, field, code)}
					return
				}
				r.notice = notice{says: say.Phrase{Key: "screen.undone", English: "Taken back: {field}, {part}."}.With("field", r.labelOf(field, part), "part", bank.Name(part))}
			}
		}
		return func(app.Context) {
			r.act1(j, "", nil, func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
				var e job.Stamped
				var err error
				if standing == job.One {
					e, err = w.Set(at(), k, before.Value, made)
				} else {
					e, err = w.Void(at(), k, "undo", job.Ref{}, made)
				}
				return []job.Stamped{e}, nil, err
			}, done)
		}
	}
}

// roundState is the state of a round: all kept, or something to do.
func roundState(kept, all int) draw.State {
	if kept == all {
		return draw.Pass
	}
	return draw.ToDo
}

// conflict shows every live value of an entry on which two people differ; one
// is chosen, the others stay in the record.
func (r *root) conflict(k finding.Key) app.UI {
	rivals := r.job.state.Live(r.job.key(k.Part, k.Field))
	var rows []app.UI
	for _, e := range rivals {
		rows = append(rows, app.Li().Body(
			app.P().Body(app.B().Text(r.valueText(k, e.Value)), app.Br(), app.Span().Class("note").Text(r.entryMeta(e))),
			r.button("btn", r.t("conflict.choose", "This one is right"), func(ctx app.Context) {
				j := r.job
				saw := j.state.Seen(j.key(k.Part, k.Field))
				r.act1(r.job, "", nil, func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
					chosen, err := w.Choose(at(), j.key(k.Part, k.Field), e.ID, saw)
					return []job.Stamped{chosen}, nil, err
				}, func(_ app.Context, kept bool) {
					if kept {
						r.notice = notice{says: say.Phrase{Key: "screen.chosen", English: "Chosen. The other value stays in the record."}.With()}
					}
				})
			})))
	}
	return app.Section().Class("put").Role("alert").Body(
		app.H2().Text(r.t("conflict.title", "Two values: {field}", "field", r.labelOf(k.Field, k.Part))),
		app.Ol().Class("do").Body(rows...))
}
