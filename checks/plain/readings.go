package plain

import (
	"strings"

	"lugmark/core/bank"
	"lugmark/core/job"
	"lugmark/core/say"
)

var sayKeyForm = say.Phrase{Key: "plain.key-form", English: "“{key}” is not part/field or visit/part/field."}

// readings reads what was measured and confirmed on site, in its order.
//
// A key may end in #1, #2 …: an earlier value of the same field, replaced by
// the next. Whether a link was on while volts were read can be said only so.
func (p *parser) readings(n *node) {
	p.each(n, "readings", func(m member) {
		key, nth, ok := splitKey(m.name)
		if !ok {
			p.fault(m.line, sayKeyForm.With("key", m.name))
			return
		}
		kind, _ := bank.PartKind(key.Part)
		if kind == bank.KindLink && key.Field == "closed" {
			ok = p.link(m.line, key.Part)
		} else {
			kind, ok = p.place(m.line, key.Part)
		}
		if !ok {
			return
		}
		if kind == bank.KindBank && key.Field == "layout" {
			p.fault(m.line, sayIsNo.With("part", m.name, "section", "readings"))
			return
		}
		f, ok := p.field(m.line, key.Field, key.Part, kind)
		if !ok {
			return
		}
		if values, ok := p.answers(m.value, f, key.Part); ok {
			p.keep(m.line, key, nth, values)
		}
	})
}

// splitKey reads "part/field", "visit/part/field", either with #n behind it.
func splitKey(name string) (key job.Key, nth int, ok bool) {
	body, mark, marked := strings.Cut(name, "#")
	if marked {
		if mark == "" || len(mark) > 4 || mark[0] < '1' || strings.Trim(mark, "0123456789") != "" {
			return key, 0, false
		}
		for _, c := range mark {
			nth = nth*10 + int(c-'0')
		}
	}
	pieces := strings.Split(body, "/")
	switch len(pieces) {
	case 2:
		pieces = append([]string{"v1"}, pieces...)
	case 3:
	default:
		return key, 0, false
	}
	return job.Key{Visit: pieces[0], Part: pieces[1], Field: pieces[2]}, nth, isVisit(pieces[0]) && pieces[1] != "" && pieces[2] != ""
}
