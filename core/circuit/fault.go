package circuit

import "lugmark/core/unit"

// Fault is a short circuit right behind a fuse. The blocks' protection is not
// counted on to open.
//
//	I = Ns·V / ((Ns·R_block + R_branch)/n + R_shared) + I_other
//
// For the highest current take the highest charge voltage, the lowest block
// resistance and cold copper; for the lowest, 12.8 V, the highest block
// resistance and hot copper to the far end.
//
// A sheet's short-circuit current replaces R_block: R_block = V/I_short.
type Fault struct {
	Series int         // Ns, blocks in series
	Feeds  int         // n, branches that feed the fault: see [FeedsMain] and [FeedsBranch]
	Volts  unit.Volt   // of one block
	Block  unit.Ohm    // of one block, its protection left out
	Branch unit.Ohm    // copper of one branch: links and leads of its own; 0 counts none
	Shared unit.Ohm    // copper that all branches share; 0 counts none
	Other  unit.Ampere // what a charger adds
}

// FeedsMain is the number of branches behind a fault at the main fuse.
func FeedsMain(parallel int) int { return parallel }

// FeedsBranch is the number of branches behind a fault in one branch, as its
// fuse sees them: the others, and at least the branch itself.
func FeedsBranch(parallel int) int { return max(1, parallel-1) }

// Current is the fault current [A]; false when a count, the voltage or the
// block's resistance is missing, or a copper resistance is negative.
func (f Fault) Current() (unit.Ampere, bool) {
	if f.Series < 1 || f.Feeds < 1 || !positive(f.Volts) || !positive(f.Block) ||
		!(f.Branch >= 0) || !(f.Shared >= 0) || !finite(f.Branch) || !finite(f.Shared) ||
		!(f.Other >= 0) || !finite(f.Other) {
		return 0, false
	}
	ns, n := float64(f.Series), float64(f.Feeds)
	path := (ns*float64(f.Block)+float64(f.Branch))/n + float64(f.Shared)
	return unit.Ampere(ns*float64(f.Volts)/path) + f.Other, true
}
