package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// useOf is the entry that names the meter of this job for a quantity.
var useOf = map[unit.Symbol]string{"V": "use-volts", "A": "use-amperes", "C": "use-celsius", "N.m": "use-torque"}

// smallUse are the entries that name the meter of this job for a small range.
var smallUse = map[unit.Symbol]string{"mV": "use-millivolts", "mA": "use-milliamperes"}

// useField is the entry that names the meter of this job for a reading: by the
// quantity, and for millivolts and milliamperes by the range. "" when no meter is asked for.
func useField(f checks.Field) string {
	if f.Setup && !f.Round {
		return ""
	}
	if small := smallUse[f.Entry()]; small != "" {
		return small
	}
	return useOf[f.Unit]
}

// meterFor gives the meter of this job for a reading and its smallest step in
// the base unit; 0 when the step is not known.
func (r *root) meterFor(f checks.Field) (id string, step float64) {
	return r.meterTyped(f, f.Entry())
}

// meterTyped is [root.meterFor] for a figure that was typed in another unit than
// the field offers: who types millivolts read them on the millivolt range.
func (r *root) meterTyped(f checks.Field, typed unit.Symbol) (id string, step float64) {
	use := useField(f)
	if use == "" {
		return "", 0
	}
	if small := smallUse[typed]; small != "" {
		use = small
	}
	e, s := r.job.state.Lookup(r.job.visit, "bank", use, true)
	if s != job.One || e.Value.Text == "" {
		return "", 0
	}
	id = e.Value.Text
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
	now, _ := r.meterFor(f)
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

// meterName says a meter by its model, else by its number.
func (r *root) meterName(id string) string {
	if id == "" {
		return r.t("meter.none", "a meter without a sheet; the usual uncertainty is assumed")
	}
	if e, s := r.job.state.Lookup(r.job.visit, id, "model", true); s == job.One && e.Value.Text != "" {
		return e.Value.Text
	}
	return r.name(id)
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
