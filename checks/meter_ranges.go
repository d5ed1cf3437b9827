package checks

import (
	"cmp"
	"math"
	"slices"

	"lugmark/core/bank"
	"lugmark/core/measure"
	"lugmark/core/unit"
)

// A hand meter has several ranges, each with digits and limits of error of its
// own. Every further range is a meter sheet of its own that names the same model.

// RangesOf lists the sheets of the ranges of one meter, its own among them, from
// the lowest top upward; a top that is not known comes last. None while the meter
// has no sheet for the quantity.
func (f *Facts) RangesOf(id string, quantity unit.Symbol) (ranges []measure.Meter) {
	own, ok := f.sheetMeter(id, quantity)
	if !ok {
		return nil
	}
	f.quietly(func() {
		model, named := sheetModel.Of(f, id)
		for _, other := range f.entered(bank.KindMeter, "m") {
			m, ok := f.sheetMeter(other, quantity)
			if !ok || other == id || !named {
				continue
			}
			if name, has := sheetModel.Of(f, other); has && name == model {
				ranges = append(ranges, m)
			}
		}
	})
	ranges = append(ranges, own)
	slices.SortStableFunc(ranges, func(a, b measure.Meter) int { return cmp.Compare(shownUpTo(a), shownUpTo(b)) })
	return ranges
}

// shownUpTo is the highest value a range can show; without end when that is not known.
func shownUpTo(m measure.Meter) float64 {
	if m.Top == 0 {
		return math.Inf(1)
	}
	return m.Top
}

// RangeFor is the range of a meter on which a value was read: one that reaches it
// and shows these digits, else the meter named, else the lowest that reaches it.
func (f *Facts) RangeFor(id string, quantity unit.Symbol, value, step float64) string {
	ranges := f.RangesOf(id, quantity)
	reaches := slices.DeleteFunc(ranges, func(m measure.Meter) bool { return shownUpTo(m) < math.Abs(value)*(1-1e-9) })
	for _, m := range reaches {
		if math.Abs(m.Step-step) <= 1e-9*step {
			return m.ID
		}
	}
	if len(reaches) == 0 || slices.ContainsFunc(reaches, func(m measure.Meter) bool { return m.ID == id }) {
		return id
	}
	return reaches[0].ID
}
