//go:build !js

package assess

import (
	"bytes"
	"encoding/json"
	"io"
	"math"
	"strconv"
	"strings"

	"lugmark/checks"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// line is one finding as it is printed: every key always, in this order, null
// where it has none. Other programs read it.
type line struct {
	Check     string   `json:"check"`
	Part      string   `json:"part"`
	Parts     []string `json:"parts"`
	Verdict   string   `json:"verdict"`
	Found     *found   `json:"found"`
	Limit     *limit   `json:"limit"`
	LimitKind *string  `json:"limit_kind"`
	Reason    *string  `json:"reason"`
	Next      *string  `json:"next"`
	Source    *string  `json:"source"`
	Assumed   []string `json:"assumed"`
	Rules     string   `json:"rules"`
}

type found struct {
	Value figure `json:"value"`
	Low   figure `json:"low"`
	High  figure `json:"high"`
	Unit  string `json:"unit"`
	Text  string `json:"text"`
}

type limit struct {
	Name string  `json:"name"`
	Min  figure  `json:"min"`
	Max  figure  `json:"max"`
	Unit *string `json:"unit"`
	Text string  `json:"text"`
}

// figure is a number in its base unit, nil none.
type figure struct{ x *float64 }

// MarshalJSON writes ten significant digits: what two kinds of processor agree
// on. What is no number is null, never NaN and never minus zero.
func (f figure) MarshalJSON() ([]byte, error) {
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

func printTo(w io.Writer, x finding.Finding) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(lineOfFinding(x)); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}

func lineOfFinding(x finding.Finding) line {
	out := line{
		Check: x.Check(), Part: x.Part(), Parts: x.Parts(), Verdict: x.Verdict().Code(),
		Reason: text(x.Reason(), x.Notes()...), Next: text(x.Next()), Source: text(x.Source()),
		Assumed: []string{}, Rules: checks.Rules,
	}
	if out.Parts == nil {
		out.Parts = []string{}
	}
	for _, l := range x.Assumed() {
		out.Assumed = append(out.Assumed, ascii(say.Voice{}.Say(l)))
	}
	if v, ok := x.Found(); ok {
		out.Found = &found{Low: figure{&v.Low}, High: figure{&v.High}, Unit: string(v.Unit), Text: ascii(say.Voice{}.Say(v.Text))}
		if v.HasValue {
			out.Found.Value = figure{&v.Value}
		}
	}
	if l, ok := x.Limit(); ok {
		out.Limit = &limit{Name: l.Name, Min: figure{l.Min}, Max: figure{l.Max}, Text: ascii(say.Voice{}.Say(l.Line()))}
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

// text says a line with what is noted beside it; nil when nothing is said.
func text(l say.Line, notes ...say.Line) *string {
	var all []string
	for _, one := range append([]say.Line{l}, notes...) {
		if !one.Empty() {
			all = append(all, ascii(say.Voice{}.Say(one)))
		}
	}
	if len(all) == 0 {
		return nil
	}
	out := strings.Join(all, " ")
	return &out
}

// ascii replaces the signs of paper that a program would trip over.
func ascii(s string) string {
	return strings.NewReplacer("\u2212", "-", "\u00a0", " ", "\u202f", " ").Replace(s)
}
