package checks

import (
	"lugmark/core/bank"
	"lugmark/core/circuit"
	"lugmark/core/cite"
	"lugmark/core/conductor"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Where a cable lies in warm air or beside others its insulation allows it
// less. This stands beside the test at the terminals and is not stacked on it.
var cableCorrected = &Check{
	ID: "cable-corrected", Stage: Wire,
	Title:   say.Phrase{Key: "cable-corrected.title", English: "Cable where it lies"},
	Asks:    say.Phrase{Key: "cable-corrected.asks", English: "Is every main cable thick enough for the air it lies in and the ripple it carries?"},
	Formula: "k_air·k_bundle·I_table ≥ I_rms, I_rms = I·√(1 + r²/2) [A]",
	Limits:  []LimitOf{{"ampacity", finding.Standard}},
	Sources: []*cite.Source{&cite.NEC690_8B, &cite.NEC310_16, &cite.NEC310_15Ambient, &cite.NEC310_15Bundle, &cite.NEC310Parallel},
	Fields: []*Field{&designCurrent.Field, &siteKind.Field, &siteHottest.Field, &partCable.Field, &cableSize.Field, &cableStandard.Field,
		&cableRating.Field, &inverterRipple.Field},
	Parts: onBank,
	Eval:  evalCableCorrected,
}

var (
	sayCorrectedGood = say.Phrase{Key: "cable-corrected.pass", English: "Where they lie all cables may carry what flows in them; closest is one with {amps} that may carry {found}."}
	sayCorrectedThin = say.Phrase{Key: "cable-corrected.fail", English: "{part}, {size}, may carry {found} where it lies; {limit} flow in it, ripple counted. Its insulation ages and cracks."}
	sayCorrectedBoat = say.Phrase{Key: "cable-corrected.boat", English: "On boats and in vehicles the table of the check at the terminals stands for this one too."}
	sayCorrectedBook = say.Phrase{Key: "cable-corrected.maker", English: "Manuals name the cables for this current; they stand for the table."}
	sayCorrectedNext = say.Phrase{Key: "cable-corrected.next", English: "Fit a larger cable, separate the bundle or cool the space."}

	sayAssumedRipple = say.Phrase{Key: "assumed.ripple", English: "The ripple of a single-phase inverter assumed: 1.225 times the direct current heats the cable."}
)

func evalCableCorrected(f *Facts, _ string) []finding.Finding {
	if boat, _ := f.afloat(); boat {
		return one(finding.Unneeded(sayCorrectedBoat.With()))
	}
	design, gap := f.designAmps()
	if gap != nil {
		return one(*gap)
	}
	parts, _ := cableParts(f)
	var judged []string
	for _, p := range parts {
		if _, byMaker := cableByMaker.Of(f, p); !byMaker {
			judged = append(judged, p)
		}
	}
	ripple := f.ripple()
	var least conductor.Ampacity
	rms := circuit.RippleRMS(design, ripple)
	x, any := worstOf(judged, func(part string) finding.Finding {
		carries, gap := f.conductorAmps(part)
		if gap != nil {
			return *gap
		}
		flows := measure.Interval[unit.Ampere]{Low: circuit.RippleRMS(carries.Low, ripple), High: circuit.RippleRMS(carries.High, ripple)}
		x, a := f.correctedAt(part, flows)
		if x.Verdict() == finding.Pass && (least.Amps == 0 || a.Amps/flows.High < least.Amps/rms) {
			least, rms = a, flows.High
		}
		return x
	})
	if !any {
		return one(finding.Unneeded(sayCorrectedBook.With()))
	}
	limit := finding.AtLeast("ampacity", rms, finding.Standard, cite.NEC690_8B.Line())
	if x.Verdict() == finding.Pass {
		found := finding.Measured(measure.Exact(least.Amps), "A", limit)
		x = finding.Passes(sayCorrectedGood.With("amps", rounded(rms, "A"), "found", found.Text)).Value(found)
	}
	return one(x.Against(limit))
}

// ripple is the largest ripple of the inverters' direct current: as entered,
// else as large as the current itself; 0 without an inverter.
func (f *Facts) ripple() unit.Ratio {
	most := unit.Ratio(0)
	for _, id := range f.entered(bank.KindInverter, "inverter") {
		r, ok := inverterRipple.Plain(f, id)
		if !ok {
			f.assume(sayAssumedRipple.With())
			r = 100
		}
		most = max(most, unit.Ratio(r)/100)
	}
	return most
}

func (f *Facts) correctedAt(part string, rms measure.Interval[unit.Ampere]) (finding.Finding, conductor.Ampacity) {
	size, _, gap := f.cable(part)
	if gap != nil {
		return *gap, conductor.Ampacity{}
	}
	count := 1
	if kind, _ := bank.PartKind(part); kind == bank.KindLink {
		count += len(f.entered(bank.KindLink, part+"~"))
	}
	if count > 1 && !conductor.MayRunParallel(size) && size.Standard != conductor.Unstated {
		said := sayCableBeside.With("size", size.Figure(), "count", exact(unit.Count(count), "1"))
		return finding.CannotTell(said, sayCableOne.With()), conductor.Ampacity{}
	}
	a, gap := f.conductorAmpacity(part)
	if gap != nil {
		return *gap, a
	}
	a.Amps *= unit.Ampere(count)
	limit := finding.AtLeast("ampacity", rms.High, finding.Standard, cite.NEC690_8B.Line())
	found := finding.Measured(measure.Exact(a.Amps), "A", limit)
	said := sayCorrectedThin.With("part", bank.Name(part), "size", size.Figure(), "found", found.Text, "limit", rounded(rms.High, "A"))
	return finding.Judge(needs(a.Amps, rms, 1), finding.Words{
		Pass: said, Fail: said, CantTell: said, Mend: sayCorrectedNext.With(),
	}).Value(found), a
}
