package checks

import (
	"lugmark/core/bank"
	"lugmark/core/circuit"
	"lugmark/core/cite"
	"lugmark/core/conductor"
	"lugmark/core/figure"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Joining two sides in parallel lets the higher push into the lower. A voltage
// that does not match may still be harmless: this is the first current.
//
// For parallel links alone; in series no current tells anything.
var joinCurrent = &Check{
	ID: "join-current", Stage: Match,
	Title:   say.Phrase{Key: "join-current.title", English: "Current on joining"},
	Asks:    say.Phrase{Key: "join-current.asks", English: "Would the first current on joining be harmless?"},
	Formula: "I = (|D| + u)/ΣR_lo ≤ I_charge, I_discharge, I_fuse, I_table [A]; ≤ 0.1·C/h, both full 0.3·C/h; < I_trip",
	Limits:  []LimitOf{{"current", finding.Maker}, {"current", finding.Standard}, {"current", finding.Practice}, {"short-trip", finding.Maker}},
	Sources: []*cite.Source{&cite.CircuitTheory, &cite.NEC310_16, &cite.OurRule},
	Fields: []*Field{&restVoltage.Field, &totalVoltage.Field, &gapVoltage.Field, &stringGap.Field, &blockR.Field, &joinLeadR.Field, &joinFuse.Field,
		&sheetCapacity.Field, &sheetChargeMax.Field, &sheetDischarge.Field, &sheetTrip.Field},
	Parts: joinParts,
	Spare: spareJoin,
	Eval:  evalJoinCurrent,
}

var (
	sayJoinMild   = say.Phrase{Key: "join-current.pass", English: "On joining, {a} would carry {amps} at first; the limit is {limit}."}
	sayJoinHard   = say.Phrase{Key: "join-current.fail", English: "On joining, {a} would carry {amps} at first; the blocks, the fuse or the cable are made for {limit}."}
	sayJoinTrip   = say.Phrase{Key: "join-current.trip", English: "On joining, {a} could carry {amps} at first; its protection takes {limit} for a short circuit and opens."}
	sayJoinUnk    = say.Phrase{Key: "join-current.cant-tell", English: "On joining, {a} could carry {amps} at first; the limit is {limit}."}
	sayJoinJoined = say.Phrase{Key: "join-current.joined", English: "The voltages were read while {link} was already closed. Joined sides always read alike."}
	sayJoinOdd    = say.Phrase{Key: "join-current.odd", English: "The resistances entered for the blocks give no solution."}

	sayAssumedJoinCable = say.Phrase{Key: "assumed.join-cable", English: "The cable of {part} is not fully entered; what it bears was not counted."}

	sayJoinLead  = say.Phrase{Key: "join-current.lead", English: "Join first through a fused lead of at least {ohms}, or charge the lower block once it is warm enough."}
	sayJoinLower = say.Phrase{Key: "join-current.lower", English: "Charge the lower block first, once it is warm enough, then read the voltages again."}
	sayJoinOpen  = say.Phrase{Key: "join-current.open", English: "Open that link, wait one hour, and read the voltages again."}
	sayJoinOrder = say.Phrase{Key: "join-current.order", English: "Judged for each one alone against all the others, in whatever order they are joined."}
	sayJoinFull  = say.Phrase{Key: "join-current.both-full", English: "All were charged to full, so the limit is 0.3 of the capacity per hour instead of 0.1."}
)

// 0.1 C for an inexperienced hand; 0.3 C where all were charged to full, since
// then little charge moves. Our choice.
const mildRate, fullRate unit.Ratio = 0.1, 0.3

// joinLack is why a join cannot be judged: an entry is missing, or a link was
// on when the voltages were read.
type joinLack struct {
	lack *finding.Finding
	link string
}

func evalJoinCurrent(f *Facts, part string) []finding.Finding {
	names, volts, lack := f.joinDifferences(part)
	switch {
	case lack != nil && lack.lack != nil:
		return one(*lack.lack)
	case lack != nil:
		return one(finding.CannotTell(sayJoinJoined.With("link", bank.Name(lack.link)), sayJoinOpen.With()))
	}
	var sides []joinSide
	for _, p := range names {
		r, rated, ok := f.rushOhms(f.BlocksOf(p))
		if !ok {
			return one(rated.Missing())
		}
		sides = append(sides, joinSide{p, r})
	}
	hard, gap := f.joinMost(part)
	if gap != nil {
		return one(*gap)
	}
	mild, isFull, gap := f.joinMild(part)
	if gap != nil {
		return one(*gap)
	}
	limit, most, notes := upper(f, "join-current", "current", mild)
	if hard.Value < most {
		limit, most = finding.AtMost("current", hard.Value, hard.Kind, hard.Source), hard.Value
	}
	if isFull {
		notes = append(notes, sayJoinFull.With())
	}
	if len(sides) > 2 {
		notes = append(notes, sayJoinOrder.With())
	}
	lead, _ := joinLeadR.Plain(f, "bank")
	all, ok := meetings(sides, volts, lead)
	if !ok {
		return one(finding.CannotTell(sayJoinOdd.With(), enter(blockR.Field, f.BlocksOf(names[0])[0])))
	}
	return one(f.judgeJoin(part, sides, all, limit, most, hard).Noting(notes...))
}

// judgeJoin judges the side that would carry most.
func (f *Facts) judgeJoin(part string, sides []joinSide, all []meeting, limit finding.Limit, most unit.Ampere, hard base[unit.Ampere]) finding.Finding {
	worst := all[0]
	for _, m := range all {
		if m.current.High > worst.current.High {
			worst = m
		}
	}
	for _, m := range all { // one that surely breaks a maker's limit comes first
		if measure.AtMost(m.current, hard.Value) == measure.Outside && measure.AtMost(worst.current, hard.Value) != measure.Outside {
			worst = m
		}
	}
	found := finding.Predicted(worst.current, "A", limit)
	said := []any{"a", bank.Name(sides[worst.side].part), "amps", found.Text}
	mend := sayJoinLower.With()
	if add, ok := circuit.AddedResistance(worst.far, worst.loop, most); ok && add > 0 {
		_, up := figure.Range(float64(add), float64(add), "mOhm", 3)
		mend = sayJoinLead.With("ohms", up)
	}
	x := finding.Passes(sayJoinMild.With(append(said, "limit", exact(most, "A"))...))
	trip := lowest(f, sheetTrip, part)
	switch {
	case measure.AtMost(worst.current, hard.Value) == measure.Outside:
		limit = finding.AtMost("current", hard.Value, hard.Kind, hard.Source)
		x = finding.Fails(sayJoinHard.With(append(said, "limit", exact(hard.Value, "A"))...), mend)
	case trip.Any() && worst.current.High > trip.Value:
		limit = finding.AtMost("short-trip", trip.Value, finding.Maker, f.makerSource(trip.Sheet))
		x = finding.Fails(sayJoinTrip.With(append(said, "limit", exact(trip.Value, "A"))...), mend)
	case measure.AtMost(worst.current, most) != measure.Inside:
		x = finding.CannotTell(sayJoinUnk.With(append(said, "limit", exact(most, "A"))...), mend)
	}
	if x.Verdict() != finding.Pass {
		x = x.About(sides[worst.side].part)
	}
	return x.Value(found).Against(limit)
}

// joinMost is what blocks, joining fuse and cable are made for: the smallest of
// them. The finding says what the sheets leave out.
func (f *Facts) joinMost(part string) (base[unit.Ampere], *finding.Finding) {
	in, out := lowest(f, sheetChargeMax, part), lowest(f, sheetDischarge, part)
	for _, s := range []stated[unit.Ampere]{in, out} {
		if !s.All() {
			x := s.Missing()
			return base[unit.Ampere]{}, &x
		}
	}
	most := in.Base(f)
	if out.Value < most.Value {
		most = out.Base(f)
	}
	if fuse, ok := joinFuse.Plain(f, "bank"); ok && fuse < most.Value {
		most = base[unit.Ampere]{fuse, finding.Maker, cite.Maker("").Line()}
	}
	for _, l := range f.links {
		if l.Kind != bank.Parallel || part != "bank" && l.Of != part {
			continue
		}
		if _, has := partCable.Of(f, l.ID); !has {
			continue
		}
		size, _, gap := f.cable(l.ID)
		if gap != nil { // as good as no cable entered, or leaving it out would help
			f.assume(sayAssumedJoinCable.With("part", bank.Name(l.ID)))
			continue
		}
		if a, ok := conductor.TerminalAmpacity(size, conductor.UnmarkedTerminal); ok && a.Amps < most.Value {
			most = base[unit.Ampere]{a.Amps, finding.Standard, cite.NEC310_16.Line()}
		}
	}
	return most, nil
}

// joinMild is what is taken as harmless: a part of the smallest capacity.
func (f *Facts) joinMild(part string) (mild base[unit.Ampere], isFull bool, gap *finding.Finding) {
	rated := f.capacity(part)
	if !rated.All() {
		x := rated.Missing()
		return mild, false, &x
	}
	rate := mildRate
	if f.allFull(f.BlocksOf(part)) {
		rate = fullRate
	}
	return base[unit.Ampere]{unit.Ampere(float64(rated.Value) * float64(rate)), finding.Practice, cite.OurRule.Line()}, rate == fullRate, nil
}

// allFull reports whether every block passed as charged to full.
func (f *Facts) allFull(blocks []string) bool {
	full := map[string]bool{}
	for _, x := range f.byCheck[chargedFull.ID] {
		full[x.Part()] = x.Verdict() == finding.Pass
	}
	for _, b := range blocks {
		if !full[b] {
			return false
		}
	}
	return len(blocks) > 0
}
