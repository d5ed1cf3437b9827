package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"lugmark/checks"
)

// object is a JSON object whose members keep their order: readings are kept in
// the order in which they stand in the file.
type object struct {
	names  []string
	values map[string]json.RawMessage
}

// members reads an object; false for anything else.
func members(raw json.RawMessage) (object, bool) {
	o := object{values: map[string]json.RawMessage{}}
	dec := json.NewDecoder(bytes.NewReader(raw))
	if open, err := dec.Token(); err != nil || open != json.Delim('{') {
		return o, false
	}
	for dec.More() {
		name, err := dec.Token()
		var value json.RawMessage
		if err != nil || dec.Decode(&value) != nil {
			return o, false
		}
		o.set(name.(string), value)
	}
	return o, true
}

func (o *object) set(name string, value json.RawMessage) {
	if _, has := o.values[name]; !has {
		o.names = append(o.names, name)
	}
	o.values[name] = value
}

func (o *object) drop(name string) {
	delete(o.values, name)
	o.names = slices.DeleteFunc(o.names, func(n string) bool { return n == name })
}

func (o object) raw() json.RawMessage {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, name := range o.names {
		if i > 0 {
			b.WriteString(",\n")
		}
		quoted, _ := json.Marshal(name) // a string always can be
		b.Write(quoted)
		b.WriteByte(':')
		b.Write(o.values[name])
	}
	b.WriteByte('}')
	return b.Bytes()
}

// merge lays a change over a job: objects member by member, null takes a member
// away, anything else replaces it. An object with an "n" is one reading, and
// replaces as a whole. Taking away what is not there is a slip.
func merge(base, change json.RawMessage) (json.RawMessage, error) {
	if len(change) == 0 {
		return base, nil
	}
	over, ok := members(change)
	if _, reading := over.values["n"]; !ok || reading {
		return change, nil
	}
	under, ok := members(base)
	if !ok {
		return change, nil
	}
	for _, name := range over.names {
		value := over.values[name]
		if string(value) == "null" {
			if _, has := under.values[name]; !has {
				return nil, fmt.Errorf("nothing called %q to take away", name)
			}
			under.drop(name)
			continue
		}
		merged, err := merge(under.values[name], value)
		if err != nil {
			return nil, err
		}
		under.set(name, merged)
	}
	return under.raw(), nil
}

// until leaves out the readings of a stage and of all later ones.
func until(job json.RawMessage, stops string) (json.RawMessage, error) {
	last := slices.Index(checks.Stages, checks.Stage(stops))
	if last < 0 {
		return nil, fmt.Errorf("there is no stage %q", stops)
	}
	whole, _ := members(job)
	readings, _ := members(whole.values["readings"])
	for _, key := range slices.Clone(readings.names) {
		stage, err := stageOf(key)
		if err != nil {
			return nil, err
		}
		if slices.Index(checks.Stages, stage) >= last {
			readings.drop(key)
		}
	}
	whole.set("readings", readings.raw())
	return whole.raw(), nil
}

// stageOf is the stage in which a reading is taken.
func stageOf(key string) (checks.Stage, error) {
	part, id, _ := strings.Cut(key, "/")
	if stage, is := strings.CutPrefix(part, "stage."); is {
		return checks.Stage(stage), nil
	}
	id, _, _ = strings.Cut(id, "#") // an earlier value of the same entry
	field, ok := checks.FieldOf(id, part)
	if !ok {
		return "", fmt.Errorf("no reading is called %q", key)
	}
	return field.Stage, nil
}
