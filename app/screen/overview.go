package screen

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/bank"
	"lugmark/core/draw"
)

// crowd is from how many strings or groups on one cell of the overview shows
// its worst state alone, and how many blocks fit into one cell besides.
const crowd = 5

// overview is the strip above a large drawing: one link for each string or
// group, and, where a group is too long for one drawing, one for each part of
// the open one. Nothing while the drawing shows a silhouette at every link.
func (r *root) overview(l bank.Layout) []app.UI {
	if l.Parallel < 3 && !draw.Windowed(l) || l.Validate() != nil {
		return nil
	}
	states := r.partStates()
	cells := draw.Strip(l, states)
	if !draw.Windowed(l) {
		return []app.UI{r.strip(r.t("overview.all", "All blocks, by string or group"), cells, "", func(c draw.Cell) string { return r.to("part", c.Open) })}
	}
	open := r.openCell(cells)
	way := func(c draw.Cell) string { return r.to() + "?open=" + c.Open }
	var units, parts []draw.Cell
	for _, c := range cells {
		letter, _, inParts := strings.Cut(c.Label, " ")
		if letter == letterOf(open) && inParts {
			parts = append(parts, c)
		}
		last := len(units) - 1
		if last < 0 || units[last].Label != letter {
			units = append(units, draw.Cell{Open: c.Open, Label: letter})
			last++
		}
		units[last].Blocks, units[last].States = append(units[last].Blocks, c.Blocks...), append(units[last].States, c.States...)
		units[last].Worst = worstState(units[last].States)
	}
	out := []app.UI{r.strip(r.t("overview.all", "All blocks, by string or group"), units, letterOf(open), way)}
	if len(parts) > 0 {
		out = append(out, r.strip(r.t("overview.parts", "Parts of group {letter}", "letter", letterOf(open)), parts, open.Label, way))
	}
	if l.Series > 1 && l.Parallel > 1 {
		p := draw.Grid(l, states)
		out = append(out, app.Details().Class("why").Body(app.Summary().Text(r.t("overview.grid", "All {n} blocks at once", "n", itoa(len(l.Blocks())))),
			app.Figure().Class("fig").Body(svg(p.SVG), app.FigCaption().Class("note").Text(r.say(p.Alt)))))
	}
	return out
}

// openCell is the cell that the address names, by its string, its group or any
// of its blocks; the first when it names none.
func (r *root) openCell(cells []draw.Cell) draw.Cell {
	open := r.query["open"]
	for _, c := range cells {
		if c.Open == open || slices.Contains(c.Blocks, open) {
			return c
		}
	}
	for _, c := range cells {
		if open != "" && letterOf(c) == strings.TrimPrefix(strings.TrimPrefix(open, "g"), "s") {
			return c
		}
	}
	return cells[0]
}

// letterOf is the letter of the string or group that a cell belongs to.
func letterOf(c draw.Cell) string {
	letter, _, _ := strings.Cut(c.Label, " ")
	return letter
}

// strip is one row of cells, each a link.
func (r *root) strip(label string, cells []draw.Cell, open string, way func(draw.Cell) string) app.UI {
	var list []app.UI
	for _, c := range cells {
		shown := c.States
		if len(cells) >= crowd || len(shown) >= crowd {
			shown = []draw.State{c.Worst}
		}
		var marks []app.UI
		for _, s := range shown {
			marks = append(marks, mark(s))
		}
		a := app.A().Href(way(c)).Aria("label", r.cellName(c)).Body(app.B().Text(c.Label), app.Span().Body(marks...))
		if c.Label == open {
			a = a.Aria("current", "true")
		}
		list = append(list, app.Li().Body(a))
	}
	return app.Ul().Class("strip").Aria("label", label).Body(list...)
}

// cellName is what a reader hears of a cell: its letter and how many of its
// blocks have which state.
func (r *root) cellName(c draw.Cell) string {
	var said []string
	for _, s := range draw.States {
		n := 0
		for _, x := range c.States {
			if x == s {
				n++
			}
		}
		if n > 0 {
			said = append(said, r.t("overview.count", "{state} {n}", "state", r.stateName(s), "n", itoa(n)))
		}
	}
	return r.t("overview.cell", "{letter}: {states}", "letter", c.Label, "states", strings.Join(said, ", "))
}

// worstState gives the first of draw's order that is among the states.
func worstState(list []draw.State) draw.State {
	for _, s := range draw.States {
		if slices.Contains(list, s) {
			return s
		}
	}
	return draw.ToDo
}

// listed is every part of the bank that has a page, for the list of words:
// strings or groups, blocks, links, and what stands on the two main lines.
func (r *root) listed(l bank.Layout) []string {
	var out []string
	add := func(part string) {
		if !slices.Contains(out, part) {
			out = append(out, part)
		}
	}
	if l.Parallel > 1 {
		for _, u := range l.Units() {
			out = append(out, u.ID)
		}
	}
	out = append(out, l.Blocks()...)
	for _, k := range l.Links() {
		out = append(out, k.ID)
	}
	if l.Parallel > 1 && l.Join == bank.JoinStrings {
		for _, u := range l.Units() {
			out = append(out, "fuse."+u.Letter())
		}
	}
	for _, h := range r.drawing(false, r.query["open"]).Hits {
		add(h.Part)
	}
	return out
}

// sheetDrawings are the drawings of the printed sheet: one, or one for each
// string or part of a group under the overview of all.
func (r *root) sheetDrawings(l bank.Layout) []app.UI {
	if !draw.Windowed(l) {
		p := r.drawing(true, "")
		return []app.UI{app.Figure().Class("fig").Body(svg(p.SVG), app.FigCaption().Class("note").Text(r.say(p.Alt)))}
	}
	p := draw.Grid(l, r.partStates())
	out := []app.UI{app.Figure().Class("fig").Body(svg(p.SVG), app.FigCaption().Class("note").Text(r.say(p.Alt)))}
	for _, c := range draw.Strip(l, nil) {
		name := r.t("overview.group", "Group {letter}", "letter", c.Label)
		if l.Join == bank.JoinStrings {
			name = r.t("overview.string", "String {letter}", "letter", c.Label)
		}
		out = append(out, app.Figure().Class("fig").Body(svg(r.drawing(true, c.Open).SVG), app.FigCaption().Class("note").Text(name)))
	}
	return out
}
