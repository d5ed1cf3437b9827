package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/figure"
	"lugmark/core/unit"
)

// jointAmps says how much current the millivolt meter of this job needs for a
// joint, before the first drop is read; "" while the steps of that meter are not
// known.
func (r *root) jointAmps() string {
	id := r.job.setupText("bank", "use-millivolts")
	n, slip := unit.Parse(r.job.setupText(id, "step"), "V", false)
	if id == "" || slip != nil || n.Value <= 0 {
		return ""
	}
	least, ok := checks.LeastJointAmps(n.Value)
	said := []any{"meter", r.meterName(id), "step", figure.Typed(n), "least", figure.Exact(float64(least), "A")}
	if !ok {
		return r.t("joint.coarse", "{meter} shows steps of {step}. A joint needs a meter that shows 0.1 mV or finer: take another before you read the first drop.", said...)
	}
	return r.t("joint.least", "{meter} shows steps of {step}: let {least} or more flow, and hold it steady while all drops are read.", said...)
}

// beforeDrop asks for the current before the drops of the joints are read; nil
// when it is known, or when something else is read.
func (r *root) beforeDrop() app.UI {
	if id := r.read.field.ID; id != "drop" && id != "drop-zero" {
		return nil
	}
	at := key(bank.OwnerOf(r.read.part), "drop-current")
	if r.job.facts.Layout().Parallel == 1 && !r.job.has(at) {
		at.Part = "bank"
	}
	if r.job.has(at) {
		return nil
	}
	says := []app.UI{app.P().Body(app.B().Text(r.t("joint.first", "First the current. Too little of it and every drop is read twice.")))}
	if least := r.jointAmps(); least != "" {
		says = append(says, app.P().Text(least))
	}
	return r.ruled("todo", append(says, goLink("btn", r.t("joint.enter", "Enter the current"), r.wayTo(at)))...)
}
