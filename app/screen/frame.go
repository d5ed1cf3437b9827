package screen

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/draw"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// frame puts a screen between its top bar and its foot.
func (r *root) frame(p page) app.UI {
	main := p.main
	if !p.quiet {
		main = append(r.noticeBar(), main...)
	}
	parts := []app.UI{r.bar(p), app.Main().Class(p.class).Body(main...)}
	if p.pad != nil {
		parts = append(parts, p.pad)
	}
	if len(p.foot) > 0 {
		parts = append(parts, app.Footer().Class("foot").Body(p.foot...))
	}
	class := "page"
	if p.pad != nil {
		class += " read"
	}
	return app.Div().Class(class).DataSet("title", p.title).Body(parts...)
}

// bar is the top bar: back, title, theme, menu.
func (r *root) bar(p page) app.UI {
	var body []app.UI
	if p.back != "" {
		body = append(body, app.A().Href(p.back).Aria("label", r.t("back", "Back")).Body(svg(draw.IconBack)))
	}
	title := []app.UI{app.Text(p.title)}
	if p.sub != "" {
		title = append(title, app.Small().Text(p.sub))
	}
	h1 := app.H1().ID("title").TabIndex(-1).Body(title...)
	if p.back == "" {
		h1 = h1.Class("wide")
	}
	theme := r.button("sun", r.t("theme.sun", "Sun"), r.toggleSun).
		Aria("pressed", strconv.FormatBool(r.prefs.Theme == "sun")).
		Aria("label", r.t("theme.sun-label", "Sun: the theme for sunlight"))
	return app.Header().Class("bar").Body(append(body, h1, theme,
		app.A().Href("/menu").Aria("label", r.t("menu", "Menu")).Body(svg(draw.IconMenu)))...)
}

// noticeBar tells what was just kept, or why it was not.
func (r *root) noticeBar() []app.UI {
	if r.notice.says.Empty() {
		return []app.UI{app.Div().ID("said").Class("vh").Role("status")}
	}
	class, role := "undo", "status"
	if r.notice.bad || r.notice.grave {
		class, role = "undo undo--bad", "alert"
	}
	body := []app.UI{app.P().Text(r.say(r.notice.says))}
	if r.notice.undo != nil {
		body = append(body, r.button("btn", r.t("undo", "Undo"), r.notice.undo))
	}
	return []app.UI{app.Div().ID("said").Class(class).Role(role).Body(body...)}
}

// say writes a line in the person's language and signs.
func (r *root) say(l say.Line) string { return r.voice.Say(l) }

// t is a sentence of the screen: its key, its English, and what fills its places.
func (r *root) t(key, english string, pairs ...any) string {
	return r.voice.Say(say.Phrase{Key: "screen." + key, English: english}.With(pairs...))
}

// act registers what a button does and gives its number. The number stands in
// the page, so that a button always does what it says, whatever was drawn in
// its place before.
func (r *root) act(f func(app.Context)) string {
	r.acts = append(r.acts, f)
	return strconv.Itoa(len(r.acts) - 1)
}

// button is a button with words.
func (r *root) button(class, label string, f func(app.Context)) app.HTMLButton {
	return app.Button().Type("button").Class(class).DataSet("act", r.act(f)).OnClick(r.onAct).Text(label)
}

// onAct does what the pressed button was registered for.
func (r *root) onAct(ctx app.Context, _ app.Event) {
	i, err := strconv.Atoi(ctx.JSSrc().Get("dataset").Get("act").String())
	if err != nil || i >= len(r.acts) {
		return
	}
	defer r.recovered()
	r.acts[i](ctx)
	r.home.Defer(r.settle)
}

// recovered keeps a fault in one act from ending the program.
func (r *root) recovered() {
	if fault := recover(); fault != nil {
		reportFault(fault)
		r.notice = notice{says: say.Phrase{Key: "screen.fault.act", English: "That did not work: Lugmark has a fault here. Everything kept is safe."}.With(), bad: true}
	}
}

// goLink is a link that looks like a button.
func goLink(class, label, href string) app.HTMLA {
	return app.A().Class(class).Href(href).Text(label)
}

// ruled is a note ruled off above and below, its silhouette in the margin.
func (r *root) ruled(state string, body ...app.UI) app.UI {
	return app.Div().Class("ruled", state).Body(mark(draw.State(state)), app.Div().Body(body...))
}

func mark(s draw.State) app.UI { return svg(draw.Mark(s)) }

// stateOf is the drawn state of a verdict.
func stateOf(v finding.Verdict) draw.State {
	switch v {
	case finding.Pass:
		return draw.Pass
	case finding.Fail:
		return draw.Fail
	case finding.CantTell:
		return draw.CantTell
	case finding.NotNeeded:
		return draw.NotNeeded
	case finding.Later:
		return draw.Later
	}
	return draw.ToDo
}

// word is the state's word; it is never shortened.
func (r *root) word(v finding.Verdict) string {
	switch v {
	case finding.Pass:
		return r.t("word.pass", "Pass")
	case finding.Fail:
		return r.t("word.fail", "Fail")
	case finding.CantTell:
		return r.t("word.cant-tell", "Can't tell")
	case finding.NotNeeded:
		return r.t("word.not-needed", "Not needed")
	case finding.Later:
		return r.t("word.later", "Later")
	}
	return r.t("word.to-do", "To do")
}

// stateWord is silhouette and word together.
func (r *root) stateWord(v finding.Verdict) app.UI {
	return app.Span().Class("st", string(stateOf(v))).Body(mark(stateOf(v)), app.Text(r.word(v)))
}
