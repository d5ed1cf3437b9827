package checks

import (
	"slices"
	"time"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// The first charge is done when every block stands at the top and the current
// of every string has fallen to the tail; the bank's own voltage and a lamp on
// the charger do not show that.
var chargeDone = &Check{
	ID: "charge-done", Stage: FirstCharge,
	Title:   say.Phrase{Key: "charge-done.title", English: "Charge done"},
	Asks:    say.Phrase{Key: "charge-done.asks", English: "Is every block full, and has the current of every string fallen to its tail?"},
	Formula: "U_block ≥ U_full [V] and I_string ≤ I_tail [A], two readings ≥ 60 s apart; U_block ≤ V_max",
	Limits:  []LimitOf{{"charge-voltage-max", finding.Maker}, {"charge-voltage-max", finding.Practice}, {"full", finding.Practice}, {"tail", finding.Maker}, {"tail", finding.Practice}},
	Sources: []*cite.Source{&cite.OpenOCV, &cite.CommonPractice, &cite.OurRule},
	Fields: []*Field{&topVoltage.Field, &tailCurrent.Field, &topVoltage2.Field, &tailCurrent2.Field, &chargeEnded.Field,
		&sheetAbsorb.Field, &sheetTail.Field, &sheetCapacity.Field, &sheetVmax.Field},
	Parts: onBank,
	Eval:  evalChargeDone,
}

var (
	sayDone       = say.Phrase{Key: "charge-done.pass", English: "The lowest block is {part} at {volts}; full means at least {limit}. Every string is at its tail, {amps} at most; twice a minute apart."}
	sayDoneOver   = say.Phrase{Key: "charge-done.over", English: "{part} stands at {volts}, above its highest charge voltage of {most}."}
	sayDoneTrip   = say.Phrase{Key: "charge-done.trip", English: "The current of {part} ended at once instead of falling slowly to the tail. A protection or the charger stopped it; that is not full."}
	sayDoneVolts  = say.Phrase{Key: "charge-done.volts", English: "{part} stands at {volts}; full means at least {limit}, by more than the meter may be wrong."}
	sayDoneAmps   = say.Phrase{Key: "charge-done.amps", English: "{part} still takes {amps}; full means at most {limit}, by more than the meter may be wrong."}
	sayDoneOnce   = say.Phrase{Key: "charge-done.once", English: "The two samples of {part} are less than 60 s apart. One moment proves nothing."}
	sayDoneUnseen = say.Phrase{Key: "charge-done.unseen", English: "Nobody saw how the current ended, and {amps} in {part} may be none at all. A protection that has opened shows the same."}
	sayDoneEdge   = say.Phrase{Key: "charge-done.edge", English: "{part} stands at {volts}, too close to its highest charge voltage of {most} for this meter."}

	sayDonePair = say.Phrase{Key: "charge-done.pair", English: "The blocks of {part} and its current were not read together; a sample is both within two minutes."}
	sayDoneBack = say.Phrase{Key: "charge-done.backwards", English: "The current of {part} was read as flowing out of it. A string that gives current is not being charged, or the clamp is turned round."}

	sayDoneHold  = say.Phrase{Key: "charge-done.hold", English: "Hold the absorption until every string reaches its tail."}
	sayDoneStop  = say.Phrase{Key: "charge-done.stop", English: "Stop the charge now and lower the charger's voltage."}
	sayDoneWatch = say.Phrase{Key: "charge-done.watch", English: "Charge again and watch the current fall slowly to the tail."}
	sayDoneTwice = say.Phrase{Key: "charge-done.twice", English: "Read the blocks and the strings again, at least 60 s after the first time."}
)

// topped is one block at the end of charge.
type topped struct {
	block       string
	v1, v2      measure.Shown[unit.Volt]
	low, high   measure.Reading[unit.Volt] // of the two readings
	most        base[unit.Volt]
	has1, has2  bool
	once, above bool
}

func evalChargeDone(f *Facts, _ string) []finding.Finding {
	var needs []need
	var blocks []topped
	for _, b := range f.Layout().Blocks() {
		t := f.readTop(b)
		blocks = append(blocks, t)
		needs = append(needs, need{t.has1, topVoltage.Field, b}, need{t.has2, topVoltage2.Field, b})
		if t.above {
			top := finding.AtMost("charge-voltage-max", t.most.Value, t.most.Kind, t.most.Source)
			found := finding.Measured(t.high, "V", top)
			said := []any{"part", bank.Name(b), "volts", found.Text, "most", exact(t.most.Value, "V")}
			return one(finding.Fails(sayDoneOver.With(said...), sayDoneStop.With()).Value(found).Against(top).About(b))
		}
	}
	var tails []stringTail
	var unknown *finding.Finding
	for _, u := range f.Layout().Units() {
		t := stringTail{part: u.ID, tail: f.readTail(tailCurrent, tailCurrent2, u.ID, chargeEnded, "bank")}
		limit, lack := f.tailOf(u.ID)
		if t.limit = limit; lack != nil && unknown == nil {
			unknown = lack
		}
		if t.tripped(limit.Value, lack == nil) {
			return one(finding.Fails(sayDoneTrip.With("part", bank.Name(u.ID)), sayDoneWatch.With()).About(u.ID))
		}
		tails = append(tails, t)
		needs = append(needs, need{t.hasFirst, tailCurrent.Field, u.ID}, need{t.hasSecond, tailCurrent2.Field, u.ID})
	}
	_, answered := chargeEnded.Of(f, "bank")
	if lack := firstMissing(append(needs, need{answered, chargeEnded.Field, "bank"})...); lack != nil {
		return one(*lack)
	}
	if unknown != nil {
		return one(*unknown)
	}
	return one(f.judgeDone(blocks, tails))
}

// stringTail is the tail of one string or group and what it is held against.
type stringTail struct {
	tail
	part  string
	limit base[unit.Ampere]
}

// readTop reads a block at the end of charge.
func (f *Facts) readTop(block string) (t topped) {
	t = topped{block: block, most: f.vmax(block)}
	t.v1, t.has1 = topVoltage.Of(f, block)
	t.v2, t.has2 = topVoltage2.Of(f, block)
	var read []measure.Reading[unit.Volt]
	if t.has1 {
		read = append(read, absolute(f, t.v1))
	}
	if t.has2 {
		read = append(read, absolute(f, t.v2))
	}
	for i, r := range read {
		if i == 0 || r.Value-r.U < t.low.Value-t.low.U {
			t.low = r
		}
		if i == 0 || r.Value+r.U > t.high.Value+t.high.U {
			t.high = r
		}
		t.above = t.above || measure.AtMost(r.Interval(), t.most.Value) == measure.Outside
	}
	t.once = !apart(t.v1, t.v2)
	return t
}

// judgeDone judges blocks and strings of which everything was read.
func (f *Facts) judgeDone(blocks []topped, tails []stringTail) finding.Finding {
	lowest := blocks[0]
	for _, t := range blocks {
		full := f.fullFrom(t.block)
		limit := finding.AtLeast("full", full.Value, full.Kind, full.Source)
		found := finding.Measured(t.low, "V", limit)
		said := []any{"part", bank.Name(t.block), "volts", found.Text, "limit", exact(full.Value, "V"), "most", exact(t.most.Value, "V")}
		var x finding.Finding
		switch {
		case measure.AtLeast(t.low.Interval(), full.Value) != measure.Inside:
			x = finding.CannotTell(sayDoneVolts.With(said...), sayDoneHold.With())
		case t.once:
			x = finding.CannotTell(sayDoneOnce.With(said...), sayDoneTwice.With())
		case measure.AtMost(t.high.Interval(), t.most.Value) != measure.Inside:
			limit = finding.AtMost("charge-voltage-max", t.most.Value, t.most.Kind, t.most.Source)
			found = finding.Measured(t.high, "V", limit)
			x = finding.CannotTell(sayDoneEdge.With("part", bank.Name(t.block), "volts", found.Text, "most", exact(t.most.Value, "V")), sayFullLower.With())
		default:
			if t.low.Value-t.low.U < lowest.low.Value-lowest.low.U {
				lowest = t
			}
			continue
		}
		return x.Value(found).Against(limit).About(t.block)
	}
	blocksOf := func(part string, again bool) (times []time.Time) {
		for _, t := range blocks {
			switch {
			case !slices.Contains(f.BlocksOf(part), t.block):
			case again:
				times = append(times, t.v2.At)
			default:
				times = append(times, t.v1.At)
			}
		}
		return times
	}
	most := tails[0]
	for _, t := range tails {
		limit := finding.AtMost("tail", t.limit.Value, t.limit.Kind, t.limit.Source)
		found := finding.Measured(t.larger(), "A", limit)
		said := []any{"part", bank.Name(t.part), "amps", found.Text, "limit", exact(t.limit.Value, "A")}
		var x finding.Finding
		switch {
		case t.side(t.limit.Value) != measure.Inside:
			x = finding.CannotTell(sayDoneAmps.With(said...), sayDoneHold.With())
		case !apart(t.firstShown, t.secondShown):
			x = finding.CannotTell(sayDoneOnce.With(said...), sayDoneTwice.With())
		case !alongside(t.firstShown.At, blocksOf(t.part, false)) || !alongside(t.secondShown.At, blocksOf(t.part, true)):
			x = finding.CannotTell(sayDonePair.With(said...), sayDoneTwice.With())
		case t.backwards():
			x = finding.CannotTell(sayDoneBack.With(said...), sayFullClamp.With())
		case t.doubtful():
			x = finding.CannotTell(sayDoneUnseen.With(said...), sayDoneWatch.With())
		default:
			if t.larger().Value > most.larger().Value {
				most = t
			}
			continue
		}
		return x.Value(found).Against(limit).About(t.part)
	}
	full := f.fullFrom(lowest.block)
	limit := finding.AtLeast("full", full.Value, full.Kind, full.Source)
	found := finding.Measured(lowest.low, "V", limit)
	amps := finding.Measured(most.larger(), "A", finding.AtMost("tail", most.limit.Value, most.limit.Kind, most.limit.Source))
	return finding.Passes(sayDone.With("part", bank.Name(lowest.block), "volts", found.Text, "limit", exact(full.Value, "V"), "amps", amps.Text)).Value(found).Against(limit)
}
