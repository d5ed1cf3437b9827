package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// With the charger on and the blocks cold, only the heaters may draw current.
var coldStart = &Check{
	ID: "cold-start", Stage: Prove,
	Title:   say.Phrase{Key: "cold-start.title", English: "Cold start"},
	Asks:    say.Phrase{Key: "cold-start.asks", English: "Do cold blocks take only what their heaters draw?"},
	Formula: "0.8·Np·I_heater ≤ I ≤ 1.2·Np·I_heater [A] until T − u > 0 °C",
	Limits:  []LimitOf{{"current", finding.Maker}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&sheetHeated.Field, &sheetHeaterAmps.Field, &coldStartAmps.Field, &coldStartTemp.Field},
	Parts:   onHeated,
	Eval:    evalColdStart,
}

var (
	sayStartGood = say.Phrase{Key: "cold-start.pass", English: "At {temp} the bank took {found}; heaters draw {limit}."}
	sayStartMore = say.Phrase{Key: "cold-start.fail", English: "At {temp} the bank took {found}; heaters draw {limit}. The cells are charged while frozen."}
	sayStartLess = say.Phrase{Key: "cold-start.weak", English: "At {temp} the bank took {found}; heaters draw {limit}. Not all of them heat."}
	sayStartUnk  = say.Phrase{Key: "cold-start.cant-tell", English: "At {temp} the bank took {found}; heaters draw {limit}."}
	sayStartWarm = say.Phrase{Key: "cold-start.warm", English: "Not tested: at {temp} the blocks were not below their release."}
	sayStartStop = say.Phrase{Key: "cold-start.stop", English: "Charger off. Find out which block lets current in, or which heater is dead."}
	sayStartWait = say.Phrase{Key: "cold-start.next", English: "Repeat on a cold morning; note that it is not tested now."}
)

// A heater's current is known to a fifth: our choice.
const heaterBand unit.Ampere = 0.2

func evalColdStart(f *Facts, part string) []finding.Finding {
	heater, sheet, gap := f.heaterAmps()
	if gap != nil {
		return one(*gap)
	}
	shown, has := coldStartTemp.Of(f, part)
	amps, hasAmps := coldStartAmps.Read(f, part)
	if !has || !hasAmps {
		return one(finding.CannotTell(sayStartNone.With(), sayStartWait.With()))
	}
	t := f.sensed(shown, ownSensor)
	limit := finding.Window("current", heater*(1-heaterBand), heater*(1+heaterBand), finding.Maker, f.makerSource(sheet))
	found := finding.Measured(amps, "A", limit)
	said := []any{"temp", finding.Measured(t, "C", finding.Limit{}).Text, "found", found.Text, "limit", limit.Line()}
	above := measure.AtMost(amps.Interval(), heater*(1+heaterBand))
	below := measure.AtLeast(amps.Interval(), heater*(1-heaterBand))
	frozen := measure.Above(t.Interval(), freezing)
	var x finding.Finding
	switch {
	case frozen == measure.Outside && above == measure.Outside:
		x = finding.Fails(sayStartMore.With(said...), sayStartStop.With())
	case measure.AtLeast(t.Interval(), f.release()) != measure.Outside || frozen == measure.Inside:
		x = finding.CannotTell(sayStartWarm.With(said...), sayStartWait.With())
	case below == measure.Outside:
		x = finding.Fails(sayStartLess.With(said...), sayStartStop.With())
	case above == measure.Inside && below == measure.Inside && frozen == measure.Outside:
		x = finding.Passes(sayStartGood.With(said...))
	default:
		x = finding.CannotTell(sayStartUnk.With(said...), sayStartWait.With())
	}
	return one(x.Value(found).Against(limit))
}

var sayStartNone = say.Phrase{Key: "cold-start.not-tested", English: "Not tested: it needs blocks below their release and the charger on."}
