package screen

import (
	"encoding/json"

	"github.com/google/uuid"
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks/sample"
	"lugmark/core/bank"
	"lugmark/core/job"
	"lugmark/core/say"
)

// newJob is what stands on the form of a new job besides its texts.
type newJob struct {
	series, parallel int
	base             []change // the entries whose plan it begins with
	meters           bool     // their meters too
	samples          []string
}

func (r *root) startNewJob() {
	r.draft = newJob{series: 2, parallel: 2}
	for _, s := range sample.List() {
		r.draft.samples = append(r.draft.samples, sampleName(s))
	}
	r.text["person"] = r.prefs.Name
	r.text["join"], r.text["takeoff"] = string(bank.JoinStrings), string(bank.Diagonal)
	r.offerKit()
}

// layout is the bank on the form.
func (r *root) newLayout() bank.Layout {
	return bank.New(r.draft.series, r.draft.parallel, bank.Join(r.text["join"]), bank.Takeoff(r.text["takeoff"]))
}

// viewNewJob asks for no more than it takes to draw the bank.
func (r *root) viewNewJob() page {
	l := r.newLayout()
	main := []app.UI{}
	if len(r.slips) > 0 {
		main = append(main, r.putRight("site", "person"))
	}
	main = append(main,
		r.input("site", r.t("new.site", "Name of the site"), "", "text"),
		r.input("person", r.t("new.person", "Your name"), r.t("new.person-hint", "Stands on the sheet. It can be erased later without breaking the record."), "text"),
	)
	main = append(main, r.kitBox()...)
	main = append(main, r.baseBox()...)
	main = append(main, r.layoutForm(l)...)
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
	r.heldBy(r.text["person"])
	changes := r.kitChanges(planned(r.draft.base, l, r.draft.meters))
	if r.register != nil {
		changes = append(changes, r.register.copied("house", "house")...)
	}
	sheets := map[string]bool{}
	for _, c := range changes {
		sheets[c.part] = sheets[c.part] || c.field == "sheet"
	}
	changes = append([]change{
		{part: "site", field: "name", personal: r.text["site"]},
		{part: "p1", field: "name", personal: r.text["person"]},
		{part: "bank", field: "layout", value: job.Value{Kind: job.KindLayout, Layout: raw}},
	}, changes...)
	for _, b := range l.Blocks() {
		if sheets[b] {
			continue
		}
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
	r.am(j, "p1", r.prefs.Name)
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
