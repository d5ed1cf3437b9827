package screen

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// reference is an entry that names another part by its id: it is chosen among
// the parts that are there, and one more can be added.
type reference struct {
	prefix string // of the ids: "cable", "m"; "" for what a charge goes into
	usual  string // the part that every job may have
	what   string // the quantity that a meter must measure
	add    say.Phrase
}

var (
	addCable  = say.Phrase{Key: "screen.add.cable", English: "Add a cable"}
	addSheet  = say.Phrase{Key: "screen.add.sheet", English: "Add a block sheet"}
	addMeter  = say.Phrase{Key: "screen.add.meter", English: "Add a meter"}
	addWrench = say.Phrase{Key: "screen.add.wrench", English: "Add a torque wrench"}

	references = map[string]reference{
		"cable":            {"cable", "cable1", "", addCable},
		"sheet":            {"sheet", "sheet1", "", addSheet},
		"use-volts":        {"m", "", "V", addMeter},
		"use-millivolts":   {"m", "", "V", addMeter},
		"use-amperes":      {"m", "", "A", addMeter},
		"use-milliamperes": {"m", "", "A", addMeter},
		"use-celsius":      {"m", "", "C", addMeter},
		"use-torque":       {"w", "", "N.m", addWrench},
		"use-insulation":   {"m", "", "Ohm", addMeter},
		"use-ohms":         {"m", "", "Ohm", addMeter},
		"use-milliohms":    {"m", "", "Ohm", addMeter},
		"use-kilograms":    {"m", "", "kg", addMeter},
		"use-metres":       {"m", "", "m", addMeter},
		"target":           {},
	}
)

// partsOf lists the numbered parts of which anything is entered, by number.
func (j *opened) partsOf(prefix string) []string {
	var numbers []int
	for _, k := range j.keysUpTo(prefix) {
		n, err := strconv.Atoi(strings.TrimPrefix(k.Part, prefix))
		if err == nil && !slices.Contains(numbers, n) && j.has(finding.Key{Part: k.Part, Field: k.Field}) {
			numbers = append(numbers, n)
		}
	}
	slices.Sort(numbers)
	var out []string
	for _, n := range numbers {
		out = append(out, prefix+strconv.Itoa(n))
	}
	return out
}

// nextPart is the id of the next numbered part.
func (j *opened) nextPart(prefix string) string {
	n := 0
	for _, p := range j.partsOf(prefix) {
		if m, err := strconv.Atoi(strings.TrimPrefix(p, prefix)); err == nil {
			n = max(n, m)
		}
	}
	return prefix + strconv.Itoa(n+1)
}

// choices lists what an entry can name; what it names now is among them.
func (r *root) choices(f checks.Field, ref reference, now string) [][2]string {
	var ids []string
	switch {
	case ref.prefix == "":
		l := r.job.facts.Layout()
		ids = append(ids, "bank")
		if l.Parallel > 1 {
			for _, u := range l.Units() {
				ids = append(ids, u.ID)
			}
		}
		ids = append(ids, l.Blocks()...)
	case ref.what != "":
		ids = r.metersOf(unit.Symbol(ref.what))
	default:
		ids = r.job.partsOf(ref.prefix)
	}
	if ref.usual != "" && !slices.Contains(ids, ref.usual) {
		ids = append([]string{ref.usual}, ids...)
	}
	if now != "" && !slices.Contains(ids, now) {
		ids = append(ids, now)
	}
	var out [][2]string
	for _, id := range ids {
		out = append(out, [2]string{id, r.refName(id)})
	}
	return out
}

// refName says a part by what it is known by on site: a cable by its size, a
// sheet or a meter by its model.
func (r *root) refName(id string) string {
	kind, ok := bank.PartKind(id)
	if !ok {
		return id
	}
	k, _ := registeredAs(id)
	field := k.known
	if field == "" || kind == bank.KindPerson || kind == bank.KindCharger || kind == bank.KindInverter {
		return r.name(id)
	}
	e, s := r.job.state.Lookup(r.job.visit, id, field, true)
	if s != job.One || e.Value.Text == "" {
		return r.name(id)
	}
	return r.t("ref.name", "{part}, {what}", "part", r.name(id), "what", e.Value.Text)
}

// refField asks for another part. To add one keeps the form first, so that
// nothing typed is lost.
func (r *root) refField(f checks.Field, ref reference, keepThen func(ctx app.Context, way string)) app.UI {
	body := []app.UI{r.pick(f.ID, r.say(f.Label.With()), r.choices(f, ref, r.text[f.ID]))}
	if ref.prefix != "" {
		next := r.job.nextPart(ref.prefix)
		body = append(body, r.button("btn q", r.say(ref.add.With()), func(ctx app.Context) {
			keepThen(ctx, r.to("enter", next, string(checks.Before)))
		}))
	}
	return app.Div().Body(body...)
}

var (
	sayNoUnit   = say.Phrase{Key: "screen.form.no-unit", English: "Type it with its unit, such as {like}."}
	sayMeasures = say.Phrase{Key: "screen.form.measures", English: "Choose first what this meter measures."}
)

// meterText checks the step or the range of a meter: a number with its unit, of
// what the meter measures. Otherwise the digits that it shows stay unknown in
// silence.
func (r *root) meterText(f checks.Field, text string) say.Line {
	like := map[string][2]string{"V": {"0.001 V", "60 V"}, "A": {"0.01 A", "400 A"}, "C": {"0.1 °C", "100 °C"}, "Ohm": {"0.01 MOhm", "200 MOhm"}, "kg": {"0.1 kg", "50 kg"}, "m": {"1 mm", "5 m"}, "N.m": {"0.1 N·m", "25 N·m"}}
	what := r.text["measures"]
	forms, known := like[what]
	if !known {
		return sayMeasures.With()
	}
	if !strings.ContainsFunc(text, func(c rune) bool { return unicode.IsLetter(c) || c == '°' }) {
		if f.ID == "step" {
			return sayNoUnit.With("like", forms[0])
		}
		return sayNoUnit.With("like", forms[1])
	}
	if _, slip := unit.Parse(text, unit.Symbol(what), false); slip != nil {
		return slip.Line
	}
	return say.Line{}
}
