package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// Blocks side by side push into each other and feed each other's faults; how
// many may do so is the maker's to say.
var planParallel = &Check{
	ID: "plan-parallel", Stage: Before,
	Title:   say.Phrase{Key: "plan-parallel.title", English: "In parallel"},
	Asks:    say.Phrase{Key: "plan-parallel.asks", English: "Does the maker allow this many strings or blocks in parallel?"},
	Formula: "Np ≤ Np_sheet [1]; no sheet: can't tell above 1, fail above 4",
	Limits:  []LimitOf{{"count", finding.Maker}, {"count", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice},
	Fields:  []*Field{&layoutField, &blockSheet.Field, &sheetParallel.Field},
	Parts:   parallelPart,
	Eval: func(f *Facts, _ string) []finding.Finding {
		return one(evalPlan(f, plan{f.Layout().Parallel, sheetParallel, cite.CommonPractice, planWords{
			sayParallelFits, sayParallelOver, sayParallelMany, sayParallelUnk, sayParallelFewer,
		}}))
	},
}

var (
	sayParallelFits  = say.Phrase{Key: "plan-parallel.pass", English: "The plan has {n} in parallel; the maker allows {limit}."}
	sayParallelOver  = say.Phrase{Key: "plan-parallel.fail", English: "The plan has {n} in parallel; the maker allows {limit}. Each one more feeds the fault of every other and takes a less equal share."}
	sayParallelMany  = say.Phrase{Key: "plan-parallel.fail-unstated", English: "The plan has {n} in parallel and no sheet gives the maker's limit for {part}; without one more than {limit} is never usual. Each one more feeds the fault of every other."}
	sayParallelUnk   = say.Phrase{Key: "plan-parallel.cant-tell", English: "The plan has {n} in parallel and no sheet gives the maker's limit for {part}. Each one more feeds the fault of every other, so no usual figure is taken instead."}
	sayParallelFewer = say.Phrase{Key: "plan-parallel.next", English: "Use fewer blocks in parallel, or get the maker's written limit."}
	sayParallelNone  = say.Phrase{Key: "plan-parallel.none", English: "Nothing stands in parallel."}
)

// parallelPart: the bank, unless nothing stands in parallel.
func parallelPart(f *Facts) ([]string, say.Line) {
	if f.HasLayout() && f.Layout().Parallel == 1 {
		return nil, sayParallelNone.With()
	}
	return []string{"bank"}, say.Line{}
}
