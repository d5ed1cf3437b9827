// Package measure carries readings with their uncertainty and holds the one
// decision rule that every check uses.
//
// A finding is judged on the interval [y − U, y + U] with U = min(2·u_c, B):
// u_c is the root sum of squares of the standard uncertainties, B the sum of
// the half-widths when every contribution is a hard bound. The limit itself
// never contains the uncertainty of the reading.
//
// After JCGM 100 (how contributions combine), JCGM 106 and ILAC-G8:09/2019
// (guarded acceptance with w = U); k = 2 on both sides.
package measure

import (
	"math"

	"lugmark/core/unit"
)

// Side says where an interval stands against a limit. The zero Side is Across:
// nothing becomes Inside by forgetting.
type Side uint8

const (
	Across  Side = iota // the limit lies within the interval: can't tell
	Inside              // the whole interval keeps the limit
	Outside             // the whole interval breaks it
)

// Interval is what a value may be: a measured one with its uncertainty, or the
// lowest and highest result of a prediction.
type Interval[Q unit.Quantity] struct{ Low, High Q }

// slack absorbs binary rounding and nothing more.
func slack(limit float64) float64 { return 1e-9 * math.Max(1, math.Abs(limit)) }

// AtMost judges v against an upper limit; equality is inside.
func AtMost[Q unit.Quantity](v Interval[Q], limit Q) Side {
	l := float64(limit)
	switch {
	case float64(v.High) <= l+slack(l):
		return Inside
	case float64(v.Low) > l+slack(l):
		return Outside
	}
	return Across
}

// AtLeast judges v against a lower limit; equality is inside.
func AtLeast[Q unit.Quantity](v Interval[Q], limit Q) Side {
	l := float64(limit)
	switch {
	case float64(v.Low) >= l-slack(l):
		return Inside
	case float64(v.High) < l-slack(l):
		return Outside
	}
	return Across
}

// Within judges v against the window [low, high]; equality is inside.
func Within[Q unit.Quantity](v Interval[Q], low, high Q) Side {
	return Both(AtLeast(v, low), AtMost(v, high))
}

// Above judges v against a strict lower limit: equality is outside.
func Above[Q unit.Quantity](v Interval[Q], limit Q) Side {
	l := float64(limit)
	switch {
	case float64(v.Low) > l+slack(l):
		return Inside
	case float64(v.High) <= l+slack(l):
		return Outside
	}
	return Across
}

// Both is Inside when every side is, Outside when one is, else Across.
func Both(sides ...Side) Side {
	all := Inside
	for _, s := range sides {
		switch {
		case s == Outside:
			return Outside
		case s == Across:
			all = Across
		}
	}
	return all
}
