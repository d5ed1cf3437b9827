package plain

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"lugmark/checks"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// verdicts judges a state and says every finding in a line.
func verdicts(state *job.State, visit string, now time.Time) string {
	var b strings.Builder
	for _, x := range checks.Run(checks.NewFacts(state, visit, now)) {
		fmt.Fprintf(&b, "%s %s %v %s %s\n", x.Check(), x.Part(), x.Verdict(), say.Voice{}.Say(x.Reason()), say.Voice{}.Say(x.Next()))
	}
	return b.String()
}

func read(t *testing.T, text string) (*File, *job.State, job.Blobs) {
	t.Helper()
	f, faults := Parse([]byte(text))
	if len(faults) > 0 {
		t.Fatalf("%v\n%s", faults, text)
	}
	state, blobs, err := f.State()
	if err != nil {
		t.Fatal(err)
	}
	return f, state, blobs
}

// What is written judges like what was read, whatever stands in it.
func TestExportKeepsEveryFinding(t *testing.T) {
	rested := `"bank/last-current": "2026-11-24T20:00:00+01:00", "b1/temperature": "18 C", "b2/temperature": "18 C", "b3/temperature": "18 C", "b4/temperature": "18 C",
`
	for name, text := range map[string]string{
		"a job":           jetty,
		"empty":           `{"lugmark": "job/1", "now": "2026-11-25T12:00:00Z"}`,
		"no layout":       `{"lugmark": "job/1", "now": "2026-11-25T12:00:00Z", "readings": {"b1/temperature": "64 F"}}`,
		"odd and moving":  with(`, "use": {"V": "m1"}`, `"b1/rest-voltage": {"n": "132.0 V", "odd": true, "m": ""}, "b2/rest-voltage": {"n": "13.2 V", "moving": true, "m": "m2"}`),
		"people disagree": with("", rested+`"b1/rest-voltage": ["13.20 V", {"n": "13.21 V", "at": "2026-11-25T11:00:00+01:00"}], "b2/rest-voltage": "13.20 V"`),
		"setup disagrees": with(`, "sheets": {"sheet1": {"series-max": [2, 4]}}, "parts": {"b1": {"sheet": ["sheet1", "sheet2"]}}`, ""),
		"read while joined, opened since": with("", rested+`"sA.p~sB.p/closed#1": "yes", "sA/total-voltage": "26.40 V", "sB/total-voltage": "26.40 V",
"sA.p~sB.p/closed": "no"`),
		"disagreed while reading": with("", rested+`"sA.p~sB.p/closed#1": ["yes", "no"], "sA/total-voltage": "26.40 V", "sB/total-voltage": "26.40 V",
"sA.p~sB.p/closed": "no"`),
		"opened and closed again at once": with("", `"b1.n~b2.p/closed#1": "yes", "b1.n/torque-set": "9 N.m", "b1.n~b2.p/closed#2": "no", "b1.n~b2.p/closed": "yes"`),
		"closed and opened at once":       with("", `"b1.n/torque-set": "9 N.m", "b1.n~b2.p/closed#1": "yes", "b1.n~b2.p/closed": "no"`),
		"a link to a block that left":     with("", rested+`"b1.n~b9.p/closed": "yes", "b2/gap-voltage": "1.0 mV"`),
		"joined since":                    with("", rested+`"sA/total-voltage": "26.40 V", "sB/total-voltage": "26.40 V", "sA.p~sB.p/closed": "yes"`),
		"joined yesterday": with("", rested+`"sA/total-voltage": "26.40 V", "sB/total-voltage": "26.40 V", "sA.p~sB.p/last-gap": {"n": "1 mV", "at": "2026-11-25T09:00:00+01:00"},
"sA.p~sB.p/closed": {"n": "yes", "at": "2026-11-25T09:05:00+01:00"}`),
		"a return visit": with("", rested+`"b1/rest-voltage": "13.20 V", "b2/rest-voltage": "13.20 V", "v2/b1/rest-voltage": "13.30 V"`),
		"ticked":         with("", `"bank/labels": "date, voltage", "bank/documents": "none", "bank/owner-briefed": ["cold", "cold, call"]`),
		"a return visit with what it compares": with(`, "meters": {"m1": {"measures": "V", "percent": 0.05, "counts": 3, "due": "2026-12-01"}}, "use": {"V": "m1"}`, rested+`"b1/rest-voltage": {"n": "13.300 V", "at": "2026-05-25T12:00:00+01:00"}, "b2/rest-voltage": {"n": "13.302 V", "at": "2026-05-25T12:00:00+01:00"},
"charger1/float": "27.0 V", "b1.p/torque-set": "9 N.m", "v2/m1/due": "2027-12-01", "v2/bank/full-before": "yes", "v2/bank/last-current": "2026-11-24T20:00:00+01:00",
"v2/b1/rest-voltage": "13.300 V", "v2/b2/rest-voltage": "13.310 V", "v2/charger1/float": "27.6 V", "v2/bank/marks-moved": "no"`),
		"a return visit to links that were left on": with("", rested+`"sA.p~sB.p/closed": "yes", "v2/bank/built-again": "yes", "v2/sA/total-voltage": "26.40 V", "v2/sB/total-voltage": "26.40 V"`),
		"skips": with("", rested+`"b1/rest-voltage": {"skip": "unsafe", "why": "other"}, "b3/rest-voltage": {"skip": "later", "why": "wait", "until": "2026-11-26"}`),
	} {
		t.Run(name, func(t *testing.T) {
			f, state, blobs := read(t, text)
			raw, err := Export(state, blobs, f.Visit, f.Now)
			if err != nil {
				t.Fatal(err)
			}
			g, again, _ := read(t, string(raw))
			if g.Visit != f.Visit || !g.Now.Equal(f.Now) {
				t.Errorf("visit %s now %v, want %s %v", g.Visit, g.Now, f.Visit, f.Now)
			}
			if a, b := verdicts(state, f.Visit, f.Now), verdicts(again, g.Visit, g.Now); a != b {
				t.Errorf("before:\n%s\nafter:\n%s\n%s", a, b, raw)
			}
		})
	}
}

// A proof that ages is judged by the moment at which the switch that needed it
// was closed. Hand: 0.1 V left at 09:00, closed at 09:05, within 15 minutes;
// the next day that moment is still the one that counts, in the file as in the
// record. With no time the switch is closed at the file's now, 12:00, 3 h late.
func TestAFileKnowsWhenTheMainWasClosed(t *testing.T) {
	const left = `"bank/total-voltage": "26.40 V", "inverter1/off": "yes", "switch/precharge-left": {"n": "0.100 V", "at": "2026-11-25T09:00:00+01:00"}, "switch/closed": `
	setup := `, "sheets": {"sheet1": {"blocks": ["b1", "b2", "b3", "b4"], "capacity": "100 Ah", "discharge-max": "100 A", "short-trip": "400 A"}}, "parts": {"inverter1": {"power": "1000 W"}}`
	for closed, want := range map[string]finding.Verdict{
		`{"n": "yes", "at": "2026-11-25T09:05:00+01:00"}`: finding.Pass,
		`"yes"`: finding.CantTell,
	} {
		f, state, blobs := read(t, with(setup, left+closed))
		raw, err := Export(state, blobs, "v1", f.Now.Add(24*time.Hour))
		if err != nil {
			t.Fatal(err)
		}
		_, exported, _ := read(t, string(raw))
		kept, _, _ := imported(t, f, 0)
		for name, s := range map[string]*job.State{"file": state, "exported": exported, "imported": kept} {
			for _, x := range checks.Run(checks.NewFacts(s, "v1", f.Now.Add(24*time.Hour))) {
				if x.Check() == "precharge" && x.Verdict() != want {
					t.Errorf("%s, closed %s: %v, want %v: %s", name, closed, x.Verdict(), want, say.Voice{}.Say(x.Reason()))
				}
			}
		}
	}
}

// Strings read while joined always agree: a file that forgot this would pass
// what the record does not.
func TestAMatchReadWhileJoinedStaysWorthless(t *testing.T) {
	f, state, _ := read(t, with("", `"bank/last-current": "2026-11-24T20:00:00+01:00",
"b1/temperature": "18 C", "b2/temperature": "18 C", "b3/temperature": "18 C", "b4/temperature": "18 C",
"sA.p~sB.p/closed#1": "yes", "sA/total-voltage": "26.40 V", "sB/total-voltage": "26.40 V", "sA.p~sB.p/closed": "no"`))
	for _, x := range checks.Run(checks.NewFacts(state, "v1", f.Now)) {
		if x.Check() == "voltage-match" && x.Part() == "bank" && x.Verdict() != finding.CantTell {
			t.Errorf("got %v", x.Verdict())
		}
	}
}

// A void takes a value out of view, not out of the past.
func TestALinkThatWasVoidedWasOnAllTheSame(t *testing.T) {
	f, _, _ := read(t, with("", `"bank/last-current": "2026-11-24T20:00:00+01:00",
"b1/temperature": "18 C", "b2/temperature": "18 C", "b3/temperature": "18 C", "b4/temperature": "18 C",
"sA.p~sB.p/closed": "yes", "sA/total-voltage": "26.40 V", "sB/total-voltage": "26.40 V"`))
	state, blobs, _ := imported(t, f, 0)
	k := job.Key{Visit: "v1", Part: "sA.p~sB.p", Field: "closed"}
	w := job.NewWriter(job.Author{By: "p1", Key: []byte{2}, App: "test"}, [16]byte{2}, state)
	void, err := w.Void(job.Stamp{Now: f.Now, ID: "019ab3c0-1d00-7000-8000-00000000eeee"}, k, "wrong-part", job.Ref{}, state.Seen(k))
	if err != nil || state.ApplySigned(void.Signed(make([]byte, 64))) != nil {
		t.Fatal(err)
	}
	raw, err := Export(state, blobs, "v1", f.Now)
	if err != nil {
		t.Fatal(err)
	}
	_, again, _ := read(t, string(raw))
	for _, s := range []*job.State{state, again} {
		for _, x := range checks.Run(checks.NewFacts(s, "v1", f.Now)) {
			if x.Check() == "voltage-match" && x.Part() == "bank" && x.Verdict() != finding.CantTell {
				t.Errorf("got %v\n%s", x.Verdict(), raw)
			}
		}
	}
}

func TestExportWritesNamesWhilePeopleWantThem(t *testing.T) {
	f, state, blobs := read(t, with(`, "title": "Invented jetty", "parts": {"p1": {"name": "Ines \"Vé\" Varga"}}`, ""))
	raw, err := Export(state, blobs, "v1", f.Now)
	if err != nil || !strings.Contains(string(raw), `"title": "Invented jetty"`) || !strings.Contains(string(raw), `"Ines \"Vé\" Varga"`) {
		t.Errorf("%v\n%s", err, raw)
	}
	raw, err = Export(state, nil, "v1", f.Now)
	if err != nil || strings.Contains(string(raw), "title") || strings.Contains(string(raw), "p1") {
		t.Errorf("erased, and still there: %v\n%s", err, raw)
	}
}

func TestExportRefusesWhatItCannotRead(t *testing.T) {
	f, state, blobs := read(t, jetty)
	raw, err := job.Encode(job.Event{
		V: 1, ID: lookJob[:24] + "00000000ffff", Job: lookJob, Stream: "bbbbbbbbbbbbbbbb", Seq: 2, Prev: strings.Repeat("0", 64), Lam: 900,
		At: stamp(f.Now), By: "p1", Type: "set/2", Field: "v1/b1/rest-voltage", Body: job.Unread{Kind: "set/2", Raw: []byte(`{"n":"1"}`)},
	})
	if err != nil {
		t.Fatal(err)
	}
	e, err := job.Decode(raw)
	if err != nil || state.Apply(e) != nil {
		t.Fatal(err)
	}
	if _, err := Export(state, blobs, "v1", f.Now); err == nil || !strings.Contains(err.Error(), "newer") {
		t.Errorf("got %v", err)
	}
}
