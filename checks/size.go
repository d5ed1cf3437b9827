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

// A block of another size than its sheet's is another block. One of each kind
// is measured; whoever measures more has them all judged.
var sizeCheck = &Check{
	ID: "size", Stage: Receive,
	Title:   say.Phrase{Key: "size.title", English: "Size"},
	Asks:    say.Phrase{Key: "size.asks", English: "Is one block of each kind as large as its sheet says?"},
	Formula: "|L − L_sheet|, |W − W_sheet|, |H − H_sheet| ≤ 5 mm [m]",
	Limits:  []LimitOf{{"size", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&blockLength.Field, &blockWidth.Field, &blockHeight.Field, &sheetLength.Field, &sheetWidth.Field, &sheetHeight.Field, &useMetres.Field},
	Parts:   onBank,
	Eval:    evalSize,
}

var (
	saySizeGood  = say.Phrase{Key: "size.pass", English: "What was measured is as the sheet says, within {limit}."}
	saySizeFail  = say.Phrase{Key: "size.fail", English: "{side} of {part} is {found}; its sheet says {sheet}, and {limit} either way is allowed."}
	saySizeUnk   = say.Phrase{Key: "size.cant-tell", English: "{side} of {part} is {found}; its sheet says {sheet}, and {limit} either way is too close for a rule."}
	saySizeSheet = say.Phrase{Key: "size.no-sheet", English: "{part} was measured, but its sheet gives no size to compare with."}
	saySizeNext  = say.Phrase{Key: "size.next", English: "Compare with the label; check that the right block came."}
)

// Sheets differ on what the height includes, and a rule is off by 2 mm: ±5 mm
// is our choice.
const sizeNear unit.Metre = 0.005

var sizes = []struct{ block, sheet Quantity[unit.Metre] }{
	{blockLength, sheetLength}, {blockWidth, sheetWidth}, {blockHeight, sheetHeight},
}

func evalSize(f *Facts, _ string) []finding.Finding {
	limit := finding.AtMost("size", sizeNear, finding.Practice, cite.OurRule.Line()).In("mm")
	blocks := f.toMeasure()
	x, _ := worstOf(blocks, f.sizeOf)
	if x.Verdict() == finding.Pass {
		x = finding.Passes(saySizeGood.With("limit", exact(sizeNear, "mm")))
	}
	return one(x.Against(limit))
}

// toMeasure lists every block of which a side was measured, and the first of
// each sheet of which none was.
func (f *Facts) toMeasure() []string {
	var out []string
	first := map[string]string{}
	var order []string
	f.quietly(func() {
		for _, b := range f.Layout().Blocks() {
			sheet, _ := f.sheetOf(b)
			if first[sheet] == "" {
				first[sheet] = b
				order = append(order, sheet)
			}
			if slices.ContainsFunc(sizes, func(s struct{ block, sheet Quantity[unit.Metre] }) bool { return f.holds(s.block.Field, b) }) {
				out = append(out, b)
				first[sheet] = "-"
			}
		}
	})
	for _, sheet := range order {
		if b := first[sheet]; b != "-" {
			out = append(out, b)
		}
	}
	return out
}

func (f *Facts) sizeOf(block string) finding.Finding {
	worst := finding.Passes(saySizeGood.With("limit", exact(sizeNear, "mm")))
	keep := func(x finding.Finding) {
		if x.Verdict().Worse(worst.Verdict()) {
			worst = x
		}
	}
	for _, s := range sizes {
		v, ok := s.block.Of(f, block)
		if !ok {
			keep(missing(s.block.Field, block))
			continue
		}
		sheet := lowest(f, s.sheet, block)
		if !sheet.All() {
			keep(finding.CannotTell(saySizeSheet.With("part", bank.Name(block)), sheet.Enter()))
			continue
		}
		off := v.Value - sheet.Value
		r := f.byRule(v)
		away := measure.Reading[unit.Metre]{Value: max(off, -off), U: r.U}
		found := finding.Measured(r, "mm", finding.Limit{})
		said := []any{"side", s.block.Label, "part", bank.Name(block), "found", found.Text, "sheet", exact(sheet.Value, "mm"), "limit", exact(sizeNear, "mm")}
		keep(finding.Judge(measure.AtMost(away.Interval(), sizeNear), finding.Words{
			Pass: saySizeGood.With("limit", exact(sizeNear, "mm")), Fail: saySizeFail.With(said...), CantTell: saySizeUnk.With(said...), Mend: saySizeNext.With(),
		}).Value(finding.Measured(away, "mm", finding.AtMost("size", sizeNear, finding.Practice, cite.OurRule.Line()))))
	}
	return worst
}
