package main

import (
	"fmt"
	"strings"

	"lugmark/checks"
	"lugmark/core/say"
)

// found reports whether everything that was expected of a plant came true.
func (r result) found() bool { return len(r.missed) == 0 && len(r.caught) > 0 }

// score counts the plants that were caught and the twins that raised something.
func score(results []result) (caught, alarmed int) {
	for _, r := range results {
		if r.found() {
			caught++
		}
		if len(r.alarms) > 0 {
			alarmed++
		}
	}
	return caught, alarmed
}

// table is what the program prints.
func table(results []result, verbose bool) string {
	var b strings.Builder
	open := 0
	for _, r := range results {
		number, _, _ := strings.Cut(r.plant.name, "-")
		verdict := "caught"
		if !r.found() {
			verdict = "NOT CAUGHT"
		}
		fmt.Fprintf(&b, "%s  %-10s  %s\n", number, verdict, r.plant.Title)
		for _, s := range r.caught {
			fmt.Fprintf(&b, "      %s\n", s.name())
			if verbose {
				fmt.Fprintf(&b, "          %s\n", s.says)
			}
		}
		for _, m := range r.missed {
			fmt.Fprintf(&b, "      MISSED %s\n", m)
		}
		if r.more > 0 {
			fmt.Fprintf(&b, "      raised besides: %d\n", r.more)
		}
		if s := r.plant.Stops; s != "" {
			fmt.Fprintf(&b, "      seen before: %s\n", say.Voice{}.Say(checks.Stage(s).Title().With()))
		}
		switch {
		case len(r.shut) > 0:
			fmt.Fprintf(&b, "      shut by it: %s\n", strings.Join(r.shut, "; "))
			if len(r.plant.Shut) > 0 {
				fmt.Fprintf(&b, "      shut before the act, and open then in the twin: %s\n", strings.Join(r.plant.Shut, ", "))
			}
		default:
			fmt.Fprintf(&b, "      no hold point rests on it\n")
		}
		fmt.Fprintf(&b, "      %s\n", r.twin(verbose))
		open += len(r.open)
	}
	caught, alarmed := score(results)
	fmt.Fprintf(&b, "To do in all twins together: %d\n", open)
	fmt.Fprintf(&b, "caught %d of %d, false alarms %d of %d\n", caught, len(results), alarmed, len(results))
	return b.String()
}

// twin says what was raised in the sound twin.
func (r result) twin(verbose bool) string {
	head := fmt.Sprintf("twin: nothing raised in %d findings, %d of %d hold points open", r.counts[1], r.twins[0], r.twins[1])
	if len(r.alarms) > 0 {
		head = fmt.Sprintf("twin: FALSE ALARM, %d raised in %d findings", len(r.alarms), r.counts[1])
	}
	if len(r.open) > 0 {
		head += fmt.Sprintf(", %d to do", len(r.open))
	}
	for _, s := range r.alarms {
		head += "\n        " + s.name() + ": " + s.says
	}
	for _, s := range r.open {
		if verbose {
			head += "\n        " + s.name() + ": " + s.says
		}
	}
	return head
}
