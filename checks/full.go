package checks

import (
	"time"

	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/unit"
)

// What "full" means, for one block charged alone and for a bank: the voltage
// is up, the current has fallen to the tail, and both stood so for a minute.

const (
	// The lower of 14.2 V and the maker's absorption less 0.2 V; 14.0 V where
	// the sheet is silent. On the curve of the open data 14.0 V is above 99 %.
	// Asking for the absorption voltage itself could never be met with an
	// uncertainty.
	fullAtMost, fullBelow, fullSilent unit.Volt = 14.2, 0.2, 14.0

	// The tail is 0.05 of the capacity per hour where the maker names none: a
	// trade article.
	tailRate unit.Ratio = 0.05

	// Two samples a minute apart: our choice. One alone can be a moment.
	twoSamples = 60 * time.Second

	// Above twice the tail a current does not end by itself: whatever stopped it
	// was a protection or a charger.
	surelyCharging = 2
)

// fullFrom is the voltage from which a block counts as full.
func (f *Facts) fullFrom(block string) base[unit.Volt] {
	v := fullSilent
	if s := lowest(f, sheetAbsorb, block); s.Any() {
		v = min(fullAtMost, s.Value-fullBelow)
	}
	return base[unit.Volt]{v, finding.Practice, cite.OpenOCV.Line()}
}

// tailOf is the current below which the blocks of a part count as full; the
// finding says what is missing. For a group it is the sum of its blocks' tails.
func (f *Facts) tailOf(part string) (base[unit.Ampere], *finding.Finding) {
	side := unit.Ampere(1)
	for _, g := range f.Layout().Groups() {
		if g.ID == part {
			side = unit.Ampere(len(g.Blocks))
		}
	}
	maker := lowest(f, sheetTail, part)
	if maker.All() {
		b := maker.Base(f)
		b.Value *= side
		return b, nil
	}
	c := f.capacity(part)
	if !c.All() {
		x := c.Missing()
		return base[unit.Ampere]{}, &x
	}
	tail := unit.Ampere(float64(c.Value) * float64(tailRate))
	if maker.Any() && maker.Value < tail {
		b := maker.Base(f)
		b.Value *= side
		return b, nil
	}
	return base[unit.Ampere]{tail * side, finding.Practice, cite.CommonPractice.Line()}, nil
}

// size is a current without its direction: a clamp put on backwards must not
// make a large current look small.
func size(r measure.Reading[unit.Ampere]) measure.Reading[unit.Ampere] {
	r.Value = max(r.Value, -r.Value)
	return r
}

// tail is two readings of a falling current and how it ended.
type tail struct {
	first, second           measure.Reading[unit.Ampere]
	hasFirst, hasSecond     bool
	firstShown, secondShown measure.Shown[unit.Ampere]
	ended                   string // the code of the answer; "" none
}

// readTail reads both currents of a part, and how the current ended from of.
func (f *Facts) readTail(one, two Quantity[unit.Ampere], part string, how ChoiceField, of string) (t tail) {
	t.firstShown, t.hasFirst = one.Of(f, part)
	t.secondShown, t.hasSecond = two.Of(f, part)
	t.ended, _ = how.Of(f, of)
	if t.hasFirst {
		t.first = size(absolute(f, t.firstShown))
	}
	if t.hasSecond {
		t.second = size(absolute(f, t.secondShown))
	}
	return t
}

// tripped reports whether the current ended at once instead of falling to the
// tail: somebody saw it, or the readings show it.
func (t tail) tripped(limit unit.Ampere, known bool) bool {
	return t.ended == "dropped" || known && t.hasFirst && t.hasSecond &&
		measure.AtMost(t.first.Interval(), surelyCharging*limit) == measure.Outside && t.second.Value-t.second.U <= 0
}

// doubtful reports whether nobody saw the current fall and nothing shows that
// it still flowed: a protection that has opened looks the same.
func (t tail) doubtful() bool {
	return t.ended != "fell-slowly" && !(t.first.Value-t.first.U > 0 && t.second.Value-t.second.U > 0)
}

// backwards reports whether a current surely flows out: the block gives, or the
// clamp is turned round; neither is the end of a charge.
func (t tail) backwards() bool {
	return float64(t.firstShown.Value)+float64(t.first.U) < 0 || float64(t.secondShown.Value)+float64(t.second.U) < 0
}

// side is whether both currents keep the tail.
func (t tail) side(limit unit.Ampere) measure.Side {
	return measure.Both(measure.AtMost(t.first.Interval(), limit), measure.AtMost(t.second.Interval(), limit))
}

// larger is the one of both currents that reaches further.
func (t tail) larger() measure.Reading[unit.Ampere] {
	if t.second.Value+t.second.U > t.first.Value+t.first.U {
		return t.second
	}
	return t.first
}

// apart reports whether two readings were taken a minute or more apart.
func apart[Q unit.Quantity](a, b measure.Shown[Q]) bool {
	d := b.At.Sub(a.At)
	return max(d, -d) >= twoSamples
}

// A round over the blocks of one string takes minutes: our choice.
const oneRound = 10 * time.Minute

// alongside reports whether a current was read together with a round of
// voltages: during it, or within two minutes of one of its ends.
func alongside(current time.Time, volts []time.Time) bool {
	if len(volts) == 0 {
		return false
	}
	first, last := volts[0], volts[0]
	for _, at := range volts {
		if at.Before(first) {
			first = at
		}
		if at.After(last) {
			last = at
		}
	}
	return last.Sub(first) <= oneRound && !current.Before(first.Add(-onePair)) && !current.After(last.Add(onePair))
}

// clockSlack is how far two phones' clocks may differ: our choice.
const clockSlack = 2 * time.Minute

// age is how old a reading is; false when it is dated after now, so that its
// age is not known.
func (f *Facts) age(read time.Time) (time.Duration, bool) {
	d := f.now.Sub(read)
	return max(d, 0), d >= -clockSlack
}
