package screen

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/draw"
	"lugmark/core/finding"
	"lugmark/core/job"
)

// viewBank is the bank sheet: the drawing in which every block and link
// carries its state, the counts, and the one next step.
func (r *root) viewBank() page {
	l := r.job.facts.Layout()
	main := append(r.shellNotes(), r.visitBar()...)
	if !r.job.facts.HasLayout() {
		return r.viewNoLayout(main)
	}
	picture := r.drawing(false, r.query["open"])
	if r.panel == "words" {
		main = append(main, r.wordsOfBank())
	} else {
		main = append(main, r.overview(l)...)
		if !picture.Note.Empty() {
			main = append(main, app.P().Class("note").Text(r.say(picture.Note)))
		}
		main = append(main, r.bankFigure(picture))
	}
	toggle := r.button("btn", r.t("bank.words", "Words"), func(app.Context) { r.panel = "words" })
	if r.panel == "words" {
		toggle = r.button("btn", r.t("bank.drawing", "Drawing"), func(app.Context) { r.panel = "" })
	}
	main = append(main, r.countList(), r.boltCounts(l),
		app.Div().Class("two even").Body(toggle, goLink("btn", r.t("bank.charge", "Charge list"), r.to("charge"))),
		app.Div().Class("two even").Body(goLink("btn", r.t("bank.layout", "Change the layout"), r.to("layout")), goLink("btn", r.t("bank.page", "About the bank"), r.to("part", "bank"))),
		goLink("btn", r.photosTitle(), r.to("photos")))
	main = append(main, r.houseRows()...)
	if n := len(r.job.state.Unknown()); n > 0 {
		main = append(main, app.P().Class("note").Text(r.t("bank.newer", "{n} entries were made by a newer version of Lugmark. They are kept, and this version cannot read them.", "n", strconv.Itoa(n))))
	}
	return page{title: r.job.text("site", "name"), sub: r.subtitle(l), back: "/", class: "close", main: main, foot: r.nextFoot("bank")}
}

// viewNoLayout is the bank sheet while two people differ on the layout, or none
// is entered: there is nothing to draw until one holds.
func (r *root) viewNoLayout(main []app.UI) page {
	if _, st := r.job.state.Lookup(r.job.visit, "bank", "layout", true); st == job.Conflict {
		main = append(main, r.conflict(key("bank", "layout")))
	} else {
		main = append(main, r.ruled("todo", app.P().Text(r.t("bank.no-layout", "No layout is entered. Until one is, there is nothing to draw and nothing to check."))))
	}
	main = append(main, goLink("btn", r.t("bank.layout", "Change the layout"), r.to("layout")))
	return page{title: r.job.text("site", "name"), back: "/", class: "close", main: main, foot: []app.UI{r.tabs("bank")}}
}

func (r *root) subtitle(l bank.Layout) string {
	volts := float64(checks.NominalVolts) * float64(l.Series)
	return r.t("bank.sub", "{title}, {volts} V", "title", l.Title(), "volts", r.voice.Digits(oneDecimal(volts)))
}

// drawing makes the bank drawing with its states and readings. Open is what is
// shown of a bank that is too large for one drawing.
func (r *root) drawing(black bool, open string) draw.Picture {
	l := r.job.facts.Layout()
	b := draw.Bank{
		Layout: l, States: r.partStates(), Readings: map[string]string{}, Closed: map[string]bool{},
		Volts: 13.3, Devices: r.job.devices(), Open: open, Black: black, Voice: r.voice,
	}
	for _, id := range l.Blocks() {
		for _, field := range []string{"rest-voltage", "full-voltage-again", "full-voltage", "arrival-voltage"} { // the latest state of it that was read
			if e, s := r.job.state.Lookup(r.job.visit, id, field, false); s == job.One && e.Value.Kind == job.KindQuantity && e.Value.Unit == "V" {
				b.Readings[id] = e.Value.Number
				break
			}
		}
	}
	for _, link := range l.Links() {
		b.Closed[link.ID] = r.job.isClosed(link.ID)
	}
	b.Closed["switch"] = r.job.isClosed("switch")
	if e, s := r.job.state.Lookup(r.job.visit, "fuse.main", "rating", true); s == job.One {
		b.MainFuse = r.voice.Digits(e.Value.Number) + "\u00a0A"
	}
	return b.Draw()
}

func (j *opened) isClosed(part string) bool {
	return j.facts.IsClosed(part)
}

// devices are the charger and the inverter, as far as anything is entered.
func (j *opened) devices() []string {
	var out []string
	for _, id := range []string{"charger1", "inverter1"} {
		if len(j.partsOf(id)) > 0 {
			out = append(out, id)
		}
	}
	return out
}

// partStates gives each drawn part the worst finding of the current stage that
// names it or a post of it; of an earlier stage while the current one says
// nothing about it, and of a later one, other than To do, where no earlier does.
// Nothing covers a Fail: a frozen block is red whatever else is open about it.
func (r *root) partStates() map[string]draw.State {
	current := r.job.current()
	out := map[string]draw.State{}
	past := false
	for _, s := range checks.Stages {
		here := map[string][]finding.Verdict{}
		for _, x := range r.job.findings {
			if stageOf(x) != s {
				continue
			}
			for _, p := range x.Parts() {
				here[p] = append(here[p], x.Verdict())
				if owner := bank.OwnerOf(p); owner != "" {
					here[owner] = append(here[owner], x.Verdict())
				}
			}
		}
		for p, vs := range here {
			v, _ := finding.Worst(vs...)
			_, known := out[p]
			covered := known && (past || v == finding.ToDo && s != current) || past && v == finding.ToDo
			if out[p] == draw.Fail || covered && v != finding.Fail {
				continue
			}
			out[p] = stateOf(v)
		}
		past = past || s == current
	}
	for _, link := range r.job.facts.Layout().Links() {
		if out[link.ID] == draw.Pass && !r.job.isClosed(link.ID) { // its cable passed; a tick would read as done
			out[link.ID] = draw.ToDo
		}
	}
	for _, h := range r.job.breaches() {
		out[h.Part] = draw.Fail
	}
	if _, now := r.job.facts.ChargerOff(); now {
		out["charger1"] = draw.Fail
		for _, b := range r.job.facts.Charging() {
			out[b] = draw.Fail
		}
	}
	return out
}

// bankFigure lays real buttons over the drawing.
func (r *root) bankFigure(p draw.Picture) app.UI {
	states := r.partStates()
	body := []app.UI{svg(p.SVG)}
	for _, h := range p.Hits {
		body = append(body, r.button("hit", "", func(ctx app.Context) { ctx.Navigate(r.to("part", h.Part)) }).
			Aria("label", r.fullName(h.Part, states)).
			DataSet("x", percent(h.X)).DataSet("y", percent(h.Y)).DataSet("w", percent(h.W)).DataSet("h", percent(h.H)).DataSet("part", h.Part))
	}
	return app.Div().Class("bank").Role("group").Aria("label", r.t("bank.label", "Bank drawing. Plus is up.")).Body(body...)
}

// fullName is what a reader hears of a drawn part.
func (r *root) fullName(part string, states map[string]draw.State) string {
	state := states[part]
	if state == "" {
		state = draw.ToDo
	}
	says := r.t("bank.part", "{part}: {state}", "part", r.name(part), "state", r.stateName(state))
	kind, _ := bank.PartKind(part)
	switch kind {
	case bank.KindLink, bank.KindSwitch:
		if r.job.isClosed(part) {
			return says + ", " + r.t("bank.closed", "closed")
		}
		return says + ", " + r.t("bank.still-open", "still open")
	case bank.KindBlock:
		if e, s := r.job.state.Lookup(r.job.visit, part, "rest-voltage", false); s == job.One && e.Value.Number != "" {
			return says + ". " + r.t("bank.volts", "{n} volts", "n", r.voice.Digits(e.Value.Number))
		}
	}
	return says
}

func (r *root) stateName(s draw.State) string {
	for _, v := range finding.Verdicts {
		if stateOf(v) == s {
			return r.word(v)
		}
	}
	return ""
}

// wordsOfBank is the drawing as a list.
func (r *root) wordsOfBank() app.UI {
	states := r.partStates()
	var rows []app.UI
	for _, part := range r.listed(r.job.facts.Layout()) {
		state := states[part]
		if state == "" {
			state = draw.ToDo
		}
		rows = append(rows, app.Li().Body(app.A().Class("row").Href(r.to("part", part)).Body(mark(state), app.Span().Text(r.fullName(part, states)))))
	}
	return app.Ul().Class("rows").Body(rows...)
}

// countList says how many findings have each state.
func (r *root) countList() app.UI {
	c := count(r.job.findings)
	var rows []app.UI
	for _, v := range []finding.Verdict{finding.Pass, finding.Fail, finding.CantTell, finding.ToDo, finding.Later, finding.NotNeeded} {
		rows = append(rows, app.Li().Body(r.stateWord(v), app.B().Text(strconv.Itoa(c[v]))))
	}
	return app.Ul().Class("counts").Aria("label", r.t("bank.counts", "States of the checks")).Body(rows...)
}

// boltCounts says how many links are closed, whatever their verdict.
func (r *root) boltCounts(l bank.Layout) app.UI {
	on := 0
	for _, link := range l.Links() {
		if r.job.isClosed(link.ID) {
			on++
		}
	}
	return app.Ul().Class("bolts").Aria("label", r.t("bank.bolts", "Links, closed or open, whatever their state")).Body(
		app.Li().Body(svg(draw.BoltClosed), app.Text(r.t("bank.links-closed", "Link closed")), app.B().Text(strconv.Itoa(on))),
		app.Li().Body(svg(draw.BoltOpen), app.Text(r.t("bank.links-open", "Link still open")), app.B().Text(strconv.Itoa(len(l.Links())-on))))
}

// nextFoot is the foot of the screens of a job: the one next step, and the
// ways to the others.
func (r *root) nextFoot(here string) []app.UI {
	step, start := r.nextStep(), r.t("next.start", "Start")
	if step.way == r.to("handover") {
		start = r.t("tab.handover", "Hand over")
	}
	if _, off := r.job.facts.ChargerOff(); off || len(r.job.breaches()) > 0 { // beside "Charger off" nobody may read Start
		start = r.t("next.see", "See")
	}
	next := app.Div().Class("next").Body(
		app.P().Body(app.B().Text(step.what), app.Br(), app.Text(step.how)),
		goLink("btn go", start, step.way))
	return []app.UI{next, r.tabs(here)}
}

// tabs are the ways from each screen of a job to the others.
func (r *root) tabs(here string) app.UI {
	tab := func(screen, label string) app.UI {
		a := app.A().Href(r.to(screen)).Text(label)
		if screen == here {
			a = a.Aria("current", "page")
		}
		return a
	}
	return app.Nav().Class("tabs").Aria("label", r.t("tabs", "Job")).Body(
		tab("steps", r.t("tab.steps", "Steps")),
		tab("open", r.t("tab.open", "Open ({n})", "n", itoa(r.job.openCount()))),
		tab("handover", r.t("tab.handover", "Hand over")))
}
