package figure_test

import (
	"math"
	"testing"

	"lugmark/core/figure"
	"lugmark/core/unit"
)

func TestMeasuredRoundsTheUncertaintyUp(t *testing.T) {
	rows := []struct {
		value, u float64
		show     unit.Symbol
		digits   int
		want     string
		from     string
	}{
		{0.002, 0.000816496581, "V", 2, "0.00200 ± 0.00082", "hand: 0.000816… up at the fifth decimal is 0.00082"},
		{0.010, 0.008164965809, "V", 2, "0.0100 ± 0.0082", "hand"},
		{0.010, 0.008164965809, "mV", 2, "10.0 ± 8.2", "hand"},
		{13.30, 0.0865, "V", 2, "13.300 ± 0.087", "hand"},
		{9, 0.36, "N.m", 2, "9.00 ± 0.36", "hand"},
		{100, 1.19, "Ah", 2, "100.0 ± 1.2", "hand"},
		{5, 0.0996, "V", 2, "5.00 ± 0.10", "hand: rounding up carries"},
		{-0.00004, 0.0123, "V", 2, "0.000 ± 0.013", "hand: never minus zero"},
		{20.5, 0, "A", 2, "20.5 ± 0", "hand: an exact value shows what it needs"},
		{1234, 210, "A", 2, "1230 ± 210", "hand"},
		{0, 5, "F", 2, "32.0 ± 9.0", "hand: 0 °C is 32 °F, 5 K are 9 °F"},
	}
	for _, r := range rows {
		m := figure.Measured(r.value, r.u, r.show, r.digits)
		if got := m.Value.Digits + " ± " + m.U.Digits; got != r.want {
			t.Errorf("%v ± %v %s: got %q, want %q (%s)", r.value, r.u, r.show, got, r.want, r.from)
		}
	}
}

func TestRangeOpensOutward(t *testing.T) {
	rows := []struct {
		low, high float64
		show      unit.Symbol
		want      string
	}{
		{0.0018350, 0.0181649, "mV", "1.8 to 18.2"},
		{34.204, 86.224, "A", "34.2 to 86.3"},
		{12166.667, 12166.667, "A", "12\u00a0100 to 12\u00a0200"},
		{12166.667, 12166.667, "kA", "12.1 to 12.2"},
	}
	for _, r := range rows {
		l, h := figure.Range(r.low, r.high, r.show, 3)
		if got := l.Digits + " to " + h.Digits; got != r.want {
			t.Errorf("%v to %v: got %q, want %q (hand)", r.low, r.high, got, r.want)
		}
	}
}

func TestExactShowsWhatItNeeds(t *testing.T) {
	rows := []struct {
		value float64
		show  unit.Symbol
		want  string
	}{
		{0.010, "V", "0.01"}, {0.010, "mV", "10"}, {14.6, "V", "14.6"}, {0.1 + 0.2, "V", "0.3"},
		{20000, "A", "20\u00a0000"}, {-20000, "A", "-20\u00a0000"}, {123456, "A", "123\u00a0456"}, {1234567, "A", "1\u00a0234\u00a0567"}, {math.Copysign(0, -1), "C", "0"}, {20000, "kA", "20"}, {4, "1", "4"}, {-0.0, "C", "0"}, {29.2, "V", "29.2"},
	}
	for _, r := range rows {
		if got := figure.Exact(r.value, r.show).Digits; got != r.want {
			t.Errorf("%v %s: got %q, want %q (hand)", r.value, r.show, got, r.want)
		}
	}
}
