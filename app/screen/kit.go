package screen

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/job"
)

// What goes into a new job from the register is ticked on its form: the kit.

// kitBox lists what the register can give to a new job.
func (r *root) kitBox() []app.UI {
	var rows []app.UI
	for _, k := range registeredKinds {
		for _, id := range r.inRegister(k) {
			if id == r.prefs.Person {
				continue // stands on the form by name
			}
			rows = append(rows, app.Label().Body(
				app.Input().Type("checkbox").ID("kit-"+id).Value(id).DataSet("sync", "kit").OnChange(r.onTick),
				app.Text(r.kitLabel(id))))
		}
	}
	if len(rows) == 0 {
		return nil
	}
	out := []app.UI{app.FieldSet().Body(app.Legend().Class("lab").Text(r.t("kit", "From the register into this job")), app.Div().Class("pick col").Body(rows...))}
	if n := len(r.register.houseLimits()); n > 0 {
		out = append(out, note(r.t("kit.house", "The firm's own limits ({n}) go into every new job.", "n", itoa(n))))
	}
	return out
}

// kitLabel says what a thing is where its name does not, and of a meter that its
// calibration is past.
func (r *root) kitLabel(id string) string {
	label := r.label(id)
	if k, _ := registeredAs(id); k.more == "" {
		label = r.t("ref.name", "{part}, {what}", "part", label, "what", lowerFirst(r.say(k.name.With())))
	}
	if due, past := r.pastDue(id); past {
		return r.t("kit.due", "{what}; calibration was due on {day}", "what", label, "day", due)
	}
	return label
}

// pastDue reports whether the calibration of a meter of the register was due
// before today, and the day.
func (r *root) pastDue(id string) (due string, past bool) {
	e, standing := r.register.state.Lookup(r.register.visit, id, "due", true)
	if standing != job.One {
		return "", false
	}
	return e.Value.Time, e.Value.Time < now().Format(time.DateOnly)
}

// offerKit ticks what is plain: the only block sheet, and for each quantity the
// meter that was used last or the only one, unless its calibration is past. A
// machine or a person belongs to a site and is never ticked beforehand.
func (r *root) offerKit() {
	if r.register == nil || r.route().screen != "new" || r.text["kit"] != "" {
		return
	}
	var ids []string
	last := ticked(r.prefs.Kit)
	for _, k := range registeredKinds {
		all := r.inRegister(k)
		switch k.kind {
		case bank.KindSheet:
			if len(all) == 1 {
				ids = append(ids, all[0])
			}
		case bank.KindMeter, bank.KindWrench:
			for _, id := range all {
				alike := 0
				for _, other := range all {
					if r.servesAs(other) == r.servesAs(id) {
						alike++
					}
				}
				if _, past := r.pastDue(id); !past && (alike == 1 || slices.Contains(last, id)) {
					ids = append(ids, id)
				}
			}
		}
	}
	slices.Sort(ids)
	r.text["kit"] = tickText(ids)
}

// servesAs is what a meter of the register is used for in a job.
func (r *root) servesAs(id string) string {
	f, _ := checks.FieldOfKind("range", bank.KindMeter)
	return useOfMeter(id, r.register.inputText(id, measuresField()), r.register.inputText(id, f))
}

// slots are the numbers under which a job asks for its meters.
var slots = map[string]string{"use-volts": "m1", "use-amperes": "m2", "use-celsius": "m3", "use-millivolts": "m4", "use-torque": "w1"}

// kitChanges copies what is ticked. A kind that is ticked takes the place of
// what the job began with of that kind.
func (r *root) kitChanges(begin []change) []change {
	taken := map[string]bool{"p1": true, "p2": true} // p2 is the second person of a test, named on the day
	free := func(prefix string, from int) string {
		for n := from; ; n++ {
			if id := prefix + strconv.Itoa(n); !taken[id] {
				return id
			}
		}
	}
	var out []change
	served := map[string]bool{}
	cleared, meters := map[bank.Kind]bool{}, []string(nil)
	for _, id := range ticked(r.text["kit"]) {
		k, ok := registeredAs(id)
		if !ok || r.register == nil {
			continue
		}
		to, use := free(k.prefix, 1), ""
		switch k.kind {
		case bank.KindMeter, bank.KindWrench:
			meters, use = append(meters, id), r.servesAs(id)
			if to = slots[use]; to == "" || taken[to] {
				to = free(k.prefix, len(slots))
			}
			if served[use] { // a further one, or another range of it
				use = ""
			}
			served[use] = true
			cleared[bank.KindMeter], cleared[bank.KindWrench] = true, true
		case bank.KindPerson:
			to = free("p", 4)
			if f, _ := checks.FieldOfKind("role", k.kind); r.register.inputText(id, f) == checks.RoleOwner && !taken[owner] {
				to = owner
			}
		default:
			cleared[k.kind] = true
		}
		taken[to] = true
		out = append(out, r.register.copied(id, to)...)
		if use != "" {
			out = append(out, change{part: "bank", field: use, value: job.Value{Kind: job.KindText, Text: to}})
		}
	}
	if len(meters) > 0 {
		r.prefs.Kit = tickText(meters)
		r.prefs.save()
	}
	for _, c := range begin {
		kind, _ := bank.PartKind(c.part)
		if !cleared[kind] && !(cleared[bank.KindMeter] && strings.HasPrefix(c.field, "use-")) && !(cleared[bank.KindSheet] && c.field == "sheet") {
			out = append(out, c)
		}
	}
	return out
}

// inPlan reports whether an entry belongs to the plan of a bank: sheets, plates,
// cables and, unless they are left out, meters. Nothing that was read, no site,
// nobody's name, nothing that is not in the layout.
func inPlan(c change, l bank.Layout, meters bool) bool {
	kind, isPart := bank.PartKind(c.part)
	f, known := checks.FieldOf(c.field, c.part)
	if !isPart || !known || !f.Setup || f.Stage != checks.Before || f.Kind == checks.Personal || f.Kind == checks.Drawing || !bank.Exists(l, c.part) {
		return false
	}
	switch kind {
	case bank.KindMeter, bank.KindWrench:
		return meters
	case bank.KindBank:
		return meters && strings.HasPrefix(c.field, "use-")
	case bank.KindSite, bank.KindPerson, bank.KindHouse:
		return false
	}
	return c.value.Kind != job.KindSkip
}

// planned leaves of some entries those of a plan.
func planned(entries []change, l bank.Layout, meters bool) (out []change) {
	for _, c := range entries {
		if inPlan(c, l, meters) {
			out = append(out, c)
		}
	}
	return out
}

// planIn gives the entries of a record, of a template those under its prefix.
func planIn(b *opened, prefix string) (out []change) {
	taken := map[job.Key]bool{}
	for _, k := range b.keysUpTo(prefix) {
		k.Visit = b.visit
		if e, standing := b.state.Lookup(b.visit, k.Part, k.Field, true); standing == job.One && !taken[k] {
			out = append(out, change{part: strings.TrimPrefix(k.Part, prefix), field: k.Field, value: e.Value})
		}
		taken[k] = true
	}
	return out
}

// layoutIn finds the layout among entries; false when none holds.
func layoutIn(entries []change) (l bank.Layout, ok bool) {
	for _, c := range entries {
		if c.part == "bank" && c.field == "layout" {
			return l, json.Unmarshal(c.value.Layout, &l) == nil && l.Validate() == nil
		}
	}
	return l, false
}
