package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/finding"
	"lugmark/core/job"
)

// viewHandover is the last screen: what is open, who signs, and the sheet as
// it will be printed.
func (r *root) viewHandover() page {
	c := count(r.job.sheet().findings)
	r.text["paper"] = r.prefs.Paper
	main := []app.UI{app.Section().Class("noprint").Body(
		app.P().Text(r.resultSentence(c)),
		r.signBox(checks.RoleTechnician, r.t("hand.you", "Technician")),
		r.signBox(checks.RoleOwner, r.t("hand.owner", "Owner")),
		r.sealBox(),
		r.returnBox(),
		r.likes("paper", r.t("hand.paper", "Paper"), func(v string) { r.prefs.Paper = v }, "a4", "A4", "letter", "Letter"),
		r.button("btn go", r.t("hand.print", "Print, or save as PDF"), func(app.Context) { r.print() }),
	), app.Section().Class("noprint").Body(append(r.copyBox(),
		goLink("btn", r.t("check.sheet", "Check a record against a printed sheet"), "/check"))...)}
	main = append(main, r.ownerPage(c), r.annexDrawing(), r.annexResults(), r.annexParts())
	main = append(append(main, r.annexPhotos()...), r.annexSigned())
	return page{title: r.t("tab.handover", "Hand over"), sub: r.job.text("site", "name"), back: r.to(), class: "hand", main: main, foot: []app.UI{r.tabs("handover")}}
}

// resultSentence says what was measured and what is open; never that anything
// is safe.
func (r *root) resultSentence(c counts) string {
	n, all := itoa(c[finding.Pass]), itoa(c.needed())
	if c[finding.Pass] == c.needed() && r.job.openOnSheet() == 0 {
		return r.t("hand.all", "All {all} checks passed.", "all", all)
	}
	return r.t("hand.open", "Handed over with open points. {n} of {all} checks passed.", "n", n, "all", all)
}

// ownerPage is the one page that the owner reads.
func (r *root) ownerPage(c counts) app.UI {
	state := "pass"
	if c[finding.Pass] < c.needed() || r.job.openOnSheet() > 0 {
		state = "unk"
	}
	l := r.job.facts.Layout()
	plate := []app.UI{r.cell(r.t("hand.stores", "What it stores"), r.job.energy(r))}
	if gave := r.gaveInTest(); gave != "" {
		plate = append(plate, r.cell(r.t("hand.gave", "Gave in the test"), gave))
	}
	plate = append(plate, r.cell(r.t("hand.voltage", "Voltage"), r.voice.Digits(oneDecimal(float64(checks.NominalVolts)*float64(l.Series)))+"\u00a0V"),
		r.cell(r.t("hand.where", "Where"), r.job.text("site", "place")))
	body := []app.UI{
		app.Div().Class("ruled", "big", state).Body(r.markOnly(state), app.Div().Body(app.H3().Text(r.resultSentence(c)))),
	}
	body = append(append(body, r.missingNote()...), app.Dl().Class("plate").Body(plate...))
	if rows := r.openRows(ownersLines); len(rows) > 0 {
		body = append(body, app.Section().Body(app.H3().Text(r.t("hand.still-open", "What is still open")), app.Table().Class("big").TabIndex(0).Body(
			app.THead().Body(app.Tr().Body(r.th(r.t("hand.point", "Point")), r.th(r.t("hand.means", "What it means, and what comes next")))),
			app.TBody().Body(rows...))))
	}
	body = append(body, app.Div().Class("half").Body(
		r.bullets(r.t("hand.do", "Please do"),
			r.t("do.vents", "Keep the vents clear and the shelf dry."),
			r.t("do.settings", "Leave the charger settings as they are."),
			r.t("do.sheet", "Keep this sheet beside the battery."),
			r.t("do.away", "When away for long, follow the storage page of the maker's manual.")),
		r.bullets(r.t("hand.do-not", "Please do not"),
			r.t("dont.open", "Open a battery, or add another one."),
			r.t("dont.undo", "Undo a cable while anything runs."),
			r.t("dont.tools", "Lay tools or metal on top."),
			r.t("dont.frozen", "Charge when it is frozen, or work around the cold lock."))),
		r.alarmBox(), r.briefed(), r.datesBox())
	kicker := r.t("hand.for-owner", "Handover sheet, for the owner")
	if r.job.returning() {
		kicker = r.t("hand.for-owner-again", "{visit}, sheet for the owner", "visit", r.visitName(r.job.visit))
	}
	return r.ownerSheet(kicker, r.t("hand.title", "Your battery at {site}", "site", r.job.text("site", "name")), body...)
}

func (r *root) cell(name, value string) app.UI {
	if value == "" {
		value = "\u2013"
	}
	return app.Div().Body(app.Dt().Text(name), app.Dd().Text(value))
}

func (r *root) th(text string) app.UI { return app.Th().Scope("col").Text(text) }

func (r *root) bullets(title string, lines ...string) app.UI {
	var rows []app.UI
	for _, l := range lines {
		rows = append(rows, app.Li().Text(l))
	}
	return app.Section().Body(app.H3().Text(title), app.Ul().Class("dots").Body(rows...))
}

// ownersLines is how many lines of open points fit on the owner's page, the last
// for what is left out; the annex has all. Beside it how many signs a line of
// either column holds, as printed on the smaller of the two papers.
const ownersLines, signsOfName, signsOfText = 11, 28, 70

// linesOf is how many lines an open point takes on the owner's page.
func (r *root) linesOf(x finding.Finding) int {
	lines := func(s string, signs int) int { return (len([]rune(s)) + signs - 1) / signs }
	next := 0
	if !x.Next().Empty() {
		next = lines(r.t("hand.technician", "For the technician: {next}", "next", r.say(x.Next())), signsOfText)
	}
	return max(lines(r.about(x)+r.limitName(x), signsOfName)+1, lines(r.say(x.Reason()), signsOfText)+next)
}

// openRows are the open points in the owner's words: the thing, the state,
// and what follows.
func (r *root) openRows(most int) []app.UI {
	open := openPoints(r.job.sheet().findings)
	undone := 0
	for _, x := range r.job.sheet().findings {
		switch x.Verdict() {
		case finding.Later:
			open = append(open, x)
		case finding.ToDo:
			undone++
		}
	}
	var rows []app.UI
	for i, x := range open {
		if most -= r.linesOf(x); most < 0 && i > 0 {
			rows = append(rows, app.Tr().Body(app.Td().Text(r.t("hand.more", "And {n} more", "n", itoa(len(open)-i))), app.Td().Text(r.t("hand.more-where", "They are listed in the annex, part B."))))
			break
		}
		rows = append(rows, app.Tr().Body(
			app.Td().Body(app.Text(r.about(x)+r.limitName(x)), app.Br(), r.stateWord(x.Verdict())),
			app.Td().Body(app.Text(r.say(x.Reason())), r.forTechnician(x))))
	}
	if undone > 0 {
		rows = append(rows, app.Tr().Body(app.Td().Body(r.stateWord(finding.ToDo)), app.Td().Text(r.t("hand.undone", "Checks not done: {n}. They are listed in the annex.", "n", itoa(undone)))))
	}
	for _, h := range r.job.holds() {
		if h.Taken == nil {
			continue
		}
		reason := r.written(h.Taken.Reason)
		rows = append(rows, app.Tr().Body(
			app.Td().Body(app.Text(r.say(h.Title)), app.Br(), app.B().Text(r.t("hold.overridden", "Overridden"))),
			app.Td().Body(app.Text(r.t("hand.taken-on", "{name} went on although not everything passed: {reason}", "name", r.job.text(h.Taken.Who, "name"), "reason", reason)),
				app.Div().Text(r.takenOver(h)))))
	}
	return rows
}

// forTechnician is the next action, which is not the owner's to do.
func (r *root) forTechnician(x finding.Finding) app.UI {
	if x.Next().Empty() {
		return app.Span()
	}
	return app.Div().Text(r.t("hand.technician", "For the technician: {next}", "next", r.say(x.Next())))
}

// alarmBox tells what to do when something is wrong.
func (r *root) alarmBox() app.UI {
	steps := app.Ol().Class("do").Body(
		app.Li().Body(app.P().Text(r.t("alarm.load", "Inverter and charger off."))),
		app.Li().Body(app.P().Text(r.t("alarm.main", "Main switch to off, if you can reach it without smoke."))),
		app.Li().Body(app.P().Text(r.t("alarm.out", "Go outside, keep others away, call."))))
	call := []app.UI{app.P().Text(r.t("alarm.call", "Then call:")), app.P().Class("tel").Text(r.orDash(r.job.text("p1", "phone")))}
	n := len(r.job.facts.Layout().Blocks())
	call = append(call, app.P().Text(r.t("alarm.fire", "Fire service: say “lithium iron phosphate, {n} batteries, {kwh}”.", "n", itoa(n), "kwh", r.orDash(r.job.energy(r)))))
	return app.Section().Class("box half").Body(
		app.Div().Body(app.H3().Text(r.t("alarm", "If you notice smell, heat, swelling or an alarm")), steps),
		app.Div().Body(call...))
}

func (r *root) orDash(s string) string {
	if s == "" {
		return "\u2013"
	}
	return s
}

// briefed says what was gone through in person, and by whom; nothing while
// nobody has.
func (r *root) briefed() app.UI {
	f, _ := checks.FieldOf("owner-briefed", "bank")
	e, s := r.job.state.Lookup(r.job.visit, "bank", f.ID, f.Setup)
	if s != job.One || len(e.Value.Choices) == 0 {
		return app.Div()
	}
	return app.P().Text(r.t("hand.briefed", "{name} went through this with you on {day}: {topics}.", "name", r.orDash(r.job.text(e.By, "name")),
		"day", e.Moment().Format("2 January 2006"), "topics", r.tickedWords(f, e.Value.Choices)))
}

// datesBox gives the next dates; the return visit is six months on, common
// practice.
func (r *root) datesBox() app.UI {
	day := now()
	return app.Section().Body(app.H3().Text(r.t("dates", "Next dates")), app.Dl().Class("plate").Body(
		r.cell(r.t("dates.return", "Return visit"), day.AddDate(0, 6, 0).Format("2 January 2006")),
		r.cell(r.t("dates.yearly", "Yearly visit"), day.AddDate(1, 0, 0).Format("2 January 2006"))),
		app.P().Class("note").Text(r.t("dates.not", "This sheet records what was measured and what was computed from it. It does not replace the maker's manual, the electrical code in force, a permit, or the judgement of a licensed person. It is not a warranty.")))
}

// ownerSheet is the one page whose foot stands at the foot of the paper.
func (r *root) ownerSheet(kicker, title string, body ...app.UI) app.UI {
	return r.paper("sheet owner", kicker, title, body, r.paperFoot())
}

// sheetPage is a part of the annex; the parts follow one another on the paper.
func (r *root) sheetPage(kicker, title string, body ...app.UI) app.UI {
	return r.paper("sheet tight", kicker, title, body)
}

func (r *root) paper(class, kicker, title string, body []app.UI, foot ...app.UI) app.UI {
	return app.Section().Class(class).Body(append([]app.UI{
		app.Header().Body(app.Div().Body(app.P().Class("note").Text(kicker), app.H2().Text(title)),
			app.P().Class("note").Body(app.Text(r.job.text("site", "name")), app.Br(), app.Text(now().Format("2 January 2006")))),
		app.Div().Class("body").Body(body...)}, foot...)...)
}

// paperFoot says what the paper is and is not, by which rules, and which
// record it matches.
func (r *root) paperFoot() app.UI {
	return app.Footer().Body(app.P().Class("note").Text(r.t("hand.made", "Made from readings entered by the people named. It is not a certificate unless a qualified person signs it. Rules {rules}, {app}.", "rules", checks.Rules, "app", r.device.App)), r.fingerprint())
}
