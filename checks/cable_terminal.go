package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/conductor"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A cable may not make its terminals hotter than they are rated, without any
// correction for the air. On boats, and by custom in vehicles, another table
// stands for this one. Of two tables never the larger figure.
var cableTerminalCheck = &Check{
	ID: "cable-terminal", Stage: Wire,
	Title:   say.Phrase{Key: "cable-terminal.title", English: "Cable at its terminals"},
	Asks:    say.Phrase{Key: "cable-terminal.asks", English: "Is the cable thick enough for the current, as far as its terminals go?"},
	Formula: "I_table(terminal °C) ≥ 1.25·I_cont [A]; boat, vehicle: I_table(105 °C) ≥ I_max [A]",
	Limits:  []LimitOf{{"ampacity", finding.Maker}, {"ampacity", finding.Standard}, {"ampacity", finding.Practice}},
	Sources: []*cite.Source{&cite.NEC110_14C, &cite.NEC690_8B, &cite.NEC310_16, &cite.ABYCE11},
	Fields: []*Field{&designCurrent.Field, &siteKind.Field, &partCable.Field, &cableSize.Field, &cableStandard.Field,
		&cableRating.Field, &cableTerminal.Field, &engineSpace.Field, &cableByMaker.Field},
	Parts: cableParts,
	Eval:  evalCableTerminal,
}

var (
	sayCableGood   = say.Phrase{Key: "cable-terminal.pass", English: "{size} may carry {found} in the column for {column}; {amps} for hours ask for {limit}."}
	sayCableThin   = say.Phrase{Key: "cable-terminal.fail", English: "{size} may carry {found} in the column for {column}; {amps} for hours ask for {limit}."}
	sayCableTiny   = say.Phrase{Key: "cable-terminal.tiny", English: "{size} is smaller than anything in the table; {amps} ask for {limit}."}
	sayCableMaker  = say.Phrase{Key: "cable-terminal.maker", English: "The manual allows this cable {found}; the largest steady current is {amps}."}
	sayCableNoStd  = say.Phrase{Key: "cable-terminal.no-standard", English: "No ampacity can be read: {why}."}
	sayCableNoIns  = say.Phrase{Key: "cable-terminal.no-insulation", English: "The temperature rating of the insulation of {size} is not known."}
	sayCableCool   = say.Phrase{Key: "cable-terminal.cool-insulation", English: "The insulation of {size} is rated {rating}; the table used here is for 105 °C."}
	sayCableBeside = say.Phrase{Key: "cable-terminal.beside", English: "{count} conductors of {size} lie side by side; below 1/0 AWG their shares cannot be relied on."}
	sayCableLarger = say.Phrase{Key: "cable-terminal.larger", English: "Fit a larger cable, or draw {most} at most."}
	sayCableFit    = say.Phrase{Key: "cable-terminal.fit", English: "Fit a cable made for this current."}
	sayCableJacket = say.Phrase{Key: "cable-terminal.jacket", English: "Read the jacket of {cable}: its standard and the temperature rating of its insulation."}
	sayCableHot    = say.Phrase{Key: "cable-terminal.hot-insulation", English: "Fit a cable with 105 °C insulation."}
	sayCableOne    = say.Phrase{Key: "cable-terminal.one", English: "Fit one conductor that carries all of it."}

	sayAssumedTerminal = say.Phrase{Key: "assumed.terminal", English: "Terminals of {celsius} assumed; no rating entered."}
	sayAssumedSite     = say.Phrase{Key: "assumed.site", English: "Kind of site not entered; the table for buildings was used."}
	sayAssumedEngine   = say.Phrase{Key: "assumed.engine-space", English: "Taken as running through an engine space; nothing else is entered."}
	sayAssumedBundle   = say.Phrase{Key: "assumed.bundle", English: "At most {count} conductors that carry current side by side assumed."}
)

// The largest bundle for which the boat's table holds: plus and minus lead
// together.
const boatBundle = 2

// cableParts: both main leads, and every link.
func cableParts(f *Facts) ([]string, say.Line) {
	parts := []string{"lead.p", "lead.n"}
	for _, l := range f.links {
		parts = append(parts, l.ID)
	}
	return parts, say.Line{}
}

// afloat reports whether the boat's table is used, also in vehicles. Kind is ""
// where the kind of site is not entered.
func (f *Facts) afloat() (boatTable bool, kind string) {
	kind, _ = siteKind.Of(f, "site")
	return kind == "boat" || kind == "vehicle", kind
}

func evalCableTerminal(f *Facts, part string) []finding.Finding {
	carries, gap := f.conductorAmps(part)
	if gap != nil {
		return one(*gap)
	}
	if amps, ok := cableByMaker.Of(f, part); ok {
		return one(f.cableOfMaker(part, amps, carries.High))
	}
	size, cable, gap := f.cable(part)
	if gap != nil {
		return one(*gap)
	}
	count := 1
	if kind, _ := bank.PartKind(part); kind == bank.KindLink {
		count += len(f.entered(bank.KindLink, part+"~"))
	}
	own := measure.Interval[unit.Ampere]{Low: carries.Low / unit.Ampere(count), High: carries.High / unit.Ampere(count)}
	said := []any{"size", size.Figure(), "amps", rounded(own.High, "A"), "cable", bank.Name(cable), "count", exact(unit.Count(count), "1")}
	boat, kind := f.afloat()
	insulation, marked := cableRating.Plain(f, cable)
	if count > 1 && !conductor.MayRunParallel(size) && size.Standard != conductor.Unstated {
		return one(finding.CannotTell(sayCableBeside.With(said...), sayCableOne.With()))
	}
	if !marked && size.Standard != conductor.Unstated {
		return one(finding.CannotTell(sayCableNoIns.With(said...), sayCableJacket.With(said...)))
	}
	var allowed conductor.Ampacity
	var ok bool
	need := base[unit.Ampere]{own.High * unit.Ampere(conductor.Continuous), finding.Standard, cite.Both(cite.NEC110_14C, cite.NEC690_8B)}
	factor := unit.Ampere(conductor.Continuous)
	if boat {
		if insulation < 105 && size.Standard != conductor.Unstated {
			said = append(said, "rating", exact(insulation, "C"))
			return one(finding.CannotTell(sayCableCool.With(said...), sayCableHot.With()))
		}
		f.assume(sayAssumedBundle.With("count", exact(unit.Count(boatBundle), "1")))
		allowed, ok = conductor.BoatAmpacity(size, insulation, boatBundle, f.inEngineSpace(part))
		need, factor = base[unit.Ampere]{own.High, boatKind(kind), cite.ABYCE11.Line()}, 1
	} else {
		if kind == "" {
			f.assume(sayAssumedSite.With())
		}
		allowed, ok = conductor.TerminalAmpacity(size, min(f.terminalRating(cable), insulation))
	}
	limit := finding.AtLeast("ampacity", need.Value, need.Kind, need.Source)
	said = append(said, "limit", roundedUp(need.Value, "A"))
	larger := f.largerCable(allowed.Amps/factor, own.High)
	switch {
	case !ok && size.Standard == conductor.Unstated:
		return one(finding.CannotTell(sayCableNoStd.With("why", allowed.Remark), sayCableJacket.With(said...)).Against(limit))
	case !ok:
		return one(finding.Fails(sayCableTiny.With(said...), sayCableFit.With()).Against(limit))
	}
	found := finding.Measured(measure.Exact(allowed.Amps), "A", limit)
	said = append(said, "found", found.Text, "column", exact(allowed.Column, "C"))
	x := finding.Judge(needs(allowed.Amps, own, factor), finding.Words{
		Pass: sayCableGood.With(said...), Fail: sayCableThin.With(said...), CantTell: sayCableThin.With(said...), Mend: larger,
	})
	if !allowed.Remark.Empty() {
		x = x.Noting(allowed.Remark)
	}
	return one(x.Value(found).Against(limit))
}

// largerCable asks for a larger cable, or for so little current of the bank that
// this conductor's part of it is within what it may carry.
func (f *Facts) largerCable(may, carries unit.Ampere) say.Line {
	design, _ := f.designAmps()
	return sayCableLarger.With("most", rounded(design*may/carries, "A"))
}

// cableOfMaker judges a cable by the manual that names it.
func (f *Facts) cableOfMaker(part string, amps measure.Shown[unit.Ampere], design unit.Ampere) finding.Finding {
	if _, ok := sheetPage.Of(f, part); !ok {
		return missing(sheetPage.Field, part)
	}
	b := fromMaker(f, part, design)
	limit := finding.AtLeast("ampacity", b.Value, b.Kind, b.Source)
	found := finding.Typed(amps)
	said := sayCableMaker.With("found", found.Text, "amps", rounded(design, "A"))
	return finding.Judge(measure.AtLeast(measure.Exact(amps.Value).Interval(), design), finding.Words{
		Pass: said, Fail: said, CantTell: said, Mend: sayCableLarger.With("most", typed(amps)),
	}).Value(found).Against(limit)
}

// terminalRating is the temperature of the terminals of a cable: its own, else
// that of the bank, else 60 °C, which is then said as assumed.
func (f *Facts) terminalRating(cable string) unit.Celsius {
	for _, id := range []string{cable, "bank"} {
		if t, ok := cableTerminal.Plain(f, id); ok {
			return t
		}
	}
	f.assume(sayAssumedTerminal.With("celsius", exact(conductor.UnmarkedTerminal, "C")))
	return conductor.UnmarkedTerminal
}

// inEngineSpace reports whether a conductor lies in an engine space, which is
// taken for granted where nobody says no.
func (f *Facts) inEngineSpace(part string) bool {
	code, ok := engineSpace.Of(f, part)
	if !ok {
		f.assume(sayAssumedEngine.With())
	}
	return code != "no"
}

// boatKind: the boat's table is the standard on boats and custom in vehicles.
func boatKind(site string) finding.Kind {
	if site == "boat" {
		return finding.Standard
	}
	return finding.Practice
}
