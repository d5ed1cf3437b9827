package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/thermal"
	"lugmark/core/unit"
)

// A sensor that lies charges a frozen bank. It is compared with a thermometer
// beside it after half an hour without current. Its resistance alone shows a
// part that is open or short.
var sensorPair = &Check{
	ID: "sensor-pair", Stage: Prove,
	Title:   say.Phrase{Key: "sensor-pair.title", English: "Temperature sensor"},
	Asks:    say.Phrase{Key: "sensor-pair.asks", English: "Does the sensor read what a thermometer beside it does?"},
	Formula: "|T_sensor − T_reference| ≤ 5 K [K], u of the reference alone; 10 kΩ part: 200 Ω ≤ R ≤ 400 kΩ; Pt100: 80 Ω ≤ R ≤ 140 Ω",
	Limits:  []LimitOf{{"difference", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&sensorType.Field, &sensorReads.Field, &sensorOhms.Field, &sensorBeside.Field, &sensorWay.Field, &sensorSoaked.Field},
	Parts:   onBank,
	Eval:    evalSensor,
}

var (
	saySensNone = say.Phrase{Key: "sensor-pair.none", English: "No sensor of a charger or a counter sits on the blocks."}
	saySensGood = say.Phrase{Key: "sensor-pair.pass", English: "Sensor and thermometer lie {found} apart; the limit is {limit}."}
	saySensBad  = say.Phrase{Key: "sensor-pair.fail", English: "Sensor and thermometer lie {found} apart; the limit is {limit}."}
	saySensUnk  = say.Phrase{Key: "sensor-pair.cant-tell", English: "Sensor and thermometer lie {found} apart, too close to the limit of {limit}."}
	saySensCut  = say.Phrase{Key: "sensor-pair.broken", English: "It has {ohms}: open, short, or another part than entered."}
	saySensType = say.Phrase{Key: "sensor-pair.type", English: "Which part it is, is not known, so its resistance says nothing."}
	saySensFar  = say.Phrase{Key: "sensor-pair.infrared", English: "The thermometer reads by infrared on the case, which is no reference."}
	saySensSoak = say.Phrase{Key: "sensor-pair.soak", English: "They did not have 30 minutes together without current."}
	saySensNext = say.Phrase{Key: "sensor-pair.next", English: "Check where the sensor sits, or replace it."}
	saySensRead = say.Phrase{Key: "sensor-pair.again", English: "Put a contact thermometer beside it, wait 30 minutes without current, and read both."}
)

const (
	// Fixed: a worse thermometer must not pass more. Our choice, as the others.
	sensorApart                 unit.Kelvin = 5
	thermistorShort             unit.Ohm    = 200
	thermistorOpen              unit.Ohm    = 400e3
	platinumLeast, platinumMost unit.Ohm    = 80, 140

	thermistorR25  unit.Ohm    = 10e3
	thermistorBeta unit.Kelvin = 3950
	platinumR0     unit.Ohm    = 100
)

func evalSensor(f *Facts, part string) []finding.Finding {
	kind, ok := sensorType.Of(f, part)
	switch {
	case !ok:
		return one(missing(sensorType.Field, part))
	case kind == "none":
		return one(finding.Unneeded(saySensNone.With()))
	case kind == "unknown":
		return one(finding.CannotTell(saySensType.With(), enter(sensorType.Field, part)))
	}
	t, bad, gap := f.sensorTemp(part, kind)
	switch {
	case gap != nil:
		return one(*gap)
	case bad:
		ohms, _ := sensorOhms.Of(f, part)
		return one(finding.Fails(saySensCut.With("ohms", typed(ohms)), saySensNext.With()).From(cite.OurRule.Line()))
	}
	beside, has := sensorBeside.Read(f, part)
	way, hasWay := sensorWay.Of(f, part)
	soaked, hasSoaked := sensorSoaked.Of(f, part)
	if x := firstMissing(need{has, sensorBeside.Field, part}, need{hasWay, sensorWay.Field, part}, need{hasSoaked, sensorSoaked.Field, part}); x != nil {
		return one(*x)
	}
	limit, most, notes := upper(f, "sensor-pair", "difference", base[unit.Kelvin]{sensorApart, finding.Practice, cite.OurRule.Line()})
	apart := measure.Reading[unit.Kelvin]{Value: unit.Kelvin(max(t-beside.Value, beside.Value-t)), U: unit.Kelvin(beside.U)}
	found := finding.Measured(apart, "K", limit)
	said := []any{"found", found.Text, "limit", exact(most, "K")}
	var x finding.Finding
	switch {
	case way == "infrared":
		x = finding.CannotTell(saySensFar.With(), saySensRead.With())
	case soaked != "yes":
		x = finding.CannotTell(saySensSoak.With(), saySensRead.With())
	default:
		x = finding.Judge(measure.AtMost(apart.Interval(), most), finding.Words{
			Pass: saySensGood.With(said...), Fail: saySensBad.With(said...), CantTell: saySensUnk.With(said...),
			Mend: saySensNext.With(), Settle: saySensRead.With(),
		})
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}

// sensorTemp is what the sensor says; bad for one that is open or short.
func (f *Facts) sensorTemp(part, kind string) (t unit.Celsius, bad bool, gap *finding.Finding) {
	if kind == "shown" {
		t, ok := sensorReads.Plain(f, part)
		if !ok {
			x := missing(sensorReads.Field, part)
			return 0, false, &x
		}
		return t, false, nil
	}
	r, ok := sensorOhms.Plain(f, part)
	if !ok {
		x := missing(sensorOhms.Field, part)
		return 0, false, &x
	}
	switch kind {
	case "pt100":
		t, ok = thermal.PlatinumCelsius(r, platinumR0)
		bad = r < platinumLeast || r > platinumMost
	case "ntc-8016":
		t, ok = thermal.Curve8016.Celsius(r)
		bad = r < thermistorShort || r > thermistorOpen
	default:
		t, ok = thermal.Beta(r, thermistorR25, thermistorBeta)
		bad = r < thermistorShort || r > thermistorOpen
	}
	return t, bad || !ok, nil
}
