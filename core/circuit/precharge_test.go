package circuit

import (
	"math"
	"testing"

	"lugmark/core/unit"
)

func TestPrecharge(t *testing.T) {
	tests := []struct {
		name                                string
		p                                   Precharge
		tau, amps, watts, joules, t95, t99m float64
		from                                string
	}{
		{"published calculator", Precharge{800, 47, 1e-3}, .0470, 17.0, 13617, 320.0, .1410, .2164,
			"a maker of pulse resistors prints 47.0 ms, 17.0 A, 13 617 W, 320.0 J, 141.0 ms (as 3τ), 216.4 ms"},
		{"48 V, 10 mF, 25 Ω", Precharge{51.2, 25, .010}, .25, 2.048, 104.8576, 13.1072, .748933, 1.151293,
			"hand: −ln 0.05 = 2.995732, −ln 0.01 = 4.605170"},
		{"48 V, 20 mF, 50 Ω", Precharge{51.2, 50, .020}, 1, 1.024, 52.4288, 26.2144, 2.995732, 4.605170, "hand"},
		{"24 V, 20 mF, 10 Ω", Precharge{25.6, 10, .020}, .2, 2.56, 65.536, 6.5536, .599146, .921034, "hand"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t95, _ := tt.p.Until(.05)
			t99, _ := tt.p.Until(.01)
			got := []float64{float64(tt.p.Tau()), float64(tt.p.FirstCurrent()), float64(tt.p.FirstPower()), float64(tt.p.Pulse()), float64(t95), float64(t99)}
			want := []float64{tt.tau, tt.amps, tt.watts, tt.joules, tt.t95, tt.t99m}
			for k := range want {
				if !(math.Abs(got[k]-want[k]) <= 2e-3*want[k]) { // the calculator prints three digits and 3τ for 95 %
					t.Errorf("figure %d: %v, want %v (%s)", k, got[k], want[k], tt.from)
				}
			}
		})
	}
}

func TestPrechargeToTheLastDigit(t *testing.T) {
	p := Precharge{51.2, 25, .010}
	t95, ok := p.Until(.05)
	if !ok || !(math.Abs(float64(t95)-.748933) <= 1e-6) { // hand: 0.25·2.995732274
		t.Errorf("t95 %v", t95)
	}
	// hand: 51.2·e^−5 = 0.344983
	if got := p.Left(5 * p.Tau()); !(math.Abs(float64(got)-.344983) <= 1e-6) {
		t.Errorf("after 5τ %v V", got)
	}
	// hand: 51.2·25/(25+475) = 2.56 V stays
	if got, ok := p.StallsAt(475); !ok || !(math.Abs(float64(got)-2.56) <= 1e-12) {
		t.Errorf("stalls at %v V", got)
	}
	if _, ok := p.Until(0); ok {
		t.Error("reaches the last volt in finite time")
	}
	if (Precharge{Bank: 51.2, Resistor: 25}).Valid() {
		t.Error("an unknown capacitance is valid")
	}
}

func TestInrush(t *testing.T) {
	// published: 12 V over 5 mΩ gives 2400 A; hand: 2 V over 5 mΩ gives 400 A
	for volts, want := range map[unit.Volt]unit.Ampere{12: 2400, 2: 400, -2: 400} {
		if got, ok := Inrush(volts, .004, .001); !ok || !(math.Abs(float64(got-want)) <= 1e-9) {
			t.Errorf("%v V: %v A, want %v A", volts, got, want)
		}
	}
	// published: 400 V over 50 Ω gives 8 A
	if got, _ := Inrush(400, 50, 0); got != 8 {
		t.Errorf("%v A, want 8 A", got)
	}
	if _, ok := Inrush(2, 0, .001); ok {
		t.Error("took a bank without resistance")
	}
}

func TestCapacitanceFrom(t *testing.T) {
	// hand: 0.75 s over 3·25 Ω = 10 mF
	if got, ok := CapacitanceFrom(.75, 25); !ok || !(math.Abs(float64(got)-.010) <= 1e-12) {
		t.Errorf("%v F %v", got, ok)
	}
	if _, ok := CapacitanceFrom(0, 25); ok {
		t.Error("took no time")
	}
}

func TestInverterCurrent(t *testing.T) {
	tests := []struct {
		watts unit.Watt
		volts unit.Volt
		want  float64
	}{ // hand: P/(V·0.9)
		{3000, 48, 69.444}, {3000, 44, 75.758}, {3000, 12, 277.778}, {6000, 48, 138.889}, {5000, 44, 126.263},
	}
	for _, tt := range tests {
		if got, ok := InverterCurrent(tt.watts, tt.volts, .9); !ok || !(math.Abs(float64(got)-tt.want) <= 1e-3) {
			t.Errorf("%v W at %v V: %v A, want %v A", tt.watts, tt.volts, got, tt.want)
		}
	}
	if _, ok := InverterCurrent(3000, 48, 0); ok {
		t.Error("took an unknown efficiency")
	}
}

func TestRippleRMS(t *testing.T) {
	// hand: √1.5 = 1.224745
	if got := RippleRMS(100, 1); !(math.Abs(float64(got)-122.4745) <= 1e-4) {
		t.Errorf("%v A", got)
	}
	if got := RippleRMS(100, 0); got != 100 {
		t.Errorf("%v A without ripple", got)
	}
}

func TestBankLimit(t *testing.T) {
	// hand: 200 A / 0.32622 = 613 A, where four blocks alike would give 800 A
	if got, ok := BankLimit(200, .32622); !ok || !(math.Abs(float64(got)-613.08) <= .01) {
		t.Errorf("%v A", got)
	}
	if _, ok := BankLimit(200, 0); ok {
		t.Error("took a share of zero")
	}
}
