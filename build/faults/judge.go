package main

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"lugmark/checks"
	"lugmark/checks/plain"
	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// result is what became of one plant and of its twin.
type result struct {
	plant  plant
	caught []seen   // in the order of the plant's expectations
	missed []string // what was expected and not found
	alarms []seen   // what was raised in the twin
	open   []seen   // what is still to do in the twin
	more   int      // findings beyond the expected that speak up in the plant
	shut   []string // hold points that what caught it keeps shut, in words
	twins  [2]int   // hold points of the twin: open, all
	counts [2]int   // findings in plant and twin
}

// seen is a finding with its words.
type seen struct {
	finding.Finding
	says string
}

// raised reports whether a verdict asks a person to stop and look.
func raised(v finding.Verdict) bool { return v == finding.Fail || v == finding.CantTell }

// judge runs the checks on the job with the failure and on its twin.
func (p plant) judge() (result, error) {
	r := result{plant: p}
	facts, found, err := assess(p.job)
	if err != nil {
		return r, fmt.Errorf("%s: %w", p.name, err)
	}
	var by []string
	for _, want := range p.CaughtBy {
		i := slices.IndexFunc(found, func(x finding.Finding) bool {
			return x.Check() == want.Check && x.Part() == want.Part && x.Verdict().Code() == want.Verdict
		})
		if i < 0 {
			r.missed = append(r.missed, fmt.Sprintf("%s %s should be %s%s", want.Check, want.Part, want.Verdict, instead(found, want)))
			continue
		}
		r.caught = append(r.caught, worded(found[i]))
		by = append(by, want.Check+"@"+want.Part)
	}
	for _, x := range found {
		if raised(x.Verdict()) {
			r.more++
		}
	}
	r.more -= len(r.caught)
	r.holds(facts, by)
	for _, hold := range p.Shut {
		complaint, err := p.mustShut(hold)
		if err != nil {
			return r, fmt.Errorf("%s: %w", p.name, err)
		}
		if complaint != "" {
			r.missed = append(r.missed, complaint)
		}
	}
	facts, all, err := assess(p.sound)
	if err != nil {
		return r, fmt.Errorf("the twin of %s: %w", p.name, err)
	}
	for _, x := range all {
		switch {
		case raised(x.Verdict()):
			r.alarms = append(r.alarms, worded(x))
		case !x.Settled():
			r.open = append(r.open, worded(x))
		}
	}
	for _, c := range p.CaughtBy { // what raises nothing because it was not asked proves nothing
		if !slices.ContainsFunc(all, func(x finding.Finding) bool {
			return x.Check() == c.Check && x.Part() == c.Part && x.Verdict() == finding.Pass
		}) {
			r.missed = append(r.missed, fmt.Sprintf("%s %s should pass in the twin%s", c.Check, c.Part, instead(all, c)))
		}
	}
	for _, h := range facts.Holds() {
		r.twins[1]++
		if h.Passed() {
			r.twins[0]++
		} else {
			r.missed = append(r.missed, fmt.Sprintf("hold point %s@%s of the twin is shut by %s", h.Gate, h.Part, strings.Join(h.Shut(), ", ")))
		}
	}
	r.counts = [2]int{len(found), len(all)}
	return r, nil
}

// holds looks for the hold points that had to be shut, and by what caught it.
func (r *result) holds(facts *checks.Facts, by []string) {
	shut := map[string][]string{}
	for _, h := range facts.Holds() {
		for _, s := range h.Shut() {
			if slices.Contains(by, s) && !h.Passed() {
				id := h.Gate + "@" + h.Part
				if shut[id] == nil {
					r.shut = append(r.shut, say.Voice{}.Say(h.Title)+done(h))
				}
				shut[id] = append(shut[id], s)
			}
		}
	}
	for _, want := range r.plant.Shut {
		if shut[want] == nil {
			r.missed = append(r.missed, fmt.Sprintf("hold point %s should be shut by what caught it", want))
		}
	}
}

// done says that an act was done against its hold point.
func done(h checks.Hold) string {
	if h.Breached() {
		return " (was done all the same, and is told to be undone)"
	}
	return ""
}

// instead says what a check found where it should have caught a failure.
func instead(found []finding.Finding, want catch) string {
	for _, x := range found {
		if x.Check() == want.Check && (x.Part() == want.Part || want.Part == "") {
			return fmt.Sprintf(", is %s: %s", x.Verdict(), say.Voice{}.Say(x.Reason()))
		}
	}
	return ", says nothing about it"
}

func worded(x finding.Finding) seen { return seen{x, say.Voice{}.Say(x.Reason())} }

// name is a finding in one word: check, part and verdict.
func (s seen) name() string {
	return fmt.Sprintf("%s, %s: %s", s.Check(), say.Voice{}.Say(bank.Name(s.Part())), s.Verdict())
}

// assess judges one whole job file at the time that it gives.
func assess(raw json.RawMessage) (*checks.Facts, []finding.Finding, error) {
	file, faults := plain.Parse(raw)
	if len(faults) > 0 {
		return nil, nil, fmt.Errorf("line %d of the merged job: %w", faults[0].Line, faults[0])
	}
	state, _, err := file.State()
	if err != nil {
		return nil, nil, err
	}
	facts := checks.NewFacts(state, file.Visit, file.Now)
	return facts, checks.Run(facts), nil
}
