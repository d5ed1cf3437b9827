//go:build !js

package assess

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"lugmark/checks/sample"
)

// small is a job with one match that two numbers decide. By hand: D = 2 mV,
// g = 0.05 % / √3; u² = (g·D)² + d²/6 with d = 1 mV, the gain part being the
// limit of error 0.001 mV over √3: U = 2·√(0.1667 + 0.0000003) = 0.8165 mV.
const small = `{"lugmark": "job/1", "now": "2026-11-25T12:00:00+01:00",
 "layout": {"series": 2, "parallel": 1, "join": "strings", "takeoff": "one-end"},
 "meters": {"m1": {"measures": "V", "percent": 0.05, "counts": 3, "step": "0.001 V"}}, "use": {"V": "m1"},
 "house": {"voltage-match": {"spread": "0.008 V"}},
 "readings": {"bank/last-current": "2026-11-24T20:00:00+01:00", "b1/temperature": "18 C", "b2/temperature": "18 C",
  "b1/rest-voltage": "13.282 V", "b2/rest-voltage": "13.284 V"}}`

func judge(t *testing.T, raw string, o Options) (lines []string, complaints string, ok bool) {
	t.Helper()
	var out, bad bytes.Buffer
	ok, err := Judge(Input{"job.json", []byte(raw)}, o, &out, &bad)
	if err != nil {
		t.Fatal(err)
	}
	return strings.Split(strings.TrimSpace(out.String()), "\n"), bad.String(), ok
}

func find(lines []string, check, part string) string {
	for _, l := range lines {
		if strings.HasPrefix(l, `{"check":"`+check+`","part":"`+part+`",`) {
			return l
		}
	}
	return ""
}

func TestALineHasEveryKeyInItsOrder(t *testing.T) {
	lines, complaints, ok := judge(t, small, Options{})
	if !ok || complaints != "" {
		t.Fatalf("%v %s", ok, complaints)
	}
	want := `{"check":"voltage-match","part":"sA","parts":["sA"],"verdict":"pass",` +
		`"found":{"value":0.002,"low":0.001183502603,"high":0.002816497397,"unit":"V","text":"0.00200 V ± 0.00082 V"},` +
		`"limit":{"name":"spread","min":null,"max":0.008,"unit":"V","text":"at most 0.008 V"},"limit_kind":"house","reason":"`
	got := find(lines, "voltage-match", "sA")
	if !strings.HasPrefix(got, want) || !strings.HasSuffix(got, `"next":null,"source":"the firm's own rule","assumed":[],"rules":"2026-11"}`) {
		t.Errorf("got  %s\nwant %s…", got, want)
	}
	for _, l := range lines {
		var keys map[string]any
		if err := json.Unmarshal([]byte(l), &keys); err != nil {
			t.Fatalf("%v: %s", err, l)
		}
		if len(keys) != 12 {
			t.Errorf("%d keys: %s", len(keys), l)
		}
		if strings.ContainsAny(l, "\u2212\u00a0") || strings.Contains(l, `\u00`) {
			t.Errorf("signs of paper: %s", l)
		}
	}
}

// The latest visit that is in a file is the one that is judged, unless the file
// names another.
func TestTheLatestVisitIsJudged(t *testing.T) {
	second := strings.Replace(small, `"b1/rest-voltage"`, `"v2/bank/last-current": "2026-11-24T20:00:00+01:00", "v2/bank/full-before": "yes",
  "v2/b1/rest-voltage": "13.282 V", "v2/b2/rest-voltage": "13.306 V", "b1/rest-voltage"`, 1)
	lines, complaints, ok := judge(t, second, Options{})
	if !ok || complaints != "" {
		t.Fatalf("%v %s", ok, complaints)
	}
	// By hand: 24 mV, U 0.82 mV; what the first visit found was 2 mV, so 20 mV it is.
	if l := find(lines, "match-again", "sA"); !strings.Contains(l, `"verdict":"fail"`) {
		t.Errorf("got %s", l)
	}
	for check, part := range map[string]string{"voltage-match": "sA", "plan-series": "bank", "torque": "b1.p"} {
		if l := find(lines, check, part); l != "" {
			t.Errorf("asked at a return visit: %s", l)
		}
	}
	lines, _, _ = judge(t, strings.Replace(second, `"now"`, `"visit": "v1", "now"`, 1), Options{})
	if find(lines, "match-again", "sA") != "" || !strings.Contains(find(lines, "voltage-match", "sA"), `"verdict":"pass"`) {
		t.Errorf("the first visit, by name: %s", strings.Join(lines, "\n"))
	}
	record, _, ok := judge(t, string(recorded(t, second)), Options{})
	if l := find(record, "match-again", "sA"); !ok || !strings.Contains(l, `"verdict":"fail"`) {
		t.Errorf("as a record: %s", l)
	}
}

func TestNowIsThatOfTheFileUnlessGiven(t *testing.T) {
	early := time.Date(2026, 11, 24, 21, 0, 0, 0, time.FixedZone("", 3600))
	unread := strings.Replace(small, `"b1/rest-voltage": "13.282 V", "b2/rest-voltage": "13.284 V"`, `"b1.p/torque-set": "9 N.m"`, 1)
	lines, _, _ := judge(t, unread, Options{Now: early})
	if l := find(lines, "rested", "bank"); !strings.Contains(l, `"verdict":"later"`) { // one hour of twelve
		t.Errorf("got %s", l)
	}
	lines, _, _ = judge(t, unread, Options{})
	if l := find(lines, "rested", "bank"); !strings.Contains(l, `"verdict":"pass"`) { // sixteen hours
		t.Errorf("got %s", l)
	}
	lines, complaints, ok := judge(t, `{"lugmark": "job/1"}`, Options{Clock: early})
	if !ok || len(lines) == 0 || !strings.Contains(complaints, "job.json:1: Note: The file holds no time") {
		t.Errorf("%v %v %s", ok, lines, complaints)
	}
}

func TestFaultsNameFileAndLine(t *testing.T) {
	lines, complaints, ok := judge(t, strings.Replace(small, "13.282 V", "1.3.282 V", 1), Options{})
	if ok || lines[0] != "" || !strings.HasPrefix(complaints, "job.json:6: “rest-voltage” of “b1”: ") {
		t.Errorf("%v %v %s", ok, lines, complaints)
	}
	for _, foreign := range []string{"", "hello", "[]", "\x00\x01"} {
		if _, complaints, ok := judge(t, foreign, Options{}); ok || !strings.HasPrefix(complaints, "job.json:1: ") {
			t.Errorf("%q: %v %s", foreign, ok, complaints)
		}
	}
}

func TestEverySampleIsJudged(t *testing.T) {
	for _, s := range sample.List() {
		lines, complaints, ok := judge(t, string(s.Raw), Options{})
		if !ok || complaints != "" || len(lines) < 20 {
			t.Errorf("%s: %v, %d lines, %s", s.ID, ok, len(lines), complaints)
		}
	}
}
