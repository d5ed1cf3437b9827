package checks

import (
	"strconv"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A protection that opens sees the voltage of the whole string, so only the
// maker can say how many blocks may stand in series.
var planSeries = &Check{
	ID: "plan-series", Stage: Before,
	Title:   say.Phrase{Key: "plan-series.title", English: "Blocks in series"},
	Asks:    say.Phrase{Key: "plan-series.asks", English: "Does the maker allow this many blocks in series?"},
	Formula: "Ns ≤ Ns_sheet [1]; no sheet: can't tell above 1, fail above 4",
	Limits:  []LimitOf{{"count", finding.Maker}, {"count", finding.Practice}},
	Sources: []*cite.Source{&cite.SeriesVoltage, &cite.CommonPractice},
	Fields:  []*Field{&layoutField, &blockSheet.Field, &sheetSeries.Field},
	Parts:   seriesPart,
	Eval: func(f *Facts, _ string) []finding.Finding {
		return one(evalPlan(f, plan{f.Layout().Series, sheetSeries, cite.SeriesVoltage, planWords{
			saySeriesFits, saySeriesOver, saySeriesMany, saySeriesUnk, saySeriesFewer,
		}}))
	},
}

var (
	saySeriesFits  = say.Phrase{Key: "plan-series.pass", English: "The plan has {n} in series; the maker allows {limit}."}
	saySeriesOver  = say.Phrase{Key: "plan-series.fail", English: "The plan has {n} in series; the maker allows {limit}. A protection that opens sees the voltage of the whole string, and its switch can fail."}
	saySeriesMany  = say.Phrase{Key: "plan-series.fail-unstated", English: "The plan has {n} in series and no sheet gives the maker's limit for {part}; without one more than {limit} is never usual. A protection that opens sees the voltage of the whole string."}
	saySeriesUnk   = say.Phrase{Key: "plan-series.cant-tell", English: "The plan has {n} in series and no sheet gives the maker's limit for {part}. There is no usual figure to take instead: a protection that opens sees the voltage of the whole string."}
	saySeriesFewer = say.Phrase{Key: "plan-series.next", English: "Use fewer blocks in series, or get the maker's written limit."}
	saySeriesOne   = say.Phrase{Key: "plan-series.one", English: "No blocks stand in series."}
)

// mostUnstated is the most blocks in series, or in parallel, that may be left
// open for want of a sheet; more is a Fail. Common practice.
const mostUnstated unit.Count = 4

// seriesPart: the bank, unless nothing stands in series.
func seriesPart(f *Facts) ([]string, say.Line) {
	if f.HasLayout() && f.Layout().Series == 1 {
		return nil, saySeriesOne.With()
	}
	return []string{"bank"}, say.Line{}
}

// plan is a count of the layout against the maker's limit.
type plan struct {
	n       int
	field   Quantity[unit.Count]
	because cite.Source
	words   planWords
}

type planWords struct{ fits, over, many, unknown, fewer say.Phrase }

func evalPlan(f *Facts, p plan) finding.Finding {
	if _, ok := f.entry(layoutField, "bank"); !ok || !f.HasLayout() {
		return finding.Undone(sayNoLayout.With())
	}
	n, s := unit.Count(p.n), lowest(f, p.field, "bank")
	said := []any{"n", strconv.Itoa(p.n), "limit", exact(s.Value, "1")}
	if s.Any() && n > s.Value || s.All() {
		limit := finding.AtMost("count", s.Value, finding.Maker, f.makerSource(s.Sheet))
		if n > s.Value {
			return finding.Fails(p.words.over.With(said...), p.words.fewer.With()).Against(limit)
		}
		return finding.Passes(p.words.fits.With(said...)).Against(limit)
	}
	said = []any{"n", strconv.Itoa(p.n), "part", bank.Name(s.Silent), "limit", exact(mostUnstated, "1")}
	if n > mostUnstated {
		limit := finding.AtMost("count", mostUnstated, finding.Practice, cite.CommonPractice.Line())
		return finding.Fails(p.words.many.With(said...), p.words.fewer.With()).Against(limit)
	}
	return finding.CannotTell(p.words.unknown.With(said...), s.Enter()).From(p.because.Line())
}
