package job

import (
	"bytes"
	"encoding/json"
	"slices"
)

// Kind says which members of a [Value] are in use.
type Kind int

const (
	NoValue      Kind = iota // the zero Value: nothing was put there
	KindQuantity             // Number Unit Meter Source When Moving Odd
	KindChoice               // Choice When
	KindChoices              // Choices
	KindText                 // Text
	KindPersonal             // X
	KindTime                 // Time
	KindFile                 // File
	KindLayout               // Layout
	KindSkip                 // Skip Why Until X
	KindOverride             // Over Who X
)

// Ways to skip a field.
const (
	SkipNotNeeded = "not-needed"
	SkipLater     = "later"
	SkipCannot    = "cannot"
	SkipUnsafe    = "unsafe"
)

// Value is what a person put into one field. Members that do not belong to its
// Kind are empty.
type Value struct {
	Kind Kind

	Number string // as it stood on the screen: "-13.20", zeros kept; never an SI value
	Unit   string // the ASCII symbol it was typed in: "V", "mOhm"
	Meter  string // the part that measured: "m1"; "" none entered
	Source string // how it came here: "typed", "photo", "file"
	When   string // RFC 3339, if measured or done at another time than kept; else ""
	Moving bool   // the last digit did not stand still
	Odd    bool   // out of the usual range, and kept all the same

	Choice  string   // "yes"
	Choices []string // in ascending order, may be empty: none of them
	Text    string   // serials and models; nothing about a person
	Time    string   // RFC 3339, or a day
	File    Ref
	Layout  json.RawMessage // one object without blanks; core/bank reads it

	Skip  string // one of the Skip words
	Why   string // the reason as a code word: "no-access"
	Until string // RFC 3339 or a day, "" when open

	Over []string // check@part of every verdict that is overridden, in ascending order
	Who  string   // the person who takes it on: "p2"

	X Ref // the personal text, or the written reason of a skip or an override
}

// Agree reports whether a and b say the same: all but how and when it was got.
// "13.2" is not "13.20", and a reading by another meter is another reading.
func Agree(a, b Value) bool {
	return a.Kind == b.Kind && a.Number == b.Number && a.Unit == b.Unit && a.Meter == b.Meter &&
		a.Moving == b.Moving && a.Odd == b.Odd &&
		a.Choice == b.Choice && slices.Equal(a.Choices, b.Choices) && a.Text == b.Text &&
		a.Time == b.Time && a.File == b.File && bytes.Equal(a.Layout, b.Layout) &&
		a.Skip == b.Skip && a.Why == b.Why && a.Until == b.Until &&
		slices.Equal(a.Over, b.Over) && a.Who == b.Who && a.X == b.X
}

func (v Value) append(b []byte) []byte {
	o := object{b: b}
	v.members(&o)
	return o.end()
}

func (v Value) members(o *object) {
	switch v.Kind {
	case KindQuantity:
		o.text("n", v.Number)
		o.text("u", v.Unit)
		o.optText("m", v.Meter)
		o.text("src", v.Source)
		o.optText("when", v.When)
		o.optTrue("moving", v.Moving)
		o.optTrue("odd", v.Odd)
	case KindChoice:
		o.text("c", v.Choice)
		o.optText("when", v.When)
	case KindChoices:
		o.texts("cs", v.Choices)
	case KindText:
		o.text("s", v.Text)
	case KindPersonal:
		o.ref("x", v.X)
	case KindTime:
		o.text("t", v.Time)
	case KindFile:
		o.ref("file", v.File)
	case KindLayout:
		o.raw("layout", v.Layout)
	case KindSkip:
		o.text("skip", v.Skip)
		o.text("why", v.Why)
		o.optText("until", v.Until)
		o.optRef("x", v.X)
	case KindOverride:
		o.texts("over", v.Over)
		o.text("who", v.Who)
		o.ref("x", v.X)
	}
}
