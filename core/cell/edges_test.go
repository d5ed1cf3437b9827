package cell

import (
	"math"
	"testing"

	"lugmark/core/unit"
)

// Figures that other packages rest on, as their sources give them.
func TestFiguresOthersRestOn(t *testing.T) {
	for _, r := range []struct {
		got, want float64
		from      string
	}{
		{float64(ColdestLevel), 0, "the open data end at 5 °C; below freezing the branches part"},
		{float64(HottestLevel), 45, "the open data end at 45 °C"},
		{float64(ChargeUpTo), 45, "two makers' tables"},
		{float64(ColdFactor), 3, "a trade page: 150 to 200 % more at −20 °C, so at most three times"},
		{float64(Cells), 4, "hand: 12.8 V of 3.2 V cells"},
	} {
		if r.got != r.want {
			t.Errorf("%v, want %v (%s)", r.got, r.want, r.from)
		}
	}
}

// Between two rows of the data a branch is straight, and at a row it is the row.
func TestLevelsLieOnTheBranches(t *testing.T) {
	for k := 1; k < len(curve); k++ {
		a, b := curve[k-1], curve[k]
		if b.rising > a.rising {
			half := unit.Volt(Cells * (a.rising + b.rising) / 2)
			if z, ok := span(half, 0); !ok || !(math.Abs(float64(z.Low)-(a.percent+b.percent)/2) <= 1e-6) {
				t.Errorf("rising, %v V: %v %%, hand: halfway between %v and %v", half, z.Low, a.percent, b.percent)
			}
		}
		if b.falling > a.falling {
			half := unit.Volt(Cells * (a.falling + b.falling) / 2)
			if z, ok := span(half, 0); ok && !(math.Abs(float64(z.High)-(a.percent+b.percent)/2) <= 1e-6) {
				t.Errorf("falling, %v V: %v %%, hand: halfway between %v and %v", half, z.High, a.percent, b.percent)
			}
		}
	}
}

func TestLevelsAtTheEndsOfTheData(t *testing.T) {
	first, last := curve[0], curve[len(curve)-1]
	if z, ok := span(unit.Volt(Cells*first.falling), 0); !ok || z.Low != 0 || z.High != 0 { // boundary: 8.000 V
		t.Errorf("at the lowest: %v %v", z, ok)
	}
	if z, ok := span(unit.Volt(Cells*last.rising), 0); !ok || z.Low != 100 || z.High != 100 { // boundary: 14.400 V
		t.Errorf("at the highest: %v %v", z, ok)
	}
	// A reading that reaches over an end stays within 0 to 100.
	if z, ok := span(8.0, 0.1); !ok || z.Low != 0 {
		t.Errorf("about the lowest: %v %v", z, ok)
	}
	if z, ok := span(14.39, 0.1); !ok || z.High != 100 {
		t.Errorf("about the highest: %v %v", z, ok)
	}
	// hand from the published rows: (12.7335 − (8.000 + 9.285)/2)/10 = 409.1 mV per percent.
	if s, ok := Slope(0, 10); !ok || !(math.Abs(1000*float64(s)-409.1) <= 0.2) {
		t.Errorf("slope from empty: %v", s)
	}
	if c, ok := ChargeRate(20, 20); !ok || c != 0.5 { // boundary: all at one temperature
		t.Errorf("at 20 °C: %v", c)
	}
	if _, ok := FaultResistance(0); ok {
		t.Error("no capacity has a fault current")
	}
}
