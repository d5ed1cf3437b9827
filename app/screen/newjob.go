package screen

import (
	"encoding/json"
	"strconv"

	"github.com/google/uuid"
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/draw"
	"lugmark/core/job"
	"lugmark/core/say"
)

// newJob is what stands on the form of a new job besides its texts.
type newJob struct{ series, parallel int }

func (r *root) startNewJob() {
	r.draft = newJob{series: 2, parallel: 2}
	r.text["person"] = r.prefs.Name
	r.text["join"], r.text["takeoff"] = string(bank.JoinStrings), string(bank.Diagonal)
}

// layout is the bank on the form.
func (r *root) newLayout() bank.Layout {
	return bank.New(r.draft.series, r.draft.parallel, bank.Join(r.text["join"]), bank.Takeoff(r.text["takeoff"]))
}

// viewNewJob asks for no more than it takes to draw the bank.
func (r *root) viewNewJob() page {
	l := r.newLayout()
	plan := draw.Plan(l)
	blocks := l.Series * l.Parallel
	main := []app.UI{}
	if len(r.slips) > 0 {
		main = append(main, r.putRight("site", "person"))
	}
	main = append(main,
		r.input("site", r.t("new.site", "Name of the site"), "", "text"),
		r.input("person", r.t("new.person", "Your name"), r.t("new.person-hint", "Stands on the sheet. It can be erased later without breaking the record."), "text"),
		app.Figure().Class("fig frame").Body(svg(plan.SVG)),
		app.P().Class("sum").Body(app.B().Text(r.t("new.sum", "{title}: {n} blocks, {volts} V", "title", l.Title(), "n", strconv.Itoa(blocks),
			"volts", r.voice.Digits(oneDecimal(float64(checks.NominalVolts)*float64(l.Series)))))),
		app.Div().Class("pair").Body(
			r.stepper(r.t("new.series", "In series"), l.Series, 16, func(n int) { r.draft.series = n }),
			r.stepper(r.t("new.parallel", "In parallel"), l.Parallel, 16, func(n int) { r.draft.parallel = n }),
		),
	)
	if l.Parallel > 1 && l.Series > 1 {
		main = append(main, r.pick("join", r.t("new.join", "How joined"), [][2]string{
			{string(bank.JoinStrings), r.t("new.strings", "Strings, then in parallel")},
			{string(bank.JoinGroups), r.t("new.groups", "Groups, then in series")},
		}))
	}
	if l.Parallel > 1 {
		main = append(main, r.pick("takeoff", r.t("new.takeoff", "Where the two main leads leave"), [][2]string{
			{string(bank.OneEnd), r.t("new.one-end", "Both at one end")},
			{string(bank.Diagonal), r.t("new.diagonal", "Diagonal, opposite ends")},
			{string(bank.EqualLeads), r.t("new.bars", "Bus bars, equal leads")},
		}))
	}
	main = append(main, app.P().Class("note").Text(r.t("new.cautions", "Lugmark records and computes. The maker's manual, the code in force and a licensed person come first.")))
	return page{title: r.t("new", "New job"), back: "/", main: main,
		foot: []app.UI{r.button("btn go", r.t("new.start", "Start this job"), r.createJob)}}
}

// createJob keeps the first act of a job: its kind, its name, who works, the
// layout, and one block sheet for all blocks.
func (r *root) createJob(ctx app.Context) {
	r.slips = map[string]say.Line{}
	if r.text["site"] == "" {
		r.slips["site"] = say.Phrase{Key: "screen.new.no-site", English: "Name of the site: enter a name, so that you find the job again."}.With()
	}
	if r.text["person"] == "" {
		r.slips["person"] = say.Phrase{Key: "screen.new.no-person", English: "Your name: enter who measures here."}.With()
	}
	if len(r.slips) > 0 {
		r.focus = "slips"
		return
	}
	l := r.newLayout()
	raw, err := json.Marshal(l)
	if err != nil {
		return
	}
	r.prefs.Name = r.text["person"]
	r.prefs.save()
	changes := []change{
		{part: "site", field: "name", personal: r.text["site"]},
		{part: "p1", field: "name", personal: r.text["person"]},
		{part: "bank", field: "layout", value: job.Value{Kind: job.KindLayout, Layout: raw}},
	}
	for _, b := range l.Blocks() {
		changes = append(changes, change{part: b, field: "sheet", value: job.Value{Kind: job.KindText, Text: "sheet1"}})
	}
	r.begin(r.text["site"], l, changes, func(ctx app.Context, id string) { ctx.Navigate("/j/" + id) })
}

// begin makes a new job and keeps its first entries.
func (r *root) begin(title string, l bank.Layout, changes []change, then func(ctx app.Context, id string)) {
	id, err := uuid.NewV7()
	if err != nil {
		return
	}
	j := &opened{id: id.String(), visit: firstVisit, state: job.New(id.String()), blobs: job.Blobs{}}
	r.newWriter(j)
	j.judge()
	r.job = j
	r.act1(j, "", firstLine(title, l), func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
		start, err := w.Start(at(), "bank")
		if err != nil {
			return nil, nil, err
		}
		stamped, blobs := []job.Stamped{start}, []job.Blob(nil)
		for _, c := range changes {
			e, b, err := stampChange(w, at(), j.key(c.part, c.field), c)
			if err != nil {
				return nil, nil, err
			}
			stamped, blobs = append(stamped, e), append(blobs, b...)
		}
		return stamped, blobs, nil
	}, func(ctx app.Context, kept bool) {
		if kept {
			then(ctx, j.id)
			return
		}
		if r.job == j {
			r.job = nil
		}
	})
}
