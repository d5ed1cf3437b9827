package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/figure"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// stop is one reading of a run along the bank.
type stop struct {
	part  string
	field Field
	shown measure.Shown[unit.Volt]
}

// pair is the worst pair of a run: the highest and the lowest reading as far
// as the uncertainty of the pair goes.
type pair struct {
	high, low stop
	spread    measure.Reading[unit.Volt]
}

// matchRun gives the readings that a match of this part compares: the blocks
// of a string or group, all blocks of groups in series, or the totals of the
// strings. The finding says what is missing; nil when nothing is.
func (f *Facts) matchRun(part string) ([]stop, *finding.Finding) {
	var run []stop
	var parts []string
	quantity := restVoltage
	switch {
	case part != "bank":
		parts = f.BlocksOf(part)
	case f.Layout().Join == bank.JoinGroups:
		parts = f.Layout().Blocks()
	default:
		for _, u := range f.Layout().Strings() {
			parts = append(parts, u.ID)
			if len(u.Blocks) > 1 {
				quantity = totalVoltage
			}
		}
		if quantity.ID == restVoltage.ID { // strings of one block: the block is the string
			parts = f.Layout().Blocks()
		}
	}
	var lack *finding.Finding
	for _, p := range parts {
		v, ok := quantity.Of(f, p)
		if !ok {
			if lack == nil {
				x := missing(quantity.Field, p)
				lack = &x
			}
			continue
		}
		run = append(run, stop{p, quantity.Field, v})
	}
	return run, lack
}

// wasOn reports whether a link was closed when a reading was taken: by the
// order of the record, where two people differ it may have been; and also when
// it is closed now and nothing says that it was closed later than the reading.
// What an earlier visit left closed is closed until somebody enters otherwise.
func (f *Facts) wasOn(link string, lam int, read time.Time) bool {
	k := f.key(link, closed.Field)
	e, standing := f.state.StandingAsOf(k, lam)
	if standing == job.Conflict || standing == job.One && e.Value.Choice == "yes" || standing == job.Missing && f.leftClosed(link) {
		return true
	}
	e, standing = f.state.Get(k)
	return standing == job.One && e.Value.Choice == "yes" && !entryTime(e).After(read)
}

// worstPair finds the pair of readings whose difference reaches furthest with
// the uncertainty of that pair. Of those read alike only the highest and the
// lowest can be in it.
func worstPair(f *Facts, run []stop, closing unit.Volt) pair {
	var worst pair
	kept := outermost(run, func(s stop) unit.Volt { return s.shown.Value }, func(s stop) string { return readAlike(s.shown) })
	for i, a := range kept {
		for _, b := range kept[i+1:] {
			high, low := a, b
			if b.shown.Value > a.shown.Value {
				high, low = b, a
			}
			d := difference(f, high.shown, low.shown, closing)
			if worst.high.part == "" || d.Value+d.U > worst.spread.Value+worst.spread.U {
				worst = pair{high, low, d}
			}
		}
	}
	return worst
}

// closing is the drift of a long run: the first block of the bank, with which
// every round begins, read again at the end. ok is false when the run was long
// and nobody did so after its last reading.
func (f *Facts) closing(run []stop) (drift unit.Volt, ok bool) {
	first, last := firstRead(run), run[0].shown.At
	for _, s := range run {
		if s.shown.At.After(last) {
			last = s.shown.At
		}
	}
	var begun, again measure.Shown[unit.Volt]
	var both bool
	f.quietly(func() {
		var hasBegun, hasAgain bool
		begun, hasBegun = restVoltage.Of(f, f.Layout().Blocks()[0])
		again, hasAgain = restClose.Of(f, "bank")
		both = hasBegun && hasAgain && !again.At.Before(last)
	})
	if both && run[0].field.ID == restVoltage.ID {
		return max(again.Value-begun.Value, begun.Value-again.Value), true
	}
	return 0, last.Sub(first) <= longRun && len(run) <= longRunBlocks
}

// firstRead is when the first reading of a run was taken.
func firstRead(run []stop) time.Time {
	first := run[0].shown.At
	for _, s := range run {
		if s.shown.At.Before(first) {
			first = s.shown.At
		}
	}
	return first
}

// joinedDuring finds a parallel link that was already closed when one of the
// readings it joins was taken: such readings always agree.
func (f *Facts) joinedDuring(run []stop) (link string, joined bool) {
	in, when := map[string]int{}, map[string]time.Time{}
	for _, s := range run {
		for _, b := range f.BlocksOf(s.part) {
			in[b], when[b] = s.shown.Lam, s.shown.At
		}
	}
	for _, l := range f.links {
		if l.Kind != bank.Parallel {
			continue
		}
		count, latest := 0, 0
		var at time.Time
		for _, b := range f.BlocksOf(l.ID) {
			if lam, ok := in[b]; ok {
				count++
				if lam > latest {
					latest, at = lam, when[b]
				}
			}
		}
		if count < 2 {
			continue
		}
		if f.wasOn(l.ID, latest, at) {
			return l.ID, true
		}
	}
	return "", false
}

// nextOf is what would let the named check pass, for a next action.
func (f *Facts) nextOf(c *Check, part string) say.Line {
	if next := f.worst(c, part).Next(); !next.Empty() {
		return next
	}
	return sayAfterFirst.With("need", c.Title)
}

// ends says both ends of what was found, rounded outward.
func ends(v finding.Found) (low, high say.Figure) {
	show := v.Show
	if show == "" {
		show = v.Unit
	}
	return figure.Range(max(v.Low, 0), v.High, show, 3)
}

// The flat part of the resting curve of a 12.8 V block: between these volts a
// match says little about charge. Open data, a slow charge and a slow
// discharge of one cell, times four.
const flatLow, flatHigh unit.Volt = 13.10, 13.45

// onFlat reports whether any reading of the run lies on the flat part.
func (f *Facts) onFlat(run []stop) bool {
	for _, s := range run {
		n := unit.Volt(1)
		if s.field.ID == totalVoltage.ID {
			n = unit.Volt(f.Layout().Series)
		}
		if s.shown.Value >= flatLow*n && s.shown.Value <= flatHigh*n {
			return true
		}
	}
	return false
}
