package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/thermal"
	"lugmark/core/unit"
)

// A heated block hands the charger's current over from its heater to its
// cells. The step is found from the current alone; the temperature at the step
// tells whether it came too early.
var heaterToCharge = &Check{
	ID: "heater-to-charge", Stage: FirstCharge,
	Title:   say.Phrase{Key: "heater-to-charge.title", English: "From heating to charging"},
	Asks:    say.Phrase{Key: "heater-to-charge.asks", English: "Did the charge begin only when the block was warm?"},
	Formula: "step: ΔI > max(0.3·I_heater, 6·1.4826·MAD·√(2/n)) [A], held 120 s; T − u > 0 °C at the step",
	Limits:  []LimitOf{{"temperature", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&sheetHeated.Field, &sheetHeaterAmps.Field, &sampleCurrent.Field, &sampleTemp.Field},
	Parts:   onHeated,
	Eval:    evalHeaterToCharge,
}

var (
	sayStepWarm  = say.Phrase{Key: "heater-to-charge.pass", English: "The current rose to {amps} with the coldest block at {found}."}
	sayStepCold  = say.Phrase{Key: "heater-to-charge.fail", English: "The current rose to {amps} with the coldest block at {found}: the cells are charged while frozen."}
	sayStepUnk   = say.Phrase{Key: "heater-to-charge.cant-tell", English: "The current rose to {amps} with the coldest block at {found}, too close to freezing."}
	sayStepFalls = say.Phrase{Key: "heater-to-charge.falling", English: "The current rose to {amps} and the temperature falls: nothing heats any more."}
	sayStepBlind = say.Phrase{Key: "heater-to-charge.no-temperature", English: "The current rose to {amps}, and nobody wrote the temperature down."}
	sayStepNone  = say.Phrase{Key: "heater-to-charge.no-step", English: "No step from the heater's current to the charge is in the list yet."}
	sayStepOver  = say.Phrase{Key: "heater-to-charge.beyond", English: "{amps} flowed with the coldest block at {found}, more than the heaters take: the cells are charged while frozen."}
	sayStepMore  = say.Phrase{Key: "heater-to-charge.more", English: "{amps} flowed, more than the heaters take, and the coldest block is not shown to be above freezing."}
	sayStepStop  = say.Phrase{Key: "heater-to-charge.stop", English: "Stop the charge: current is flowing while the block is cold."}
	sayStepOff   = say.Phrase{Key: "heater-to-charge.off", English: "Charger off until the blocks are proved warm enough to charge."}
	sayStepOn    = say.Phrase{Key: "heater-to-charge.go-on", English: "Stay, and go on writing current and temperature down, every minute at the step."}
)

func evalHeaterToCharge(f *Facts, part string) []finding.Finding {
	heater, _, gap := f.heaterAmps()
	if gap != nil {
		return one(*gap)
	}
	trace, of := currentTrace(f.samples())
	if len(trace) == 0 {
		return one(noSamples())
	}
	at, found := thermal.HandsOver(trace, heater)
	limit := strictlyAbove("temperature", base[unit.Celsius]{freezing, finding.Practice, cite.OurRule.Line()})
	if !found {
		return one(f.noStepYet(of, heater, limit))
	}
	s := of[at]
	said := []any{"amps", rounded(s.amps.Value, "A")}
	if !s.hasTemp {
		return one(finding.CannotTell(sayStepBlind.With(said...), sayStepOff.With()).Against(limit))
	}
	v := finding.Measured(s.temp, "C", limit)
	said = append(said, "found", v.Text)
	x := finding.Judge(measure.Above(s.temp.Interval(), freezing), finding.Words{
		Pass: sayStepWarm.With(said...), Fail: sayStepCold.With(said...), CantTell: sayStepUnk.With(said...),
		Mend: sayStepStop.With(), Settle: sayStepOff.With(),
	})
	if x.Verdict() != finding.Fail && falling(of[at:]) {
		x = finding.Fails(sayStepFalls.With(said...), sayStepStop.With())
	}
	return one(x.Value(v).Against(limit))
}

// noStepYet judges a list in which the current has not risen so far: it is the
// heaters' alone, or it was a charge from its first line on.
func (f *Facts) noStepYet(list []sampled, heater unit.Ampere, limit finding.Limit) finding.Finding {
	x := finding.CannotTell(sayStepNone.With(), sayStepOn.With()).Against(limit)
	var may bool
	f.quietly(func() { may = f.heatReleased() || f.released(f.chargeHold()) })
	if !may {
		x = finding.CannotTell(sayStepNone.With(), sayStepOff.With()).Against(limit)
	}
	for _, s := range list {
		if measure.AtMost(s.amps.Interval(), heater*(1+heaterBand)) != measure.Outside {
			continue
		}
		said := []any{"amps", rounded(s.amps.Value, "A")}
		v := finding.Measured(s.temp, "C", limit)
		switch side := measure.Above(s.temp.Interval(), freezing); {
		case s.hasTemp && side == measure.Outside:
			return finding.Fails(sayStepOver.With(append(said, "found", v.Text)...), sayStepStop.With()).Value(v).Against(limit)
		case !s.hasTemp || side == measure.Across:
			x = finding.CannotTell(sayStepMore.With(said...), sayStepOff.With()).Against(limit)
		}
	}
	return x
}

// falling reports whether the last temperature of some samples is below the
// first.
func falling(list []sampled) bool {
	first := true
	var from, to float64
	for _, s := range list {
		if !s.hasTemp {
			continue
		}
		if first {
			from, first = float64(s.temp.Value), false
		}
		to = float64(s.temp.Value)
	}
	return to < from
}
