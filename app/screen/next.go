package screen

import (
	"slices"
	"strings"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/finding"
)

// step is the one next step of a job: what, in which words, and where.
type step struct{ what, how, way string }

// nextStep finds what to do next: the sheet that every limit comes from, the
// meter that every reading needs, then the first check that is still to do.
func (r *root) nextStep() step {
	before := string(checks.Before)
	if x, now := r.job.facts.ChargerOff(); now { // nothing comes before a current that must stop
		return step{r.t("next.charger-off", "Charger off"), r.say(x.Reason()), r.to("charge")}
	}
	for _, h := range r.job.breaches() { // then what must be opened
		return step{r.t("next.open-it", "Open it again"), r.openFirst(h), r.to("hold", h.Gate, h.Part)}
	}
	switch {
	case !r.job.has(key("sheet1", "capacity")):
		return step{r.t("next.sheet", "Block sheet"), r.t("next.sheet-how", "The maker's limits, once for all blocks"), r.to("enter", "sheet1", before)}
	case !r.job.has(key("m1", "measures")):
		return step{r.t("next.meter", "Your voltmeter"), r.t("next.meter-how", "Its accuracy decides what a reading proves"), r.to("enter", "m1", before)}
	}
	x, ok := r.job.nextFinding()
	for _, bad := range r.job.findings {
		if bad.Verdict() != finding.Fail || ok && slices.Index(checks.Stages, stageOf(bad)) > slices.Index(checks.Stages, stageOf(x)) {
			continue
		}
		switch bad.Check() {
		case "hazards-read": // somebody cannot work under them
			return step{r.say(stageOf(bad).Title().With()), r.say(bad.Next()), r.to("stage", string(stageOf(bad)))}
		case "polarity-steps", "bank-total": // nothing is built on a block that is in backwards
			return step{r.about(bad), r.say(bad.Next()), r.whyWay(bad)}
		}
	}
	if h, open := r.job.linkLeftOff(); open && (!ok || slices.Index(checks.Stages, stageOf(x)) > slices.Index(checks.Stages, checks.Wire)) {
		return r.stepTo(h)
	}
	if !ok {
		return step{r.t("next.done", "Nothing is left to do"), r.t("next.hand-over", "Look at the open points, then hand over."), r.to("handover")}
	}
	if x.Check() == "hazards-read" {
		s := stageOf(x)
		return step{r.say(s.Title().With()), r.t("next.cautions", "Read the cautions"), r.to("stage", string(s))}
	}
	k, known := r.job.wants(x)
	if y, first := r.job.stepsBefore(k); known && first {
		if y.Verdict() == finding.Fail {
			return step{r.about(y), r.say(y.Next()), r.whyWay(y)}
		}
		x = y
		k, known = r.job.wants(x)
	}
	if h, ok := r.job.holdBefore(k); known && ok {
		return r.stepTo(h)
	}
	if !known {
		return step{r.about(x), r.say(x.Next()), r.to("stage", string(stageOf(x)))}
	}
	if x.Next().Key == "charged-full.warm" { // the block is known to be too cold or too hot
		return step{r.about(x), r.say(x.Next()), r.wayTo(k)}
	}
	return step{r.about(x), r.entryName(k), r.wayTo(k)}
}

// stepTo leads to a link that is still open.
func (r *root) stepTo(h checks.Hold) step {
	what := r.t("next.hold", "What this link still needs")
	if !h.Closes() {
		return step{r.t("next.before-charge", "Before the charger comes on"), r.say(h.Keep), r.to("hold", h.Gate, h.Part)}
	}
	if h.Released() {
		what = r.t("next.close", "Close a link")
	}
	return step{what, r.name(h.Part), r.to("hold", h.Gate, h.Part)}
}

// linkLeftOff finds a link of the drawing that nobody entered as closed: the
// bank is not whole before it is.
func (j *opened) linkLeftOff() (checks.Hold, bool) {
	for _, h := range j.holds() {
		if (h.Gate == "series" || h.Gate == "parallel") && !h.Done && !j.isClosed(h.Part) {
			return h, true
		}
	}
	return checks.Hold{}, false
}

// entryName says an entry in one line: "Resting voltage, block 3".
func (r *root) entryName(k finding.Key) string {
	label := r.say(r.labelOf(k.Field, k.Part))
	if kind, _ := bank.PartKind(k.Part); kind == bank.KindBank || kind == bank.KindStage {
		return label
	}
	return r.t("next.entry", "{field}, {part}", "field", label, "part", lowerFirst(r.name(k.Part)))
}

// stepsBefore gives the finding that comes before the torque of a bolt: the
// steps of its string, as long as they are to do or name a block in backwards.
// A string is not bolted fast before its polarity is known.
func (j *opened) stepsBefore(k finding.Key) (finding.Finding, bool) {
	if _, open := j.linkAt(k); open || k.Field != "torque-set" {
		return finding.Finding{}, false
	}
	block := bank.OwnerOf(k.Part)
	for _, x := range j.findings {
		if x.Check() == "polarity-steps" && slices.Contains(j.facts.BlocksOf(x.Part()), block) && (x.Verdict() == finding.ToDo || x.Verdict() == finding.Fail) {
			return x, true
		}
	}
	return finding.Finding{}, false
}

// linkAt gives the hold point of an open link whose lug goes under this bolt.
func (j *opened) linkAt(k finding.Key) (checks.Hold, bool) {
	if k.Field != "torque-set" {
		return checks.Hold{}, false
	}
	for _, h := range j.holds() {
		link, ok := j.facts.Layout().Link(h.Part)
		if ok && (h.Gate == "series" || h.Gate == "parallel") && (link.From == k.Part || link.To == k.Part) && !h.Done && !j.isClosed(h.Part) {
			return h, true
		}
	}
	return checks.Hold{}, false
}

// chargeHeld gives the hold point that keeps a charger off from what only a
// running charge shows; the heaters' current may be written down once heating
// is released.
func (j *opened) chargeHeld(field string) (checks.Hold, bool) {
	if !checks.WhileCharging(field) {
		return checks.Hold{}, false
	}
	charge, _ := j.facts.HoldFor("charge", "bank")
	heat, cold := j.facts.HoldFor("heat", "bank")
	switch {
	case charge.Released() || charge.Done || cold && heat.Released() && strings.HasPrefix(field, "sample-"):
		return checks.Hold{}, false
	case cold && !heat.Released():
		return heat, true
	}
	return charge, true
}

// waits reports whether a finding is not asked yet: what the charger holds at
// the posts is read late in a charge that runs, whatever its stage.
func (j *opened) waits(x finding.Finding) bool {
	l, ok := x.Limit()
	if !ok || l.Name != checks.AbsorptionMeasured {
		return false
	}
	if _, held := j.chargeHeld("absorption-at-posts"); held {
		return true
	}
	return len(j.state.KeysFrom(j.visit, "charge1.")) == 0
}

// holdBefore gives the hold point that must be passed before a reading makes
// sense: of a link, for the total or a step of a string across it, the total of
// a bank that is not whole, or the bolt it lands on; of the charge, for what
// only a charge shows.
func (j *opened) holdBefore(k finding.Key) (checks.Hold, bool) {
	if h, held := j.chargeHeld(k.Field); held {
		return h, true
	}
	if h, open := j.linkAt(k); open {
		return h, true
	}
	if k.Field != "total-voltage" && k.Field != "step-voltage" {
		return checks.Hold{}, false
	}
	if k.Part == "bank" { // a bank has a total once it is whole
		return j.linkLeftOff()
	}
	in := map[string]bool{}
	for _, b := range j.facts.BlocksOf(k.Part) {
		in[j.facts.Layout().StringOf(b)] = true
	}
	for _, h := range j.holds() {
		if h.Gate != "series" || h.Done || j.isClosed(h.Part) {
			continue
		}
		if link, ok := j.facts.Layout().Link(h.Part); ok && (in[link.Of] || link.Of == "bank") {
			return h, true
		}
	}
	return checks.Hold{}, false
}
