package checks

import (
	"math"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/conductor"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Blocks or strings side by side do not share a current alike: the links are
// resistances too, and the branch next to the take-off carries most.
//
// It is the first minutes. What one branch carries must be within what its
// blocks bear and what its fuse bears.
var share = &Check{
	ID: "share", Stage: Wire,
	Title:   say.Phrase{Key: "share.title", English: "Current share"},
	Asks:    say.Phrase{Key: "share.asks", English: "Does any block carry more than it bears, with all loads on?"},
	Formula: "G·v = i, each branch at R_lo, the others at R_hi [A]; I_hi ≤ I_discharge, ≤ I_fuse/1.25",
	Limits:  []LimitOf{{"current", finding.Maker}, {"current", finding.Standard}},
	Sources: []*cite.Source{&cite.CircuitTheory, &cite.NEC210_20A, &cite.OurRule},
	Fields:  []*Field{&designCurrent.Field, &sheetDischarge.Field, &blockR.Field, &linkR.Field, &partCable.Field, &partLength.Field, &fuseRating.Field},
	Parts:   func(f *Facts) ([]string, say.Line) { return f.networkParts(), say.Line{} },
	Eval:    evalShare,
}

var (
	sayShareGood   = say.Phrase{Key: "share.pass", English: "With {amps} on, {worst} carries most: {found}. It may carry {limit}."}
	sayShareBad    = say.Phrase{Key: "share.fail", English: "With {amps} on, {worst} carries {found}. It may carry {limit}."}
	sayShareUnk    = say.Phrase{Key: "share.cant-tell", English: "With {amps} on, {worst} may carry {found}, depending on resistances that were not measured. It may carry {limit}."}
	sayShareNear   = say.Phrase{Key: "share.near", English: "With {amps} on, {worst} may carry {found}, as its resistance is known to a tenth. It may carry {limit}."}
	sayShareLimit  = say.Phrase{Key: "share.no-limit", English: "With {amps} on, {worst} carries most: {found}. What it may carry is not entered."}
	sayShareMove   = say.Phrase{Key: "share.move", English: "Let the current leave at the plus of {plus} and at the minus of {minus}: the most that one carries is then {most}."}
	sayShareBars   = say.Phrase{Key: "share.bars", English: "Fit equal leads from each to two bus bars: the most that one carries is then {most}."}
	sayShareLower  = say.Phrase{Key: "share.lower", English: "Lower the largest steady current to {most}, or add a string."}
	sayShareR      = say.Phrase{Key: "share.measure", English: "Measure the resistance of every block by a 10 s step; that narrows it."}
	sayShareUneven = say.Phrase{Key: "share.uneven", English: "Alike blocks would carry {ratio} to 1; more than {advice} to 1 wears them unevenly. {better}"}
	sayShareFirst  = say.Phrase{Key: "share.first-minutes", English: "This is the first minutes. Later the branches near the take-off are emptier and the far ones carry more."}
	sayShareFuse   = say.Phrase{Key: "share.fuse", English: "The fuse of the branch sets the limit: its rating over 1.25."}
)

// Above 1.25 to 1 a bank wears unevenly: advice, our choice.
const evenAdvice unit.Ratio = 1.25

// bears is what each branch may carry: its blocks' steady current, or its
// fuse's rating over 1.25 where that is less.
type bears struct {
	base[unit.Ampere]
	fuse bool
}

func (f *Facts) branchBears(branch string) (bears, say.Line, bool) {
	steady := lowest(f, sheetDischarge, branch)
	if !steady.All() {
		return bears{}, steady.Enter(), false
	}
	b := bears{base: steady.Base(f)}
	if kind, _ := bank.PartKind(branch); kind != bank.KindString || f.Layout().Parallel < 2 {
		return b, say.Line{}, true
	}
	rating, ok := fuseRating.Plain(f, "fuse."+branch[1:])
	if limit := rating / unit.Ampere(conductor.Continuous); ok && limit < b.Value {
		b = bears{base[unit.Ampere]{limit, finding.Standard, cite.NEC210_20A.Line()}, true}
	}
	return b, say.Line{}, true
}

func evalShare(f *Facts, part string) []finding.Finding {
	design, gap := f.designAmps()
	if gap != nil {
		return one(*gap)
	}
	net, gap := f.network(part)
	if gap != nil {
		return one(*gap)
	}
	spans, err := net.currents(design)
	if err != nil {
		return one(finding.CannotTell(sayNetworkOdd.With(), enter(linkR.Field, f.enteredLink())))
	}
	var all []bears
	for k, branch := range net.branches {
		b, ask, ok := f.branchBears(branch)
		if !ok {
			worst := largest(spans)
			found := finding.Predicted(spans[worst], "A", finding.Limit{})
			return one(finding.CannotTell(sayShareLimit.With("amps", rounded(design, "A"), "worst", bank.Name(net.branches[worst]), "found", found.Text), ask).
				Value(found).About(net.branches[k]))
		}
		all = append(all, b)
	}
	worst := worstBranch(spans, all)
	limit, most, notes := upper(f, "share", "current", all[worst].base)
	found := finding.Predicted(spans[worst], "A", limit)
	said := []any{"amps", rounded(design, "A"), "worst", bank.Name(net.branches[worst]), "found", found.Text, "limit", exact(most, "A")}
	side, ratio := measure.AtMost(spans[worst], most), net.uneven(design)
	var better, settle say.Line
	if side != measure.Inside || ratio > evenAdvice {
		reaches := unit.Ampere(0)
		better, reaches = net.betterTakeoff(design, most)
		settle = better
		if reaches > most && len(net.bands) > 1 {
			settle = sayShareR.With()
		}
	}
	unknown := sayShareUnk
	if len(net.bands) == 1 { // every block was measured
		unknown = sayShareNear
	}
	x := finding.Judge(side, finding.Words{
		Pass: sayShareGood.With(said...), Fail: sayShareBad.With(said...), CantTell: unknown.With(said...),
		Mend: better, Settle: settle,
	})
	if x.Verdict() != finding.Pass {
		x = x.About(append([]string{net.branches[worst]}, net.blocks[worst]...)...)
	}
	if all[worst].fuse {
		notes = append(notes, sayShareFuse.With())
	}
	if len(net.branches) > 1 {
		notes = append(notes, sayShareFirst.With())
	}
	if ratio > evenAdvice && x.Verdict() == finding.Pass {
		notes = append(notes, sayShareUneven.With("ratio", rounded(ratio, "ratio"), "advice", exact(evenAdvice, "ratio"), "better", better))
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}

// largest gives the branch whose current reaches highest.
func largest(spans []measure.Interval[unit.Ampere]) int {
	worst := 0
	for k, s := range spans {
		if s.High > spans[worst].High {
			worst = k
		}
	}
	return worst
}

// worstBranch gives the branch to speak of: one that is surely over its limit,
// else the one that comes nearest to it.
func worstBranch(spans []measure.Interval[unit.Ampere], all []bears) int {
	worst, over, reach := 0, 0.0, 0.0
	for k, s := range spans {
		low, high := float64(s.Low/all[k].Value), float64(s.High/all[k].Value)
		if low > 1 && low > over || over == 0 && high > reach {
			worst, reach = k, high
			if low > 1 {
				over = low
			}
		}
	}
	return worst
}

// betterTakeoff is the next action that lowers the largest current most, and
// what remains of it: two other places for the take-off, else equal leads, else
// fewer amperes.
func (n network) betterTakeoff(design, limit unit.Ampere) (next say.Line, reaches unit.Ampere) {
	now := n.highest(design)
	plus, minus, best := n.ladder.Plus, n.ladder.Minus, now
	if len(n.ladder.Rungs) > 0 {
		plus, minus = n.bestTakeoff(design)
		moved := n
		moved.ladder = n.ladder.TakeOff(plus, minus)
		best = moved.highest(design)
	}
	bars := n.onBars().highest(design)
	const worthwhile = 0.99 // less than one percent is not worth a cable
	switch {
	case best < now*worthwhile && (best <= limit || best <= bars):
		return sayShareMove.With("plus", bank.Name(n.branches[plus]), "minus", bank.Name(n.branches[minus]), "most", roundedUp(best, "A")), best
	case bars < now*worthwhile && len(n.ladder.Rungs) > 0:
		return sayShareBars.With("most", roundedUp(bars, "A")), bars
	}
	return sayShareLower.With("most", exact(unit.Ampere(math.Floor(float64(design*limit/now))), "A")), now
}

// highest is the most that any branch may carry [A].
func (n network) highest(load unit.Ampere) unit.Ampere {
	spans, err := n.currents(load)
	if err != nil {
		return 0
	}
	return spans[largest(spans)].High
}

// bestTakeoff finds two places, as far from one end as from the other, that give
// the smallest largest current with all resistances as they most likely are.
func (n network) bestTakeoff(load unit.Ampere) (plus, minus int) {
	best := math.Inf(1)
	for p, m := 0, len(n.branches)-1; p <= m; p, m = p+1, m-1 {
		worst := 0.0
		for _, b := range n.bands {
			flow, err := n.likely(b).TakeOff(p, m).Divide(load)
			if err != nil {
				return n.ladder.Plus, n.ladder.Minus
			}
			for _, a := range flow.Branch {
				worst = math.Max(worst, float64(a))
			}
		}
		if worst < best*(1-1e-9) {
			best, plus, minus = worst, p, m
		}
	}
	return plus, minus
}

// onBars is the same branches on two bus bars, each with its own pair of leads
// as long as a usual link.
func (n network) onBars() network {
	if len(n.ladder.Rungs) == 0 {
		return n
	}
	n.ladder.Rungs = nil
	n.ladder.Plus, n.ladder.Minus = 0, 0
	leads := func(list []unit.Ohm) []unit.Ohm {
		out := make([]unit.Ohm, len(list))
		for k, r := range list {
			out[k] = r + 2*usualLink
		}
		return out
	}
	bands := make([]band, len(n.bands))
	for i, b := range n.bands {
		bands[i] = band{leads(b.likely), leads(b.low), leads(b.high)}
	}
	n.bands = bands
	return n
}
