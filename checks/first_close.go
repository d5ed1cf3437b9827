package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// When the main closes for the first time with nothing switched on, nothing
// should happen.
var firstClose = &Check{
	ID: "first-close", Stage: SwitchOn,
	Title:   say.Phrase{Key: "first-close.title", English: "First closing of the main"},
	Asks:    say.Phrase{Key: "first-close.asks", English: "Did the main close without a trip and without a current that nobody ordered?"},
	Formula: "trip = no; U ≥ U_before − U_before/Ns + 8 V, at least Ns·8 V [V]; |I| ≤ 1 A [A]",
	Limits:  []LimitOf{{"current", finding.Practice}, {"volts", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&closeTripped.Field, &closeVolts.Field, &closeAmps.Field, &totalVoltage.Field},
	Parts:   func(*Facts) ([]string, say.Line) { return []string{"switch"}, say.Line{} },
	Eval:    evalFirstClose,
}

var (
	sayCloseQuiet = say.Phrase{Key: "first-close.pass", English: "Nothing tripped, the bank shows {volts}, and {found} flows; the limit is {limit}."}
	sayCloseTrip  = say.Phrase{Key: "first-close.trip", English: "A protection tripped when the main closed."}
	sayCloseAsked = say.Phrase{Key: "first-close.not-entered", English: "Nobody entered whether something tripped."}
	sayCloseDead  = say.Phrase{Key: "first-close.low", English: "The bank shows {volts}, less than {least}: a block has switched off."}
	sayCloseFell  = say.Phrase{Key: "first-close.fell", English: "The bank shows {volts}; below {alone} one block may have switched off."}
	sayCloseLook  = say.Phrase{Key: "first-close.look", English: "Open the main and read every block at its posts."}
	sayCloseFlows = say.Phrase{Key: "first-close.fail", English: "{found} flows with nothing switched on; the limit is {limit}."}
	sayCloseUnk   = say.Phrase{Key: "first-close.cant-tell", English: "{found} flows with nothing switched on, too close to the limit of {limit} for this clamp."}
	sayCloseFind  = say.Phrase{Key: "first-close.next", English: "Open the main and find what drew current or tripped."}
	sayCloseAgain = say.Phrase{Key: "first-close.again", English: "Zero the clamp and read the current again, or find what draws it."}
)

// The most that flows with nothing switched on, whichever way: our choice.
const restingMost unit.Ampere = 1

func evalFirstClose(f *Facts, part string) []finding.Finding {
	tripped, known := closeTripped.Of(f, part)
	if tripped == "yes" {
		return one(finding.Fails(sayCloseTrip.With(), sayCloseFind.With()).From(cite.OurRule.Line()))
	}
	amps, hasAmps := closeAmps.Read(f, part)
	volts, hasVolts := closeVolts.Read(f, part)
	least := aboveSleep * unit.Volt(f.Layout().Series)
	if hasVolts && measure.AtLeast(volts.Interval(), least) == measure.Outside {
		low := finding.AtLeast("volts", least, finding.Practice, cite.OurRule.Line())
		said := []any{"volts", finding.Measured(volts, "V", low).Text, "least", exact(least, "V")}
		return one(finding.Fails(sayCloseDead.With(said...), sayCloseFind.With()).Value(finding.Measured(volts, "V", low)).Against(low))
	}
	if x := firstMissing(need{hasAmps, closeAmps.Field, part}, need{hasVolts, closeVolts.Field, part}); x != nil {
		return one(*x)
	}
	amps = size(amps)
	limit, most, notes := upper(f, "first-close", "current", base[unit.Ampere]{restingMost, finding.Practice, cite.OurRule.Line()})
	found := finding.Measured(amps, "A", limit)
	said := []any{"found", found.Text, "limit", exact(most, "A"), "volts", finding.Measured(volts, "V", finding.Limit{}).Text}
	x := finding.Judge(measure.AtMost(amps.Interval(), most), finding.Words{
		Pass: sayCloseQuiet.With(said...), Fail: sayCloseFlows.With(said...), CantTell: sayCloseUnk.With(said...),
		Mend: sayCloseFind.With(), Settle: sayCloseAgain.With(),
	})
	alone := f.oneAsleep()
	switch {
	case x.Verdict() != finding.Pass:
	case measure.AtLeast(volts.Interval(), alone) != measure.Inside:
		low := finding.AtLeast("volts", alone, finding.Practice, cite.OurRule.Line())
		v := finding.Measured(volts, "V", low)
		return one(finding.CannotTell(sayCloseFell.With("volts", v.Text, "alone", rounded(alone, "V")), sayCloseLook.With()).Value(v).Against(low))
	case !known:
		x = finding.CannotTell(sayCloseAsked.With(), enter(closeTripped.Field, part))
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}

// oneAsleep is what the bank shows at most with one block, or one group, of a
// string below the voltage of sleep and all others as they were [V]; where
// nobody read the bank before, all of them at that voltage.
func (f *Facts) oneAsleep() unit.Volt {
	series := unit.Volt(f.Layout().Series)
	before, read := totalVoltage.Read(f, "bank")
	if !read {
		return aboveSleep * series
	}
	return max(aboveSleep*series, (before.Value+before.U)*(series-1)/series+aboveSleep)
}
