package plain

import (
	"encoding/json"
	"fmt"
	"strings"

	"lugmark/checks"
	"lugmark/core/job"
	"lugmark/core/unit"
)

// value writes one value; nil when the form has no words for it.
func (x *exporter) value(e job.Entry, f checks.Field) (*node, error) {
	v := e.Value
	switch v.Kind {
	case job.KindQuantity:
		return x.quantity(e, f)
	case job.KindChoice:
		return x.choice(e, f), nil
	case job.KindChoices:
		if len(v.Choices) == 0 {
			return quoted(noneTicked), nil
		}
		return quoted(strings.Join(v.Choices, ", ")), nil
	case job.KindText:
		return quoted(v.Text), nil
	case job.KindTime:
		return quoted(v.Time), nil
	case job.KindPersonal:
		if s, ok := job.Text(x.blobs, v.X); ok && s != "" {
			return quoted(s), nil
		}
		return nil, nil
	case job.KindSkip:
		n := &node{shape: object}
		n.set("skip", quoted(v.Skip))
		n.set("why", quoted(v.Why))
		if v.Until != "" {
			n.set("until", quoted(v.Until))
		}
		return n, nil
	}
	return nil, fmt.Errorf("a value of this kind has no place in a plain file")
}

// choice writes an answer, and with it the time of the one kind whose time
// decides: when a link or a switch was closed. Proofs are judged by that moment,
// and a file that forgot it would find them stale.
func (x *exporter) choice(e job.Entry, f checks.Field) *node {
	at := e.Moment()
	if f.ID != "closed" || at.Equal(x.now) {
		return quoted(e.Value.Choice)
	}
	full := &node{shape: object}
	full.set("n", quoted(e.Value.Choice))
	full.set("at", quoted(stamp(at)))
	return full
}

// quantity writes a number: bare when all else follows from the file.
func (x *exporter) quantity(e job.Entry, f checks.Field) (*node, error) {
	v := e.Value
	number, ok := unit.Stored(v.Number, unit.Symbol(v.Unit))
	if own, known := number.Unit.Base(); !ok || !known || own != base(f) {
		return nil, fmt.Errorf("%s %s is no number in %s", v.Number, v.Unit, f.Unit)
	}
	n := quoted(v.Number + " " + v.Unit)
	if bare(base(f)) {
		n = &node{shape: shapeOf(v.Number), text: v.Number}
	}
	usual := ""
	if checks.Measured(f) {
		usual = usualMeter(x.meterOf, f)
	}
	full := &node{shape: object}
	full.set("n", n)
	if v.Meter != usual {
		full.set("m", quoted(v.Meter))
	}
	if at := e.Moment(); !f.Setup && !at.Equal(x.now) {
		full.set("at", quoted(stamp(at)))
	}
	if v.Moving {
		full.set("moving", &node{shape: truth, text: "true"})
	}
	if v.Odd || outside(f, number.Value) {
		full.set("odd", &node{shape: truth, text: "true"})
	}
	if len(full.members) == 1 {
		return n, nil
	}
	return full, nil
}

// shapeOf: a count is written as a JSON number where JSON can hold its digits.
func shapeOf(digits string) shape {
	if json.Valid([]byte(digits)) {
		return number
	}
	return text
}
