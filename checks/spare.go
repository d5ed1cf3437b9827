package checks

import (
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

var (
	saySpareGap   = say.Phrase{Key: "spare.gap", English: "The voltages match, so the gap need not be read by itself."}
	saySpareFull  = say.Phrase{Key: "spare.full", English: "The blocks may be joined without it: {why}."}
	saySpareJoin  = say.Phrase{Key: "spare.join", English: "The voltages match, so what a join would push need not be worked out."}
	sayAloneFull  = say.Phrase{Key: "spare.no-series", English: "no blocks stand in series, and their voltages match"}
	sayOtherLevel = say.Phrase{Key: "spare.level", English: "equal charge is shown or accepted another way"}
)

// holds reports whether anything of a field is kept for a part.
func (f *Facts) holds(field Field, part string) bool {
	_, standing := f.state.Lookup(f.visit, part, field.ID, field.Setup)
	return standing != job.Missing
}

// spareGap: a match needs no second way of measuring it.
func spareGap(f *Facts, part string) (say.Line, bool) {
	for _, b := range f.BlocksOf(part) {
		if f.holds(gapVoltage.Field, b) {
			return say.Line{}, false
		}
	}
	return saySpareGap.With(), f.allPass("voltage-match", part)
}

// spareJoin: a match needs no proof that the join is harmless.
func spareJoin(f *Facts, part string) (say.Line, bool) {
	matched := f.allPass("voltage-match", part) || f.allPass("gap-voltage", part)
	return saySpareJoin.With(), matched
}

// spareFull: proof of full is one of the ways to equal charge; where another
// way is complete, and nobody has begun to charge this block alone, it need
// not be walked.
func spareFull(f *Facts, block string) (say.Line, bool) {
	for _, field := range []Field{fullVoltage.Field, fullCurrent.Field, fullVoltage2.Field, fullCurrent2.Field, fullEnded.Field} {
		if f.holds(field, block) {
			return say.Line{}, false
		}
	}
	unit := f.unitOf(block)
	matched := f.allPass("voltage-match", unit) || f.allPass("gap-voltage", unit)
	if f.Layout().Series == 1 {
		return saySpareFull.With("why", sayAloneFull), f.allPass("voltage-match", "bank") || matched
	}
	level := f.allOffFlat(f.BlocksOf(unit)) || f.levelAccepted(f.BlocksOf(unit)) && f.allPass("same-build", "bank")
	return saySpareFull.With("why", sayOtherLevel), matched && level
}

// unitOf gives the string of a block, or the bank where groups stand in series.
func (f *Facts) unitOf(block string) string {
	if s := f.Layout().StringOf(block); s != "" {
		return s
	}
	return "bank"
}

// allPass reports whether a check passed about a part.
func (f *Facts) allPass(check, part string) bool {
	any := false
	for _, x := range f.byCheck[check] {
		if x.Part() == part {
			any = true
			if x.Verdict() != finding.Pass {
				return false
			}
		}
	}
	return any
}
