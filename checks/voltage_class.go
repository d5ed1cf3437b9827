package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Above 60 V DC many codes ask for a licensed person, and nothing that is
// touched or opened may be rated for less than the bank reaches.
var voltageClass = &Check{
	ID: "voltage-class", Stage: Before,
	Title:   say.Phrase{Key: "voltage-class.title", English: "Voltage of the whole bank"},
	Asks:    say.Phrase{Key: "voltage-class.asks", English: "May this bank's voltage be worked on here, with these parts and gloves?"},
	Formula: "V_hi = Ns·V_max ≤ 60 V DC [V]; U_rated of meter, fuse, switch, gloves ≥ V_hi",
	Limits:  []LimitOf{{"rated-voltage", finding.Practice}, {"voltage", finding.Standard}},
	Sources: []*cite.Source{&cite.LowVoltageDC, &cite.NFPA70E, &cite.CommonPractice},
	Fields: []*Field{&layoutField, &blockSheet.Field, &sheetVmax.Field, &sheetSeries.Field, &licensedPerson.Field, &fuseVoltage.Field,
		&ratedVoltage.Field, &gloveVoltage.Field},
	Parts: onBank,
	Eval:  evalVoltageClass,
}

var (
	sayClassLow   = say.Phrase{Key: "voltage-class.pass", English: "While charging the bank reaches {highest}; the limit is {limit}."}
	sayClassHigh  = say.Phrase{Key: "voltage-class.licensed", English: "While charging the bank reaches {highest}. Above {limit} a licensed person is on site, and the maker allows {n} blocks in series."}
	sayClassWho   = say.Phrase{Key: "voltage-class.cant-tell", English: "While charging the bank reaches {highest}. Above {limit} it may kill, and no licensed person is named."}
	sayClassSheet = say.Phrase{Key: "voltage-class.no-sheet", English: "While charging the bank reaches {highest}, above {limit}, and no sheet confirms that so many blocks may stand in series."}
	sayClassRated = say.Phrase{Key: "voltage-class.fail", English: "{part} is rated {rated} DC, but while charging the bank reaches {highest}. It may arc or let the voltage through."}
	sayClassGlove = say.Phrase{Key: "voltage-class.gloves", English: "The gloves are rated {rated} DC, but while charging the bank reaches {highest}."}
	sayClassStop  = say.Phrase{Key: "voltage-class.stop", English: "Do not continue above 60 volts without a licensed person on site."}
	sayClassFit   = say.Phrase{Key: "voltage-class.fit", English: "Use one that is rated {highest} DC or more."}
	sayClassOver  = say.Phrase{Key: "voltage-class.caution", English: "Above 50 V: rated gloves, one pole at a time."}
)

// Above 50 V live work needs protection, after NFPA 70E; from memory.
const cautionAbove unit.Volt = 50

// rating is a part that must bear the voltage of the bank.
type rating struct {
	part  string // "" for gloves
	volts measure.Shown[unit.Volt]
}

func evalVoltageClass(f *Facts, _ string) []finding.Finding {
	if _, ok := f.entry(layoutField, "bank"); !ok || !f.HasLayout() {
		return one(finding.Undone(sayNoLayout.With()))
	}
	_, whole := f.highestCharge()
	whole = max(whole, f.highestVoltage()) // of unlike blocks the highest counts here
	limit := finding.AtMost("voltage", classLimit, finding.Standard, cite.LowVoltageDC.Line())
	found := finding.Measured(measure.Exact(whole), "V", limit)
	said := []any{"highest", exact(whole, "V"), "limit", exact(classLimit, "V")}
	var notes []say.Line
	if whole > cautionAbove {
		notes = append(notes, sayClassOver.With())
	}
	answer := func(x finding.Finding) []finding.Finding { return one(x.Value(found).Against(limit).Noting(notes...)) }
	for _, r := range f.voltageRatings() {
		if measure.AtLeast(measure.Exact(r.volts.Value).Interval(), whole) == measure.Inside {
			continue
		}
		least := finding.AtLeast("rated-voltage", whole, finding.Practice, cite.CommonPractice.Line())
		said = append(said, "rated", typed(r.volts))
		x := finding.Fails(sayClassGlove.With(said...), sayClassFit.With(said...))
		if r.part != "" {
			x = finding.Fails(sayClassRated.With(append(said, "part", bank.Name(r.part))...), sayClassFit.With(said...)).About(r.part)
		}
		return one(x.Value(finding.Typed(r.volts)).Against(least).Noting(notes...))
	}
	if measure.AtMost(measure.Exact(whole).Interval(), classLimit) == measure.Inside {
		return answer(finding.Passes(sayClassLow.With(said...)))
	}
	if _, named := f.entry(licensedPerson.Field, "bank"); !named || !f.enteredHere(licensedPerson.Field, "bank") {
		return answer(finding.CannotTell(sayClassWho.With(said...), sayClassStop.With()))
	}
	series := lowest(f, sheetSeries, "bank")
	if !series.All() || series.Value < unit.Count(f.Layout().Series) {
		next := sayClassStop.With()
		if !series.All() {
			next = series.Enter()
		}
		return answer(finding.CannotTell(sayClassSheet.With(said...), next))
	}
	return answer(finding.Passes(sayClassHigh.With(append(said, "n", exact(series.Value, "1"))...)))
}

// voltageRatings lists the ratings that are entered: fuses, the switch, the
// voltmeter and the gloves.
func (f *Facts) voltageRatings() []rating {
	var out []rating
	add := func(field Quantity[unit.Volt], part, called string) {
		if v, ok := field.Of(f, part); ok {
			out = append(out, rating{called, v})
		}
	}
	fuses, _ := fuseParts(f)
	for _, fuse := range fuses {
		add(fuseVoltage, fuse, fuse)
	}
	add(ratedVoltage, "switch", "switch")
	if meter, ok := useVolts.Of(f, "bank"); ok {
		if kind, is := bank.PartKind(meter); is && kind == bank.KindMeter {
			add(ratedVoltage, meter, meter)
		}
	}
	add(gloveVoltage, "bank", "")
	return out
}
