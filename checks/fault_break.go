package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cell"
	"lugmark/core/circuit"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A fuse must break the worst short circuit: right behind it, charger on, cold
// copper, full bank, the blocks' own protection not counted on.
//
// n is the strings that feed the fault: all for the main fuse, the others for
// the fuse of a string. Below what the highest resistance gives it surely fails.
var faultBreak = &Check{
	ID: "fault-break", Stage: Wire,
	Title:   say.Phrase{Key: "fault-break.title", English: "Fuse against a short circuit"},
	Asks:    say.Phrase{Key: "fault-break.asks", English: "Can the fuse break the largest short circuit that this bank can feed?"},
	Formula: "I = Ns·V_max/((Ns·R_lo + R_branch)/n + R_shared) + I_charger ≤ I_breaking [A]",
	Limits:  []LimitOf{{"breaking", finding.Standard}, {"breaking", finding.Practice}, {"short-circuit", finding.Maker}, {"voltage", finding.Maker}, {"voltage", finding.Practice}},
	Sources: []*cite.Source{&cite.CircuitTheory, &cite.CommonPractice, &cite.OurRule, &cite.ABYCE11Breaking},
	Fields: []*Field{&fuseBreaking.Field, &fuseVoltage.Field, &sheetCapacity.Field, &sheetShort.Field, &linkR.Field, &partCable.Field,
		&partLength.Field, &fuseCopper.Field, &chargerRating.Field},
	Parts: fuseParts,
	Eval:  evalFaultBreak,
}

var (
	sayBreakGood  = say.Phrase{Key: "fault-break.pass", English: "A short right behind it may draw {found}; it breaks {limit} at {volts} DC."}
	sayBreakBad   = say.Phrase{Key: "fault-break.fail", English: "A short right behind it draws {found}; it breaks only {limit} at {volts} DC. It may burst and go on burning."}
	sayBreakUnk   = say.Phrase{Key: "fault-break.cant-tell", English: "A short right behind it draws {found}, depending on the blocks; it breaks {limit} at {volts} DC."}
	sayBreakVolts = say.Phrase{Key: "fault-break.volts", English: "Its breaking capacity holds up to {volts} DC, but the bank reaches {highest}."}
	sayBreakClass = say.Phrase{Key: "fault-break.class", English: "A short right behind it may draw {found}. At {highest} or less, fuses that break {limit} at {volts} DC or more, here and in every string, are taken as enough."}
	sayBreakFit   = say.Phrase{Key: "fault-break.fit", English: "Fit a fuse that breaks {need} or more at {highest} DC."}
	sayBreakAsk   = say.Phrase{Key: "fault-break.ask", English: "Ask the maker for the short-circuit current of a block and enter it. As long as it is assumed, only a fuse that breaks {need} or more at {highest} DC would do."}
	sayBreakBare  = say.Phrase{Key: "fault-break.bare", English: "With no copper counted at all: {bare}. With both main leads, to their far end: {leads}."}
	sayBreakNoLds = say.Phrase{Key: "fault-break.bare-only", English: "With no copper counted at all: {bare}. The main leads are not entered, so the figure with them is not known."}
	sayBreakSheet = say.Phrase{Key: "fault-break.sheet", English: "the marking or the data sheet of the fuse"}
	sayBreakBMS   = say.Phrase{Key: "fault-break.protection", English: "The protection in the blocks may open sooner; it is not counted on."}

	sayAssumedFault = say.Phrase{Key: "assumed.fault-resistance", English: "{low} to {high} for each block assumed, its protection left out; no short-circuit current on the sheet."}
)

const (
	// Up to 30 V, fuses of 20 kA at 125 V DC in the main and in every branch:
	// after ABYC E-11 as boating texts quote it.
	classVolts   unit.Volt   = 30
	classBreaks  unit.Ampere = 20000
	classRatedAt unit.Volt   = 125
)

func evalFaultBreak(f *Facts, fuse string) []finding.Finding {
	breaking, ok := fuseBreaking.Of(f, fuse)
	if !ok {
		return one(missing(fuseBreaking.Field, fuse))
	}
	volts, ok := fuseVoltage.Of(f, fuse)
	if !ok {
		return one(missing(fuseVoltage.Field, fuse))
	}
	vmax, highest := f.highestCharge()
	said := []any{"limit", typed(breaking), "volts", typed(volts), "highest", exact(highest, "V")}
	if measure.AtLeast(measure.Exact(volts.Value).Interval(), highest) != measure.Inside {
		limit := finding.AtLeast("voltage", highest, vmax.Kind, vmax.Source)
		return one(finding.Fails(sayBreakVolts.With(said...), sayFuseDC.With(said...)).Value(finding.Typed(volts)).Against(limit))
	}
	fault, gap := f.fault(fuse, vmax.Value)
	if gap != nil {
		return one(*gap)
	}
	span := fault.span(fault.branch, fault.shared)
	limit := finding.AtMost("short-circuit", breaking.Value, finding.Maker, sayBreakSheet.With())
	found := finding.Predicted(span, "A", limit)
	said = append(said, "found", found.Text, "need", roundedUp(span.High, "A"))
	side := measure.AtMost(span, breaking.Value)
	class, kind := false, finding.Practice
	if side != measure.Inside {
		class, kind = f.classFuses(highest)
	}
	mend := sayBreakFit
	if fault.assumed {
		mend = sayBreakAsk
	}
	var x finding.Finding
	if class {
		said := replaced(replaced(said, "volts", exact(classRatedAt, "V")), "limit", exact(classBreaks, "A"))
		x = finding.Passes(sayBreakClass.With(replaced(said, "highest", exact(classVolts, "V"))...))
		limit = finding.AtLeast("breaking", classBreaks, kind, cite.ABYCE11Breaking.Line())
		found = finding.Typed(breaking)
	} else {
		x = finding.Judge(side, finding.Words{
			Pass: sayBreakGood.With(said...), Fail: sayBreakBad.With(said...), CantTell: sayBreakUnk.With(said...),
			Mend: mend.With(said...),
		})
	}
	return one(x.Value(found).Against(limit).Noting(fault.sayLeads(), sayBreakBMS.With()))
}

// classFuses reports whether the bank is of a voltage, and the main and every
// string fuse of a kind, that needs no figure. On boats that is the standard,
// elsewhere custom.
func (f *Facts) classFuses(highest unit.Volt) (bool, finding.Kind) {
	if highest > classVolts {
		return false, ""
	}
	strong := remember(f, "class fuses", func() bool {
		parts, _ := fuseParts(f)
		for _, fuse := range parts {
			breaking, ok := fuseBreaking.Plain(f, fuse)
			volts, ok2 := fuseVoltage.Plain(f, fuse)
			if !ok || !ok2 || breaking < classBreaks || volts < classRatedAt {
				return false
			}
		}
		return true
	})
	_, kind := f.afloat()
	return strong, boatKind(kind)
}

// faultPath is a short right behind a fuse, ready to be worked out.
type faultPath struct {
	circuit.Fault
	low, high      unit.Ohm // of one block
	assumed        bool     // from its capacity alone
	branch, shared unit.Ohm // copper in front of the fuse, as far as it is known
	leads          unit.Ohm // both main leads
	leadsKnown     bool
}

// span is the lowest and the highest current with this copper [A].
func (p faultPath) span(branch, shared unit.Ohm) measure.Interval[unit.Ampere] {
	p.Branch, p.Shared = branch, shared
	p.Block = p.high
	low, _ := p.Current()
	p.Block = p.low
	high, _ := p.Current()
	return measure.Interval[unit.Ampere]{Low: low, High: high}
}

// sayLeads says the highest current without any copper and with both main leads.
func (p faultPath) sayLeads() say.Line {
	bare := roundedUp(p.span(0, 0).High, "A")
	if !p.leadsKnown {
		return sayBreakNoLds.With("bare", bare)
	}
	return sayBreakBare.With("bare", bare, "leads", rounded(p.span(p.branch, p.shared+p.leads).High, "A"))
}

// fault gathers what a short right behind a fuse goes through. Copper counts
// only where it is known; what is not known would make the current larger.
func (f *Facts) fault(fuse string, vmax unit.Volt) (faultPath, *finding.Finding) {
	l := f.Layout()
	p := faultPath{Fault: circuit.Fault{Series: l.Series, Feeds: circuit.FeedsMain(l.Parallel), Volts: vmax}}
	if branchOf(fuse) != "" {
		p.Feeds = circuit.FeedsBranch(l.Parallel)
	}
	all := remember(f, "fault", func() faultInputs { return f.faultInputs(vmax) })
	if all.gap != nil {
		return p, all.gap
	}
	own, _ := fuseCopper.Plain(f, fuse)
	p.low, p.high, p.assumed, p.Other = all.block.Low, all.block.High, all.assumed, all.chargers
	p.branch, p.shared = all.branch, all.shared+own
	p.leads, p.leadsKnown = all.leads, all.leadsKnown
	return p, nil
}

// faultInputs is what every fuse of a bank sees alike.
type faultInputs struct {
	block                 measure.Interval[unit.Ohm]
	assumed               bool
	branch, shared, leads unit.Ohm
	leadsKnown            bool
	chargers              unit.Ampere
	gap                   *finding.Finding
}

func (f *Facts) faultInputs(vmax unit.Volt) (in faultInputs) {
	in.block, in.assumed, in.gap = f.faultOhms(vmax)
	in.branch, in.shared = f.faultCopper()
	plus, knownPlus := f.conductorOhm("lead.p", f.coldOhm, 0)
	minus, knownMinus := f.conductorOhm("lead.n", f.coldOhm, 0)
	in.leads, in.leadsKnown = plus+minus, knownPlus && knownMinus
	for _, id := range f.entered(bank.KindCharger, "charger") {
		rated, _ := chargerRating.Plain(f, id)
		set, _ := setCurrent.Plain(f, id)
		in.chargers += max(rated, set)
	}
	return in
}

// faultOhms is the resistance of one block in a short: from the sheets' own
// short-circuit current, else assumed between bounds from the capacity.
func (f *Facts) faultOhms(vmax unit.Volt) (ohms measure.Interval[unit.Ohm], assumed bool, gap *finding.Finding) {
	if most, least := highest(f, sheetShort, "bank"), lowest(f, sheetShort, "bank"); most.All() {
		return measure.Interval[unit.Ohm]{Low: unit.Ohm(vmax) / unit.Ohm(most.Value), High: unit.Ohm(vmax) / unit.Ohm(least.Value)}, false, nil
	}
	large, small := highest(f, sheetCapacity, "bank"), f.capacity("bank")
	low, ok := cell.FaultResistance(large.Value)
	high, ok2 := cell.FaultResistance(small.Value)
	if !large.All() || !ok || !ok2 {
		x := large.Missing()
		return measure.Interval[unit.Ohm]{}, false, &x
	}
	f.assume(sayAssumedFault.With("low", exact(low.Low, "mOhm"), "high", exact(high.High, "mOhm")))
	return measure.Interval[unit.Ohm]{Low: low.Low, High: high.High}, true, nil
}

// faultCopper is the cold copper in front of every fuse, as far as it is known:
// that of the branch with least of it, and the links that all share.
func (f *Facts) faultCopper() (branch, shared unit.Ohm) {
	l := f.Layout()
	sums := map[string]unit.Ohm{}
	for _, k := range l.Links() {
		r, _ := f.conductorOhm(k.ID, f.coldOhm, 0)
		switch {
		case k.Kind == bank.Series && k.Of == "bank":
			shared += r
		case k.Kind == bank.Series:
			sums[k.Of] += r
		case l.Bars() && l.Join == bank.JoinStrings:
			sums[bank.OwnerOf(k.To)] += r
		}
	}
	for i, s := range l.Strings() {
		if i == 0 || sums[s.ID] < branch {
			branch = sums[s.ID]
		}
	}
	return branch, shared
}
