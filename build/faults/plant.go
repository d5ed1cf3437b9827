package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"path"
	"strings"
)

// plant is one failure, laid over a sound job.
type plant struct {
	name string // of its file

	// Title is the failure in a technician's words, Story how it came about and
	// the arithmetic behind its figures.
	Title string `json:"title"`
	Story string `json:"story"`

	// CaughtBy is what must catch it, from the rules and from physics, never
	// from a run of the program.
	CaughtBy []catch `json:"caught-by"`

	// Shut names the hold points, gate@part, that what catches it must keep shut
	// before the act, when nothing is harmed yet; empty where no hold point rests
	// on it.
	Shut []string `json:"shut"`

	// Base names the sound job.
	Base string `json:"base"`

	// Stops is the first stage that was not begun any more, because the failure
	// was seen before it: readings of it and of later ones are left out.
	Stops string `json:"stops"`

	// Change is laid over the base: members replace, null takes away. Twin is
	// laid over it for the sound twin: the same matter, good but not by much;
	// TwinStory is its arithmetic.
	Change    json.RawMessage `json:"change"`
	Twin      json.RawMessage `json:"twin"`
	TwinStory string          `json:"twin-story"`

	job, sound json.RawMessage // whole job files
}

// catch is one finding that is expected.
type catch struct {
	Check   string `json:"check"`
	Part    string `json:"part"`
	Verdict string `json:"verdict"`
}

// load reads all plants in the order of their numbers, and makes their jobs.
func load(files fs.FS) ([]plant, error) {
	names, err := fs.Glob(files, "testdata/[0-9]*.json")
	if err != nil {
		return nil, err
	}
	var out []plant
	for _, name := range names {
		p, err := read(files, name)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		out = append(out, p)
	}
	return out, nil
}

func read(files fs.FS, name string) (plant, error) {
	p := plant{name: strings.TrimSuffix(path.Base(name), ".json")}
	raw, err := fs.ReadFile(files, name)
	if err != nil {
		return p, err
	}
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&p); err != nil {
		return p, err
	}
	base, err := sound(files, p.Base)
	if err != nil {
		return p, err
	}
	if p.sound, err = merge(base, p.Twin); err != nil {
		return p, err
	}
	if p.job, err = merge(base, p.Change); err != nil {
		return p, err
	}
	if p.Stops != "" {
		p.job, err = until(p.job, p.Stops)
	}
	return p, err
}

// sound reads a sound job: a whole job, or a change of another sound one.
func sound(files fs.FS, name string) (json.RawMessage, error) {
	raw, err := fs.ReadFile(files, "testdata/base-"+name+".json")
	if err != nil {
		return nil, err
	}
	var over struct {
		Story  string          `json:"story"` // for people
		Base   string          `json:"base"`
		Change json.RawMessage `json:"change"`
		Job    json.RawMessage `json:"job"`
	}
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&over); err != nil {
		return nil, fmt.Errorf("base-%s: %w", name, err)
	}
	if over.Base == "" {
		return over.Job, nil
	}
	below, err := sound(files, over.Base)
	if err != nil {
		return nil, err
	}
	return merge(below, over.Change)
}
