package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// useField is the entry that names the meter of this job for a reading: by the
// quantity, and for millivolts, milliamperes, milliohms and megohms by the range.
// "" when no meter is asked for.
func useField(f checks.Field) string {
	if !checks.Measured(f) {
		return ""
	}
	use, _ := checks.UseFor(f.Entry())
	return use.ID()
}

// meterFor gives the meter of this job for a reading, "" while none is named.
func (r *root) meterFor(f checks.Field) string {
	return r.job.inputText("bank", fieldOf(useField(f)))
}

// fieldOf is an entry about the bank; one without a name for no id.
func fieldOf(id string) checks.Field {
	if f, ok := checks.FieldOf(id, "bank"); ok {
		return f
	}
	return checks.Field{Spec: &checks.Spec{}}
}

// meterTyped gives the meter, and of several ranges the one, that a figure was
// read with, and its smallest step in the base unit; 0 when the step is not
// known. Who types millivolts read them on the millivolt range, whatever unit
// the field offers.
func (r *root) meterTyped(f checks.Field, n unit.Number) (id string, step float64) {
	if !checks.Measured(f) {
		return "", 0
	}
	use, _ := checks.UseFor(n.Unit)
	if id = r.job.inputText("bank", fieldOf(use.ID())); id == "" {
		return "", 0
	}
	id = r.job.facts.RangeFor(id, f.Unit, n.Value, n.Step)
	if e, s := r.job.state.Lookup(r.job.visit, id, "step", true); s == job.One {
		if n, slip := unit.Parse(e.Value.Text, f.Unit, false); slip == nil {
			step = n.Value
		}
	}
	return id, step
}

// metersOf lists the meters with a sheet that measure a quantity.
func (r *root) metersOf(q unit.Symbol) []string {
	var out []string
	for _, id := range append(r.job.partsOf("m"), r.job.partsOf("w")...) {
		if r.job.inputText(id, measuresField()) == string(q) {
			out = append(out, id)
		}
	}
	return out
}

func measuresField() checks.Field {
	f, _ := checks.FieldOfKind("measures", bank.KindMeter)
	return f
}

// meterChoice names the meter that the next readings are taken with, and
// changes it where there are several.
func (r *root) meterChoice() app.UI {
	f := r.read.field
	use := useField(f)
	if use == "" {
		return app.Div()
	}
	now := r.meterFor(f)
	body := []app.UI{app.P().Class("note").Text(r.t("meter.now", "Read with: {meter}", "meter", r.meterName(now)))}
	for _, id := range r.metersOf(f.Unit) {
		if id == now {
			continue
		}
		body = append(body, r.button("btn", r.t("meter.take", "Read with {meter} from now on", "meter", r.meterName(id)), func(ctx app.Context) {
			r.keep([]change{{part: "bank", field: use, value: job.Value{Kind: job.KindText, Text: id}}}, "", func(_ app.Context, kept bool) {
				if kept {
					r.notice = notice{says: say.Phrase{Key: "screen.meter.taken", English: "From now on: {meter}."}.With("meter", r.meterName(id))}
				}
			})
		}))
	}
	return app.Div().Class("cant").Body(body...)
}

// meterName says a meter by its model, else by its number, and which of several
// ranges it is.
func (r *root) meterName(id string) string {
	if id == "" {
		return r.t("meter.none", "a meter without a sheet; the usual uncertainty is assumed")
	}
	model := r.job.setupText(id, "model")
	if model == "" {
		return r.name(id)
	}
	top := r.job.setupText(id, "range")
	if top != "" && len(r.job.facts.RangesOf(id, unit.Symbol(r.job.setupText(id, "measures")))) > 1 {
		return r.t("meter.range", "{model}, up to {range}", "model", model, "range", top)
	}
	return model
}

// setupText is a text of the setup, "" while there is none.
func (j *opened) setupText(part, field string) string {
	e, s := j.state.Lookup(j.visit, part, field, true)
	if s != job.One {
		return ""
	}
	return e.Value.Text
}

// usesMeter makes a meter whose sheet is entered the meter of this job for
// what it measures, unless one is chosen already.
func (r *root) usesMeter(part string) []change {
	if r.job.isRegister() {
		return nil
	}
	use := useOfMeter(part, r.text["measures"], r.text["range"])
	if use == "" || r.job.has(key("bank", use)) {
		return nil
	}
	return []change{{part: "bank", field: use, value: job.Value{Kind: job.KindText, Text: part}}}
}
