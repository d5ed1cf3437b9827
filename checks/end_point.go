package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Where a capacity test ended says what its figure is worth, and whether the
// blocks were pulled too low.
var endPoint = &Check{
	ID: "end-point", Stage: Prove,
	Title:   say.Phrase{Key: "end-point.title", English: "End of the test"},
	Asks:    say.Phrase{Key: "end-point.asks", English: "Did the test end at the cut-off and not below it?"},
	Formula: "U_end + u ≥ Ns·V_cut, else Ns·10.0 V [V]",
	Limits:  []LimitOf{{"end", finding.Maker}, {"end", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice},
	Fields:  []*Field{&capEnd.Field, &capWhy.Field, &sheetCutoff.Field},
	Parts:   runParts,
	Eval:    evalEndPoint,
}

var (
	sayNoRun      = say.Phrase{Key: "end-point.no-run", English: "No capacity test was done at this visit."}
	sayEndReached = say.Phrase{Key: "end-point.pass", English: "It ended at {found}; the cut-off is {limit}."}
	sayEndOpened  = say.Phrase{Key: "end-point.protection", English: "A block's protection ended it: there was no more to take."}
	sayEndBelow   = say.Phrase{Key: "end-point.fail", English: "It ended at {found}, below the cut-off of {limit}."}
	sayEndAbove   = say.Phrase{Key: "end-point.early", English: "It ended at {found}, before the cut-off of {limit}: what it gave is a lower bound."}
	sayEndCharge  = say.Phrase{Key: "end-point.recharge", English: "Recharge now, at a low current."}
	sayEndNote    = say.Phrase{Key: "end-point.next", English: "Note why the test ended, and recharge within the hour."}
)

// runParts: every capacity test of this visit.
func runParts(f *Facts) ([]string, say.Line) {
	if ids := f.done(bank.KindCapacity, "capacity"); len(ids) > 0 {
		return ids, say.Line{}
	}
	return nil, sayNoRun.With()
}

func evalEndPoint(f *Facts, part string) []finding.Finding {
	why, known := capWhy.Of(f, part)
	end, has := capEnd.Read(f, part)
	if x := firstMissing(need{known, capWhy.Field, part}, need{has, capEnd.Field, part}); x != nil {
		return one(*x)
	}
	target := f.runTarget(part)
	cutoff := base[unit.Volt]{usualCutoff, finding.Practice, cite.CommonPractice.Line()}
	if own := highest(f, sheetCutoff, target); own.All() {
		cutoff = own.Base(f)
	}
	least := cutoff.Value * unit.Volt(f.seriesOf(target))
	limit := finding.AtLeast("end", least, cutoff.Kind, cutoff.Source)
	found := finding.Measured(end, "V", limit)
	said := []any{"found", found.Text, "limit", exact(least, "V")}
	var x finding.Finding
	switch {
	case why == "protection":
		x = finding.Passes(sayEndOpened.With())
	case measure.AtLeast(end.Interval(), least) == measure.Outside:
		x = finding.Fails(sayEndBelow.With(said...), sayEndCharge.With())
	case f.stoppedEarly(part, target):
		x = finding.CannotTell(sayEndAbove.With(said...), sayEndNote.With())
	default:
		x = finding.Passes(sayEndReached.With(said...))
	}
	return one(x.Value(found).Against(limit))
}

// seriesOf is how many blocks of a part stand in series.
func (f *Facts) seriesOf(part string) int {
	switch kind, _ := bank.PartKind(part); kind {
	case bank.KindBlock, bank.KindGroup:
		return 1
	}
	return f.Layout().Series
}
