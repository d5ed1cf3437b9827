package job

import "strconv"

// The bytes of an event are made here and nowhere else: no blanks, members in
// their order, and of the escapes of JSON only those that must be.

const hexDigits = "0123456789abcdef"

func appendText(b []byte, s string) []byte {
	b = append(b, '"')
	for i := range len(s) {
		switch c := s[i]; {
		case c == '"' || c == '\\':
			b = append(b, '\\', c)
		case c == '\b':
			b = append(b, `\b`...)
		case c == '\f':
			b = append(b, `\f`...)
		case c == '\n':
			b = append(b, `\n`...)
		case c == '\r':
			b = append(b, `\r`...)
		case c == '\t':
			b = append(b, `\t`...)
		case c < 0x20:
			b = append(b, `\u00`...)
			b = append(b, hexDigits[c>>4], hexDigits[c&15])
		default:
			b = append(b, c)
		}
	}
	return append(b, '"')
}

func appendTexts(b []byte, list []string) []byte {
	b = append(b, '[')
	for i, s := range list {
		if i > 0 {
			b = append(b, ',')
		}
		b = appendText(b, s)
	}
	return append(b, ']')
}

// object appends members one after the other; an optional member that is not
// there is left out.
type object struct {
	b     []byte
	begun bool
}

func (o *object) name(name string) {
	if o.begun {
		o.b = append(o.b, ',')
	} else {
		o.b = append(o.b, '{')
	}
	o.begun = true
	o.b = append(o.b, '"')
	o.b = append(o.b, name...)
	o.b = append(o.b, '"', ':')
}

func (o *object) text(name, s string)           { o.name(name); o.b = appendText(o.b, s) }
func (o *object) texts(name string, l []string) { o.name(name); o.b = appendTexts(o.b, l) }
func (o *object) ref(name string, x Ref)        { o.name(name); o.b = x.append(o.b) }
func (o *object) raw(name string, raw []byte)   { o.name(name); o.b = append(o.b, raw...) }

func (o *object) whole(name string, n int) {
	o.name(name)
	o.b = strconv.AppendInt(o.b, int64(n), 10)
}

func (o *object) optText(name, s string) {
	if s != "" {
		o.text(name, s)
	}
}

func (o *object) optRef(name string, x Ref) {
	if x != (Ref{}) {
		o.ref(name, x)
	}
}

// optTrue writes a mark that is either there or not.
func (o *object) optTrue(name string, on bool) {
	if on {
		o.raw(name, []byte("true"))
	}
}

func (o *object) end() []byte { return append(o.b, '}') }
