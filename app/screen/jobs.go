package screen

import (
	"strconv"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/draw"
	"lugmark/core/finding"
)

// viewJobs is the list of jobs on this phone.
func (r *root) viewJobs() page {
	main := append(r.offerBox(), r.shellNotes()...)
	if len(r.jobs) == 0 {
		main = append([]app.UI{app.P().Text(r.t("jobs.what", "Lugmark goes with you from the van to the handover of a bank of 12.8 V LiFePO4 blocks: it asks for readings, judges them by what your meter can show, and says when a link may be closed.")),
			app.P().Text(r.t("jobs.none", "No job on this phone yet. Start one, open a job file, or look round in the sample jobs."))}, main...)
	} else {
		main = append(main, app.Div().Class("copyline").Body(
			app.Span().Text(r.t("jobs.only-here", "These jobs are only on this phone.")),
			r.button("plain", r.t("jobs.copy", "Safe copy of all"), func(app.Context) { r.saveAll(true) })),
			app.Ul().Class("jobs").Body(app.Range(r.jobs).Slice(func(i int) app.UI { return app.Li().Body(r.jobCard(r.jobs[i])) })))
	}
	main = append(main, app.Div().Class("two even").Body(
		r.fileButton("job-file", r.t("jobs.open-file", "Open a job file"), r.takeFile),
		r.button("btn", r.t("jobs.samples", "Sample jobs"), r.addSamples),
	))
	main = append(main, goLink("btn", r.t("check", "Check a record"), "/check"))
	return page{title: r.t("jobs", "Jobs"), main: main, foot: []app.UI{goLink("btn go", r.t("jobs.new", "New job"), "/new")}}
}

// jobCard is one job: its name, how far it is, and a miniature of its bank.
func (r *root) jobCard(s summary) app.UI {
	sub := s.Layout.Title()
	if s.Energy != "" {
		sub += ", " + s.Energy
	}
	rows := []app.UI{
		app.Progress().Class("done").Max(max(s.Needed, 1)).Value(s.Answered).Aria("label", r.t("jobs.answered", "Answered")),
		app.Span().Text(r.t("jobs.count", "{n} of {all} checks", "n", strconv.Itoa(s.Answered), "all", strconv.Itoa(s.Needed))),
	}
	if s.Fail > 0 {
		rows = append(rows, r.stateCount(finding.Fail, s.Fail))
	}
	if s.CantTell > 0 {
		rows = append(rows, r.stateCount(finding.CantTell, s.CantTell))
	}
	if due, err := time.Parse(time.RFC3339, s.Due); err == nil {
		rows = append(rows, app.Span().Class("st later").Body(mark(draw.Later), app.Text(r.t("jobs.resting", "Resting to {time}", "time", r.clock(due)))))
	}
	switch s.Done {
	case "changed":
		rows = append(rows, app.Span().Class("st unk").Body(mark(draw.CantTell), app.Text(r.t("jobs.changed", "Changed since the handover"))))
	case "handed-over":
		rows = append(rows, app.Span().Class("st pass").Body(mark(draw.Pass), app.Text(r.t("jobs.handed-over", "Handed over"))))
	}
	return app.A().Class("job").Href("/j/"+s.ID).Body(
		app.H2().Text(s.Title),
		app.P().Text(sub),
		app.Div().Class("st-row").Body(rows...),
		app.Div().Class("fig").Aria("hidden", "true").Body(svg(draw.Miniature(s.Layout, s.States).SVG)),
	)
}

func (r *root) stateCount(v finding.Verdict, n int) app.UI {
	return app.Span().Class("st", string(stateOf(v))).Body(mark(stateOf(v)), app.Text(r.word(v)+" "+strconv.Itoa(n)))
}

// clock says a time, with its day when that is not today.
func (r *root) clock(t time.Time) string {
	here := now()
	t = t.In(here.Location())
	if t.Format(time.DateOnly) == here.Format(time.DateOnly) {
		return t.Format("15:04")
	}
	return t.Format("15:04, 2 Jan")
}

func oneDecimal(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }
