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

// How the current really divides, clamped under load.
var measuredShare = &Check{
	ID: "measured-share", Stage: Prove,
	Title:   say.Phrase{Key: "measured-share.title", English: "Measured share"},
	Asks:    say.Phrase{Key: "measured-share.asks", English: "Does the current divide evenly enough under load?"},
	Formula: "I_branch ≤ I_discharge of its blocks [A]; max I/min I ≤ 1.25 [1], fail above 1.5; |ΣI − I_bank| ≤ 0.05·I_bank",
	Limits:  []LimitOf{{"current", finding.Maker}, {"ratio", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&shareAmps.Field, &shareTotal.Field, &clampZeroed.Field, &designCurrent.Field, &sheetDischarge.Field},
	Parts:   shareParts,
	Eval:    evalMeasuredShare,
}

var (
	saySideNone  = say.Phrase{Key: "measured-share.none", English: "Nothing stands side by side, so nothing divides."}
	saySideGood  = say.Phrase{Key: "measured-share.pass", English: "The most loaded branch carries {found} times what the least loaded one does; the limit is {limit}."}
	saySideBad   = say.Phrase{Key: "measured-share.fail", English: "{part} carries {found} times what {other} does; above {most} a joint is bad or the take-off is wrong."}
	saySideUnk   = say.Phrase{Key: "measured-share.cant-tell", English: "{part} carries {found} times what {other} does; the limit is {limit}."}
	saySideDead  = say.Phrase{Key: "measured-share.dead", English: "{other} carries nothing, and {part} carries {amps}: a joint, a fuse or a protection is open."}
	saySideOver  = say.Phrase{Key: "measured-share.over", English: "{part} carries {amps}; it may give {bears}."}
	saySideSum   = say.Phrase{Key: "measured-share.sum", English: "The branches together carry {sum} and the bank {total}: more than 5 % apart."}
	saySideClose = say.Phrase{Key: "measured-share.sum-close", English: "The branches together carry {sum} and the bank {total}: too close to 5 % apart to tell with this clamp."}
	saySideLight = say.Phrase{Key: "measured-share.light", English: "{total} is less than 40 % of the {design} that the bank must carry."}
	saySideZero  = say.Phrase{Key: "measured-share.not-zeroed", English: "The clamp was not zeroed."}
	saySideNext  = say.Phrase{Key: "measured-share.next", English: "Check the joints of the branch that carries least: {other}."}
	saySideAgain = say.Phrase{Key: "measured-share.again", English: "Zero the clamp and read all branches again in one minute, with at least 40 % of the largest steady current."}
)

const (
	// Our choice, all of them.
	evenRatio, unevenRatio unit.Ratio  = 1.25, 1.5
	sumBand                unit.Ampere = 0.05
	shareEnough            unit.Ampere = 0.4
)

// shareParts: the bank or each group with more than one branch.
func shareParts(f *Facts) ([]string, say.Line) {
	if f.Layout().Parallel < 2 {
		return nil, saySideNone.With()
	}
	return f.networkParts(), say.Line{}
}

// branchesOf lists what stands side by side in a part.
func (f *Facts) branchesOf(part string) []string {
	if f.Layout().Join == bank.JoinGroups {
		return f.BlocksOf(part)
	}
	return branches(f.Layout())
}

// branchAmps reads the current of every branch, with the most and the least
// loaded of them.
func (f *Facts) branchAmps(part string) (all map[string]measure.Reading[unit.Ampere], most, least string, gap *finding.Finding) {
	all = map[string]measure.Reading[unit.Ampere]{}
	for _, b := range f.branchesOf(part) {
		a, ok := shareAmps.Read(f, b)
		if !ok {
			x := missing(shareAmps.Field, b)
			return nil, "", "", &x
		}
		all[b] = size(a)
		if most == "" || all[b].Value > all[most].Value {
			most = b
		}
		if least == "" || all[b].Value < all[least].Value {
			least = b
		}
	}
	return all, most, least, nil
}

// sumOfBranches is what the branches carry together, and how far that lies from
// the current of the bank. The gain of one clamp counts for the difference alone.
func (f *Facts) sumOfBranches(part string) (sum unit.Ampere, apart measure.Reading[unit.Ampere]) {
	whole, _ := shareTotal.Of(f, "bank")
	shown := []measure.Shown[unit.Ampere]{whole}
	for _, b := range f.branchesOf(part) {
		a, _ := shareAmps.Of(f, b)
		shown = append(shown, a)
	}
	one := !slices.ContainsFunc(shown, func(a measure.Shown[unit.Ampere]) bool {
		return a.Meter != whole.Meter || a.Decimals != whole.Decimals || a.Typed.Unit != whole.Typed.Unit
	})
	for i, a := range shown {
		r := size(measure.Absolute(a, gainless(specOf(f, a), one)))
		apart.U += r.U
		if i > 0 {
			sum += r.Value
		}
	}
	off := sum - size(measure.Exact(whole.Value)).Value
	apart.Value = max(off, -off)
	if one {
		alone := measure.Meter{Percent: specOf(f, whole).Percent, OutOfDate: specOf(f, whole).OutOfDate}
		apart.U += measure.Absolute(measure.Shown[unit.Ampere]{Value: apart.Value}, alone).U
	}
	return sum, apart
}

func evalMeasuredShare(f *Facts, part string) []finding.Finding {
	all, most, least, gap := f.branchAmps(part)
	if gap != nil {
		return one(*gap)
	}
	total, has := shareTotal.Read(f, "bank")
	zeroed, known := clampZeroed.Of(f, "bank")
	if x := firstMissing(need{has, shareTotal.Field, "bank"}, need{known, clampZeroed.Field, "bank"}); x != nil {
		return one(*x)
	}
	total = size(total)
	design, gap := f.designAmps()
	if gap != nil {
		return one(*gap)
	}
	limit, even, notes := upper(f, "measured-share", "ratio", base[unit.Ratio]{evenRatio, finding.Practice, cite.OurRule.Line()})
	sum, apart := f.sumOfBranches(part)
	said := []any{"part", bank.Name(most), "other", bank.Name(least), "limit", exact(even, "ratio"), "most", exact(unevenRatio, "ratio"),
		"sum", rounded(sum, "A"), "total", rounded(total.Value, "A"), "design", exact(design, "A")}
	next := saySideNext.With(said...)
	bears := lowest(f, sheetDischarge, most)
	if bears.Any() && measure.AtMost(all[most].Interval(), bears.Value) == measure.Outside {
		b := bears.Base(f)
		over := finding.AtMost("current", b.Value, b.Kind, b.Source)
		v := finding.Measured(all[most], "A", over)
		return one(finding.Fails(saySideOver.With(append(said, "amps", v.Text, "bears", exact(b.Value, "A"))...), next).Value(v).Against(over).About(most))
	}
	// A branch that carries next to nothing has no ratio worth a figure.
	uneven := measure.AtLeast(all[most].Interval(), unit.Ampere(unevenRatio)*(all[least].Value+all[least].U)) == measure.Inside
	if total.Value+total.U < all[most].Value-all[most].U {
		uneven = false // then one of them was not clamped rightly
	}
	if all[least].Value <= 0 && uneven && zeroed == "yes" {
		v := finding.Measured(all[most], "A", finding.Limit{})
		return one(finding.Fails(saySideDead.With(append(said, "amps", v.Text)...), next).Value(v).Against(limit).About(most, least).Noting(notes...))
	}
	if all[least].Value <= 0 {
		return one(finding.CannotTell(saySideZero.With(), saySideAgain.With()).About(least))
	}
	r := ratioOf(all[most], all[least])
	found := finding.Measured(r, "ratio", limit)
	said = append(said, "found", found.Text)
	x, adds := finding.Passes(saySideGood.With(said...)), measure.AtMost(apart.Interval(), total.Value*sumBand)
	switch {
	case zeroed != "yes":
		x = finding.CannotTell(saySideZero.With(), saySideAgain.With())
	case adds == measure.Outside:
		x = finding.CannotTell(saySideSum.With(said...), saySideAgain.With())
	case uneven || measure.AtMost(r.Interval(), unevenRatio) == measure.Outside:
		x = finding.Fails(saySideBad.With(said...), next)
	case measure.AtLeast(total.Interval(), design*shareEnough) != measure.Inside:
		x = finding.CannotTell(saySideLight.With(said...), saySideAgain.With())
	case adds != measure.Inside:
		x = finding.CannotTell(saySideClose.With(said...), saySideAgain.With())
	case measure.AtMost(r.Interval(), even) != measure.Inside:
		x = finding.CannotTell(saySideUnk.With(said...), next)
	case !bears.All():
		return one(bears.Missing())
	case measure.AtMost(all[most].Interval(), bears.Value) != measure.Inside:
		v := finding.Measured(all[most], "A", finding.Limit{})
		x = finding.CannotTell(saySideOver.With(append(said, "amps", v.Text, "bears", exact(bears.Value, "A"))...), next)
	}
	return one(x.Value(found).Against(limit).About(most, least).Noting(notes...))
}
