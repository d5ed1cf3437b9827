package screen

import (
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/draw"
	"lugmark/core/figure"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// reading is the measurement on the screen: one field of one part in a round.
type reading struct {
	field  checks.Field
	part   string
	parts  []string
	moving bool
	again  bool     // the first value was far from its neighbours: measure once more
	doubt  say.Line // what is implausible about the typed value; it waits for a decision
	near   string   // the value that was probably meant
	shows  bool     // the doubt is about digits: the value itself can be
	cant   bool     // the four ways not to measure are open
	why    string   // the reason chosen there
}

// enterReading starts at a part of a round, with what was being typed there.
func (r *root) enterReading(ctx app.Context, field, part string) {
	f, ok := checks.FieldOf(field, part)
	if !ok {
		return
	}
	again := r.read.field.Spec != nil && r.read.field.ID == field && r.read.part == part && r.read.again
	r.read = reading{field: f, part: part, parts: checks.RoundParts(r.job.facts.Layout(), f), again: again}
	r.text["value"] = ""
	key := r.draftKey()
	r.async(func() {
		text, there, err := r.device.Store.Draft(key)
		if err != nil || !there {
			return
		}
		r.dispatch(func(app.Context) {
			if r.draftKey() == key && r.text["value"] == "" {
				r.text["value"] = text
			}
		})
	})
}

func (r *root) draftKey() string { return r.job.id + "/" + r.read.part + "/" + r.read.field.ID }

// viewReading is one measurement: the tape line, the figure, the pad.
func (r *root) viewReading() page {
	f := r.read.field
	if f.Spec == nil {
		return r.viewSteps()
	}
	at := indexOf(r.read.parts, r.read.part)
	main := []app.UI{
		r.tape(),
		app.Div().Class("ask").Body(app.Label().For("value").Text(r.say(f.Label.With())), r.whereLink()),
	}
	if r.panel == "where" {
		main = append(main, r.wherePlate())
	} else if first := r.beforeDrop(); first != nil {
		main = append(main, first)
	}
	main = append(main, app.Div().Class("entry").Body(
		app.Div().Class("locator").Body(svg(draw.Locator(r.job.facts.Layout(), r.blockOf(r.read.part)).SVG)),
		app.Div().Class("field num").Body(
			app.Input().ID("value").Type("text").Attr("inputmode", r.inputMode()).AutoComplete(false).Attr("enterkeyhint", "next").
				Attr("autocorrect", "off").Attr("spellcheck", "false").
				Aria("describedby", "say").DataSet("sync", "value").OnInput(r.onReading).OnKeyDown(r.onReadingKey),
			app.Span().Class("unit").Aria("hidden", "true").Text(r.voice.Unit(string(f.Entry()))),
		)))
	main = append(main, r.readingSays())
	if r.read.cant {
		main = append(main, r.cantPanel())
	}
	title := r.name(r.read.part)
	return page{
		title: title, sub: r.t("read.sub", "{n}\u00a0of\u00a0{all} in this round", "n", itoa(at+1), "all", itoa(len(r.read.parts))),
		back: r.to("stage", string(f.Stage)), main: main, pad: r.padUnless(r.read.cant || !r.read.doubt.Empty(), at), quiet: true,
	}
}

// padUnless leaves the pad out while something else wants the room: a decision,
// the ways not to measure.
func (r *root) padUnless(crowded bool, at int) app.UI {
	if crowded {
		return nil
	}
	return r.pad(at)
}

func (r *root) blockOf(part string) string {
	if kind, _ := bank.PartKind(part); kind == bank.KindBlock {
		return part
	}
	if kind, _ := bank.PartKind(part); kind == bank.KindJoint {
		_, end, _ := bank.LinkOf(part)
		return bank.OwnerOf(end)
	}
	return bank.OwnerOf(part)
}

// tape is the round as a line of figures: kept ones stand on a thick stroke, the
// current one is boxed, a gap parts the strings.
func (r *root) tape() app.UI {
	var groups []app.UI
	var row []app.UI
	last := ""
	kept := 0
	for i, p := range r.read.parts {
		owner := r.unitOf(p)
		if i > 0 && owner != last {
			groups, row = append(groups, app.Span().Body(row...)), nil
		}
		last = owner
		class := ""
		if r.job.has(finding.Key{Part: p, Field: r.read.field.ID}) {
			class = "kept"
			kept++
		}
		if p == r.read.part {
			class += " cur"
		}
		row = append(row, app.B().Class(class).Text(r.tapeName(p, i)))
	}
	groups = append(groups, app.Span().Body(row...))
	class := "tape"
	if len(r.read.parts) > 8 {
		class += " two"
	}
	return app.Div().Class(class).Role("img").Aria("label", r.t("read.tape", "Round: {n} of {all} kept, now {part}", "n", itoa(kept), "all", itoa(len(r.read.parts)), "part", r.name(r.read.part))).Body(groups...)
}

// unitOf gives the string or group in which a part lies, for the gaps.
func (r *root) unitOf(part string) string {
	l, b := r.job.facts.Layout(), r.blockOf(part)
	if l.Join == bank.JoinGroups {
		return l.GroupOf(b)
	}
	return l.StringOf(b)
}

// tapeName is the figure on the tape: the block's number, with the sign of its
// post, or its place.
func (r *root) tapeName(part string, i int) string {
	n, ok := bank.BlockNumber(part)
	switch kind, _ := bank.PartKind(part); {
	case ok && kind == bank.KindPost && strings.HasSuffix(part, ".n"):
		return r.t("tape.minus", "{n}\u2212", "n", itoa(n))
	case ok && kind == bank.KindPost:
		return r.t("tape.plus", "{n}+", "n", itoa(n))
	case ok:
		return itoa(n)
	}
	return itoa(i + 1)
}

// readingSays is the status line: what is typed, whether it is plausible, what
// was kept.
func (r *root) readingSays() app.UI {
	state, text := "todo", ""
	var extra []app.UI
	n, slip := unit.Parse(r.text["value"], r.read.field.Entry(), r.read.field.Signed)
	switch {
	case r.notice.bad:
		state, text = "fail", r.say(r.notice.says)
	case !r.read.doubt.Empty():
		state, text = "unk", r.say(r.read.doubt)
		if r.read.near != "" {
			extra = append(extra, r.button("btn", r.t("read.use", "Use {n}", "n", r.voice.Digits(r.read.near)), func(ctx app.Context) {
				r.setValue(r.read.near)
				r.read.doubt, r.read.near = say.Line{}, ""
			}))
		}
		again := r.button("btn", r.t("read.retype", "Type again"), func(app.Context) { r.clearValue(); r.focus = "value" })
		if r.read.shows {
			again = r.button("btn", r.t("read.rest", "Type the rest"), func(app.Context) { r.read.doubt, r.focus = say.Line{}, "value" })
		}
		extra = append(extra, again,
			r.button("btn", r.really(n), func(ctx app.Context) { r.keepReading(ctx, true) }))
	case r.text["value"] == "" && !r.notice.says.Empty() && !r.read.again:
		state, text = "pass", r.say(r.notice.says)
		if r.notice.grave {
			state = "fail"
		}
		if r.notice.undo != nil {
			extra = append(extra, r.button("plain", r.t("undo", "Undo"), r.notice.undo))
		}
	case r.text["value"] == "":
		if two := r.rivals(); two != "" {
			state, text = "unk", r.t("read.rivals", "Two values are kept: {values}. A new reading replaces both.", "values", two)
		} else if v, ok := r.keptValue(); ok {
			state, text = "todo", r.t("read.before", "Kept before: {value}. A new value replaces it; the old one stays in the record.", "value", v)
		} else {
			text = r.t("read.empty", "Nothing typed yet.")
		}
		if r.read.again && !r.notice.says.Empty() {
			state, text = "unk", r.say(r.notice.says)
			if r.notice.undo != nil {
				extra = append(extra, r.button("plain", r.t("undo", "Undo"), r.notice.undo))
			}
		}
	case slip != nil:
		state, text = "fail", r.say(slip.Line)
	default:
		if now().Before(r.job.latest.Add(-clockSlack)) {
			extra = append(extra, app.P().Text(r.say(sayClock.With("when", r.moment(r.job.latest.Format(time.RFC3339))))))
		}
		text = r.t("read.typed", "Not kept yet: {value}", "value", r.voice.Figure(say.Figure{Digits: n.Digits, Unit: string(n.Unit)}))
		if f := r.read.field; outside(f, n.Value) && (n.Value > f.High || n.Value < 0) { // what is still growing may be too small yet
			state, text = "unk", r.say(sayOutside.With("value", figure.Typed(n), "low", figure.Exact(f.Low, f.Entry()), "high", figure.Exact(f.High, f.Entry()), "part", bank.Name(r.read.part)))
		} else if far, ok := r.farFromOthers(n.Value); ok {
			state, text = "unk", text+". "+r.say(far)
		}
	}
	return app.Div().Class("ruled", state).ID("say").Role("status").Body(mark(draw.State(state)),
		app.Div().Body(append([]app.UI{app.Text(text)}, extra...)...))
}

// really is what a person says who stays with what was doubted.
func (r *root) really(n unit.Number) string {
	if r.read.shows {
		return r.t("read.shows", "It shows {n}", "n", r.voice.Digits(n.Digits))
	}
	return r.t("read.really", "It really shows that")
}

func (r *root) keptValue() (string, bool) {
	k := finding.Key{Part: r.read.part, Field: r.read.field.ID}
	e, s := r.job.state.Lookup(r.job.visit, k.Part, k.Field, false)
	if s != job.One {
		return "", false
	}
	return r.valueText(k, e.Value), true
}

// rivals says the values that two people keep for this reading, "" when they
// do not differ.
func (r *root) rivals() string {
	k := finding.Key{Part: r.read.part, Field: r.read.field.ID}
	if _, s := r.job.state.Lookup(r.job.visit, k.Part, k.Field, false); s != job.Conflict {
		return ""
	}
	var values []string
	for _, e := range r.job.state.Live(r.job.key(k.Part, k.Field)) {
		values = append(values, r.valueText(k, e.Value))
	}
	return strings.Join(values, ", ")
}

func indexOf(list []string, s string) int {
	for i, x := range list {
		if x == s {
			return i
		}
	}
	return 0
}
