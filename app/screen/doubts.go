package screen

import (
	"math"
	"strings"
	"time"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/figure"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// An entry that can be, and seldom is, is asked about once: a lost minus, a point
// too far left, a figure that another one on the same page denies. Kept once more
// it stands.

var (
	sayAsked     = say.Phrase{Key: "screen.doubt.asked", English: "{doubt} Correct it, or keep once more if it is so."}
	sayAllDigits = say.Phrase{Key: "screen.doubt.digits", English: "{meter} shows more digits than {n}, such as {full}. Type all of them, the zeros too: a digit left out makes it a coarse meter."}
	sayNoDigits  = say.Phrase{Key: "screen.doubt.whole", English: "{n} has no digit after the point. If your meter shows more, type all of them, the zeros too: a digit left out makes it a coarse meter."}
	sayColdAir   = say.Phrase{Key: "screen.doubt.cold-air", English: "The coldest air is entered as {value}, and {part} was read at {read}. Is a minus missing?"}
	sayWarmest   = say.Phrase{Key: "screen.doubt.charge-top", English: "{value} is little for the highest temperature for charging; sheets usually allow {usual} or more. Is a digit missing?"}
	sayFewWatts  = say.Phrase{Key: "screen.doubt.power", English: "{value} is little for an inverter. Is it kilowatts?"}
	saySameSign  = say.Phrase{Key: "screen.doubt.frame", English: "Both poles are entered on the same side of the frame, {plus} and {minus}. A floating bank has one on either side. Is a sign wrong?"}
	sayAmpHours  = say.Phrase{Key: "screen.doubt.charge", English: "{amps} for {hours} are {product}, and {value} is entered. Which of the three is wrong?"}
	sayLowCutOff = say.Phrase{Key: "screen.doubt.cut-off", English: "{value} is too low for the cut-off of {n} blocks in series: at {least} their own protection is open already. Is a digit missing?"}
	sayManySteps = say.Phrase{Key: "screen.doubt.counts", English: "Steps of {step} up to {range} are {n} counts; a hand meter shows 60 000 at most. On its higher ranges it shows fewer digits: enter each range by itself."}
)

const (
	// A block is read in air about as warm as it is; five kelvin off is weather,
	// more is a sign. Our choice.
	coldAirApart = 5.0

	// Sheets allow charging up to 45 °C and more; below 20 °C none would be of use
	// in a room. Common practice, no source.
	leastChargeTop, usualChargeTop = 20.0, 40.0

	// The smallest inverters for a bank of blocks have more than 50 W. Our choice.
	fewWatts = 50.0

	// What a voltmeter shows between a pole and a frame that it is not joined to.
	// Our choice.
	offFrame = 0.1

	// Charge, current and time on one page: 5 % is more than their meters differ.
	// Our choice.
	chargeNear = 0.05

	// A protection opens at 9.3 V of a block at the latest, 2.2 V per cell and the
	// margin of half a volt: common practice, no source.
	lowestCutOff = 9.3

	// Hand meters show 2000 to 60 000 counts. Common practice, no source.
	mostCounts = 60000.0
)

// askOnce gives the doubt about an entry of a form, unless the same text was asked
// about already.
func (r *root) askOnce(part string, f checks.Field, text string) (say.Line, bool) {
	doubt := r.formDoubt(part, f, text)
	if doubt.Empty() || r.asked[f.ID] == text {
		return say.Line{}, false
	}
	if r.asked == nil {
		r.asked = map[string]string{}
	}
	r.asked[f.ID] = text
	return sayAsked.With("doubt", doubt), true
}

// formDoubt says what is odd about an entry of a form; empty when nothing is.
func (r *root) formDoubt(part string, f checks.Field, text string) say.Line {
	if f.Kind == checks.Text {
		return r.countsDoubt(f)
	}
	n, slip := unit.Parse(text, f.Entry(), f.Signed)
	if f.Kind != checks.Number || slip != nil {
		return say.Line{}
	}
	value := figure.Typed(n)
	switch f.ID {
	case "ambient-min":
		if p, coldest, ok := r.coldestRead(); ok && n.Value > coldest.Value+coldAirApart {
			return sayColdAir.With("value", value, "part", bank.Name(p), "read", figure.Typed(coldest))
		}
	case "charge-temp-max":
		if n.Value < leastChargeTop {
			return sayWarmest.With("value", value, "usual", figure.Exact(usualChargeTop, "C"))
		}
	case "power":
		if n.Value < fewWatts {
			return sayFewWatts.With("value", value)
		}
	case "cut-off":
		series := float64(r.job.facts.Layout().Series)
		if n.Value < lowestCutOff*series {
			return sayLowCutOff.With("value", value, "n", itoa(int(series)), "least", figure.Exact(lowestCutOff*series, "V"))
		}
	case "stray-plus", "stray-minus":
		if d := r.frameDoubt(f); !d.Empty() {
			return d
		}
	case "charge", "test-current", "duration":
		if d := r.chargeDoubt(part, f); !d.Empty() {
			return d
		}
	}
	return r.digitsDoubt(f, n)
}

// digitsDoubt asks about a figure with fewer digits than its meter shows; without
// a sheet, about volts and amperes with none after the point.
func (r *root) digitsDoubt(f checks.Field, n unit.Number) say.Line {
	if !checks.Measured(f) || f.ID == "test-current" || f.ID == "resistance-step" { // of hours, and of two readings: no one figure on a meter
		return say.Line{}
	}
	id, step := r.meterTyped(f, n)
	switch {
	case step > 0 && n.Step > step*9.99: // a step of 0.5 shows as many digits as one of 0.1
		full := n.Digits
		if n.Decimals == 0 {
			full += "."
		}
		full += strings.Repeat("0", int(math.Round(math.Log10(n.Step/step))))
		return sayAllDigits.With("n", figure.Typed(n), "meter", r.meterName(id), "full", say.Figure{Digits: full, Unit: string(n.Unit)})
	case step == 0 && n.Decimals == 0 && n.Value != 0 && (n.Unit == "V" || n.Unit == "A"):
		return sayNoDigits.With("n", figure.Typed(n))
	}
	return say.Line{}
}

// countsDoubt asks about a meter of more counts than a hand meter has.
func (r *root) countsDoubt(f checks.Field) say.Line {
	if f.ID != "range" && f.ID != "step" || f.ID == "step" && r.slips["range"].Empty() && r.text["range"] == "" {
		return say.Line{}
	}
	what := unit.Symbol(r.text["measures"])
	step, bad := unit.Parse(r.text["step"], what, false)
	top, worse := unit.Parse(r.text["range"], what, false)
	if bad != nil || worse != nil || step.Value <= 0 || top.Value/step.Value <= mostCounts*(1+1e-9) || what != "V" && what != "A" {
		return say.Line{}
	}
	return sayManySteps.With("step", figure.Typed(step), "range", figure.Typed(top), "n", figure.Exact(math.Round(top.Value/step.Value), "1"))
}

// frameDoubt asks about two poles on one side of the frame.
func (r *root) frameDoubt(f checks.Field) say.Line {
	plus, bad := unit.Parse(r.text["stray-plus"], "V", true)
	minus, worse := unit.Parse(r.text["stray-minus"], "V", true)
	if bad != nil || worse != nil || math.Min(math.Abs(plus.Value), math.Abs(minus.Value)) <= offFrame || plus.Value*minus.Value < 0 {
		return say.Line{}
	}
	if f.ID == "stray-plus" && r.text["stray-minus"] != r.asked["stray-minus"] && r.job.inputText("bank", fieldOf("stray-minus")) != strings.TrimSpace(r.text["stray-minus"]) {
		return say.Line{} // asked at the second of the two
	}
	return saySameSign.With("plus", figure.Typed(plus), "minus", figure.Typed(minus))
}

// chargeDoubt asks about a charge that is not its current times its time.
func (r *root) chargeDoubt(part string, f checks.Field) say.Line {
	fields := map[string]unit.Number{}
	for _, id := range []string{"charge", "test-current", "duration"} {
		field, ok := checks.FieldOf(id, part)
		n, slip := unit.Parse(r.text[id], unitOf(field, ok), false)
		if !ok || slip != nil || n.Value <= 0 {
			return say.Line{}
		}
		fields[id] = n
	}
	amps, hours, charge := fields["test-current"], fields["duration"], fields["charge"]
	product := amps.Value * hours.Value / 3600
	if math.Abs(product-charge.Value) <= chargeNear*math.Max(product, charge.Value) {
		return say.Line{}
	}
	if f.ID != "charge" && r.job.inputText(part, mustField("charge", part)) != strings.TrimSpace(r.text["charge"]) {
		return say.Line{} // asked at the charge
	}
	return sayAmpHours.With("amps", figure.Typed(amps), "hours", figure.Typed(hours), "product", figure.Exact(math.Round(product*10)/10, "Ah"), "value", figure.Typed(charge))
}

func unitOf(f checks.Field, ok bool) unit.Symbol {
	if !ok {
		return ""
	}
	return f.Entry()
}

func mustField(id, part string) checks.Field {
	f, _ := checks.FieldOf(id, part)
	return f
}

// coldestRead is the block with the lowest temperature read at this visit.
func (r *root) coldestRead() (part string, coldest unit.Number, ok bool) {
	for _, b := range r.job.facts.Layout().Blocks() {
		for _, id := range []string{"temperature", "charge-temperature"} {
			e, s := r.job.state.Lookup(r.job.visit, b, id, false)
			if s != job.One || e.Value.Kind != job.KindQuantity {
				continue
			}
			if n, good := unit.Stored(e.Value.Number, unit.Symbol(e.Value.Unit)); good && (!ok || n.Value < coldest.Value) {
				part, coldest, ok = b, n, true
			}
		}
	}
	return part, coldest, ok
}

// Blocks that stand together are read within minutes of each other and are about
// as warm as each other: 15 K is a slip, or a block from elsewhere. Our choice.
const (
	warmApart = 15.0
	sameAir   = 30 * time.Minute
)
