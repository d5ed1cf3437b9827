package screen

import (
	"strings"
	"testing"

	"lugmark/checks"
	"lugmark/checks/sample"
)

// coldMast is one cold block, alone on the bench, that heats itself; more goes among its readings.
func coldMast(t *testing.T, more string) *root {
	t.Helper()
	return shown(t, sample.Sample{ID: "cold", Raw: []byte(`{"lugmark": "job/1", "title": "Invented mast", "now": "2026-11-25T08:00:00Z",
 "layout": {"series": 1, "parallel": 1, "join": "strings", "takeoff": "one-end"},
 "sheets": {"sheet1": {"blocks": ["b1"], "capacity": "200 Ah", "charge-voltage-max": "14.6 V", "charge-max": "50 A",
  "heated": "yes", "heater-current": "5 A", "heater-release": "5 C"}},
 "parts": {"p1": {"name": "Ines Varga"}},
 "readings": {"b1/charge-temperature": "-10 C", "b1/sensor": "own", "charger1/set-current": "10 A", "charger1/absorption": "14.2 V",
  "charger1/float": "13.5 V", "charger1/equalise": "off", "charger1/temp-comp": "off", "charger1/recover": "off", "charge1/target": "b1", "stage.first-charge/hazards-read": "yes"` + more + `}}`)})
}

func TestTheHeatHoldPointIsShown(t *testing.T) {
	rows := []struct {
		name, more string
		charge     []string // what the charge list says
		not        string
		hold       []string // what the hold point says
	}{
		{"nobody stays", "", []string{"Keep the charger off while the blocks are cold", "/hold/heat/bank"}, "Heater current only",
			[]string{"Keep the charger off while the blocks are cold", "Ines Varga stays and writes the current down", "nobody heats a bank unwatched", "judges by its own sensor", "Heater current only: about 5"}},
		{"released", `, "bank/heat-watched": "yes"`, []string{"Warm the blocks with the charger", "Heater current only: about 5", "first ten minutes"}, "Keep the charger off",
			[]string{"Warm the blocks with the charger", "Start the charge list", "judges by its own sensor", "Heater current only: about 5"}},
	}
	for _, row := range rows {
		r := coldMast(t, row.more)
		stage, charge, hold := r.at(r.to("stage", string(checks.FirstCharge))), r.at(r.to("charge")), r.at(r.to("hold", "heat", "bank"))
		if !strings.Contains(stage, "/hold/heat/bank") || !strings.Contains(r.at(r.to("part", "bank")), "/hold/heat/bank") {
			t.Errorf("%s: the stage or the bank does not list the hold point", row.name)
		}
		for _, must := range row.charge {
			if !strings.Contains(charge, must) {
				t.Errorf("%s: the charge list does not say %q", row.name, must)
			}
		}
		if strings.Contains(charge, row.not) {
			t.Errorf("%s: the charge list says %q", row.name, row.not)
		}
		for _, must := range row.hold {
			if !strings.Contains(hold, must) {
				t.Errorf("%s: the hold point does not say %q", row.name, must)
			}
		}
		if strings.Contains(hold, "It is closed") {
			t.Errorf("%s: nothing is closed by heating", row.name)
		}
	}
}

// Where nothing heats, no screen speaks of it.
func TestNoHeatHoldPointWhereNothingHeats(t *testing.T) {
	for _, s := range sample.List() {
		r := shown(t, s)
		if strings.Contains(r.at(r.to("stage", string(checks.FirstCharge))), "/hold/heat/") {
			t.Errorf("%s: a hold point for heaters that are not there", s.ID)
		}
	}
}
