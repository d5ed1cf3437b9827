package screen

import (
	"slices"
	"strings"
	"testing"

	"lugmark/checks"
	"lugmark/checks/sample"
)

func TestAListIsTicked(t *testing.T) {
	text := ""
	for _, step := range []struct {
		code string
		on   bool
		want string
	}{
		{"voltage", true, "voltage"}, {"date", true, "date,voltage"}, {"date", true, "date,voltage"},
		{"voltage", false, "date"}, {"date", false, "none"}, // hand: none of them is an answer, an untouched list is not
		{"emergency", true, "emergency"},
	} {
		if text = tick(text, step.code, step.on); text != step.want {
			t.Errorf("%s %v: %q, want %q", step.code, step.on, text, step.want)
		}
	}
	if len(ticked("")) != 0 || len(ticked("none")) != 0 {
		t.Error("an empty list has codes")
	}
}

// briefedMast is one block whose owner was told some of it.
func briefedMast(t *testing.T, readings string) *root {
	t.Helper()
	return shown(t, sample.Sample{ID: "briefed", Raw: []byte(`{"lugmark": "job/1", "title": "Invented mast", "now": "2026-11-25T08:00:00Z",
 "layout": {"series": 1, "parallel": 1, "join": "strings", "takeoff": "one-end"}, "parts": {"p1": {"name": "Ines Varga"}},
 "readings": {` + readings + `}}`)})
}

func TestTheHandOverListsAreAskedAndPrinted(t *testing.T) {
	r := briefedMast(t, `"bank/owner-briefed": "cold, call", "bank/labels": "none"`)
	form := formAt("bank", string(checks.HandOver), "")
	r.enterForm(form)
	html := r.at(r.way(form))
	for _, must := range []string{`id="labels-fault-current"`, `id="documents-spare-fuse"`, `id="owner-briefed-return"`, `id="alarm-first-not-tried"`} {
		if !strings.Contains(html, must) {
			t.Errorf("the form does not ask %s", must)
		}
	}
	if r.text["owner-briefed"] != "call,cold" || r.text["labels"] != "none" || r.text["documents"] != "" {
		t.Errorf("the form begins with %q, %q and %q", r.text["owner-briefed"], r.text["labels"], r.text["documents"])
	}
	labels, _ := checks.FieldOf("labels", "bank")
	for text, want := range map[string][]string{"none": nil, "date,voltage": {"date", "voltage"}} {
		c, slip := r.entryOf(labels, text)
		if !slip.Empty() || c.value.Validate() != nil || !slices.Equal(c.value.Choices, want) {
			t.Errorf("%s becomes %v", text, c.value)
		}
	}
	sheet := r.at(r.to("handover"))
	for _, must := range []string{"Never charge below 0\u00a0°C, Whom to call", "went through this with you on 25 November 2026"} {
		if !strings.Contains(sheet, must) && !strings.Contains(sheet, strings.ReplaceAll(must, "\u00a0", " ")) {
			t.Errorf("the sheet does not say %q", must)
		}
	}
	if strings.Contains(briefedMast(t, "").at(r.to("handover")), "went through this") {
		t.Error("the sheet says that somebody was briefed, and nobody was")
	}
	if !strings.Contains(sheet, "Ask the missing person to sign: technician, owner.") {
		t.Error("the sheet does not say who has still to sign")
	}
}
