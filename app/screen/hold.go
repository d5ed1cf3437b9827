package screen

import (
	"strings"
	"unicode/utf8"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/draw"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// viewHold is a hold point: what releases it, and who may override it.
func (r *root) viewHold(gate, part string) page {
	h, ok := r.job.facts.HoldFor(gate, part)
	if !ok {
		return r.viewSteps()
	}
	var main []app.UI
	main = append(main, app.H2().Class("hold-title").Text(r.holdTitle(h)))
	if h.Breached() {
		main = append(main, r.breach(h))
	} else if h.Done && h.Closes() {
		main = append(main, r.openAgain(h))
	}
	if gate == "main" && !h.Done && !h.Released() {
		main = append(main, app.Figure().Class("fig").Body(svg(draw.KeepOpenPlate(r.voice, bank.Name("inverter1")).SVG)))
	}
	if l := r.cautionOf(gate); l != "" && !(gate == "series" && r.job.facts.Layout().Series < highSeries) {
		main = append(main, app.Div().Class("ruled").Body(app.Span(), app.Div().Body(app.P().Text(l))))
	}
	if !h.Expect.Empty() {
		main = append(main, r.ruled("todo", app.P().Text(r.say(h.Expect))))
	}
	main = append(main, app.H3().Text(r.t("hold.released-when", "Released when all of these pass")))
	var rows []app.UI
	for _, c := range h.Clauses {
		rows = append(rows, r.clauseRows(h, c, 0)...)
	}
	main = append(main, app.Ul().Class("opens").Body(rows...))
	if h.Taken != nil {
		main = append(main, r.takenNote(h))
	}
	if !h.Passed() && !h.Done {
		main = append(main, r.overrideBox(h))
	}
	if !h.Released() && !h.Done && h.Closes() {
		main = append(main, r.button("btn", r.t("hold.already", "It is closed already"), func(ctx app.Context) { r.keepChoice(ctx, h.Part, "closed", "yes") }))
	}
	return page{title: r.t("hold", "Hold point"), sub: r.job.text("site", "name"), back: r.to("part", part), main: main, foot: r.holdFoot(h)}
}

// holdTitle is the order or the state of a hold point in one line.
func (r *root) holdTitle(h checks.Hold) string {
	switch {
	case h.Breached():
		return r.openIt(h)
	case h.Done && h.Closes():
		return r.t("hold.is-closed", "{part} is closed", "part", r.name(h.Part))
	case h.Done, h.Released():
		return r.say(h.Title)
	}
	return r.say(h.Keep)
}

// openFirst says what comes before something is opened, and what it is.
func (r *root) openFirst(h checks.Hold) string {
	if h.Gate == "main" {
		return r.t("hold.off-first", "Load off and charger off first, an alternator stopped; then {part}.", "part", lowerFirst(r.name(h.Part)))
	}
	return r.t("hold.main-first", "Load off, charger off and the main open first; then {part}.", "part", lowerFirst(r.name(h.Part)))
}

// openAgain takes in that what is closed rightly was opened.
func (r *root) openAgain(h checks.Hold) app.UI {
	return r.ruled("pass", app.P().Text(r.t("hold.to-open", "To open it: {how} What was read of it is then asked again.", "how", r.openFirst(h))),
		r.button("btn", r.t("hold.open-again", "It is open again"), func(ctx app.Context) { r.keepChoice(ctx, h.Part, "closed", "no") }))
}

// openIt is the order where something is closed that should be open.
func (r *root) openIt(h checks.Hold) string {
	return r.t("hold.open-it", "Open it: {part}", "part", lowerFirst(r.name(h.Part)))
}

// breach says that something is closed which should be open, and takes in that
// it was opened.
func (r *root) breach(h checks.Hold) app.UI {
	return app.Div().Class("ruled", "fail").Body(mark(draw.Fail), app.Div().Body(
		app.P().Text(r.t("hold.breached", "It is closed while this hold point is shut. Open it, or settle what is listed below.")),
		app.P().Body(app.B().Text(r.openFirst(h))),
		r.button("btn", r.t("hold.open-again", "It is open again"), func(ctx app.Context) { r.keepChoice(ctx, h.Part, "closed", "no") })))
}

// cautionOf is the sentence that a hold point must print.
func (r *root) cautionOf(gate string) string {
	want := map[string]string{"parallel": "hazard.parallel", "series": "hazard.volts", "main": "hazard.precharge", "heat": "hazard.heater", "charge": "hazard.cold", "test": "hazard.test"}[gate]
	for _, s := range checks.Stages {
		for _, p := range s.Hazards() {
			if p.Key == want {
				return r.say(p.With())
			}
		}
	}
	return ""
}

// clauseRows shows one condition: what it rests on with its state, or what it
// asks for; the ways of an either-or stand below it, set in.
func (r *root) clauseRows(h checks.Hold, c checks.Clause, depth int) []app.UI {
	state, word := draw.ToDo, r.word(finding.ToDo)
	worst, unsettled := worstVerdict(c.Findings)
	unread := c.Open && unsettled && len(c.Ways) == 0 // it keeps nothing shut, and nobody has read it: no Pass
	if c.Open && !unread {
		state, word = draw.Pass, r.word(finding.Pass)
	} else if c.Fails {
		state, word = draw.Fail, r.word(finding.Fail)
	} else if unsettled {
		state, word = stateOf(worst), r.word(worst)
	}
	body := []app.UI{app.Text(r.say(c.Title))}
	switch {
	case unread:
		body = append(body, app.Br(), app.Span().Class("note").Text(r.t("hold.unread", "Not settled yet. It alone does not keep this shut.")))
	case c.Open && len(c.Ways) == 0 && c.Says.Empty():
	case len(c.Ways) > 0:
		body = append(body, app.Br(), app.Span().Class("note").Text(r.t("hold.any", "one of these is enough")))
	case len(c.Findings) > 0 && !c.Open:
		for _, x := range c.Findings {
			if !x.Settled() {
				says := x.Next()
				body = append(body, app.Br(), app.Span().Class("note").Text(r.about(x)+": "+r.say(says)))
				break
			}
		}
	case !c.Says.Empty():
		body = append(body, app.Br(), app.Span().Class("note").Text(r.say(c.Says)))
	}
	if !c.Open {
		if c.AsksNo != nil {
			part := c.AsksNo.Part
			body = append(body, r.button("btn", r.t("hold.other-open", "It is open: {link}", "link", lowerFirst(r.name(part))), func(ctx app.Context) { r.keepChoice(ctx, part, "closed", "no") }))
		} else if k, ok := r.clauseKey(c); ok {
			body = append(body, r.clauseButton(h, k))
		}
	}
	class := ""
	if depth > 0 {
		class = "way"
	}
	rows := []app.UI{app.Li().Class(class).Body(mark(state), app.Span().Body(body...), app.Span().Class("st", string(state)).Text(word))}
	if c.Open {
		return rows // one way is enough: the others are no longer asked for
	}
	for _, w := range c.Ways {
		rows = append(rows, r.clauseRows(h, w, depth+1)...)
	}
	return rows
}

func worstVerdict(list []finding.Finding) (finding.Verdict, bool) {
	var vs []finding.Verdict
	for _, x := range list {
		if !x.Settled() {
			vs = append(vs, x.Verdict())
		}
	}
	return finding.Worst(vs...)
}

// clauseKey gives the entry that would carry a clause on.
func (r *root) clauseKey(c checks.Clause) (finding.Key, bool) {
	if c.Asks != nil {
		return *c.Asks, true
	}
	for _, x := range c.Findings {
		if !x.Settled() {
			return r.job.wants(x)
		}
	}
	return finding.Key{}, false
}

// clauseButton leads to the entry, or makes it where one tap does.
func (r *root) clauseButton(h checks.Hold, k finding.Key) app.UI {
	f, _ := checks.FieldOf(k.Field, k.Part)
	switch {
	case k.Field == "closed" && k.Part == "switch":
		return r.button("btn", r.t("hold.main-is-open", "The main is open now"), func(ctx app.Context) { r.keepChoice(ctx, "switch", "closed", "no") })
	case k.Field == "closed" && r.gateOf(k.Part) != "":
		return goLink("btn", r.t("hold.that-link", "See that link"), r.to("hold", r.gateOf(k.Part), k.Part))
	case k.Field == "closed":
		return r.button("btn", r.t("hold.fuse-in", "The fuse is in place"), func(ctx app.Context) { r.keepChoice(ctx, k.Part, "closed", "yes") })
	case k.Field == "level-accepted":
		return r.button("btn", r.signedWord(r.t("hold.accept", "Accept it"), "hold.accept-level", "Accept it as {name}"), func(ctx app.Context) { r.keepChoice(ctx, "bank", "level-accepted", "yes") })
	case k.Field == "heat-watched":
		return r.button("btn", r.signedWord(r.t("hold.i-stay", "I stay and write the current down"), "hold.stay", "{name} stays and writes the current down"), func(ctx app.Context) { r.keepChoice(ctx, "bank", "heat-watched", "yes") })
	case k.Field == "last-gap":
		return r.lastGapEntry(k)
	case f.Round:
		return goLink("btn", r.t("why.measure", "Measure"), r.wayTo(k))
	}
	return goLink("btn", r.t("why.enter", "Enter it"), r.wayTo(k))
}

// gateOf is the hold point of a link; "" for what is no link of the drawing.
func (r *root) gateOf(part string) string {
	if link, ok := r.job.facts.Layout().Link(part); ok {
		return string(link.Kind)
	}
	return ""
}

// lastGapEntry takes the volts across the gap where they are needed: on the
// hold point itself, as the last thing before the link closes.
func (r *root) lastGapEntry(k finding.Key) app.UI {
	return app.Div().Class("pair").Body(
		r.input("last-gap", r.t("hold.gap-volts", "Volts across the gap, V"), r.t("hold.gap-milli", "On the millivolt range type mV after the figure."), "text"),
		r.button("btn", r.t("form.keep", "Keep"), func(ctx app.Context) {
			f, _ := checks.FieldOf(k.Field, k.Part)
			c, slip := r.entryOf(f, r.text["last-gap"])
			if !slip.Empty() {
				r.slips["last-gap"] = slip
				return
			}
			c.part = k.Part
			delete(r.slips, "last-gap")
			r.keep([]change{c}, "", func(_ app.Context, kept bool) {
				if kept {
					r.notice = notice{says: say.Phrase{Key: "screen.kept.choice", English: "{part}: {field} kept."}.With("part", bank.Name(k.Part), "field", f.Label)}
				}
			})
		}))
}

// takenNote says openly who overrides, why and what, and whether it still holds.
func (r *root) takenNote(h checks.Hold) app.UI {
	name := r.job.text(h.Taken.Who, "name")
	reason := r.written(h.Taken.Reason)
	if h.Taken.Lapsed {
		return r.ruled("unk", app.P().Text(r.t("hold.lapsed", "The override by {name} no longer holds: something else does not pass any more.", "name", name)))
	}
	var over []app.UI
	for _, one := range r.takenList(h) {
		over = append(over, app.Li().Text(one))
	}
	return r.ruled("unk", app.P().Body(app.B().Text(r.t("hold.taken", "Overridden by {name}", "name", name))), app.P().Text(reason), app.Ul().Body(over...))
}

// takenOver names what somebody took on, in one line.
func (r *root) takenOver(h checks.Hold) string {
	return r.t("hold.over-all", "Not passed: {list}.", "list", strings.Join(r.takenList(h), "; "))
}

// takenList names what somebody took on: the part and what did not pass.
func (r *root) takenList(h checks.Hold) (said []string) {
	for _, o := range h.Taken.Over {
		id, part, _ := strings.Cut(o, "@")
		title := id
		if l, ok := checks.ClauseTitle(id); ok {
			title = r.say(l)
		}
		said = append(said, r.t("hold.over-one", "{part}: {what}", "part", r.name(part), "what", lowerFirst(title)))
	}
	return said
}

// overrideBox lets a named person go on, unless nobody may.
func (r *root) overrideBox(h checks.Hold) app.UI {
	if !h.Barred.Empty() {
		return app.Div().Class("ruled", "fail").Body(mark(draw.Fail), app.Div().Body(app.P().Text(r.say(h.Barred))))
	}
	body := []app.UI{app.P().Text(r.t("hold.override-text", "The verdicts stay as they are. Your name and reason are printed on the handover sheet."))}
	body = append(body,
		app.P().Text(r.signedWord(r.t("hold.who-asked", "Who decides is asked next."), "hold.who", "Who decides: {name}")),
		r.input("reason", r.t("hold.reason", "Reason, in a sentence"), "", "text"),
		r.button("btn", r.t("hold.override", "Override this hold point"), func(ctx app.Context) { r.keepOverride(ctx, h) }))
	return app.Details().Class("why").Body(app.Summary().Text(r.t("hold.override-title", "Override")), app.Div().Class("ovr").Body(body...))
}

// shortestReason is 8 signs, our choice: fewer cannot be a sentence.
const shortestReason = 8

func (r *root) keepOverride(ctx app.Context, h checks.Hold) {
	reason := strings.TrimSpace(r.text["reason"])
	if utf8.RuneCountInString(reason) < shortestReason {
		r.slips["reason"] = say.Phrase{Key: "screen.hold.no-reason", English: "Write the reason in a sentence. It is printed with your name."}.With()
		r.focus = "reason"
		return
	}
	delete(r.slips, "reason")
	v := job.Value{Kind: job.KindOverride, Over: h.Shut()} // who takes it on is whose act it is
	r.keep([]change{{part: h.Part, field: h.Gate + "-gate", value: v, personal: reason}}, "", func(_ app.Context, kept bool) {
		if kept {
			r.notice = notice{says: say.Phrase{Key: "screen.hold.overridden", English: "Override kept. It will be printed."}.With()}
		}
	})
}

// holdFoot closes the link or the main once it is released.
func (r *root) holdFoot(h checks.Hold) []app.UI {
	var first app.UI
	switch {
	case h.Breached():
		first = app.P().Class("next").Body(app.B().Text(r.t("hold.closed-early", "Closed too early. Open it.")))
	case h.Done && !h.Closes():
		first = app.P().Class("next").Text(r.t("hold.charged", "The first charge is over."))
	case h.Done:
		first = app.P().Class("next").Text(r.t("hold.done", "It is closed."))
	case !h.Released():
		return []app.UI{r.tabs("")}
	case h.Gate == "heat" || h.Gate == "charge":
		first = goLink("btn go", r.t("hold.to-charge", "Start the charge list"), r.to("charge"))
	case h.Gate == "test":
		first = goLink("btn go", r.t("hold.to-test", "Enter the test"), r.to("enter", "capacity1", string(checks.Prove)))
	default:
		first = r.button("btn go", r.t("hold.close", "It is closed now"), func(ctx app.Context) { r.keepChoice(ctx, h.Part, "closed", "yes") })
	}
	return []app.UI{first, r.tabs("")}
}
