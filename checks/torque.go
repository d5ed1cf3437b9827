package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A bolt is tight when all that the wrench may have done lies in the maker's
// window.
//
// There is no usual torque: a post whose maker gives none cannot pass.
var torque = &Check{
	ID: "torque", Stage: Wire,
	Title:   say.Phrase{Key: "torque.title", English: "Torque"},
	Asks:    say.Phrase{Key: "torque.asks", English: "Is every bolt as tight as the maker of the block wants it?"},
	Formula: "T_low ≤ T·(1 − δ) and T·(1 + δ) ≤ T_high [N·m], δ of the wrench; one value: T ± 10 %; max. alone: 0.8·T to T",
	Limits:  []LimitOf{{"torque", finding.Maker}, {"torque", finding.Practice}},
	Sources: []*cite.Source{&cite.ISO6789, &cite.TorqueNominal, &cite.OurRule},
	Fields:  []*Field{&torqueSet.Field, &useTorque.Field},
	Parts:   func(f *Facts) ([]string, say.Line) { return f.Layout().Posts(), say.Line{} },
	Eval:    evalTorque,
}

var (
	sayTorqueIn    = say.Phrase{Key: "torque.pass", English: "Set to {set}; with this wrench that is {found}, inside the window of {limit}."}
	sayTorqueOut   = say.Phrase{Key: "torque.fail", English: "Set to {set}; with this wrench that is {found}, outside the window of {limit}."}
	sayTorqueEdge  = say.Phrase{Key: "torque.cant-tell", English: "Set to {set}; with this wrench that is {found}, which reaches across an end of the window of {limit}."}
	sayTorqueAgain = say.Phrase{Key: "torque.again", English: "Set the wrench to {middle}, the middle of the window, and tighten again."}
	sayTorqueStale = say.Phrase{Key: "torque.out-of-date", English: "Set to {set}, with a wrench that is past its calibration date. Nobody knows what it did."}
	sayTorqueClick = say.Phrase{Key: "torque.clicks", English: "Set to {set}, with a wrench that has clicked {clicks} times since its calibration; it is good for {limit}."}
	sayTorqueLow   = say.Phrase{Key: "torque.low-range", English: "Set to {set}, which is below {least}, a fifth of the largest torque of this wrench. Down there it may be far off."}
	sayTorqueHigh  = say.Phrase{Key: "torque.high-range", English: "Set to {set}, which is above {top}, the largest torque of this wrench. It cannot have clicked there."}
	sayTorqueTool  = say.Phrase{Key: "torque.which-wrench", English: "Set to {set}, but no torque wrench is entered. Whether it was in date and made for this torque is not known."}
	sayTorqueDue   = say.Phrase{Key: "torque.due-unknown", English: "Set to {set}, with a wrench whose calibration date is not entered. Whether it was in date is not known."}
	sayTorqueTop   = say.Phrase{Key: "torque.top-unknown", English: "Set to {set}, with a wrench whose largest torque is not entered. Below a fifth of it a wrench may be far off."}
	sayTorqueTurn  = say.Phrase{Key: "torque.reversed", English: "The sheet's window is entered as from {from} to {to}, the wrong way round."}
	sayTorqueOther = say.Phrase{Key: "torque.other-wrench", English: "Tighten again with a wrench that is in date and made for this torque."}
	sayTorqueNone  = say.Phrase{Key: "torque.no-window", English: "Set to {set}, but the maker's torque for this post is not entered. There is no torque that fits all posts."}
	sayTorqueMax   = say.Phrase{Key: "torque.max-only", English: "Set to {set}; with this wrench that is {found}. The sheet gives only a largest torque; until the maker says where it begins, our rule reads it as {limit}."}
	sayTorqueMin   = say.Phrase{Key: "torque.min-only", English: "Set to {set}; with this wrench that is {found}. The sheet gives only a smallest torque, {limit}, so too tight cannot be told."}

	sayAssumedWrench = say.Phrase{Key: "assumed.wrench", English: "Torque wrench ±{percent} assumed, as ISO 6789 classes it by its largest torque of {top}; its own sheet gives no deviation."}
	sayAssumedNoTool = say.Phrase{Key: "assumed.no-wrench", English: "Torque wrench ±{percent} assumed, the wider class: its largest torque is not entered."}
)

const (
	// ±4 % for wrenches whose largest torque is above 10 N·m, ±6 % up to it:
	// after ISO 6789-1:2017. The largest torque decides, not the one set.
	fineWrench   unit.Percent     = 4
	coarseWrench unit.Percent     = 6
	fineAbove    unit.NewtonMetre = 10

	// Below a fifth of its range a wrench is not trusted: from memory.
	wrenchFoot = 0.20

	// 5000 clicks, or the date, ends a calibration: from memory.
	wrenchClicksMost unit.Count = 5000

	// One printed torque without a window: 10 % either side, read in an
	// engineering text.
	nominalSpread = 0.10

	// "Max." alone: from 0.8 of it, until the maker confirms. Our choice.
	maxOnlyFoot = 0.80
)

// torqueWindow is what the sheet allows for a post.
type torqueWindow struct {
	limit     finding.Limit
	low, high unit.NewtonMetre
	begins    bool // the sheet says where it begins
	ends      bool // the sheet says where it ends
}

func evalTorque(f *Facts, post string) []finding.Finding {
	set, ok := torqueSet.Of(f, post)
	if !ok {
		return one(missing(torqueSet.Field, post))
	}
	if x, again := f.loosened(post, set.Lam, set.At); again {
		return one(x)
	}
	w, ask, ok := f.torqueWindow(bank.OwnerOf(post))
	if !ok {
		return one(finding.CannotTell(sayTorqueNone.With("set", typed(set)), ask))
	}
	if w.reversed() {
		return one(finding.CannotTell(sayTorqueTurn.With("from", exact(w.low, "N.m"), "to", exact(w.high, "N.m")), ask))
	}
	if x, bad := f.badWrench(set); bad {
		return one(x.Against(w.limit))
	}
	reading := measure.Reading[unit.NewtonMetre]{Value: set.Value, U: set.Value * unit.NewtonMetre(f.wrenchPercent(set)/100)}
	found := finding.Measured(reading, "N.m", w.limit)
	said := []any{"set", typed(set), "found", found.Text, "limit", w.limit.Line()}
	again := sayTorqueAgain.With("middle", exact((w.low+w.high)/2, "N.m"))
	var x finding.Finding
	switch {
	case w.begins && w.ends:
		x = finding.Judge(measure.Within(reading.Interval(), w.low, w.high), finding.Words{
			Pass: sayTorqueIn.With(said...), Fail: sayTorqueOut.With(said...), CantTell: sayTorqueEdge.With(said...), Mend: again,
		})
	case w.ends && measure.AtMost(reading.Interval(), w.high) == measure.Outside:
		x = finding.Fails(sayTorqueOut.With(said...), again)
	case w.ends:
		x = finding.CannotTell(sayTorqueMax.With(said...), ask)
	case measure.AtLeast(reading.Interval(), w.low) == measure.Outside:
		x = finding.Fails(sayTorqueOut.With(said...), ask)
	default:
		x = finding.CannotTell(sayTorqueMin.With(said...), ask)
	}
	if x.Verdict() == finding.Pass {
		if y, unknown := f.unknownWrench(set); unknown {
			x = y
		}
	}
	return one(x.Value(found).Against(w.limit))
}

// reversed reports a window that ends before it begins: a slip.
func (w torqueWindow) reversed() bool { return w.begins && w.ends && w.low > w.high }

// torqueWindow reads the window of a block's posts from its sheet; the line is
// what to enter where something of it is missing.
func (f *Facts) torqueWindow(block string) (w torqueWindow, ask say.Line, ok bool) {
	sheet, ok := f.sheetOf(block)
	if !ok {
		return w, enter(blockSheet.Field, block), false
	}
	low, begins := sheetTorqueMin.Plain(f, sheet)
	high, ends := sheetTorqueMax.Plain(f, sheet)
	nominal, single := sheetTorque.Plain(f, sheet)
	maker := f.makerSource(sheet)
	w = torqueWindow{low: low, high: high, begins: begins, ends: ends}
	switch {
	case begins && ends:
		w.limit = finding.Window("torque", low, high, finding.Maker, maker)
		return w, enter(sheetTorqueMin.Field, sheet), true
	case single:
		w = torqueWindow{low: nominal * (1 - nominalSpread), high: nominal * (1 + nominalSpread), begins: true, ends: true}
		if begins {
			w.low = low
		}
		if ends {
			w.high = high
		}
		w.limit = finding.Window("torque", w.low, w.high, finding.Practice, cite.TorqueNominal.Line())
	case ends:
		w.low = high * maxOnlyFoot
		w.limit = finding.Window("torque", w.low, high, finding.Practice, cite.OurRule.Line())
		return w, enter(sheetTorqueMin.Field, sheet), true
	case begins:
		w.limit = finding.AtLeast("torque", low, finding.Maker, maker)
		return w, enter(sheetTorqueMax.Field, sheet), true
	default:
		return w, enter(sheetTorque.Field, sheet), false
	}
	return w, say.Line{}, true
}

// wrench is the wrench that a torque was set with: the one named with it, else
// the one of this job.
func (f *Facts) wrench(set measure.Shown[unit.NewtonMetre]) string {
	id := set.Meter
	if id == "" {
		f.quietly(func() { id, _ = useTorque.Of(f, "bank") })
	}
	if kind, ok := bank.PartKind(id); !ok || kind != bank.KindWrench {
		return ""
	}
	return id
}

// badWrench says why a wrench proves nothing about this torque, if it does not.
func (f *Facts) badWrench(set measure.Shown[unit.NewtonMetre]) (x finding.Finding, bad bool) {
	id := f.wrench(set)
	if id == "" {
		return x, false
	}
	var reason say.Line
	f.quietly(func() {
		if f.overdue(id, set.At) {
			reason = sayTorqueStale.With("set", typed(set))
			return
		}
		if n, has := wrenchClicks.Plain(f, id); has && n > wrenchClicksMost {
			reason = sayTorqueClick.With("set", typed(set), "clicks", exact(n, "1"), "limit", exact(wrenchClicksMost, "1"))
			return
		}
		if top, has := wrenchTop.Plain(f, id); has && set.Value < top*wrenchFoot {
			reason = sayTorqueLow.With("set", typed(set), "least", exact(top*wrenchFoot, "N.m"))
		} else if has && set.Value > top*(1+1e-9) {
			reason = sayTorqueHigh.With("set", typed(set), "top", exact(top, "N.m"))
		}
	})
	if reason.Empty() {
		return x, false
	}
	return finding.CannotTell(reason, sayTorqueOther.With()), true
}

// unknownWrench says what of the wrench is not known that a Pass rests on:
// which it was, its date, its largest torque. It does not excuse a torque that
// is wholly outside.
func (f *Facts) unknownWrench(set measure.Shown[unit.NewtonMetre]) (x finding.Finding, unknown bool) {
	id := f.wrench(set)
	if id == "" {
		return finding.CannotTell(sayTorqueTool.With("set", typed(set)), enter(useTorque.Field, "bank")), true
	}
	f.quietly(func() {
		_, dated := meterDue.Of(f, id)
		_, topped := wrenchTop.Plain(f, id)
		switch {
		case !dated:
			x, unknown = finding.CannotTell(sayTorqueDue.With("set", typed(set)), enter(meterDue.Field, id)), true
		case !topped:
			x, unknown = finding.CannotTell(sayTorqueTop.With("set", typed(set)), enter(wrenchTop.Field, id)), true
		}
	})
	return x, unknown
}

// wrenchPercent is the deviation of the wrench: its sheet's, else its class.
func (f *Facts) wrenchPercent(set measure.Shown[unit.NewtonMetre]) unit.Percent {
	id := f.wrench(set)
	var own, class unit.Percent
	var top unit.NewtonMetre
	if id != "" {
		f.quietly(func() {
			own, _ = meterPercent.Plain(f, id)
			top, _ = wrenchTop.Plain(f, id)
		})
	}
	class = coarseWrench
	if top > fineAbove {
		class = fineWrench
	}
	switch {
	case own > 0:
		return own
	case top > 0:
		f.assume(sayAssumedWrench.With("percent", exact(class, "%"), "top", exact(top, "N.m")))
	default:
		f.assume(sayAssumedNoTool.With("percent", exact(class, "%")))
	}
	return class
}
