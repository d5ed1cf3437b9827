package screen

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// input is a labelled text input. Its text lives in r.text; a slip stands
// under it and is named by it.
func (r *root) input(id, label, hint, kind string) app.UI {
	described := ""
	if hint != "" {
		described = id + "-hint"
	}
	in := app.Input().ID(id).Class("inp").Type(kind).AutoComplete(false).DataSet("sync", id).OnInput(r.onInput)
	lab := []app.UI{}
	if n := r.slipNumber(id); n > 0 {
		lab = append(lab, app.Span().Class("no-sq").Aria("hidden", "true").Text(strconv.Itoa(n)))
		in = in.Aria("invalid", "true")
		described += " " + id + "-slip"
	}
	if described != "" {
		in = in.Aria("describedby", described)
	}
	body := []app.UI{app.Label().Class("lab").For(id).Body(append(lab, app.Text(label))...), in}
	if hint != "" {
		body = append(body, app.P().Class("hint").ID(id+"-hint").Text(hint))
	}
	if slip, bad := r.slips[id]; bad {
		body = append(body, app.P().Class("hint slip").ID(id+"-slip").Text(r.say(slip)))
	}
	return app.Div().Body(body...)
}

// onInput follows what is typed. The page need not be drawn again for it.
func (r *root) onInput(ctx app.Context, _ app.Event) {
	src := ctx.JSSrc()
	r.text[src.Get("dataset").Get("sync").String()] = src.Get("value").String()
	r.saveFormDraft()
	ctx.PreventUpdate()
}

// slipNumber is the place of an input in the list of what to put right first.
func (r *root) slipNumber(id string) int {
	if _, bad := r.slips[id]; !bad {
		return 0
	}
	for i, other := range r.slipOrder {
		if other == id {
			return i + 1
		}
	}
	return 0
}

// putRight lists every slip of a form, each a link to its input.
func (r *root) putRight(order ...string) app.UI {
	r.slipOrder = nil
	var rows []app.UI
	for _, id := range order {
		if slip, bad := r.slips[id]; bad {
			r.slipOrder = append(r.slipOrder, id)
			rows = append(rows, app.Li().Body(r.button("plain", r.say(slip), func(app.Context) { r.focus = id })))
		}
	}
	return app.Section().Class("put").ID("slips").TabIndex(-1).Role("alert").Body(
		app.H2().Text(r.t("put-right", "Put right first")), app.Ol().Class("notes").Body(rows...))
}

// pick is a set of radio rows; the whole row is the label.
func (r *root) pick(id, legend string, options [][2]string) app.UI {
	var rows []app.UI
	for _, o := range options {
		rows = append(rows, app.Label().Body(
			app.Input().Type("radio").Name(id).ID(id+"-"+o[0]).Value(o[0]).DataSet("sync", id).OnChange(r.onPick),
			app.Text(o[1])))
	}
	body := []app.UI{app.Legend().Class("lab").Text(legend), app.Div().Class("pick col").Body(rows...)}
	if slip, bad := r.slips[id]; bad {
		body = append(body, app.P().Class("hint slip").Text(r.say(slip)))
	}
	return app.FieldSet().ID(id).TabIndex(-1).Body(body...)
}

func (r *root) onPick(ctx app.Context, _ app.Event) {
	src := ctx.JSSrc()
	r.text[src.Get("dataset").Get("sync").String()] = src.Get("value").String()
	r.saveFormDraft()
	r.home.Defer(r.settle)
}

// stepper counts up and down within 1 and most.
func (r *root) stepper(label string, n, most int, set func(int)) app.UI {
	return app.Div().Role("group").Aria("label", label).Body(
		app.Span().Class("lab").Text(label),
		app.Div().Class("step").Body(
			r.button("", "\u2212", func(app.Context) { set(max(1, n-1)) }).Aria("label", r.t("step.less", "One less: {what}", "what", label)),
			app.Output().Aria("live", "polite").Text(strconv.Itoa(n)),
			r.button("", "+", func(app.Context) { set(min(most, n+1)) }).Aria("label", r.t("step.more", "One more: {what}", "what", label)),
		))
}
