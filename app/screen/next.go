package screen

import (
	"slices"

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
	for _, h := range r.job.breaches() { // nothing comes before what must be opened
		return step{r.t("next.open-it", "Open it again"), r.name(h.Part), r.to("hold", h.Gate, h.Part)}
	}
	switch {
	case !r.job.has(key("sheet1", "capacity")):
		return step{r.t("next.sheet", "Block sheet"), r.t("next.sheet-how", "The maker's limits, once for all blocks"), r.to("enter", "sheet1", before)}
	case !r.job.has(key("m1", "measures")):
		return step{r.t("next.meter", "Your voltmeter"), r.t("next.meter-how", "Its accuracy decides what a reading proves"), r.to("enter", "m1", before)}
	}
	x, ok := r.job.nextFinding()
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

// holdBefore gives the hold point of a link that must be closed before a
// reading makes sense: the total or a step of a string across an open link, or
// the total of a bank that is not whole.
func (j *opened) holdBefore(k finding.Key) (checks.Hold, bool) {
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
