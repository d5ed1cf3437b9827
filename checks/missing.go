package checks

import (
	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/say"
)

var (
	sayMeasure = say.Phrase{Key: "next.measure", English: "Measure: {field}, {part}."}
	sayEnter   = say.Phrase{Key: "next.enter", English: "Enter: {field}, {part}."}
)

// missing is To do for the first entry that is not there: measure it or enter
// it, whichever it is.
func missing(field Field, part string) finding.Finding {
	p := sayEnter
	if field.Round {
		p = sayMeasure
	}
	return finding.Undone(p.With("field", field.Label, "part", bank.Name(part)))
}

// enter is the next action that names an entry to make.
func enter(field Field, part string) say.Line {
	return sayEnter.With("field", field.Label, "part", bank.Name(part))
}

// need is an entry that a judgement cannot do without, and whether it is there.
type need struct {
	has   bool
	field Field
	part  string
}

// firstMissing is To do for the first of the needs that is not there; nil when
// all are.
func firstMissing(needs ...need) *finding.Finding {
	for _, n := range needs {
		if !n.has {
			x := missing(n.field, n.part)
			return &x
		}
	}
	return nil
}
