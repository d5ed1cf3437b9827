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

// A block that was charged by itself until voltage and current both said full
// is the only proof of charge that the flat curve does not spoil.
var chargedFull = &Check{
	ID: "charged-full", Stage: Match,
	Title:   say.Phrase{Key: "charged-full.title", English: "Charged to full"},
	Asks:    say.Phrase{Key: "charged-full.asks", English: "Was this block charged by itself until voltage and current both showed full?"},
	Formula: "U ≥ min(14.2 V, U_absorption − 0.2 V), else 14.0 V [V], and |I| ≤ I_tail, else 0.05·C/h [A], two readings ≥ 60 s apart; U ≤ V_max; T − u > T_coldest, else 0 °C, and T + u ≤ T_hottest, else 45 °C [°C], within 15 min of them",
	Limits:  []LimitOf{{"coldest", finding.Maker}, {"coldest", finding.House}, {"coldest", finding.Practice}, {"hottest", finding.Maker}, {"hottest", finding.Practice}, {"charge-voltage-max", finding.Maker}, {"charge-voltage-max", finding.Practice}, {"full", finding.Practice}, {"tail", finding.Maker}, {"tail", finding.Practice}},
	Sources: []*cite.Source{&cite.OpenOCV, &cite.ChargeByTemperature, &cite.CommonPractice, &cite.OurRule},
	Fields:  []*Field{&fullTemp.Field, &hoursHere.Field, &sheetColdest.Field, &sheetHottest.Field, &fullVoltage.Field, &fullCurrent.Field, &fullVoltage2.Field, &fullCurrent2.Field, &fullEnded.Field, &lastCurrent.Field, &sheetAbsorb.Field, &sheetTail.Field, &sheetVmax.Field},
	Parts:   onBlocks,
	Spare:   spareFull,
	Eval:    evalChargedFull,
}

var (
	sayFull       = say.Phrase{Key: "charged-full.pass", English: "{part} stood at {volts} or more with {amps} or less, twice a minute apart; full means at least {limit} with at most {tail}."}
	sayFullOver   = say.Phrase{Key: "charged-full.over", English: "{part} stood at {volts}, above its highest charge voltage of {most}."}
	sayFullTrip   = say.Phrase{Key: "charged-full.trip", English: "The current of {part} ended at once instead of falling slowly to the tail. A protection or the charger stopped it; that is not full."}
	sayFullNot    = say.Phrase{Key: "charged-full.cant-tell", English: "{part} stood at {volts} with {amps}; full means at least {limit} with at most {tail}, both by more than the meters may be wrong."}
	sayFullEdge   = say.Phrase{Key: "charged-full.edge", English: "{part} stood at {volts}, too close to its highest charge voltage of {most} for this meter."}
	sayFullBack   = say.Phrase{Key: "charged-full.backwards", English: "The current of {part} was read as flowing out of it. A block that gives current is not being charged, or the clamp is turned round."}
	sayFullClamp  = say.Phrase{Key: "charged-full.clamp", English: "Turn the clamp so that charging reads plus, then read voltage and current again."}
	sayFullUnseen = say.Phrase{Key: "charged-full.unseen", English: "Nobody saw how the current of {part} ended, and {amps} may be none at all. A protection that has opened shows the same."}
	sayFullOnce   = say.Phrase{Key: "charged-full.once", English: "The two samples of {part} are less than 60 s apart. One moment proves nothing."}
	sayFullPair   = say.Phrase{Key: "charged-full.pair", English: "Voltage and current of {part} were not read together; a sample is both within two minutes."}
	sayFullOld    = say.Phrase{Key: "charged-full.old", English: "{part} was charged {days} days ago; the proof holds for 7 days without use."}
	sayFullUsed   = say.Phrase{Key: "charged-full.used", English: "A current flowed after {part} was charged, so it need not be full any more."}
	sayFullClock  = say.Phrase{Key: "charged-full.clock", English: "The charge of {part} is dated later than now, so its age is not known."}
	sayFullUnused = say.Phrase{Key: "charged-full.assumed-unused", English: "No current since the charge is assumed; the time of the last current is not entered."}

	sayFullGoOn    = say.Phrase{Key: "charged-full.go-on", English: "Continue the charge until voltage and current both show full."}
	sayFullStop    = say.Phrase{Key: "charged-full.stop", English: "Stop the charge and lower the charger's voltage."}
	sayFullWatch   = say.Phrase{Key: "charged-full.watch", English: "Charge it again, warm enough, and watch the current fall slowly to the tail."}
	sayFullTwice   = say.Phrase{Key: "charged-full.twice", English: "Read voltage and current together, and both again at least 60 s later."}
	sayFullTopUp   = say.Phrase{Key: "charged-full.top-up", English: "Read its temperature; when it is warm enough, charge this block to full again by itself."}
	sayFullLower   = say.Phrase{Key: "charged-full.lower", English: "Lower the charger's voltage a little, or read with a finer meter."}
	sayFullFixTime = say.Phrase{Key: "charged-full.fix-time", English: "Correct the clock, or the time of the samples."}
)

const (
	// 0.7 % of charge at 3 % a month: our choice.
	fullHolds = 7 * 24 * time.Hour

	// Voltage and current of one sample belong together: our choice.
	onePair = 2 * time.Minute

	// A charge may go on for a while after its second sample: our choice.
	chargeEndsWithin = time.Hour
)

func evalChargedFull(f *Facts, part string) []finding.Finding {
	v1, has1 := fullVoltage.Of(f, part)
	v2, has2 := fullVoltage2.Of(f, part)
	t := f.readTail(fullCurrent, fullCurrent2, part, fullEnded, part)
	name, most := bank.Name(part), f.vmax(part)
	top := finding.AtMost("charge-voltage-max", most.Value, most.Kind, most.Source)
	if over, r := f.overTop(most.Value, v1, v2); over {
		found := finding.Measured(r, "V", top)
		return one(finding.Fails(sayFullOver.With("part", name, "volts", found.Text, "most", exact(most.Value, "V")), sayFullStop.With()).Value(found).Against(top))
	}
	tailLimit, unknown := f.tailOf(part)
	if t.tripped(tailLimit.Value, unknown == nil) {
		return one(finding.Fails(sayFullTrip.With("part", name), sayFullWatch.With()))
	}
	if x, cold := f.notWarmAlone(part, v1, v2, has1 || has2 || t.hasFirst || t.hasSecond); cold {
		return one(x)
	}
	if lack := firstMissing(
		need{has1, fullVoltage.Field, part}, need{t.hasFirst, fullCurrent.Field, part}, need{has2, fullVoltage2.Field, part},
		need{t.hasSecond, fullCurrent2.Field, part}, need{t.ended != "", fullEnded.Field, part},
	); lack != nil {
		return one(*lack)
	}
	if unknown != nil {
		return one(*unknown)
	}
	return one(f.judgeFull(part, v1, v2, t, tailLimit, most))
}

// judgeFull judges a block whose samples are all there.
func (f *Facts) judgeFull(part string, v1, v2 measure.Shown[unit.Volt], t tail, tailLimit base[unit.Ampere], most base[unit.Volt]) finding.Finding {
	full := f.fullFrom(part)
	limit := finding.AtLeast("full", full.Value, full.Kind, full.Source)
	low, high := absolute(f, v1), absolute(f, v2)
	if high.Value-high.U < low.Value-low.U {
		low, high = high, low
	}
	top := measure.Both(measure.AtMost(low.Interval(), most.Value), measure.AtMost(high.Interval(), most.Value))
	tailAs := finding.AtMost("tail", tailLimit.Value, tailLimit.Kind, tailLimit.Source)
	found, amps := finding.Measured(low, "V", limit), finding.Measured(t.larger(), "A", tailAs)
	said := []any{"part", bank.Name(part), "volts", found.Text, "amps", amps.Text, "limit", exact(full.Value, "V"), "tail", exact(tailLimit.Value, "A"), "most", exact(most.Value, "V")}
	needed := f.licensed(part)
	_, dated := f.age(v2.At)
	age, used := needed.at.Sub(v2.At), f.usedSinceFull(v2.At, needed)
	x := finding.Passes(sayFull.With(said...))
	switch {
	case measure.AtLeast(low.Interval(), full.Value) != measure.Inside:
		x = finding.CannotTell(sayFullNot.With(said...), sayFullGoOn.With())
	case t.side(tailLimit.Value) != measure.Inside:
		x, found, limit = finding.CannotTell(sayFullNot.With(said...), sayFullGoOn.With()), amps, tailAs
	case !apart(v1, v2) || !apart(t.firstShown, t.secondShown):
		x = finding.CannotTell(sayFullOnce.With(said...), sayFullTwice.With())
	case !together(v1.At, t.firstShown.At) || !together(v2.At, t.secondShown.At):
		x = finding.CannotTell(sayFullPair.With(said...), sayFullTwice.With())
	case t.backwards():
		x, found, limit = finding.CannotTell(sayFullBack.With(said...), sayFullClamp.With()), amps, tailAs
	case t.doubtful():
		x, found, limit = finding.CannotTell(sayFullUnseen.With(said...), sayFullWatch.With()), amps, tailAs
	case top != measure.Inside:
		x = finding.CannotTell(sayFullEdge.With(said...), sayFullLower.With())
	case !dated:
		x = finding.CannotTell(sayFullClock.With(said...), sayFullFixTime.With())
	case age > fullHolds:
		x = finding.CannotTell(sayFullOld.With(append(said, "days", exact(unit.Count(int(age.Hours()/24)), "1"))...), sayFullTopUp.With())
	case used:
		x = finding.CannotTell(sayFullUsed.With(said...), sayFullTopUp.With())
	}
	return x.Value(found).Against(limit)
}

// licensed is the moment for which the proof of full of a block counts: when
// the last of the links that it lets close was closed, or now while one is open.
// In series those are the links of its string, or of the bank where groups
// stand in series; with no series links, those that join the blocks.
func (f *Facts) licensed(block string) closingAct {
	kind, of := bank.Series, f.unitOf(block)
	if f.Layout().Series == 1 {
		kind = bank.Parallel
	}
	var last closingAct
	for _, l := range f.links {
		if l.Kind != kind || kind == bank.Series && l.Of != of {
			continue
		}
		act := f.actOf(l.ID)
		if !act.done {
			return act
		}
		if !last.done || act.at.After(last.at) {
			last = act
		}
	}
	if !last.done {
		return closingAct{at: f.now}
	}
	return last
}

// overTop finds a reading that is above the highest charge voltage for sure.
func (f *Facts) overTop(most unit.Volt, shown ...measure.Shown[unit.Volt]) (bool, measure.Reading[unit.Volt]) {
	for _, v := range shown {
		if v.Typed.Digits == "" { // not read
			continue
		}
		if r := absolute(f, v); measure.AtMost(r.Interval(), most) == measure.Outside {
			return true, r
		}
	}
	return false, measure.Reading[unit.Volt]{}
}

// together reports whether two readings belong to one sample.
func together(a, b time.Time) bool { d := b.Sub(a); return max(d, -d) <= onePair }

// usedSinceFull reports whether a current flowed after the charge of a block
// that no other block's charge accounts for, until the act that needed the
// proof.
func (f *Facts) usedSinceFull(charged time.Time, needed closingAct) bool {
	last, ok := lastCurrent.Of(f, "bank")
	if needed.done { // what flowed once the bank stood is no use of this proof
		if e, then := f.state.AsOf(f.key("bank", lastCurrent.Field), needed.lam); then {
			last, ok = parseTime(e.Value.Time)
		}
	}
	if !ok {
		f.assume(sayFullUnused.With())
		return false
	}
	return last.After(charged.Add(chargeEndsWithin)) && last.After(f.latestFull().Add(chargeEndsWithin))
}

// latestFull is when the last block of the bank was read as full.
func (f *Facts) latestFull() (latest time.Time) {
	f.quietly(func() {
		for _, b := range f.Layout().Blocks() {
			if v, ok := fullVoltage2.Of(f, b); ok && v.At.After(latest) {
				latest = v.At
			}
		}
	})
	return latest
}
