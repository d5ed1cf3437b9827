package circuit

import (
	"fmt"
	"math"
	"slices"

	"lugmark/core/unit"
)

// Rung is the pair of links between two neighbouring positions. Each is one
// conductor with its two lugs and its two joints.
type Rung struct {
	Plus  unit.Ohm
	Minus unit.Ohm
}

// Ladder is branches side by side, from position 0 on, joined by rungs:
//
//	     Plus lands on one position
//	──┬──rung──┬──rung──┬──
//	  │        │        │      branches: blocks, or strings
//	──┴──rung──┴──rung──┴──
//	     Minus lands on one position
//
// Strings in parallel are one ladder of strings, see [Series]. Groups in series
// are one ladder each; its two positions are where the links to the next group,
// or the main leads, land.
//
// The take-off of the zero value is one end: both leads on position 0. Without
// rungs the branches stand on two bus bars, and each branch's R holds its own
// pair of leads; the currents are then as 1/R, wherever the leads land.
// The zero Ladder has no branch and is refused.
type Ladder struct {
	Branches []Branch
	Rungs    []Rung // one fewer than branches, or none: bus bars without resistance
	Plus     int    // position on which the plus lead lands
	Minus    int    // position on which the minus lead lands
}

// noResistance is the resistance below which a link counts as none, and a branch
// as a mistake [Ω]. A good joint has some 1e-6; much less than this would only
// cost digits of everything else.
const noResistance = 1e-7

// Flow is how a current divides.
type Flow struct {
	Branch []unit.Ampere // through each branch; positive discharges it
	Volts  unit.Volt     // between the two points of take-off
}

// TakeOff gives the same ladder with its leads on other positions.
func (l Ladder) TakeOff(plus, minus int) Ladder {
	l.Plus, l.Minus = plus, minus
	return l
}

// Without gives the same ladder with branch k open; its links stay.
func (l Ladder) Without(k int) Ladder {
	l.Branches = slices.Clone(l.Branches)
	l.Branches[k].Open = true
	return l
}

// With gives the same ladder with branch k of resistance r.
func (l Ladder) With(k int, r unit.Ohm) Ladder {
	l.Branches = slices.Clone(l.Branches)
	l.Branches[k].R = r
	return l
}

// Divide gives the current of every branch when the bank delivers load [A]; a
// negative load charges it, a load of zero leaves what the branches push into
// each other. It solves the nodal equations G·v = i.
//
// It fails with [ErrNoPath] when every branch is open, and on a resistance or
// a position that cannot be.
func (l Ladder) Divide(load unit.Ampere) (Flow, error) {
	if err := l.check(); err != nil {
		return Flow{}, err
	}
	if !finite(load) {
		return Flow{}, fmt.Errorf("circuit: load of %v A", float64(load))
	}
	plus, minus, count := l.number()
	reach := 1
	for k := range plus {
		reach = max(reach, plus[k]-minus[k], minus[k]-plus[k])
		if k > 0 {
			reach = max(reach, plus[k]-plus[k-1], minus[k]-minus[k-1])
		}
	}
	n := newNodes(count, reach)
	for k, b := range l.Branches {
		if !b.Open {
			n.join(plus[k], minus[k], float64(b.R), float64(b.EMF))
		}
		if k > 0 && plus[k] != plus[k-1] {
			n.join(plus[k-1], plus[k], float64(l.Rungs[k-1].Plus), 0)
		}
		if k > 0 && minus[k] != minus[k-1] {
			n.join(minus[k-1], minus[k], float64(l.Rungs[k-1].Minus), 0)
		}
	}
	n.i[plus[l.Plus]] -= float64(load)
	n.ground(minus[l.Minus])
	v, err := n.solve()
	if err != nil {
		return Flow{}, err
	}
	flow := Flow{Branch: make([]unit.Ampere, len(l.Branches)), Volts: unit.Volt(v[plus[l.Plus]])}
	for k, b := range l.Branches {
		if !b.Open {
			across := v[plus[k]] - v[minus[k]]
			flow.Branch[k] = unit.Ampere((float64(b.EMF) - across) / float64(b.R))
		}
	}
	return flow, nil
}

// number gives each end of each branch its node. Ends joined by a link without
// resistance are one node.
func (l Ladder) number() (plus, minus []int, count int) {
	plus, minus = make([]int, len(l.Branches)), make([]int, len(l.Branches))
	plus[0], minus[0], count = 0, 1, 2
	for k := 1; k < len(l.Branches); k++ {
		plus[k], minus[k] = plus[k-1], minus[k-1]
		if len(l.Rungs) == 0 {
			continue
		}
		if l.Rungs[k-1].Plus > noResistance {
			plus[k] = count
			count++
		}
		if l.Rungs[k-1].Minus > noResistance {
			minus[k] = count
			count++
		}
	}
	return plus, minus, count
}

func (l Ladder) check() error {
	size := len(l.Branches)
	switch {
	case size == 0:
		return fmt.Errorf("circuit: a ladder without branches")
	case len(l.Rungs) != 0 && len(l.Rungs) != size-1:
		return fmt.Errorf("circuit: %d rungs for %d branches", len(l.Rungs), size)
	case l.Plus < 0 || l.Plus >= size || l.Minus < 0 || l.Minus >= size:
		return fmt.Errorf("circuit: take-off on positions %d and %d of %d", l.Plus, l.Minus, size)
	}
	closed := false
	for k, b := range l.Branches {
		if b.Open {
			continue
		}
		closed = true
		if !(b.R > noResistance) || !finite(b.R) || !finite(b.EMF) {
			return fmt.Errorf("circuit: branch %d has %v ohm and %v V", k, float64(b.R), float64(b.EMF))
		}
	}
	if !closed {
		return ErrNoPath
	}
	for k, r := range l.Rungs {
		if !finite(r.Plus) || !finite(r.Minus) || r.Plus < 0 || r.Minus < 0 {
			return fmt.Errorf("circuit: rung %d has %v and %v ohm", k, float64(r.Plus), float64(r.Minus))
		}
	}
	return nil
}

// Uneven is the largest of some currents over the smallest, by size; false
// where there are none, or the smallest is zero. Leave out open branches.
func Uneven(currents []unit.Ampere) (unit.Ratio, bool) {
	if len(currents) == 0 {
		return 0, false
	}
	low, high := math.Inf(1), 0.0
	for _, c := range currents {
		low, high = min(low, math.Abs(float64(c))), max(high, math.Abs(float64(c)))
	}
	if low == 0 {
		return 0, false
	}
	return unit.Ratio(high / low), true
}
