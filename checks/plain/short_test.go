package plain

import (
	"testing"

	"lugmark/checks"
)

// What is set, chosen or shown by another thing's own display must not silently
// get the meter of the job.
func TestWhatNoMeterShowsGetsNone(t *testing.T) {
	meterOf := map[string]string{"V": "m1", "mV": "m2", "A": "m3", "MOhm": "m5", "kg": "m6"}
	for _, r := range []struct{ key, part, want, from string }{
		{"rest-voltage", "b1", "m1", "hand: volts"},
		{"gap-voltage", "b2", "m2", "hand: asked for in millivolts"},
		{"cable-insulation", "bank", "m5", "hand: asked for in megohms"},
		{"resistance", "b1", "", "hand: no meter for milliohms is named, and a tester of megohms reads none"},
		{"bond-resistance", "bank", "", "hand: nor ohms"},
		{"mass", "b1", "m6", "hand: kilograms"},
		{"own-draw", "bank", "m3", "hand: milliamperes, no range of their own is named"},
		{"insulation-volts", "bank", "", "hand: chosen on the tester"},
		{"absorption", "charger1", "", "hand: a setting"},
		{"charge-current", "bank", "", "hand: a plan"},
		{"counter-load", "shunt", "", "hand: its own display"},
		{"sensor-reads", "bank", "", "hand: the charger's display"},
		{"join-fuse", "bank", "", "hand: printed on the fuse"},
		{"rated-voltage", "m1", "", "hand: printed on the meter"},
	} {
		f, ok := checks.FieldOf(r.key, r.part)
		if !ok {
			t.Errorf("no field %s", r.key)
			continue
		}
		got := ""
		if checks.Measured(f) {
			got = usualMeter(meterOf, f)
		}
		if got != r.want {
			t.Errorf("%s: %q, want %q (%s)", r.key, got, r.want, r.from)
		}
	}
}
