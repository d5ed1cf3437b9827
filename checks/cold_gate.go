package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Charging below freezing plates metal inside the cells, for good and unseen.
// The gate opens on fresh temperatures of every block and on nothing else.
var coldGate = &Check{
	ID: "cold-gate", Stage: FirstCharge,
	Title:   say.Phrase{Key: "cold-gate.title", English: "Warm enough to charge"},
	Asks:    say.Phrase{Key: "cold-gate.asks", English: "Is every block warm enough, and not too hot, to be charged now?"},
	Formula: "min(T − u) > T_coldest, else 0 °C; max(T + u) ≤ T_hottest, else 45 °C [°C]; age of T ≤ 15 min",
	Limits:  []LimitOf{{"coldest", finding.Maker}, {"coldest", finding.Practice}, {"hottest", finding.Maker}, {"hottest", finding.Practice}},
	Sources: []*cite.Source{&cite.ChargeByTemperature, &cite.OurRule},
	Fields:  []*Field{&chargeTemp.Field, &sensorKind.Field, &hoursHere.Field, &sheetColdest.Field, &sheetHottest.Field},
	Parts:   onBank,
	Eval:    evalColdGate,
}

var (
	sayWarm       = say.Phrase{Key: "cold-gate.pass", English: "The coldest block is {part} at {temp}; charging is allowed {limit} and up to {most}."}
	sayCold       = say.Phrase{Key: "cold-gate.fail", English: "{part} is at {temp}; charging is allowed {limit}. Below that a charge damages the cells for good."}
	sayHot        = say.Phrase{Key: "cold-gate.hot", English: "{part} is at {temp}; charging is allowed up to {limit}."}
	sayColdUnk    = say.Phrase{Key: "cold-gate.cant-tell", English: "{part} reads {temp}, too close to the limit: charging is allowed {limit} and up to {most}."}
	sayColdStale  = say.Phrase{Key: "cold-gate.stale", English: "The temperature of {part} was not read within the last 15 minutes."}
	sayColdFar    = say.Phrase{Key: "cold-gate.infrared", English: "The temperature of {part} was read by infrared. The case can be warm while the cells are frozen."}
	sayColdCase   = say.Phrase{Key: "cold-gate.case", English: "The air round the blocks changed by more than 10 K within 6 hours, and {part} was read on its case. The cells follow hours later."}
	sayColdHeated = say.Phrase{Key: "cold-gate.heated", English: "{part} is at {temp}. The maker allows charging {limit}, but below freezing only with the block's heating at work, and that is not proved here."}

	sayColdWait    = say.Phrase{Key: "cold-gate.wait", English: "Wait or warm the block; do not start the charge."}
	sayHotWait     = say.Phrase{Key: "cold-gate.cool", English: "Let the block cool first."}
	sayColdAgain   = say.Phrase{Key: "cold-gate.again", English: "Read the temperature of every block again, now."}
	sayColdContact = say.Phrase{Key: "cold-gate.contact", English: "Read it with the block's own sensor or a contact thermometer."}
	sayColdOwn     = say.Phrase{Key: "cold-gate.own", English: "Read the block's own sensor, or wait until it has stood 6 hours in this air."}
)

func evalColdGate(f *Facts, part string) []finding.Finding {
	ws := f.chargeTemps(part)
	b := f.chargeAbove(part)
	_, min, notes := lower(f, "cold-gate", "coldest", b)
	if min != b.Value {
		b = base[unit.Celsius]{min, finding.House, cite.Firm.Line()}
	}
	return one(f.judgeCold(ws, b, f.chargeUpTo(part), sayColdWait.With()).Noting(notes...))
}

// chargeTemps reads the temperature for the charge, and with what it was read,
// of every block.
func (f *Facts) chargeTemps(part string) (ws warmths) {
	when := f.chargeSpan()
	for _, b := range f.BlocksOf(part) {
		t, has := chargeTemp.Of(f, b)
		sensor, named := sensorKind.Of(f, b)
		if x := firstMissing(need{has, chargeTemp.Field, b}, need{named, sensorKind.Field, b}); x != nil {
			if ws.lack == nil {
				ws.lack = x
			}
			continue
		}
		ws.add(f, warmth{b, f.sensed(t, sensor), t.At, sensor}, when)
	}
	return ws
}

// judgeCold judges temperatures against the lowest and the highest at which
// charging is allowed. What is surely too cold or too hot is said before what
// is missing. wait is what to do while it is too cold.
func (f *Facts) judgeCold(ws warmths, least, most base[unit.Celsius], wait say.Line) finding.Finding {
	limit, top := strictlyAbove("coldest", least), finding.AtMost("hottest", most.Value, most.Kind, most.Source)
	said := func(w warmth, l finding.Limit) []any {
		return []any{"part", bank.Name(w.block), "temp", finding.Measured(w.r, "C", l).Text, "limit", l.Line(), "most", exact(most.Value, "C")}
	}
	done := func(x finding.Finding, w warmth, l finding.Limit) finding.Finding {
		if x.Verdict() != finding.Pass {
			x = x.About(w.block)
		}
		return x.Value(finding.Measured(w.r, "C", l)).Against(l)
	}
	good := ws.good()
	if w, cold := surelyCold(good, least.Value); cold {
		x := done(finding.Fails(sayCold.With(said(w, limit)...), wait), w, limit)
		return x.About(allCold(good, least.Value)...) // each of them is to be warmed
	}
	for _, w := range good {
		if measure.AtMost(w.r.Interval(), most.Value) == measure.Outside {
			said := append(said(w, top)[:4], "limit", exact(most.Value, "C"))
			return done(finding.Fails(sayHot.With(said...), sayHotWait.With()), w, top)
		}
	}
	switch {
	case ws.lack != nil:
		return ws.lack.Against(limit)
	case len(ws.all) == 0:
		return missing(layoutField, "bank").Against(limit)
	case len(ws.far) > 0:
		return done(finding.CannotTell(sayColdFar.With(said(ws.far[0], limit)...), sayColdContact.With()), ws.far[0], limit)
	case len(ws.stale) > 0:
		return done(finding.CannotTell(sayColdStale.With(said(ws.stale[0], limit)...), sayColdAgain.With()), ws.stale[0], limit)
	}
	for _, w := range ws.all {
		if !w.caseOnly() {
			continue
		}
		changed, known := f.cameIn(ws.lam)
		if !known {
			return missing(hoursHere.Field, "bank").Against(limit)
		}
		if changed != "no" {
			return done(finding.CannotTell(sayColdCase.With(said(w, limit)...), sayColdOwn.With()), w, limit)
		}
		break
	}
	c, h := coldest(ws.all), hottest(ws.all)
	switch {
	case measure.Above(c.r.Interval(), least.Value) != measure.Inside:
		return done(finding.CannotTell(sayColdUnk.With(said(c, limit)...), wait), c, limit)
	case measure.AtMost(h.r.Interval(), most.Value) != measure.Inside:
		return done(finding.CannotTell(sayColdUnk.With(said(h, limit)...), sayHotWait.With()), h, top)
	case measure.Above(c.r.Interval(), freezing) != measure.Inside:
		return done(finding.CannotTell(sayColdHeated.With(said(c, limit)...), wait), c, limit)
	}
	return done(finding.Passes(sayWarm.With(said(c, limit)...)), c, limit)
}

// freezing is the temperature below which a maker's lower figure counts only
// with the heating proved.
const freezing unit.Celsius = 0
