package checks

import (
	"time"

	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// The lines of the charge list, watched as they come: too cold or too hot, too
// high, too little for the heaters, on and off again.
var chargeTrend = &Check{
	ID: "charge-trend", Stage: FirstCharge, Visits: WhenListed,
	Title:   say.Phrase{Key: "charge-trend.title", English: "Course of the charge"},
	Asks:    say.Phrase{Key: "charge-trend.asks", English: "Did the charge run without an alarm?"},
	Formula: "T − u > 0 °C while I > 1 A, heated blocks 1.2·Np·I_heater; T ≤ 45 °C [°C]; U ≤ Ns·V_max [V]; I ≥ 0.8·Np·I_heater while cold [A]; restarts < 3; Δt ≤ 5 min; I ≤ 1 A, or the heaters', while nothing is released",
	Limits:  []LimitOf{{"coldest", finding.Maker}, {"coldest", finding.Practice}, {"heater", finding.Practice}, {"temperature", finding.Maker}, {"temperature", finding.Practice}, {"voltage", finding.Maker}, {"voltage", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule, &cite.ChargeByTemperature, &cite.CommonPractice},
	Fields:  []*Field{&sampleVoltage.Field, &sampleCurrent.Field, &sampleTemp.Field, &sheetVmax.Field, &sheetColdest.Field, &sheetHottest.Field, &sheetHeaterAmps.Field},
	Parts:   onBank,
	Eval:    evalChargeTrend,
}

var (
	sayTrendQuiet = say.Phrase{Key: "charge-trend.pass", English: "{count} lines and no alarm: not above {top}, not above {volts}, no restarts."}
	sayTrendHot   = say.Phrase{Key: "charge-trend.hot", English: "The block was at {found}; charging is allowed up to {top}."}
	sayTrendCold  = say.Phrase{Key: "charge-trend.cold", English: "{amps} flowed with the coldest block at {found}: the cells are charged while frozen. Charging is allowed {limit}."}
	sayTrendHigh  = say.Phrase{Key: "charge-trend.high", English: "The posts stood at {found}; the highest charge voltage is {volts}."}
	sayTrendWeak  = say.Phrase{Key: "charge-trend.below-heater", English: "Cold blocks got {found}; their heaters draw {heater} together."}
	sayTrendLean  = say.Phrase{Key: "charge-trend.near-heater", English: "Blocks that may have been cold got {found}; their heaters draw {heater} together. Too close to tell whether they were fed."}
	sayTrendSaw   = say.Phrase{Key: "charge-trend.sawtooth", English: "The current stopped and began again {count} times."}
	sayTrendOne   = say.Phrase{Key: "charge-trend.one", English: "One line shows no course: whether the current stopped and began again is not known."}
	sayTrendGap   = say.Phrase{Key: "charge-trend.gap", English: "{gap} lie between two lines; what happened then is not known."}
	sayTrendUnk   = say.Phrase{Key: "charge-trend.near", English: "One line lies too close to a limit to tell: {cold}, up to {top}, up to {volts}."}
	sayTrendOut   = say.Phrase{Key: "charge-trend.outwards", English: "One line has current that flows out of the bank, so what charged it is not known."}
	sayTrendBlank = say.Phrase{Key: "charge-trend.missing", English: "One line lacks its current, its voltage or its temperature."}
	sayTrendStop  = say.Phrase{Key: "charge-trend.stop", English: "Stop the charge and find the cause."}
	sayTrendWrite = say.Phrase{Key: "charge-trend.write", English: "Write current, voltage and temperature down at least every five minutes, or use a logger."}
)

const (
	// Three restarts are a habit, and more than five minutes are long enough
	// for one to be missed: our choice.
	manyRestarts = 3
	longGap      = 5 * time.Minute

	// Below this part of what the heaters draw they are not fed: our choice,
	// as the current of a heater is known to a fifth.
	heaterLeast unit.Ampere = 0.8
)

func evalChargeTrend(f *Facts, part string) []finding.Finding {
	list := f.samples()
	if len(list) == 0 {
		return one(noSamples())
	}
	target, series := f.charged()
	block, top := f.vmax(target), f.chargeUpTo(target)
	volts := block.Value * unit.Volt(series)
	hot := finding.AtMost("temperature", top.Value, top.Kind, top.Source)
	high := finding.AtMost("voltage", volts, block.Kind, block.Source)
	least := f.chargeAbove(target)
	cold := strictlyAbove("coldest", least)
	said := []any{"cold", cold.Line(), "top", exact(top.Value, "C"), "volts", exact(volts, "V"), "count", exact(unit.Count(len(list)), "1")}
	var out []finding.Finding
	near, blank, outwards := false, false, false
	var gap time.Duration
	for i, s := range list {
		blank = blank || !s.hasAmps || !s.hasVolts || !s.hasTemp
		if i > 0 {
			gap = max(gap, s.at.Sub(list[i-1].at))
		}
		outwards = outwards || s.hasAmps && measure.AtLeast(s.amps.Interval(), 0) == measure.Outside
		if s.hasTemp {
			side := measure.AtMost(s.temp.Interval(), top.Value)
			near = near || side == measure.Across
			if v := finding.Measured(s.temp, "C", hot); side == measure.Outside && len(out) == 0 {
				out = append(out, finding.Fails(sayTrendHot.With(append(said, "found", v.Text)...), sayTrendStop.With()).Value(v).Against(hot))
			}
		}
	}
	for _, s := range list {
		side := measure.AtMost(s.volts.Interval(), volts)
		if v := finding.Measured(s.volts, "V", high); s.hasVolts && side == measure.Outside {
			out = append(out, finding.Fails(sayTrendHigh.With(append(said, "found", v.Text)...), sayTrendStop.With()).Value(v).Against(high))
			break
		}
		near = near || s.hasVolts && side == measure.Across
	}
	frozen, perhaps := f.chargedCold(list, least.Value, cold)
	out, near = append(out, frozen...), near || perhaps
	weak, lean := f.starved(list)
	out = append(out, weak...)
	unreleased := f.unreleased(list)
	if len(unreleased) > 0 && unreleased[0].Verdict() == finding.Fail {
		out = append(out, unreleased...)
	}
	if n := restarts(list); n >= manyRestarts {
		out = append(out, finding.Fails(sayTrendSaw.With("count", exact(unit.Count(n), "1")), sayTrendStop.With()).From(cite.OurRule.Line()))
	}
	switch {
	case len(out) > 0:
		return out
	case len(unreleased) > 0:
		return unreleased
	case len(list) == 1:
		return one(finding.CannotTell(sayTrendOne.With(), sayTrendWrite.With()))
	case gap > longGap:
		return one(finding.CannotTell(sayTrendGap.With("gap", rounded(unit.Second(gap.Seconds()), "min")), sayTrendWrite.With()))
	case blank:
		return one(finding.CannotTell(sayTrendBlank.With(), sayTrendWrite.With()))
	case outwards:
		return one(finding.CannotTell(sayTrendOut.With(), sayTrendWrite.With()))
	case near:
		return one(finding.CannotTell(sayTrendUnk.With(said...), sayTrendStop.With()))
	case len(lean) > 0:
		return lean
	}
	return one(finding.Passes(sayTrendQuiet.With(said...)).Against(high))
}

// chargedCold finds a line on which current went into cells that were too cold
// for it; perhaps tells of one that may be such a line. Where every block heats
// itself the heaters' current is not charge.
func (f *Facts) chargedCold(list []sampled, least unit.Celsius, limit finding.Limit) (out []finding.Finding, perhaps bool) {
	most := f.heatersTake()
	for _, s := range list {
		if !s.hasAmps || !s.hasTemp {
			continue
		}
		charged, warm := measure.AtMost(s.amps.Interval(), most), measure.Above(s.temp.Interval(), least)
		if charged == measure.Outside && warm == measure.Outside {
			v := finding.Measured(s.temp, "C", limit)
			said := []any{"amps", finding.Measured(s.amps, "A", finding.Limit{}).Text, "found", v.Text, "limit", limit.Line()}
			return one(finding.Fails(sayTrendCold.With(said...), sayTrendStop.With()).Value(v).Against(limit)), perhaps
		}
		perhaps = perhaps || charged != measure.Inside && warm != measure.Inside
	}
	return nil, perhaps
}

// starved finds a line on which cold heated blocks got less than their heaters
// draw, else one on which they may have.
func (f *Facts) starved(list []sampled) (weak, lean []finding.Finding) {
	if len(f.heated()) == 0 {
		return nil, nil
	}
	heater, _, gap := f.heaterAmps()
	if gap != nil {
		return one(*gap), nil
	}
	limit := finding.AtLeast("heater", heater*heaterLeast, finding.Practice, cite.OurRule.Line())
	for _, s := range list {
		if !s.hasTemp || !s.hasAmps {
			continue
		}
		warm, fed := measure.AtLeast(s.temp.Interval(), f.release()), measure.AtLeast(s.amps.Interval(), heater*heaterLeast)
		if warm == measure.Inside || fed == measure.Inside {
			continue
		}
		v := finding.Measured(s.amps, "A", limit)
		said := []any{"found", v.Text, "heater", exact(heater, "A")}
		if warm == measure.Outside && fed == measure.Outside {
			return one(finding.Fails(sayTrendWeak.With(said...), sayTrendStop.With()).Value(v).Against(limit)), nil
		}
		lean = one(finding.CannotTell(sayTrendLean.With(said...), sayTrendStop.With()).Value(v).Against(limit))
	}
	return nil, lean
}

// restarts counts how often the current began again after it had stopped.
func restarts(list []sampled) (n int) {
	ran, stopped := false, false
	for _, s := range list {
		if !s.hasAmps {
			continue
		}
		on := s.amps.Value > restingMost
		if on && ran && stopped {
			n++
		}
		stopped = !on
		ran = ran || on
	}
	return n
}
