package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// What a bank in use still gives back, by the test of a new one:
//
//	Q − U ≥ 90 % of rated is well, Q + U < 80 % is worn out  [Ah]
//
// It is asked once a year, and sooner where the last test did not pass.
var capacityDrift = &Check{
	ID: "capacity-drift", Stage: Return, Visits: AtReturn,
	Title:   say.Phrase{Key: "capacity-drift.title", English: "Capacity in use"},
	Asks:    say.Phrase{Key: "capacity-drift.asks", English: "Does the bank in use still give back enough of what its sheet promises?"},
	Formula: "Q − u ≥ 0.90·Q_rated [Ah]; fail: Q + u < 0.80·Q_rated; due 1 year after a test that passed",
	Limits:  []LimitOf{{"rated", finding.Standard}},
	Sources: []*cite.Source{&cite.IEEECapacity, &cite.OurRule},
	Fields: []*Field{&capTarget.Field, &capCharge.Field, &capError.Field, &capHours.Field, &capCurrent.Field, &capTemp.Field,
		&capFull.Field, &capEnd.Field, &capWhy.Field},
	Parts: capacityParts,
	Eval:  evalCapacityDrift,
}

var (
	sayAgedBad    = say.Phrase{Key: "capacity-drift.fail", English: "It gave {found}, less than {floor}, which is 80 % of rated. It is worn out."}
	sayAgedMiddle = say.Phrase{Key: "capacity-drift.cant-tell", English: "It gave {found}; from {limit} on it is well, below {floor} it is worn out."}
	sayAgedNext   = say.Phrase{Key: "capacity-drift.next", English: "Test each block by itself and plan a replacement."}
	sayAgedYearly = say.Phrase{Key: "capacity-drift.yearly", English: "Charge to full and repeat the test; where it stays below, test every year and plan a replacement."}
	sayAgedNotDue = say.Phrase{Key: "capacity-drift.not-due", English: "It gave {was} at {visit} and passed; the test is due a year after."}
	sayAgedWhen   = say.Phrase{Key: "capacity-drift.when", English: "Test the capacity at the first visit after {due}."}
	sayAgedWas    = say.Phrase{Key: "capacity-drift.was", English: "It gave {was} at {visit}."}
)

// Below 90 % of rated a bank is tested every year, below 80 % it is replaced:
// read, for lead-acid, and used here by analogy.
const agedWell, agedOut unit.Ratio = 0.90, 0.80

func blocksInUse() capacityRule {
	return capacityRule{"capacity-drift", base[unit.Ratio]{agedWell, finding.Standard, cite.IEEECapacity.Line()}, agedOut, sayAgedBad, sayAgedMiddle, sayAgedNext, sayAgedYearly}
}

// oldRun is a test of an earlier visit.
type oldRun struct {
	capacityRun
	at time.Time
}

func evalCapacityDrift(f *Facts, part string) []finding.Finding {
	if len(f.done(bank.KindCapacity, "capacity")) == 0 {
		if x, waits := f.capacityNotDue(); waits {
			return one(x)
		}
	}
	own := f.capacityRun(part, blocksInUse())
	x := own.answer
	for _, id := range f.done(bank.KindCapacity, "capacity") {
		if id == part || !own.judged() || own.passed() {
			continue
		}
		f.quietly(func() {
			if other := f.capacityRun(id, blocksInUse()); other.target == own.target && other.passed() {
				x = finding.Unneeded(sayCapBetter.With("best", bank.Name(id))).Against(own.limit)
			}
		})
	}
	if old, ok := f.capacityBefore(own.target); ok && own.judged() {
		x = x.Noting(sayAgedWas.With("was", old.Value.said(), "visit", visitLine(old.Visit, old.Value.at)))
	}
	return one(x)
}

// said is the charge of a run with its uncertainty.
func (r oldRun) said() say.Line {
	return finding.Measured(r.charge, "Ah", finding.Limit{}).Text
}

// capacityBefore is the best test of this target at the latest earlier visit
// that tested it.
func (f *Facts) capacityBefore(target string) (old baseline[oldRun], ok bool) {
	all := baselines(f, func(then *Facts) (best oldRun, any bool) {
		for _, id := range then.done(bank.KindCapacity, "capacity") {
			run := then.capacityRun(id, blocksInUse())
			if run.target != target || !run.judged() || any && run.charge.Value <= best.charge.Value {
				continue
			}
			q, _ := capCharge.Of(then, id)
			best, any = oldRun{capacityRun: run, at: q.At}, true
		}
		return best, any
	})
	if len(all) == 0 {
		return old, false
	}
	return all[0], true
}

// capacityNotDue puts the test off while the last one of the whole bank passed
// and is not a year old.
func (f *Facts) capacityNotDue() (x finding.Finding, waits bool) {
	old, ok := f.capacityBefore("bank")
	if !ok || !old.Value.passed() {
		return x, false
	}
	due := old.Value.at.AddDate(1, 0, 0)
	if !f.now.Before(due) || f.now.Before(old.Value.at) {
		return x, false
	}
	said := []any{"was", old.Value.said(), "visit", visitLine(old.Visit, old.Value.at), "due", due.Format("2 January 2006")}
	return finding.Waits(sayAgedNotDue.With(said...), sayAgedWhen.With(said...), due).Against(old.Value.limit), true
}
