package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/finding"
	"lugmark/core/job"
)

// openPoints lists what stands in the way of a handover without remarks: what
// failed, what nobody can tell, and what was put aside by a person.
func openPoints(list []finding.Finding) []finding.Finding {
	var out []finding.Finding
	for _, v := range []finding.Verdict{finding.Fail, finding.CantTell, finding.NotNeeded} {
		for _, x := range list {
			if x.Verdict() == v && !x.Settled() {
				out = append(out, x)
			}
		}
	}
	return out
}

// breaches lists what is closed although its hold point is shut.
func (j *opened) breaches() []checks.Hold {
	var out []checks.Hold
	for _, h := range j.holds() {
		if h.Breached() {
			out = append(out, h)
		}
	}
	return out
}

// openCount is how many open points there are. Entries that are missing are one.
func (j *opened) openCount() int {
	n := len(openPoints(j.findings)) + len(j.breaches())
	if j.holes > 0 {
		n++
	}
	return n
}

// openOnSheet is the same of the sheet that is signed.
func (j *opened) openOnSheet() int {
	return j.openCount() - len(openPoints(j.findings)) + len(openPoints(j.sheet().findings))
}

// missingNote says that the record has holes: what is judged without an entry
// that was replaced may be better than it is.
func (r *root) missingNote() []app.UI {
	n := r.job.holes
	if n == 0 {
		return nil
	}
	return []app.UI{r.ruled("fail", app.P().Text(r.t("open.missing", "Entries of this record that are not on this phone: {n}. All findings are made without them, and a reading that failed may be among them. Open a whole copy of the record.", "n", itoa(n))))}
}

// viewOpen lists the open points; each ends in one button.
func (r *root) viewOpen() page {
	main := r.missingNote()
	open := openPoints(r.job.findings)
	for _, h := range r.job.breaches() {
		main = append(main, app.H2().Text(r.openIt(h)), r.breach(h))
	}
	if len(open) == 0 && len(main) == 0 {
		main = append(main, app.P().Text(r.t("open.none", "Nothing failed, and nothing is in doubt. What is still to do stands under Steps.")))
	} else {
		main = append(main, app.Ol().Class("points").Body(app.Range(open).Slice(func(i int) app.UI { return r.pointRow(open[i], 2) })))
	}
	var later []finding.Finding
	for _, x := range r.job.findings {
		if x.Verdict() == finding.Later {
			later = append(later, x)
		}
	}
	if len(later) > 0 {
		main = append(main, app.H2().Text(r.t("word.later", "Later")), app.Ol().Class("points").Body(app.Range(later).Slice(func(i int) app.UI { return r.pointRow(later[i], 3) })))
	}
	return page{title: r.t("open.title", "Open points ({n})", "n", itoa(r.job.openCount())), sub: r.job.text("site", "name"), back: r.to(), main: main, foot: []app.UI{r.tabs("open")}}
}

// pointRow is one open point: the thing, the word with the figure, what to do.
func (r *root) pointRow(x finding.Finding, level int) app.UI {
	state := stateOf(x.Verdict())
	head := app.UI(app.H2().Text(r.about(x) + r.limitName(x)))
	if level > 2 {
		head = app.H3().Text(r.about(x) + r.limitName(x))
	}
	says := app.P().Body(app.Span().Class("st", string(state)).Text(r.word(x.Verdict())), app.Text(". "+r.say(x.Reason())+" "+r.say(x.Next())))
	own := app.UI(app.Text(""))
	if words := r.ownWords(x); words != "" {
		own = app.P().Class("note").Text(words)
	}
	return app.Li().Body(mark(state), head, says, own,
		app.Div().Class("two").Body(r.doLink(x),
			goLink("btn q", r.t("why", "Why"), r.whyWay(x)).Aria("label", r.t("open.why", "Why: {what}", "what", r.about(x)))))
}

// ownWords are what somebody wrote beside the reason of a skip on which a
// finding rests.
func (r *root) ownWords(x finding.Finding) string {
	for _, k := range x.Reads() {
		f, _ := checks.FieldOf(k.Field, k.Part)
		if f.Spec == nil {
			continue
		}
		e, s := r.job.state.Lookup(r.job.visit, k.Part, k.Field, f.Setup)
		if s != job.One || e.Value.Skip == "" {
			continue
		}
		if text, ok := job.Text(r.job.blobs, e.Value.X); ok && text != "" {
			return r.t("skip.own-words", "“{text}”", "text", text)
		}
	}
	return ""
}
