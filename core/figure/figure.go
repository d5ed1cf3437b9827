// Package figure decides how many digits a number shows.
//
// A typed value keeps its digits. A computed value shows its uncertainty
// rounded up to two significant digits and itself to the same place, half away
// from zero. A prediction shows "low to high" with three digits, low rounded
// down and high up. A rounded figure never contradicts the verdict that it
// explains: digits are added until it does not, six at most.
//
// Shapes follow JCGM 100:2008, 7.2.6 for the two digits of an uncertainty
// (from memory); rounding it up is our rule.
package figure

import (
	"math"
	"strconv"
	"strings"

	"lugmark/core/say"
	"lugmark/core/unit"
)

// Typed shows a number as it was typed.
func Typed(n unit.Number) say.Figure { return say.Figure{Digits: n.Digits, Unit: string(n.Unit)} }

// Exact shows a value that has no uncertainty of its own (a limit, a count)
// with as many digits as it needs, six significant at most. The value is in
// the base unit of show.
func Exact(value float64, show unit.Symbol) say.Figure {
	return say.Figure{Digits: trim(strconv.FormatFloat(tidy(show.FromBase(value)), 'f', placesFor(show.FromBase(value), 6), 64)), Unit: string(show)}
}

// tidy removes what binary fractions add behind the tenth significant digit,
// so that 0.1+0.2 does not print as 0.300000.
func tidy(x float64) float64 {
	r, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 10, 64), 64)
	return r
}

// Result is a value with its uncertainty, ready to be said.
type Result struct {
	Value, U say.Figure
}

// Measured rounds value and u (both in the base unit, u ≥ 0) for show. Digits
// is the number of significant digits of u, two unless the verdict needs more.
func Measured(value, u float64, show unit.Symbol, digits int) Result {
	v, h := show.FromBase(value), math.Abs(show.FromBase(u)-show.FromBase(0))
	places := placesFor(h, digits)
	if h == 0 {
		return Result{Value: Exact(value, show), U: say.Figure{Digits: "0", Unit: string(show)}}
	}
	up := math.Ceil(tidy(h*pow10(places))) / pow10(places)
	if places > 0 && placesFor(up, digits) < places { // 0.0996 rounds up to 0.10, not 0.100
		places = placesFor(up, digits)
		up = math.Ceil(tidy(h*pow10(places))) / pow10(places)
	}
	return Result{
		Value: say.Figure{Digits: fixed(halfAway(v, places), places), Unit: string(show)},
		U:     say.Figure{Digits: fixed(up, places), Unit: string(show)},
	}
}

// Range is a prediction: low rounded down and high rounded up to digits
// significant digits of the larger one.
func Range(low, high float64, show unit.Symbol, digits int) (say.Figure, say.Figure) {
	l, h := show.FromBase(low), show.FromBase(high)
	places := placesFor(math.Max(math.Abs(l), math.Abs(h)), digits)
	scale := pow10(places)
	down, up := math.Floor(tidy(l*scale))/scale, math.Ceil(tidy(h*scale))/scale
	return say.Figure{Digits: fixed(down, places), Unit: string(show)}, say.Figure{Digits: fixed(up, places), Unit: string(show)}
}

// placesFor gives the number of decimals that show digits significant digits
// of x; negative for large numbers (1234 with two digits: -2).
func placesFor(x float64, digits int) int {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return 0
	}
	return digits - 1 - int(math.Floor(math.Log10(math.Abs(tidy(x)))))
}

func pow10(n int) float64 { return math.Pow(10, float64(n)) }

// halfAway rounds half away from zero at the given decimals.
func halfAway(x float64, places int) float64 {
	return math.Round(tidy(x*pow10(places))) / pow10(places)
}

// fixed prints x with places decimals, grouped from 10 000, never "-0".
func fixed(x float64, places int) string {
	s := strconv.FormatFloat(x, 'f', max(places, 0), 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return group(s)
}

func trim(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" || s == "" {
		s = "0"
	}
	return group(s)
}

// group parts thousands with a no-break space from 10 000 on.
func group(s string) string {
	whole, fraction, point := strings.Cut(s, ".")
	sign := ""
	if strings.HasPrefix(whole, "-") {
		sign, whole = "-", whole[1:]
	}
	if len(whole) >= 5 {
		var b strings.Builder
		for i, r := range whole {
			if i > 0 && (len(whole)-i)%3 == 0 {
				b.WriteString("\u00a0")
			}
			b.WriteRune(r)
		}
		whole = b.String()
	}
	if point {
		return sign + whole + "." + fraction
	}
	return sign + whole
}
