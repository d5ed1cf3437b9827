package plain

import (
	"regexp"
	"strings"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/unit"
)

// symbols are the units that a schema names. Parse takes more spellings; a
// file by another program does well to keep to these.
var symbols = []unit.Symbol{
	"V", "mV", "kV", "A", "mA", "kA", "Ohm", "mOhm", "uOhm", "kOhm", "MOhm", "Ah", "mAh", "Wh", "kWh", "J", "W", "kW",
	"C", "F", "K", "N.m", "in.lb", "ft.lb", "m", "cm", "mm", "in", "ft", "mm2", "kg", "lb", "s", "min", "h", "farad", "mF", "uF",
}

// unitsOf lists the units of a quantity.
func unitsOf(base unit.Symbol) (out []string) {
	for _, s := range symbols {
		if b, ok := s.Base(); ok && b == base {
			out = append(out, regexp.QuoteMeta(string(s)))
		}
	}
	return out
}

// digits of a number: a point or a comma, one at most.
const digitsForm = `[-+]?([0-9]+([.,][0-9]*)?|[.,][0-9]+)`

// valueSchema says what a field is and points at what may stand for it.
func valueSchema(f checks.Field) schema {
	description := english(f.Label) + "."
	if f.Hint.English != "" {
		description += " " + english(f.Hint)
	}
	return schema{"description": description, "$ref": "#/$defs/" + valueName(f)}
}

// valueName names the kind of value of a field; fields with one name have one
// form.
func valueName(f checks.Field) string {
	switch f.Kind {
	case checks.Number:
		switch b := base(f); b {
		case "1":
			return "count"
		case "%":
			return "percent"
		default:
			return "quantity-" + string(b)
		}
	case checks.Choice:
		return "choice-" + f.ID
	case checks.Several:
		return "several-" + f.ID
	case checks.Time:
		if f.Setup {
			return "due"
		}
		return "time"
	}
	return "text"
}

// valueDefs has the form of every kind of value.
func valueDefs() schema {
	defs := schema{}
	for _, f := range checks.Fields() {
		defs[valueName(f)] = valueForm(f)
	}
	for _, h := range checks.HouseLimits {
		f := must(h.Check+"."+h.Name, bank.KindHouse)
		defs[valueName(f)] = valueForm(f)
	}
	return defs
}

// valueForm is what may stand for a field: a value, its long form, a skip, or
// a list of values about which people disagree.
func valueForm(f checks.Field) schema {
	short := shortSchema(f)
	full := schema{"n": short}
	if f.Kind == checks.Choice {
		full["at"] = schema{"$ref": "#/$defs/moment"}
	}
	if f.Kind == checks.Number {
		full["m"] = schema{"type": "string", "pattern": "^([mw]" + running + ")?$", "description": "The meter; an empty text says that none is known."}
		full["at"] = schema{"$ref": "#/$defs/moment"}
		full["moving"] = schema{"type": "boolean", "description": "The last digit did not stand still."}
		full["odd"] = schema{"type": "boolean", "description": "Outside the usual, and read so all the same."}
	}
	long := closedObject("The value with its circumstances.", full)
	long["required"] = []string{"n"}
	one := []schema{short, long, {"$ref": "#/$defs/skip"}}
	many := schema{"type": "array", "minItems": 2, "items": schema{"anyOf": one}, "description": "Values about which people disagree."}
	return schema{"anyOf": append(one[:3:3], many)}
}

func shortSchema(f checks.Field) schema {
	switch f.Kind {
	case checks.Number:
		switch b := base(f); b {
		case "1":
			return schema{"anyOf": []schema{{"type": "integer"}, {"type": "string", "pattern": "^[0-9]+$"}}}
		case "%", "ratio":
			return schema{"anyOf": []schema{{"type": "number"}, {"type": "string", "pattern": "^" + digitsForm + "( ?" + string(b) + ")?$"}}}
		default:
			return schema{"type": "string", "pattern": "^" + digitsForm + " ?(" + strings.Join(unitsOf(b), "|") + ")$"}
		}
	case checks.Choice:
		return optionSchema(f.Options)
	case checks.Several:
		return severalSchema(f.Options)
	case checks.Time:
		if f.Setup {
			return schema{"$ref": "#/$defs/day"}
		}
		return schema{"$ref": "#/$defs/moment"}
	}
	return schema{"type": "string", "minLength": 1, "maxLength": maxText}
}

// severalSchema is a text with the codes that were ticked, in any order.
func severalSchema(options []checks.Option) schema {
	var codes, said []string
	for _, o := range options {
		codes, said = append(codes, o.Code), append(said, o.Code+": "+english(o.Label))
	}
	one := "(" + strings.Join(codes, "|") + ")"
	return schema{"type": "string", "pattern": "^(" + noneTicked + "|" + one + "( ?, ?" + one + ")*)$", "description": strings.Join(said, "; ") + "."}
}

func optionSchema(options []checks.Option) schema {
	var each []schema
	for _, o := range options {
		each = append(each, schema{"const": o.Code, "description": english(o.Label)})
	}
	return schema{"anyOf": each}
}

func skipSchema() schema {
	out := closedObject("Not measured, and why.", schema{
		"skip":  optionSchema(checks.Skips),
		"why":   optionSchema(checks.SkipReasons),
		"until": schema{"$ref": "#/$defs/day"},
	})
	out["required"] = []string{"skip", "why"}
	return out
}
