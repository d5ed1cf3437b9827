package screen

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/finding"
	"lugmark/core/say"
)

// annexResults is one row per finding. A Pass is told by its figures; the
// sentence stands where something is open or was assumed. Sources are numbered
// and listed once.
func (r *root) annexResults() app.UI {
	var rows []app.UI
	sources, undone := numbered{}, tally{}
	passed := allPassed(r.job.sheet().findings)
	delete(passed, "hazards-read") // told by name below the table
	for _, x := range r.job.sheet().findings {
		switch {
		case passed[x.Check()] > alikeOnPaper: // one row for all of them, at the first
			var all []finding.Finding
			for _, y := range r.job.sheet().findings {
				if y.Check() == x.Check() && y.Verdict() == finding.Pass {
					all = append(all, y)
				}
			}
			rows = append(rows, r.passedRow(all, &sources))
			passed[x.Check()] = -1
			continue
		case passed[x.Check()] < 0:
			continue
		case x.Verdict() == finding.NotNeeded && x.Settled(), x.Check() == "hazards-read":
			continue
		case x.Verdict() == finding.ToDo:
			undone.add(x.Check())
			continue
		}
		found, limit := "", ""
		if v, ok := x.Found(); ok {
			found = r.say(v.Text)
		}
		if l, ok := x.Limit(); ok {
			limit = r.say(l.Line())
		}
		source := r.say(x.Source())
		if l, ok := x.Limit(); ok && source == "" {
			source = r.kind(l.Kind)
		}
		rows = append(rows, app.Tr().Body(
			app.Th().Scope("row").Text(r.about(x)+r.limitName(x)), app.Td().Class("num").Text(found), app.Td().Class("num").Text(limit),
			app.Td().Body(r.stateWord(x.Verdict())), app.Td().Text(r.paperWhy(x)), app.Td().Class("r").Text(sources.of(source))))
	}
	var list []app.UI
	for _, s := range sources.list {
		list = append(list, app.Li().Text(s))
	}
	return r.sheetPage(r.kickerAnnex(), r.t("annex.results", "B Results"),
		app.Table().Class("results").TabIndex(0).Body(
			app.Caption().Text(r.t("annex.results-caption", "Every check, with what was found (± at k = 2), its limit and the number of its source")),
			app.THead().Body(app.Tr().Body(r.th(r.t("annex.check", "Check")), r.th(r.t("why.found", "Found")), r.th(r.t("why.limit", "Limit")), r.th(r.t("annex.verdict", "Verdict")), r.th(r.t("annex.note", "Note")), r.th(r.t("why.source", "Source")))),
			app.TBody().Body(rows...)),
		r.undoneList(undone),
		app.Section().Body(app.H3().Text(r.t("annex.sources", "Sources")), app.Ol().Class("sources").Body(list...)),
		r.cautionsRead())
}

// alikeOnPaper is how many findings of one check, all of them Pass, stand each
// in its own row: what was read of each part stands in the tables of the parts.
const alikeOnPaper = 2

// allPassed counts the findings of the checks of which every finding passes
// the same limit.
func allPassed(findings []finding.Finding) map[string]int {
	count, other := map[string]int{}, map[string]bool{}
	limits := map[string]string{}
	for _, x := range findings {
		l, _ := x.Limit()
		if first, seen := limits[x.Check()]; seen && first != l.Name {
			other[x.Check()] = true
		}
		limits[x.Check()] = l.Name
		if x.Verdict() == finding.Pass {
			count[x.Check()]++
		} else if !x.Settled() || x.Verdict() != finding.NotNeeded {
			other[x.Check()] = true
		}
	}
	for check := range other {
		delete(count, check)
	}
	return count
}

// passedRow is one row for a check that passed for every part: each figure with
// its uncertainty, and what was noted and assumed.
func (r *root) passedRow(all []finding.Finding, sources *numbered) app.UI {
	x := all[0]
	limit, source := "", r.say(x.Source())
	if l, ok := x.Limit(); ok {
		limit = r.say(l.Line())
		if source == "" {
			source = r.kind(l.Kind)
		}
	}
	var each, figures, notes []string
	for _, y := range all {
		if v, ok := y.Found(); ok {
			figure := r.say(v.Text)
			each = append(each, r.t("annex.each-figure", "{part}: {figure}", "part", r.name(y.Part()), "figure", figure))
			if !slices.Contains(figures, figure) {
				figures = append(figures, figure)
			}
		}
		if why := r.paperWhy(y); why != "" && !slices.Contains(notes, why) {
			notes = append(notes, why)
		}
	}
	found := r.t("annex.each", "{n} parts", "n", itoa(len(all)))
	if len(figures) == 1 {
		found, each = r.t("annex.each-alike", "{figure} each, {n} parts", "figure", figures[0], "n", itoa(len(all))), nil
	}
	if len(each) > 0 {
		notes = append([]string{strings.Join(each, "; ") + "."}, notes...)
	}
	return app.Tr().Body(
		app.Th().Scope("row").Text(r.titleOf(x.Check())), app.Td().Class("num").Text(found), app.Td().Class("num").Text(limit),
		app.Td().Body(r.stateWord(finding.Pass)), app.Td().Text(strings.Join(notes, " ")), app.Td().Class("r").Text(sources.of(source)))
}

// tally counts by name, in the order of first appearance.
type tally struct {
	names []string
	count map[string]int
}

func (t *tally) add(name string) {
	if t.count == nil {
		t.count = map[string]int{}
	}
	if t.count[name] == 0 {
		t.names = append(t.names, name)
	}
	t.count[name]++
}

// undoneList names the checks that were not done, with how many of each.
func (r *root) undoneList(t tally) app.UI {
	if len(t.names) == 0 {
		return app.Div()
	}
	var said []string
	for _, name := range t.names {
		said = append(said, r.t("annex.undone-one", "{check} ({n})", "check", r.titleOf(name), "n", itoa(t.count[name])))
	}
	return app.Section().Body(app.H3().Text(r.t("annex.undone", "Not done")), app.P().Text(strings.Join(said, "; ")+"."))
}

// paperWhy is what the reader of the sheet needs beside the figures.
func (r *root) paperWhy(x finding.Finding) string {
	var said []string
	if x.Verdict() != finding.Pass {
		said = append(said, r.say(x.Reason()), r.say(x.Next()))
	}
	for _, l := range append(append([]say.Line(nil), x.Notes()...), x.Assumed()...) {
		said = append(said, r.say(l))
	}
	return strings.TrimSpace(strings.Join(said, " "))
}

// cautionsRead says for which stages the cautions were confirmed, and by whom.
func (r *root) cautionsRead() app.UI {
	var names []string
	read := map[string][]string{} // by who read
	for _, x := range r.job.sheet().findings {
		if x.Check() == "hazards-read" && x.Verdict() == finding.Pass {
			name := r.answeredBy(stageOf(x).Part(), "hazards-read")
			if read[name] == nil {
				names = append(names, name)
			}
			read[name] = append(read[name], r.say(stageOf(x).Title().With()))
		}
	}
	if len(names) == 0 {
		return app.P().Class("note").Text(r.t("annex.no-cautions", "No cautions were confirmed."))
	}
	var lines []string
	for _, name := range names {
		lines = append(lines, r.t("annex.cautions", "Cautions read and confirmed by {name}: {stages}.", "name", name, "stages", strings.Join(read[name], ", ")))
	}
	return app.P().Class("note").Text(strings.Join(lines, " "))
}

// numbered gives each text a number, the same for the same text.
type numbered struct{ list []string }

func (n *numbered) of(s string) string {
	if s == "" {
		return ""
	}
	for i, have := range n.list {
		if have == s {
			return itoa(i + 1)
		}
	}
	n.list = append(n.list, s)
	return itoa(len(n.list))
}
