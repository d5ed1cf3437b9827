package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A bank proves its capacity by giving it back: from a proved full charge down
// to the cut-off, at 20 to 30 °C.
//
// A run that was stopped early gives a lower bound: it can pass, never fail.
// The limit is not lowered by the uncertainty of the counter.
var capacity = &Check{
	ID: "capacity", Stage: Prove,
	Title:   say.Phrase{Key: "capacity.title", English: "Capacity"},
	Asks:    say.Phrase{Key: "capacity.asks", English: "Does the bank give back what its sheet promises?"},
	Formula: "Q − u ≥ 1.00·Q_rated [Ah]; fail: Q + u < 0.95·Q_rated, or Q + u < Q_rated after three runs; 20 °C ≤ T ≤ 30 °C",
	Limits:  []LimitOf{{"rated", finding.Standard}},
	Sources: []*cite.Source{&cite.IEC62620, &cite.CommonPractice},
	Fields: []*Field{&capTarget.Field, &capCharge.Field, &capError.Field, &capHours.Field, &capCurrent.Field, &capTemp.Field,
		&capFull.Field, &capEnd.Field, &capWhy.Field, &capEnergy.Field},
	Parts: capacityParts,
	Eval:  evalCapacity,
}

var (
	sayCapGood     = say.Phrase{Key: "capacity.pass", English: "It gave {found}; the limit is {limit}."}
	sayCapBad      = say.Phrase{Key: "capacity.fail", English: "It gave {found}, less than {floor}; the limit is {limit}."}
	sayCapThird    = say.Phrase{Key: "capacity.third", English: "After three proper runs the best gave {found}; the limit is {limit}."}
	sayCapBetween  = say.Phrase{Key: "capacity.cant-tell", English: "It gave {found}; the limit is {limit}. A first run may stay below; the best of three counts."}
	sayCapEarly    = say.Phrase{Key: "capacity.early", English: "It gave {found} before it was stopped above the cut-off; the limit is {limit}. There was more in it, nobody knows how much."}
	sayCapNotFull  = say.Phrase{Key: "capacity.not-full", English: "It gave {found}, but it did not start from a proved full charge. What was missing at the start is not known."}
	sayCapFullUnk  = say.Phrase{Key: "capacity.full-unknown", English: "It gave {found}, but nobody entered whether it started from a proved full charge."}
	sayCapTempUnk  = say.Phrase{Key: "capacity.temperature-unknown", English: "It gave {found}, but the temperature during the test is not entered."}
	sayCapCold     = say.Phrase{Key: "capacity.cold", English: "It gave {found} at {temp}; the limit of {limit} holds from {low} up. A cold block gives less, so this is no fault."}
	sayCapHot      = say.Phrase{Key: "capacity.hot", English: "It gave {found} at {temp}; the limit of {limit} holds up to {high}. A hot block gives more, so this is no proof."}
	sayCapAgainst  = say.Phrase{Key: "capacity.against", English: "It gave {found}, but {amps} for the time entered makes {by}. One of the three is not right."}
	sayCapRecheck  = say.Phrase{Key: "capacity.recheck", English: "Look at the counter, the current and the time again, and enter what they show."}
	sayCapRate     = say.Phrase{Key: "capacity.rate", English: "It gave {found} at {amps}; the capacity is rated at {rate}. Drawn harder, a block gives less."}
	sayCapNoRated  = say.Phrase{Key: "capacity.no-rated", English: "It gave {found}, but the rated capacity of the blocks is not entered."}
	sayCapBetter   = say.Phrase{Key: "capacity.better-run", English: "{best} gave more and counts; the best of three runs decides."}
	sayCapRepeat   = say.Phrase{Key: "capacity.repeat", English: "Charge to full and repeat the test; the best of three runs counts."}
	sayCapOn       = say.Phrase{Key: "capacity.go-on", English: "Charge to full and repeat the test down to the cut-off."}
	sayCapProve    = say.Phrase{Key: "capacity.prove-full", English: "Charge until every string reaches its tail current, then repeat the test."}
	sayCapMild     = say.Phrase{Key: "capacity.mild", English: "Repeat the test with the blocks at 20 to 30 °C."}
	sayCapSlower   = say.Phrase{Key: "capacity.slower", English: "Repeat the test with {rate} or less."}
	sayCapWeak     = say.Phrase{Key: "capacity.weak", English: "Charge each block to full, test each by itself, and ask the supplier about the weak one."}
	sayCapUsable   = say.Phrase{Key: "capacity.usable", English: "Usable down to the inverter's own cut-off: {found}, at least {floor} as it should be."}
	sayCapUnusable = say.Phrase{Key: "capacity.unusable", English: "Usable down to the inverter's own cut-off: {found}; it should be at least {floor}."}

	sayAssumedCounter = say.Phrase{Key: "assumed.counter", English: "Shunt counter ±1 % and ±0.05 A over {hours} assumed; no sheet of the counter entered."}
	sayAssumedRate    = say.Phrase{Key: "assumed.capacity-rate", English: "Rated at 0.2 of the capacity in amperes, {rate}, assumed; the sheet names no current."}
)

const (
	// 100 % of rated at 0.2 It and 25 °C: after IEC 62620, from memory.
	capacityRated unit.Ratio = 1.00
	ratedAt                  = 0.2 // of the capacity, per hour

	// A current that is held for a test wanders by 5 % at most; our choice.
	contradicts unit.Ratio = 0.05

	// Below 95 % no further run helps: common practice. The same floor holds
	// for what an inverter with its own cut-off can use: our choice.
	capacityFloor unit.Ratio = 0.95

	// 25 ± 5 °C: common practice.
	testColdest unit.Celsius = 20
	testHottest unit.Celsius = 30

	// A shunt counter without a sheet: from memory of common ones, our choice.
	counterPercent unit.Percent = 1
	counterOffset  unit.Ampere  = 0.05

	// Discharged means 10.0 V per block where the sheet gives no cut-off:
	// four cells of 2.5 V.
	usualCutoff unit.Volt = 10.0

	// So many proper runs are enough to condemn.
	capacityRuns = 3
)

func capacityParts(f *Facts) ([]string, say.Line) {
	if ids := f.done(bank.KindCapacity, "capacity"); len(ids) > 0 {
		return ids, say.Line{}
	}
	return []string{"capacity1"}, say.Line{}
}

// capacityRun is one test as far as it can be judged by itself.
type capacityRun struct {
	target string
	charge measure.Reading[unit.AmpereHour]
	limit  finding.Limit
	least  unit.AmpereHour
	proper bool // nothing but the bank itself can have kept it below the limit
	answer finding.Finding
}

func (r capacityRun) passed() bool { return r.answer.Verdict() == finding.Pass }

// judged reports whether there was a charge and a limit to judge it by.
func (r capacityRun) judged() bool { return r.limit.Min != nil }

func evalCapacity(f *Facts, part string) []finding.Finding {
	own := f.capacityRun(part, newBlocks())
	if !own.judged() || own.passed() {
		return one(own.answer)
	}
	best, runs, before := own, 0, true
	for _, id := range f.done(bank.KindCapacity, "capacity") {
		other := own
		if id != part {
			f.quietly(func() { other = f.capacityRun(id, newBlocks()) })
		}
		if other.target != own.target || !other.judged() {
			continue
		}
		if other.passed() {
			return one(finding.Unneeded(sayCapBetter.With("best", bank.Name(id))).Against(own.limit))
		}
		if before && other.proper {
			runs++
			if other.charge.Value > best.charge.Value {
				best = other
			}
		}
		before = before && id != part
	}
	x := own.answer
	if own.proper && x.Verdict() == finding.CantTell && runs >= capacityRuns &&
		measure.AtLeast(best.charge.Interval(), own.least) == measure.Outside {
		found := finding.Measured(best.charge, "Ah", own.limit)
		x = finding.Fails(sayCapThird.With("found", found.Text, "limit", own.limit.Line()), sayCapWeak.With()).
			Value(found).Against(own.limit).Noting(x.Notes()...)
	}
	return one(x)
}
