package checks

import (
	"sort"
	"time"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/thermal"
	"lugmark/core/unit"
)

var sayNoHeater = say.Phrase{Key: "heater.none", English: "No sheet says that these blocks heat themselves from the charger."}

// heated lists the blocks that heat themselves from the charger, as their
// sheets say.
func (f *Facts) heated() (out []string) {
	for _, b := range f.Layout().Blocks() {
		if sheet, ok := f.sheetOf(b); ok && sheetHeated.Yes(f, sheet) {
			out = append(out, b)
		}
	}
	return out
}

// onHeated is the Parts of a check about heated blocks.
func onHeated(f *Facts) ([]string, say.Line) {
	var has bool
	f.quietly(func() { has = len(f.heated()) > 0 })
	if !has {
		return nil, sayNoHeater.With()
	}
	return []string{"bank"}, say.Line{}
}

// ofHeated reads a figure of the sheets of the heated blocks and keeps the one
// that binds.
func ofHeated[Q unit.Quantity](f *Facts, field Quantity[Q], tighter func(a, b Q) bool) (out Q, sheet string, gap *finding.Finding) {
	for _, b := range f.heated() {
		id, _ := f.sheetOf(b)
		v, ok := field.Plain(f, id)
		if !ok {
			x := missing(field.Field, id)
			return out, "", &x
		}
		if sheet == "" || tighter(v, out) {
			out, sheet = v, id
		}
	}
	return out, sheet, nil
}

// heaterAmps is what the heaters of the bank draw together: the blocks of one
// string share one current, so the strings count and not the blocks.
//
//	I = Np · max I_heater  [A]
func (f *Facts) heaterAmps() (unit.Ampere, string, *finding.Finding) {
	one, sheet, gap := ofHeated(f, sheetHeaterAmps, func(a, b unit.Ampere) bool { return a > b })
	return one * unit.Ampere(f.Layout().Parallel), sheet, gap
}

// usualRelease is where a heated block lets the charge in when its sheet is
// silent: common practice.
const usualRelease unit.Celsius = 5

// release is the temperature at which the last heated block lets charge in.
func (f *Facts) release() unit.Celsius {
	t, _, gap := ofHeated(f, sheetRelease, func(a, b unit.Celsius) bool { return a > b })
	if gap != nil {
		return usualRelease
	}
	return t
}

// sampled is one line of the charge list.
type sampled struct {
	part                       string
	at                         time.Time
	amps                       measure.Reading[unit.Ampere]
	volts                      measure.Reading[unit.Volt]
	temp                       measure.Reading[unit.Celsius]
	hasAmps, hasVolts, hasTemp bool
}

// samples gives the lines of the first charge in the order of their times.
func (f *Facts) samples() []sampled {
	return remember(f, "samples", func() (out []sampled) {
		of := map[string]bool{}
		for _, k := range f.state.KeysFrom(f.visit, "charge1.") {
			if of[k.Part] || len(f.state.Live(k)) == 0 {
				continue
			}
			of[k.Part] = true
			s := sampled{part: k.Part}
			if a, ok := sampleCurrent.Of(f, k.Part); ok {
				s.amps, s.hasAmps, s.at = measure.Absolute(a, f.meter(a.Meter, "A")), true, a.At
			}
			if v, ok := sampleVoltage.Of(f, k.Part); ok {
				s.volts, s.hasVolts, s.at = measure.Absolute(v, f.meter(v.Meter, "V")), true, v.At
			}
			if t, ok := sampleTemp.Of(f, k.Part); ok {
				s.temp, s.hasTemp = f.sensed(t, ownSensor), true
				if s.at.IsZero() {
					s.at = t.At
				}
			}
			if s.hasAmps || s.hasVolts || s.hasTemp {
				out = append(out, s)
			}
		}
		sort.SliceStable(out, func(i, j int) bool { return out[i].at.Before(out[j].at) })
		return out
	})
}

// currentTrace is the current of the samples that have one, and which they are.
func currentTrace(list []sampled) (trace []thermal.Sample, of []sampled) {
	for _, s := range list {
		if s.hasAmps {
			of = append(of, s)
			trace = append(trace, thermal.Sample{At: unit.Second(s.at.Sub(of[0].at).Seconds()), Current: s.amps.Value})
		}
	}
	return trace, of
}

// noSamples is To do for the first line of the charge list.
func noSamples() finding.Finding {
	return finding.Undone(saySampleFirst.With("field", sampleCurrent.Label, "part", bank.Name("charge1")))
}

var saySampleFirst = say.Phrase{Key: "charge.sample-first", English: "Write the first line of the charge list: {field}, {part}."}
