package plain

import (
	"slices"
	"strconv"
	"strings"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/job"
	"lugmark/core/say"
)

var (
	sayNoPart   = say.Phrase{Key: "plain.no-part", English: "“{part}” is not a part."}
	sayNotHere  = say.Phrase{Key: "plain.not-here", English: "“{part}” is not in this layout."}
	sayNoField  = say.Phrase{Key: "plain.no-field", English: "“{field}” is not a field."}
	sayNotOf    = say.Phrase{Key: "plain.not-of", English: "{part} has no “{field}”."}
	saySameKey  = say.Phrase{Key: "plain.same-key", English: "“{key}” is given twice; the first is on line {line}."}
	sayFirst    = say.Phrase{Key: "plain.first-of", English: "“{key}” must stand before “{later}”."}
	sayNoLayout = say.Phrase{Key: "plain.no-such-layout", English: "Layout: {what}"}
)

// place finds what a part is, or notes why it is none.
func (p *parser) place(line int, id string) (bank.Kind, bool) {
	kind, ok := kindOf(id)
	switch {
	case !ok:
		if turned := turn(id); turned != "" {
			p.fault(line, sayNear.With("what", sayNoPart.With("part", id), "near", turned))
		} else {
			p.near(line, sayNoPart.With("part", id), id, p.known())
		}
		return kind, false
	case p.bank != nil && !stands(*p.bank, id):
		p.near(line, sayNotHere.With("part", id), id, p.known())
		return kind, false
	}
	return kind, true
}

// kindOf is what a part is; ok is false for a stage that no job has.
func kindOf(id string) (kind bank.Kind, ok bool) {
	kind, ok = bank.PartKind(id)
	if kind == bank.KindStage {
		ok = slices.ContainsFunc(checks.Stages, func(s checks.Stage) bool { return s.Part() == id })
	}
	return kind, ok
}

// stands reports whether a part is in the layout. A link that is not drawn but
// joins two parts that are there stands too: to find one on is a finding.
func stands(l bank.Layout, id string) bool {
	if bank.Exists(l, id) {
		return true
	}
	if link, _, ok := bank.LinkOf(id); ok {
		id = link
	}
	from, to, ok := bank.EndsOf(id)
	return ok && bank.Exists(l, from) && bank.Exists(l, to)
}

// touches reports whether a link that is on says something about this layout:
// one of its two ends is there. The other may be a block that was replaced.
func touches(l bank.Layout, id string) bool {
	from, to, ok := bank.EndsOf(id)
	return ok && (bank.Exists(l, from) || bank.Exists(l, to))
}

var sayUndrawn = say.Phrase{Key: "plain.undrawn", English: "“{part}” is not in the drawing; it is kept as a link that was found."}

// link finds a link that is reported on or off. One that is not drawn is kept,
// because to find it on is a finding, and noted, because it may be a slip.
func (p *parser) link(line int, id string) bool {
	if p.bank == nil || bank.Exists(*p.bank, id) || !touches(*p.bank, id) {
		_, ok := p.place(line, id)
		return ok
	}
	p.file.Notes = append(p.file.Notes, Fault{line, sayUndrawn.With("part", id)})
	return true
}

// turn gives the id of a link or joint whose two ends stand in the wrong
// order; "" when that is not what is wrong.
func turn(id string) string {
	link, at, _ := strings.Cut(id, "@")
	ends := strings.Split(link, "~")
	if len(ends) < 2 {
		return ""
	}
	ends[0], ends[1] = ends[1], ends[0]
	out := strings.Join(ends, "~")
	if at != "" {
		out += "@" + at
	}
	if _, ok := bank.PartKind(out); !ok {
		return ""
	}
	return out
}

// known lists the parts that a slip may have meant.
func (p *parser) known() []string {
	ids := []string{"bank", "site", "switch", "shunt", "fuse.main", "lead.p", "lead.n", "charger1", "inverter1", "sheet1", "cable1", "m1", "w1", "p1"}
	for _, s := range checks.Stages {
		ids = append(ids, s.Part())
	}
	ids = append(ids, p.named...)
	if p.bank == nil {
		return ids
	}
	for _, u := range p.bank.Units() {
		ids = append(ids, u.ID, u.ID+".p", u.ID+".n", "fuse."+u.Letter())
	}
	for _, b := range p.bank.Blocks() {
		ids = append(ids, b, b+".p", b+".n")
	}
	for _, l := range p.bank.Links() {
		ids = append(ids, l.ID)
	}
	return ids
}

// field finds a field of a part, or notes why there is none.
func (p *parser) field(line int, id, part string, kind bank.Kind) (checks.Field, bool) {
	if f, ok := checks.FieldOfKind(id, kind); ok {
		return f, true
	}
	var mine []string
	for _, f := range checks.FieldsOfKind(kind) {
		mine = append(mine, f.ID)
	}
	what := sayNoField.With("field", id)
	if all := checks.FieldIDs(); contains(all, id) {
		what = sayNotOf.With("part", bank.Name(part), "field", id)
	} else if nearest(id, mine) == "" {
		mine = all
	}
	p.near(line, what, id, mine)
	return checks.FieldOfKind("", "")
}

// keep adds the values of one key; nth is 0 for the value that holds, and
// counts from 1 for earlier ones.
func (p *parser) keep(line int, key job.Key, nth int, values []Entry) {
	name := key.String()
	if nth > 0 {
		name += "#" + strconv.Itoa(nth)
	}
	if at, doubled := p.lines[name]; doubled {
		p.fault(line, saySameKey.With("key", shortKey(key), "line", count(at)))
		return
	}
	_, ended := p.lines[key.String()]
	before := key.String() + "#" + strconv.Itoa(nth-1)
	if _, begun := p.lines[before]; nth > 1 && !begun {
		p.fault(line, sayFirst.With("key", shortKey(key)+"#"+strconv.Itoa(nth-1), "later", shortKey(key)+"#"+strconv.Itoa(nth)))
		return
	}
	if nth > 0 && ended {
		p.fault(line, sayFirst.With("key", shortKey(key)+"#"+strconv.Itoa(nth), "later", shortKey(key)))
		return
	}
	p.lines[name] = line
	for i, e := range values {
		e.Key, e.Line, e.Rival = key, line, i > 0
		p.file.Entries = append(p.file.Entries, e)
	}
}

// shortKey leaves the first visit out, as people write it.
func shortKey(k job.Key) string { return strings.TrimPrefix(k.String(), "v1/") }

func contains(list []string, s string) bool { return slices.Contains(list, s) }

// inOrder sorts by line; faults of one line keep their order.
func inOrder(faults []Fault) []Fault {
	slices.SortStableFunc(faults, func(a, b Fault) int { return a.Line - b.Line })
	return faults
}
