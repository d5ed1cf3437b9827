package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A joint is compared with itself: what it had when it was new, and what it
// has now.
//
// A joint that creeps a little at every visit never moves much against the last
// one, so it passes only against every visit that read it.
var jointDrift = &Check{
	ID: "joint-drift", Stage: Return, Visits: AtReturn,
	Title:   say.Phrase{Key: "joint-drift.title", English: "Joints since the last visit"},
	Asks:    say.Phrase{Key: "joint-drift.asks", English: "Has every bolted joint the resistance that it had?"},
	Formula: "R/R0 ≤ 1.20, or R − R0 ≤ 5 µΩ [Ω]",
	Limits:  []LimitOf{{"ratio", finding.Standard}, {"rise", finding.Practice}},
	Sources: []*cite.Source{&cite.IEEEJointDrift, &cite.OurRule},
	Fields:  []*Field{&jointCurrent.Field, &jointDrop.Field, &jointZero.Field},
	Parts:   jointParts,
	Eval:    evalJointDrift,
}

var (
	sayDriftGood  = say.Phrase{Key: "joint-drift.pass", English: "It has {now}, {change}; the limit is {limit}."}
	sayDriftBad   = say.Phrase{Key: "joint-drift.fail", English: "It has {now}, {change}; the limit is {limit}. It has come loose or corrodes."}
	sayDriftUnk   = say.Phrase{Key: "joint-drift.cant-tell", English: "It has {now}, {change}, too close to {limit} for these meters."}
	sayDriftCreep = say.Phrase{Key: "joint-drift.creeps", English: "It has {now}, {change}; the limit is {limit}. Against the last visit it hardly moved, but it creeps."}
	sayDriftWeak  = say.Phrase{Key: "joint-drift.low-current", English: "It has {now}, read at {amps}; to compare it with an earlier visit takes {least} or more."}
	sayDriftNone  = say.Phrase{Key: "joint-drift.none", English: "It has {now}."}
	sayDriftVague = say.Phrase{Key: "joint-drift.vague", English: "It has {now}; what {visit} read may be nothing at all, within its uncertainty."}
	sayDriftTimes = say.Phrase{Key: "joint-drift.times", English: "{found} times the {was} of {visit}"}
	sayDriftBy    = say.Phrase{Key: "joint-drift.by", English: "a change of {found} from the {was} of {visit}"}
	sayDriftAmps  = say.Phrase{Key: "joint-drift.more-current", English: "Read the joint again with {least} or more."}
)

const (
	// 20 % above its own first value: after IEEE 1188 and 450.
	jointGrown unit.Ratio = 1.20

	// Less current than this and a meter's last digit is what has drifted.
	driftLeast unit.Ampere = 50
)

// A rise up to the 5 µΩ by which like joints differ is none; up to 25 µΩ that is
// more than 20 %.
const jointGrownFrom = jointStep / unit.Ohm(jointGrown-1)

func evalJointDrift(f *Facts, part string) []finding.Finding {
	now, gap := f.jointShown(part)
	if gap != nil {
		return one(*gap)
	}
	limit := finding.AtMost("ratio", jointGrown, finding.Standard, cite.IEEEJointDrift.Line())
	here := f.jointOf(now, false, false)
	said := []any{"now", finding.Measured(here.r, "uOhm", finding.Limit{}).Text, "amps", typed(now.amps), "least", exact(driftLeast, "A")}
	if measure.AtLeast(measure.Exact(now.amps.Value).Interval(), driftLeast) != measure.Inside {
		return one(finding.CannotTell(sayDriftWeak.With(said...), sayDriftAmps.With(said...)).Against(limit))
	}
	all := baselines(f, func(then *Facts) (jointShown, bool) {
		s, lack := then.jointShown(part)
		return s, lack == nil
	})
	if len(all) == 0 {
		return one(finding.CannotTell(sayNoneYet.With("found", sayDriftNone.With(said...)), isFirst(part)).Against(limit))
	}
	x, _ := f.jointAgainst(part, now, all[0], said)
	if x.Verdict() != finding.Pass {
		return one(x)
	}
	for _, older := range all[1:] {
		if _, creeps := f.jointAgainst(part, now, older, said); creeps != nil {
			return one(*creeps)
		}
	}
	return one(x)
}

// jointAgainst judges a joint against one earlier visit; creeps is what to say
// where it does not pass there although it passes against a later one.
func (f *Facts) jointAgainst(part string, now jointShown, was baseline[jointShown], said []any) (x finding.Finding, creeps *finding.Finding) {
	then, before := was.At, was.Value
	volts := now.oneRange() && before.oneRange() && oneMeter(f, then, now.drop, before.drop) && oneMeter(f, then, now.zero, before.zero)
	amps := oneMeter(f, then, now.amps, before.amps)
	a, b := f.jointOf(now, volts, amps), then.jointOf(before, volts, amps)
	f.adopt(then)
	said = append(said[:len(said):len(said)], "visit", visitLine(was.Visit, before.drop.At), "was", rounded(b.r.Value, "uOhm"))
	limit := finding.AtMost("ratio", jointGrown, finding.Standard, cite.IEEEJointDrift.Line())
	var found finding.Found
	var side measure.Side
	change := sayDriftTimes
	if b.r.Value < jointGrownFrom {
		limit = finding.AtMost("rise", jointStep, finding.Practice, cite.OurRule.Line()).In("uOhm")
		rise := measure.Reading[unit.Ohm]{Value: a.r.Value - b.r.Value, U: unit.Ohm(measure.Combine(float64(a.r.U), float64(b.r.U)))}
		rise.U += f.sharedGain(now, volts, amps) * max(rise.Value, -rise.Value)
		found, side, change = finding.Measured(rise, "uOhm", limit), measure.AtMost(rise.Interval(), jointStep), sayDriftBy
	} else if r, ok := measure.Ratio(a.r, b.r); ok {
		found, side = finding.Measured(r, "ratio", limit), measure.AtMost(r.Interval(), jointGrown)
	} else {
		x = finding.CannotTell(sayDriftVague.With(said...), isFirst(part)).Against(limit)
		return x, &x
	}
	said = append(said, "change", change.With(append(said, "found", found.Text)...), "limit", limit.Line())
	x = finding.Judge(side, finding.Words{
		Pass: sayDriftGood.With(said...), Fail: sayDriftBad.With(said...), CantTell: sayDriftUnk.With(said...),
		Mend: sayJointRedo.With(), Settle: sayJointFiner.With(),
	}).Value(found).Against(limit)
	if side != measure.Inside {
		y := finding.CannotTell(sayDriftCreep.With(said...), sayJointRedo.With()).Value(found).Against(limit)
		creeps = &y
	}
	return x, creeps
}

// oneRange reports whether both drops were read by one meter on one range.
func (s jointShown) oneRange() bool {
	return s.drop.Meter == s.zero.Meter && s.drop.Decimals == s.zero.Decimals && s.drop.Typed.Unit == s.zero.Typed.Unit
}

// sharedGain is what the gains that fall out of a ratio still do to a rise.
func (f *Facts) sharedGain(s jointShown, volts, amps bool) (share unit.Ohm) {
	if volts {
		share += unit.Ohm(specOf(f, s.drop).Percent / 100)
	}
	if amps {
		share += unit.Ohm(specOf(f, s.amps).Percent / 100)
	}
	return share
}
