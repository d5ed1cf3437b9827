package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A block arrives neither empty nor full, and with the sign that its posts
// promise.
var arrivalVoltageCheck = &Check{
	ID: "arrival-voltage", Stage: Receive,
	Title:   say.Phrase{Key: "arrival-voltage.title", English: "Voltage on arrival"},
	Asks:    say.Phrase{Key: "arrival-voltage.asks", English: "Is the voltage on arrival one that a sound block shows?"},
	Formula: "12.8 V ≤ U ≤ 13.6 V; fail: 8 V ≤ U < 10 V, or U > V_max",
	Limits:  []LimitOf{{"arrival", finding.Practice}, {"charge-voltage-max", finding.Maker}, {"charge-voltage-max", finding.Practice}},
	Sources: []*cite.Source{&cite.OpenOCV, &cite.CommonPractice},
	Fields:  []*Field{&arrivalVoltage.Field},
	Parts:   onBlocks,
	Eval:    evalArrivalVoltage,
}

var (
	sayArrivalGood  = say.Phrase{Key: "arrival-voltage.pass", English: "{part} reads {volts}; usual on arrival is {limit}."}
	sayArrivalAbove = say.Phrase{Key: "arrival-voltage.above", English: "{part} reads {volts}, above its highest charge voltage of {most}. It was overcharged, or the meter is wrong."}
	sayArrivalEmpty = say.Phrase{Key: "arrival-voltage.empty", English: "{part} reads {volts}; usual on arrival is {limit}. Below 10 V its cells have been emptied too far."}
	sayArrivalSleep = say.Phrase{Key: "arrival-voltage.asleep", English: "{part} reads {volts}. Below 8 V the protection is open or the cells are empty, and the reading does not tell which."}
	sayArrivalMinus = say.Phrase{Key: "arrival-voltage.reversed", English: "{part} reads {volts}, below zero: the probes or the block's posts are the wrong way round."}
	sayArrivalLow   = say.Phrase{Key: "arrival-voltage.low", English: "{part} reads {volts}; usual on arrival is {limit}. It may be nearly empty, or has been used and not rested."}
	sayArrivalHigh  = say.Phrase{Key: "arrival-voltage.high", English: "{part} reads {volts}; usual on arrival is {limit}. It was charged not long ago and has not rested."}

	sayArrivalCharge = say.Phrase{Key: "arrival-voltage.charge", English: "Charge this block soon at low current, once it is warm enough, then read again."}
	sayArrivalReturn = say.Phrase{Key: "arrival-voltage.return", English: "Set the block aside and ask the supplier; do not join it."}
	sayArrivalWake   = say.Phrase{Key: "arrival-voltage.wake", English: "Wake it only by the maker's method, outdoors and watched, then read again; else return it."}
	sayArrivalProbes = say.Phrase{Key: "arrival-voltage.probes", English: "Put the red probe on plus and read again; if it stays below zero, mark the block and return it."}
	sayArrivalRest   = say.Phrase{Key: "arrival-voltage.rest", English: "Let it rest with nothing connected, then read again."}
)

const (
	// About 10 to 98 % of charge on the curve of the open data; common practice
	// to take it as the usual window on arrival.
	arrivalLow, arrivalHigh unit.Volt = 12.8, 13.6

	// Below 10 V the cells are far below the usual end of discharge; below 8 V
	// the protection may be open and the voltage is not one of the cells at all.
	emptiedToo unit.Volt = 10
	sleeping             = aboveSleep
)

func evalArrivalVoltage(f *Facts, part string) []finding.Finding {
	v, ok := arrivalVoltage.Read(f, part)
	if !ok {
		return one(missing(arrivalVoltage.Field, part))
	}
	limit := finding.Window("arrival", arrivalLow, arrivalHigh, finding.Practice, cite.OpenOCV.Line())
	found := finding.Measured(v, "V", limit)
	y := v.Interval()
	said := []any{"part", bank.Name(part), "volts", found.Text, "limit", limit.Line()}
	side := measure.Within(y, arrivalLow, arrivalHigh)
	x := finding.Passes(sayArrivalGood.With(said...))
	switch {
	case side == measure.Inside:
	case y.High < 0:
		x = finding.CannotTell(sayArrivalMinus.With(said...), sayArrivalProbes.With())
	case y.Low < sleeping:
		x = finding.CannotTell(sayArrivalSleep.With(said...), sayArrivalWake.With())
	case measure.AtLeast(y, emptiedToo) == measure.Outside:
		x = finding.Fails(sayArrivalEmpty.With(said...), sayArrivalReturn.With())
	case v.Value < (arrivalLow+arrivalHigh)/2:
		x = finding.CannotTell(sayArrivalLow.With(said...), sayArrivalCharge.With())
	default:
		most := f.vmax(part)
		x = finding.CannotTell(sayArrivalHigh.With(said...), sayArrivalRest.With())
		if measure.AtMost(y, most.Value) == measure.Outside {
			limit = finding.AtMost("charge-voltage-max", most.Value, most.Kind, most.Source)
			found = finding.Measured(v, "V", limit)
			x = finding.Fails(sayArrivalAbove.With("part", bank.Name(part), "volts", found.Text, "most", exact(most.Value, "V")), sayArrivalReturn.With())
		}
	}
	return one(x.Value(found).Against(limit))
}
