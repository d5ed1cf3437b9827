package checks

import (
	"lugmark/core/bank"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// FieldKind says what kind of answer a field takes.
type FieldKind uint8

const (
	Number FieldKind = iota
	Choice
	Several  // some of its options, or none of them
	Text     // plain text: serials, models
	Personal // text about people and places, kept so that it can be erased
	Time
	Drawing // the layout
)

// Option is one answer of a choice. Code is for ever.
type Option struct {
	Code  string
	Label say.Phrase
}

// Field is one question about one kind of part. It declares the form, the
// limits of a slip of the finger and the id under which the answer is kept; a
// check reads the answer only through the typed field that embeds it.
type Field struct{ *Spec }

// Spec is what a field declares. Fields share it: a field is passed on by one
// word, which keeps the phone app small.
type Spec struct {
	ID      string
	Kind    FieldKind
	Of      []bank.Kind // the kinds of part that have this field
	Stage   Stage
	Label   say.Phrase // what is written down: "Resting voltage"
	Hint    say.Phrase // how to get it, one line
	Plate   string     // the drawing that shows where to touch; "" none
	Unit    unit.Symbol
	Show    unit.Symbol // unit offered for entry and figures; Unit when empty
	Whole   int         // digits before the point of the usual reading, for entry without a point; 0 unknown
	Signed  bool
	Low     float64 // outside [Low, High] the value is outside physics here [Unit]; both 0: any
	High    float64
	Options []Option
	Setup   bool // an entry of an earlier visit still holds; readings never do
	Round   bool // measured part by part along the bank
}

// Entry is the unit offered for entry.
func (f *Spec) Entry() unit.Symbol {
	if f.Show != "" {
		return f.Show
	}
	return f.Unit
}

// Has reports whether parts of this kind have the field.
func (f *Spec) Has(kind bank.Kind) bool {
	for _, k := range f.Of {
		if k == kind {
			return true
		}
	}
	return false
}

// Quantity is a field whose answer is a number of one quantity.
type Quantity[Q unit.Quantity] struct{ Field }

// ChoiceField is a field whose answer is one of its options.
type ChoiceField struct{ Field }

// SeveralField is a field whose answer is the options that were ticked.
type SeveralField struct{ Field }

// TextField is a field whose answer is plain text.
type TextField struct{ Field }

// TimeField is a field whose answer is a time.
type TimeField struct{ Field }

// PersonalField is a field whose answer is text that can be erased.
type PersonalField struct{ Field }

// quantity starts a field of a quantity; the label's key follows from the id.
func quantity[Q unit.Quantity](id string, stage Stage, label, hint string, of ...bank.Kind) Quantity[Q] {
	var q Q
	return Quantity[Q]{Field{&Spec{ID: id, Kind: Number, Of: of, Stage: stage, Unit: q.Symbol(), Label: labelOf(id, label), Hint: hintOf(id, hint)}}}
}

// in offers another unit of the same quantity for entry.
func (q Quantity[Q]) in(show unit.Symbol) Quantity[Q] { q.Show = show; return q }

// physics sets what a reading can be at all [Unit]; outside it is a slip.
func (q Quantity[Q]) physics(low, high float64) Quantity[Q] {
	q.Low, q.High, q.Signed = low, high, low < 0
	return q
}

// round marks a reading taken part by part; whole is the number of digits
// before the point of a usual reading and plate the drawing that helps.
func (q Quantity[Q]) round(whole int, plate string) Quantity[Q] {
	q.Round, q.Whole, q.Plate = true, whole, plate
	return q
}

// worded gives label and hint a key of their own, where another kind of part
// has a field of the same id and other words.
func (q Quantity[Q]) worded(key string) Quantity[Q] { q.Field = q.Field.worded(key); return q }
func (t TextField) worded(key string) TextField     { t.Field = t.Field.worded(key); return t }

func (f Field) worded(key string) Field {
	f.Label.Key = "field." + key
	if f.Hint.Key != "" {
		f.Hint.Key = "hint." + key
	}
	return f
}

// setup marks an entry that holds until it is changed.
func (q Quantity[Q]) setup() Quantity[Q] { q.Setup = true; return q }

func choice(id string, stage Stage, label, hint string, options []Option, of ...bank.Kind) ChoiceField {
	return ChoiceField{Field{&Spec{ID: id, Kind: Choice, Of: of, Stage: stage, Label: labelOf(id, label), Hint: hintOf(id, hint), Options: options}}}
}

func (c ChoiceField) setup() ChoiceField { c.Setup = true; return c }
func (c ChoiceField) round() ChoiceField { c.Round = true; return c }

func several(id string, stage Stage, label, hint string, options []Option, of ...bank.Kind) SeveralField {
	return SeveralField{Field{&Spec{ID: id, Kind: Several, Of: of, Stage: stage, Label: labelOf(id, label), Hint: hintOf(id, hint), Options: options}}}
}

func text(id string, stage Stage, label, hint string, of ...bank.Kind) TextField {
	return TextField{Field{&Spec{ID: id, Kind: Text, Of: of, Stage: stage, Setup: true, Label: labelOf(id, label), Hint: hintOf(id, hint)}}}
}

// oneOf offers the usual answers of a text.
func (t TextField) oneOf(list []Option) TextField { t.Options = list; return t }

func moment(id string, stage Stage, label, hint string, of ...bank.Kind) TimeField {
	return TimeField{Field{&Spec{ID: id, Kind: Time, Of: of, Stage: stage, Label: labelOf(id, label), Hint: hintOf(id, hint)}}}
}

func (t TimeField) setup() TimeField { t.Setup = true; return t }

func personal(id string, stage Stage, label, hint string, of ...bank.Kind) PersonalField {
	return PersonalField{Field{&Spec{ID: id, Kind: Personal, Of: of, Stage: stage, Setup: true, Label: labelOf(id, label), Hint: hintOf(id, hint)}}}
}

func labelOf(id, english string) say.Phrase { return say.Phrase{Key: "field." + id, English: english} }

func hintOf(id, english string) say.Phrase {
	if english == "" {
		return say.Phrase{}
	}
	return say.Phrase{Key: "hint." + id, English: english}
}

// options makes the answers of a choice: code, English, code, English.
func options(id string, pairs ...string) []Option {
	var out []Option
	for i := 0; i+1 < len(pairs); i += 2 {
		out = append(out, Option{Code: pairs[i], Label: say.Phrase{Key: "option." + id + "." + pairs[i], English: pairs[i+1]}})
	}
	return out
}

// yesNo are the answers of a question of fact.
var yesNo = options("yes-no", "yes", "Yes", "no", "No")
