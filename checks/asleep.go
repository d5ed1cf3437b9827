package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Below 8 V a protection sleeps or the cells are empty. Which of both shows
// when the block is woken by its maker's method: gently, briefly, watched.
var asleepCheck = &Check{
	ID: "asleep", Stage: Receive,
	Title:   say.Phrase{Key: "asleep.title", English: "Woken block"},
	Asks:    say.Phrase{Key: "asleep.asks", English: "Did the sleeping block wake by the maker's method, and stay awake?"},
	Formula: "U ≥ 12.0 V [V], 60 s after the charger is off; I_wake ≤ 0.05·C/h [A]; t_wake ≤ 30 min; U_lowest inside ≥ 2.0 V",
	Limits:  []LimitOf{{"awake", finding.Practice}, {"lowest-inside", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields: []*Field{&arrivalVoltage.Field, &wakeMethod.Field, &wakeCurrent.Field, &wakeTime.Field, &wokenVolts.Field, &wakeWarm.Field,
		&sleptAgain.Field, &lowestCell.Field},
	Parts: sleepers,
	Eval:  evalAsleep,
}

var (
	sayAsleepNone  = say.Phrase{Key: "asleep.none", English: "No block has read below 8 V."}
	sayAsleepGood  = say.Phrase{Key: "asleep.pass", English: "{part} woke by the maker's method and reads {found}; the limit is {limit}."}
	sayAsleepFlat  = say.Phrase{Key: "asleep.fail", English: "After waking {part} reads {found}; below 10 V its cells have been emptied too far."}
	sayAsleepUnk   = say.Phrase{Key: "asleep.cant-tell", English: "After waking {part} reads {found}; awake is {limit}."}
	sayAsleepAgain = say.Phrase{Key: "asleep.again", English: "{part} went to sleep again after it was woken."}
	sayAsleepWarm  = say.Phrase{Key: "asleep.warm", English: "{part} grew warm while it was woken: it turns charge into heat inside."}
	sayAsleepCell  = say.Phrase{Key: "asleep.cell", English: "The lowest cell voltage of {part} reads {found}. Below {limit} copper dissolves inside, and it may short later."}
	sayAsleepWhom  = say.Phrase{Key: "asleep.method", English: "{part} was not woken by its maker's method."}
	sayAsleepHard  = say.Phrase{Key: "asleep.hard", English: "{part} was woken with up to {amps} for {minutes}; at most {limit} for 30 minutes is gentle enough to trust what it shows."}
	sayWakeNext    = say.Phrase{Key: "asleep.next", English: "Wake only by the maker's method, outdoors, watched; else return it."}
	sayAsleepBack  = say.Phrase{Key: "asleep.return", English: "Set the block aside outdoors and return it; do not charge it again."}
)

const (
	// Awake from 12.0 V: our choice. Below 2.0 V in a cell copper dissolves: read.
	awake    unit.Volt = 12
	deadCell unit.Volt = 2

	// At most a twentieth of the capacity for half an hour: our choice.
	wakeRate unit.Ratio = 0.05
	wakeFor             = 30 * time.Minute
)

// sleepers: the blocks that read below 8 V on arrival, and not the wrong way
// round.
func sleepers(f *Facts) ([]string, say.Line) {
	var out []string
	for _, b := range f.Layout().Blocks() {
		if v, ok := arrivalVoltage.Read(f, b); ok && v.Value-v.U < sleeping && v.Value+v.U >= 0 {
			out = append(out, b)
		}
	}
	return out, sayAsleepNone.With()
}

func evalAsleep(f *Facts, part string) []finding.Finding {
	arrivalVoltage.Of(f, part)
	limit := finding.AtLeast("awake", awake, finding.Practice, cite.OurRule.Line())
	said := []any{"part", bank.Name(part), "limit", exact(awake, "V")}
	answer := func(x finding.Finding) []finding.Finding { return one(x.Against(limit)) }
	if sleptAgain.Yes(f, part) {
		return answer(finding.Fails(sayAsleepAgain.With(said...), sayAsleepBack.With()))
	}
	if wakeWarm.Yes(f, part) {
		return answer(finding.Fails(sayAsleepWarm.With(said...), sayAsleepBack.With()))
	}
	if c, ok := lowestCell.Read(f, part); ok && measure.AtLeast(c.Interval(), deadCell) != measure.Inside {
		least := finding.AtLeast("lowest-inside", deadCell, finding.Practice, cite.OurRule.Line())
		found := finding.Measured(c, "V", least)
		words := sayAsleepCell.With("part", bank.Name(part), "found", found.Text, "limit", exact(deadCell, "V"))
		return one(finding.Judge(measure.AtLeast(c.Interval(), deadCell), finding.Words{
			Pass: words, Fail: words, CantTell: words, Mend: sayAsleepBack.With(),
		}).Value(found).Against(least))
	}
	method, ok := wakeMethod.Of(f, part)
	if ok && method != "yes" {
		return answer(finding.CannotTell(sayAsleepWhom.With(said...), sayWakeNext.With()))
	}
	v, hasVolts := wokenVolts.Read(f, part)
	if hasVolts && measure.AtLeast(v.Interval(), emptiedToo) == measure.Outside {
		found := finding.Measured(v, "V", limit)
		return answer(finding.Fails(sayAsleepFlat.With(append(said, "found", found.Text)...), sayAsleepBack.With()).Value(found))
	}
	amps, hasAmps := wakeCurrent.Of(f, part)
	took, hasTime := wakeTime.Of(f, part)
	_, warmKnown := wakeWarm.Of(f, part)
	_, againKnown := sleptAgain.Of(f, part)
	if x := firstMissing(need{ok, wakeMethod.Field, part}, need{hasAmps, wakeCurrent.Field, part}, need{hasTime, wakeTime.Field, part},
		need{hasVolts, wokenVolts.Field, part}, need{warmKnown, wakeWarm.Field, part}, need{againKnown, sleptAgain.Field, part}); x != nil {
		return answer(*x)
	}
	rated := f.capacity(part)
	if !rated.All() {
		return answer(rated.Missing())
	}
	gentle := unit.Ampere(rated.Value) * unit.Ampere(wakeRate)
	if measure.AtMost(measure.Exact(amps.Value).Interval(), gentle) != measure.Inside || took.Value > unit.Second(wakeFor.Seconds()) {
		return answer(finding.CannotTell(sayAsleepHard.With("part", bank.Name(part), "amps", typed(amps), "minutes", typed(took), "limit", exact(gentle, "A")), sayAsleepBack.With()))
	}
	found := finding.Measured(v, "V", limit)
	said = append(said, "found", found.Text)
	x := finding.CannotTell(sayAsleepUnk.With(said...), sayWakeNext.With())
	if measure.AtLeast(v.Interval(), awake) == measure.Inside {
		x = finding.Passes(sayAsleepGood.With(said...))
	}
	return answer(x.Value(found))
}
