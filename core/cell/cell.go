// Package cell is what is known of a 12.8 V LiFePO4 block, four cells in
// series, that nobody measured: what a resting voltage can say about its
// charge, how hard it may be charged at a temperature, and between which
// resistances it lies.
//
// The maker's sheet wins over everything here. Package cell judges nothing and
// never gives one percentage: a resting voltage on the flat part of the curve
// fits blocks that are 40 points apart.
package cell

import (
	"math"

	"lugmark/core/unit"
)

// Cells is the number of cells in series in a block.
const Cells = 4

// known reports whether x is a number.
func known[Q unit.Quantity](x Q) bool {
	return !math.IsNaN(float64(x)) && !math.IsInf(float64(x), 0)
}
