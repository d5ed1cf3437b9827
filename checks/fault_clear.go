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

// A fuse opens fast only well above its rating. The lowest short circuit, of an
// ordinary bank through hot cable at its far end, must reach that.
var faultClear = &Check{
	ID: "fault-clear", Stage: Wire,
	Title:   say.Phrase{Key: "fault-clear.title", English: "Fuse at the far end"},
	Asks:    say.Phrase{Key: "fault-clear.asks", English: "Does every fuse open fast at the smallest short circuit that it may see?"},
	Formula: "I = Ns·12.8 V/((Ns·R_hi + R_branch)/n + R_shared + R_leads) ≥ 5·I_n [A]; fail below 2·I_n",
	Limits:  []LimitOf{{"short-circuit", finding.Maker}, {"short-circuit", finding.Practice}},
	Sources: []*cite.Source{&cite.CircuitTheory, &cite.OurRule},
	Fields: []*Field{&fuseRating.Field, &sheetCapacity.Field, &sheetShort.Field, &siteColdest.Field, &partCable.Field, &partLength.Field,
		&linkR.Field, &fuseClears.Field, &leadTemp.Field},
	Parts: onBank,
	Eval:  evalFaultClear,
}

var (
	sayClearGood  = say.Phrase{Key: "fault-clear.pass", English: "The smallest short circuit draws {found} through {part}, {times} times its rating; {limit} are asked for."}
	sayClearBad   = say.Phrase{Key: "fault-clear.fail", English: "The smallest short circuit draws {found} through {part}, {times} times its rating. Below 2 times it may never open, and the cable burns."}
	sayClearUnk   = say.Phrase{Key: "fault-clear.cant-tell", English: "The smallest short circuit draws {found} through {part}, {times} times its rating. From 5 times on it opens fast, below 2 it may never; between, its curve decides."}
	sayClearFrost = say.Phrase{Key: "fault-clear.frost", English: "With blocks below freezing the smallest short circuit draws {found} through {part}, {times} times its rating; {limit} are asked for. How cold it gets here is not entered."}
	sayClearCurve = say.Phrase{Key: "fault-clear.curve", English: "The smallest short circuit draws {found} through {part}; by its curve it opens there within 5 s."}
	sayClearSlow  = say.Phrase{Key: "fault-clear.slow", English: "The smallest short circuit draws {found} through {part}; by its curve it does not open there within 5 s."}
	sayClearNext  = say.Phrase{Key: "fault-clear.next", English: "Compare with the fuse's curve or shorten the cable."}
	sayCurveOf    = say.Phrase{Key: "fault-clear.curve-source", English: "the curve of the fuse"}

	sayAssumedHigh  = say.Phrase{Key: "assumed.fault-highest", English: "{ohms} for each block assumed, 1200 mΩ·Ah over its capacity."}
	sayAssumedCold  = say.Phrase{Key: "assumed.fault-cold", English: "Three times as much assumed below freezing."}
	sayAssumedFrost = say.Phrase{Key: "assumed.fault-frost", English: "Three times as much assumed, as below freezing; the coldest air is not entered."}
)

const (
	// From 5 times its rating a fuse opens fast, below twice it may never: our
	// choice, because curves differ.
	clearsAt, neverBelow unit.Ratio = 5, 2
	// At −20 °C the resistance rises by 150 to 200 %: read in a trade page.
	// Below freezing it is taken whole.
	coldTimes  unit.Ohm     = 3
	frostBelow unit.Celsius = 0
)

func evalFaultClear(f *Facts, _ string) []finding.Finding {
	parts, _ := fuseParts(f)
	var weakest finding.Finding
	low := unit.Ratio(-1)
	x, _ := worstOf(parts, func(fuse string) finding.Finding {
		x, times := f.clearing(fuse)
		if x.Verdict() == finding.Pass && (low < 0 || times < low) {
			weakest, low = x, times
		}
		return x
	})
	if x.Verdict() == finding.Pass {
		x = weakest
	}
	return one(x)
}

// clearing judges one fuse; times is the smallest fault over its rating.
func (f *Facts) clearing(fuse string) (finding.Finding, unit.Ratio) {
	rating, ok := fuseRating.Plain(f, fuse)
	if !ok {
		return missing(fuseRating.Field, fuse), 0
	}
	amps, gap := f.smallestFault(fuse, false)
	if gap != nil {
		return *gap, 0
	}
	limit := finding.AtLeast("short-circuit", rating*unit.Ampere(clearsAt), finding.Practice, cite.OurRule.Line())
	found := finding.Measured(measure.Exact(amps), "A", limit)
	times := unit.Ratio(amps / rating)
	said := []any{"part", bank.Name(fuse), "found", found.Text, "times", rounded(times, "ratio"), "limit", exact(clearsAt, "ratio")}
	x := finding.CannotTell(sayClearUnk.With(said...), sayClearNext.With())
	_, dated := siteColdest.Plain(f, "site")
	sheet := lowest(f, sheetShort, "bank")
	best := times // if it never freezes here
	if !dated && !sheet.All() {
		x = finding.CannotTell(sayClearFrost.With(said...), enter(siteColdest.Field, "site"))
		mild, _ := f.smallestFault(fuse, true)
		best = unit.Ratio(mild / rating)
	}
	curve, read := fuseClears.Of(f, fuse)
	switch {
	case read && curve == "yes":
		x = finding.Passes(sayClearCurve.With(said...))
		limit.Kind, limit.Source = finding.Maker, sayCurveOf.With()
	case read:
		x = finding.Fails(sayClearSlow.With(said...), sayClearNext.With())
	case measure.AtLeast(measure.Exact(times).Interval(), clearsAt) == measure.Inside:
		x = finding.Passes(sayClearGood.With(said...))
	case measure.AtLeast(measure.Exact(best).Interval(), neverBelow) == measure.Outside:
		x = finding.Fails(sayClearBad.With(said...), sayClearNext.With())
	}
	return x.Value(found).Against(limit), times
}

// smallestFault is the least current of a short circuit at the far end of what
// a fuse protects [A]. Where nobody entered how cold it gets the blocks are
// frozen, unless mild.
func (f *Facts) smallestFault(fuse string, mild bool) (unit.Ampere, *finding.Finding) {
	l := f.Layout()
	block, gap := f.mostOhm(mild)
	if gap != nil {
		return 0, gap
	}
	fault := circuit.Fault{Series: l.Series, Feeds: circuit.FeedsMain(l.Parallel), Volts: nominal, Block: block}
	if branchOf(fuse) != "" {
		fault.Feeds = circuit.FeedsBranch(l.Parallel)
	}
	sums := map[string]unit.Ohm{}
	for _, k := range f.links {
		r := f.linkOhm(k.ID)
		switch {
		case k.Kind == bank.Series && k.Of == "bank":
			fault.Shared += r
		case k.Kind == bank.Series:
			sums[k.Of] += r
		}
	}
	for _, r := range sums {
		fault.Branch = max(fault.Branch, r)
	}
	if branchOf(fuse) == "" { // a string's own links are its far end already
		for _, lead := range []string{"lead.p", "lead.n"} {
			r, ok := f.hotLeadOhm(lead)
			if !ok {
				x := f.leadGap(lead)
				return 0, &x
			}
			fault.Shared += r
		}
	}
	amps, ok := fault.Current()
	if !ok {
		x := f.capacity("bank").Missing()
		return 0, &x
	}
	return amps, nil
}

// mostOhm is the highest resistance that a good block has.
func (f *Facts) mostOhm(mild bool) (unit.Ohm, *finding.Finding) {
	if s := lowest(f, sheetShort, "bank"); s.All() {
		return unit.Ohm(nominal) / unit.Ohm(s.Value), nil
	}
	rated := f.capacity("bank")
	r, ok := cell.FaultResistance(rated.Value)
	if !rated.All() || !ok {
		x := rated.Missing()
		return 0, &x
	}
	f.assume(sayAssumedHigh.With("ohms", exact(r.High, "mOhm")))
	cold, known := siteColdest.Plain(f, "site")
	switch {
	case !known && mild:
	case !known:
		f.assume(sayAssumedFrost.With())
		return r.High * coldTimes, nil
	case cold < frostBelow:
		f.assume(sayAssumedCold.With())
		return r.High * coldTimes, nil
	}
	return r.High, nil
}
