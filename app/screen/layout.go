package screen

import (
	"encoding/json"
	"errors"
	"slices"
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/draw"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// layoutForm draws the bank that stands on the form and asks for what makes it.
func (r *root) layoutForm(l bank.Layout) []app.UI {
	main := []app.UI{
		app.Figure().Class("fig frame").Body(svg(draw.Plan(l).SVG)),
		app.P().Class("sum").Body(app.B().Text(r.t("new.sum", "{title}: {n} blocks, {volts} V", "title", l.Title(), "n", strconv.Itoa(l.Series*l.Parallel),
			"volts", r.voice.Digits(oneDecimal(float64(checks.NominalVolts)*float64(l.Series)))))),
		app.Div().Class("pair").Body(
			r.stepper(r.t("new.series", "In series"), l.Series, 16, func(n int) { r.draft.series = n }),
			r.stepper(r.t("new.parallel", "In parallel"), l.Parallel, 16, func(n int) { r.draft.parallel = n }),
		),
	}
	if l.Parallel > 1 && l.Series > 1 {
		main = append(main, r.pick("join", r.t("new.join", "How joined"), [][2]string{
			{string(bank.JoinStrings), r.joinWords(bank.JoinStrings)},
			{string(bank.JoinGroups), r.joinWords(bank.JoinGroups)},
		}))
	}
	if l.Parallel > 1 {
		var options [][2]string
		for _, t := range []bank.Takeoff{bank.OneEnd, bank.Diagonal, bank.EqualLeads} {
			options = append(options, [2]string{string(t), r.takeoffWords(t)})
		}
		if _, _, pair := l.Takeoff.Places(); pair {
			options = append(options, [2]string{string(l.Takeoff), r.takeoffWords(l.Takeoff)})
		}
		main = append(main, r.pick("takeoff", r.t("new.takeoff", "Where the two main leads leave"), options))
	}
	return main
}

func (r *root) joinWords(j bank.Join) string {
	if j == bank.JoinGroups {
		return r.t("new.groups", "Groups, then in series")
	}
	return r.t("new.strings", "Strings, then in parallel")
}

func (r *root) takeoffWords(t bank.Takeoff) string {
	switch t {
	case bank.OneEnd:
		return r.t("new.one-end", "Both at one end")
	case bank.Diagonal:
		return r.t("new.diagonal", "Diagonal, opposite ends")
	case bank.EqualLeads:
		return r.t("new.bars", "Bus bars, equal leads")
	}
	plus, minus, _ := t.Places()
	return r.t("new.places", "Plus at {plus}, minus at {minus}", "plus", r.placeWords(plus), "minus", r.placeWords(minus))
}

// placeWords says where a main lead leaves: the letter of a string as it
// stands, a block by its name.
func (r *root) placeWords(place string) string {
	if _, ok := bank.BlockNumber(place); ok {
		return lowerFirst(r.name(place))
	}
	return place
}

// layoutWords says a whole layout, to be told from another.
func (r *root) layoutWords(raw []byte) string {
	var l bank.Layout
	if json.Unmarshal(raw, &l) != nil {
		return ""
	}
	says := l.Title()
	if l.Parallel > 1 && l.Series > 1 {
		says += ", " + lowerFirst(r.joinWords(l.Join))
	}
	if l.Parallel > 1 {
		says += ", " + lowerFirst(r.takeoffWords(l.Takeoff))
	}
	return says
}

// startLayout puts the layout of the job on the form.
func (r *root) startLayout() {
	l := r.job.facts.Layout()
	if !r.job.facts.HasLayout() {
		l = bank.New(2, 2, bank.JoinStrings, bank.Diagonal)
	}
	r.draft = newJob{series: l.Series, parallel: l.Parallel}
	r.text["join"], r.text["takeoff"] = string(l.Join), string(l.Takeoff)
}

// changedLayout is the layout on the form with the blocks of the job: those
// that are there keep their places in order, new ones get the next numbers.
func (r *root) changedLayout() bank.Layout {
	l := r.newLayout()
	old := r.job.facts.Layout().Blocks()
	place := slices.Clone(old[:min(len(old), l.Series*l.Parallel)])
	for n := 1; len(place) < l.Series*l.Parallel; n++ {
		if id := bank.BlockID(n); !slices.Contains(old, id) {
			place = append(place, id)
		}
	}
	l.Place = place
	return l
}

// viewLayout corrects the layout of a job.
func (r *root) viewLayout() page {
	var main []app.UI
	if len(r.slips) > 0 {
		main = append(main, r.putRight("takeoff"))
	}
	if _, st := r.job.state.Lookup(r.job.visit, "bank", "layout", true); st == job.Conflict {
		main = append(main, r.conflict(key("bank", "layout")))
	}
	l := r.changedLayout()
	main = append(main, r.layoutForm(l)...)
	if gone := r.leaving(l); len(gone) > 0 {
		main = append(main, app.P().Class("note").Text(r.t("layout.leaving", "{n} entries belong to parts that leave the drawing. They stay in the record, and the bank's page lists them under No longer in the drawing.", "n", itoa(len(gone)))))
	}
	main = append(main, app.P().Class("note").Text(r.t("layout.what", "Every check is made anew on the changed drawing. Nothing that was entered is lost.")))
	return page{title: r.t("layout", "Layout"), sub: r.job.text("site", "name"), back: r.to(), main: main,
		foot: []app.UI{r.button("btn go", r.t("layout.keep", "Keep this layout"), r.keepLayout)}}
}

var sayLayoutKept = say.Phrase{Key: "screen.layout.kept", English: "The layout is now {layout}."}

// keepLayout keeps the layout as one entry; blocks that are new to the drawing
// follow the sheet of the others.
func (r *root) keepLayout(ctx app.Context) {
	r.slips = map[string]say.Line{}
	l := r.changedLayout()
	if err := l.Validate(); err != nil {
		var slip bank.Slip
		if errors.As(err, &slip) {
			r.slips["takeoff"], r.focus = slip.Line, "slips"
		}
		return
	}
	raw, err := json.Marshal(l)
	if err != nil {
		return
	}
	if e, st := r.job.state.Lookup(r.job.visit, "bank", "layout", true); st == job.One && string(e.Value.Layout) == string(raw) {
		ctx.Navigate(r.to())
		return
	}
	changes := []change{{part: "bank", field: "layout", value: job.Value{Kind: job.KindLayout, Layout: raw}}}
	for _, b := range l.Blocks() {
		if !r.job.has(key(b, "sheet")) {
			changes = append(changes, change{part: b, field: "sheet", value: job.Value{Kind: job.KindText, Text: r.usualSheet()}})
		}
	}
	r.keep(changes, "", func(ctx app.Context, kept bool) {
		if kept {
			r.notice = notice{says: sayLayoutKept.With("layout", l.Title())}
			ctx.Navigate(r.to())
		}
	})
}

// usualSheet is the sheet of the first block that has one.
func (r *root) usualSheet() string {
	for _, b := range r.job.facts.Layout().Blocks() {
		if e, st := r.job.state.Lookup(r.job.visit, b, "sheet", true); st == job.One && e.Value.Text != "" {
			return e.Value.Text
		}
	}
	return "sheet1"
}

// leaving lists the entries of parts that a layout does not have.
func (r *root) leaving(l bank.Layout) []finding.Key {
	var out []finding.Key
	if l.Validate() != nil {
		return nil
	}
	for _, k := range r.job.state.KeysFrom(r.job.visit, "") {
		if _, ok := bank.PartKind(k.Part); !ok || bank.Exists(l, k.Part) {
			continue
		}
		if _, st := r.job.state.Get(k); st != job.Missing {
			out = append(out, key(k.Part, k.Field))
		}
	}
	return out
}

// leftRows lists what was entered of parts that are not in the drawing any
// more: on the page of the bank, and nowhere else.
func (r *root) leftRows(part string) []app.UI {
	if part != "bank" || !r.job.facts.HasLayout() {
		return nil
	}
	var rows []app.UI
	for _, k := range r.leaving(r.job.facts.Layout()) {
		e, st := r.job.state.Get(r.job.key(k.Part, k.Field))
		text, meta := r.t("part.two", "two values"), ""
		if st == job.One {
			text, meta = r.valueText(k, e.Value), r.entryMeta(e)
		}
		rows = append(rows, app.Li().Body(app.A().Class("row").Href(r.to("part", k.Part)).Body(
			app.Span(), app.Span().Body(app.Text(r.name(k.Part)+": "+lowerFirst(r.say(r.labelOf(k.Field, k.Part)))), app.Br(), app.Span().Class("note").Text(meta)), app.B().Class("num").Text(text))))
	}
	if len(rows) == 0 {
		return nil
	}
	return []app.UI{app.H2().Text(r.t("layout.left", "No longer in the drawing")), app.Ul().Class("rows").Body(rows...)}
}
