package job

import (
	"fmt"
	"strings"
)

// Key names one field of one part at one visit: "v1/b3/rest-voltage". The zero
// Key names nothing.
type Key struct{ Visit, Part, Field string }

// String returns visit/part/field, "" for the zero Key.
func (k Key) String() string {
	if k == (Key{}) {
		return ""
	}
	return k.Visit + "/" + k.Part + "/" + k.Field
}

// ParseKey reads visit/part/field; each segment is made of [A-Za-z0-9.~@-].
func ParseKey(s string) (Key, error) {
	visit, rest, _ := strings.Cut(s, "/")
	part, field, _ := strings.Cut(rest, "/")
	if !isSegment(visit) || !isSegment(part) || !isSegment(field) {
		return Key{}, fmt.Errorf("job: %q is not visit/part/field", s)
	}
	return Key{visit, part, field}, nil
}

// Compare orders keys by visit, part and field, as text.
func (k Key) Compare(other Key) int {
	if c := strings.Compare(k.Visit, other.Visit); c != 0 {
		return c
	}
	if c := strings.Compare(k.Part, other.Part); c != 0 {
		return c
	}
	return strings.Compare(k.Field, other.Field)
}
