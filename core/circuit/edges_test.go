package circuit

import (
	"math"
	"testing"

	"lugmark/core/unit"
)

func TestNothingIsLostAtTheBoundary(t *testing.T) {
	if got, ok := InverterCurrent(1000, 50, 1); !ok || got != 20 { // boundary: 1000/(50·1)
		t.Errorf("no loss: %v A", got)
	}
	if got, ok := BankLimit(100, 1); !ok || got != 100 { // boundary: one block carries all
		t.Errorf("one block: %v A", got)
	}
	nan := math.NaN()
	for _, bad := range []struct {
		p unit.Watt
		v unit.Volt
		e unit.Ratio
	}{{0, 50, 1}, {1000, 0, 1}, {1000, 50, 0}, {1000, 50, 1.01}, {unit.Watt(nan), 50, 1}} {
		if got, ok := InverterCurrent(bad.p, bad.v, bad.e); ok {
			t.Errorf("%v gives %v A", bad, got)
		}
	}
	for _, share := range []unit.Ratio{0, -1, 1.01, unit.Ratio(nan)} {
		if got, ok := BankLimit(100, share); ok {
			t.Errorf("a share of %v gives %v A", share, got)
		}
	}
	if _, ok := BankLimit(0, 0.5); ok {
		t.Error("a block of no current has a limit")
	}
}
