package job

import (
	"encoding/json"
	"fmt"
	"strconv"
	"unicode/utf8"
)

// reader walks JSON once, from left to right, and refuses what encoding/json
// lets pass: doubled keys, keys in another case, invalid UTF-8, half
// surrogates, and anything after the value.
type reader struct {
	raw     []byte
	at      int
	depth   int
	deepest int  // containers within containers, the outermost counts 1
	spaced  bool // blanks between tokens are allowed, as in a file written by hand
}

// Strict reports the first fault of a JSON text that holds one value: a doubled
// key, invalid UTF-8, containers nested deeper than deepest, or something after
// the value. Blanks between tokens are allowed. The error names line and column.
func Strict(text []byte, deepest int) error {
	if !utf8.Valid(text) {
		return fmt.Errorf("not UTF-8 text")
	}
	r := &reader{raw: text, deepest: deepest, spaced: true}
	if _, err := r.skip(); err != nil {
		return err
	}
	return r.end()
}

func (r *reader) fail(format string, args ...any) error {
	what := fmt.Sprintf(format, args...)
	if !r.spaced {
		return fmt.Errorf("byte %d: %s", r.at+1, what)
	}
	line, column := 1, 1
	for _, c := range string(r.raw[:r.at]) {
		column++
		if c == '\n' {
			line, column = line+1, 1
		}
	}
	return fmt.Errorf("line %d, column %d: %s", line, column, what)
}

// peek returns the next byte that matters, 0 at the end.
func (r *reader) peek() byte {
	for r.at < len(r.raw) {
		c := r.raw[r.at]
		if r.spaced && (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
			r.at++
			continue
		}
		return c
	}
	return 0
}

func (r *reader) expect(c byte) error {
	if got := r.peek(); got != c {
		return r.fail("expected %q, found %s", string(c), r.found())
	}
	r.at++
	return nil
}

// found says in words what stands at the cursor.
func (r *reader) found() string {
	if r.at >= len(r.raw) {
		return "the end"
	}
	c, _ := utf8.DecodeRune(r.raw[r.at:])
	return strconv.QuoteRune(c)
}

func (r *reader) end() error {
	if r.peek(); r.at < len(r.raw) {
		return r.fail("something follows the end: %s", r.found())
	}
	return nil
}

func (r *reader) enter(c byte) error {
	if err := r.expect(c); err != nil {
		return err
	}
	if r.depth++; r.depth > r.deepest {
		return r.fail("nested deeper than %d", r.deepest)
	}
	return nil
}

// more stands after a container's opening or after one of its items, and
// reports whether another item follows.
func (r *reader) more(first bool, closing byte) (bool, error) {
	if r.peek() == closing {
		r.at++
		r.depth--
		return false, nil
	}
	if first {
		return true, nil
	}
	err := r.expect(',')
	r.peek()
	return true, err
}

func (r *reader) name() (string, error) {
	name, err := r.text()
	if err != nil {
		return "", err
	}
	return name, r.expect(':')
}

// fields reads an object whose members have these names and stand in this
// order; read consumes the value of names[i]. The answer has bit i set for each
// member that was there.
func (r *reader) fields(names []string, read func(i int) error) (seen uint, err error) {
	if err := r.enter('{'); err != nil {
		return 0, err
	}
	next := 0
	for first := true; ; first = false {
		more, err := r.more(first, '}')
		if err != nil || !more {
			return seen, err
		}
		start := r.at
		name, err := r.name()
		if err != nil {
			return 0, err
		}
		i := 0
		for i < len(names) && names[i] != name {
			i++
		}
		if i == len(names) || i < next {
			r.at = start
			switch {
			case i == len(names):
				return 0, r.fail("no member is called %q here", name)
			case seen&(1<<i) != 0:
				return 0, r.fail("member %q comes twice", name)
			}
			return 0, r.fail("member %q stands after %q", name, names[next-1])
		}
		if err := read(i); err != nil {
			return 0, err
		}
		seen |= 1 << i
		next = i + 1
	}
}

// list reads an array of at most most items.
func (r *reader) list(most int, read func() error) error {
	if err := r.enter('['); err != nil {
		return err
	}
	for n := 0; ; n++ {
		more, err := r.more(n == 0, ']')
		if err != nil || !more {
			return err
		}
		if n == most {
			return r.fail("more than %d items", most)
		}
		if err := read(); err != nil {
			return err
		}
	}
}

// texts reads an array of strings.
func (r *reader) texts(most int) ([]string, error) {
	out := []string{}
	err := r.list(most, func() error {
		s, err := r.text()
		out = append(out, s)
		return err
	})
	return out, err
}

// whole reads a whole number from least to 2^53-1, the largest that every JSON
// reader keeps exact.
func (r *reader) whole(least int) (int, error) {
	r.peek()
	start := r.at
	for r.at < len(r.raw) && r.raw[r.at] >= '0' && r.raw[r.at] <= '9' {
		r.at++
	}
	digits := string(r.raw[start:r.at])
	n, err := strconv.ParseInt(digits, 10, 64)
	// A sign, a fraction or an exponent shows at the next token.
	switch {
	case err != nil || n > maxWhole || len(digits) > 1 && digits[0] == '0':
		r.at = start
		return 0, r.fail("not a whole number")
	case n < int64(least):
		r.at = start
		return 0, r.fail("less than %d", least)
	}
	return int(n), nil
}

const maxWhole = 1<<53 - 1

// truth reads true or false.
func (r *reader) truth() (bool, error) {
	r.peek()
	for _, word := range [...]string{"true", "false"} {
		if r.word(word) {
			return word == "true", nil
		}
	}
	return false, r.fail("expected true or false, found %s", r.found())
}

func (r *reader) word(w string) bool {
	if len(r.raw)-r.at < len(w) || string(r.raw[r.at:r.at+len(w)]) != w {
		return false
	}
	r.at += len(w)
	return true
}

// skip walks any value and returns its bytes.
func (r *reader) skip() (json.RawMessage, error) {
	c := r.peek()
	start := r.at
	var err error
	switch c {
	case '{':
		err = r.skipObject()
	case '[':
		err = r.list(len(r.raw), func() error { _, err := r.skip(); return err })
	case '"':
		_, err = r.text()
	case 't', 'f':
		_, err = r.truth()
	case 'n':
		if !r.word("null") {
			err = r.fail("expected a value")
		}
	default:
		err = r.skipNumber()
	}
	return json.RawMessage(r.raw[start:r.at]), err
}

func (r *reader) skipObject() error {
	if err := r.enter('{'); err != nil {
		return err
	}
	seen := map[string]bool{}
	for first := true; ; first = false {
		more, err := r.more(first, '}')
		if err != nil || !more {
			return err
		}
		start := r.at
		name, err := r.name()
		if err != nil {
			return err
		}
		if seen[name] {
			r.at = start
			return r.fail("member %q comes twice", name)
		}
		seen[name] = true
		if _, err := r.skip(); err != nil {
			return err
		}
	}
}

// skipNumber walks a number by the grammar of RFC 8259, section 6.
func (r *reader) skipNumber() error {
	start := r.at
	for r.at < len(r.raw) && (r.raw[r.at] >= '0' && r.raw[r.at] <= '9' || r.raw[r.at] == '-' ||
		r.raw[r.at] == '+' || r.raw[r.at] == '.' || r.raw[r.at] == 'e' || r.raw[r.at] == 'E') {
		r.at++
	}
	if r.at == start || !json.Valid(r.raw[start:r.at]) {
		r.at = start
		return r.fail("expected a value, found %s", r.found())
	}
	return nil
}
