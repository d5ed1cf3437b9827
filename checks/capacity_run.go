package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// capacityRule is what a test is held to, and what is said of it.
type capacityRule struct {
	check       string
	rated       base[unit.Ratio] // at least so much of rated passes
	floor       unit.Ratio       // less than this fails
	bad, middle say.Phrase
	mend, again say.Phrase
}

// newBlocks: 100 % of rated, 95 % the floor.
func newBlocks() capacityRule {
	return capacityRule{"capacity", base[unit.Ratio]{capacityRated, finding.Standard, cite.IEC62620.Line()}, capacityFloor, sayCapBad, sayCapBetween, sayCapWeak, sayCapRepeat}
}

// capacityRun judges one test without looking at the others.
func (f *Facts) capacityRun(part string, rule capacityRule) capacityRun {
	r := capacityRun{target: "bank"}
	charge, gap := f.runCharge(part)
	if gap != nil {
		r.answer = *gap
		return r
	}
	r.charge = charge
	if target, ok := capTarget.Of(f, part); ok && len(f.BlocksOf(target)) > 0 {
		r.target = target
	}
	rated, silent := f.ratedCharge(r.target)
	if silent.Silent != "" {
		found := finding.Measured(charge, "Ah", finding.Limit{})
		r.answer = finding.CannotTell(sayCapNoRated.With("found", found.Text), silent.Enter()).Value(found)
		return r
	}
	ratio, least, notes := lower(f, rule.check, "rated", rule.rated)
	r.least = rated * unit.AmpereHour(least)
	r.limit = finding.AtLeast("rated", r.least, ratio.Kind, ratio.Source)
	found := finding.Measured(charge, "Ah", r.limit)
	floor := rated * unit.AmpereHour(rule.floor)
	said := []any{"found", found.Text, "limit", r.limit.Line(), "floor", exact(floor, "Ah"),
		"low", exact(testColdest, "C"), "high", exact(testHottest, "C")}
	x := f.weighRun(&r, part, rated, floor, said, rule)
	if why, _ := capWhy.Of(f, part); why == "inverter" {
		p := sayCapUnusable
		if measure.AtLeast(charge.Interval(), floor) == measure.Inside {
			p = sayCapUsable
		}
		notes = append(notes, p.With("found", found.Text, "floor", exact(floor, "Ah")))
	}
	r.answer = x.Value(found).Against(r.limit).Noting(notes...)
	return r
}

// weighRun gives the verdict of one run. What could have kept the charge low
// forbids a Fail; what could have made it look high forbids a Pass.
func (f *Facts) weighRun(r *capacityRun, part string, rated, floor unit.AmpereHour, said []any, rule capacityRule) finding.Finding {
	full, known := capFull.Of(f, part)
	temp, warm := capTemp.Read(f, part)
	if warm {
		said = append(said, "temp", finding.Measured(temp, "C", finding.Limit{}).Text)
	}
	switch {
	case !known:
		return finding.CannotTell(sayCapFullUnk.With(said...), enter(capFull.Field, part))
	case full != "yes":
		return finding.CannotTell(sayCapNotFull.With(said...), sayCapProve.With())
	case !warm:
		return finding.CannotTell(sayCapTempUnk.With(said...), enter(capTemp.Field, part))
	}
	amps, hasAmps := f.runAmps(part, r.charge.Value)
	rate, stated := f.ratedAmps(r.target, rated)
	said = append(said, "amps", rounded(amps, "A"), "rate", rounded(rate, "A"))
	if t, ok := capHours.Plain(f, part); ok && hasAmps {
		by := unit.AmpereHour(float64(amps) * float64(t) / 3600)
		if off := max(r.charge.Value-by, by-r.charge.Value); off > r.charge.U+unit.AmpereHour(contradicts)*by {
			return finding.CannotTell(sayCapAgainst.With(append(said, "by", rounded(by, "Ah"))...), sayCapRecheck.With())
		}
	}
	tooFast := finding.CannotTell(sayCapRate.With(said...), sayCapSlower.With(said...))
	if measure.AtLeast(r.charge.Interval(), r.least) == measure.Inside {
		switch {
		case measure.AtMost(temp.Interval(), testHottest) != measure.Inside:
			return finding.CannotTell(sayCapHot.With(said...), sayCapMild.With())
		case stated && hasAmps && amps > rate:
			return tooFast
		}
		return finding.Passes(sayCapGood.With(said...))
	}
	if !stated {
		f.assume(sayAssumedRate.With("rate", rounded(rate, "A")))
	}
	switch {
	case f.stoppedEarly(part, r.target):
		return finding.CannotTell(sayCapEarly.With(said...), sayCapOn.With())
	case measure.AtLeast(temp.Interval(), testColdest) != measure.Inside:
		return finding.CannotTell(sayCapCold.With(said...), sayCapMild.With())
	case !hasAmps:
		return missing(capCurrent.Field, part)
	case amps > rate*(1+1e-9):
		return tooFast
	}
	r.proper = true
	if measure.AtLeast(r.charge.Interval(), floor) == measure.Outside {
		return finding.Fails(rule.bad.With(said...), rule.mend.With())
	}
	return finding.CannotTell(rule.middle.With(said...), rule.again.With())
}

// runCharge is the charge that a run delivered, with the uncertainty that was
// entered for it, else that of its counter's sheet, else that of a common
// counter over the duration of the run.
func (f *Facts) runCharge(part string) (measure.Reading[unit.AmpereHour], *finding.Finding) {
	q, ok := capCharge.Of(f, part)
	if !ok {
		x := missing(capCharge.Field, part)
		return measure.Reading[unit.AmpereHour]{}, &x
	}
	if u, ok := capError.Plain(f, part); ok {
		return measure.Reading[unit.AmpereHour]{Value: q.Value, U: u}, nil
	}
	if m, ok := f.sheetMeter(q.Meter, "Ah"); ok {
		return measure.Absolute(q, m), nil
	}
	hours, ok := f.runHours(part, q.Value)
	if !ok {
		x := missing(capHours.Field, part)
		return measure.Reading[unit.AmpereHour]{}, &x
	}
	gain, offset := float64(counterPercent)/100, float64(counterOffset)
	aged := unit.AmpereHour(1)
	if m, ok := f.sheetMeter(q.Meter, "A"); ok {
		gain, offset = m.Percent/100, m.Counts*m.Step
		if m.OutOfDate {
			aged = 2
			f.assume(sayOutOfDate.With())
		}
	} else {
		f.assume(sayAssumedCounter.With("hours", rounded(unit.Second(hours*3600), "h")))
	}
	u := bounded(unit.AmpereHour(gain*float64(q.Value)), unit.AmpereHour(offset*hours))
	return measure.Reading[unit.AmpereHour]{Value: q.Value, U: aged * u}, nil
}

// runHours is how long a run took: as entered, else from its charge and current.
func (f *Facts) runHours(part string, q unit.AmpereHour) (float64, bool) {
	if t, ok := capHours.Plain(f, part); ok && t > 0 {
		return float64(t) / 3600, true
	}
	if amps, ok := capCurrent.Plain(f, part); ok && amps > 0 {
		return float64(q) / float64(amps), true
	}
	return 0, false
}

// runAmps is the current of a run: as entered, else its mean.
func (f *Facts) runAmps(part string, q unit.AmpereHour) (unit.Ampere, bool) {
	if amps, ok := capCurrent.Plain(f, part); ok {
		return amps, true
	}
	if t, ok := capHours.Plain(f, part); ok && t > 0 {
		return unit.Ampere(float64(q) / (float64(t) / 3600)), true
	}
	return 0, false
}

// ratedCharge is what the sheets promise for a block, a string, a group or the
// bank: in series the least, side by side the sum.
func (f *Facts) ratedCharge(target string) (unit.AmpereHour, stated[unit.AmpereHour]) {
	all := f.capacity(target)
	of := func(block string) unit.AmpereHour { return f.capacity(block).Value }
	series := func(blocks []string) (least unit.AmpereHour) {
		for i, b := range blocks {
			if q := of(b); i == 0 || q < least {
				least = q
			}
		}
		return least
	}
	sum := func(blocks []string) (total unit.AmpereHour) {
		for _, b := range blocks {
			total += of(b)
		}
		return total
	}
	switch kind, _ := bank.PartKind(target); {
	case kind == bank.KindGroup:
		return sum(f.BlocksOf(target)), all
	case kind != bank.KindBank:
		return series(f.BlocksOf(target)), all
	case f.Layout().Join == bank.JoinGroups:
		var least unit.AmpereHour
		for i, g := range f.Layout().Groups() {
			if q := sum(g.Blocks); i == 0 || q < least {
				least = q
			}
		}
		return least, all
	}
	var total unit.AmpereHour
	for _, s := range f.Layout().Strings() {
		total += series(s.Blocks)
	}
	return total, all
}

// ratedAmps is the current at which the capacity is rated: the sheet's, for as
// many blocks as stand side by side, else 0.2 of the capacity.
func (f *Facts) ratedAmps(target string, rated unit.AmpereHour) (amps unit.Ampere, stated bool) {
	own, block := lowest(f, sheetRate, target), f.capacity(target)
	if own.All() && block.All() && block.Value > 0 {
		return own.Value * unit.Ampere(rated/block.Value), true
	}
	return unit.Ampere(ratedAt * float64(rated)), false
}

// stoppedEarly reports whether more may have been in the bank when the run
// ended: it did not end at the cut-off, or it ended above it.
func (f *Facts) stoppedEarly(part, target string) bool {
	why, known := capWhy.Of(f, part)
	if !known || why == "person" || why == "inverter" {
		return true
	}
	end, ok := capEnd.Read(f, part)
	if !ok || why == "protection" {
		return false
	}
	series := f.Layout().Series
	if kind, _ := bank.PartKind(target); kind == bank.KindBlock || kind == bank.KindGroup {
		series = 1
	}
	cutoff := usualCutoff
	if own := highest(f, sheetCutoff, target); own.All() {
		cutoff = own.Value
	}
	return end.Value-end.U > cutoff*unit.Volt(series)
}
