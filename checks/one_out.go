package checks

import (
	"slices"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A protection that opens takes its block or string out, and the others carry
// its part at once: then they must bear it until loads are shed, else without
// end, or the whole bank drops.
var oneOut = &Check{
	ID: "one-out", Stage: Wire,
	Title:   say.Phrase{Key: "one-out.title", English: "One of them lost"},
	Asks:    say.Phrase{Key: "one-out.asks", English: "When one string or block drops out, do the others bear the load?"},
	Formula: "G·v = i, each branch open in turn; I_hi ≤ I_peak for t_shed, else ≤ I_discharge [A]",
	Limits:  []LimitOf{{"current", finding.Maker}},
	Sources: []*cite.Source{&cite.CircuitTheory, &cite.OurRule},
	Fields:  []*Field{&designCurrent.Field, &sheetDischarge.Field, &sheetPeak.Field, &sheetPeakTime.Field, &shedTime.Field, &blockR.Field, &linkR.Field},
	Parts:   onNetworks,
	Eval:    evalOneOut,
}

var (
	sayOutNone  = say.Phrase{Key: "one-out.none", English: "Nothing stands in parallel, so the loss of one is the loss of all."}
	sayOutGood  = say.Phrase{Key: "one-out.pass", English: "With {amps} on and {lost} lost, {worst} carries most: {found}. It bears {limit}."}
	sayOutBad   = say.Phrase{Key: "one-out.fail", English: "With {amps} on and {lost} lost, {worst} carries {found}. It bears {limit}, so it drops out next and then all do."}
	sayOutUnk   = say.Phrase{Key: "one-out.cant-tell", English: "With {amps} on and {lost} lost, {worst} may carry {found}, depending on resistances that were not measured. It bears {limit}."}
	sayOutSheet = say.Phrase{Key: "one-out.no-sheet", English: "With {amps} on and {lost} lost, {worst} carries most: {found}. What it bears is not entered."}
	sayOutNext  = say.Phrase{Key: "one-out.next", English: "Lower the load limit so one lost block does not drop all."}
	sayOutPeak  = say.Phrase{Key: "one-out.peak", English: "The peak current of the sheet is the limit: it lasts longer than it takes to shed loads."}
)

// onNetworks: the bank or each group, unless nothing stands in parallel.
func onNetworks(f *Facts) ([]string, say.Line) {
	if f.Layout().Parallel == 1 {
		return nil, sayOutNone.With()
	}
	return f.networkParts(), say.Line{}
}

func evalOneOut(f *Facts, part string) []finding.Finding {
	design, gap := f.designAmps()
	if gap != nil {
		return one(*gap)
	}
	net, gap := f.network(part)
	if gap != nil {
		return one(*gap)
	}
	lost, worst, span, err := net.oneOut(design)
	if err != nil {
		return one(finding.CannotTell(sayNetworkOdd.With(), enter(linkR.Field, "bank")))
	}
	said := []any{"amps", rounded(design, "A"), "lost", bank.Name(net.branches[lost]), "worst", bank.Name(net.branches[worst])}
	bears := lowest(f, sheetDischarge, part)
	if !bears.All() {
		found := finding.Predicted(span, "A", finding.Limit{})
		return one(finding.CannotTell(sayOutSheet.With(append(said, "found", found.Text)...), bears.Enter()).Value(found))
	}
	b, notes := bears.Base(f), []say.Line(nil)
	peak, lasts := lowest(f, sheetPeak, part), lowest(f, sheetPeakTime, part)
	if shed, ok := shedTime.Plain(f, "bank"); ok && peak.All() && lasts.All() && lasts.Value >= shed && peak.Value > b.Value {
		b, notes = peak.Base(f), []say.Line{sayOutPeak.With()}
	}
	limit := finding.AtMost("current", b.Value, b.Kind, b.Source)
	found := finding.Predicted(span, "A", limit)
	said = append(said, "found", found.Text, "limit", exact(b.Value, "A"))
	x := finding.Judge(measure.AtMost(span, b.Value), finding.Words{
		Pass: sayOutGood.With(said...), Fail: sayOutBad.With(said...), CantTell: sayOutUnk.With(said...), Mend: sayOutNext.With(),
	})
	if x.Verdict() != finding.Pass {
		x = x.About(append([]string{net.branches[worst]}, net.blocks[worst]...)...)
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}

// oneOut finds the branch whose loss loads another one most, that other one and
// what it carries. The loss is looked for with all resistances as they most
// likely are; what it does is worked out over their corners.
func (n network) oneOut(load unit.Ampere) (lost, worst int, span measure.Interval[unit.Ampere], err error) {
	most := unit.Ampere(-1)
	for _, b := range n.bands {
		for k := range n.branches {
			flow, err := n.likely(b).Without(k).Divide(load)
			if err != nil {
				return 0, 0, span, err
			}
			if top := slices.Max(flow.Branch); top > most {
				most, lost = top, k
			}
		}
	}
	n.ladder = n.ladder.Without(lost)
	spans, err := n.currents(load)
	if err != nil {
		return 0, 0, span, err
	}
	worst = largest(spans)
	return lost, worst, spans[worst], nil
}
