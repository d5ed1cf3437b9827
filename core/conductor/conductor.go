// Package conductor knows copper cables and the fuses in front of them: what a
// printed size is in copper, its resistance at a temperature, how many amperes
// named tables allow it, and which fuse sizes there are.
//
// The tables keep what their publishers printed, one edition of each, and are
// never mixed: a question names its table. A size is only as good as the
// standard behind it, so a cable whose standard nobody read has an area here
// and no ampacity. Package conductor judges nothing.
//
//	size, _ := conductor.Parse("2/0 AWG", "")
//	a, ok := conductor.TerminalAmpacity(size, 75) // 175 A, after NEC Table 310.16
package conductor

import (
	"math"
	"strconv"

	"lugmark/core/say"
	"lugmark/core/unit"
)

// Standard is what a size is a size of.
type Standard uint8

const (
	Unstated Standard = iota // nobody read it, or one not known here: an area and nothing more
	ASTM                     // AWG and kcmil, ASTM B258
	SAE                      // vehicle gauge: 3 to 12 % less copper than the same number in AWG
	IEC                      // mm², IEC 60228
)

// Size is one conductor. The zero Size is not a cable.
type Size struct {
	Standard Standard
	Area     unit.SquareMillimetre // copper; for IEC the nominal area, for an unstated gauge the least it can be
	Class    int                   // IEC 60228 class: 1, 2 or 5; 0 not read
	Tinned   bool                  // IEC 60228 class 5 of tinned strands
	digits   string                // "2/0", "35", as on the jacket
	unit     string                // "AWG", "SAE", "gauge", "kcmil", "mm2"
}

// Figure is the size as it is said: 2/0 AWG, 35 mm².
func (s Size) Figure() say.Figure { return say.Figure{Digits: s.digits, Unit: s.unit} }

// String is the size in ASCII: "2/0 AWG", "35 mm2".
func (s Size) String() string { return say.Voice{}.Figure(s.Figure()) }

// gauge is an AWG number, with 1/0 to 4/0 as 0 to -3, or from 250 on a number of
// kcmil.
type gauge int

const (
	aught1       gauge = 0
	aught2       gauge = -1
	aught3       gauge = -2
	aught4       gauge = -3
	firstKcmil   gauge = 250
	largestKcmil gauge = 2000
	thinnestAWG  gauge = 40
)

// circularMil is the area of a circle of a thousandth of an inch [mm²]: π/4 mil².
const circularMil = math.Pi / 4 * 0.0254 * 0.0254

// diameter of a round wire of gauge n [mm], ASTM B258:
//
//	d = 0.127 · 92^((36 − n)/39)
func (g gauge) diameter() unit.Metre {
	return unit.Metre(0.000127 * math.Pow(92, float64(36-g)/39))
}

// area of copper [mm²].
func (g gauge) area() unit.SquareMillimetre {
	if g >= firstKcmil {
		return unit.SquareMillimetre(1000 * circularMil * float64(g))
	}
	mm := 1000 * float64(g.diameter())
	return unit.SquareMillimetre(math.Pi / 4 * mm * mm)
}

func (g gauge) figure() say.Figure {
	switch {
	case g >= firstKcmil:
		return say.Figure{Digits: strconv.Itoa(int(g)), Unit: "kcmil"}
	case g <= aught1:
		return say.Figure{Digits: strconv.Itoa(1-int(g)) + "/0", Unit: "AWG"}
	}
	return say.Figure{Digits: strconv.Itoa(int(g)), Unit: "AWG"}
}

// saeCircularMils are the areas of SAE gauge cable in two wire catalogues, see
// cite.SAEGauge.
var saeCircularMils = map[gauge]float64{
	aught4: 205500, aught2: 125100, aught1: 98980, 2: 62450, 4: 37360, 6: 24538,
}

// saeShare is the least that other SAE sizes keep of the AWG area: the
// catalogues name differences up to 12 %.
const saeShare = 0.88

func saeArea(g gauge) unit.SquareMillimetre {
	if mils, ok := saeCircularMils[g]; ok {
		return unit.SquareMillimetre(mils * circularMil)
	}
	return saeShare * g.area()
}

// notLarger reports whether a is at most b, binary rounding forgiven.
func notLarger(a, b unit.SquareMillimetre) bool { return a <= b*(1+1e-9) }
