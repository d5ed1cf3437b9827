package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// What both main leads lose of the voltage, hot and at the largest steady
// current, with their lugs.
var leadDrop = &Check{
	ID: "lead-drop", Stage: Wire,
	Title:   say.Phrase{Key: "lead-drop.title", English: "Drop in the main leads"},
	Asks:    say.Phrase{Key: "lead-drop.asks", English: "Do the main leads lose little enough of the voltage?"},
	Formula: "I·(R_plus + R_minus) ≤ 0.03·Ns·12.8 V [V]",
	Limits:  []LimitOf{{"drop", finding.Practice}},
	Sources: []*cite.Source{&cite.ABYCE11Drop, &cite.NECTable8, &cite.IEC60228},
	Fields:  []*Field{&designCurrent.Field, &partCable.Field, &partLength.Field, &cableSize.Field, &cableStandard.Field, &linkR.Field, &leadTemp.Field},
	Parts:   onBank,
	Eval:    evalLeadDrop,
}

var (
	sayDropGood = say.Phrase{Key: "lead-drop.pass", English: "At {amps} both main leads lose {found}; the limit is {limit}."}
	sayDropMuch = say.Phrase{Key: "lead-drop.fail", English: "At {amps} both main leads lose {found}; the limit is {limit}. The inverter sees that much less and cuts off early."}
	sayDropNext = say.Phrase{Key: "lead-drop.next", English: "Shorten or enlarge the lead."}
)

const (
	// 3 % of the nominal voltage: for critical circuits on boats.
	leadDropPart unit.Ratio = 0.03
	// Nominal, four cells of 3.2 V.
	nominal unit.Volt = 12.8
)

func evalLeadDrop(f *Facts, _ string) []finding.Finding {
	design, gap := f.designAmps()
	if gap != nil {
		return one(*gap)
	}
	b := base[unit.Volt]{unit.Volt(leadDropPart) * nominal * unit.Volt(f.Layout().Series), finding.Practice, cite.ABYCE11Drop.Line()}
	limit, most, notes := upper(f, "lead-drop", "drop", b)
	var ohm unit.Ohm
	for _, lead := range []string{"lead.p", "lead.n"} {
		r, ok := f.hotLeadOhm(lead)
		if !ok {
			return one(f.leadGap(lead))
		}
		ohm += r
	}
	drop := measure.Exact(unit.Volt(float64(design) * float64(ohm)))
	found := finding.Measured(drop, "V", limit)
	said := []any{"amps", rounded(design, "A"), "found", found.Text, "limit", exact(most, "V")}
	x := finding.Judge(measure.AtMost(drop.Interval(), most), finding.Words{
		Pass: sayDropGood.With(said...), Fail: sayDropMuch.With(said...), CantTell: sayDropMuch.With(said...), Mend: sayDropNext.With(),
	})
	if x.Verdict() != finding.Pass {
		x = x.About("lead.p", "lead.n")
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}

// leadGap is what keeps a conductor's resistance from being known.
func (f *Facts) leadGap(part string) finding.Finding {
	if _, _, gap := f.cable(part); gap != nil {
		return *gap
	}
	return missing(partLength.Field, part)
}
