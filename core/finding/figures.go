package finding

import (
	"strconv"
	"strings"

	"lugmark/core/figure"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

var (
	sayAtMost  = say.Phrase{Key: "limit.at-most", English: "at most {max}"}
	sayAtLeast = say.Phrase{Key: "limit.at-least", English: "at least {min}"}
	sayWindow  = say.Phrase{Key: "limit.window", English: "{min} to {max}"}
	sayWithU   = say.Phrase{Key: "found.with-u", English: "{value} ± {u}"}
	sayRange   = say.Phrase{Key: "found.range", English: "{low} to {high}"}
	sayTyped   = say.Phrase{Key: "found.typed", English: "{value}"}
)

// AtMost is an upper limit in the base unit.
func AtMost[Q unit.Quantity](name string, limit Q, kind Kind, source say.Line) Limit {
	m := float64(limit)
	return Limit{Name: name, Max: &m, Unit: limit.Symbol(), Kind: kind, Source: source}
}

// AtLeast is a lower limit in the base unit.
func AtLeast[Q unit.Quantity](name string, limit Q, kind Kind, source say.Line) Limit {
	m := float64(limit)
	return Limit{Name: name, Min: &m, Unit: limit.Symbol(), Kind: kind, Source: source}
}

// Window is a lower and an upper limit in the base unit.
func Window[Q unit.Quantity](name string, low, high Q, kind Kind, source say.Line) Limit {
	a, b := float64(low), float64(high)
	return Limit{Name: name, Min: &a, Max: &b, Unit: low.Symbol(), Kind: kind, Source: source}
}

// In says the limit's figures in another unit of the same quantity.
func (l Limit) In(show unit.Symbol) Limit { l.Show = show; return l }

// Line says the limit: "at most 0.01 V".
func (l Limit) Line() say.Line {
	show := l.Show
	if show == "" {
		show = l.Unit
	}
	switch {
	case !l.Text.Empty():
		return l.Text
	case l.Min != nil && l.Max != nil:
		return sayWindow.With("min", figure.Exact(*l.Min, show), "max", figure.Exact(*l.Max, show))
	case l.Max != nil:
		return sayAtMost.With("max", figure.Exact(*l.Max, show))
	case l.Min != nil:
		return sayAtLeast.With("min", figure.Exact(*l.Min, show))
	}
	return say.Line{}
}

// maxDigits ends the search for digits that agree with the verdict.
const maxDigits = 6

// Measured is a figure with its uncertainty, said in show with as many digits
// as it takes for the rounded figures to stand on the same side of the limit
// as the unrounded ones.
func Measured[Q unit.Quantity](r measure.Reading[Q], show unit.Symbol, l Limit) Found {
	f := Found{Value: float64(r.Value), HasValue: true, Low: float64(r.Value - r.U), High: float64(r.Value + r.U), Unit: r.Value.Symbol(), Show: show}
	for digits := 2; digits <= maxDigits; digits++ {
		m := figure.Measured(f.Value, float64(r.U), show, digits)
		f.Text = sayWithU.With("value", m.Value, "u", m.U)
		if r.U == 0 {
			f.Text = sayTyped.With("value", m.Value)
		}
		if agrees(f.Low, f.High, number(m.Value)-number(m.U), number(m.Value)+number(m.U), l, show) {
			break
		}
	}
	return f
}

// Predicted is a figure that has only a low and a high end.
func Predicted[Q unit.Quantity](v measure.Interval[Q], show unit.Symbol, l Limit) Found {
	f := Found{Low: float64(v.Low), High: float64(v.High), Unit: v.Low.Symbol(), Show: show}
	for digits := 3; digits <= maxDigits; digits++ {
		low, high := figure.Range(f.Low, f.High, show, digits)
		f.Text = sayRange.With("low", low, "high", high)
		if low == high {
			f.Text = sayTyped.With("value", low)
		}
		if agrees(f.Low, f.High, number(low), number(high), l, show) {
			break
		}
	}
	return f
}

// Typed is a figure said exactly as it was typed: a setting or a plate value.
func Typed[Q unit.Quantity](x measure.Shown[Q]) Found {
	v := float64(x.Value)
	return Found{Value: v, HasValue: true, Low: v, High: v, Unit: x.Value.Symbol(), Show: x.Typed.Unit, Text: sayTyped.With("value", figure.Typed(x.Typed))}
}

// agrees reports whether the said interval stands on the same side of the
// limit as the exact one.
func agrees(low, high, saidLow, saidHigh float64, l Limit, show unit.Symbol) bool {
	exact := measure.Interval[unit.Ratio]{Low: unit.Ratio(low), High: unit.Ratio(high)}
	said := measure.Interval[unit.Ratio]{Low: unit.Ratio(show.ToBase(saidLow)), High: unit.Ratio(show.ToBase(saidHigh))}
	if l.Max != nil && measure.AtMost(exact, unit.Ratio(*l.Max)) != measure.AtMost(said, unit.Ratio(*l.Max)) {
		return false
	}
	return l.Min == nil || measure.AtLeast(exact, unit.Ratio(*l.Min)) == measure.AtLeast(said, unit.Ratio(*l.Min))
}

// number reads a said figure back, without its thousands groups.
func number(f say.Figure) float64 {
	x, _ := strconv.ParseFloat(strings.ReplaceAll(f.Digits, "\u00a0", ""), 64)
	return x
}
