package screen

import (
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/draw"
	"lugmark/core/say"
)

func itoa(n int) string { return strconv.Itoa(n) }

// pad is the number pad of the reading screen. It types into a real input, so
// that readers, paste and paired keypads work too.
func (r *root) pad(at int) app.UI {
	key := func(label, aria string, f func(app.Context)) app.UI {
		b := r.button("", label, f)
		if aria != "" {
			b = b.Aria("label", aria)
		}
		return b
	}
	var keys []app.UI
	for _, d := range "123456789" {
		keys = append(keys, key(string(d), "", func(ctx app.Context) { r.typeKey(ctx, string(d)) }))
	}
	sign := key(r.prefs.separator(), r.t("pad.point", "Decimal sign"), func(ctx app.Context) { r.typeKey(ctx, r.prefs.separator()) })
	if r.read.field.Signed && r.text["value"] == "" {
		sign = key("\u2212", r.t("pad.minus", "Minus"), func(ctx app.Context) { r.typeKey(ctx, "-") })
	}
	del := app.Button().Type("button").DataSet("act", r.act(func(ctx app.Context) { r.deleteKey(ctx) })).OnClick(r.onAct).
		Aria("label", r.t("pad.delete", "Delete last digit")).Body(svg(draw.IconDelete))
	keys = append(keys, sign, key("0", "", func(ctx app.Context) { r.typeKey(ctx, "0") }), del)
	keep := r.t("read.keep-next", "Keep, next")
	if at == len(r.read.parts)-1 {
		keep = r.t("read.keep", "Keep")
	}
	keys = append(keys,
		r.button("word", r.t("read.cant", "Can't"), func(app.Context) { r.read.cant = !r.read.cant }).
			Aria("label", r.t("read.cant-label", "Can't measure this")).Aria("expanded", strconv.FormatBool(r.read.cant)),
		r.button("go", keep, func(ctx app.Context) { r.keepReading(ctx, false) }).ID("keep"))
	return app.Section().Class("pad").Aria("label", r.t("pad", "Number pad")).Body(keys...)
}

// inputMode keeps the phone's own keyboard away: it has no minus on some
// phones, and covers half of the screen.
func (r *root) inputMode() string { return "none" }

// typeKey adds a key of the pad.
func (r *root) typeKey(ctx app.Context, key string) { r.typed(ctx, r.text["value"]+key) }

// deleteKey takes the last sign away.
func (r *root) deleteKey(ctx app.Context) {
	if rs := []rune(r.text["value"]); len(rs) > 0 {
		r.setValue(string(rs[:len(rs)-1]))
		r.saveDraft(ctx)
	}
	r.read.doubt = say.Line{}
}

// typed takes in what now stands in the input, and sets the point of a usual
// reading by itself: 1320 becomes 13.20.
func (r *root) typed(ctx app.Context, text string) {
	text = pointed(r.read.field, r.text["value"], text, r.prefs.separator())
	r.setValue(text)
	r.read.doubt, r.read.near = say.Line{}, ""
	if r.notice.bad {
		r.notice = notice{}
	}
	r.saveDraft(ctx)
}

// pointed sets the point of a usual reading as soon as more digits stand there
// than belong before it, whether they came one by one or at once. A point that
// was taken away again stays away. A field that was not painted since its point
// was set still shows the digits alone: it grew, so the point is set again.
func pointed(f checks.Field, before, text, separator string) string {
	had, digits := strings.TrimPrefix(before, "-"), strings.TrimPrefix(text, "-")
	alone := strings.Replace(had, separator, "", 1)
	wanted := len(had) <= f.Whole || alone != had && len(digits) > len(alone)
	if f.Whole == 0 || !wanted || len(digits) <= f.Whole || strings.Trim(digits, "0123456789") != "" {
		return text
	}
	at := len(text) - len(digits) + f.Whole
	return text[:at] + separator + text[at:]
}

func (r *root) setValue(text string) { r.text["value"] = text }

func (r *root) clearValue() {
	r.text["value"] = ""
	r.read.doubt, r.read.near = say.Line{}, ""
}

// onReading follows typing and pasting in the input itself.
func (r *root) onReading(ctx app.Context, _ app.Event) {
	defer r.recovered()
	r.typed(ctx, ctx.JSSrc().Get("value").String())
	r.home.Defer(r.settle)
}

// onReadingKey keeps on Enter.
func (r *root) onReadingKey(ctx app.Context, e app.Event) {
	defer r.recovered()
	if e.Get("key").String() == "Enter" {
		e.PreventDefault()
		r.keepReading(ctx, false)
		r.home.Defer(r.settle)
		return
	}
	ctx.PreventUpdate()
}

// saveDraft keeps what is being typed, so that a killed app comes back with
// the same digits.
func (r *root) saveDraft(ctx app.Context) {
	key, text := r.draftKey(), r.text["value"]
	r.async(func() { r.device.Store.PutDraft(key, text) })
}
