package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A lead that has more resistance than its copper has a bad crimp, or less
// copper than it says.
var leadCheck = &Check{
	ID: "lead-check", Stage: Prove,
	Title:   say.Phrase{Key: "lead-check.title", English: "Leads, lug to lug"},
	Asks:    say.Phrase{Key: "lead-check.asks", English: "Has every main lead only the resistance of its copper?"},
	Formula: "R_lug-to-lug within R(T) ± max(10 %, 0.1 mΩ) [Ω], fail above, R(T) = ρ(T)·l/A",
	Limits:  []LimitOf{{"resistance", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule, &cite.IEC60228, &cite.NECTable8},
	Fields:  []*Field{&linkR.Field, &leadTemp.Field, &partCable.Field, &partLength.Field},
	Parts:   onBank,
	Eval:    evalLead,
}

var (
	sayLeadGood = say.Phrase{Key: "lead-check.pass", English: "{part} has {found}; its copper has {copper}, and the limit is {limit}."}
	sayLeadBad  = say.Phrase{Key: "lead-check.fail", English: "{part} has {found}; its copper has {copper}, and the limit is {limit}."}
	sayLeadUnk  = say.Phrase{Key: "lead-check.cant-tell", English: "{part} has {found}, too close to the limit of {limit}."}
	sayLeadLow  = say.Phrase{Key: "lead-check.low", English: "{part} has {found}; its copper alone has {copper}, so size, length or reading is not right."}
	sayLeadRead = say.Phrase{Key: "lead-check.read", English: "Look at the jacket, measure the length, and read again: {part}."}
	sayLeadNext = say.Phrase{Key: "lead-check.next", English: "Load and charger off, main open. Then check both crimps of this lead and the size of its cable: {part}."}
)

const (
	// What a lead may have more than its copper, and a reading less: our choice.
	leadPart          = 0.10
	leadLugs unit.Ohm = 0.1e-3
)

func evalLead(f *Facts, part string) []finding.Finding {
	temp, ok := leadTemp.Plain(f, part)
	parts := []string{"lead.p", "lead.n"}
	for _, l := range f.links {
		if f.holds(linkR.Field, l.ID) {
			parts = append(parts, l.ID)
		}
	}
	var worst finding.Finding
	for i, lead := range parts {
		r, has := linkR.Read(f, lead)
		if x := firstMissing(need{has, linkR.Field, lead}, need{ok, leadTemp.Field, part}); x != nil {
			return one(*x)
		}
		copper, known := f.copperAt(lead, temp)
		if !known {
			if _, _, gap := f.cable(lead); gap != nil {
				return one(*gap)
			}
			return one(missing(partLength.Field, lead))
		}
		most := copper + max(leadLugs, copper*leadPart)
		limit := finding.AtMost("resistance", most, finding.Practice, cite.OurRule.Line()).In("mOhm")
		found := finding.Measured(r, "mOhm", limit)
		said := []any{"part", bank.Name(lead), "found", found.Text, "copper", rounded(copper, "mOhm"), "limit", rounded(most, "mOhm")}
		x := finding.Judge(measure.AtMost(r.Interval(), most), finding.Words{
			Pass: sayLeadGood.With(said...), Fail: sayLeadBad.With(said...), CantTell: sayLeadUnk.With(said...), Mend: sayLeadNext.With(said...),
		})
		if measure.AtLeast(r.Interval(), copper-max(leadLugs, copper*leadPart)) == measure.Outside {
			x = finding.CannotTell(sayLeadLow.With(said...), sayLeadRead.With(said...))
		}
		x = x.Value(found).Against(limit).About(lead)
		if i == 0 || x.Verdict().Worse(worst.Verdict()) {
			worst = x
		}
	}
	return one(worst)
}

// copperAt is what a cable of this size and length may have at a temperature,
// by the table of its standard.
func (f *Facts) copperAt(part string, temp unit.Celsius) (unit.Ohm, bool) {
	size, length, _, ok := f.cableRun(part)
	if !ok {
		return 0, false
	}
	r, _, ok := size.Resistance(length, temp)
	return r, ok
}
