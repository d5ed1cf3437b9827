package screen

import (
	"encoding/json"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks/plain"
	"lugmark/checks/sample"
	"lugmark/core/bank"
	"lugmark/core/job"
	"lugmark/core/say"
)

// A template is a layout with its sheets, plates and cables, kept in the
// register under parts of its own: t482913.sheet1 is the block sheet of
// template t482913.

// templates lists the templates of the register.
func (j *opened) templates() (ids []string) {
	for _, k := range j.state.KeysFrom(j.visit, "t") {
		if _, standing := j.state.Get(k); k.Field == "name" && !strings.Contains(k.Part, ".") && standing == job.One {
			ids = append(ids, k.Part)
		}
	}
	return ids
}

func (j *opened) templateName(id string) string {
	e, _ := j.state.Get(job.Key{Visit: j.visit, Part: id, Field: "name"})
	return e.Value.Text
}

// keepTemplate puts the plan of the open job into the register.
func (r *root) keepTemplate() {
	l := r.job.facts.Layout()
	raw, err := json.Marshal(l)
	if err != nil || !r.job.facts.HasLayout() {
		return
	}
	id := "t" + freshNumber(func(n string) bool { return r.register.templateName("t"+n) != "" })
	name := r.t("template.name", "{title}, {model}, {day}", "title", l.Title(), "model", r.knownBy(r.job, "sheet1"), "day", now().Format("2 January 2006"))
	changes := []change{
		{part: id, field: "name", value: job.Value{Kind: job.KindText, Text: name}},
		{part: id + ".bank", field: "layout", value: job.Value{Kind: job.KindLayout, Layout: raw}},
	}
	for _, c := range planned(planIn(r.job, ""), l, false) {
		c.part = id + "." + c.part
		changes = append(changes, c)
	}
	r.keepIn(r.register, changes, "", func(_ app.Context, kept bool) {
		if kept {
			r.notice = notice{says: say.Phrase{Key: "screen.template.kept", English: "In the register as a template: {name}. No reading, site or name of a person is in it."}.With("name", name)}
		}
	})
}

// templateBox keeps a job as a template.
func (r *root) templateBox() app.UI {
	if r.register == nil || !r.job.facts.HasLayout() {
		return app.Span()
	}
	return r.button("btn", r.t("template.keep", "Keep the plan as a template"), func(app.Context) { r.keepTemplate() })
}

// viewTemplate is one template of the register.
func (r *root) viewTemplate(id string) page {
	name := r.job.templateName(id)
	entries := planIn(r.job, id+".")
	l, _ := layoutIn(entries)
	return page{title: name, sub: r.t("register.template", "Template"), back: r.wayIn(), main: []app.UI{
		app.P().Text(r.t("template.holds", "{n} entries of sheets, plates and cables. A new job can begin with it.", "n", itoa(len(planned(entries, l, false))))),
		r.takeOut(name, func(part string) bool { return part == id || strings.HasPrefix(part, id+".") })}}
}

// baseBox asks what a new job begins with.
func (r *root) baseBox() []app.UI {
	pairs := []string{"", r.t("base.none", "an empty plan")}
	if last, ok := r.lastJob(); ok {
		pairs = append(pairs, "last", r.t("base.last", "The plan and meters of the last job: {name}", "name", last.Title))
	}
	if r.register != nil {
		for _, id := range r.register.templates() {
			pairs = append(pairs, id, r.t("base.template", "Template: {name}", "name", r.register.templateName(id)))
		}
	}
	for i, name := range r.draft.samples {
		pairs = append(pairs, "sample-"+itoa(i), r.t("base.sample", "The plan of a sample: {name}", "name", name))
	}
	return []app.UI{folded(r.t("base.now", "Begin with: {what}", "what", lowerFirst(r.baseName(pairs))),
		r.likes("base", r.t("base", "Begin with"), r.beginWith, pairs...),
		r.fileButton("new-file", r.t("base.file", "A job file, as another job"), r.takeFile))}
}

func (r *root) baseName(pairs []string) string {
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i] == r.text["base"] {
			return pairs[i+1]
		}
	}
	return ""
}

// lastJob is the job that was changed last; an invented one is none.
func (r *root) lastJob() (summary, bool) {
	for _, s := range r.jobs {
		if r.mine[s.ID+" "+anyHolder] == "" {
			return s, true
		}
	}
	return summary{}, false
}

// beginWith makes the plan on the form that of a job, a template or a sample.
func (r *root) beginWith(code string) {
	r.text["base"] = code
	switch {
	case code == "last":
		last, ok := r.lastJob()
		if !ok {
			return
		}
		r.async(func() {
			j, err := r.load(last.ID)
			r.dispatch(func(app.Context) {
				if err == nil && r.text["base"] == code {
					r.setBase(planIn(j, ""), true)
				}
			})
		})
	case strings.HasPrefix(code, "sample-"):
		for i, s := range sample.List() {
			if "sample-"+itoa(i) != code {
				continue
			}
			if file, faults := plain.Parse(s.Raw); len(faults) == 0 {
				var entries []change
				for _, e := range file.Entries {
					entries = append(entries, change{part: e.Key.Part, field: e.Key.Field, value: e.Value})
				}
				r.setBase(entries, false)
			}
		}
	case code == "":
		r.draft.base, r.text["kit"] = nil, ""
		r.offerKit()
	default:
		r.setBase(planIn(r.register, code+"."), false)
	}
}

// setBase lays a plan on the form. What it brings itself is no longer ticked in
// the kit: whoever ticks it again wants it instead.
func (r *root) setBase(entries []change, meters bool) {
	l, ok := layoutIn(entries)
	if !ok {
		return
	}
	r.draft.base, r.draft.meters = entries, meters
	brings := map[bank.Kind]bool{}
	for _, c := range planned(entries, l, meters) {
		kind, _ := bank.PartKind(c.part)
		brings[kind] = true
	}
	r.text["kit"] = tickText(slices.DeleteFunc(ticked(r.text["kit"]), func(id string) bool {
		kind, _ := bank.PartKind(id)
		return brings[kind]
	}))
	r.draft.series, r.draft.parallel = l.Series, l.Parallel
	r.text["join"], r.text["takeoff"] = string(l.Join), string(l.Takeoff)
}
