package job

import (
	"encoding/hex"
	"time"
)

// The shapes that names in a record have. Each reports whether s has it.

// isUUID: 8-4-4-4-12 lower-case hex digits (RFC 9562, section 4). One spelling
// only, or the same event could be named in two ways.
func isUUID(s string) bool {
	if len(s) != 36 {
		return false
	}
	for i := range len(s) {
		if i == 8 || i == 13 || i == 18 || i == 23 {
			if s[i] != '-' {
				return false
			}
		} else if !isLowerHex(s[i]) {
			return false
		}
	}
	return true
}

func isLowerHex(c byte) bool { return c >= '0' && c <= '9' || c >= 'a' && c <= 'f' }

// isSum: SHA-256 as 64 lower-case hex digits.
func isSum(s string) bool {
	if len(s) != 64 {
		return false
	}
	for i := range len(s) {
		if !isLowerHex(s[i]) {
			return false
		}
	}
	return true
}

func sum(s string) (out [32]byte) {
	hex.Decode(out[:], []byte(s)) // the caller has asked isSum
	return out
}

// isStream: 16 signs of lower-case base32 (RFC 4648, section 6).
func isStream(s string) bool {
	if len(s) != 16 {
		return false
	}
	for i := range len(s) {
		if c := s[i]; !(c >= 'a' && c <= 'z' || c >= '2' && c <= '7') {
			return false
		}
	}
	return true
}

// isSegment: one segment of a field key, also a part, a meter or a choice.
func isSegment(s string) bool {
	for i := range len(s) {
		c := s[i]
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' ||
			c == '.' || c == '~' || c == '@' || c == '-') {
			return false
		}
	}
	return s != ""
}

// isWord: a code word in kebab-case, "no-access".
func isWord(s string) bool {
	if s == "" || s[0] < 'a' || s[0] > 'z' || s[len(s)-1] == '-' {
		return false
	}
	for i := range len(s) {
		if c := s[i]; !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-') {
			return false
		}
	}
	return true
}

// isPerson: "p" and a number, so that nobody's name lands where it cannot be
// erased.
func isPerson(s string) bool { return len(s) > 1 && s[0] == 'p' && isCount(s[1:]) }

// isCount: a whole number from 1, at most 6 digits.
func isCount(s string) bool {
	if s == "" || len(s) > 6 || s[0] == '0' {
		return false
	}
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}

// isPlain: printable ASCII without quotes or backslash, 1 to 80 signs; the
// names of programs, editions, units and media types.
func isPlain(s string) bool {
	for i := range len(s) {
		if c := s[i]; c < 0x20 || c > 0x7e || c == '"' || c == '\\' {
			return false
		}
	}
	return s != "" && len(s) <= 80
}

// isUnit: isPlain without blanks, at most 16 signs.
func isUnit(s string) bool {
	for i := range len(s) {
		if s[i] == ' ' {
			return false
		}
	}
	return isPlain(s) && len(s) <= 16
}

// isType: a word, a slash and a version: "set/1".
func isType(s string) bool {
	for i := range len(s) {
		if s[i] == '/' {
			return isWord(s[:i]) && isCount(s[i+1:])
		}
	}
	return false
}

// isNumber: what stood on the screen: an ASCII minus if negative, digits, and
// after a dot more digits. Zeros are kept on both sides.
func isNumber(s string) bool {
	if s != "" && s[0] == '-' {
		s = s[1:]
	}
	dots := 0
	for i := range len(s) {
		switch c := s[i]; {
		case c == '.' && i > 0 && i < len(s)-1:
			dots++
		case c < '0' || c > '9':
			return false
		}
	}
	return s != "" && len(s) <= 32 && dots <= 1
}

// isDate: a day of the calendar, 2027-03-01.
func isDate(s string) bool {
	if len(s) != 10 {
		return false
	}
	_, err := time.Parse(time.DateOnly, s)
	return err == nil
}

// isTime: RFC 3339 with the offset of the place, in upper case: the day, T, the
// time of day, a fraction or none, and Z or ±hh:mm.
func isTime(s string) bool {
	if len(s) < 20 || s[10] != 'T' || s[13] != ':' || s[16] != ':' || !isDate(s[:10]) ||
		!below(s[11:13], 24) || !below(s[14:16], 60) || !below(s[17:19], 60) {
		return false
	}
	rest := s[19:]
	if rest[0] == '.' {
		i := 1
		for i < len(rest) && rest[i] >= '0' && rest[i] <= '9' {
			i++
		}
		if i == 1 || i > 10 {
			return false
		}
		rest = rest[i:]
	}
	if rest == "Z" {
		return true
	}
	return len(rest) == 6 && (rest[0] == '+' || rest[0] == '-') && rest[3] == ':' &&
		below(rest[1:3], 24) && below(rest[4:6], 60)
}

// below reports whether s is two digits of a number less than most.
func below(s string, most int) bool {
	if s[0] < '0' || s[0] > '9' || s[1] < '0' || s[1] > '9' {
		return false
	}
	return int(s[0]-'0')*10+int(s[1]-'0') < most
}
