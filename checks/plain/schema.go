package plain

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/say"
)

// node of a schema; encoding/json writes its names in order.
type schema map[string]any

// Schema gives the form of a plain job file as a JSON Schema (2020-12), made
// from the catalogue of fields, so that the two cannot part. It says what a
// schema can say: names, units, words. That a number is within physics, a part
// in the layout and a key given once is for [Parse].
func Schema() []byte {
	defs := valueDefs()
	defs["moment"] = schema{"type": "string", "pattern": moment, "description": "A time with its offset: 2026-11-25T12:00:00+01:00."}
	defs["day"] = schema{"type": "string", "pattern": "^" + day + "$|" + moment, "description": "A day, or a time with its offset."}
	defs["skip"] = skipSchema()
	root := schema{
		"$schema":              "https://json-schema.org/draft/2020-12/schema",
		"$id":                  "lugmark-job-1.schema.json",
		"title":                "Lugmark plain job file",
		"description":          "One battery bank: its layout, sheets, parts, meters and readings. Quantities are texts with their unit, counts are whole numbers. Edition of the rules: " + checks.Rules + ".",
		"type":                 "object",
		"required":             []string{"lugmark"},
		"additionalProperties": false,
		"properties": schema{
			"lugmark":  schema{"const": Form},
			"title":    valueSchema(must("name", bank.KindSite)),
			"now":      schema{"$ref": "#/$defs/moment", "description": "When to judge. Missing: the latest time in the file."},
			"visit":    schema{"type": "string", "pattern": "^" + visitForm + "$", "description": "Which visit to judge. Missing: the latest of the readings; v1 is commissioning."},
			"layout":   layoutSchema(),
			"sheets":   sheetsSchema(),
			"parts":    partsSchema("Setup of any part.", kindsInOrder()...),
			"meters":   partsSchema("Meters and torque wrenches.", bank.KindMeter, bank.KindWrench),
			"use":      useSchema(),
			"house":    houseSchema(),
			"readings": readingsSchema(),
		},
		"$defs": defs,
	}
	raw, err := json.MarshalIndent(root, "", " ")
	if err != nil {
		panic("plain: schema: " + err.Error()) // only texts, lists and maps stand in it
	}
	return append(raw, '\n')
}

const (
	visitForm = "v[1-9][0-9]{0,2}"
	day       = "[1-9][0-9]{3}-[01][0-9]-[0-3][0-9]"
	moment    = "^" + day + `T[0-2][0-9]:[0-5][0-9]:[0-5][0-9](\.[0-9]{1,9})?(Z|[+-][0-2][0-9]:[0-5][0-9])$`
)

// forms of the ids of each kind of part, for a reader without our code.
var forms = []struct {
	kind bank.Kind
	form string
}{
	{bank.KindBank, "bank"}, {bank.KindSite, "site"}, {bank.KindHouse, "house"}, {bank.KindSwitch, "switch"}, {bank.KindShunt, "shunt"},
	{bank.KindBlock, block}, {bank.KindPost, block + `\.[pn]`}, {bank.KindString, "s[A-P]"}, {bank.KindGroup, "g[A-P]"},
	{bank.KindEnd, `[sg][A-P]\.[pn]`}, {bank.KindBar, `bar\.[pn]`}, {bank.KindLink, link}, {bank.KindJoint, link + "@" + end},
	{bank.KindStage, `stage\.[a-z-]+`}, {bank.KindLead, `lead\.[pn]`}, {bank.KindFuse, `fuse\.(main|[A-P])`},
	{bank.KindCharger, "charger" + running}, {bank.KindInverter, "inverter" + running}, {bank.KindSheet, "sheet" + running},
	{bank.KindCable, "cable" + running}, {bank.KindMeter, "m" + running}, {bank.KindWrench, "w" + running}, {bank.KindPerson, "p" + running},
	{bank.KindRest, "rest" + running}, {bank.KindCharge, "charge" + running}, {bank.KindCapacity, "capacity" + running}, {bank.KindLoad, "load" + running},
	{bank.KindSample, "(rest|charge|capacity|load)" + running + `\.[0-9a-zA-Z-]+`},
}

const (
	running = "[1-9][0-9]{0,5}"
	block   = "b[1-9][0-9]{0,2}"
	end     = `(` + block + `|s[A-P]|g[A-P]|bar)\.[pn]`
	link    = end + "~" + end + "(~[2-9])?"
)

func formOf(kind bank.Kind) string {
	for _, f := range forms {
		if f.kind == kind {
			return f.form
		}
	}
	return ""
}

func kindsInOrder() (out []bank.Kind) {
	for _, f := range forms {
		out = append(out, f.kind)
	}
	return out
}

func must(id string, kind bank.Kind) checks.Field {
	f, ok := checks.FieldOfKind(id, kind)
	if !ok {
		panic("plain: schema: no field " + id)
	}
	return f
}

func english(p say.Phrase) string { return say.Voice{}.Say(p.With()) }

func closedObject(description string, properties schema) schema {
	return schema{"type": "object", "description": description, "additionalProperties": false, "properties": properties}
}

func layoutSchema() schema {
	count := schema{"type": "integer", "minimum": 1, "maximum": 16}
	blocks := schema{"type": "array", "items": schema{"type": "string", "pattern": "^" + block + "$"}, "uniqueItems": true, "description": "Block ids from the plus side: down string A, then B; or along group A, then B. Missing: 1, 2, 3 in order."}
	out := closedObject("How the blocks are joined.", schema{
		"series": count, "parallel": count,
		"join": schema{"enum": []bank.Join{bank.JoinStrings, bank.JoinGroups}},
		"takeoff": schema{"anyOf": []schema{
			{"enum": []bank.Takeoff{bank.OneEnd, bank.Diagonal, bank.EqualLeads}},
			{"type": "array", "items": schema{"type": "string"}, "minItems": 2, "maxItems": 2, "description": "Where the plus and the minus lead land."},
		}},
		"place": blocks,
	})
	out["required"] = []string{"series", "parallel", "join", "takeoff"}
	return out
}

// setupOf lists the fields of a kind that are no readings.
func setupOf(kind bank.Kind) schema {
	properties := schema{}
	for _, f := range checks.FieldsOfKind(kind) {
		if f.Setup && f.Kind != checks.Drawing {
			properties[f.ID] = valueSchema(f)
		}
	}
	return properties
}

func sheetsSchema() schema {
	properties := setupOf(bank.KindSheet)
	one := valueSchema(must("torque-nominal", bank.KindSheet))
	properties["torque"] = schema{"description": "One torque, or from and to.", "anyOf": []schema{one, {"type": "array", "items": one, "minItems": 2, "maxItems": 2}}}
	properties["blocks"] = schema{"type": "array", "items": schema{"type": "string", "pattern": "^" + block + "$"}, "description": "The blocks of which the sheet speaks."}
	return schema{"type": "object", "additionalProperties": false, "description": "Makers' sheets of the blocks.",
		"patternProperties": schema{"^" + formOf(bank.KindSheet) + "$": closedObject("A block sheet.", properties)}}
}

func partsSchema(description string, kinds ...bank.Kind) schema {
	parts := schema{}
	for _, kind := range kinds {
		if properties := setupOf(kind); len(properties) > 0 {
			parts["^"+formOf(kind)+"$"] = closedObject("A "+string(kind)+".", properties)
		}
	}
	return schema{"type": "object", "description": description, "additionalProperties": false, "patternProperties": parts}
}

func useSchema() schema {
	properties := schema{}
	for _, u := range checks.MeterUses {
		properties[u.Name] = valueSchema(must(u.Field.ID, bank.KindBank))
	}
	return closedObject("The meter of this job for each quantity; a reading may name another.", properties)
}

func houseSchema() schema {
	perCheck := map[string]schema{}
	for _, h := range checks.HouseLimits {
		if perCheck[h.Check] == nil {
			perCheck[h.Check] = schema{}
		}
		perCheck[h.Check][h.Name] = valueSchema(must(h.Check+"."+h.Name, bank.KindHouse))
	}
	properties := schema{}
	for check, limits := range perCheck {
		properties[check] = closedObject("The firm's own limits of "+check+".", limits)
	}
	return closedObject("The firm's own limits. They may tighten a rule.", properties)
}

// readingsSchema has a pattern for every field: the kinds of part that have it.
func readingsSchema() schema {
	patterns := schema{}
	for _, f := range checks.Fields() {
		if f.Kind == checks.Drawing {
			continue
		}
		var kinds []string
		for _, kind := range f.Of {
			kinds = append(kinds, formOf(kind))
		}
		slices.Sort(kinds)
		key := fmt.Sprintf("^(%s/)?(%s)/%s(#[1-9][0-9]{0,3})?$", visitForm, strings.Join(kinds, "|"), f.ID)
		patterns[key] = valueSchema(f)
	}
	return schema{"type": "object", "additionalProperties": false, "patternProperties": patterns,
		"description": "What was read and confirmed, in its order, by part/field or visit/part/field. #1, #2 … behind a key are earlier values of the same field."}
}
