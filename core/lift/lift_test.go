package lift

import (
	"math"
	"testing"

	"lugmark/core/unit"
)

const inch, pound = 0.0254, 0.45359237

func TestPublishedExamples(t *testing.T) {
	tests := []struct {
		name   string
		lift   Lift
		pounds float64
		from   string
	}{
		{"worked exercise", Lift{Reach: 20 * inch, Height: 6 * inch, Travel: 16 * inch, Grip: Fair}, 18.4, "a handbook's worked answer, factors rounded to two digits"},
		{"press, origin", Lift{Reach: 23 * inch, Height: 15 * inch, Travel: 48 * inch, Grip: Fair}, 16.3, "the agency's manual, example of the punch press (inputs from memory)"},
		{"press, destination", Lift{Reach: 23 * inch, Height: 63 * inch, Travel: 48 * inch, Grip: Fair}, 14.5, "the same"},
	}
	for _, tt := range tests {
		got, ok := Recommended(tt.lift)
		// Printed in pounds and inches with multipliers of two digits. 23 kg for
		// 51 lb and 25 cm for 10 in are 2.2 % stricter, 0.44 for 10/23 is 1.2 %, 75 cm for 30 in 1 %:
		// never above what is printed, and at most 5 % below.
		if r := float64(got) / pound / tt.pounds; !ok || r > 1 || r < 0.95 {
			t.Errorf("%s: %.2f lb, want %v lb (%s)", tt.name, float64(got)/pound, tt.pounds, tt.from)
		}
	}
}

func TestByHand(t *testing.T) {
	tests := []struct {
		name string
		lift Lift
		kg   float64
		from string
	}{
		{"ideal", Lift{Reach: 0.25, Height: 0.75, Travel: 0.25, Grip: Good}, 23, "hand: every multiplier is 1"},
		{"nearer is not better", Lift{Reach: 0.15, Height: 0.75, Travel: 0.10, Grip: Good}, 23, "boundary: 25 cm"},
		{"cabinet floor", Lift{Reach: 0.30, Height: 0.20, Travel: 0.60, Grip: Fair}, 13.608, "hand: 23·0.8333·0.835·0.895·0.95"},
		{"fair grip at 75", Lift{Reach: 0.25, Height: 0.75, Travel: 0.25, Grip: Fair}, 23, "boundary: 1.00 from 75 cm"},
		{"poor grip", Lift{Reach: 0.25, Height: 0.75, Travel: 0.25}, 20.7, "hand: 23·0.90"},
		{"twisted", Lift{Reach: 0.25, Height: 0.75, Travel: 0.25, Twist: 90, Grip: Good}, 16.376, "hand: 23·(1 − 0.288)"},
		{"once a minute", Lift{Reach: 0.25, Height: 0.75, Travel: 0.25, PerMinute: 1, Grip: Good}, 21.62, "hand: 23·0.94"},
		{"farthest reach", Lift{Reach: 0.63, Height: 0.75, Travel: 0.25, Grip: Good}, 9.127, "boundary: 23·25/63"},
		{"longest way", Lift{Reach: 0.25, Height: 0.75, Travel: 1.75, Grip: Good}, 19.4514, "boundary: 23·(0.82 + 4.5/175)"},
		{"most twisted", Lift{Reach: 0.25, Height: 0.75, Travel: 0.25, Twist: 135, Grip: Good}, 13.064, "boundary: 23·(1 − 0.0032·135)"},
		{"too far", Lift{Reach: 0.64, Height: 0.75, Travel: 0.25, Grip: Good}, 0, "boundary: above 63 cm"},
		{"highest", Lift{Reach: 0.25, Height: 1.75, Travel: 0.25, Grip: Good}, 16.1, "boundary: 23·0.7"},
		{"too high", Lift{Reach: 0.25, Height: 1.76, Travel: 0.25, Grip: Good}, 0, "boundary: above 175 cm"},
		{"too twisted", Lift{Reach: 0.25, Height: 0.75, Travel: 0.25, Twist: 136, Grip: Good}, 0, "boundary: above 135°"},
		{"too long", Lift{Reach: 0.25, Height: 0.75, Travel: 1.76, Grip: Good}, 0, "boundary: above 175 cm"},
	}
	for _, tt := range tests {
		if got, ok := Recommended(tt.lift); !ok || !(math.Abs(float64(got)-tt.kg) <= 0.001) {
			t.Errorf("%s: %.4f kg, want %v kg (%s)", tt.name, float64(got), tt.kg, tt.from)
		}
	}
}

func TestNothingKnownIsNothingAllowed(t *testing.T) {
	for _, l := range []Lift{
		{}, {Reach: 0.25, Height: unit.Metre(math.NaN())}, {Reach: -1}, {Reach: 0.25, Height: 0.75, Travel: 0.25, PerMinute: 11},
	} {
		if _, ok := Recommended(l); ok {
			t.Errorf("%+v has a limit", l)
		}
	}
}

func TestTogether(t *testing.T) {
	for n, want := range map[int]unit.Ratio{1: 1, 2: 1.33, 3: 1.5} { // two thirds of 2, half of 3
		if got, ok := Together(n); !ok || got != want {
			t.Errorf("%d persons: %v", n, got)
		}
	}
	for _, n := range []int{0, 4} {
		if _, ok := Together(n); ok {
			t.Errorf("%d persons have a factor", n)
		}
	}
}
