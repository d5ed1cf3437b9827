package checks

import (
	"lugmark/core/cite"
	"lugmark/core/conductor"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A fuse bears the current for hours and opens before its cable burns.
//
// A string's own fuse sees the string's share. It may also not be larger than
// the block's maker allows; where there is one string, the main is its fuse.
var fuseSize = &Check{
	ID: "fuse-size", Stage: Wire,
	Title:   say.Phrase{Key: "fuse-size.title", English: "Fuse size"},
	Asks:    say.Phrase{Key: "fuse-size.asks", English: "Does the fuse bear the current and open before its cable burns?"},
	Formula: "1.25·I_cont ≤ I_n ≤ next standard size above I_table [A]; U_n ≥ Ns·V_max DC [V]; string: I_n ≤ I_fuse-max of the sheet",
	Limits:  []LimitOf{{"fuse-max", finding.Maker}, {"fuse-max", finding.Practice}, {"rating", finding.Standard}, {"voltage", finding.Maker}, {"voltage", finding.Practice}},
	Sources: []*cite.Source{&cite.NEC210_20A, &cite.NEC240_4B, &cite.NEC240_6A, &cite.ABYCE11FuseSize, &cite.CommonPractice, &cite.OurRule},
	Fields: []*Field{&fuseRating.Field, &fuseVoltage.Field, &designCurrent.Field, &partCable.Field, &cableSize.Field, &cableStandard.Field,
		&cableRating.Field, &siteHottest.Field, &engineSpace.Field, &sheetFuseMax.Field, &sheetDischarge.Field},
	Parts: fuseParts,
	Eval:  evalFuseSize,
}

var (
	sayFuseGood    = say.Phrase{Key: "fuse-size.pass", English: "Rated {found}; for {amps} in its cable {limit} will do. It is made for {volts} DC, and the bank reaches {highest}."}
	sayFuseVolts   = say.Phrase{Key: "fuse-size.volts", English: "Made for {volts} DC, but the bank reaches {highest}. It may not break the arc."}
	sayFuseSmall   = say.Phrase{Key: "fuse-size.small", English: "Rated {found}; {amps} for hours ask for {least}. It will open in use."}
	sayFuseLarge   = say.Phrase{Key: "fuse-size.large", English: "Rated {found}; its cable, good for {ampacity}, allows {most} at most. The cable burns first."}
	sayFuseShare   = say.Phrase{Key: "fuse-size.share", English: "Rated {found}; its branch may carry {amps}, depending on resistances that were not measured, and asks for up to {least}."}
	sayFuseMaker   = say.Phrase{Key: "fuse-size.maker", English: "Rated {found}; the maker of the blocks allows {most} at most."}
	sayFuseNoMaker = say.Phrase{Key: "fuse-size.maker-unknown", English: "Rated {found}. Strings feed each other in a fault, and the largest fuse that the maker allows is not entered; without it our rule stops at {most}, 1.5 times what a block bears."}
	sayFuseNoBears = say.Phrase{Key: "fuse-size.block-unknown", English: "Rated {found}. Neither the largest fuse that the maker allows nor what a block bears is entered."}
	sayFuseFit     = say.Phrase{Key: "fuse-size.fit", English: "Fit a fuse of {size}."}
	sayFuseNone    = say.Phrase{Key: "fuse-size.none-fits", English: "Fit a larger cable: no standard fuse bears {least} and still protects this one."}
	sayFuseLess    = say.Phrase{Key: "fuse-size.less", English: "Draw less or add a string: {amps} ask for {least}, and the maker allows a fuse of {most} at most."}
	sayFuseDC      = say.Phrase{Key: "fuse-size.fit-dc", English: "Fit a fuse that is rated {highest} DC or more."}
	sayFuseMeasure = say.Phrase{Key: "fuse-size.measure", English: "Measure the resistance of the blocks by a 10 s step; that narrows the share."}
	sayFuseAsk     = say.Phrase{Key: "fuse-size.ask", English: "Ask the maker for the largest fuse and enter it."}
	sayFuseBoat    = say.Phrase{Key: "fuse-size.boat", English: "No standard size fits; on boats up to 1.5 times the ampacity then counts."}
)

// Up to 1.5 times what a block bears a branch fuse needs no word of the maker:
// our choice.
const fuseOverBlock unit.Ratio = 1.5

// fuseParts: the main fuse, and one in each string where several strings feed
// each other.
func fuseParts(f *Facts) ([]string, say.Line) {
	parts := []string{"fuse.main"}
	if strs := f.Layout().Strings(); len(strs) > 1 {
		for _, s := range strs {
			parts = append(parts, "fuse."+s.Letter())
		}
	}
	return parts, say.Line{}
}

// branchOf gives the string that a fuse stands in; "" for the main fuse.
func branchOf(fuse string) string {
	if fuse == "fuse.main" {
		return ""
	}
	return "s" + fuse[len("fuse."):]
}

// fuseCurrent is what goes through a fuse for hours: the design current, or the
// share of its string.
func (f *Facts) fuseCurrent(fuse string) (measure.Interval[unit.Ampere], *finding.Finding) {
	design, gap := f.designAmps()
	if gap != nil || branchOf(fuse) == "" {
		return measure.Interval[unit.Ampere]{Low: design, High: design}, gap
	}
	net, gap := f.network("bank")
	if gap != nil {
		return measure.Interval[unit.Ampere]{}, gap
	}
	spans, err := net.currents(design)
	for k, id := range net.branches {
		if err == nil && id == branchOf(fuse) {
			return spans[k], nil
		}
	}
	x := finding.CannotTell(sayNetworkOdd.With(), enter(linkR.Field, f.enteredLink()))
	return measure.Interval[unit.Ampere]{}, &x
}

func evalFuseSize(f *Facts, fuse string) []finding.Finding {
	rating, ok := fuseRating.Of(f, fuse)
	if !ok {
		return one(missing(fuseRating.Field, fuse))
	}
	volts, ok := fuseVoltage.Of(f, fuse)
	if !ok {
		return one(missing(fuseVoltage.Field, fuse))
	}
	found := finding.Typed(rating)
	vmax, highest := f.highestCharge()
	said := []any{"found", found.Text, "volts", typed(volts), "highest", exact(highest, "V")}
	if measure.AtLeast(measure.Exact(volts.Value).Interval(), highest) != measure.Inside {
		limit := finding.AtLeast("voltage", highest, vmax.Kind, vmax.Source)
		return one(finding.Fails(sayFuseVolts.With(said...), sayFuseDC.With(said...)).Value(finding.Typed(volts)).Against(limit))
	}
	amps, gap := f.fuseCurrent(fuse)
	if gap != nil {
		return one(*gap)
	}
	least := measure.Interval[unit.Ampere]{Low: amps.Low * unit.Ampere(conductor.Continuous), High: amps.High * unit.Ampere(conductor.Continuous)}
	said = append(said, "amps", rounded(amps.High, "A"), "least", exact(least.High, "A"))
	lower := finding.AtLeast("rating", least.High, finding.Standard, cite.NEC210_20A.Line())
	fit, fits := conductor.NextFuse(least.High)
	if rating.Value < least.Low*(1-1e-9) && fits {
		return one(finding.Fails(sayFuseSmall.With(said...), sayFuseFit.With("size", exact(fit, "A"))).Value(found).Against(lower))
	}
	w, gap := f.fuseWindow(fuse, least.High)
	if gap != nil {
		return one(gap.Value(found).Against(lower))
	}
	limit := finding.Window("rating", least.High, w.most, w.kind, w.source)
	said = append(said, "most", exact(w.most, "A"), "ampacity", rounded(w.ampacity, "A"), "limit", limit.Line())
	var next say.Line
	if fit <= w.most && fits {
		next = sayFuseFit.With("size", exact(fit, "A"))
	} else {
		next = sayFuseNone.With(said...)
	}
	var x finding.Finding
	switch {
	case rating.Value > w.most*(1+1e-9):
		x = finding.Fails(sayFuseLarge.With(said...), next)
	case rating.Value < least.High*(1-1e-9):
		if fit > w.most || !fits {
			next = sayFuseMeasure.With()
		}
		x = finding.CannotTell(sayFuseShare.With(said...), next)
	default:
		x = finding.Passes(sayFuseGood.With(said...))
		if y, most := f.fuseForBlock(fuse, rating.Value, least.High, said); y != nil {
			x, limit = *y, most
		}
	}
	if w.boat {
		x = x.Noting(sayFuseBoat.With())
	}
	return one(x.Value(found).Against(limit))
}

// fuseForBlock says why a fuse that fits its cable is more than the blocks bear,
// and the limit that it breaks; nil when it is not. The other strings feed a
// fault in one of them.
func (f *Facts) fuseForBlock(fuse string, rating, least unit.Ampere, said []any) (*finding.Finding, finding.Limit) {
	branch := branchOf(fuse)
	alone := branch == "" && f.Layout().Parallel == 1
	if branch == "" && !alone {
		return nil, finding.Limit{}
	}
	if alone {
		branch = "bank"
	}
	if own := lowest(f, sheetFuseMax, branch); own.Any() && (own.All() || rating > own.Value*(1+1e-9)) {
		if rating <= own.Value*(1+1e-9) {
			return nil, finding.Limit{}
		}
		b := own.Base(f)
		said = replaced(said, "most", exact(own.Value, "A"))
		next := sayFuseLess.With(said...)
		if fit, fits := conductor.NextFuse(least); fits && fit <= own.Value {
			next = sayFuseFit.With("size", exact(fit, "A"))
		}
		x := finding.Fails(sayFuseMaker.With(said...), next)
		return &x, finding.AtMost("fuse-max", b.Value, b.Kind, b.Source)
	}
	if alone { // nothing else feeds a fault in it
		return nil, finding.Limit{}
	}
	steady := lowest(f, sheetDischarge, branch)
	most := steady.Value * unit.Ampere(fuseOverBlock)
	limit := finding.AtMost("fuse-max", most, finding.Practice, cite.OurRule.Line())
	switch {
	case !steady.All():
		x := finding.CannotTell(sayFuseNoBears.With(said...), sayFuseAsk.With())
		return &x, finding.Limit{Name: "fuse-max", Unit: "A"}
	case rating > most*(1+1e-9):
		x := finding.CannotTell(sayFuseNoMaker.With(replaced(said, "most", exact(most, "A"))...), sayFuseAsk.With())
		return &x, limit
	}
	return nil, finding.Limit{}
}

// replaced gives the pairs of a sentence with one value exchanged.
func replaced(said []any, name string, value any) []any {
	out := append([]any(nil), said...)
	for i := 0; i+1 < len(out); i += 2 {
		if out[i] == name {
			out[i+1] = value
		}
	}
	return out
}
