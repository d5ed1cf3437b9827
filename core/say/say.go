// Package say holds what the program says to people: phrases with named
// places, and the figures that fill them.
//
// A [Phrase] is declared once, in the file that needs it, with its key and its
// English. Other languages are catalogues with the same keys. A [Line] is a
// phrase with its places filled; it carries no language, so the same finding
// reads in the technician's language on the phone and in the owner's on paper.
//
// It does not decide how many digits a figure shows; see core/figure.
package say

import "strings"

// Phrase is one sentence with places in braces: "Block {block} reads {volts}."
// Key is for ever: translations hang on it.
type Phrase struct {
	Key     string
	English string
}

// Line is a phrase with its places filled. The zero Line says nothing.
type Line struct {
	Phrase
	Args []Arg
}

// Arg fills one place. Value is a string, a [Figure] or a [Line].
type Arg struct {
	Name  string
	Value any
}

// Figure is a number ready to be said: its digits as ASCII ("-13.20",
// "0.0020 ± 0.0008", "2.0 to 18") and the ASCII symbol of its unit ("V", "N.m").
type Figure struct {
	Digits string
	Unit   string
}

// With fills the places of p. Pairs are name, value, name, value; a value that
// is not a string, Figure, Line or Phrase is a mistake of the caller and panics.
func (p Phrase) With(pairs ...any) Line {
	l := Line{Phrase: p}
	for i := 0; i+1 < len(pairs); i += 2 {
		value := pairs[i+1]
		switch v := value.(type) {
		case string, Figure, Line:
		case Phrase:
			value = v.With()
		default:
			panic("say: phrase " + p.Key + ": a place takes a string, a Figure, a Line or a Phrase")
		}
		l.Args = append(l.Args, Arg{Name: pairs[i].(string), Value: value})
	}
	return l
}

// Empty reports whether l says nothing.
func (l Line) Empty() bool { return l.English == "" }

// Voice is how lines are written out: the language, its decimal separator and
// whether the typographic signs of screen and paper are used. The zero Voice
// is English in ASCII signs, as in files.
type Voice struct {
	Phrases    map[string]string // key to translation; a missing key falls back to English
	Comma      bool              // decimal comma
	Typography bool              // U+2212 minus, no-break space before the unit, Ω and °C
}

// Screen is the English of screen and paper.
var Screen = Voice{Typography: true}

// Say writes l out. A place without an argument keeps its braces, so that a
// mistake is seen and not swallowed.
func (v Voice) Say(l Line) string {
	text := l.English
	if t, ok := v.Phrases[l.Key]; ok {
		text = t
	}
	if len(l.Args) == 0 {
		return text
	}
	pairs := make([]string, 0, 2*len(l.Args))
	for _, a := range l.Args {
		var s string
		switch x := a.Value.(type) {
		case string:
			s = x
		case Figure:
			s = v.Figure(x)
		case Line:
			s = v.Say(x)
		}
		pairs = append(pairs, "{"+a.Name+"}", s)
	}
	return strings.NewReplacer(pairs...).Replace(text)
}

// displayUnits are the signs of screen and paper for the ASCII symbols of files.
var displayUnits = map[string]string{
	"Ohm": "Ω", "mOhm": "mΩ", "uOhm": "µΩ", "MOhm": "MΩ", "C": "°C", "F": "°F",
	"N.m": "N·m", "in.lb": "in·lb", "mm2": "mm²", "farad": "F",
}

// Unit gives the sign of an ASCII unit symbol in this voice.
func (v Voice) Unit(symbol string) string {
	if symbol == "1" || symbol == "ratio" {
		return ""
	}
	if d, ok := displayUnits[symbol]; ok && v.Typography {
		return d
	}
	return symbol
}

// Figure writes digits and unit in this voice.
func (v Voice) Figure(f Figure) string {
	digits := v.Digits(f.Digits)
	unit := v.Unit(f.Unit)
	switch {
	case unit == "":
		return digits
	case v.Typography:
		return digits + "\u00a0" + unit
	default:
		return digits + " " + unit
	}
}

// Digits writes ASCII digits with this voice's separator and minus.
func (v Voice) Digits(s string) string {
	if v.Comma {
		s = strings.ReplaceAll(s, ".", ",")
	}
	if v.Typography {
		s = strings.ReplaceAll(s, "-", "\u2212")
		s = strings.ReplaceAll(s, " ± ", "\u00a0±\u00a0")
	}
	return s
}
