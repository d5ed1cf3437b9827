package plain

import (
	"fmt"
	"strings"
	"testing"

	"lugmark/core/job"
)

// jetty is a plain job as a person writes it.
const jetty = `{"lugmark": "job/1", "title": "Invented jetty", "now": "2026-11-25T12:00:00+01:00",
 "layout": {"series": 2, "parallel": 2, "join": "strings", "takeoff": "one-end",
            "place": ["b1", "b2", "b3", "b4"]},
 "sheets": {"sheet1": {"blocks": ["b1", "b2", "b3", "b4"], "model": "Invented 100", "page": "p. 12",
   "capacity": "100 Ah", "charge-voltage-max": "14.6 V", "charge-max": "50 A",
   "discharge-max": "100 A", "series-max": 4, "parallel-max": 4,
   "charge-temp-min": "0 C", "torque": ["8 N.m", "10 N.m"]}},
 "parts": {"charger1": {"current-max": "30 A"}, "inverter1": {"power": "1500 W"},
   "b1.n~b2.p": {"cable": "cable1"}, "cable1": {"size": "35 mm2", "standard": "IEC 60228"},
   "fuse.main": {"rating": "125 A", "voltage": "58 V", "breaking": "20000 A"}},
 "meters": {"m1": {"measures": "V", "percent": 0.05, "counts": 3, "step": "0.001 V",
                   "range": "60 V", "due": "2027-03-01"},
            "w1": {"measures": "N.m", "max": "25 N.m", "percent": 4, "due": "2027-03-01"}},
 "use": {"V": "m1", "N.m": "w1"},
 "house": {"voltage-match": {"spread": "0.008 V"}},
 "readings": {
   "b1/rest-voltage": "13.282 V", "b2/rest-voltage": "13.284 V",
   "b3/rest-voltage": {"n": "13.279 V", "at": "2026-11-25T11:52:00+01:00", "moving": true},
   "b4/rest-voltage": "12.910 V", "b1/temperature": "18 C",
   "bank/last-current": "2026-11-24T20:00:00+01:00", "b1.p/torque-set": "9 N.m",
   "b1.n~b2.p/closed": "no", "stage.wire/hazards-read": "yes",
   "b2/arrival-voltage": {"skip": "cannot", "why": "no-access"}}}`

func TestTheFormOfAPersonIsRead(t *testing.T) {
	f, faults := Parse([]byte(jetty))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if f.Visit != "v1" || stamp(f.Now) != "2026-11-25T12:00:00+01:00" || len(f.Notes) != 0 {
		t.Errorf("visit %s, now %s, notes %v", f.Visit, f.Now, f.Notes)
	}
	want := map[string]string{
		"v1/site/name":                  "personal Invented jetty",
		"v1/b3/sheet":                   "text sheet1",
		"v1/sheet1/series-max":          "4 1",
		"v1/sheet1/torque-min":          "8 N.m",
		"v1/sheet1/torque-max":          "10 N.m",
		"v1/charger1/current-max":       "30 A",
		"v1/m1/percent":                 "0.05 %",
		"v1/m1/step":                    "text 0.001 V",
		"v1/w1/due":                     "time 2027-03-01",
		"v1/bank/use-volts":             "text m1",
		"v1/house/voltage-match.spread": "0.008 V",
		"v1/b1/rest-voltage":            "13.282 V by m1",
		"v1/b3/rest-voltage":            "13.279 V by m1 moving at 2026-11-25T11:52:00+01:00",
		"v1/b1/temperature":             "18 C",
		"v1/b1.p/torque-set":            "9 N.m by w1",
		"v1/bank/last-current":          "time 2026-11-24T20:00:00+01:00",
		"v1/b1.n~b2.p/closed":           "choice no",
		"v1/b2/arrival-voltage":         "skip cannot no-access",
	}
	got := map[string]string{}
	for _, e := range f.Entries {
		got[e.Key.String()] = said(e)
	}
	for key, value := range want {
		if got[key] != value {
			t.Errorf("%s: got %q, want %q", key, got[key], value)
		}
	}
	if first := f.Entries[0].Key.Field; first != "name" {
		t.Errorf("the setup comes first, not %s", first)
	}
	if last := f.Entries[len(f.Entries)-1]; last.Key.Field != "arrival-voltage" {
		t.Errorf("the readings come last and in order, not %s", last.Key)
	}
}

// said writes an entry in one line.
func said(e Entry) string {
	v := e.Value
	switch v.Kind {
	case job.KindQuantity:
		s := v.Number + " " + v.Unit
		if v.Meter != "" {
			s += " by " + v.Meter
		}
		if v.Moving {
			s += " moving"
		}
		if v.Odd {
			s += " odd"
		}
		if !e.At.IsZero() {
			s += " at " + stamp(e.At)
		}
		return s
	case job.KindChoice:
		return "choice " + v.Choice
	case job.KindChoices:
		return "ticked " + strings.Join(v.Choices, " ")
	case job.KindText:
		return "text " + v.Text
	case job.KindTime:
		return "time " + v.Time
	case job.KindPersonal:
		return "personal " + e.Personal
	case job.KindSkip:
		return strings.TrimSpace(fmt.Sprintf("skip %s %s %s", v.Skip, v.Why, v.Until))
	}
	return fmt.Sprint(v.Kind)
}

// with puts lines into a small job: setup is further sections, readings what
// stands under readings, which begins on line 3.
func with(setup, readings string) string {
	return `{"lugmark": "job/1", "now": "2026-11-25T12:00:00+01:00",
 "layout": {"series": 2, "parallel": 2, "join": "strings", "takeoff": "one-end"}` + setup + `, "readings": {
` + readings + `
}}`
}

func TestWhatIsLeftOutIsFilledIn(t *testing.T) {
	rows := []struct{ name, text, key, want string }{
		{"a comma is decimal", with("", `"b1/rest-voltage": "13,20 V"`), "v1/b1/rest-voltage", "13.20 V"},
		{"a usual spelling", with("", `"b1.p/torque-set": "9 Nm"`), "v1/b1.p/torque-set", "9 N.m"},
		{"with its visit", with("", `"v2/b1/rest-voltage": "13.20 V"`), "v2/b1/rest-voltage", "13.20 V"},
		{"a sheet as a later visit found it", with("", `"v2/m1/due": "2027-12-01"`), "v2/m1/due", "time 2027-12-01"},
		{"odd, and kept", with("", `"b1/rest-voltage": {"n": "132.0 V", "odd": true}`), "v1/b1/rest-voltage", "132.0 V odd"},
		{"reversed block", with("", `"b1/rest-voltage": "-13.2 V"`), "v1/b1/rest-voltage", "-13.2 V"},
		{"another meter", with(`, "use": {"V": "m1"}`, `"b1/rest-voltage": {"n": "13.2 V", "m": "m2"}`), "v1/b1/rest-voltage", "13.2 V by m2"},
		{"no meter on purpose", with(`, "use": {"V": "m1"}`, `"b1/rest-voltage": {"n": "13.2 V", "m": ""}`), "v1/b1/rest-voltage", "13.2 V"},
		{"a tester of its own", with(`, "use": {"V": "m1", "MOhm": "m2"}`, `"bank/cable-insulation": "1.02 MOhm"`), "v1/bank/cable-insulation", "1.02 MOhm by m2"},
		{"a tester reads no milliohms", with(`, "use": {"MOhm": "m2"}`, `"b1/resistance": "6.1 mOhm"`), "v1/b1/resistance", "6.1 mOhm"},
		{"the volts of a test are chosen", with(`, "use": {"V": "m1"}`, `"bank/insulation-volts": "250 V"`), "v1/bank/insulation-volts", "250 V"},
		{"a setting has no meter", with(`, "use": {"V": "m1"}`, `"charger1/absorption": "28.4 V"`), "v1/charger1/absorption", "28.4 V"},
		{"one torque", with(`, "sheets": {"sheet1": {"torque": "9 N.m"}}`, ""), "v1/sheet1/torque-nominal", "9 N.m"},
		{"a person", with(`, "parts": {"p1": {"name": "Ines Varga", "role": "lead"}}`, ""), "v1/p1/name", "personal Ines Varga"},
		{"put off", with("", `"b1/temperature": {"skip": "later", "why": "wait", "until": "2026-11-26"}`), "v1/b1/temperature", "skip later wait 2026-11-26"},
		{"undrawn link found on", with("", `"b1.n~b4.p/closed": "yes"`), "v1/b1.n~b4.p/closed", "choice yes"},
		{"ticked, in any order", with("", `"bank/labels": "isolator,date , voltage"`), "v1/bank/labels", "ticked date isolator voltage"},
		{"ticked twice", with("", `"bank/labels": "date, date"`), "v1/bank/labels", "ticked date"},
		{"nothing ticked", with("", `"bank/labels": "none"`), "v1/bank/labels", "ticked "},
		{"a byte order mark", "\ufeff" + with("", `"b1/temperature": "-5 C"`), "v1/b1/temperature", "-5 C"},
	}
	for _, r := range rows {
		f, faults := Parse([]byte(r.text))
		if len(faults) > 0 {
			t.Errorf("%s: refused: %v", r.name, faults)
			continue
		}
		got := ""
		for _, e := range f.Entries {
			if e.Key.String() == r.key {
				got = said(e)
			}
		}
		if got != r.want {
			t.Errorf("%s: got %q, want %q", r.name, got, r.want)
		}
	}
}

func TestNowIsTheLatestTimeOfWhatHappened(t *testing.T) {
	text := `{"lugmark": "job/1", "meters": {"m1": {"measures": "V", "due": "2027-03-01"}},
 "readings": {"bank/last-current": "2026-11-24T20:00:00+01:00",
  "b1/temperature": {"n": "18 C", "at": "2026-11-25T09:30:00+01:00"},
  "b2/temperature": {"skip": "later", "why": "wait", "until": "2026-12-01T00:00:00Z"}}}`
	f, faults := Parse([]byte(text))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	// Neither a due date nor the end of a wait has happened.
	if stamp(f.Now) != "2026-11-25T09:30:00+01:00" || len(f.Notes) != 1 || !strings.Contains(f.Notes[0].Error(), "latest time") {
		t.Errorf("now %s, notes %v", f.Now, f.Notes)
	}
	f, faults = Parse([]byte(`{"lugmark": "job/1"}`))
	if len(faults) > 0 || !f.Now.IsZero() || len(f.Notes) != 1 {
		t.Errorf("%v %v", f, faults)
	}
	if _, _, err := f.State(); err == nil {
		t.Error("a state without a time to judge at")
	}
}
