package conductor

import (
	"math"
	"testing"

	"lugmark/core/unit"
)

func TestNextFuse(t *testing.T) {
	for current, want := range map[unit.Ampere]unit.Ampere{ // NEC 240.6(A) as reproduced
		157.8: 175, 175: 175, 175.1: 200, 0.5: 1, 801: 1000, 12: 15,
	} {
		if got, ok := NextFuse(current); !ok || got != want {
			t.Errorf("%v A: %v A, want %v A", current, got, want)
		}
	}
	for _, none := range []unit.Ampere{6001, unit.Ampere(math.NaN())} {
		if got, ok := NextFuse(none); ok {
			t.Errorf("%v A: %v A", none, got)
		}
	}
}

func TestFactorsOfTheFuse(t *testing.T) {
	if BoatFuse != 1.5 || Continuous != 1.25 { // ABYC E-11 and NEC 210.20(A) as reproduced
		t.Errorf("%v and %v, want 1.5 and 1.25", BoatFuse, Continuous)
	}
}

func TestLargestFuse(t *testing.T) {
	tests := []struct {
		ampacity, want unit.Ampere
		from           string
	}{
		{175, 175, "a standard size"},
		{130, 150, "NEC 240.4(B): the next above"},
		{750, 800, "NEC 240.4(B): up to 800 A"},
		{850, 800, "NEC 240.4(B): above 800 A not the next"},
		{1000, 1000, "a standard size"},
	}
	for _, tt := range tests {
		if got, ok := LargestFuse(tt.ampacity); !ok || got != tt.want {
			t.Errorf("%v A: %v A, want %v A (%s)", tt.ampacity, got, tt.want, tt.from)
		}
	}
	if _, ok := LargestFuse(0.5); ok {
		t.Error("half an ampere has a fuse")
	}
}

func TestFuseWindow(t *testing.T) {
	// hand: 5 kW at 44 V and 0.90 is 126.263 A, ·1.25 = 157.8 A; 2/0 at 75 °C carries 175 A
	least, most, ok := FuseWindow(126.263, 175)
	if !ok || least != 175 || most != 175 {
		t.Errorf("%v to %v A %v, want 175 A exactly", least, most, ok)
	}
	// hand: 1.25·140 = 175 is not above 175 through rounding
	if least, _, ok := FuseWindow(140, 175); !ok || least != 175 {
		t.Errorf("140 A: %v A", least)
	}
	// hand: 1.25·200 = 250 A, 2/0 carries 175 A
	if _, _, ok := FuseWindow(200, 175); ok {
		t.Error("a window on a cable that is too small")
	}
	if _, _, ok := FuseWindow(0, 175); ok {
		t.Error("a window for no current")
	}
}

func TestAtAltitude(t *testing.T) {
	// a distributor's note: 30 A at 3000 m is 28.5 A
	if got := 30 * AtAltitude(3000); !(math.Abs(float64(got)-28.5) <= 1e-12) {
		t.Errorf("%v A", got)
	}
	if AtAltitude(2000) != 1 || AtAltitude(-5) != 1 {
		t.Error("derated at or below 2000 m")
	}
}
