package plain

import (
	"slices"
	"strings"
	"unicode"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/figure"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// maxText keeps every text well below what one event may hold.
const maxText = 1000 // letters

var (
	wantNumber = say.Phrase{Key: "plain.want-number", English: "a number"}
	wantTicked = say.Phrase{Key: "plain.want-ticked", English: "one text with commas between the answers, or “none”"}
	wantUnit   = say.Phrase{Key: "plain.want-unit", English: "a text with its unit, such as “{example}”"}

	sayWhole    = say.Phrase{Key: "plain.whole", English: "“{field}” of “{part}” counts whole things; it says {text}."}
	sayOutside  = say.Phrase{Key: "plain.outside", English: "“{field}” of “{part}”: {value} is outside {low} to {high}. If it really reads so, write {\"n\": \"{value}\", \"odd\": true}."}
	sayEmpty    = say.Phrase{Key: "plain.empty", English: "“{field}” of “{part}” is empty. Leave it out."}
	sayLong     = say.Phrase{Key: "plain.text-long", English: "“{field}” of “{part}” is longer than 1000 letters."}
	sayTheirTop = say.Phrase{Key: "plain.layout-top", English: "The layout stands by itself, under “layout”."}
	sayNotA     = say.Phrase{Key: "plain.not-a", English: "“{field}” of “{part}” names {want}, such as “{example}”; “{text}” is none."}
	sayMeasures = say.Phrase{Key: "plain.measures", English: "“{text}” is not the unit of anything a meter measures here."}

	aSheet = say.Phrase{Key: "plain.a-sheet", English: "a block sheet"}
	aCable = say.Phrase{Key: "plain.a-cable", English: "a cable"}
	aMeter = say.Phrase{Key: "plain.a-meter", English: "a meter or wrench"}
)

// short reads a value without its long form. Odd says that a number outside
// physics is meant so.
func (p *parser) short(n *node, f checks.Field, part string, odd bool) (e Entry) {
	switch f.Kind {
	case checks.Number:
		e.Value = p.number(n, f, part, odd)
	case checks.Choice:
		if n.shape == object || n.shape == list {
			p.fault(n.line, sayWrong.With("name", f.ID, "want", wantAnswer))
			return e
		}
		e.Value = job.Value{Kind: job.KindChoice, Choice: p.option(n, f.ID, f.Options)}
	case checks.Several:
		e.Value = job.Value{Kind: job.KindChoices, Choices: p.several(n, f)}
	case checks.Time:
		e.Value = job.Value{Kind: job.KindTime, Time: p.timeOf(n, f)}
	case checks.Drawing:
		p.fault(n.line, sayTheirTop.With())
	default:
		if !p.is(n, f.ID, text, wantText) {
			return e
		}
		switch {
		case strings.TrimSpace(n.text) == "":
			p.fault(n.line, sayEmpty.With("field", f.ID, "part", part))
		case len([]rune(n.text)) > maxText:
			p.fault(n.line, sayLong.With("field", f.ID, "part", part))
		case f.Kind == checks.Personal:
			e = Entry{Value: job.Value{Kind: job.KindPersonal}, Personal: n.text}
		default:
			e.Value = job.Value{Kind: job.KindText, Text: n.text}
			p.refers(n, f, part)
		}
	}
	return e
}

// noneTicked is how a file says that nothing of a list was ticked.
const noneTicked = "none"

// several reads the codes that were ticked, with commas between them.
func (p *parser) several(n *node, f checks.Field) (codes []string) {
	if !p.is(n, f.ID, text, wantTicked) || n.text == noneTicked {
		return nil
	}
	for _, code := range strings.Split(n.text, ",") {
		code = p.option(&node{line: n.line, shape: text, text: strings.TrimSpace(code)}, f.ID, f.Options)
		if code != "" && !slices.Contains(codes, code) {
			codes = append(codes, code)
		}
	}
	slices.Sort(codes)
	return codes
}

// bare reports whether a quantity is written without a unit.
func bare(b unit.Symbol) bool { return b == "1" || b == "%" || b == "ratio" }

// number reads a quantity: a text with its unit, or for counts, percents and
// ratios a JSON number too.
func (p *parser) number(n *node, f checks.Field, part string, odd bool) (v job.Value) {
	b := base(f)
	if n.shape != text && (n.shape != number || !bare(b)) {
		p.fault(n.line, sayWrong.With("name", f.ID, "want", p.wantUnit(f, n)))
		return v
	}
	x, slip := unit.Parse(n.text, f.Unit, true)
	switch {
	case slip != nil:
		p.fault(n.line, sayOf.With("field", f.ID, "part", part, "what", slip.Line))
		return v
	case !bare(b) && !strings.ContainsFunc(n.text, unicode.IsLetter):
		p.fault(n.line, sayWrong.With("name", f.ID, "want", p.wantUnit(f, n)))
		return v
	case b == "1" && x.Decimals > 0:
		p.fault(n.line, sayWhole.With("field", f.ID, "part", part, "text", n.text))
		return v
	}
	if outside(f, x.Value) && !odd {
		low, high := figure.Exact(f.Low, x.Unit), figure.Exact(f.High, x.Unit)
		p.fault(n.line, sayOutside.With("field", f.ID, "part", part, "value", figure.Typed(x), "low", low, "high", high))
		return v
	}
	return job.Value{Kind: job.KindQuantity, Number: x.Digits, Unit: string(x.Unit), Source: "file"}
}

// outside reports whether a value [base unit] is outside physics for a field.
func outside(f checks.Field, x float64) bool {
	return (f.Low != 0 || f.High != 0) && (x < f.Low || x > f.High)
}

// wantUnit says how a quantity is written, by the digits that stand there.
func (p *parser) wantUnit(f checks.Field, n *node) say.Line {
	switch b := base(f); {
	case b == "1":
		return wantWhole.With()
	case bare(b):
		return wantNumber.With()
	}
	digits := "10"
	if (n.shape == number || n.shape == text) && n.text != "" && len(n.text) < 10 {
		digits = n.text
	}
	return wantUnit.With("example", digits+" "+string(f.Entry()))
}

// refers checks a text that names another part, or that is itself a number.
func (p *parser) refers(n *node, f checks.Field, part string) {
	names := func(want say.Phrase, example string, kinds ...bank.Kind) {
		kind, ok := bank.PartKind(n.text)
		for _, k := range kinds {
			if ok && k == kind {
				return
			}
		}
		p.near(n.line, sayNotA.With("field", f.ID, "part", part, "want", want, "example", example, "text", n.text), n.text, p.named)
	}
	kind, _ := bank.PartKind(part)
	switch {
	case f.ID == "sheet" && kind == bank.KindBlock:
		names(aSheet, "sheet1", bank.KindSheet)
	case f.ID == "cable" && (kind == bank.KindLink || kind == bank.KindLead):
		names(aCable, "cable1", bank.KindCable)
	case kind == bank.KindBank && strings.HasPrefix(f.ID, "use-"):
		names(aMeter, "m1", bank.KindMeter, bank.KindWrench)
	case f.ID == "measures" && (kind == bank.KindMeter || kind == bank.KindWrench):
		if _, ok := unit.Symbol(n.text).Base(); !ok {
			p.near(n.line, sayMeasures.With("text", n.text), n.text, []string{"V", "A", "C", "N.m", "Ohm"})
		}
	case (f.ID == "step" || f.ID == "range") && kind == bank.KindMeter:
		p.plate(n, f, part)
	}
}

// plate checks a figure of a meter that is kept as text: a number above zero
// with a unit.
func (p *parser) plate(n *node, f checks.Field, part string) {
	cut := strings.IndexFunc(n.text, func(r rune) bool { return unicode.IsLetter(r) || r == '%' || r == '°' })
	if cut < 0 {
		p.fault(n.line, sayWrong.With("name", f.ID, "want", wantUnit.With("example", "0.001 V")))
		return
	}
	want, ok := unit.Known(n.text[cut:])
	if !ok {
		want = "V"
	}
	x, slip := unit.Parse(n.text, want, false)
	switch {
	case slip != nil:
		p.fault(n.line, sayOf.With("field", f.ID, "part", part, "what", slip.Line))
	case x.Value <= 0 && want != "C" && want != "F":
		p.fault(n.line, sayWrong.With("name", f.ID, "want", wantUnit.With("example", "0.001 V")))
	}
}

// meter names the meter of a reading: the one that is given, else the one in
// use on this job for the quantity.
func (p *parser) meter(e *Entry, f checks.Field, given *node) {
	if e.Value.Kind != job.KindQuantity {
		return
	}
	if given == nil {
		if checks.Measured(f) {
			e.Value.Meter = usualMeter(p.meterOf, f)
		}
		return
	}
	if !p.is(given, "m", text, wantText) || given.text == "" { // "" says that none is known
		return
	}
	if kind, ok := bank.PartKind(given.text); !ok || kind != bank.KindMeter && kind != bank.KindWrench {
		p.near(given.line, sayNotMeter.With("part", given.text), given.text, p.named)
		return
	}
	e.Value.Meter = given.text
}
