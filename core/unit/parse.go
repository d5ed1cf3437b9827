package unit

import (
	"strconv"
	"strings"

	"lugmark/core/say"
)

// scale turns a number in one unit into the base unit of its quantity:
// base = number·Factor + Offset.
type scale struct {
	Base   Symbol
	Factor float64
	Offset float64
}

// scales holds every unit that can be typed. Inch, foot, pound and
// pound-force are exact by definition (0.0254 m, 0.45359237 kg,
// 4.4482216152605 N; NIST SP 811, appendix B).
var scales = map[Symbol]scale{
	"V": {"V", 1, 0}, "mV": {"V", 1e-3, 0}, "kV": {"V", 1e3, 0},
	"A": {"A", 1, 0}, "mA": {"A", 1e-3, 0}, "kA": {"A", 1e3, 0},
	"Ohm": {"Ohm", 1, 0}, "mOhm": {"Ohm", 1e-3, 0}, "uOhm": {"Ohm", 1e-6, 0}, "kOhm": {"Ohm", 1e3, 0}, "MOhm": {"Ohm", 1e6, 0},
	"Ah": {"Ah", 1, 0}, "mAh": {"Ah", 1e-3, 0},
	"Wh": {"Wh", 1, 0}, "kWh": {"Wh", 1e3, 0}, "J": {"Wh", 1.0 / 3600, 0},
	"W": {"W", 1, 0}, "kW": {"W", 1e3, 0},
	"C": {"C", 1, 0}, "F": {"C", 1 / 1.8, -32 / 1.8},
	"K":   {"K", 1, 0},
	"N.m": {"N.m", 1, 0}, "in.lb": {"N.m", 4.4482216152605 * 0.0254, 0}, "ft.lb": {"N.m", 4.4482216152605 * 0.3048, 0},
	"m": {"m", 1, 0}, "cm": {"m", 1e-2, 0}, "mm": {"m", 1e-3, 0}, "in": {"m", 0.0254, 0}, "ft": {"m", 0.3048, 0},
	"mm2": {"mm2", 1, 0},
	"kg":  {"kg", 1, 0}, "lb": {"kg", 0.45359237, 0},
	"s": {"s", 1, 0}, "min": {"s", 60, 0}, "h": {"s", 3600, 0},
	"farad": {"farad", 1, 0}, "mF": {"farad", 1e-3, 0}, "uF": {"farad", 1e-6, 0},
	"1": {"1", 1, 0}, "%": {"%", 1, 0}, "ratio": {"ratio", 1, 0},
}

// spellings are other ways in which people and other programs write a unit.
var spellings = map[string]Symbol{
	"Ω": "Ohm", "mΩ": "mOhm", "µΩ": "uOhm", "μΩ": "uOhm", "kΩ": "kOhm", "MΩ": "MOhm", "ohm": "Ohm",
	"°C": "C", "°F": "F", "N·m": "N.m", "Nm": "N.m", "N m": "N.m", "in·lb": "in.lb", "ft·lb": "ft.lb",
	"mm²": "mm2", "v": "V", "a": "A", "µF": "uF", "μF": "uF",
}

// Number is what somebody typed: the digits as they stood (dot, ASCII digits,
// ASCII minus, all zeros kept), their unit, and what follows from them.
type Number struct {
	Digits   string
	Unit     Symbol
	Value    float64 // in the base unit
	Step     float64 // weight of the last typed digit, in the base unit
	Decimals int
}

// Slip is a sentence for the person who typed: what is wrong and how to mend it.
type Slip struct{ say.Line }

func (s *Slip) Error() string { return say.Voice{}.Say(s.Line) }

var (
	slipEmpty      = say.Phrase{Key: "slip.empty", English: "Nothing is typed yet."}
	slipSeparators = say.Phrase{Key: "slip.separators", English: "“{text}” has more than one point or comma. Type one, before the decimals."}
	slipLetter     = say.Phrase{Key: "slip.letter", English: "“{sign}” is not a digit. Type the number that the meter shows."}
	slipMinus      = say.Phrase{Key: "slip.minus", English: "This value cannot be below zero. Check the sign."}
	slipUnit       = say.Phrase{Key: "slip.unit", English: "“{text}” is in {typed}; this asks for {want}. Type the value in {want}."}
	slipUnknown    = say.Phrase{Key: "slip.unknown-unit", English: "“{typed}” is neither a digit nor a unit known here. Type the value in {want}."}
	slipLong       = say.Phrase{Key: "slip.long", English: "“{text}” has too many digits for a meter."}
)

// maxDigits is more than any hand meter shows; longer text is a slip of the finger.
const maxDigits = 12

// Base gives the base unit of a symbol's quantity; ok is false for an unknown unit.
func (s Symbol) Base() (base Symbol, ok bool) {
	sc, ok := scales[s]
	return sc.Base, ok
}

// ToBase turns a number in this unit into the base unit.
func (s Symbol) ToBase(x float64) float64 { sc := scales[s]; return x*sc.Factor + sc.Offset }

// FromBase turns a value in the base unit into this unit.
func (s Symbol) FromBase(x float64) float64 { sc := scales[s]; return (x - sc.Offset) / sc.Factor }

// Scale turns a difference in this unit into the base unit: no offset.
func (s Symbol) Scale(x float64) float64 { return x * scales[s].Factor }

// Known finds a unit by its ASCII symbol or a usual spelling.
func Known(text string) (Symbol, bool) {
	if _, ok := scales[Symbol(text)]; ok {
		return Symbol(text), true
	}
	s, ok := spellings[text]
	return s, ok
}

// Parse reads what a person typed for a quantity whose unit is want: a comma
// or a point, digits of other scripts, a pasted unit of the same quantity. A
// lone comma is always decimal; two separators are refused, never guessed.
// A nil Slip means that the number is good.
func Parse(text string, want Symbol, signed bool) (Number, *Slip) {
	clean := strings.TrimSpace(strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2212", "-", "\u066b", ".").Replace(text))
	digits, rest := splitUnit(clean)
	if digits == "" && rest == "" {
		return Number{}, &Slip{slipEmpty.With()}
	}
	if digits == "" {
		return Number{}, &Slip{slipLetter.With("sign", rest)}
	}
	symbol := want
	if rest != "" {
		s, ok := Known(rest)
		switch {
		case !ok && startsLikeNumber(rest):
			return Number{}, &Slip{slipLetter.With("sign", firstSign(rest))}
		case !ok:
			return Number{}, &Slip{slipUnknown.With("typed", rest, "want", string(want))}
		}
		if base, _ := s.Base(); base != mustBase(want) {
			return Number{}, &Slip{slipUnit.With("text", clean, "typed", string(s), "want", string(want))}
		}
		symbol = s
	}
	return number(digits, symbol, signed, clean)
}

// Stored reads the digits and unit of a record: strict, as [Parse] has left them.
func Stored(digits string, symbol Symbol) (Number, bool) {
	if strings.ContainsAny(digits, ", +") {
		return Number{}, false
	}
	if _, ok := scales[symbol]; !ok {
		return Number{}, false
	}
	n, slip := number(digits, symbol, true, digits)
	return n, slip == nil && n.Digits == digits
}

// number checks the sign, separators and length and computes value and step.
func number(digits string, symbol Symbol, signed bool, shown string) (Number, *Slip) {
	negative := strings.HasPrefix(digits, "-")
	body := strings.TrimLeft(digits, "+-")
	if len(digits)-len(body) > 1 {
		return Number{}, &Slip{slipLetter.With("sign", digits[:2])}
	}
	if strings.Count(body, ".")+strings.Count(body, ",") > 1 {
		return Number{}, &Slip{slipSeparators.With("text", shown)}
	}
	body = strings.Replace(body, ",", ".", 1)
	if i := strings.IndexFunc(body, func(r rune) bool { return r != '.' && (r < '0' || r > '9') }); i >= 0 {
		return Number{}, &Slip{slipLetter.With("sign", firstSign(body[i:]))}
	}
	whole, fraction, point := strings.Cut(body, ".")
	if whole == "" && fraction == "" {
		return Number{}, &Slip{slipEmpty.With()}
	}
	if len(whole)+len(fraction) > maxDigits {
		return Number{}, &Slip{slipLong.With("text", shown)}
	}
	if whole == "" {
		whole = "0"
	}
	body = whole
	if point && fraction != "" {
		body += "." + fraction
	}
	x, err := strconv.ParseFloat(body, 64)
	if err != nil {
		return Number{}, &Slip{slipLetter.With("sign", shown)}
	}
	if negative && x != 0 {
		if !signed {
			return Number{}, &Slip{slipMinus.With()}
		}
		body, x = "-"+body, -x
	}
	step, _ := strconv.ParseFloat("1e-"+strconv.Itoa(len(fraction)), 64)
	return Number{Digits: body, Unit: symbol, Value: symbol.ToBase(x), Step: symbol.Scale(step), Decimals: len(fraction)}, nil
}

// splitUnit parts "13,20 V" into ASCII digits with sign and separators, and the rest.
func splitUnit(s string) (digits, rest string) {
	var b strings.Builder
	for i, r := range s {
		switch {
		case r >= '0' && r <= '9', r == '.', r == ',', (r == '-' || r == '+') && b.Len() == 0:
			b.WriteRune(r)
		case r >= '\u0660' && r <= '\u0669': // Arabic-Indic digits
			b.WriteRune('0' + r - '\u0660')
		case r >= '\u06f0' && r <= '\u06f9': // Persian and Urdu digits
			b.WriteRune('0' + r - '\u06f0')
		default:
			return b.String(), strings.TrimSpace(s[i:])
		}
	}
	return b.String(), ""
}

// startsLikeNumber tells "5o.2" (a mistyped digit) from "5 bar" (a unit).
func startsLikeNumber(rest string) bool { return strings.ContainsAny(rest, "0123456789.,") }

func firstSign(s string) string {
	for _, r := range s {
		return string(r)
	}
	return s
}

func mustBase(s Symbol) Symbol { return scales[s].Base }
