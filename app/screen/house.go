package screen

import (
	"bytes"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/checks/plain"
	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// House rules are limits that a firm sets for itself. They stand in the
// register under the part house, go into every new job, and there tighten what
// maker, standard and practice say; see checks.HouseLimits.

// houseFields lists every limit that a firm can set, named by its check.
func (r *root) houseFields() (out []checks.Field) {
	for _, h := range checks.HouseLimits {
		if f, ok := checks.FieldOfKind(h.Check+"."+h.Name, bank.KindHouse); ok {
			f.Label.English = r.titleOf(h.Check) + ": " + r.settingName(h.Name)
			if f.Unit == "s" {
				f.Hint = say.Phrase{Key: "hint.house-hours", English: "With its unit, such as 12 h."}
			}
			out = append(out, f)
		}
	}
	return out
}

// houseLimits lists the limits of the firm that a record holds.
func (j *opened) houseLimits() (fields []string) {
	for _, h := range checks.HouseLimits {
		if id := h.Check + "." + h.Name; j.has(finding.Key{Part: "house", Field: id}) {
			fields = append(fields, id)
		}
	}
	return fields
}

// houseRows says the firm's own limits that a job was begun with.
func (r *root) houseRows() []app.UI {
	set := r.job.houseLimits()
	if len(set) == 0 {
		return nil
	}
	var rows []app.UI
	for _, id := range set {
		check, name, _ := strings.Cut(id, ".")
		text := r.t("part.two", "two values")
		if e, standing := r.job.state.Lookup(r.job.visit, "house", id, true); standing == job.One {
			text = r.valueText(key("house", id), e.Value)
		}
		rows = append(rows, app.Li().Class("row").Body(app.Span(), app.Span().Text(r.titleOf(check)+": "+r.settingName(name)), app.B().Class("num").Text(text)))
	}
	return []app.UI{app.H2().Text(r.t("house.here", "The firm's own limits in this job")), app.Ul().Class("rows").Body(rows...)}
}

// houseBox is the house rules in the register.
func (r *root) houseBox() []app.UI {
	n := len(r.job.houseLimits())
	return []app.UI{app.H2().Text(r.t("house", "House rules")),
		note(r.t("house.what", "Limits that the firm sets for itself. They can only be stricter than a maker's or a standard's limit.")),
		app.Ul().Class("rows").Body(row(r.wayIn("enter", "house", string(checks.Before)), app.Span(), app.B().Text(r.t("house.limits", "The firm's own limits")), itoa(n))),
		r.fileButton("house-file", r.t("house.file", "Read house rules from a file"), r.takeHouse)}
}

var (
	sayNoHouse   = say.Phrase{Key: "screen.house.none", English: "There are no house rules in this file. Nothing was changed."}
	sayHouseRead = say.Phrase{Key: "screen.house.read", English: "{n} limits of the firm are in the register. They go into every new job."}
)

// takeHouse reads the house rules of a file into the register.
func (r *root) takeHouse(_ app.Context, raw []byte) {
	changes, faults := houseOf(raw)
	switch {
	case len(faults) > 0:
		r.notice = notice{says: sayFaults.With("line", itoa(faults[0].Line), "text", faults[0].Text, "n", itoa(len(faults))), bad: true}
	case len(changes) == 0:
		r.notice = notice{says: sayNoHouse.With(), bad: true}
	default:
		r.keepIn(r.register, changes, "", func(_ app.Context, kept bool) {
			if kept {
				r.notice = notice{says: sayHouseRead.With("n", itoa(len(changes)))}
			}
		})
	}
}

// houseOf reads the house rules of a plain job file, or of a file that holds
// nothing else.
func houseOf(raw []byte) (changes []change, faults []plain.Fault) {
	if !bytes.Contains(raw, []byte(`"lugmark"`)) {
		raw = append(append([]byte(`{"lugmark": "`+plain.Form+`", "house": `), raw...), '}')
	}
	file, faults := plain.Parse(raw)
	if len(faults) > 0 {
		return nil, faults
	}
	for _, e := range file.Entries {
		if e.Key.Part == "house" {
			changes = append(changes, change{part: "house", field: e.Key.Field, value: e.Value})
		}
	}
	return changes, nil
}
