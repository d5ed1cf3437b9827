package conductor

import (
	"lugmark/core/cite"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// UnmarkedTerminal is the temperature that a terminal without a marking is
// taken for, after cite.NEC110_14C.
const UnmarkedTerminal unit.Celsius = 60

// Ampacity is what a table allows.
type Ampacity struct {
	Amps   unit.Ampere
	Row    say.Figure   // row of the table that was read; not larger than the conductor
	Column unit.Celsius // insulation that the column is for
	Factor unit.Ratio   // corrections that Amps already holds; 1 when none
	Source cite.Source  // the table
	Remark say.Line     // why another row was read than the size on the jacket, or why there is no figure
}

var (
	sayOtherRow = say.Phrase{Key: "conductor.other-row",
		English: "read as {row}, the largest in this table that is not larger than {size}"}
	sayUnstated = say.Phrase{Key: "conductor.unstated",
		English: "the standard of {size} is not known, and sizes of the same number differ by up to 12 % in copper"}
	saySmall = say.Phrase{Key: "conductor.small",
		English: "{size} is smaller than the first row of this table"}
	sayCool = say.Phrase{Key: "conductor.column",
		English: "this table has no column for {rating}"}
	sayHot = say.Phrase{Key: "conductor.too-hot",
		English: "this table ends below {ambient}"}
	sayBundle = say.Phrase{Key: "conductor.bundle",
		English: "how many conductors lie together is not known, or too many for this table"}
)

// TerminalAmpacity is what the terminals of a cable allow it: the table's
// column for the terminal's temperature rating, without any correction for the
// air or the bundle, after NEC 110.14(C). Hand it the lower of the rating of
// the terminals and of the insulation, and [UnmarkedTerminal] where a terminal
// is not marked. Terminals above 75 °C read the 75 °C column: the 90 °C column
// is only where corrections start, see [CorrectedAmpacity].
//
// A size that is not AWG is read at the largest AWG that is not larger, and the
// remark says so. False, with the reason as remark, when the standard of the
// size is not known, it is smaller than the table, or the terminal is below 60 °C.
func TerminalAmpacity(s Size, terminal unit.Celsius) (Ampacity, bool) {
	a, row, ok := necRow(s)
	switch {
	case !ok:
		return a, false
	case terminal >= 75:
		a.Amps, a.Column = nec310_16[row].at75, 75
	case terminal >= 60:
		a.Amps, a.Column = nec310_16[row].at60, 60
	default:
		return none(cite.NEC310_16, sayCool.With("rating", celsius(terminal)))
	}
	return a, true
}

// CorrectedAmpacity is what the insulation of a cable allows it where it lies:
// the table's column for the insulation, times the factors for the air around
// it and for the conductors beside it that carry current, itself counted. It is
// the second of two tests that are not stacked, after NEC 690.8(B). Insulation
// above 90 °C reads the 90 °C column.
//
// False as for [TerminalAmpacity], and when the air is hotter than the column
// allows or bundled is not at least 1.
func CorrectedAmpacity(s Size, insulation, air unit.Celsius, bundled int) (Ampacity, bool) {
	a, row, ok := necRow(s)
	if !ok {
		return a, false
	}
	f, ok := airFactor(air)
	if !ok {
		return none(cite.NEC310_15Ambient, sayHot.With("ambient", celsius(air)))
	}
	var factor float64
	switch {
	case insulation >= 90:
		a.Amps, a.Column, factor = nec310_16[row].at90, 90, f.at90
	case insulation >= 75:
		a.Amps, a.Column, factor = nec310_16[row].at75, 75, f.at75
	case insulation >= 60:
		a.Amps, a.Column, factor = nec310_16[row].at60, 60, f.at60
	default:
		return none(cite.NEC310_16, sayCool.With("rating", celsius(insulation)))
	}
	if factor == 0 {
		return none(cite.NEC310_15Ambient, sayHot.With("ambient", celsius(air)))
	}
	if bundled < 1 {
		return none(cite.NEC310_15Bundle, sayBundle.With())
	}
	factor *= bundleFactor(bundled)
	a.Amps, a.Factor = a.Amps*unit.Ampere(factor), unit.Ratio(factor)
	return a, true
}

// airFactor finds the first row that reaches the temperature of the air.
func airFactor(air unit.Celsius) (f struct {
	upTo             unit.Celsius
	at60, at75, at90 float64
}, ok bool) {
	for _, row := range ambient {
		if air <= row.upTo {
			return row, true
		}
	}
	return f, false
}

func bundleFactor(bundled int) float64 {
	for _, row := range bundle {
		if bundled <= row.upTo {
			return row.factor
		}
	}
	return bundleBeyond
}

// BoatAmpacity is what ABYC E-11 allows a cable of 105 °C insulation, outside
// or inside an engine space. It holds for not more than two conductors in a
// bundle. False as for [TerminalAmpacity], and for cooler insulation or more
// conductors.
func BoatAmpacity(s Size, insulation unit.Celsius, bundled int, engineSpace bool) (Ampacity, bool) {
	if s.Standard == Unstated {
		return none(cite.ABYCE11, sayUnstated.With("size", s.Figure()))
	}
	i, ok := largest(s, len(abycE11), func(i int) unit.SquareMillimetre { return abycE11[i].gauge.area() })
	switch {
	case !ok:
		return none(cite.ABYCE11, saySmall.With("size", s.Figure()))
	case !(insulation >= 105):
		return none(cite.ABYCE11, sayCool.With("rating", celsius(insulation)))
	case bundled < 1 || bundled > 2:
		return none(cite.ABYCE11, sayBundle.With())
	}
	a := read(s, abycE11[i].gauge.figure(), abycE11[i].gauge.area(), cite.ABYCE11)
	a.Amps, a.Column = abycE11[i].outside, 105
	if engineSpace {
		a.Amps = abycE11[i].inside
	}
	return a, true
}

// MethodB2Ampacity is what IEC 60364-5-52 allows a PVC cable laid by method B2,
// in air of up to 30 or up to 40 °C. Sizes in mm² read their own row, others
// the largest that is not larger. False as for [TerminalAmpacity], and in
// hotter air.
func MethodB2Ampacity(s Size, air unit.Celsius) (Ampacity, bool) {
	if s.Standard == Unstated {
		return none(cite.IEC60364B2, sayUnstated.With("size", s.Figure()))
	}
	i, ok := largest(s, len(iecB2), func(i int) unit.SquareMillimetre { return iecB2[i].area })
	if !ok {
		return none(cite.IEC60364B2, saySmall.With("size", s.Figure()))
	}
	a := read(s, square(iecB2[i].area), iecB2[i].area, cite.IEC60364B2)
	a.Column = 70
	switch {
	case air <= 30:
		a.Amps = iecB2[i].at30
	case air <= 40:
		a.Amps = iecB2[i].at40
	default:
		return none(cite.IEC60364B2, sayHot.With("ambient", celsius(air)))
	}
	return a, true
}

// MayRunParallel reports whether two of these may share a current: from 1/0 AWG
// up, see cite.NEC310Parallel. A size whose standard is not known may not.
func MayRunParallel(s Size) bool {
	return s.Standard != Unstated && notLarger(aught1.area(), s.Area)
}

// necRow finds the row of NEC Table 310.16 for s.
func necRow(s Size) (Ampacity, int, bool) {
	if s.Standard == Unstated {
		a, _ := none(cite.NEC310_16, sayUnstated.With("size", s.Figure()))
		return a, 0, false
	}
	i, ok := largest(s, len(nec310_16), func(i int) unit.SquareMillimetre { return nec310_16[i].gauge.area() })
	if !ok {
		a, _ := none(cite.NEC310_16, saySmall.With("size", s.Figure()))
		return a, 0, false
	}
	return read(s, nec310_16[i].gauge.figure(), nec310_16[i].gauge.area(), cite.NEC310_16), i, true
}

func read(s Size, row say.Figure, area unit.SquareMillimetre, table cite.Source) Ampacity {
	a := Ampacity{Row: row, Factor: 1, Source: table}
	if !notLarger(s.Area, area) {
		a.Remark = sayOtherRow.With("row", row, "size", s.Figure())
	}
	return a
}

func none(table cite.Source, why say.Line) (Ampacity, bool) {
	return Ampacity{Source: table, Remark: why}, false
}
