package e2e

import "testing"

// One block's voltage costs its digits and one tap to keep it, no more: the
// point comes by itself and the next block comes by itself.
func TestTapsForOneVoltage(t *testing.T) {
	w := NewWalker(t, shared, Serve(t).URL+"/", 0)
	w.newJob()
	w.stage("Receive")
	w.cautions()
	field := "Voltage on arrival"
	w.Row(field)
	for i, c := range []struct {
		digits string
		taps   int // its digits and one
	}{{"13.20", 5}, {"13.21", 5}, {"13.202", 6}, {"13.203", 6}} {
		w.At(blocks[i])
		before := w.Taps
		w.Reading(blocks[i], field, c.digits, "V")
		if n := w.Taps - before; n != c.taps {
			t.Errorf("%s took %d taps, want %d", c.digits, n, c.taps)
		}
	}
	w.At("Receive")
}
