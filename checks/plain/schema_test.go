package plain

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"lugmark/checks"
	"lugmark/checks/sample"
)

func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("job.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("job.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func keeps(t *testing.T, s *jsonschema.Schema, text string) error {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader([]byte(text)))
	if err != nil {
		t.Fatal(err)
	}
	return s.Validate(doc)
}

func TestTheSchemaKnowsAGoodFile(t *testing.T) {
	s := compiled(t)
	for _, text := range []string{
		jetty, `{"lugmark": "job/1"}`,
		with("", `"b1.n~b2.p@b1.n/drop": "0.4 mV", "b1.p~b3.p/closed#1": "yes", "b1/temperature": ["18 C", {"n": "19 C", "odd": true}], "sA.p/step-voltage": "26,6V"`),
		with("", `"bank/labels": "isolator,date , voltage", "bank/documents": "none", "bank/owner-briefed": ["cold", {"n": "cold, call"}]`),
		with(`, "house": {"rested": {"rest": "24 h"}, "capacity": {"rated": 0.98}}`, `"charge1.a-1/sample-current": "-3.5 A", "capacity1/duration": "5 h"`),
	} {
		if err := keeps(t, s, text); err != nil {
			t.Errorf("%v\n%s", err, text)
		}
		if _, faults := Parse([]byte(text)); len(faults) > 0 {
			t.Errorf("%v\n%s", faults, text)
		}
	}
}

func TestTheSchemaKnowsTheSamples(t *testing.T) {
	s := compiled(t)
	for _, x := range sample.List() {
		if err := keeps(t, s, string(x.Raw)); err != nil {
			t.Errorf("%s: %v", x.ID, err)
		}
		for _, slip := range [][2]string{{`"job/1"`, `"job/3"`}, {`"series"`, `"serial"`}, {`"100 Ah"`, `"100 A"`}, {`"measures"`, `"measure"`}, {`"hazards-read": "yes"`, `"hazards-read": "ok"`}} {
			broken := strings.Replace(string(x.Raw), slip[0], slip[1], 1)
			if broken != string(x.Raw) && keeps(t, s, broken) == nil {
				t.Errorf("%s with %s is taken for good", x.ID, slip[1])
			}
		}
	}
}

func TestTheSchemaKnowsABadFile(t *testing.T) {
	s := compiled(t)
	for _, text := range []string{
		`{}`, `[]`, `{"lugmark": "job/2"}`, `{"lugmark": "job/1", "metres": {}}`,
		`{"lugmark": "job/1", "layout": {"series": 17, "parallel": 1, "join": "strings", "takeoff": "one-end"}}`,
		`{"lugmark": "job/1", "layout": {"series": 2, "parallel": 1, "takeoff": "one-end"}}`,
		with("", `"b1/rest-voltage": "13.2 A"`), with("", `"b1/rest-voltage": "13.2"`), with("", `"b1/rest-voltage": 13.2`),
		with("", `"b1/rest-voltage": "1.3.2 V"`), with("", `"b1/rest-volts": "13.2 V"`), with("", `"b1/torque-set": "9 N.m"`),
		with("", `"block1/rest-voltage": "13.2 V"`), with("", `"b1.n~b2.p/closed": "yess"`), with("", `"b1.n~b2.p/closed": true`),
		with("", `"b1/temperature": {"skip": "later"}`), with("", `"b1/temperature": {"moving": true}`), with("", `"b1/temperature": null`),
		with("", `"bank/labels": "voltage, datum"`), with("", `"bank/labels": "none, date"`), with("", `"bank/labels": ""`),
		with("", `"bank/last-current": "2026-11-24"`), with("", `"b1.n~b2.p/closed": {"n": "yes", "m": "m1"}`), with("", `"b1/temperature": ["18 C"]`),
		with(`, "parts": {"charger1": {"absorption": "28.4 V"}}`, ""), with(`, "sheets": {"m1": {}}`, ""), with(`, "sheets": {"sheet1": {"series-max": 4.5}}`, ""),
	} {
		if keeps(t, s, text) == nil {
			t.Errorf("taken for good: %s", text)
		}
		if f, _ := Parse([]byte(text)); f != nil {
			t.Errorf("read: %s", text)
		}
	}
}

// Each field of the catalogue has its place, and each unit its name.
func TestTheSchemaHasEveryFieldAndUnit(t *testing.T) {
	raw := Schema()
	for _, f := range checks.Fields() {
		if f.Kind != checks.Drawing && !bytes.Contains(raw, []byte("/"+f.ID+"(#")) {
			t.Errorf("%s is missing", f.ID)
		}
		for _, kind := range f.Of {
			if formOf(kind) == "" {
				t.Errorf("no form for the ids of a %s", kind)
			}
		}
		if f.Kind == checks.Number && !bare(base(f)) {
			if !bytes.Contains([]byte(unitList(f)), []byte(string(f.Entry()))) {
				t.Errorf("%s is asked in %s, which the schema does not name", f.ID, f.Entry())
			}
		}
	}
	if !bytes.Equal(raw, Schema()) {
		t.Error("not the same twice")
	}
}

func unitList(f checks.Field) (out string) {
	for _, s := range symbols {
		if b, _ := s.Base(); b == base(f) {
			out += string(s) + " "
		}
	}
	return out
}

// Fields that share a name in the schema take the same answers.
func TestFieldsOfOneFormAgree(t *testing.T) {
	forms := map[string]string{}
	for _, f := range checks.Fields() {
		raw, err := json.Marshal(valueForm(f))
		if err != nil {
			t.Fatal(err)
		}
		if was := forms[valueName(f)]; was != "" && was != string(raw) {
			t.Errorf("%s: two forms of %s", f.ID, valueName(f))
		}
		forms[valueName(f)] = string(raw)
	}
}
