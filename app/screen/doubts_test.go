package screen

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/checks/sample"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// cold is a job in a frozen hut, with a thermometer of 0.1 K.
func cold(t *testing.T) *root {
	t.Helper()
	return shown(t, sample.Sample{ID: "cold", Raw: []byte(`{"lugmark": "job/1", "title": "Invented hut", "now": "` + time.Now().Format(time.RFC3339) + `",
		"layout": {"series": 4, "parallel": 1, "join": "strings", "takeoff": "one-end"},
		"meters": {"m1": {"measures": "V", "percent": 0.5, "counts": 3, "step": "0.01 V", "range": "600 V"}, "m3": {"model": "Invented T1", "measures": "C", "percent": 0, "counts": 10, "step": "0.1 C"}},
		"use": {"V": "m1", "C": "m3"},
		"readings": {"b1/temperature": "-7.9 C", "b2/temperature": "-8.2 C"}}`)})
}

func TestAnOddEntryIsAskedAboutOnce(t *testing.T) {
	for _, row := range []struct {
		field, part, text string
		beside            map[string]string // what else stands on the page
		want              string            // of the question; "" none
		from              string
	}{
		{"ambient-min", "site", "8", nil, "Block 2 was read at -8.2", "hand: −8.2 < 8 − 5"},
		{"ambient-min", "site", "-8", nil, "", "hand: as cold as the blocks"},
		{"ambient-min", "site", "-3.2", nil, "", "boundary: −8.2 + 5"},
		{"ambient-min", "site", "-3.1", nil, "Is a minus missing?", "boundary: above −3.2"},
		{"charge-temp-max", "sheet1", "4.5", nil, "sheets usually allow 40", "hand: 4.5 < 20"},
		{"charge-temp-max", "sheet1", "20", nil, "", "boundary: 20"},
		{"power", "inverter1", "3", nil, "Is it kilowatts?", "hand: 3 < 50"},
		{"power", "inverter1", "50", nil, "", "boundary: 50"},
		{"cut-off", "inverter1", "10.5", nil, "too low for the cut-off of 4 blocks", "hand: 10.5 < 9.3 · 4"},
		{"cut-off", "inverter1", "37.2", nil, "", "boundary: 9.3 · 4 = 37.2"},
		{"stray-minus", "bank", "1.10", map[string]string{"stray-plus": "52.90", "stray-minus": "1.10"}, "Is a sign wrong?", "hand: both above"},
		{"stray-minus", "bank", "-1.10", map[string]string{"stray-plus": "51.80", "stray-minus": "-1.10"}, "", "hand: one on either side"},
		{"stray-minus", "bank", "0.05", map[string]string{"stray-plus": "52.90", "stray-minus": "0.05"}, "", "hand: bonded, within 0.1 V"},
		{"stray-minus", "bank", "-1.10", map[string]string{"stray-plus": "-52.90", "stray-minus": "-1.10"}, "Is a sign wrong?", "hand: both below"},
		{"charge", "capacity1", "9.8", map[string]string{"charge": "9.8", "test-current": "20", "duration": "4.9"}, "98 Ah, and 9.8 Ah is entered", "hand: 20 · 4.9 = 98"},
		{"charge", "capacity1", "98", map[string]string{"charge": "98", "test-current": "20", "duration": "4.9"}, "", "hand: 20 · 4.9 = 98"},
		{"charge", "capacity1", "103", map[string]string{"charge": "103", "test-current": "20", "duration": "4.9"}, "", "boundary: 5 of 103 are 4.9 %"},
		{"charge", "capacity1", "104", map[string]string{"charge": "104", "test-current": "20", "duration": "4.9"}, "Which of the three", "boundary: 6 of 104 are 5.8 %"},
		{"charge", "capacity1", "9.8", map[string]string{"charge": "9.8", "test-current": "20"}, "", "missing: no time, no product"},
		{"range", "m5", "600 V", map[string]string{"measures": "V", "step": "0.001 V", "range": "600 V"}, "600 000 counts", "hand: 600/0.001"},
		{"range", "m5", "60 V", map[string]string{"measures": "V", "step": "0.001 V", "range": "60 V"}, "", "boundary: 60 000"},
		{"range", "m5", "200 MOhm", map[string]string{"measures": "Ohm", "step": "0.001 MOhm", "range": "200 MOhm"}, "", "hand: testers show fewer digits higher up by themselves"},
		{"joint-hottest", "bank", "28", nil, "such as 28.0", "hand: a thermometer of 0.1 K"},
		{"joint-hottest", "bank", "28.0", nil, "", "hand: all digits"},
		{"end-voltage", "capacity1", "40", nil, "such as 40.00", "hand: a meter of 10 mV"},
		{"overload-current", "bank", "120", nil, "no digit after the point", "hand: no sheet of a clamp"},
		{"test-current", "capacity1", "40", nil, "", "hand: of hours, no one figure"},
	} {
		r := cold(t)
		for id, text := range row.beside {
			r.text[id] = text
		}
		f, ok := checks.FieldOf(row.field, row.part)
		if !ok {
			t.Fatalf("no field %s of %s", row.field, row.part)
		}
		line, odd := r.askOnce(row.part, f, row.text)
		got := strings.NewReplacer("\u00a0", " ", "\u2212", "-", "\u202f", " ").Replace(r.say(line))
		if odd != (row.want != "") || !strings.Contains(got, row.want) {
			t.Errorf("%s %s: %q, want %q (%s)", row.field, row.text, got, row.want, row.from)
		}
		if _, again := r.askOnce(row.part, f, row.text); again {
			t.Errorf("%s %s: asked twice", row.field, row.text)
		}
	}
}

// Fewer digits than the meter shows make it a coarse one: ten counts of a whole
// degree are 10 K.
func TestAFigureWithFewDigitsIsAskedAbout(t *testing.T) {
	for _, row := range []struct{ field, part, text, want, from string }{
		{"temperature", "b3", "13", "13.0", "hand: the thermometer shows 0.1 K"},
		{"temperature", "b3", "13.0", "", "hand: all digits"},
		{"temperature", "b3", "-8", "-8.0", "hand: with its sign"},
		{"precharge-left", "switch", "20", "20.00", "hand: the meter shows 10 mV"},
		{"precharge-left", "switch", "20.0", "20.00", "hand: one digit is missing"},
		{"total-voltage", "bank", "53.20", "", "hand: all digits"},
		{"gap-voltage", "b2", "9", "", "hand: no sheet for millivolts, and whole ones are usual"},
		{"full-current", "b1", "3", "no digit after the point", "hand: no sheet of a clamp: 5 counts of 1 A"},
		{"full-current", "b1", "3.0", "", "hand: 5 counts of 0.1 A"},
		{"full-current", "b1", "0", "", "hand: nothing flows"},
		{"torque-set", "b1.p", "9", "", "hand: no step of a wrench"},
	} {
		r := cold(t)
		f, ok := checks.FieldOf(row.field, row.part)
		n, slip := unit.Parse(row.text, f.Entry(), f.Signed)
		if !ok || slip != nil {
			t.Fatalf("%s: %v", row.field, slip)
		}
		doubt := r.digitsDoubt(f, n)
		got := strings.NewReplacer("\u00a0", " ", "\u2212", "-").Replace(r.say(doubt))
		if doubt.Empty() != (row.want == "") || !strings.Contains(got, row.want) {
			t.Errorf("%s %s: %q, want %q (%s)", row.field, row.text, got, row.want, row.from)
		}
	}
	r := cold(t)
	f, _ := checks.FieldOf("temperature", "b3")
	r.read = reading{field: f, part: "b3", parts: checks.RoundParts(r.job.facts.Layout(), f), doubt: sayNoDigits.With("n", "13"), shows: true}
	r.text["value"], r.path = "13", r.to("read", "temperature", "b3")
	if html := app.HTMLString(r.frame(r.view())); !strings.Contains(html, "It shows 13") || strings.Contains(html, "It really shows that") {
		t.Error("the way to keep 13 is not named")
	}
}

// A block 15 K from the others within minutes is measured once more.
func TestABlockOfAnotherTemperatureIsReadAgain(t *testing.T) {
	r := cold(t) // just now
	f, _ := checks.FieldOf("temperature", "b3")
	r.read = reading{field: f, part: "b3", parts: checks.RoundParts(r.job.facts.Layout(), f)}
	for _, row := range []struct {
		value float64
		far   bool
		from  string
	}{{12, true, "hand: 12 + 7.9 > 15"}, {7, false, "hand: 7 + 7.9 < 15"}, {-24, true, "hand: 24 − 7.9 > 15"}, {-8, false, "hand: alike"}} {
		if _, far := r.farFromOthers(row.value); far != row.far {
			t.Errorf("%v °C: %v, want %v (%s)", row.value, far, row.far, row.from)
		}
	}
}

// Who says "not needed" without a reason sees the reasons, and what to put right.
func TestAMissingReasonIsShown(t *testing.T) {
	r := cold(t)
	f := formAt("bank", string(checks.Wire), "insulation")
	r.path = r.to("enter", "bank", string(checks.Wire), "insulation")
	r.enterForm(f)
	if html := app.HTMLString(r.frame(r.view())); !strings.Contains(html, "Cannot answer this?") || strings.Contains(html, "<details open") || strings.Contains(html, "Put right first") {
		t.Fatal("before it is asked the reasons are folded")
	}
	r.slips = map[string]say.Line{}
	if _, ok := r.whyChosen(job.SkipNotNeeded); ok {
		t.Fatal("no reason is a reason")
	}
	html := app.HTMLString(r.frame(r.view()))
	put := html[strings.Index(html, "Put right first"):]
	if !strings.Contains(put[:strings.Index(put, "</ol>")], "Choose the reason first") {
		t.Error("the list of what to put right is empty")
	}
	if at := strings.Index(html, `<details`); at < 0 || !strings.Contains(html[at:at+80], "open") {
		t.Errorf("the reasons are folded away: %.80s", html[max(at, 0):])
	}
}

// How far a block is swollen is asked of one that does not look whole.
func TestSwellingIsAskedOfASwollenBlock(t *testing.T) {
	r := cold(t)
	asks := func() bool {
		return slices.ContainsFunc(r.formFields(formAt("b1", string(checks.Receive), "")), func(f checks.Field) bool { return f.ID == "swelling" })
	}
	r.path = r.to("enter", "b1", string(checks.Receive))
	r.enterForm(formAt("b1", string(checks.Receive), ""))
	for look, want := range map[string]bool{"": false, "whole": false, "swollen": true, "dent": true} { // by the rule: only where a side is not flat
		if r.text["condition"] = look; asks() != want {
			t.Errorf("looks %q: asked %v, want %v", look, !want, want)
		}
	}
}

// The current through a joint comes before its drops, with what the meter needs.
func TestTheCurrentComesBeforeTheDrops(t *testing.T) {
	for _, row := range []struct{ step, want, from string }{
		{"0.1 mV", "let 50 A or more flow", "the rule: 50 A where the meter shows 0.1 mV"},
		{"0.01 mV", "let 10 A or more flow", "the rule: 10 A where it shows 0.01 mV"},
		{"1 mV", "needs a meter that shows 0.1 mV or finer", "hand: no current is enough"},
		{"", "First the current", "boundary: without a sheet only the order is told"},
	} {
		meter := `"m2": {"measures": "V", "percent": 0.5, "counts": 3, "step": "` + row.step + `"}`
		if row.step == "" {
			meter = `"m2": {"measures": "V"}`
		}
		plain := `{"lugmark": "job/1", "title": "Invented hut", "now": "2026-11-25T12:00:00Z", "layout": {"series": 4, "parallel": 1, "join": "strings", "takeoff": "one-end"},
			"meters": {` + meter + `}, "use": {"mV": "m2"}, "readings": {`
		r := shown(t, sample.Sample{ID: "joints", Raw: []byte(plain + `}}`)})
		at := finding.Key{Part: "b1.n~b2.p@b1.n", Field: "drop"}
		for _, x := range r.job.findings {
			if x.Check() == "joint-r" && x.Part() == at.Part {
				if k, ok := r.job.wants(x); !ok || k.Field != "drop-current" {
					t.Errorf("%s: it waits for %v", row.step, k)
				}
			}
		}
		look := func() string {
			f, _ := checks.FieldOf(at.Field, at.Part)
			r.path = r.to("read", at.Field, at.Part)
			r.read = reading{field: f, part: at.Part, parts: checks.RoundParts(r.job.facts.Layout(), f)}
			return strings.ReplaceAll(app.HTMLString(r.frame(r.view())), "\u00a0", " ")
		}
		if html := look(); !strings.Contains(html, row.want) || !strings.Contains(html, "Enter the current") {
			t.Errorf("steps of %q: not told %q (%s)", row.step, row.want, row.from)
		}
		if r = shown(t, sample.Sample{ID: "joints", Raw: []byte(plain + `"bank/drop-current": "60.0 A"}}`)}); strings.Contains(look(), "Enter the current") {
			t.Errorf("steps of %q: the current is asked for again", row.step)
		}
	}
}
