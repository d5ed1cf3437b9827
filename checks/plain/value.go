package plain

import (
	"lugmark/checks"
	"lugmark/core/job"
	"lugmark/core/say"
)

var (
	wantRivals = say.Phrase{Key: "plain.want-rivals", English: "one value; a list means that people disagree and holds two or more"}
	wantTruth  = say.Phrase{Key: "plain.want-truth", English: "true or false"}
	wantAnswer = say.Phrase{Key: "plain.want-answer", English: "a text in quotes, or an object with “n” or “skip”"}

	sayNoValue   = say.Phrase{Key: "plain.no-value", English: "“{field}” of “{part}” has neither “n” nor “skip”."}
	sayOnly      = say.Phrase{Key: "plain.only", English: "“{name}” goes with a measured number only."}
	sayOnlyAt    = say.Phrase{Key: "plain.only-at", English: "“{name}” goes with a measured number or an answer only."}
	sayNotBoth   = say.Phrase{Key: "plain.not-both", English: "“{name}” does not go with “{other}”."}
	sayWhy       = say.Phrase{Key: "plain.why", English: "A skip gives its reason: “why”."}
	sayNotOption = say.Phrase{Key: "plain.not-option", English: "“{name}” has no answer “{text}”."}
)

// answers reads what stands for one field of one part: one value, or a list of
// values that people disagree about. ok is false when a fault was noted.
func (p *parser) answers(n *node, f checks.Field, part string) (values []Entry, ok bool) {
	if n.shape != list {
		e, ok := p.answer(n, f, part)
		return []Entry{e}, ok
	}
	if len(n.items) < 2 {
		p.fault(n.line, sayWrong.With("name", f.ID, "want", wantRivals))
		return nil, false
	}
	ok = true
	for _, item := range n.items {
		e, good := p.answer(item, f, part)
		values, ok = append(values, e), ok && good
	}
	return values, ok
}

// answer reads one value.
func (p *parser) answer(n *node, f checks.Field, part string) (Entry, bool) {
	before := len(p.faults)
	var e Entry
	if n.shape == object {
		e = p.full(n, f, part)
	} else {
		e = p.short(n, f, part, false)
		p.meter(&e, f, nil)
	}
	if len(p.faults) == before && e.Value.Kind != job.KindPersonal { // that has no blob to name yet
		if err := e.Value.Validate(); err != nil {
			p.fault(n.line, sayOf.With("field", f.ID, "part", part, "what", err.Error()))
		}
	}
	return e, len(p.faults) == before
}

// members of the long form of a value.
var members = []string{"n", "m", "at", "moving", "odd", "skip", "why", "until"}

// full reads the long form: {"n": …, "at": …} or {"skip": …, "why": …}.
func (p *parser) full(n *node, f checks.Field, part string) (e Entry) {
	for _, m := range n.members {
		if !contains(members, m.name) {
			p.unknown(m.line, m.name, members)
		}
	}
	if n.get("skip") != nil {
		e.Value = p.skip(n)
		return e
	}
	value := n.get("n")
	if value == nil {
		p.fault(n.line, sayNoValue.With("field", f.ID, "part", part))
		return e
	}
	for _, m := range n.members {
		switch m.name {
		case "m", "moving", "odd":
			if f.Kind != checks.Number {
				p.fault(m.line, sayOnly.With("name", m.name))
			}
		case "at": // when a link was closed, as when a number was read
			if f.Kind != checks.Number && f.Kind != checks.Choice {
				p.fault(m.line, sayOnlyAt.With("name", m.name))
			}
		case "why", "until":
			p.fault(m.line, sayNotBoth.With("name", m.name, "other", "n"))
		}
	}
	odd := p.flag(n, "odd")
	e = p.short(value, f, part, odd)
	e.Value.Odd, e.Value.Moving = odd, p.flag(n, "moving")
	if at := n.get("at"); at != nil {
		if t, ok := p.moment(at, "at"); ok {
			e.At = t
			p.seen(t)
		}
	}
	p.meter(&e, f, n.get("m"))
	return e
}

// flag reads true or false; missing is false.
func (p *parser) flag(n *node, name string) bool {
	v := n.get(name)
	return v != nil && p.is(v, name, truth, wantTruth) && v.text == "true"
}

func (p *parser) skip(n *node) job.Value {
	v := job.Value{Kind: job.KindSkip}
	for _, m := range n.members {
		switch m.name {
		case "skip":
			v.Skip = p.option(m.value, m.name, checks.Skips)
		case "why":
			v.Why = p.option(m.value, m.name, checks.SkipReasons)
		case "until":
			v.Until, _ = p.timeOrDay(m.value, m.name)
		default:
			if contains(members, m.name) {
				p.fault(m.line, sayNotBoth.With("name", m.name, "other", "skip"))
			}
		}
	}
	if n.get("why") == nil {
		p.fault(n.line, sayWhy.With())
	}
	return v
}

// option reads one of a list of codes.
func (p *parser) option(n *node, name string, options []checks.Option) string {
	if n.shape == truth {
		p.fault(n.line, sayYesNo.With("name", name))
		return ""
	}
	if !p.is(n, name, text, wantText) {
		return ""
	}
	var codes []string
	for _, o := range options {
		codes = append(codes, o.Code)
	}
	if !contains(codes, n.text) {
		p.near(n.line, sayNotOption.With("name", name, "text", n.text), n.text, codes)
		return ""
	}
	return n.text
}

var sayYesNo = say.Phrase{Key: "plain.yes-no", English: "“{name}” takes a word in quotes, such as “yes” or “no”."}
