package plain

import (
	"encoding/json"
	"strings"
	"unicode/utf8"

	"lugmark/core/say"
)

// shape is what kind of JSON value a node is.
type shape uint8

const (
	object shape = iota + 1
	list
	text
	number
	truth
	null
)

// node is one JSON value and the line on which it begins.
type node struct {
	line    int
	shape   shape
	text    string // a text decoded; a number or a truth as it stands
	members []member
	items   []*node
}

type member struct {
	name  string
	line  int
	value *node
}

// get finds a member; nil when it is not there.
func (n *node) get(name string) *node {
	for _, m := range n.members {
		if m.name == name {
			return m.value
		}
	}
	return nil
}

const (
	// A whole job of 256 blocks with ten readings each is below 1 MB.
	maxFile = 8 << 20 // bytes
	// Top, section, part, value, its list and its objects; one to spare.
	maxDepth = 7
)

var (
	sayTooLong = say.Phrase{Key: "plain.too-long", English: "This file is longer than 8 MB; no job is."}
	sayNotText = say.Phrase{Key: "plain.not-text", English: "This is not UTF-8 text. Save the file as UTF-8."}
	sayBroken  = say.Phrase{Key: "plain.broken", English: "Found {found} where {want} belongs."}
	sayDeep    = say.Phrase{Key: "plain.deep", English: "Too many brackets within brackets."}
	sayQuote   = say.Phrase{Key: "plain.quote", English: "A text is not closed on its line. Add the missing quote."}
	saySign    = say.Phrase{Key: "plain.sign", English: "A text holds a sign that is none. Write it again."}
	sayComma   = say.Phrase{Key: "plain.comma", English: "There is a comma too many before {found}."}
	sayTwice   = say.Phrase{Key: "plain.twice", English: "“{name}” stands here a second time; the first is on line {line}."}

	wantName  = say.Phrase{Key: "plain.want-name", English: "a name in quotes"}
	wantColon = say.Phrase{Key: "plain.want-colon", English: "a colon"}
	wantNext  = say.Phrase{Key: "plain.want-next", English: "a comma or a closing bracket"}
	wantValue = say.Phrase{Key: "plain.want-value", English: "a value"}
	wantEnd   = say.Phrase{Key: "plain.want-end", English: "the end of the file"}
	foundEnd  = say.Phrase{Key: "plain.found-end", English: "the end of the file"}
	foundSign = say.Phrase{Key: "plain.found-sign", English: "“{sign}”"}
)

// tree reads JSON strictly. A broken text is one fault and a nil node; names
// that come twice are faults, of which the first value is kept.
func tree(raw []byte) (*node, []Fault) {
	switch {
	case len(raw) > maxFile:
		return nil, []Fault{{1, sayTooLong.With()}}
	case !utf8.Valid(raw):
		return nil, []Fault{{1, sayNotText.With()}}
	}
	r := &reader{raw: strings.TrimPrefix(string(raw), "\ufeff"), line: 1}
	n := r.value(1)
	if r.broken == nil && r.next() != 0 {
		r.fail(sayBroken.With("found", r.found(), "want", wantEnd))
	}
	if r.broken != nil {
		return nil, append(r.twice, *r.broken)
	}
	return n, r.twice
}

type reader struct {
	raw    string
	at     int
	line   int
	broken *Fault // the first; reading stops there
	twice  []Fault
}

func (r *reader) fail(l say.Line) *node {
	if r.broken == nil {
		r.broken = &Fault{r.line, l}
	}
	r.at = len(r.raw)
	return nil
}

// next gives the next byte that is no blank, 0 at the end.
func (r *reader) next() byte {
	for ; r.at < len(r.raw); r.at++ {
		switch c := r.raw[r.at]; c {
		case '\n':
			r.line++
		case ' ', '\t', '\r':
		default:
			return c
		}
	}
	return 0
}

// found says what stands at the cursor.
func (r *reader) found() say.Line {
	if r.next() == 0 {
		return foundEnd.With()
	}
	sign, _ := utf8.DecodeRuneInString(r.raw[r.at:])
	return foundSign.With("sign", string(sign))
}

func (r *reader) value(depth int) *node {
	c := r.next()
	switch {
	case depth > maxDepth:
		return r.fail(sayDeep.With())
	case c == '{':
		return r.object(depth)
	case c == '[':
		return r.list(depth)
	case c == '"':
		n := &node{line: r.line, shape: text}
		n.text = r.quoted()
		return n
	}
	end := r.at
	for end < len(r.raw) && !strings.ContainsRune(" \t\r\n,:]}[{\"", rune(r.raw[end])) {
		end++
	}
	n := &node{line: r.line, text: r.raw[r.at:end]}
	switch {
	case n.text == "true" || n.text == "false":
		n.shape = truth
	case n.text == "null":
		n.shape = null
	case json.Valid([]byte(n.text)):
		n.shape = number
	default:
		return r.fail(sayBroken.With("found", r.found(), "want", wantValue))
	}
	r.at = end
	return n
}

func (r *reader) object(depth int) *node {
	n := &node{line: r.line, shape: object}
	lines := map[string]int{}
	for first := true; r.more(first, '}'); first = false {
		if r.next() != '"' {
			return r.fail(sayBroken.With("found", r.found(), "want", wantName))
		}
		m := member{line: r.line, name: r.quoted()}
		if r.broken == nil && r.next() != ':' {
			r.fail(sayBroken.With("found", r.found(), "want", wantColon))
		}
		if r.broken != nil {
			return nil
		}
		r.at++
		if m.value = r.value(depth + 1); r.broken != nil {
			return nil
		}
		if at, doubled := lines[m.name]; doubled {
			r.twice = append(r.twice, Fault{m.line, sayTwice.With("name", m.name, "line", count(at))})
			continue
		}
		lines[m.name] = m.line
		n.members = append(n.members, m)
	}
	return n
}

func (r *reader) list(depth int) *node {
	n := &node{line: r.line, shape: list}
	for first := true; r.more(first, ']'); first = false {
		n.items = append(n.items, r.value(depth+1))
	}
	return n
}

// more stands after an opening bracket or after an item, and reports whether
// another item follows.
func (r *reader) more(first bool, closing byte) bool {
	if r.broken != nil {
		return false
	}
	c := r.next()
	switch {
	case first && c != closing:
		r.at++ // the opening bracket
		if r.next() == closing {
			r.at++
			return false
		}
		return true
	case c == closing:
		r.at++
		return false
	case c != ',':
		r.fail(sayBroken.With("found", r.found(), "want", wantNext))
		return false
	}
	r.at++
	if r.next() == closing {
		r.fail(sayComma.With("found", r.found()))
		return false
	}
	return true
}

// quoted reads a text in quotes.
func (r *reader) quoted() string {
	end := r.at + 1
	for end < len(r.raw) && r.raw[end] != '"' && r.raw[end] != '\n' {
		if r.raw[end] == '\\' {
			end++
		}
		end++
	}
	if end >= len(r.raw) || r.raw[end] == '\n' {
		r.fail(sayQuote.With())
		return ""
	}
	var s string
	// A half surrogate or a bad escape comes out as U+FFFD or as an error.
	if json.Unmarshal([]byte(r.raw[r.at:end+1]), &s) != nil || strings.ContainsRune(s, utf8.RuneError) {
		r.fail(saySign.With())
		return ""
	}
	r.at = end + 1
	return s
}
