package circuit

import (
	"math"
	"testing"

	"lugmark/core/unit"
)

func TestCorners(t *testing.T) {
	l := even(4, .005, .00025, .00025)
	low, high := l.Band(0.25)
	spans, err := l.Corners(200, low, high)
	if err != nil {
		t.Fatal(err)
	}
	// from: solved with another elimination routine in another language, block
	// 1 at 3.75 mΩ and the others at 6.25 mΩ, then the other way round.
	if !(math.Abs(float64(spans[0].High)-86.224) <= 1e-3) || !(math.Abs(float64(spans[0].Low)-48.433) <= 1e-3) {
		t.Errorf("block 1: %v, want 48.433 to 86.224 A", spans[0])
	}
	// hand: without a band the corners are the division itself.
	exact, exactErr := l.Corners(200, []unit.Ohm{.005, .005, .005, .005}, []unit.Ohm{.005, .005, .005, .005})
	if exactErr != nil || !(math.Abs(float64(exact[3].Low)-39.517882) <= 1e-6) || !(math.Abs(float64(exact[3].High)-39.517882) <= 1e-6) {
		t.Errorf("no band: %v %v", exact, exactErr)
	}
}

func TestCornersOfAnOpenBranchAreZero(t *testing.T) {
	l := even(4, .005, .00025, .00025).Without(0)
	low, high := l.Band(0)
	spans, err := l.Corners(200, low, high)
	if err != nil || spans[0].Low != 0 || spans[0].High != 0 {
		t.Errorf("open branch: %v, %v", spans, err)
	}
	// hand: the ladder of three, 0.384164 of 200 A.
	if !(math.Abs(float64(spans[1].High)-76.833) <= 1e-3) {
		t.Errorf("next branch: %v, want 76.833 A", spans[1])
	}
}

func TestCornersRefuse(t *testing.T) {
	l := even(2, 1, 1, 1)
	if _, err := l.Corners(1, []unit.Ohm{1}, []unit.Ohm{1, 1}); err == nil {
		t.Error("took one resistance for two branches")
	}
	if _, err := l.Corners(1, []unit.Ohm{2, 1}, []unit.Ohm{1, 1}); err == nil {
		t.Error("took low above high")
	}
}
