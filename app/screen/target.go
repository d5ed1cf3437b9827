package screen

import (
	"slices"
	"strings"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
)

// has reports whether the record holds something for an entry.
func (j *opened) has(k finding.Key) bool {
	f, ok := checks.FieldOf(k.Field, k.Part)
	if !ok {
		return false
	}
	_, standing := j.state.Lookup(j.visit, k.Part, k.Field, f.Setup)
	return standing != job.Missing
}

// elsewhere names the field that a next action asks for where it is not one of
// those the finding rests on: a match in doubt is settled by another reading.
var elsewhere = map[string]string{
	"voltage-match.gap":         "gap-voltage",
	"voltage-match.full":        "full-voltage",
	"voltage-match.close-round": "rest-voltage-close",
	"gap-voltage.full":          "full-voltage",
	"match-route.charge":        "full-voltage",
	"charge-level.next":         "full-voltage",
	"charged-full.warm-each":    "full-temperature",
	"gap-voltage.totals":        "total-voltage",
}

// wants gives the entry that would carry a finding on: the one that its next
// action speaks of. Else, what is to do wants the first entry that is not
// there. What was judged wants its reading again, and only where no reading was
// taken the first entry that is not there.
func (j *opened) wants(x finding.Finding) (finding.Key, bool) {
	if field, ok := elsewhere[x.Next().Key]; ok {
		k := j.firstOf(field, x.Parts())
		if field == "full-voltage" && !j.facts.WarmAlone(k.Part) { // nobody is led to charge a block that may be cold
			k.Field = "full-temperature"
		}
		return k, true
	}
	var missing, reading, entered finding.Key
	for _, k := range x.Reads() {
		f, known := checks.FieldOf(k.Field, k.Part)
		switch {
		case !known:
		case !j.has(k):
			if missing == (finding.Key{}) {
				missing = k
			}
		case f.Round && f.Kind == checks.Number:
			reading = k
		default:
			entered = k
		}
	}
	order := []finding.Key{missing, reading, entered}
	if x.Verdict() != finding.ToDo {
		order = []finding.Key{reading, missing, entered}
	}
	for _, k := range order {
		if k != (finding.Key{}) {
			return k, true
		}
	}
	return finding.Key{}, false
}

// firstOf gives the first place of a field in a round that is not kept, among
// the parts first; the bank where the field has no round.
func (j *opened) firstOf(field string, parts []string) finding.Key {
	best := finding.Key{Part: "bank", Field: field}
	for _, kind := range []bank.Kind{bank.KindBlock, bank.KindString, bank.KindGroup} {
		f, ok := checks.FieldOfKind(field, kind)
		if !ok {
			continue
		}
		for _, p := range checks.RoundParts(j.facts.Layout(), f) {
			k := finding.Key{Part: p, Field: field}
			if best.Part == "bank" || j.has(best) && !j.has(k) {
				best = k
			}
			if slices.Contains(parts, p) && !j.has(k) {
				return k
			}
		}
		break
	}
	return best
}

// wayTo is the address where an entry is made.
func (r *root) wayTo(k finding.Key) string {
	f, ok := checks.FieldOf(k.Field, k.Part)
	switch {
	case !ok:
		return r.to("steps")
	case f.Kind == checks.Drawing:
		return r.to("layout")
	case k.Field == "hazards-read":
		return r.to("stage", k.Part[len("stage."):])
	case f.Round && f.Kind == checks.Number:
		return r.to("read", f.ID, k.Part)
	}
	to := form{part: k.Part, stage: f.Stage}
	to.topic = checks.TopicOf(to.kind(), f)
	return r.way(to)
}

// nextFinding is the first thing to do, in the order on site; at a return visit
// its own cautions come before all.
func (j *opened) nextFinding() (finding.Finding, bool) {
	if j.returning() {
		for _, x := range j.ofStage(checks.Return) {
			if x.Check() == "hazards-read" && x.Verdict() == finding.ToDo {
				return x, true
			}
		}
	}
	for _, s := range checks.Stages {
		for _, x := range j.findings {
			if x.Verdict() == finding.ToDo && stageOf(x) == s && !j.waits(x) {
				return x, true
			}
		}
	}
	return finding.Finding{}, false
}

// stageOf gives the stage of a finding: that of its check, and for cautions
// the stage they belong to.
func stageOf(x finding.Finding) checks.Stage {
	if s, ok := strings.CutPrefix(x.Part(), "stage."); ok {
		return checks.Stage(s)
	}
	for _, c := range checks.All {
		if c.ID == x.Check() {
			return c.Stage
		}
	}
	return checks.Before
}

// titleOf gives the name of a check.
func (r *root) titleOf(check string) string {
	for _, c := range checks.All {
		if c.ID == check {
			return r.say(c.Title.With())
		}
	}
	return check
}

// name says a part.
func (r *root) name(part string) string { return r.say(bank.Name(part)) }

// current is the stage where work goes on: that of the next thing to do.
func (j *opened) current() checks.Stage {
	if x, ok := j.nextFinding(); ok {
		return stageOf(x)
	}
	return checks.HandOver
}

// about names what a finding is about: "Voltage match, string A".
func (r *root) about(x finding.Finding) string {
	title := r.titleOf(x.Check())
	if x.Part() == "bank" {
		return title
	}
	return r.t("about", "{part}, {title}", "part", r.name(x.Part()), "title", lowerFirst(title))
}
