package screen

import (
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/conductor"
	"lugmark/core/figure"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// enterForm fills the inputs with what is known.
func (r *root) enterForm(f form) {
	r.asked = nil
	delete(r.text, "swelling") // asked only once the block does not look whole
	for _, field := range r.formFields(f) {
		r.text[field.ID] = r.job.inputText(r.formSource(f.part), field)
	}
	if _, asks := r.text["measures"]; asks && r.text["measures"] == "" {
		r.text["measures"] = usualMeter[f.part]
	}
	r.fillRange(f.part)
}

// usualMeter is what the meters of a job usually measure: an offer on the
// form, not an entry.
var usualMeter = map[string]string{"m1": "V", "m2": "A", "m3": "C", "m4": "V", "w1": "N.m"}

// inputText is an entry as its input shows it.
func (j *opened) inputText(part string, f checks.Field) string {
	e, s := j.state.Lookup(j.visit, part, f.ID, f.Setup)
	if s != job.One {
		return ""
	}
	switch e.Value.Kind {
	case job.KindQuantity:
		if unit.Symbol(e.Value.Unit) == f.Entry() {
			return e.Value.Number
		}
		return e.Value.Number + " " + e.Value.Unit
	case job.KindChoice:
		return e.Value.Choice
	case job.KindChoices:
		return tickText(e.Value.Choices)
	case job.KindText:
		return e.Value.Text
	case job.KindTime:
		if t, err := time.Parse(time.RFC3339, e.Value.Time); err == nil {
			return t.In(now().Location()).Format("2006-01-02T15:04")
		}
		return e.Value.Time
	case job.KindPersonal:
		s, _ := job.Text(j.blobs, e.Value.X)
		return s
	}
	return ""
}

// viewForm asks for several entries of one part at once.
func (r *root) viewForm(f form) page {
	fields := r.formFields(f)
	var main []app.UI
	if len(r.slips) > 0 {
		order := make([]string, len(fields))
		for i, field := range fields {
			order[i] = field.ID
		}
		main = append(main, r.putRight(append(order, "why")...))
	}
	personal := false
	stage, sub := r.to("stage", string(f.stage)), r.say(f.stage.Title().With())
	if r.job.isRegister() {
		stage = r.wayIn(f.part)
		sub = r.t("register", "Register")
		if f.part == "house" {
			stage = r.wayIn()
		}
	}
	main = append(main, r.fromRegister(f, stage)...)
	for _, field := range fields {
		k := key(f.part, field.ID)
		if _, st := r.job.state.Lookup(r.job.visit, f.part, field.ID, field.Setup); st == job.Conflict {
			main = append(main, r.conflict(k))
			continue
		}
		main = append(main, r.formField(field, func(ctx app.Context, way string) { r.keepForm(ctx, f, fields, way) }))
		if _, one := bank.PartKind(f.part); one && showsPhoto[field.ID] {
			main = append(main, r.photosBox(f.part, field.ID)...)
		}
		personal = personal || field.Kind == checks.Personal && r.job.has(k)
		if e, st := r.job.state.Lookup(r.job.visit, r.formSource(f.part), field.ID, field.Setup); st == job.One && e.Value.Kind == job.KindSkip {
			main = append(main, app.P().Class("note").Text(r.skipText(e.Value)))
		}
	}
	if asked := r.askedHere(f); len(asked) > 0 {
		main = append(main, r.putOff(f, asked))
	}
	if personal && !r.job.isRegister() {
		main = append(main, goLink("btn", r.t("personal.link", "Erase names, notes and photos"), r.to("personal")))
	}
	if f.kind() == bank.KindMeter && !r.job.isRegister() {
		main = append(main, r.anotherRange(func(ctx app.Context, way string) { r.keepForm(ctx, f, fields, way) }, f.part))
	}
	main = append(main, r.toRegister(f.part)...)
	return page{title: r.formTitle(f), sub: sub, back: stage, main: main,
		foot: []app.UI{r.button("btn go", r.t("form.keep", "Keep"), func(ctx app.Context) { r.keepForm(ctx, f, fields, stage) })}}
}

func (r *root) formField(f checks.Field, keepThen func(ctx app.Context, way string)) app.UI {
	label, hint := r.say(f.Label.With()), r.say(f.Hint.With())
	if ref, ok := references[f.ID]; ok {
		return r.refField(f, ref, keepThen)
	}
	switch {
	case f.Kind == checks.Several:
		return r.tickList(f)
	case len(f.Options) > 0:
		var options [][2]string
		for _, o := range f.Options {
			options = append(options, [2]string{o.Code, r.say(o.Label.With())})
		}
		return r.pick(f.ID, label, options)
	case f.Kind == checks.Time && f.ID == "due":
		return r.input(f.ID, label, hint, "date")
	case f.Kind == checks.Time:
		return r.input(f.ID, label, hint, "datetime-local")
	case f.Kind == checks.Number:
		if f.ID == "drop-current" && r.jointAmps() != "" {
			hint = r.jointAmps()
		}
		if u := r.voice.Unit(string(f.Entry())); u != "" {
			label += ", " + u
		}
	}
	return r.input(f.ID, label, hint, "text")
}

// keepForm keeps every entry that was changed, as one act; a slip keeps
// nothing and touches nothing. Way is where it goes on from there.
func (r *root) keepForm(ctx app.Context, of form, fields []checks.Field, way string) {
	part := of.part
	r.slips = map[string]say.Line{}
	parts := r.partsIn(of)
	var changes []change
	for _, f := range fields {
		text := strings.TrimSpace(r.text[f.ID])
		was := r.job.inputText(r.formSource(part), f)
		if text == was || text == "" && !r.job.isRegister() {
			continue
		}
		if text == "" {
			changes = append(changes, change{part: part, field: f.ID})
			continue
		}
		c, slip := r.entryOf(f, text)
		if !slip.Empty() {
			r.slips[f.ID] = slip
			continue
		}
		if doubt, odd := r.askOnce(part, f, text); odd {
			r.slips[f.ID] = sayFieldSlip.With("field", f.Label, "slip", doubt)
			continue
		}
		if twin := r.twinSerial(f, part, text); twin != "" {
			r.slips[f.ID] = saySameSerial.With("other", bank.Name(twin))
			continue
		}
		for _, p := range parts {
			c.part = p
			changes = append(changes, c)
		}
	}
	if len(r.slips) > 0 {
		r.focus = "slips"
		return
	}
	entries := len(changes) / len(parts)
	changes = append(changes, r.usesMeter(part)...)
	if len(changes) == 0 {
		ctx.Navigate(way)
		return
	}
	title := r.partTitle(part)
	r.keep(changes, r.formDraftKey(of), func(ctx app.Context, kept bool) {
		if !kept {
			return
		}
		says := say.Phrase{Key: "screen.form.kept", English: "{part}: {n} entries kept."}
		if entries == 1 {
			says = say.Phrase{Key: "screen.form.kept-one", English: "{part}: {n} entry kept."}
		}
		r.notice = notice{says: says.With("part", title, "n", itoa(entries))}
		ctx.Navigate(way)
	})
}

var (
	saySameSerial = say.Phrase{Key: "screen.form.same-serial", English: "The same serial number stands on {other}. Read the label again."}
	sayFieldSlip  = say.Phrase{Key: "screen.form.slip", English: "{field}: {slip}"}
	sayBadTime    = say.Phrase{Key: "screen.form.time", English: "Enter the day and the time."}
	sayFuture     = say.Phrase{Key: "screen.form.future", English: "That lies in the future. Check the day, and the clock of this phone."}
	sayRangeSlip  = say.Phrase{Key: "screen.form.range", English: "{value} is outside {low} to {high}. Is a point missing?"}
)

// entryOf turns the text of an input into an entry, or says what is wrong.
func (r *root) entryOf(f checks.Field, text string) (change, say.Line) {
	c := change{field: f.ID}
	slip := func(l say.Line) (change, say.Line) {
		return c, sayFieldSlip.With("field", f.Label, "slip", l)
	}
	switch f.Kind {
	case checks.Number:
		n, bad := unit.Parse(text, f.Entry(), f.Signed)
		if bad != nil {
			return slip(bad.Line)
		}
		if outside(f, n.Value) {
			return slip(sayRangeSlip.With("value", figure.Typed(n), "low", figure.Exact(f.Low, f.Entry()), "high", figure.Exact(f.High, f.Entry())))
		}
		m, _ := r.meterTyped(f, n)
		c.value = job.Value{Kind: job.KindQuantity, Number: n.Digits, Unit: string(n.Unit), Meter: m, Source: "typed"}
	case checks.Choice:
		c.value = job.Value{Kind: job.KindChoice, Choice: text}
	case checks.Several:
		c.value = job.Value{Kind: job.KindChoices, Choices: ticked(text)}
	case checks.Time:
		if f.ID == "due" {
			if _, err := time.Parse(time.DateOnly, text); err != nil {
				return slip(sayBadTime.With())
			}
			c.value = job.Value{Kind: job.KindTime, Time: text}
			break
		}
		t, err := time.ParseInLocation("2006-01-02T15:04", text, now().Location())
		if err != nil {
			return slip(sayBadTime.With())
		}
		if t.After(now().Add(2 * time.Minute)) {
			return slip(sayFuture.With())
		}
		c.value = job.Value{Kind: job.KindTime, Time: t.Format(time.RFC3339)}
	case checks.Personal:
		c.personal = text
	default:
		if f.ID == "size" {
			if _, bad := conductor.Parse(text, r.text["standard"]); bad != nil {
				return slip(bad.Line)
			}
		}
		if f.ID == "step" || f.ID == "range" {
			if bad := r.meterText(f, text); !bad.Empty() {
				return slip(bad)
			}
		}
		c.value = job.Value{Kind: job.KindText, Text: text}
	}
	return c, say.Line{}
}

// twinSerial finds another block that has the same serial number already.
func (r *root) twinSerial(f checks.Field, part, text string) string {
	if f.ID != "serial" {
		return ""
	}
	for _, b := range r.job.facts.Layout().Blocks() {
		if b != part && r.job.inputText(b, f) == text {
			return b
		}
	}
	return ""
}
