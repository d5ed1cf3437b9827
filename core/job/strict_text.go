package job

import (
	"unicode/utf16"
	"unicode/utf8"
)

// text reads one string.
func (r *reader) text() (string, error) {
	if err := r.expect('"'); err != nil {
		return "", err
	}
	for i := r.at; i < len(r.raw); i++ {
		switch c := r.raw[i]; {
		case c == '"':
			s := string(r.raw[r.at:i])
			r.at = i + 1
			return s, nil
		case c == '\\' || c < 0x20:
			return r.escaped(i)
		}
	}
	r.at = len(r.raw)
	return "", r.fail("a string has no end")
}

// escaped goes on with a string whose first escape stands at i.
func (r *reader) escaped(i int) (string, error) {
	out := append([]byte(nil), r.raw[r.at:i]...)
	r.at = i
	for r.at < len(r.raw) {
		c := r.raw[r.at]
		switch {
		case c == '"':
			r.at++
			return string(out), nil
		case c < 0x20:
			return "", r.fail("a bare control sign in a string")
		case c != '\\':
			out = append(out, c)
			r.at++
			continue
		}
		sign, err := r.escape()
		if err != nil {
			return "", err
		}
		out = utf8.AppendRune(out, sign)
	}
	return "", r.fail("a string has no end")
}

func (r *reader) escape() (rune, error) {
	if r.at+1 >= len(r.raw) {
		return 0, r.fail("a string has no end")
	}
	switch c := r.raw[r.at+1]; c {
	case '"', '\\', '/':
		r.at += 2
		return rune(c), nil
	case 'b', 'f', 'n', 'r', 't':
		r.at += 2
		return map[byte]rune{'b': '\b', 'f': '\f', 'n': '\n', 'r': '\r', 't': '\t'}[c], nil
	case 'u':
		high, ok := r.hex4(r.at)
		if !ok {
			return 0, r.fail("a broken \\u escape")
		}
		if !utf16.IsSurrogate(high) {
			r.at += 6
			return high, nil
		}
		low, ok := r.hex4(r.at + 6)
		pair := utf16.DecodeRune(high, low)
		if !ok || pair == utf8.RuneError {
			return 0, r.fail("half a surrogate pair")
		}
		r.at += 12
		return pair, nil
	}
	return 0, r.fail("an unknown escape")
}

// hex4 reads the four digits of the \u escape that begins at i.
func (r *reader) hex4(i int) (rune, bool) {
	if i+6 > len(r.raw) || r.raw[i] != '\\' || r.raw[i+1] != 'u' {
		return 0, false
	}
	var n rune
	for _, c := range r.raw[i+2 : i+6] {
		d, ok := hexDigit(c)
		if !ok {
			return 0, false
		}
		n = n<<4 | d
	}
	return n, true
}

func hexDigit(c byte) (rune, bool) {
	switch {
	case c >= '0' && c <= '9':
		return rune(c - '0'), true
	case c >= 'a' && c <= 'f':
		return rune(c-'a') + 10, true
	case c >= 'A' && c <= 'F':
		return rune(c-'A') + 10, true
	}
	return 0, false
}
