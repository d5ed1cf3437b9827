//go:build !js

// Package sources writes the list of rules: what each check asks, what it
// computes, where its limits come from, and how each source was verified.
//
// It reads the checks themselves and knows nothing of its own; that they tell
// the truth of themselves is proved by the tests of package checks. Nothing is
// judged here.
package sources

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"

	"lugmark/checks"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// Rule is one check as the list has it.
type Rule struct {
	Check    string   `json:"check"`
	Stage    string   `json:"stage"`
	Question string   `json:"question"`
	Formula  string   `json:"formula"`
	Limits   []Limit  `json:"limits"`
	Sources  []Source `json:"sources"`
	Edition  string   `json:"rules"`
}

// Limit is one limit of a check: where its value may come from, strongest
// first, and whether the firm may set its own.
type Limit struct {
	Name  string         `json:"name"`
	Kinds []finding.Kind `json:"kinds"`
	House bool           `json:"house"`
}

// Source is one source and how it was verified.
type Source struct {
	ID       string `json:"id"`
	Name     string `json:"name"`
	Verified string `json:"verified"`
	Note     string `json:"note,omitempty"`
}

// Rules lists every check in the order on site.
func Rules() []Rule {
	var out []Rule
	for _, c := range checks.All {
		r := Rule{Check: c.ID, Stage: string(c.Stage), Question: english(c.Asks.With()), Formula: c.Formula, Limits: limitsOf(c), Edition: checks.Rules}
		for _, s := range c.Sources {
			r.Sources = append(r.Sources, sourceOf(*s))
		}
		out = append(out, r)
	}
	return out
}

func sourceOf(s cite.Source) Source {
	return Source{ID: s.ID, Name: english(s.Name()), Verified: english(s.Checked.Phrase().With()), Note: english(s.Remark())}
}

func english(l say.Line) string { return say.Voice{}.Say(l) }

// limitsOf gathers the kinds of each limit of a check.
func limitsOf(c *checks.Check) []Limit {
	out := []Limit{}
	for _, l := range c.Limits {
		i := slices.IndexFunc(out, func(have Limit) bool { return have.Name == l.Name })
		if i < 0 {
			i = len(out)
			out = append(out, Limit{Name: l.Name, House: mayBeHouse(c.ID, l.Name)})
		}
		out[i].Kinds = append(out[i].Kinds, l.Kind)
	}
	return out
}

func mayBeHouse(check, limit string) bool {
	return slices.ContainsFunc(checks.HouseLimits, func(h checks.HouseLimit) bool { return h.Check == check && h.Name == limit })
}

// Text is a limit in words: "spread: maker, else practice; the firm may set its
// own".
func (l Limit) Text() string {
	kinds := make([]string, len(l.Kinds))
	for i, k := range l.Kinds {
		kinds[i] = string(k)
	}
	text := l.Name + ": " + strings.Join(kinds, ", else ")
	if l.House {
		text += "; the firm may set its own"
	}
	return text
}

// Text is a source with how it was verified, once where both say the same.
func (s Source) Text() string {
	if s.Name == s.Verified {
		return s.Name
	}
	return s.Name + " (" + s.Verified + ")"
}

// Write writes the list for people, in columns no wider than a terminal.
func Write(w io.Writer) error {
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, "The rules, edition %s: %d checks in the order on site.\nU is a voltage, u the expanded uncertainty (k = 2) of what stands before it.\n", checks.Rules, len(checks.All))
	stage := ""
	for _, r := range Rules() {
		if r.Stage != stage {
			stage = r.Stage
			fmt.Fprintf(b, "\n%s\n", strings.ToUpper(english(checks.Stage(stage).Title().With())))
		}
		fmt.Fprintf(b, "\n  %s\n", r.Check)
		line(b, "asks", r.Question)
		line(b, "formula", r.Formula)
		for _, l := range r.Limits {
			line(b, "limit", l.Text())
		}
		if len(r.Limits) == 0 {
			line(b, "limit", "none, it informs")
		}
		for _, s := range r.Sources {
			line(b, "source", s.Text())
		}
	}
	return b.Flush()
}

const columns = 80 // of a terminal

// line writes one row of two columns and breaks it between words.
func line(w io.Writer, name, text string) {
	left := fmt.Sprintf("    %-8s ", name)
	row := left
	for i, word := range strings.Fields(text) {
		switch {
		case i == 0:
			row += word
		case len([]rune(row))+1+len([]rune(word)) > columns:
			fmt.Fprintln(w, row)
			row = strings.Repeat(" ", len(left)) + word
		default:
			row += " " + word
		}
	}
	fmt.Fprintln(w, row)
}

// WriteMarkdown writes the list as one table.
func WriteMarkdown(w io.Writer) error {
	b := bufio.NewWriter(w)
	fmt.Fprint(b, "| check | stage | question | formula | limits | sources |\n|---|---|---|---|---|---|\n")
	for _, r := range Rules() {
		var limits, from []string
		for _, l := range r.Limits {
			limits = append(limits, l.Text())
		}
		for _, s := range r.Sources {
			from = append(from, s.Text())
		}
		if len(limits) == 0 {
			limits = []string{"none, it informs"}
		}
		fmt.Fprintf(b, "| `%s` | %s | %s | %s | %s | %s |\n", r.Check, r.Stage, cell(r.Question), cell(r.Formula), cell(limits...), cell(from...))
	}
	return b.Flush()
}

// cell joins lines within a cell, where a bar would end it.
func cell(lines ...string) string {
	return strings.ReplaceAll(strings.Join(lines, "<br>"), "|", `\|`)
}

// WriteJSON writes one object on each line.
func WriteJSON(w io.Writer) error {
	b := bufio.NewWriter(w)
	lines := json.NewEncoder(b)
	lines.SetEscapeHTML(false)
	for _, r := range Rules() {
		if err := lines.Encode(r); err != nil {
			return fmt.Errorf("sources: write %s: %w", r.Check, err)
		}
	}
	return b.Flush()
}
