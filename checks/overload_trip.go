package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// An overload test is done only against the window of the sheet; there is no
// usual one.
var overloadTrip = &Check{
	ID: "overload-trip", Stage: Prove,
	Title:   say.Phrase{Key: "overload-trip.title", English: "Overload protection"},
	Asks:    say.Phrase{Key: "overload-trip.asks", English: "Does the protection open within the maker's window?"},
	Formula: "t_from ≤ t ± 1 s ≤ t_to [s] at I ≥ I_sheet",
	Limits:  []LimitOf{{"time", finding.Maker}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&overAmps.Field, &overTime.Field, &overOpened.Field, &overSteady.Field, &sheetOverAmps.Field, &sheetOverFrom.Field, &sheetOverTo.Field},
	Parts:   onBank,
	Eval:    evalOverload,
}

var (
	sayOverTrust  = say.Phrase{Key: "overload-trip.declared", English: "Declared by the maker, not tested."}
	sayOverGood   = say.Phrase{Key: "overload-trip.pass", English: "It opened after {found}; the window is {limit}."}
	sayOverBad    = say.Phrase{Key: "overload-trip.fail", English: "After {found} it had not opened; it should by {to}."}
	sayOverEarly  = say.Phrase{Key: "overload-trip.window", English: "It opened after {found}; the window is {limit}."}
	sayOverUnk    = say.Phrase{Key: "overload-trip.near", English: "It opened after {found}, too close to an end of the window for a watch in the hand; the window is {limit}."}
	sayOverShort  = say.Phrase{Key: "overload-trip.short", English: "It carried the overload for {found} and had not opened; until {to} it need not."}
	sayOverDrift  = say.Phrase{Key: "overload-trip.drift", English: "The current did not stand still, so its window does not hold."}
	sayOverLow    = say.Phrase{Key: "overload-trip.low", English: "{amps} is not surely the {least} or more at which it opens by its sheet."}
	sayOverOpen   = say.Phrase{Key: "overload-trip.next", English: "Open the switch now; the protection did not trip in its window."}
	sayOverRepeat = say.Phrase{Key: "overload-trip.repeat", English: "Let it cool, and repeat with a steady current as the sheet says."}
	sayOverLate   = say.Phrase{Key: "overload-trip.late", English: "Use this block no further: its protection opens too late. Tell its maker what was measured."}
	sayOverSoon   = say.Phrase{Key: "overload-trip.soon", English: "Let it cool, and repeat. If it opens too early again, tell its maker, and keep the loads below that current."}
)

// A stop-watch in the hand knows a time to one second.
const handTime unit.Second = 1

func evalOverload(f *Facts, part string) []finding.Finding {
	amps, tested := overAmps.Read(f, part)
	begun := f.holds(overTime.Field, part) || f.holds(overOpened.Field, part) || f.holds(overSteady.Field, part)
	if !tested && !begun {
		return one(finding.Unneeded(sayOverTrust.With()))
	}
	atLeast, from, to := lowest(f, sheetOverAmps, part), highest(f, sheetOverFrom, part), lowest(f, sheetOverTo, part)
	if !atLeast.All() || !to.All() {
		return one(finding.Unneeded(sayOverTrust.With()))
	}
	t, hasTime := overTime.Plain(f, part)
	opened, known := overOpened.Of(f, part)
	steady, told := overSteady.Of(f, part)
	if x := firstMissing(need{tested, overAmps.Field, part}, need{hasTime, overTime.Field, part}, need{known, overOpened.Field, part}, need{told, overSteady.Field, part}); x != nil {
		return one(*x)
	}
	limit := finding.Window("time", from.Value, to.Value, finding.Maker, f.makerSource(to.Sheet))
	r := measure.Reading[unit.Second]{Value: t, U: handTime}
	found := finding.Measured(r, "s", limit)
	said := []any{"found", found.Text, "limit", limit.Line(), "to", exact(to.Value, "s"), "amps", rounded(amps.Value, "A"), "least", exact(atLeast.Value, "A")}
	var x finding.Finding
	switch {
	case measure.AtLeast(amps.Interval(), atLeast.Value) != measure.Inside:
		x = finding.CannotTell(sayOverLow.With(said...), sayOverRepeat.With())
	case steady != "yes":
		x = finding.CannotTell(sayOverDrift.With(), sayOverRepeat.With())
	case opened != "yes" && measure.AtMost(r.Interval(), to.Value) == measure.Outside:
		x = finding.Fails(sayOverBad.With(said...), sayOverOpen.With())
	case opened != "yes":
		x = finding.CannotTell(sayOverShort.With(said...), sayOverRepeat.With())
	case !from.All():
		return one(from.Missing())
	default:
		mend := sayOverLate.With()
		if r.Value < from.Value {
			mend = sayOverSoon.With()
		}
		x = finding.Judge(measure.Within(r.Interval(), from.Value, to.Value), finding.Words{
			Pass: sayOverGood.With(said...), Fail: sayOverEarly.With(said...), CantTell: sayOverUnk.With(said...), Mend: mend, Settle: sayOverRepeat.With(),
		})
	}
	return one(x.Value(found).Against(limit))
}
