package conductor

import (
	"strconv"
	"strings"

	"lugmark/core/say"
	"lugmark/core/unit"
)

var (
	slipSize = say.Phrase{Key: "conductor.slip-size",
		English: "“{text}” is not a cable size. Type it as on the jacket, such as 35 mm2, 2/0 AWG or 4 SAE."}
	slipUnit = say.Phrase{Key: "conductor.slip-unit",
		English: "“{text}” needs its unit: mm2 or AWG."}
	slipAluminium = say.Phrase{Key: "conductor.slip-aluminium",
		English: "“{text}” is aluminium or copper-clad. Only copper is judged here; do not use copper-clad aluminium for a battery."}
	slipPair = say.Phrase{Key: "conductor.slip-pair",
		English: "A size in {unit} does not belong to {standard}. Read the jacket again."}
)

// spellings turns what people write into the words that Parse looks for.
var spellings = strings.NewReplacer("²", "2", "mm^2", "mm2", "sq mm", "mm2", "sqmm", "mm2", "mcm", "kcmil", ",", ".", "#", "")

// Parse reads a size as it stands on the jacket, with the standard printed
// beside it: "35 mm2" and "IEC 60228 class 5", "2/0 AWG" and "", "4/0 SAE" and
// "", "4" and "SAE".
//
// AWG and SAE name their own standard. A size in mm² without one is [Unstated];
// so is one whose standard is not known here, and a gauge that says neither AWG
// nor SAE, which then counts with the smaller area. A slip is a sentence for
// the person who typed.
func Parse(size, standard string) (Size, *unit.Slip) {
	text := spellings.Replace(strings.ToLower(strings.TrimSpace(size)))
	std := spellings.Replace(strings.ToLower(standard))
	if isAluminium(text) || isAluminium(std) {
		return Size{}, &unit.Slip{Line: slipAluminium.With("text", strings.TrimSpace(size))}
	}
	sae := strings.Contains(text, "sae") || strings.Contains(std, "sae") || strings.Contains(std, "j1127")
	awg := strings.Contains(text, "awg") || strings.Contains(std, "awg") || strings.Contains(std, "b258")
	iec := strings.Contains(std, "60228")
	for _, word := range []string{"copper", "cu"} {
		text, _ = without(text, word)
	}
	refused := func(p say.Phrase) (Size, *unit.Slip) {
		return Size{}, &unit.Slip{Line: p.With("text", strings.TrimSpace(size))}
	}
	mismatch := func(in string) (Size, *unit.Slip) {
		return Size{}, &unit.Slip{Line: slipPair.With("unit", in, "standard", strings.TrimSpace(standard))}
	}
	if rest, ok := without(text, "mm2"); ok {
		if sae || awg {
			return mismatch("mm²")
		}
		area, ok := plainNumber(rest)
		if !ok {
			return refused(slipSize)
		}
		s := Size{Area: unit.SquareMillimetre(area), digits: strconv.FormatFloat(area, 'f', -1, 64), unit: "mm2"}
		if iec {
			s.Standard, s.Class, s.Tinned = IEC, class(std), strings.Contains(std, "tinned")
		}
		return s, nil
	}
	if rest, ok := without(text, "kcmil"); ok {
		n, err := strconv.Atoi(rest)
		if err != nil || gauge(n) < firstKcmil || gauge(n) > largestKcmil {
			return refused(slipSize)
		}
		if iec || sae {
			return mismatch("kcmil")
		}
		return named(gauge(n), ASTM), nil
	}
	rest := text
	for _, word := range []string{"awg", "sae", "gauge", "ga"} {
		rest, _ = without(rest, word)
	}
	g, ok := gaugeOf(rest)
	switch {
	case !ok:
		return refused(slipSize)
	case iec && rest != text:
		return mismatch("AWG")
	case sae: // whoever prints SAE on the jacket means less copper, also when people call it AWG
		return named(g, SAE), nil
	case awg:
		return named(g, ASTM), nil
	case rest == text && !strings.Contains(rest, "/") && !strings.HasPrefix(rest, "0"):
		return refused(slipUnit) // "35" may be mm², "4" may be either
	case iec:
		return mismatch("AWG")
	}
	return named(g, Unstated), nil
}

// named gives a gauge its copper.
func named(g gauge, std Standard) Size {
	f := g.figure()
	s := Size{Standard: std, Area: g.area(), digits: f.Digits, unit: f.Unit}
	switch std {
	case SAE:
		s.Area, s.unit = saeArea(g), "SAE"
	case Unstated:
		s.Area, s.unit = saeArea(g), "gauge"
	}
	return s
}

func isAluminium(text string) bool {
	return strings.Contains(text, "cca") || strings.Contains(text, "alum") ||
		strings.HasSuffix(text, " al") || strings.Contains(text, "copper-clad")
}

// without takes one word out of text and reports whether it stood there.
func without(text, word string) (string, bool) {
	before, after, ok := strings.Cut(text, word)
	return strings.TrimSpace(before + after), ok
}

// plainNumber reads digits with at most one point, above 0 and up to 1000.
func plainNumber(text string) (float64, bool) {
	if strings.Trim(text, "0123456789.") != "" {
		return 0, false
	}
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil && x > 0 && x <= 1000
}

// gaugeOf reads "2", "2/0", "00".
func gaugeOf(text string) (gauge, bool) {
	switch text {
	case "0", "1/0":
		return aught1, true
	case "00", "2/0":
		return aught2, true
	case "000", "3/0":
		return aught3, true
	case "0000", "4/0":
		return aught4, true
	}
	n, err := strconv.Atoi(text)
	return gauge(n), err == nil && n >= 1 && gauge(n) <= thinnestAWG && text[0] != '+' && text[0] != '0'
}

// class reads "class 5" out of a standard; 0 when it does not say one known here.
func class(standard string) int {
	_, after, ok := strings.Cut(standard, "class")
	if !ok {
		return 0
	}
	after = strings.TrimSpace(after)
	for _, c := range []int{1, 2, 5} {
		if word := strconv.Itoa(c); after == word || strings.HasPrefix(after, word+" ") {
			return c
		}
	}
	return 0
}
