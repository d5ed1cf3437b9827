package checks

import (
	"time"

	"lugmark/core/figure"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

var (
	sayAssumedVolt  = say.Phrase{Key: "assumed.voltmeter", English: "Voltmeter ±(0.5 % + 3 counts) assumed; no meter sheet entered."}
	sayAssumedClamp = say.Phrase{Key: "assumed.clamp", English: "DC clamp ±(2 % + 5 counts) and ±0.5 A zero assumed; no meter sheet entered."}
	sayAssumedTherm = say.Phrase{Key: "assumed.thermometer", English: "Thermometer ±2 K assumed; no meter sheet entered."}
	sayAssumedInsul = say.Phrase{Key: "assumed.insulation-tester", English: "Insulation tester ±30 % assumed, the most after IEC 61557-2; no meter sheet entered."}
	sayAssumedOhms  = say.Phrase{Key: "assumed.ohmmeter", English: "Ohmmeter ±30 % assumed, the most after IEC 61557-4; no meter sheet entered."}
	sayAssumedMilli = say.Phrase{Key: "assumed.milliohms", English: "±5 % assumed for a resistance in milliohms; no meter sheet entered."}
	sayAssumedScale = say.Phrase{Key: "assumed.scale", English: "Scale ±1 % assumed; no meter sheet entered."}
	sayAssumedRule  = say.Phrase{Key: "assumed.rule", English: "Rule ±2 mm assumed; no meter sheet entered."}
	sayAssumedOther = say.Phrase{Key: "assumed.other", English: "Uncertainty ±10 % assumed; no meter sheet entered."}
	sayOutOfDate    = say.Phrase{Key: "assumed.out-of-date", English: "The meter was past its calibration date; its uncertainty is doubled."}
)

// defaults are the limits of error taken when no sheet was entered, by the name
// of the use: common hand meters, from memory; our choice, printed as assumed.
//
// What tests insulation may be off by 30 % of the reading: the most that IEC
// 61557-2, 6.2, allows, read in a public excerpt. IEC 61557-4 has the same figure
// for low resistances, from memory. Milliohms are usually millivolts over amperes:
// at 60 A and 10.00 mV a meter of ±(0.5 % + 3 counts) and a clamp of ±(2 % + 5
// counts) and 0.5 A are 0.8 % and 3.7 % of it, 5 % together.
var defaults = map[string]usualMeter{
	"V":    {measure.Meter{Percent: 0.5, Counts: 3}, sayAssumedVolt},
	"mV":   {measure.Meter{Percent: 0.5, Counts: 3}, sayAssumedVolt},
	"A":    {measure.Meter{Percent: 2, Counts: 5, Fixed: 0.5}, sayAssumedClamp},
	"mA":   {measure.Meter{Percent: 2, Counts: 5, Fixed: 0.5}, sayAssumedClamp},
	"C":    {measure.Meter{Fixed: 2}, sayAssumedTherm},
	"MOhm": {measure.Meter{Percent: 30}, sayAssumedInsul},
	"Ohm":  {measure.Meter{Percent: 30}, sayAssumedOhms},
	"mOhm": {measure.Meter{Percent: 5}, sayAssumedMilli},
	"kg":   {measure.Meter{Percent: 1}, sayAssumedScale},
	"m":    {measure.Meter{Fixed: float64(ruleU)}, sayAssumedRule},
}

// usualMeter is a meter without a sheet, and how that is said.
type usualMeter struct {
	meter measure.Meter
	say   say.Phrase
}

// usualFor is what is assumed of a meter whose reading was typed in a unit. Where
// nothing is known of its kind, a tenth of the reading: our choice.
func usualFor(typed unit.Symbol) usualMeter {
	u, _ := UseFor(typed)
	if d, ok := defaults[u.Name]; ok {
		return d
	}
	return usualMeter{measure.Meter{Percent: 10}, sayAssumedOther}
}

// meter gives the limits of error of a meter for a quantity: its sheet, or the
// stated default, which is then noted as assumed. It is judged by its date now;
// [specOf] judges it by the date of a reading.
func (f *Facts) meter(id string, quantity unit.Symbol) measure.Meter {
	return f.meterAt(id, quantity, quantity, f.now)
}

// meterAt is [Facts.meter] for a reading of another day: a meter that was in
// date when it was used stays so for that reading. The unit that was typed says
// what is assumed of a meter without a sheet.
func (f *Facts) meterAt(id string, quantity, typed unit.Symbol, at time.Time) measure.Meter {
	if at.IsZero() {
		at = f.now
	}
	use, _ := UseFor(typed)
	m := remember(f, "meter "+id+" "+string(quantity)+" "+use.Name, func() measure.Meter { return f.meterOf(id, quantity, typed) })
	if !m.Assumed && f.overdue(id, at) {
		m.OutOfDate = true
		f.assume(sayOutOfDate.With())
	}
	return m
}

// specOf is the meter of a reading, as it was on the day of the reading.
func specOf[Q unit.Quantity](f *Facts, x measure.Shown[Q]) measure.Meter {
	return f.meterAt(x.Meter, x.Value.Symbol(), x.Typed.Unit, x.At)
}

// absolute gives a reading the limits of error of its meter.
func absolute[Q unit.Quantity](f *Facts, x measure.Shown[Q]) measure.Reading[Q] {
	return measure.Absolute(x, specOf(f, x))
}

func (f *Facts) meterOf(id string, quantity, typed unit.Symbol) measure.Meter {
	if m, ok := f.sheetMeter(id, quantity); ok {
		return m
	}
	d := usualFor(typed)
	f.assume(d.say.With())
	m := d.meter
	m.ID, m.Measures, m.Assumed = id, quantity, true
	return m
}

// sheetMeter builds a meter from its entered sheet; ok is false when there is
// none or it measures something else. It reads quietly: the meter's own
// entries are not what the finding is about.
func (f *Facts) sheetMeter(id string, quantity unit.Symbol) (measure.Meter, bool) {
	if id == "" {
		return measure.Meter{}, false
	}
	var m measure.Meter
	ok := false
	f.quietly(func() {
		measures, has := meterMeasures.Of(f, id)
		base, known := unit.Symbol(measures).Base()
		if !has || !known || base != quantity {
			return
		}
		percent, hasPercent := meterPercent.Plain(f, id)
		counts, hasCounts := meterCounts.Plain(f, id)
		// A figure that is missing is not zero: without the percentage there is
		// no sheet. A sheet may give none in counts; one that was put aside or
		// disputed is not known.
		if !hasPercent || !hasCounts && f.holds(meterCounts.Field, id) {
			return
		}
		m = measure.Meter{ID: id, Measures: quantity, Percent: float64(percent), Counts: float64(counts)}
		m.Step = f.typedText(meterStep, id, quantity)
		m.Top = f.typedText(meterRange, id, quantity)
		ok = true
	})
	return m, ok
}

// typedText reads a text such as "0.001 V" as a value in the base unit; 0 when
// it is missing or not of that quantity.
func (f *Facts) typedText(field TextField, part string, quantity unit.Symbol) float64 {
	text, ok := field.Of(f, part)
	if !ok {
		return 0
	}
	n, slip := unit.Parse(text, quantity, false)
	if slip != nil {
		return 0
	}
	return n.Value
}

// overdue reports whether a meter or wrench was past its due date on the day of
// a reading.
func (f *Facts) overdue(id string, at time.Time) bool {
	due := f.dueDate(id)
	return !due.IsZero() && past(due, at)
}

// dueDate is when a meter's calibration is due; zero when that is not known.
func (f *Facts) dueDate(id string) time.Time {
	return rememberQuietly(f, "due "+id, func() time.Time {
		t, _ := meterDue.Of(f, id)
		return t
	})
}

// past compares days, in the offset of the later moment.
func past(due, at time.Time) bool { return at.Format(time.DateOnly) > due.Format(time.DateOnly) }

// quietly reads entries without noting them for the finding.
func (f *Facts) quietly(read func()) {
	reads, assumed, trouble, skipped := f.reads, f.assumed, f.trouble, f.skipped
	read()
	f.reads, f.assumed, f.trouble, f.skipped = reads, assumed, trouble, skipped
}

// difference is a − b with the meters of both readings.
func difference[Q unit.Quantity](f *Facts, a, b measure.Shown[Q], closing Q) measure.Reading[Q] {
	return measure.Difference(a, b, specOf(f, a), specOf(f, b), closing)
}

// sum adds readings with the meters they were taken with.
func sum[Q unit.Quantity](f *Facts, xs []measure.Shown[Q]) measure.Reading[Q] {
	latest := xs[0].At // of a sum that took days, the last day counts for all
	for _, x := range xs {
		if x.At.After(latest) {
			latest = x.At
		}
	}
	return measure.Sum(xs, func(id string) measure.Meter { return f.meterAt(id, xs[0].Value.Symbol(), xs[0].Typed.Unit, latest) })
}

// typed says a reading as it was typed.
func typed[Q unit.Quantity](x measure.Shown[Q]) say.Figure { return figure.Typed(x.Typed) }

// exact says a limit or a plate value in a unit.
func exact[Q unit.Quantity](v Q, show unit.Symbol) say.Figure { return figure.Exact(float64(v), show) }
