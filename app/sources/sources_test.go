//go:build !js

package sources_test

import (
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"lugmark/app/sources"
	"lugmark/checks"
)

// written is the list in one of its forms.
func written(t *testing.T, write func(*strings.Builder) error) string {
	t.Helper()
	var b strings.Builder
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestEveryCheckIsListedInEveryForm(t *testing.T) {
	text := written(t, func(b *strings.Builder) error { return sources.Write(b) })
	table := written(t, func(b *strings.Builder) error { return sources.WriteMarkdown(b) })
	lines := strings.Split(strings.TrimSpace(written(t, func(b *strings.Builder) error { return sources.WriteJSON(b) })), "\n")
	if len(lines) != len(checks.All) {
		t.Fatalf("%d lines of JSON for %d checks", len(lines), len(checks.All))
	}
	for i, c := range checks.All {
		var r sources.Rule
		if err := json.Unmarshal([]byte(lines[i]), &r); err != nil || r.Check != c.ID || r.Formula != c.Formula || len(r.Sources) != len(c.Sources) {
			t.Errorf("%s: %v in %s", c.ID, err, lines[i])
		}
		if !strings.Contains(text, "\n  "+c.ID+"\n") || !strings.Contains(table, "\n| `"+c.ID+"` | ") {
			t.Errorf("%s is not listed", c.ID)
		}
	}
}

func TestTheTextFitsATerminal(t *testing.T) {
	for _, l := range strings.Split(written(t, func(b *strings.Builder) error { return sources.Write(b) }), "\n") {
		if utf8.RuneCountInString(l) > 80 {
			t.Errorf("%d columns: %s", utf8.RuneCountInString(l), l)
		}
	}
}

func TestEveryRowOfTheTableHasItsCells(t *testing.T) {
	table := written(t, func(b *strings.Builder) error { return sources.WriteMarkdown(b) })
	for _, row := range strings.Split(strings.TrimSpace(table), "\n") {
		if n := strings.Count(strings.ReplaceAll(row, `\|`, ""), "|"); n != 7 {
			t.Errorf("%d bars, want 7 for six cells: %s", n, row)
		}
	}
}

func TestLimitsAndSourcesAreSaid(t *testing.T) {
	text := written(t, func(b *strings.Builder) error { return sources.Write(b) })
	for _, words := range []string{"spread: practice; the firm may set its own", "current: maker, else practice", "none, it informs", "IEC 62620 (from memory"} {
		if !strings.Contains(text, words) {
			t.Errorf("the list does not say %q", words)
		}
	}
}
