package checks

import (
	"slices"

	"lugmark/core/say"
)

var sayListMore = say.Phrase{Key: "list.more", English: "{first}, {more}"}

// unticked says which options of a list nobody ticked: "Isolator, Date". Empty
// when all were; answered is false when nobody has gone through the list. What
// a newer version added to it and somebody ticked does no harm.
func (s SeveralField) unticked(f *Facts, part string) (left say.Line, answered bool) {
	codes, answered := s.Of(f, part)
	for _, o := range slices.Backward(s.Options) {
		switch {
		case slices.Contains(codes, o.Code):
		case left.Empty():
			left = o.Label.With()
		default:
			left = sayListMore.With("first", o.Label, "more", left)
		}
	}
	return left, answered
}
