package main

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"lugmark/checks"
)

// Asked with the first charge, but a join in parallel, which charges the lower
// side, asks it too.
var alsoEarlier = []string{"settled"}

// before is a job as it stood just before an act with a hold point: readings of
// earlier stages, those of its own stage that stand before it in the file, and
// the latest time among them as now. The main is entered as open, as its hold
// point asks.
func before(job json.RawMessage, gate, part string) (json.RawMessage, error) {
	act := part + "/closed"
	stage, known := map[string]checks.Stage{
		"series": checks.Wire, "parallel": checks.Wire, "main": checks.SwitchOn, "charge": checks.FirstCharge, "heat": checks.FirstCharge,
	}[gate]
	if !known {
		return nil, fmt.Errorf("no act has the hold point %q", gate)
	}
	whole, _ := members(job)
	readings, _ := members(whole.values["readings"])
	past := false
	for _, key := range slices.Clone(readings.names) {
		past = past || key == act
		own, err := stageOf(key)
		if err != nil {
			return nil, err
		}
		_, id, _ := strings.Cut(key, "/")
		if slices.Contains(alsoEarlier, id) {
			continue
		}
		at, limit := slices.Index(checks.Stages, own), slices.Index(checks.Stages, stage)
		if at > limit || at == limit && past || key == act || at == limit && checks.WhileCharging(id) {
			readings.drop(key)
		}
	}
	for _, key := range slices.Clone(readings.names) { // what was replaced only later still holds
		own, _, earlier := strings.Cut(key, "#")
		if _, replaced := readings.values[own]; earlier && !replaced {
			readings.set(own, readings.values[key])
			readings.drop(key)
		}
	}
	if gate == "main" {
		readings.set(act, json.RawMessage(`"no"`))
	}
	whole.set("readings", readings.raw())
	whole.drop("now")
	return whole.raw(), nil
}

// mustShut sees that a hold point is shut before the act by what is to catch the
// failure, and open before it in the twin, where it is listed at all.
func (p plant) mustShut(hold string) (complaint string, err error) {
	gate, part, _ := strings.Cut(hold, "@")
	for _, twin := range []bool{false, true} {
		whole := p.job
		if twin {
			whole = p.sound
		}
		raw, err := before(whole, gate, part)
		if err != nil {
			return "", err
		}
		facts, _, err := assess(raw)
		if err != nil {
			return "", err
		}
		h, listed := facts.HoldFor(gate, part)
		switch {
		case twin && listed && !h.Passed():
			return fmt.Sprintf("hold point %s of the twin is shut before the act by %s", hold, strings.Join(h.Shut(), ", ")), nil
		case !twin && !slices.ContainsFunc(p.CaughtBy, func(c catch) bool { return slices.Contains(h.Shut(), c.Check+"@"+c.Part) }):
			return fmt.Sprintf("hold point %s is not shut before the act by what catches it", hold), nil
		}
	}
	return "", nil
}
