package circuit

import (
	"math"
	"testing"

	"lugmark/core/measure"
	"lugmark/core/unit"
)

func volts(value, u unit.Volt) measure.Reading[unit.Volt] {
	return measure.Reading[unit.Volt]{Value: value, U: u}
}

func ohms(low, high unit.Ohm) measure.Interval[unit.Ohm] {
	return measure.Interval[unit.Ohm]{Low: low, High: high}
}

func TestJoinCurrent(t *testing.T) {
	tests := []struct {
		name      string
		gap       measure.Reading[unit.Volt]
		loop      measure.Interval[unit.Ohm]
		low, high float64
		from      string
	}{
		{"10 mV over 12 mΩ", volts(.010, 0), ohms(.012, .012), .8333, .8333, "hand: 0.010/0.012"},
		{"50 mV", volts(.050, 0), ohms(.012, .012), 4.1667, 4.1667, "hand: 0.050/0.012"},
		{"half a volt", volts(.50, 0), ohms(.012, .012), 41.6667, 41.6667, "hand: 0.50/0.012"},
		{"with uncertainty", volts(-.010, .0082), ohms(.004, .012), .15, 4.55, "hand: 1.8/12 and 18.2/4"},
		{"gap inside its uncertainty", volts(.005, .0082), ohms(.004, .012), 0, 3.3, "hand: 13.2/4, never below 0"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, ok := JoinCurrent(tt.gap, tt.loop)
			if !ok || !(math.Abs(float64(got.Low)-tt.low) <= 1e-4) || !(math.Abs(float64(got.High)-tt.high) <= 1e-4) {
				t.Errorf("%v %v, want %v to %v (%s)", got, ok, tt.low, tt.high, tt.from)
			}
		})
	}
	for _, loop := range []measure.Interval[unit.Ohm]{{}, ohms(0, 1), ohms(2, 1), ohms(-1, 1)} {
		if got, ok := JoinCurrent(volts(.01, 0), loop); ok {
			t.Errorf("loop %v gave %v", loop, got)
		}
	}
	if _, ok := JoinCurrent(volts(.01, -1), ohms(1, 1)); ok {
		t.Error("took a negative uncertainty")
	}
}

func TestTogetherIsMillman(t *testing.T) {
	// hand: 13.30/6 + 13.28/5 + 13.33/7 over 1/6 + 1/5 + 1/7; 1/0.509524 mΩ
	got, ok := Together([]Branch{{EMF: 13.30, R: .006}, {EMF: 13.28, R: .005}, {EMF: 13.33, R: .007}, {EMF: 99, R: 1, Open: true}})
	if !ok || !(math.Abs(float64(got.EMF)-13.30056075) <= 1e-8) || !(math.Abs(float64(got.R)-.001962617) <= 1e-9) {
		t.Errorf("%v %v", got, ok)
	}
	if _, ok := Together(nil); ok {
		t.Error("nothing has a voltage")
	}
}

func TestJoinCurrentsOfTwoIsJoinCurrent(t *testing.T) {
	// hand: 18.2 mV over 4 mΩ, 1.8 mV over 12 mΩ
	spans, ok := JoinCurrents([]unit.Volt{13.20, 13.21}, .0082, []unit.Ohm{.002, .002}, []unit.Ohm{.006, .006})
	if !ok {
		t.Fatal("refused")
	}
	for _, s := range spans {
		if !(math.Abs(float64(s.Low)-.15) <= 1e-9) || !(math.Abs(float64(s.High)-4.55) <= 1e-9) {
			t.Errorf("%v, want 0.15 to 4.55 A", s)
		}
	}
	// hand: 30 mV against three alike: (30+0)/(2 + 2/3) = 11.25 A
	spans, ok = JoinCurrents([]unit.Volt{13.23, 13.20, 13.20, 13.20}, 0, []unit.Ohm{.002, .002, .002, .002}, []unit.Ohm{.002, .002, .002, .002})
	if !ok || !(math.Abs(float64(spans[0].High)-11.25) <= 1e-9) || !(math.Abs(float64(spans[0].Low)-11.25) <= 1e-9) {
		t.Errorf("one against three: %v %v", spans, ok)
	}
	if _, ok := JoinCurrents([]unit.Volt{13.2}, 0, []unit.Ohm{1}, []unit.Ohm{1}); ok {
		t.Error("one block joins nothing")
	}
}

func TestAddedResistance(t *testing.T) {
	// hand: 100.8 mV / 10 A − 4 mΩ = 6.08 mΩ
	got, ok := AddedResistance(volts(-.100, .0008), .004, 10)
	if !ok || !(math.Abs(float64(got)-.00608) <= 1e-9) {
		t.Errorf("%v %v, want 6.08 mΩ", got, ok)
	}
	// hand: 8 mV / 10 A is below 4 mΩ
	if got, ok := AddedResistance(volts(.008, 0), .004, 10); !ok || got != 0 {
		t.Errorf("%v %v, want none", got, ok)
	}
	if _, ok := AddedResistance(volts(.1, 0), .004, 0); ok {
		t.Error("took a limit of zero")
	}
}

func TestSettle(t *testing.T) {
	tests := []struct {
		gap   unit.Volt
		slope VoltPerAmpereHour
		hours float64
		ah    float64
		from  string
	}{
		{.010, .0015, 4.0, 3.3333, "hand: 12 mΩ / 3 mV per Ah = 4 h; 10/3"},
		{.050, .0015, 4.0, 16.6667, "hand: 50/3"},
		{.50, .020, .30, 12.5, "hand: 12/40 h; 500/40"},
	}
	for _, tt := range tests {
		tau, moved, ok := Settle(tt.gap, .012, tt.slope, tt.slope)
		if !ok || !(math.Abs(float64(tau)/3600-tt.hours) <= 1e-9) || !(math.Abs(float64(moved)-tt.ah) <= 1e-4) {
			t.Errorf("%v h %v Ah %v (%s)", tau/3600, moved, ok, tt.from)
		}
	}
	if _, _, ok := Settle(.01, .012, 0, 0); ok {
		t.Error("settled on no slope")
	}
}
