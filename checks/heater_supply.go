package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A charger that cannot carry the heaters drops out and begins again, all
// night.
var heaterSupply = &Check{
	ID: "heater-supply", Stage: FirstCharge,
	Title:   say.Phrase{Key: "heater-supply.title", English: "Charger for the heaters"},
	Asks:    say.Phrase{Key: "heater-supply.asks", English: "Is the charger strong enough for all heaters together?"},
	Formula: "ΣI_charger ≥ 1.25·Np·max I_heater [A]",
	Limits:  []LimitOf{{"supply", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&sheetHeated.Field, &sheetHeaterAmps.Field, &setCurrent.Field, &chargerRating.Field},
	Parts:   onHeated,
	Eval:    evalHeaterSupply,
}

var (
	sayHeatFed    = say.Phrase{Key: "heater-supply.pass", English: "The heaters draw {amps} together; the charger gives {found}, and {limit} are asked for."}
	sayHeatStarve = say.Phrase{Key: "heater-supply.fail", English: "The heaters draw {amps} together; the charger gives {found}. The protections drop out and try again for ever."}
	sayHeatTight  = say.Phrase{Key: "heater-supply.cant-tell", English: "The heaters draw {amps} together; the charger gives {found}, and {limit} are asked for."}
	sayHeatMore   = say.Phrase{Key: "heater-supply.next", English: "Use a stronger charger, or heat fewer strings at once."}
)

// The charger gives a quarter more than the heaters draw: our choice. Figures
// of the trade come to about 1.3.
const heaterFactor unit.Ampere = 1.25

func evalHeaterSupply(f *Facts, part string) []finding.Finding {
	amps, _, gap := f.heaterAmps()
	if gap != nil {
		return one(*gap)
	}
	gives, gap := f.chargerAmps()
	if gap != nil {
		return one(*gap)
	}
	limit := finding.AtLeast("supply", amps*heaterFactor, finding.Practice, cite.OurRule.Line())
	found := finding.Predicted(measure.Interval[unit.Ampere]{Low: gives, High: gives}, "A", limit)
	said := []any{"found", found.Text, "amps", exact(amps, "A"), "limit", exact(amps*heaterFactor, "A")}
	plain := measure.Exact(gives).Interval()
	x := finding.CannotTell(sayHeatTight.With(said...), sayHeatMore.With())
	switch {
	case measure.AtLeast(plain, amps) == measure.Outside:
		x = finding.Fails(sayHeatStarve.With(said...), sayHeatMore.With())
	case measure.AtLeast(plain, amps*heaterFactor) == measure.Inside:
		x = finding.Passes(sayHeatFed.With(said...))
	}
	return one(x.Value(found).Against(limit))
}

// chargerAmps is what the chargers are set to give together; none gives more
// than its rating, whatever it is set to.
func (f *Facts) chargerAmps() (sum unit.Ampere, gap *finding.Finding) {
	ids := f.entered(bank.KindCharger, "charger")
	if len(ids) == 0 {
		x := missing(setCurrent.Field, "charger1")
		return 0, &x
	}
	for _, id := range ids {
		set, ok := setCurrent.Plain(f, id)
		if !ok {
			x := missing(setCurrent.Field, id)
			return 0, &x
		}
		if rated, ok := chargerRating.Plain(f, id); ok {
			set = min(set, rated)
		}
		sum += set
	}
	return sum, nil
}
