package screen

import (
	"slices"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// The register holds what is entered once and used in every job: meters, block
// sheets, machines, people, the firm's own limits, templates. It is a record
// like a job, of the kind register, and never on the list of jobs. A job copies
// from it and never refers to it.

// registerID is the same on every phone, so that registers which were made
// apart fold into one. A UUID of version 8 (RFC 9562, section 5.8): "lugmar",
// the version, the variant, "regist".
const registerID = "6c75676d-6172-8000-8000-726567697374"

func (j *opened) isRegister() bool { return j.id == registerID }

// registered is one kind of thing that the register holds.
type registered struct {
	kind   bank.Kind
	prefix string // of the ids; the numbers are drawn at random, see freshNumber
	known  string // the entry by which it is known on site
	more   string // an entry that tells things of one name apart
	name   say.Phrase
	title  say.Phrase
	add    say.Phrase
}

var registeredKinds = []registered{
	{bank.KindMeter, "m", "model", "measures", say.Phrase{Key: "screen.kind.meter", English: "Meter"}, say.Phrase{Key: "screen.register.meters", English: "Meters"}, addMeter},
	{bank.KindWrench, "w", "model", "", say.Phrase{Key: "screen.kind.wrench", English: "Torque wrench"}, say.Phrase{Key: "screen.register.wrenches", English: "Torque wrenches"}, addWrench},
	{bank.KindSheet, "sheet", "model", "", say.Phrase{Key: "screen.kind.sheet", English: "Block sheet"}, say.Phrase{Key: "screen.register.sheets", English: "Block sheets"}, addSheet},
	{bank.KindPerson, "p", "name", "role", say.Phrase{Key: "screen.kind.person", English: "Person"}, say.Phrase{Key: "screen.register.people", English: "People"}, say.Phrase{Key: "screen.add.person", English: "Add a person"}},
	{bank.KindCharger, "charger", "model", "", say.Phrase{Key: "screen.kind.charger", English: "Charger"}, say.Phrase{Key: "screen.register.chargers", English: "Chargers"}, say.Phrase{Key: "screen.add.charger", English: "Add a charger"}},
	{bank.KindInverter, "inverter", "model", "", say.Phrase{Key: "screen.kind.inverter", English: "Inverter"}, say.Phrase{Key: "screen.register.inverters", English: "Inverters"}, say.Phrase{Key: "screen.add.inverter", English: "Add an inverter"}},
	{bank.KindCable, "cable", "size", "", say.Phrase{Key: "screen.kind.cable", English: "Cable"}, say.Phrase{Key: "screen.register.cables", English: "Cables"}, addCable},
}

// registeredAs finds the kind of the register to which a part of a job belongs.
func registeredAs(part string) (registered, bool) {
	kind, _ := bank.PartKind(part)
	for _, k := range registeredKinds {
		if k.kind == kind {
			return k, true
		}
	}
	return registered{}, false
}

// loadRegister reads the register beside the jobs.
func (r *root) loadRegister(then func(app.Context)) {
	r.async(func() {
		j, err := r.load(registerID)
		r.dispatch(func(ctx app.Context) {
			if err != nil {
				app.Logf("lugmark: register: %v", err)
			} else {
				r.register = j
				if r.prefs.Name != "" && r.prefs.Person == "" { // from before the phone remembered who that is
					r.heldBy(r.prefs.Name)
					j.me = r.prefs.Person
				}
				if r.job != nil && r.job.isRegister() && !r.busy {
					r.job = j
				}
			}
			if then != nil {
				then(ctx)
			}
		})
	})
}

// inRegister lists what the register holds of a kind, by what it is known by.
func (r *root) inRegister(k registered) []string {
	if r.register == nil {
		return nil
	}
	ids := r.register.partsOf(k.prefix)
	for i, id := range ids {
		ids[i] = r.knownBy(r.register, id) + "\n" + id
	}
	slices.Sort(ids)
	for i, known := range ids {
		ids[i] = known[strings.LastIndex(known, "\n")+1:]
	}
	return ids
}

// knownBy says a part by what it is known by on site: a cable by its size, a
// person by name, the others by model. While that is not entered it is known by
// its number, or, where that was drawn, by what it is.
func (r *root) knownBy(j *opened, id string) string {
	k, ok := registeredAs(id)
	if f, has := checks.FieldOf(k.known, id); ok && has {
		if text := j.inputText(id, f); text != "" {
			return text
		}
	}
	if ok && isDrawn(id) {
		return r.say(k.name.With())
	}
	return r.name(id)
}

// label is a thing of the register on a button or in a row: a meter with what
// it measures, a person with the role.
func (r *root) label(id string) string {
	known := r.knownBy(r.register, id)
	k, _ := registeredAs(id)
	f, ok := checks.FieldOf(k.more, id)
	if !ok {
		return known
	}
	code := r.register.inputText(id, f)
	for _, o := range f.Options {
		if o.Code == code {
			return r.t("ref.name", "{part}, {what}", "part", known, "what", lowerFirst(r.say(o.Label.With())))
		}
	}
	return known
}

// personNamed finds the person of the register with a name; "" when none has it.
func (r *root) personNamed(name string) string {
	if r.register == nil {
		return ""
	}
	for _, p := range r.register.partsOf("p") {
		if r.register.text(p, "name") == name {
			return p
		}
	}
	return ""
}

// beginRegister stamps what the first entry of a register stands on: what the
// record is, and who writes in it.
func (r *root) beginRegister(j *opened, w *job.Writer, at func() job.Stamp, changes []change) (stamped []job.Stamped, blobs []job.Blob, err error) {
	if j.state.Kind() == "" {
		e, err := w.Start(at(), job.KindRegister)
		if err != nil {
			return nil, nil, err
		}
		stamped = append(stamped, e)
	}
	name := j.key(j.me, "name")
	named := j.me != r.prefs.Person || r.prefs.Name == "" || j.has(finding.Key{Part: name.Part, Field: name.Field})
	for _, c := range changes {
		named = named || c.part == name.Part && c.field == name.Field
	}
	if !named {
		e, blob, err := w.SetPersonal(at(), name, r.prefs.Name, salt(), nil)
		if err != nil {
			return nil, nil, err
		}
		stamped, blobs = append(stamped, e), append(blobs, blob)
	}
	return stamped, blobs, nil
}

// newItem is the address at which one more thing is entered.
func (r *root) newItem(k registered) string {
	n := freshNumber(func(n string) bool { return slices.Contains(r.register.partsOf(k.prefix), k.prefix+n) })
	return r.way(r.formsOf(k.prefix+n, checks.Before)[0])
}

// wayIn is the address of a thing of the register.
func (r *root) wayIn(words ...string) string { return "/register/" + strings.Join(words, "/") }

// isDrawn reports whether the number of a part was drawn at random.
func isDrawn(part string) bool {
	n, err := strconv.Atoi(part[len(strings.TrimRight(part, "0123456789")):])
	return err == nil && n >= lowestDrawn
}

// viewRegister lists what the register holds.
func (r *root) viewRegister() page {
	main := []app.UI{app.P().Text(r.t("register.what", "What is entered here once is offered in every job and copied into it. A job never changes when the register does."))}
	for _, k := range registeredKinds {
		main = append(main, r.items(k.title, r.inRegister(k), r.label)...)
		main = append(main, r.button("btn", r.say(k.add.With()), func(ctx app.Context) { ctx.Navigate(r.newItem(k)) }))
	}
	main = append(main, r.houseBox()...)
	if ids := r.job.templates(); len(ids) > 0 {
		main = append(main, r.items(say.Phrase{Key: "screen.register.templates", English: "Templates"}, ids, r.job.templateName)...)
	}
	main = append(main, app.H2().Text(r.t("register.copy", "Safe copy")),
		note(r.t("register.copy-what", "The safe copy of all jobs holds the register too. Alone it can go to the phone of a colleague: “Open a job file” joins the two.")),
		r.button("btn", r.t("register.save", "Save the register (.txt)"), func(app.Context) { r.saveRecords("register", true, registerID) }))
	return page{title: r.t("register", "Register"), back: "/menu", main: main}
}

// items are things of the register under their title.
func (r *root) items(title say.Phrase, ids []string, label func(string) string) []app.UI {
	out := []app.UI{app.H2().Text(r.say(title.With()))}
	var rows []app.UI
	for _, id := range ids {
		rows = append(rows, r.itemRow(id, label(id)))
	}
	if len(rows) > 0 {
		out = append(out, app.Ul().Class("rows").Body(rows...))
	}
	return out
}

// note is a small sentence.
func note(text string) app.UI { return app.P().Class("note").Text(text) }

// folded is what opens under its title.
func folded(title string, body ...app.UI) app.UI {
	return app.Details().Class("why").Body(app.Summary().Text(title), app.Div().Class("ovr").Body(body...))
}

func (r *root) itemRow(id, label string) app.UI {
	m := app.UI(app.Span())
	if len(r.conflicts(id)) > 0 {
		m = mark("unk")
	}
	return row(r.wayIn(id), m, app.B().Text(label), "")
}

// viewItem is one thing of the register: its forms, what it holds, and the way
// out of the register.
func (r *root) viewItem(id string) page {
	k, known := registeredAs(id)
	if r.job.templateName(id) != "" {
		return r.viewTemplate(id)
	}
	if !known {
		return r.viewRegister()
	}
	var main []app.UI
	for _, c := range r.conflicts(id) {
		main = append(main, r.conflict(c))
	}
	var rows []app.UI
	for _, f := range r.formsOf(id, checks.Before) {
		rows = append(rows, r.formRow(f, f.stage))
	}
	main = append(main, app.Ul().Class("rows").Body(rows...))
	if slices.Contains(r.inRegister(k), id) {
		main = append(main, r.takeOut(r.label(id), func(part string) bool { return part == id }))
	}
	return page{title: r.partTitle(id), sub: r.say(k.title.With()), back: r.wayIn(), main: main}
}

// takeOut takes a thing out of the register; the record keeps it.
func (r *root) takeOut(label string, of func(part string) bool) app.UI {
	return folded(r.t("register.out", "Take it out of the register"),
		note(r.t("register.out-what", "It is no longer offered. The jobs that copied it keep it, and the record of the register keeps what it was.")),
		r.button("btn", r.t("register.out-now", "Take out: {what}", "what", label), func(app.Context) {
			var gone []string
			for _, k := range r.job.state.Keys() {
				if of(k.Part) {
					gone = append(gone, r.job.state.Seen(k)...)
				}
			}
			r.act1(r.job, "", nil, func(w *job.Writer, at func() job.Stamp) (stamped []job.Stamped, _ []job.Blob, err error) {
				for left := gone; len(left) > 0 && err == nil; {
					n := min(len(left), job.MaxSup)
					var e job.Stamped
					e, err = w.Void(at(), job.Key{}, "taken-out", job.Ref{}, left[:n])
					stamped, left = append(stamped, e), left[n:]
				}
				if err != nil {
					return nil, nil, err
				}
				return stamped, nil, nil
			}, func(ctx app.Context, kept bool) {
				if kept {
					r.notice = notice{says: say.Phrase{Key: "screen.register.gone", English: "{what} is out of the register."}.With("what", label)}
					ctx.Navigate(r.wayIn())
				}
			})
		}))
}
