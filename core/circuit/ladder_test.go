package circuit

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"lugmark/core/unit"
)

// even is n equal branches on equal rungs, at 13.3 V; the voltage cancels.
func even(n int, r, plus, minus unit.Ohm) Ladder {
	l := Ladder{Branches: Alike(n, Branch{EMF: 13.3, R: r})}
	for range n - 1 {
		l.Rungs = append(l.Rungs, Rung{Plus: plus, Minus: minus})
	}
	return l
}

func near(t *testing.T, what string, got []unit.Ampere, want []float64, tolerance float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: %d currents, want %d", what, len(got), len(want))
	}
	for k := range want {
		if !(math.Abs(float64(got[k])-want[k]) <= tolerance) {
			t.Errorf("%s: branch %d carries %.6f A, want %.6f A", what, k, float64(got[k]), want[k])
		}
	}
}

func ExampleLadder_Divide() {
	// Four blocks of 5 mΩ, links of 0.25 mΩ, both leads on the first block.
	l := Ladder{
		Branches: Alike(4, Branch{EMF: 13.3, R: 0.005}),
		Rungs:    []Rung{{0.00025, 0.00025}, {0.00025, 0.00025}, {0.00025, 0.00025}},
	}
	flow, _ := l.Divide(200)
	fmt.Printf("%.1f", flow.Branch)
	// Output: [65.2 51.8 43.5 39.5]
}

func TestDivide(t *testing.T) {
	const m = 0.001
	strings := Ladder{
		Branches: Alike(2, Series(Alike(4, Branch{EMF: 13.3, R: 5 * m}), 3*0.25*m)),
		Rungs:    []Rung{{0.25 * m, 0.25 * m}},
	}
	leads := Ladder{Branches: Alike(4, Branch{EMF: 13.3, R: 5.5 * m})}
	aged := even(4, 5*m, .25*m, .25*m).TakeOff(0, 3).With(3, 10*m)
	weakFirst := even(4, 6.25*m, .25*m, .25*m).With(0, 3.75*m)

	// "independent": solved with another elimination routine in another
	// language; the digits are as that solution gave them.
	tests := []struct {
		name      string
		ladder    Ladder
		load      unit.Ampere
		want      []float64
		tolerance float64
		from      string
	}{
		{"one end, links as large as the blocks", even(4, 1, 0.5, 0.5), 210, []float64{130, 50, 20, 10}, 1e-9,
			"hand: I_k = I_{k+1} + Σ_{j>k} I_j gives 1, 2, 5, 13, scaled to 210"},
		{"diagonal, links half the blocks", even(4, 1, 0.5, 0.5).TakeOff(0, 3), 210, []float64{70, 35, 35, 70}, 1e-9,
			"hand: I1 = (R/2+r)/(2(R+r))·I = 1/3·210, I2 = I/2 − I1"},
		{"one end, 5 mΩ and 0.5 mΩ", even(4, 5*m, .25*m, .25*m), 200,
			[]float64{65.24402292, 51.76842521, 43.46967003, 39.51788184}, 1e-6, "independent"},
		{"diagonal, same", even(4, 5*m, .25*m, .25*m).TakeOff(0, 3), 200,
			[]float64{52.380952, 47.619048, 47.619048, 52.380952}, 1e-6,
			"hand: (2.5+0.25)/(2·5.25)·200 = 52.380952"},
		{"diagonal, far block aged to 10 mΩ", aged, 200,
			[]float64{58.564514, 54.420966, 55.719514, 31.295006}, 1e-6, "independent"},
		{"two blocks, x = 0.1", even(2, 1, .05, .05), 21, []float64{11, 10}, 1e-9, "hand: 1+x to 1, 11 to 10"},
		{"three blocks, x = 0.1", even(3, 1, .05, .05), 3.41, []float64{1.31, 1.10, 1.00}, 1e-9,
			"hand: 1, 1+x, 1+3x+x² = 1, 1.1, 1.31, sum 3.41"},
		{"bus bars", even(4, 5*m, 0, 0), 200, []float64{50, 50, 50, 50}, 1e-9, "hand: I/N"},
		{"equal leads, one block of 10 mΩ", leads.With(3, 10.5*m), 200,
			[]float64{56.757, 56.757, 56.757, 29.730}, 1e-3, "hand: as 1/5.5, 1/5.5, 1/5.5, 1/10.5"},
		{"one end, first block open", even(4, 5*m, .25*m, .25*m).Without(0), 200,
			[]float64{0, 76.833, 64.516, 58.651}, 1e-3, "hand: the ladder of three, 0.384164 0.322581 0.293255 of 200"},
		{"worst corner of block 1, one end", weakFirst, 200, []float64{86.224, 42.632, 36.940, 34.204}, 1e-3, "independent"},
		{"worst corner of block 1, diagonal", weakFirst.TakeOff(0, 3), 200, []float64{71.615, 40.698, 41.683, 46.003}, 1e-3, "independent"},
		{"lowest corner of block 1, one end", even(4, 3.75*m, .25*m, .25*m).With(0, 6.25*m), 200,
			[]float64{48.433, 60.513, 48.372, 42.682}, 1e-3, "independent"},
		{"diagonal, unequal rails", even(4, 5*m, .4*m, .1*m).TakeOff(0, 3), 200,
			[]float64{60.099, 50.109, 45.129, 44.663}, 1e-3, "independent"},
		{"one end, unequal rails of the same sum", even(4, 5*m, .4*m, .1*m), 200,
			[]float64{65.244, 51.768, 43.470, 39.518}, 1e-3, "hand: one end sees only rp + rn"},
		{"both leads on the second block", even(4, 5*m, .25*m, .25*m).TakeOff(1, 1), 200,
			[]float64{51.768, 56.945, 47.817, 43.470}, 1e-3, "independent"},
		{"two strings of four, one end", strings, 200, []float64{101.190, 98.810}, 1e-3,
			"hand: 20.75 + 0.5 to 20.75 mΩ, 200·21.25/42 = 101.190"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			flow, err := tt.ladder.Divide(tt.load)
			if err != nil {
				t.Fatal(err)
			}
			near(t, tt.from, flow.Branch, tt.want, tt.tolerance)
		})
	}
}

func TestDivideGivesTheVoltageAtTheTakeOff(t *testing.T) {
	// hand: 13.3 V behind 5 mΩ / 4 at 200 A: 13.3 − 0.25.
	flow, err := even(4, 0.005, 0, 0).Divide(200)
	if err != nil || !(math.Abs(float64(flow.Volts)-13.05) <= 1e-12) {
		t.Errorf("%v V, %v; want 13.05 V", flow.Volts, err)
	}
}

func TestDivideWithoutLoadGivesTheEqualisingCurrents(t *testing.T) {
	// from: Millman, U = 13.3005607 V, I_i = (E_i − U)/R_i.
	l := Ladder{Branches: []Branch{{EMF: 13.30, R: .006}, {EMF: 13.28, R: .005}, {EMF: 13.33, R: .007}}}
	flow, err := l.Divide(0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Millman", flow.Branch, []float64{-.09345794, -4.11214953, 4.20560748}, 1e-7)
	if !(math.Abs(float64(flow.Volts)-13.30056075) <= 1e-7) {
		t.Errorf("bar at %v V", flow.Volts)
	}
}

func TestDivideRefuses(t *testing.T) {
	good := even(2, 1, 1, 1)
	tests := []struct {
		name   string
		ladder Ladder
		load   unit.Ampere
	}{
		{"no branch", Ladder{}, 1},
		{"no resistance", good.With(1, 0), 1},
		{"negative resistance", good.With(1, -1), 1},
		{"resistance not a number", good.With(1, unit.Ohm(math.NaN())), 1},
		{"a rung too many", Ladder{Branches: good.Branches, Rungs: make([]Rung, 2)}, 1},
		{"negative link", Ladder{Branches: good.Branches, Rungs: []Rung{{-1, 0}}}, 1},
		{"take-off outside", good.TakeOff(0, 2), 1},
		{"take-off outside, the other lead", good.TakeOff(2, 0), 1},
		{"load not a number", good, unit.Ampere(math.NaN())},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if flow, err := tt.ladder.Divide(tt.load); err == nil {
				t.Errorf("gave %v", flow)
			}
		})
	}
	if _, err := good.Without(0).Without(1).Divide(1); !errors.Is(err, ErrNoPath) {
		t.Errorf("all open: %v", err)
	}
}

func TestUneven(t *testing.T) {
	// hand: 65.244023 / 39.517882 = 1.651
	flow, _ := even(4, 0.005, .00025, .00025).Divide(200)
	if r, ok := Uneven(flow.Branch); !ok || !(math.Abs(float64(r)-1.651) <= 5e-4) {
		t.Errorf("one end: %v %v", r, ok)
	}
	if _, ok := Uneven(nil); ok {
		t.Error("nothing to compare is a ratio")
	}
	if _, ok := Uneven([]unit.Ampere{0, 1}); ok {
		t.Error("a ratio to zero")
	}
}

func TestSeriesCountsABlockPutInBackwards(t *testing.T) {
	// hand: 13.3·(3 − 1) = 26.6 V of 53.2 V
	blocks := Alike(4, Branch{EMF: 13.3, R: .002})
	blocks[2].EMF = -13.3
	s := Series(blocks, .0003)
	if !(math.Abs(float64(s.EMF)-26.6) <= 1e-9) || !(math.Abs(float64(s.R)-.0083) <= 1e-12) {
		t.Errorf("string is %v", s)
	}
	blocks[0].Open = true
	if !Series(blocks, 0).Open {
		t.Error("an open block leaves its string closed")
	}
}
