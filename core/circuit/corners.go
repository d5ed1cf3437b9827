package circuit

import (
	"fmt"
	"slices"

	"lugmark/core/measure"
	"lugmark/core/unit"
)

// Corners gives the lowest and the highest current of every branch when each
// branch resistance may be anything from low to high [Ω]. A branch carries most
// when it has its lowest resistance and all the others their highest, and least
// the other way round. Where the take-off makes a branch take current in
// instead of giving it, that branch counts the other way.
//
// An open branch has the interval 0 to 0. The resistances in l.Branches are not
// used. It fails where [Ladder.Divide] fails, and when low and high do not have
// one value for each branch with low ≤ high.
func (l Ladder) Corners(load unit.Ampere, low, high []unit.Ohm) ([]measure.Interval[unit.Ampere], error) {
	if len(low) != len(l.Branches) || len(high) != len(l.Branches) {
		return nil, fmt.Errorf("circuit: %d and %d resistances for %d branches", len(low), len(high), len(l.Branches))
	}
	for k := range low {
		if !(low[k] <= high[k]) {
			return nil, fmt.Errorf("circuit: branch %d: %v to %v ohm", k, float64(low[k]), float64(high[k]))
		}
	}
	spans := make([]measure.Interval[unit.Ampere], len(l.Branches))
	for k := range spans {
		if l.Branches[k].Open {
			continue
		}
		least, err := l.corner(k, load, high, low)
		if err != nil {
			return nil, err
		}
		most, err := l.corner(k, load, low, high)
		if err != nil {
			return nil, err
		}
		spans[k] = measure.Interval[unit.Ampere]{Low: min(least, most), High: max(least, most)}
	}
	return spans, nil
}

// corner is the current of branch k when it has the resistance own and every
// other branch the resistance others. A branch whose current runs against the
// load takes the opposite end. Which ones do is only known once solved; it is
// solved again while that changes, which for a real bank is never.
func (l Ladder) corner(k int, load unit.Ampere, own, others []unit.Ohm) (unit.Ampere, error) {
	trial := l
	trial.Branches = slices.Clone(l.Branches)
	end := func(j int, along bool) unit.Ohm {
		if along == (j == k) {
			return own[j]
		}
		return others[j]
	}
	for j := range trial.Branches {
		trial.Branches[j].R = end(j, true)
	}
	for range l.Branches {
		flow, err := trial.Divide(load)
		if err != nil {
			return 0, err
		}
		changed := false
		for j, c := range flow.Branch {
			if want := end(j, c*load >= 0); trial.Branches[j].R != want {
				trial.Branches[j].R, changed = want, true
			}
		}
		if !changed {
			return flow.Branch[k], nil
		}
	}
	return 0, fmt.Errorf("circuit: branch %d: no worst corner found", k)
}

// Band gives the lowest and the highest of every branch resistance when each
// is known to ± tolerance of itself.
func (l Ladder) Band(tolerance unit.Ratio) (low, high []unit.Ohm) {
	for _, b := range l.Branches {
		low = append(low, b.R*unit.Ohm(1-tolerance))
		high = append(high, b.R*unit.Ohm(1+tolerance))
	}
	return low, high
}
