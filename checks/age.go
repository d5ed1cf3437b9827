package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A block that stood for half a year without a charge may have run down or
// drifted inside. That is no fault of its own: a full charge and a capacity
// test settle it.
var ageCheck = &Check{
	ID: "age", Stage: Receive,
	Title:   say.Phrase{Key: "age.title", English: "Age"},
	Asks:    say.Phrase{Key: "age.asks", English: "Was every block made or last charged within 6 months?"},
	Formula: "today − t_last charge, else − t_made ≤ 6 months",
	Limits:  []LimitOf{{"age", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice},
	Fields:  []*Field{&blockCode.Field, &supplierCharge.Field},
	Parts:   onBank,
	Eval:    evalAge,
}

var (
	sayAgeGood   = say.Phrase{Key: "age.pass", English: "The oldest date is {date}; up to {limit} months without a charge are usual."}
	sayAgeProved = say.Phrase{Key: "age.proved", English: "{part} was last charged by its supplier in {date}, more than {limit} months ago, but it was charged to full here and its capacity is proved."}
	sayAgeOld    = say.Phrase{Key: "age.cant-tell", English: "{part} was last charged by its supplier in {date} as far as is known, more than {limit} months ago."}
	sayAgeAhead  = say.Phrase{Key: "age.ahead", English: "The date of {part}, {date}, lies ahead of today."}
	sayAgeCode   = say.Phrase{Key: "age.code", English: "The date code {code} of {part} cannot be read as a month."}
	sayAgeNext   = say.Phrase{Key: "age.next", English: "Charge to full, warm enough, and prove its capacity before joining."}
	sayAgeLabel  = say.Phrase{Key: "age.label", English: "Enter the date code as year and month, such as 2026-05, or the supplier's last charge."}
	sayAgeLimit  = say.Phrase{Key: "age.limit", English: "at most 6 months since the last charge"}
)

// Months without a charge that are usual: common practice.
const unchargedMonths unit.Count = 6

func evalAge(f *Facts, _ string) []finding.Finding {
	limit := finding.Limit{Name: "age", Kind: finding.Practice, Source: cite.CommonPractice.Line(), Text: sayAgeLimit.With()}
	var oldest time.Time
	x, _ := worstOf(f.Layout().Blocks(), func(block string) finding.Finding {
		x, from := f.ageOf(block)
		if !from.IsZero() && (oldest.IsZero() || from.Before(oldest)) {
			oldest = from
		}
		return x
	})
	if x.Verdict() == finding.Pass && !f.tooOld(oldest) {
		x = finding.Passes(sayAgeGood.With("date", oldest.Format("2006-01"), "limit", exact(unchargedMonths, "1")))
	}
	return one(x.Against(limit))
}

// ageOf judges one block from the later of its date code and its last charge.
func (f *Facts) ageOf(block string) (finding.Finding, time.Time) {
	from, charged := supplierCharge.Of(f, block)
	if !charged {
		code, ok := blockCode.Of(f, block)
		if !ok {
			return missing(blockCode.Field, block), from
		}
		made, readable := madeIn(code)
		if !readable {
			return finding.CannotTell(sayAgeCode.With("part", bank.Name(block), "code", code), sayAgeLabel.With()), from
		}
		from = made
	}
	said := []any{"part", bank.Name(block), "date", from.Format("2006-01"), "limit", exact(unchargedMonths, "1")}
	switch {
	case from.Format(time.DateOnly) > f.now.Format(time.DateOnly):
		return finding.CannotTell(sayAgeAhead.With(said...), sayAgeLabel.With()), from
	case !f.tooOld(from):
		return finding.Passes(sayAgeGood.With(said...)), from
	case f.allPass("charged-full", block) && f.capacityProved():
		return finding.Passes(sayAgeProved.With(said...)), from
	}
	return finding.CannotTell(sayAgeOld.With(said...), sayAgeNext.With()), from
}

func (f *Facts) tooOld(from time.Time) bool {
	return from.AddDate(0, int(unchargedMonths), 0).Format(time.DateOnly) < f.now.Format(time.DateOnly)
}

// capacityProved reports whether the bank's capacity passed, by every finding.
func (f *Facts) capacityProved() bool {
	list := f.byCheck["capacity"]
	for _, x := range list {
		if x.Verdict() != finding.Pass {
			return false
		}
	}
	return len(list) > 0
}
