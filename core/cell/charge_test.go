package cell

import (
	"math"
	"testing"

	"lugmark/core/unit"
)

func TestChargeRate(t *testing.T) {
	tests := []struct {
		coldest, hottest unit.Celsius
		want             unit.Ratio
		from             string
	}{
		{-5, 20, 0, "both makers: none below 0 °C"},
		{0, 20, 0, "boundary: strictly above 0 °C"},
		{0.1, 20, 0.1, "boundary"},
		{10, 20, 0.1, "boundary: the lower rate"},
		{12, 20, 0.2, "the second maker's row 10 to 15 °C"},
		{15, 20, 0.2, "boundary: the lower rate"},
		{15.1, 44.9, 0.5, "the second maker's row 15 to 45 °C"},
		{20, 45, 0.2, "boundary: the lower rate"},
		{20, 49.9, 0.2, "the second maker's row 45 to 55 °C"},
		{20, 50, 0.1, "boundary: the first maker's row from 50 °C"},
		{20, 55, 0.1, "boundary"},
		{20, 55.1, 0, "the second maker: none above 55 °C"},
		{5, 47, 0.1, "hand: the colder row is the lower"},
	}
	for _, tt := range tests {
		if got, ok := ChargeRate(tt.coldest, tt.hottest); !ok || got != tt.want {
			t.Errorf("%v to %v °C: %v, want %v (%s)", tt.coldest, tt.hottest, got, tt.want, tt.from)
		}
	}
}

func TestAnUnknownTemperatureAllowsNothing(t *testing.T) {
	nan := unit.Celsius(math.NaN())
	for _, ends := range [][2]unit.Celsius{{nan, 20}, {20, nan}, {25, 20}} {
		if c, ok := ChargeRate(ends[0], ends[1]); ok || c != 0 {
			t.Errorf("%v allows %v", ends, c)
		}
	}
}

func TestResistance(t *testing.T) {
	tests := []struct {
		capacity               unit.AmpereHour
		low, high, fault, good float64 // mΩ
	}{ // hand: 140, 1200, max(140, 0.6·C) and 400 over C
		{100, 1.4, 12, 1.4, 4},
		{200, 0.7, 6, 0.7, 2},
		{50, 2.8, 24, 2.8, 8},
		{300, 0.466667, 4, 0.6, 1.333333},
	}
	for _, tt := range tests {
		r, ok := Resistance(tt.capacity)
		f, ok2 := FaultResistance(tt.capacity)
		s, ok3 := ShareResistance(tt.capacity)
		got := [4]float64{1000 * float64(r.Low), 1000 * float64(r.High), 1000 * float64(f.Low), 1000 * float64(s.Low)}
		for k, want := range [4]float64{tt.low, tt.high, tt.fault, tt.good} {
			if !ok || !ok2 || !ok3 || !(math.Abs(got[k]-want) <= 1e-6) {
				t.Errorf("%v Ah: figure %d is %v mΩ, want %v mΩ", tt.capacity, k, got[k], want)
			}
		}
		if f.High != r.High || s.High != r.High {
			t.Errorf("%v Ah: the high ends differ", tt.capacity)
		}
	}
	if got, ok := InrushResistance(100); !ok || !(math.Abs(float64(got)-.002) <= 1e-12) { // hand: 200/100 mΩ
		t.Errorf("inrush %v", got)
	}
	for _, none := range []unit.AmpereHour{0, -1, unit.AmpereHour(math.NaN())} {
		if _, ok := Resistance(none); ok {
			t.Errorf("%v Ah has a resistance", none)
		}
	}
}
