package circuit

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"lugmark/core/unit"
)

func drawLadder(t *rapid.T) Ladder {
	n := rapid.IntRange(1, 16).Draw(t, "n")
	l := Ladder{
		Plus:  rapid.IntRange(0, n-1).Draw(t, "plus"),
		Minus: rapid.IntRange(0, n-1).Draw(t, "minus"),
	}
	ohm := rapid.Float64Range(0.0005, 0.1)
	link := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(1e-6, 0.005))
	for k := range n {
		l.Branches = append(l.Branches, Branch{EMF: 13.3, R: unit.Ohm(ohm.Draw(t, "r"))})
		if k > 0 {
			l.Rungs = append(l.Rungs, Rung{unit.Ohm(link.Draw(t, "plus link")), unit.Ohm(link.Draw(t, "minus link"))})
		}
	}
	return l
}

// byMeshes solves the same ladder in another way: loop equations between
// neighbours, in the branch currents, by gonum's LU.
//
//	E_{k+1} − R_{k+1}·I_{k+1} = E_k − R_k·I_k − rp·A_k + rn·B_k
//
// A_k and B_k are the currents in the plus and the minus link from k to k+1:
// what the branches up to k deliver, less what the load takes there.
func byMeshes(l Ladder, load float64) ([]float64, error) {
	n := len(l.Branches)
	a, b := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
	for k := range n - 1 {
		rp, rn := float64(l.Rungs[k].Plus), float64(l.Rungs[k].Minus)
		for j := 0; j <= k; j++ {
			a.Set(k, j, a.At(k, j)+rp+rn)
		}
		a.Set(k, k, a.At(k, k)+float64(l.Branches[k].R))
		a.Set(k, k+1, -float64(l.Branches[k+1].R))
		rhs := float64(l.Branches[k].EMF - l.Branches[k+1].EMF)
		if l.Plus <= k {
			rhs += rp * load
		}
		if l.Minus <= k {
			rhs += rn * load
		}
		b.SetVec(k, rhs)
	}
	for j := range n {
		a.Set(n-1, j, 1)
	}
	b.SetVec(n-1, load)
	var x mat.VecDense
	if err := x.SolveVec(a, b); err != nil {
		return nil, err
	}
	return x.RawVector().Data, nil
}

func TestLawNodesAgreeWithMeshes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLadder(t)
		for k := range l.Branches {
			l.Branches[k].EMF = unit.Volt(rapid.Float64Range(10, 14.6).Draw(t, "emf"))
		}
		load := rapid.Float64Range(-500, 500).Draw(t, "load")
		flow, err := l.Divide(unit.Ampere(load))
		if err != nil {
			t.Fatal(err)
		}
		want, err := byMeshes(l, load)
		if err != nil {
			t.Fatal(err) // no resistance of a branch is zero: there is always one answer
		}
		var sum float64
		for k := range want {
			sum += float64(flow.Branch[k])
			if !(math.Abs(float64(flow.Branch[k])-want[k]) <= 1e-6*(1+math.Abs(want[k]))) {
				t.Fatalf("branch %d: nodes %v A, meshes %v A", k, flow.Branch[k], want[k])
			}
		}
		if !(math.Abs(sum-load) <= 1e-6) {
			t.Fatalf("branches deliver %v A, load is %v A", sum, load)
		}
	})
}

func TestLawNoResistanceInsideTheBandLeavesTheCorners(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLadder(t)
		low, high := l.Band(0.25)
		spans, err := l.Corners(200, low, high)
		if err != nil {
			t.Fatal(err)
		}
		for k := range l.Branches {
			f := rapid.Float64Range(0, 1).Draw(t, "inside")
			l.Branches[k].R = low[k] + unit.Ohm(f)*(high[k]-low[k])
		}
		flow, err := l.Divide(200)
		if err != nil {
			t.Fatal(err)
		}
		for k, c := range flow.Branch {
			if c < spans[k].Low-1e-6 || c > spans[k].High+1e-6 {
				t.Fatalf("branch %d carries %v A, corners %v", k, c, spans[k])
			}
		}
	})
}

// A ladder of any length with its leads on one end follows cosh((N−k+½)λ) with
// 2·cosh λ = 2 + x (closed form of the recurrence, by hand).
func TestOneEndFollowsTheClosedForm(t *testing.T) {
	const n, x, load = 16, 0.1, 100.0
	lambda := math.Acosh(1 + x/2)
	var want [n]float64
	var sum float64
	for k := range want {
		want[k] = math.Cosh((float64(n-1-k) + 0.5) * lambda)
		sum += want[k]
	}
	for k := range want {
		want[k] *= load / sum
	}
	flow, err := even(n, 1, x/2, x/2).Divide(load)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "closed form", flow.Branch, want[:], 1e-9)
}

func TestLawJoinBoundsHoldTheCurrents(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "n")
		const u = 0.01
		var read []unit.Volt
		var low, high []unit.Ohm
		var truth []Branch
		for range n {
			v := rapid.Float64Range(12.5, 13.6).Draw(t, "v")
			r := rapid.Float64Range(0.001, 0.02).Draw(t, "r")
			f := rapid.Float64Range(1, 3).Draw(t, "f")
			e := rapid.Float64Range(-u/2, u/2).Draw(t, "e") // so that no difference is off by more than u
			read, low, high = append(read, unit.Volt(v)), append(low, unit.Ohm(r)), append(high, unit.Ohm(3*r))
			truth = append(truth, Branch{EMF: unit.Volt(v + e), R: unit.Ohm(f * r)})
		}
		spans, ok := JoinCurrents(read, u, low, high)
		bar, ok2 := Together(truth)
		if !ok || !ok2 {
			t.Fatal("refused")
		}
		for k, b := range truth {
			c := unit.Ampere(math.Abs(float64(b.EMF-bar.EMF)) / float64(b.R))
			if c < spans[k].Low-1e-9 || c > spans[k].High+1e-9 {
				t.Fatalf("branch %d carries %v A, bounds %v", k, c, spans[k])
			}
		}
	})
}

func BenchmarkCornersOfSixteen(b *testing.B) {
	l := even(16, 0.005, .0002, .0002)
	low, high := l.Band(0.25)
	for b.Loop() {
		if _, err := l.Corners(200, low, high); err != nil {
			b.Fatal(err)
		}
	}
}
