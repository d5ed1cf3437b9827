package plain

import (
	"bytes"
	"encoding/json"
	"fmt"
	"testing"

	"lugmark/checks"
)

// Whatever stands on a meter's sheet and on its display: a fault with its line,
// or findings that are valid JSON; never a NaN that passes.
func FuzzMeters(f *testing.F) {
	f.Add("0.05", "3", `"0.001 V"`, `"60 V"`, "13.282 V", "13.284 V")
	f.Add("0", "0", `"10 V"`, `"0.1 V"`, "-13.2 V", "0 V")
	f.Add("-1", "1e9", `"0 V"`, `"1 mV"`, "13282 mV", "1.3e1 V")
	f.Add("1e308", "99999999999", `"0.000000001 V"`, `null`, "13,28 V", "NaN V")
	f.Fuzz(func(t *testing.T, percent, counts, step, span, one, two string) {
		for _, raw := range []string{percent, counts, step, span} {
			if !json.Valid([]byte(raw)) {
				return
			}
		}
		a, _ := json.Marshal(one)
		b, _ := json.Marshal(two)
		file, faults := Parse(fmt.Appendf(nil, `{"lugmark": "job/1", "now": "2026-11-25T12:00:00+01:00",
 "layout": {"series": 2, "parallel": 1, "join": "strings", "takeoff": "one-end", "place": ["b1", "b2"]},
 "meters": {"m1": {"measures": "V", "percent": %s, "counts": %s, "step": %s, "range": %s}}, "use": {"V": "m1"},
 "readings": {"b1/rest-voltage": %s, "b2/rest-voltage": %s}}`, percent, counts, step, span, a, b))
		if len(faults) > 0 {
			for _, x := range faults {
				if x.Line < 1 || x.Error() == "" {
					t.Fatalf("%+v", x)
				}
			}
			return
		}
		state, _, err := file.State()
		if err != nil {
			t.Fatal(err)
		}
		for line := range bytes.Lines(checks.Results(checks.Run(checks.NewFacts(state, file.Visit, file.Now)))) {
			if !json.Valid(line) {
				t.Fatalf("not JSON: %s", line)
			}
		}
	})
}
