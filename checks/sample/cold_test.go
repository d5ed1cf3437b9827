package sample_test

import (
	"regexp"
	"strings"
	"testing"

	"lugmark/checks"
	"lugmark/checks/plain"
	"lugmark/checks/sample"
)

// coldHut is the hut on a frosty morning: blocks that heat themselves with 5 A,
// at −8 °C, of one delivery and matched, never charged alone; "equal charge is
// not proved" is accepted by name. More goes among its readings, and what begins
// so is left out.
func coldHut(t *testing.T, more string, out ...string) *checks.Facts {
	t.Helper()
	raw := ""
	for _, s := range sample.List() {
		if s.ID == "hut" {
			raw = string(s.Raw)
		}
	}
	cut := append(out, "b[1-4]/full-", "charge1.", "b[1-4]/top-", "sA/tail-", "bank/charge-ended", "charger1/absorption-at", "charger1/volts-at-", "charger1/lead-", "b[1-4]/temperature", "b[1-4]/charge-temperature",
		"charger1/set-current", "bank/charge-current")
	for _, c := range cut {
		raw = regexp.MustCompile(`"`+c+`[^"]*": ?("[^"]*"|\{[^}]*\}|[0-9]+),\s*`).ReplaceAllString(raw, "")
	}
	cold := ""
	for _, b := range []string{"b1", "b2", "b3", "b4"} {
		cold += `"` + b + `/temperature": "-8.0 C", "` + b + `/charge-temperature": "-8.0 C", `
	}
	raw = strings.NewReplacer(
		`"capacity": "100 Ah",`, `"capacity": "100 Ah", "heated": "yes", "heater-current": "5 A", "heater-release": "5 C",`,
		`"readings": {`, `"readings": {`+cold+`"charger1/set-current": "10 A", "bank/charge-current": "10 A", `+more,
		`"bank/settled": "no"`, `"bank/settled": "no", "bank/level-accepted": "yes"`).Replace(raw)
	file, faults := plain.Parse([]byte(raw))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	state, _, err := file.State()
	if err != nil {
		t.Fatal(err)
	}
	f := checks.NewFacts(state, file.Visit, file.Now)
	checks.Run(f)
	return f
}

// The order on site of a cold bank that heats itself: joined by a match that a
// person accepts, wired, switched on, heated through its main, and charged only
// when it is warm. No hold point waits for one that comes after it.
func TestAColdHutIsWiredThenHeatedThenCharged(t *testing.T) {
	rows := []struct {
		name, more string
		out        []string
		open, shut []string
	}{
		{"before the main", "", []string{"switch/closed", "fuse.main/closed"}, []string{"series b1.n~b2.p", "series b3.n~b4.p"}, []string{"heat bank", "charge bank"}},
		{"ready for the main", `"switch/closed": "no", `, []string{"switch/closed"}, []string{"main switch"}, []string{"heat bank", "charge bank"}},
		{"switched on, somebody stays", `"bank/heat-watched": "yes", `, nil, []string{"main switch", "heat bank"}, []string{"charge bank"}},
		{"switched on, nobody stays", "", nil, []string{"main switch"}, []string{"heat bank", "charge bank"}},
	}
	for _, r := range rows {
		f := coldHut(t, r.more, r.out...)
		for _, want := range []struct {
			list []string
			open bool
		}{{r.open, true}, {r.shut, false}} {
			for _, id := range want.list {
				gate, part, _ := strings.Cut(id, " ")
				if h, listed := f.HoldFor(gate, part); !listed || h.Passed() != want.open {
					t.Errorf("%s: %s listed %v, open %v, want %v; shut by %v", r.name, id, listed, h.Passed(), want.open, h.Shut())
				}
			}
		}
		for _, b := range []string{"b1", "b4"} {
			if f.WarmAlone(b) {
				t.Errorf("%s: %s may be charged alone", r.name, b)
			}
		}
	}
}
