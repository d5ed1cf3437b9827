package screen

import (
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/checks/sample"
	"lugmark/core/finding"
)

// metered is a job with a meter of two ranges, a tester and a scale.
func metered(t *testing.T) *root {
	t.Helper()
	return shown(t, sample.Sample{ID: "meters", Raw: []byte(`{"lugmark": "job/1", "title": "Invented hut", "now": "2026-11-25T12:00:00Z",
		"layout": {"series": 4, "parallel": 1, "join": "strings", "takeoff": "one-end"},
		"meters": {"m1": {"model": "Invented M60", "measures": "V", "percent": 0.05, "counts": 3, "step": "0.001 V", "range": "60 V", "due": "2027-03-01"},
			"m4": {"model": "Invented R5", "measures": "Ohm", "percent": 5, "counts": 3, "step": "0.01 MOhm", "range": "200 MOhm"},
			"m5": {"model": "Invented M60", "measures": "V", "percent": 0.05, "counts": 3, "step": "0.01 V", "range": "600 V"},
			"m6": {"measures": "kg", "percent": 0, "counts": 2, "step": "0.01 kg"}},
		"use": {"V": "m1", "MOhm": "m4", "kg": "m6"}}`)})
}

// A figure is kept with the meter, and of several ranges with the one, that
// shows such a figure.
func TestAFigureIsKeptWithItsMeter(t *testing.T) {
	r := metered(t)
	for _, row := range []struct{ field, part, text, want, from string }{
		{"rest-voltage", "b1", "13.282", "m1", "hand: in steps of 1 mV"},
		{"total-voltage", "bank", "58.40", "m5", "hand: in steps of 10 mV"},
		{"total-voltage", "bank", "64.0", "m5", "hand: above 60 V"},
		{"gap-voltage", "b2", "8.9", "", "hand: no meter for millivolts is named"},
		{"cable-insulation", "bank", "1.02", "m4", "hand: megohms"},
		{"insulation-volts", "bank", "500", "", "hand: chosen on the tester"},
		{"bond-resistance", "bank", "0.2", "", "hand: no ohmmeter is named"},
		{"mass", "b1", "11.80", "m6", "hand: the scale"},
		{"absorption", "charger1", "56.8", "", "hand: a setting"},
	} {
		f, _ := checks.FieldOf(row.field, row.part)
		c, slip := r.entryOf(f, row.text)
		if !slip.Empty() || c.value.Meter != row.want {
			t.Errorf("%s %s: by %q, want %q (%s) %s", row.field, row.text, c.value.Meter, row.want, row.from, r.say(slip))
		}
	}
	if got := r.meterName("m5"); got != "Invented M60, up to 600 V" {
		t.Errorf("the range is not told: %q", got)
	}
	if got := r.meterName("m4"); got != "Invented R5" {
		t.Errorf("one range: %q", got)
	}
}

// A sheet that is entered for a quantity nobody has a meter for becomes that
// meter: the tester of 200 MOhm the one for the insulation.
func TestANewMeterIsTakenIntoUse(t *testing.T) {
	for _, row := range []struct{ measures, top, want string }{ // hand
		{"Ohm", "200 MOhm", "use-insulation"}, {"Ohm", "400 Ohm", "use-ohms"}, {"Ohm", "20 mOhm", "use-milliohms"},
		{"V", "60 mV", "use-millivolts"}, {"V", "600 V", "use-volts"}, {"kg", "50 kg", "use-kilograms"}, {"m", "5 m", "use-metres"}, {"A", "", "use-amperes"},
	} {
		r := shown(t, sample.Sample{ID: "none", Raw: []byte(`{"lugmark": "job/1", "title": "Invented hut", "now": "2026-11-25T12:00:00Z", "layout": {"series": 4, "parallel": 1, "join": "strings", "takeoff": "one-end"}}`)})
		r.text["measures"], r.text["range"] = row.measures, row.top
		c := r.usesMeter("m7")
		if len(c) != 1 || c[0].field != row.want || c[0].value.Text != "m7" {
			t.Errorf("%s up to %q: %v, want %s", row.measures, row.top, c, row.want)
		}
	}
	r := metered(t)
	if r.text["measures"], r.text["range"] = "V", "60 V"; len(r.usesMeter("m7")) != 0 {
		t.Error("a second voltmeter took the place of the first")
	}
}

// A further range takes over what stands on the meter and asks the rest.
func TestAFurtherRangeTakesOverThePlate(t *testing.T) {
	r := metered(t)
	r.copied = copied{"m7", "m1"}
	r.enterForm(formAt("m7", "before", ""))
	for id, want := range map[string]string{"model": "Invented M60", "measures": "V", "due": "2027-03-01", "step": "", "range": "", "percent": "", "counts": ""} { // hand: from the job above
		if got := r.text[id]; !strings.HasPrefix(got, want) || want == "" && got != "" {
			t.Errorf("%s: %q, want %q", id, got, want)
		}
	}
	r.enterForm(formAt("m8", "before", ""))
	if r.text["model"] != "" {
		t.Error("the next new meter is filled in as well")
	}
	r.path = r.to("enter", "m1", "before")
	r.enterForm(formAt("m1", "before", ""))
	if html := app.HTMLString(r.frame(r.view())); !strings.Contains(html, "Same meter, another range") {
		t.Error("no button for another range")
	}
	if !r.job.has(finding.Key{Part: "bank", Field: "use-insulation"}) {
		t.Error("the tester is not in use")
	}
}

// A tester of the register, and a further range of a meter, come into a job under
// numbers of their own; the tester is in use, the range beside its meter.
func TestTheKitBringsTestersAndRanges(t *testing.T) {
	r := withRegister(t, newShelf(), "Ines Varga")
	r.enter(t, r.register, []change{
		text("m200001", "model", "Invented 60"), text("m200001", "measures", "V"), quantity("m200001", "percent", "0.05", "%"), text("m200001", "range", "60 V"),
		text("m200002", "model", "Invented R5"), text("m200002", "measures", "Ohm"), quantity("m200002", "percent", "5", "%"), text("m200002", "range", "200 MOhm"),
		text("m200003", "model", "Invented 60"), text("m200003", "measures", "V"), quantity("m200003", "percent", "0.05", "%"), text("m200003", "range", "600 V"),
	})
	r.text["kit"] = "m200001,m200002,m200003"
	got := map[string]string{}
	for _, c := range r.kitChanges(nil) {
		got[c.part+"/"+c.field] = c.value.Text
	}
	for k, want := range map[string]string{"bank/use-volts": "m1", "bank/use-insulation": "m5", "m1/range": "60 V", "m5/model": "Invented R5", "m6/range": "600 V"} { // hand: in the order of the register
		if got[k] != want {
			t.Errorf("%s is %q, want %q", k, got[k], want)
		}
	}
}
