package measure

import (
	"math"

	"lugmark/core/unit"
)

// Ratio gives a over b, two readings that have no error in common, such as one
// of this year and one of the last. Its U is the distance to the largest L for
// which a − L·b may still be nothing:
//
//	(a − L·b)² = U_a² + L²·U_b²
//
// That is the farther end, taken for both sides; near it a quotient of limits of
// error would be too small. False when b itself may be nothing.
func Ratio[Q unit.Quantity](a, b Reading[Q]) (Reading[unit.Ratio], bool) {
	x, u, y, v := float64(a.Value), float64(a.U), float64(b.Value), float64(b.U)
	if !(y > v) {
		return Reading[unit.Ratio]{}, false
	}
	under := y*y - v*v
	top := (x*y + math.Sqrt(x*x*v*v+u*u*under)) / under
	return Reading[unit.Ratio]{Value: unit.Ratio(x / y), U: unit.Ratio(top - x/y)}, true
}
