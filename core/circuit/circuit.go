// Package circuit sees a bank as a network of voltages and resistances: which
// branch carries how many amperes, what flows when two blocks are joined, what
// a short circuit would push through a fuse, and how an inverter's capacitors
// fill through a resistor.
//
// All of it is the first minutes after switching on. As charge falls, the
// branches near the take-off empty first and the burden moves to the far ones;
// that is not computed here. Package circuit judges nothing and assumes no
// resistance: what a block may have when nobody measured it stands in
// core/cell, and what a cable has in core/conductor.
//
// Amperes that leave a block are positive, amperes that charge it negative.
package circuit

import (
	"errors"
	"math"

	"lugmark/core/unit"
)

// ErrNoPath is returned where every branch is open, so that nothing can carry
// the current.
var ErrNoPath = errors.New("circuit: every branch is open")

// Branch is what stands between the plus and the minus rail at one position:
// one block, or one string of blocks with its links, in both cases with the
// leads of its own. The zero Branch has no resistance and is refused.
type Branch struct {
	EMF  unit.Volt // voltage at rest
	R    unit.Ohm  // resistance of all that belongs to this branch alone
	Open bool      // protection open, fuse blown, lead off; its links stay
}

// Alike gives n equal branches.
func Alike(n int, b Branch) []Branch {
	branches := make([]Branch, n)
	for i := range branches {
		branches[i] = b
	}
	return branches
}

// Series joins blocks into the branch that they are together. Copper is the
// links between them and the leads of the string:
//
//	E = ΣE_i   R = ΣR_i + copper
//
// A block put in backwards counts with a negative EMF. One open block opens
// the string.
func Series(blocks []Branch, copper unit.Ohm) Branch {
	s := Branch{R: copper}
	for _, b := range blocks {
		s.EMF += b.EMF
		s.R += b.R
		s.Open = s.Open || b.Open
	}
	return s
}

// finite reports whether x is a number that can be computed with.
func finite[Q ~float64](x Q) bool { return !math.IsNaN(float64(x)) && !math.IsInf(float64(x), 0) }

// positive reports whether x is finite and above zero.
func positive[Q ~float64](x Q) bool { return finite(x) && x > 0 }
