package checks

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"
	"strings"

	"lugmark/core/finding"
	"lugmark/core/say"
)

// resultLine is one finding as it is printed: every key always, in this order, null
// where it has none. Other programs read it.
type resultLine struct {
	Check     string     `json:"check"`
	Part      string     `json:"part"`
	Parts     []string   `json:"parts"`
	Verdict   string     `json:"verdict"`
	Found     *foundJSON `json:"found"`
	Limit     *limitJSON `json:"limit"`
	LimitKind *string    `json:"limit_kind"`
	Reason    *string    `json:"reason"`
	Next      *string    `json:"next"`
	Source    *string    `json:"source"`
	Assumed   []string   `json:"assumed"`
	Rules     string     `json:"rules"`
}

type foundJSON struct {
	Value figureJSON `json:"value"`
	Low   figureJSON `json:"low"`
	High  figureJSON `json:"high"`
	Unit  string     `json:"unit"`
	Text  string     `json:"text"`
}

type limitJSON struct {
	Name string     `json:"name"`
	Min  figureJSON `json:"min"`
	Max  figureJSON `json:"max"`
	Unit *string    `json:"unit"`
	Text string     `json:"text"`
}

// figureJSON is a number in its base unit, nil none.
type figureJSON struct{ x *float64 }

// MarshalJSON writes ten significant digits: what two kinds of processor agree
// on. What is no number is null, never NaN and never minus zero.
func (f figureJSON) MarshalJSON() ([]byte, error) {
	if f.x == nil || math.IsNaN(*f.x) || math.IsInf(*f.x, 0) {
		return []byte("null"), nil
	}
	x, err := strconv.ParseFloat(strconv.FormatFloat(*f.x, 'g', 10, 64), 64)
	if err != nil || x == 0 {
		return []byte("0"), nil
	}
	form := byte('f')
	if a := math.Abs(x); a < 1e-9 || a >= 1e15 {
		form = 'e'
	}
	return strconv.AppendFloat(nil, x, form, -1, 64), nil
}

// Results writes findings one per line, in the order given: the form in which
// a command prints them and a seal freezes them. Sentences are English in ASCII
// signs, numbers have ten significant digits in the base unit.
func Results(list []finding.Finding) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	for _, x := range list {
		if err := e.Encode(lineOfFinding(x)); err != nil {
			panic("checks: result of " + x.Check() + ": " + err.Error()) // nothing in a line can fail to encode
		}
	}
	return b.Bytes()
}

func lineOfFinding(x finding.Finding) resultLine {
	out := resultLine{
		Check: x.Check(), Part: x.Part(), Parts: x.Parts(), Verdict: x.Verdict().Code(),
		Reason: saidOrNil(x.Reason(), x.Notes()...), Next: saidOrNil(x.Next()), Source: saidOrNil(x.Source()),
		Assumed: []string{}, Rules: Rules,
	}
	if out.Parts == nil {
		out.Parts = []string{}
	}
	for _, l := range x.Assumed() {
		out.Assumed = append(out.Assumed, ASCII(say.Voice{}.Say(l)))
	}
	if v, ok := x.Found(); ok {
		out.Found = &foundJSON{Low: figureJSON{&v.Low}, High: figureJSON{&v.High}, Unit: string(v.Unit), Text: ASCII(say.Voice{}.Say(v.Text))}
		if v.HasValue {
			out.Found.Value = figureJSON{&v.Value}
		}
	}
	if l, ok := x.Limit(); ok {
		out.Limit = &limitJSON{Name: l.Name, Min: figureJSON{l.Min}, Max: figureJSON{l.Max}, Text: ASCII(say.Voice{}.Say(l.Line()))}
		if l.Unit != "" {
			unit := string(l.Unit)
			out.Limit.Unit = &unit
		}
		if l.Kind != "" {
			kind := string(l.Kind)
			out.LimitKind = &kind
		}
	}
	return out
}

// saidOrNil says a line with what is noted beside it; nil when nothing is said.
func saidOrNil(l say.Line, notes ...say.Line) *string {
	var all []string
	for _, one := range append([]say.Line{l}, notes...) {
		if !one.Empty() {
			all = append(all, ASCII(say.Voice{}.Say(one)))
		}
	}
	if len(all) == 0 {
		return nil
	}
	out := strings.Join(all, " ")
	return &out
}

// ASCII replaces the signs of paper that a program would trip over.
func ASCII(s string) string {
	return strings.NewReplacer("\u2212", "-", "\u00a0", " ", "\u202f", " ").Replace(s)
}
