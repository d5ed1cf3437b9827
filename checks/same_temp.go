package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Voltages are compared only between blocks of nearly the same temperature.
var sameTemp = &Check{
	ID: "same-temp", Stage: Match,
	Title:   say.Phrase{Key: "same-temp.title", English: "Same temperature"},
	Asks:    say.Phrase{Key: "same-temp.asks", English: "Are the blocks warm alike, so that their voltages can be compared?"},
	Formula: "max T − min T ≤ 5 K [K]",
	Limits:  []LimitOf{{"spread", finding.Practice}},
	Sources: []*cite.Source{&cite.OpenOCV},
	Fields:  []*Field{&blockTemp.Field},
	Parts:   onBank,
	Eval:    evalSameTemp,
}

var (
	sayTempsAlike = say.Phrase{Key: "same-temp.pass", English: "The temperatures differ by {spread}; the limit is {limit}."}
	sayTempsApart = say.Phrase{Key: "same-temp.fail", English: "{a} is {spread} from {b}; the limit is {limit}. A warmer block shows other volts at the same charge."}
	sayTempsUnk   = say.Phrase{Key: "same-temp.cant-tell", English: "{a} and {b} differ by {spread}, too close to the limit of {limit} for this thermometer."}
	sayTempsWait  = say.Phrase{Key: "same-temp.wait", English: "Let the blocks stand together until their temperatures agree, then read them again."}
)

const (
	// 0.17 mV per kelvin and cell at half charge (open data), four cells, 5 K:
	// 3.4 mV, a third of the match limit. Computed.
	widestTemps unit.Kelvin = 5

	// One contact probe on all blocks: 1 K between two of them. Our choice.
	probeU unit.Kelvin = 1
)

func evalSameTemp(f *Facts, _ string) []finding.Finding {
	limit, most, notes := upper(f, "same-temp", "spread", base[unit.Kelvin]{widestTemps, finding.Practice, cite.OpenOCV.Line()})
	var lo, hi measure.Shown[unit.Celsius]
	var coldest, warmest string
	var lack *finding.Finding
	for _, b := range f.Layout().Blocks() {
		t, ok := blockTemp.Of(f, b)
		if !ok {
			if lack == nil {
				x := missing(blockTemp.Field, b)
				lack = &x
			}
			continue
		}
		if coldest == "" || t.Value < lo.Value {
			lo, coldest = t, b
		}
		if warmest == "" || t.Value > hi.Value {
			hi, warmest = t, b
		}
	}
	if coldest == "" {
		return one(*lack)
	}
	u := probeU
	if specOf(f, lo).OutOfDate {
		u *= 2
	}
	if lo.Meter != hi.Meter {
		a, b := absolute(f, lo), absolute(f, hi)
		u = unit.Kelvin(measure.Combine(float64(a.U), float64(b.U)))
	}
	spread := measure.Reading[unit.Kelvin]{Value: unit.Kelvin(hi.Value - lo.Value), U: u}
	found := finding.Measured(spread, "K", limit)
	said := []any{"a", bank.Name(warmest), "b", bank.Name(coldest), "spread", found.Text, "limit", exact(most, "K")}
	x := finding.Judge(measure.AtMost(spread.Interval(), most), finding.Words{
		Pass: sayTempsAlike.With(said...), Fail: sayTempsApart.With(said...), CantTell: sayTempsUnk.With(said...), Mend: sayTempsWait.With(),
	})
	if lack != nil && x.Verdict() != finding.Fail { // two that are surely apart need no third
		return one(*lack)
	}
	if x.Verdict() != finding.Pass {
		x = x.About(warmest, coldest)
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}
