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

// Near full the curve is steep, so there the blocks of a string show whether
// they hold the same charge.
var topSpread = &Check{
	ID: "top-spread", Stage: FirstCharge,
	Title:   say.Phrase{Key: "top-spread.title", English: "Even at the top"},
	Asks:    say.Phrase{Key: "top-spread.asks", English: "Do the blocks in series stand alike at the end of charge?"},
	Formula: "max U − min U ≤ 0.20 V [V] in a string, fail above 0.50 V; all within 2 min, I ≤ I_tail, U_string ≥ Ns·14.0 V; U ≤ V_max",
	Limits:  []LimitOf{{"charge-voltage-max", finding.Maker}, {"charge-voltage-max", finding.Practice}, {"spread", finding.Practice}, {"total", finding.Practice}},
	Sources: []*cite.Source{&cite.OpenOCV, &cite.CommonPractice, &cite.OurRule},
	Fields:  []*Field{&topVoltage.Field, &tailCurrent.Field, &sheetVmax.Field, &sheetTail.Field, &sheetCapacity.Field},
	Parts:   topParts,
	Eval:    evalTopSpread,
}

var (
	sayTopEven  = say.Phrase{Key: "top-spread.pass", English: "The blocks in series differ by {spread} at most; the limit is {limit}."}
	sayTopApart = say.Phrase{Key: "top-spread.fail", English: "{a} stands {spread} above {b} at the end of charge; the limit is {limit}. So near full that is a point of charge or more, and the lower block ends every discharge."}
	sayTopUnk   = say.Phrase{Key: "top-spread.cant-tell", English: "{a} stands {spread} above {b} at the end of charge; up to {limit} is even, above {far} is not."}
	sayTopOver  = say.Phrase{Key: "top-spread.over", English: "{part} stands at {volts}, above its highest charge voltage of {most}."}
	sayTopEdge  = say.Phrase{Key: "top-spread.edge", English: "{part} stands at {volts}, too close to its highest charge voltage of {most} for this meter."}
	sayTopSlow  = say.Phrase{Key: "top-spread.slow", English: "The blocks of {part} were not all read within two minutes. The voltages move while the charger holds."}
	sayTopTail  = say.Phrase{Key: "top-spread.tail", English: "{part} still takes {amps}; the voltages mean something at {limit} or less."}
	sayTopPair  = say.Phrase{Key: "top-spread.pair", English: "The current of {part} was not read within two minutes of its blocks, so nobody knows whether they stood at the tail."}
	sayTopLow   = say.Phrase{Key: "top-spread.low", English: "{part} stands at {volts} in all; below {limit} a small spread can hide points of charge."}
	sayTopNone  = say.Phrase{Key: "top-spread.none", English: "No blocks stand in series."}

	sayTopStop  = say.Phrase{Key: "top-spread.stop", English: "Stop; charge each block alone to full once it is warm enough, then join again."}
	sayTopNow   = say.Phrase{Key: "top-spread.now", English: "Stop the charge at once."}
	sayTopHold  = say.Phrase{Key: "top-spread.hold", English: "Hold the absorption longer so that the blocks come together, then read them again."}
	sayTopRead  = say.Phrase{Key: "top-spread.read", English: "Read all blocks again within two minutes, while the charger holds."}
	sayTopWait  = say.Phrase{Key: "top-spread.wait", English: "Hold the absorption until every string reaches its tail, then read the blocks again."}
	sayTopRaise = say.Phrase{Key: "top-spread.raise", English: "Charge on to at least {limit} in all, then read the blocks again."}
)

const (
	// On the charging curve of the open data 0.20 V near full is 0.4 to 0.5
	// points of charge, 0.50 V is 1.2 to 1.9. The limits are our choice.
	evenTop, unevenTop unit.Volt = 0.20, 0.50

	// Below 14.0 V a block the curve is too flat for these limits: at 13.6 V
	// 0.20 V hides 3 points.
	steepFrom unit.Volt = 14.0

	// All blocks of a string within this: our choice.
	oneMoment = 2 * time.Minute
)

// topParts: the bank, unless nothing stands in series.
func topParts(f *Facts) ([]string, say.Line) {
	if f.Layout().Series < 2 {
		return nil, sayTopNone.With()
	}
	return []string{"bank"}, say.Line{}
}

// topRun is the blocks that stand in series, and the strings or groups whose
// current they carry.
type topRun struct {
	part  string
	units []string
	run   []stop
}

func evalTopSpread(f *Facts, _ string) []finding.Finding {
	runs, x := f.topRuns()
	if x != nil {
		return one(*x)
	}
	limit, most, notes := upper(f, "top-spread", "spread", base[unit.Volt]{evenTop, finding.Practice, cite.OurRule.Line()})
	var worst pair
	var low *finding.Finding
	for _, r := range runs {
		if x := f.atTheTop(r); x != nil {
			return one(x.Against(limit))
		}
		if w := worstPair(f, r.run, 0); worst.high.part == "" || w.spread.Value+w.spread.U > worst.spread.Value+worst.spread.U {
			worst = w
		}
		if low == nil {
			low = f.tooLow(r)
		}
	}
	found := finding.Measured(worst.spread, "V", limit)
	said := []any{"a", bank.Name(worst.high.part), "b", bank.Name(worst.low.part), "spread", found.Text, "limit", exact(most, "V"), "far", exact(unevenTop, "V")}
	near := f.nearTop(runs)
	switch {
	case measure.AtMost(worst.spread.Interval(), unevenTop) == measure.Outside:
		far := finding.AtMost("spread", unevenTop, finding.Practice, cite.OurRule.Line())
		said := []any{"a", bank.Name(worst.high.part), "b", bank.Name(worst.low.part), "spread", found.Text, "limit", exact(unevenTop, "V")}
		y := finding.Fails(sayTopApart.With(said...), sayTopStop.With()).Value(found).Against(far).About(worst.low.part, worst.high.part)
		return one(y.Noting(notes...))
	case low != nil:
		return one(low.Noting(notes...))
	case measure.AtMost(worst.spread.Interval(), most) != measure.Inside:
		return one(finding.CannotTell(sayTopUnk.With(said...), sayTopHold.With()).Value(found).Against(limit).About(worst.low.part, worst.high.part).Noting(notes...))
	case near != nil:
		return one(near.Noting(notes...))
	}
	return one(finding.Passes(sayTopEven.With(said...)).Value(found).Against(limit).Noting(notes...))
}

// topRuns reads the blocks of each string, or all blocks where groups stand in
// series. The finding says that a block is too high, or what is missing.
func (f *Facts) topRuns() (runs []topRun, x *finding.Finding) {
	if f.Layout().Join == bank.JoinGroups {
		runs = []topRun{{part: "bank"}}
		for _, g := range f.Layout().Groups() {
			runs[0].units = append(runs[0].units, g.ID)
		}
	} else {
		for _, s := range f.Layout().Strings() {
			runs = append(runs, topRun{part: s.ID, units: []string{s.ID}})
		}
	}
	var lack *finding.Finding
	for i := range runs {
		for _, b := range f.BlocksOf(runs[i].part) {
			v, ok := topVoltage.Of(f, b)
			if !ok {
				if lack == nil {
					m := missing(topVoltage.Field, b)
					lack = &m
				}
				continue
			}
			most := f.vmax(b)
			if over, r := f.overTop(most.Value, v); over {
				top := finding.AtMost("charge-voltage-max", most.Value, most.Kind, most.Source)
				found := finding.Measured(r, "V", top)
				y := finding.Fails(sayTopOver.With("part", bank.Name(b), "volts", found.Text, "most", exact(most.Value, "V")), sayTopNow.With()).Value(found).Against(top).About(b)
				return nil, &y
			}
			runs[i].run = append(runs[i].run, stop{b, topVoltage.Field, v})
		}
	}
	return runs, lack
}

// atTheTop says why the voltages of a run cannot be compared: read over too
// long a time, or not at the tail; nil when they can.
func (f *Facts) atTheTop(r topRun) *finding.Finding {
	for _, u := range r.units {
		amps, ok := tailCurrent.Read(f, u)
		limit, lack := f.tailOf(u)
		if !ok {
			x := missing(tailCurrent.Field, u)
			return &x
		}
		if lack != nil {
			return lack
		}
		if float64(amps.Value)+float64(amps.U) < 0 {
			x := finding.CannotTell(sayDoneBack.With("part", bank.Name(u)), sayFullClamp.With()).About(u)
			return &x
		}
		if amps = size(amps); measure.AtMost(amps.Interval(), limit.Value) != measure.Inside {
			found := finding.Measured(amps, "A", finding.AtMost("tail", limit.Value, limit.Kind, limit.Source))
			x := finding.CannotTell(sayTopTail.With("part", bank.Name(u), "amps", found.Text, "limit", exact(limit.Value, "A")), sayTopWait.With()).About(u)
			return &x
		}
	}
	first, last := r.run[0].shown.At, r.run[0].shown.At
	for _, s := range r.run {
		if s.shown.At.Before(first) {
			first = s.shown.At
		}
		if s.shown.At.After(last) {
			last = s.shown.At
		}
	}
	if last.Sub(first) > oneMoment {
		x := finding.CannotTell(sayTopSlow.With("part", bank.Name(r.part)), sayTopRead.With())
		return &x
	}
	for _, u := range r.units {
		shown, _ := tailCurrent.Of(f, u)
		if !alongside(shown.At, []time.Time{first, last}) {
			x := finding.CannotTell(sayTopPair.With("part", bank.Name(u)), sayTopWait.With()).About(u)
			return &x
		}
	}
	return nil
}

// tooLow says that the blocks of a run do not surely stand where the curve is
// steep.
func (f *Facts) tooLow(r topRun) *finding.Finding {
	var shown []measure.Shown[unit.Volt]
	for _, s := range r.run {
		shown = append(shown, s.shown)
	}
	total, least := sum(f, shown), steepFrom*unit.Volt(len(shown))
	if measure.AtLeast(total.Interval(), least) == measure.Inside {
		return nil
	}
	limit := finding.AtLeast("total", least, finding.Practice, cite.OurRule.Line())
	found := finding.Measured(total, "V", limit)
	x := finding.CannotTell(sayTopLow.With("part", bank.Name(r.part), "volts", found.Text, "limit", exact(least, "V")), sayTopRaise.With("limit", exact(least, "V"))).Value(found).Against(limit)
	return &x
}

// nearTop says that a block is too close to its highest charge voltage to be
// below it for sure.
func (f *Facts) nearTop(runs []topRun) *finding.Finding {
	for _, r := range runs {
		for _, s := range r.run {
			most := f.vmax(s.part)
			v := absolute(f, s.shown)
			if measure.AtMost(v.Interval(), most.Value) != measure.Inside {
				top := finding.AtMost("charge-voltage-max", most.Value, most.Kind, most.Source)
				found := finding.Measured(v, "V", top)
				x := finding.CannotTell(sayTopEdge.With("part", bank.Name(s.part), "volts", found.Text, "most", exact(most.Value, "V")), sayFullLower.With()).Value(found).Against(top).About(s.part)
				return &x
			}
		}
	}
	return nil
}
