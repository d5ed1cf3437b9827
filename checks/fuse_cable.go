package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/conductor"
	"lugmark/core/finding"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// fuseWindow is the largest fuse that a cable allows, and why.
type fuseWindow struct {
	most, ampacity unit.Ampere
	kind           finding.Kind
	source         say.Line
	boat           bool // no standard size fitted
}

// fuseWindow looks at the weakest of the conductors that a fuse protects. What
// is missing or cannot be read is a finding.
func (f *Facts) fuseWindow(fuse string, least unit.Ampere) (fuseWindow, *finding.Finding) {
	w := fuseWindow{}
	_, kind := f.afloat()
	for i, part := range f.fusedConductors(fuse) {
		a, gap := f.conductorAmpacity(part)
		if gap != nil {
			return w, gap
		}
		if i == 0 || a.Amps < w.ampacity {
			w.ampacity = a.Amps
		}
	}
	most, ok := conductor.LargestFuse(w.ampacity)
	if !ok {
		most = w.ampacity
	}
	w.most, w.kind, w.source = most, finding.Standard, cite.Both(cite.NEC210_20A, cite.NEC240_4B)
	if size, found := conductor.NextFuse(least); kind == "boat" && (!found || size > most) {
		w.most, w.source, w.boat = w.ampacity*unit.Ampere(conductor.BoatFuse), cite.ABYCE11FuseSize.Line(), true
	}
	return w, nil
}

// fusedConductors gives what a fuse protects: the main plus lead, or the links
// of its string; of a string of one block those on its plus side.
func (f *Facts) fusedConductors(fuse string) []string {
	branch := branchOf(fuse)
	if branch == "" {
		return []string{"lead.p"}
	}
	var inside, outside []string
	for _, l := range f.links {
		switch {
		case l.Of == branch:
			inside = append(inside, l.ID)
		case l.From == branch+".p" || l.To == branch+".p":
			outside = append(outside, l.ID)
		}
	}
	if f.Layout().Bars() {
		return append(inside, outside...)
	}
	if len(inside) > 0 {
		return inside
	}
	return outside
}

// conductorAmpacity is what the insulation of a conductor allows where it
// lies: corrected for the hottest air, or by the boat's table.
func (f *Facts) conductorAmpacity(part string) (conductor.Ampacity, *finding.Finding) {
	fail := func(x finding.Finding) (conductor.Ampacity, *finding.Finding) { return conductor.Ampacity{}, &x }
	size, cable, gap := f.cable(part)
	if gap != nil {
		return conductor.Ampacity{}, gap
	}
	said := []any{"size", size.Figure(), "cable", bank.Name(cable)}
	jacket := sayCableJacket.With(said...)
	insulation, marked := cableRating.Plain(f, cable)
	if !marked && size.Standard != conductor.Unstated {
		return fail(finding.CannotTell(sayCableNoIns.With(said...), jacket))
	}
	boat, kind := f.afloat()
	var a conductor.Ampacity
	var ok bool
	if boat {
		f.assume(sayAssumedBundle.With("count", exact(unit.Count(boatBundle), "1")))
		a, ok = conductor.BoatAmpacity(size, insulation, boatBundle, f.inEngineSpace(part))
	} else {
		if kind == "" {
			f.assume(sayAssumedSite.With())
		}
		air, known := siteHottest.Plain(f, "site")
		if !known {
			return fail(missing(siteHottest.Field, "site"))
		}
		f.assume(sayAssumedBundle.With("count", exact(unit.Count(roomBundle), "1")))
		a, ok = conductor.CorrectedAmpacity(size, insulation, air, roomBundle)
	}
	if !ok {
		return fail(finding.CannotTell(sayCableNoStd.With("why", a.Remark), jacket))
	}
	return a, nil
}

// Up to three conductors that carry current side by side the table needs no
// correction for the bundle.
const roomBundle = 3
