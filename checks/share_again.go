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

// A branch that carries another part of the current than it did has a joint, a
// fuse or a block that changed.
//
//	s = I_branch/ΣI;  0.8 ≤ s/s0 ≤ 1.2, and max/min ≤ 1.25 as on the first day
//
// One clamp reads all branches, so its gain is in no share.
var shareAgain = &Check{
	ID: "share-again", Stage: Return, Visits: AtReturn,
	Title:   say.Phrase{Key: "share-again.title", English: "Share since the last visit"},
	Asks:    say.Phrase{Key: "share-again.asks", English: "Does every branch still carry the part of the current that it did?"},
	Formula: "s = I_branch/ΣI; 0.8 ≤ s/s0 ≤ 1.2; max I/min I ≤ 1.25 [1], fail above 1.5",
	Limits:  []LimitOf{{"change", finding.Practice}, {"current", finding.Maker}, {"ratio", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.OurRule},
	Fields:  []*Field{&shareAmps.Field, &shareTotal.Field, &clampZeroed.Field, &designCurrent.Field, &sheetDischarge.Field},
	Parts:   shareParts,
	Eval:    evalShareAgain,
}

var (
	sayShiftGood  = say.Phrase{Key: "share-again.pass", English: "{part} moved most: it carries {found} times the part of the current that it did at {visit}; the limit is {limit}."}
	sayShiftBad   = say.Phrase{Key: "share-again.fail", English: "{part} carries {found} times the part of the current that it did at {visit}; the limit is {limit}."}
	sayShiftNone  = say.Phrase{Key: "share-again.none", English: "The branches share evenly enough today."}
	sayShiftNext  = say.Phrase{Key: "share-again.next", English: "Check joints, fuse and block of {part} against the others before the bank is used."}
	sayShiftFiner = say.Phrase{Key: "share-again.finer", English: "Read all branches again with more load and one zeroed clamp."}
	sayShiftKeep  = say.Phrase{Key: "share-again.keep", English: "Keep these currents: the next visit compares with them."}
)

// A fifth more or less of its own part: common practice.
const shareLess, shareMore unit.Ratio = 0.8, 1.2

// parts gives the part of the current that each branch carries, as far as the
// clamp can tell; false while they are not all read, or read without zeroing.
func (f *Facts) parts(part string) (of map[string]measure.Reading[unit.Ratio], at measure.Shown[unit.Ampere], ok bool) {
	ids := f.branchesOf(part)
	var shown []measure.Shown[unit.Ampere]
	for _, b := range ids {
		a, has := shareAmps.Of(f, b)
		if !has {
			return nil, at, false
		}
		shown = append(shown, a)
	}
	if !clampZeroed.Yes(f, "bank") || len(shown) < 2 {
		return nil, at, false
	}
	one := shown[0].Meter != "" && !slices.ContainsFunc(shown, func(a measure.Shown[unit.Ampere]) bool {
		return a.Meter != shown[0].Meter || a.Decimals != shown[0].Decimals || a.Typed.Unit != shown[0].Typed.Unit
	})
	var all []measure.Interval[unit.Ampere]
	var sum, low, high unit.Ampere
	for _, a := range shown {
		r := size(measure.Absolute(a, gainless(specOf(f, a), one)))
		iv := measure.Interval[unit.Ampere]{Low: max(0, r.Value-r.U), High: r.Value + r.U}
		all = append(all, iv)
		sum, low, high = sum+r.Value, low+iv.Low, high+iv.High
	}
	of = map[string]measure.Reading[unit.Ratio]{}
	for i, b := range ids {
		s := unit.Ratio(size(measure.Exact(shown[i].Value)).Value / sum)
		least := unit.Ratio(all[i].Low / (all[i].Low + high - all[i].High))
		most := unit.Ratio(all[i].High / (all[i].High + low - all[i].Low))
		of[b] = measure.Reading[unit.Ratio]{Value: s, U: max(s-least, most-s)}
	}
	return of, shown[0], true
}

func evalShareAgain(f *Facts, part string) []finding.Finding {
	today := evalMeasuredShare(f, part)
	if today[0].Verdict() != finding.Pass {
		return today
	}
	limit := finding.Window("change", shareLess, shareMore, finding.Practice, cite.CommonPractice.Line())
	now, _, ok := f.parts(part)
	type old struct {
		of map[string]measure.Reading[unit.Ratio]
		at measure.Shown[unit.Ampere]
	}
	all := baselines(f, func(then *Facts) (old, bool) {
		of, at, has := then.parts(part)
		return old{of, at}, has && sameDrawing(f.Layout(), then.Layout())
	})
	if !ok || len(all) == 0 {
		return one(finding.CannotTell(sayNoneYet.With("found", sayShiftNone.With()), sayShiftKeep.With()).Against(limit))
	}
	was := all[0]
	f.adopt(was.At)
	var worst measure.Reading[unit.Ratio]
	var moved string
	side := measure.Inside
	for _, b := range f.branchesOf(part) {
		r, fine := measure.Ratio(now[b], was.Value.of[b])
		if !fine {
			return one(finding.CannotTell(sayNoneYet.With("found", sayShiftNone.With()), sayShiftKeep.With()).Against(limit).About(b))
		}
		this := measure.Within(r.Interval(), shareLess, shareMore)
		if moved == "" || worseSide(this, side) || this == side && reach(r) > reach(worst) {
			worst, moved, side = r, b, this
		}
	}
	found := finding.Measured(worst, "ratio", limit)
	said := []any{"part", bank.Name(moved), "found", found.Text, "limit", limit.Line(), "visit", visitLine(was.Visit, was.Value.at.At)}
	x := finding.Judge(side, finding.Words{
		Pass: sayShiftGood.With(said...), Fail: sayShiftBad.With(said...), CantTell: sayShiftBad.With(said...),
		Mend: sayShiftNext.With(said...), Settle: sayShiftFiner.With(),
	})
	if side != measure.Inside {
		x = x.About(moved)
	}
	return one(x.Value(found).Against(limit))
}

// reach is how far from what it was a share may be.
func reach(r measure.Reading[unit.Ratio]) unit.Ratio { return max(r.Value-1, 1-r.Value) + r.U }

// worseSide orders the sides of a limit: outside, across, inside.
func worseSide(a, b measure.Side) bool {
	rank := map[measure.Side]int{measure.Outside: 0, measure.Across: 1, measure.Inside: 2}
	return rank[a] < rank[b]
}

// sameDrawing reports whether the current finds the same way in two drawings.
func sameDrawing(a, b bank.Layout) bool {
	return a.Series == b.Series && a.Parallel == b.Parallel && a.Join == b.Join && a.Takeoff == b.Takeoff && slices.Equal(a.Place, b.Place)
}
