package conductor

import "lugmark/core/unit"

// standardFuses are the ampere ratings of NEC 240.6(A), with the small ones that
// only fuses have; see cite.NEC240_6A.
var standardFuses = []unit.Ampere{
	1, 3, 6, 10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250,
	300, 350, 400, 450, 500, 600, 700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000,
}

// Continuous is what a fuse and a conductor must carry for each ampere that
// flows for hours; see cite.NEC210_20A.
const Continuous unit.Ratio = 1.25

// BoatFuse is how far above the ampacity a fuse on a boat may be, and only
// where no standard size fits; see cite.ABYCE11FuseSize.
const BoatFuse unit.Ratio = 1.5

// roundsUpTo is the largest fuse that may stand above an ampacity which is no
// standard size; see cite.NEC240_4B.
const roundsUpTo unit.Ampere = 800

// NextFuse is the smallest standard size of at least current. False when there
// is none or current is not a number.
func NextFuse(current unit.Ampere) (unit.Ampere, bool) {
	for _, size := range standardFuses {
		if size >= current-slack(current) {
			return size, true
		}
	}
	return 0, false
}

// LargestFuse is the largest fuse that protects a conductor of this ampacity:
// the next standard size above it up to 800 A, and beyond that the standard
// size not above it. False when the ampacity is below the smallest fuse.
func LargestFuse(ampacity unit.Ampere) (unit.Ampere, bool) {
	if up, ok := NextFuse(ampacity); ok && ampacity >= standardFuses[0] && up <= roundsUpTo {
		return up, true
	}
	return fuseBelow(ampacity)
}

// FuseWindow is the smallest and the largest standard fuse for a conductor:
//
//	1.25·I_cont ≤ I_n ≤ next standard size above I_z
//
// False when no standard size lies in it: the conductor is too small for the
// current. On a boat [BoatFuse] then decides.
func FuseWindow(continuous, ampacity unit.Ampere) (least, most unit.Ampere, ok bool) {
	least, ok = NextFuse(unit.Ampere(Continuous) * continuous)
	most, ok2 := LargestFuse(ampacity)
	return least, most, ok && ok2 && continuous > 0 && least <= most
}

func fuseBelow(ampacity unit.Ampere) (unit.Ampere, bool) {
	best := unit.Ampere(0)
	for _, size := range standardFuses {
		if size <= ampacity+slack(ampacity) {
			best = size
		}
	}
	return best, best > 0
}

// slack absorbs binary rounding of a product such as 1.25·I.
func slack(current unit.Ampere) unit.Ampere { return 1e-9 * max(1, current) }

// AtAltitude is what is left of a fuse's rating at a height above the sea [m]:
// 1 up to 2000 m, then 1 − (h − 2000)/20000; see cite.FuseAltitude.
func AtAltitude(height unit.Metre) unit.Ratio {
	if height <= 2000 {
		return 1
	}
	return unit.Ratio(1 - (float64(height)-2000)/20000)
}
