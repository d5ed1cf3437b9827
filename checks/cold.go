package checks

import (
	"time"

	"lugmark/core/cell"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Temperatures before a current may charge a block. What is not known, not
// fresh, or read where the cells are not, opens nothing.

const (
	// A reading older than this says nothing about now.
	freshFor = 15 * time.Minute

	// The block's own sensor, a glued one, and infrared on tape: U = 3 K. A
	// contact thermometer has its own sheet. From memory; engineering choice.
	sensorU unit.Celsius = 3
)

// The codes of the answers to "Which sensor".
const (
	ownSensor, gluedSensor, contactSensor, infraredSensor = "own", "glued", "contact", "infrared"
)

// warmth is one block's temperature before a charge.
type warmth struct {
	block  string
	r      measure.Reading[unit.Celsius]
	at     time.Time
	sensor string
}

// caseOnly reports whether the sensor feels the case and not the cells.
func (w warmth) caseOnly() bool { return w.sensor != ownSensor }

// sensed gives a temperature the uncertainty of its sensor.
func (f *Facts) sensed(t measure.Shown[unit.Celsius], sensor string) measure.Reading[unit.Celsius] {
	if sensor == contactSensor {
		return absolute(f, t)
	}
	return measure.Reading[unit.Celsius]{Value: t.Value, U: sensorU}
}

// warmths are the temperatures of many blocks, with those that do not count
// named apart. The lack says what was not read at all.
type warmths struct {
	all   []warmth
	stale []warmth // too old, or dated after now
	far   []warmth // infrared
	lack  *finding.Finding
	lam   int // the place in the record for which they speak; 0 now
}

// good lists those that are fresh and not infrared.
func (ws warmths) good() (out []warmth) {
	for _, w := range ws.all {
		if !among(ws.stale, w.block) && !among(ws.far, w.block) {
			out = append(out, w)
		}
	}
	return out
}

func among(list []warmth, block string) bool {
	for _, w := range list {
		if w.block == block {
			return true
		}
	}
	return false
}

// span is the time for which a temperature must speak: now, the moment of a
// join, or a charge that is over, from its first sample to its last.
type span struct{ from, to time.Time }

func moments(at time.Time) span { return span{at, at} }

// add files a temperature; fresh is one read within a quarter of an hour of
// the span.
func (ws *warmths) add(f *Facts, w warmth, s span) {
	ws.all = append(ws.all, w)
	if _, dated := f.age(w.at); !dated || s.from.Sub(w.at) > freshFor || w.at.Sub(s.to) > freshFor {
		ws.stale = append(ws.stale, w)
	}
	if w.sensor == infraredSensor {
		ws.far = append(ws.far, w)
	}
}

// coldest is the reading that reaches lowest, hottest the one that reaches
// highest.
func coldest(list []warmth) (c warmth) {
	for i, w := range list {
		if i == 0 || w.r.Value-w.r.U < c.r.Value-c.r.U {
			c = w
		}
	}
	return c
}

func hottest(list []warmth) (h warmth) {
	for i, w := range list {
		if i == 0 || w.r.Value+w.r.U > h.r.Value+h.r.U {
			h = w
		}
	}
	return h
}

// surelyCold finds a block that is at or below a limit with its uncertainty.
func surelyCold(list []warmth, limit unit.Celsius) (warmth, bool) {
	for _, w := range list {
		if measure.Above(w.r.Interval(), limit) == measure.Outside {
			return w, true
		}
	}
	return warmth{}, false
}

// allCold lists the blocks that are surely too cold, in the order of list.
func allCold(list []warmth, limit unit.Celsius) (blocks []string) {
	for _, w := range list {
		if _, cold := surelyCold([]warmth{w}, limit); cold {
			blocks = append(blocks, w.block)
		}
	}
	return blocks
}

var sayAboveCold = say.Phrase{Key: "limit.above", English: "above {min}"}

// strictlyAbove is a lower limit whose own value is outside.
func strictlyAbove(name string, b base[unit.Celsius]) finding.Limit {
	l := finding.AtLeast(name, b.Value, b.Kind, b.Source)
	l.Text = sayAboveCold.With("min", exact(b.Value, "C"))
	return l
}

// chargeAbove is the temperature above which the blocks of a part may be
// charged: the maker's, else 0 °C.
func (f *Facts) chargeAbove(part string) base[unit.Celsius] {
	usual := base[unit.Celsius]{cell.ChargeAbove, finding.Practice, cite.ChargeByTemperature.Line()}
	s := highest(f, sheetColdest, part)
	if s.All() || s.Any() && s.Value > usual.Value {
		return s.Base(f)
	}
	return usual
}

// chargeUpTo is the temperature up to which they may be charged: the maker's,
// else 45 °C.
func (f *Facts) chargeUpTo(part string) base[unit.Celsius] {
	usual := base[unit.Celsius]{cell.ChargeUpTo, finding.Practice, cite.ChargeByTemperature.Line()}
	s := lowest(f, sheetHottest, part)
	if s.All() || s.Any() && s.Value < usual.Value {
		return s.Base(f)
	}
	return usual
}

// cameIn is whether the blocks came in from the cold or heat, as it was answered
// at a place of the record, or, where nobody had answered there, now.
func (f *Facts) cameIn(lam int) (changed string, known bool) {
	changed, known = hoursHere.Of(f, "bank")
	if e, then := f.state.AsOf(f.key("bank", hoursHere.Field), lam); then && e.Value.Choice != "" {
		return e.Value.Choice, true
	}
	return changed, known
}
