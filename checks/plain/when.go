package plain

import (
	"strings"
	"time"

	"lugmark/checks"
	"lugmark/core/say"
)

var sayNoTime = say.Phrase{Key: "plain.no-time", English: "“{name}”: “{text}” is not a time with its offset, such as 2026-11-25T12:00:00+01:00."}
var sayNoDay = say.Phrase{Key: "plain.no-day", English: "“{name}”: “{text}” is neither a day such as 2027-03-01 nor a time with its offset."}

// moment reads a time with its offset.
func (p *parser) moment(n *node, name string) (time.Time, bool) {
	if n.shape == text {
		if t, ok := readTime(n.text); ok {
			return t, true
		}
	}
	p.fault(n.line, sayNoTime.With("name", name, "text", n.text))
	return time.Time{}, false
}

// readTime reads RFC 3339 as the record has it: upper case, and a year of our
// century, which every other reader can hold too.
func readTime(s string) (time.Time, bool) {
	t, err := time.Parse(time.RFC3339, s)
	return t, err == nil && !strings.ContainsAny(s, "tz,") && len(s) <= 35 && !strings.HasPrefix(s, "0")
}

// timeOrDay reads a time with its offset, or a day.
func (p *parser) timeOrDay(n *node, name string) (string, bool) {
	if n.shape == text {
		if _, err := time.Parse(time.DateOnly, n.text); err == nil {
			return n.text, true
		}
		if _, ok := readTime(n.text); ok {
			return n.text, true
		}
	}
	p.fault(n.line, sayNoDay.With("name", name, "text", n.text))
	return "", false
}

// timeOf reads the answer of a field that is a time. A due date may be a day;
// what happened on site needs its hour, or twelve hours of rest mean nothing.
func (p *parser) timeOf(n *node, f checks.Field) string {
	if f.Setup {
		s, _ := p.timeOrDay(n, f.ID)
		return s
	}
	t, ok := p.moment(n, f.ID)
	if !ok {
		return ""
	}
	p.seen(t)
	return n.text
}

// seen remembers the latest time at which something happened.
func (p *parser) seen(t time.Time) {
	if t.After(p.latest) {
		p.latest = t
	}
}
