package screen

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
)

// noTick is the text of a list of which nothing is ticked any more: an answer,
// as an untouched list is not.
const noTick = "none"

// ticked reads the text of a list: the codes that are ticked, in order.
func ticked(text string) (codes []string) {
	for code := range strings.SplitSeq(text, ",") {
		if code = strings.TrimSpace(code); code != "" && code != noTick {
			codes = append(codes, code)
		}
	}
	slices.Sort(codes)
	return slices.Compact(codes)
}

// tickText writes what [ticked] reads.
func tickText(codes []string) string {
	if len(codes) == 0 {
		return noTick
	}
	return strings.Join(codes, ",")
}

// tick turns one code of a list on or off.
func tick(text, code string, on bool) string {
	codes := slices.DeleteFunc(ticked(text), func(c string) bool { return c == code })
	if on {
		codes = append(codes, code)
	}
	slices.Sort(codes)
	return tickText(codes)
}

// tickList is a set of rows to tick; the whole row is the label.
func (r *root) tickList(f checks.Field) app.UI {
	var rows []app.UI
	for _, o := range f.Options {
		rows = append(rows, app.Label().Body(
			app.Input().Type("checkbox").ID(f.ID+"-"+o.Code).Value(o.Code).DataSet("sync", f.ID).OnChange(r.onTick),
			app.Text(r.say(o.Label.With()))))
	}
	body := []app.UI{app.Legend().Class("lab").Text(r.say(f.Label.With())), app.Div().Class("pick col").Body(rows...)}
	if hint := r.say(f.Hint.With()); hint != "" {
		body = append(body, app.P().Class("hint").Text(hint))
	}
	return app.FieldSet().ID(f.ID).TabIndex(-1).Body(body...)
}

func (r *root) onTick(ctx app.Context, _ app.Event) {
	src := ctx.JSSrc()
	id := src.Get("dataset").Get("sync").String()
	r.text[id] = tick(r.text[id], src.Get("value").String(), src.Get("checked").Bool())
	r.saveFormDraft()
	r.home.Defer(r.settle)
}

// tickedWords says what is ticked, in the order of the list.
func (r *root) tickedWords(f checks.Field, codes []string) string {
	list := ""
	for _, o := range f.Options {
		if !slices.Contains(codes, o.Code) {
			continue
		}
		if list != "" {
			list += r.t("list.comma", ", ")
		}
		list += r.say(o.Label.With())
	}
	if list == "" {
		return r.t("tick.none", "None of them")
	}
	return list
}
