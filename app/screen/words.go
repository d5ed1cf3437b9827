package screen

import "unicode"

// lowerFirst writes a title inside a sentence; names that begin with two
// capitals stay as they are.
func lowerFirst(s string) string {
	rs := []rune(s)
	if len(rs) > 1 && unicode.IsUpper(rs[1]) {
		return s
	}
	if len(rs) > 0 {
		rs[0] = unicode.ToLower(rs[0])
	}
	return string(rs)
}
