package plain

import (
	"encoding/json"
	"errors"
	"strings"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

var (
	wantWhole   = say.Phrase{Key: "plain.want-whole", English: "a whole number"}
	wantTakeoff = say.Phrase{Key: "plain.want-takeoff", English: "one-end, diagonal, equal-leads, or a list of two places"}
	wantPair    = say.Phrase{Key: "plain.want-pair", English: "one torque such as “9 N.m”, or two in a list: from, to"}

	saySlip     = say.Phrase{Key: "plain.layout-slip", English: "The layout does not add up: {what}"}
	sayNeeds    = say.Phrase{Key: "plain.needs", English: "The layout has no “{name}”."}
	sayIsNo     = say.Phrase{Key: "plain.is-no", English: "“{part}” does not belong under “{section}”."}
	sayOnSite   = say.Phrase{Key: "plain.on-site", English: "“{field}” is read on site: write it under “readings” as “{key}”."}
	sayNoLimit  = say.Phrase{Key: "plain.no-limit", English: "“{name}” is not a limit that a firm can set."}
	sayUseWhat  = say.Phrase{Key: "plain.use-what", English: "“{name}” is not what a meter of a job measures."}
	sayNotMeter = say.Phrase{Key: "plain.not-meter", English: "“{part}” is not a meter (m1, m2 …) or a wrench (w1, w2 …)."}
)

// layout reads the bank. Without places the blocks are 1, 2, 3 … in order.
func (p *parser) layout(n *node) {
	names := []string{"series", "parallel", "join", "takeoff", "place"}
	if !p.is(n, "layout", object, wantObject) {
		return
	}
	before := len(p.faults)
	var l bank.Layout
	for _, m := range n.members {
		switch m.name {
		case "series":
			l.Series = p.whole(m)
		case "parallel":
			l.Parallel = p.whole(m)
		case "join":
			if p.is(m.value, m.name, text, wantText) {
				l.Join = bank.Join(m.value.text)
			}
		case "takeoff":
			switch t := m.value; {
			case t.shape == text && !strings.Contains(t.text, ","):
				l.Takeoff = bank.Takeoff(t.text)
			case t.shape == list && len(t.items) == 2 && t.items[0].shape == text && t.items[1].shape == text:
				l.Takeoff = bank.TakeoffAt(t.items[0].text, t.items[1].text)
			default:
				p.fault(t.line, sayWrong.With("name", m.name, "want", wantTakeoff))
			}
		case "place":
			l.Place = p.texts(m.value, m.name)
		default:
			p.unknown(m.line, m.name, names)
		}
	}
	for _, name := range names[:4] {
		if n.get(name) == nil {
			p.fault(n.line, sayNeeds.With("name", name))
		}
	}
	if len(p.faults) > before {
		return
	}
	if n.get("place") == nil && l.Series >= 1 && l.Series <= 16 && l.Parallel >= 1 && l.Parallel <= 16 {
		l = bank.New(l.Series, l.Parallel, l.Join, l.Takeoff)
	}
	if err := l.Validate(); err != nil {
		var slip bank.Slip
		if errors.As(err, &slip) {
			p.fault(n.line, saySlip.With("what", slip.Line))
		}
		return
	}
	raw, err := json.Marshal(l)
	if err != nil {
		p.fault(n.line, saySlip.With("what", err.Error()))
		return
	}
	p.bank = &l
	p.keep(n.line, job.Key{Visit: "v1", Part: "bank", Field: "layout"}, 0, []Entry{{Value: job.Value{Kind: job.KindLayout, Layout: raw}}})
}

// whole reads a small count, 0 with a fault when it is none.
func (p *parser) whole(m member) int {
	if n := m.value; n.shape == number && len(n.text) <= 3 && strings.Trim(n.text, "0123456789") == "" {
		out := 0
		for _, c := range n.text {
			out = out*10 + int(c-'0')
		}
		return out
	}
	p.fault(m.value.line, sayWrong.With("name", m.name, "want", wantWhole))
	return 0
}

func (p *parser) texts(n *node, name string) (out []string) {
	if !p.is(n, name, list, wantList) {
		return nil
	}
	for _, item := range n.items {
		if p.is(item, name, text, wantText) {
			out = append(out, item.text)
		}
	}
	return out
}

func (p *parser) title(n *node) { p.answerTo(n.line, "site", "name", n) }

// answerTo reads the value of a field of the first visit that is known to exist.
func (p *parser) answerTo(line int, part, id string, n *node) {
	kind, _ := bank.PartKind(part)
	if f, ok := p.field(line, id, part, kind); ok {
		if values, ok := p.answers(n, f, part); ok {
			p.keep(line, job.Key{Visit: "v1", Part: part, Field: id}, 0, values)
		}
	}
}

// each walks the members of a section's object.
func (p *parser) each(n *node, name string, read func(member)) {
	if p.is(n, name, object, wantObject) {
		for _, m := range n.members {
			read(m)
		}
	}
}

func (p *parser) sheets(n *node) {
	p.each(n, "sheets", func(m member) {
		if !p.ofKind(m, "sheets", bank.KindSheet) {
			return
		}
		p.each(m.value, m.name, func(f member) {
			switch f.name {
			case "blocks":
				for _, b := range p.texts(f.value, "blocks") {
					if kind, ok := p.place(f.line, b); ok && kind == bank.KindBlock {
						p.answerTo(f.line, b, "sheet", &node{line: f.line, shape: text, text: m.name})
					} else if ok {
						p.fault(f.line, sayIsNo.With("part", b, "section", "blocks"))
					}
				}
			case "torque":
				p.torque(m.name, f)
			default:
				p.answerTo(f.line, m.name, f.name, f.value)
			}
		})
	})
}

// torque reads the window of a sheet, or the one figure that it gives.
func (p *parser) torque(sheet string, m member) {
	switch n := m.value; {
	case n.shape == text:
		p.answerTo(n.line, sheet, "torque-nominal", n)
	case n.shape == list && len(n.items) == 2:
		p.answerTo(n.line, sheet, "torque-min", n.items[0])
		p.answerTo(n.line, sheet, "torque-max", n.items[1])
	default:
		p.fault(n.line, sayWrong.With("name", m.name, "want", wantPair))
	}
}

// ofKind reports whether a section's name is a part of one of the kinds.
func (p *parser) ofKind(m member, section string, kinds ...bank.Kind) bool {
	kind, ok := p.place(m.line, m.name)
	if !ok {
		return false
	}
	p.named = append(p.named, m.name)
	for _, k := range kinds {
		if k == kind {
			return true
		}
	}
	p.fault(m.line, sayIsNo.With("part", m.name, "section", section))
	return false
}

func (p *parser) parts(n *node) {
	p.each(n, "parts", func(m member) {
		kind, ok := p.place(m.line, m.name)
		if !ok {
			return
		}
		p.named = append(p.named, m.name)
		p.each(m.value, m.name, func(f member) {
			if field, known := checks.FieldOfKind(f.name, kind); known && !field.Setup {
				p.fault(f.line, sayOnSite.With("field", f.name, "key", m.name+"/"+f.name))
				return
			}
			p.answerTo(f.line, m.name, f.name, f.value)
		})
	})
}

func (p *parser) meters(n *node) {
	p.each(n, "meters", func(m member) {
		if p.ofKind(m, "meters", bank.KindMeter, bank.KindWrench) {
			p.each(m.value, m.name, func(f member) { p.answerTo(f.line, m.name, f.name, f.value) })
		}
	})
}

func (p *parser) use(n *node) {
	var known []string
	for _, u := range checks.MeterUses {
		known = append(known, u.Name)
	}
	p.each(n, "use", func(m member) {
		for _, u := range checks.MeterUses {
			if u.Name == m.name {
				p.meterOf[m.name] = m.value.text
				p.answerTo(m.line, "bank", u.Field.ID, m.value)
				return
			}
		}
		p.near(m.line, sayUseWhat.With("name", m.name), m.name, known)
	})
}

func (p *parser) house(n *node) {
	var known []string
	for _, h := range checks.HouseLimits {
		known = append(known, h.Check+"."+h.Name)
	}
	p.each(n, "house", func(m member) {
		p.each(m.value, m.name, func(l member) {
			id := m.name + "." + l.name
			if !contains(known, id) {
				p.near(l.line, sayNoLimit.With("name", id), id, known)
				return
			}
			p.answerTo(l.line, "house", id, l.value)
		})
	})
}

// base gives the base unit of a field's quantity, "" when it has none.
func base(f checks.Field) unit.Symbol {
	b, _ := f.Unit.Base()
	return b
}

// usualMeter gives the meter of a job for a reading: for millivolts and
// milliamperes their own meter or range, where one is named.
func usualMeter(meterOf map[string]string, f checks.Field) string {
	use, _ := checks.UseFor(f.Entry())
	if m, named := meterOf[use.Name]; named || use.Quantity == "Ohm" { // a tester of megohms reads no milliohms
		return m
	}
	return meterOf[string(base(f))]
}
