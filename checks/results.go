package checks

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"

	"lugmark/core/finding"
	"lugmark/core/say"
)

// Results writes findings one per line as JSON, in the order given: the form
// in which a command prints them and a seal freezes them. Every key is always
// there, null where it has nothing; numbers have ten significant digits in the
// base unit; sentences are English in ASCII signs.
func Results(list []finding.Finding) []byte {
	var out bytes.Buffer
	for _, x := range list {
		out.Write(Result(x))
		out.WriteByte('\n')
	}
	return out.Bytes()
}

// result fixes the order of the keys.
type result struct {
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
	Value *tenDigits `json:"value"`
	Low   *tenDigits `json:"low"`
	High  *tenDigits `json:"high"`
	Unit  string     `json:"unit"`
	Text  string     `json:"text"`
}

type limitJSON struct {
	Name string     `json:"name"`
	Min  *tenDigits `json:"min"`
	Max  *tenDigits `json:"max"`
	Unit string     `json:"unit"`
	Text string     `json:"text"`
}

// tenDigits prints a number with ten significant digits: two machines that
// round differently in the last bit print the same.
type tenDigits float64

func (x tenDigits) MarshalJSON() ([]byte, error) {
	return strconv.AppendFloat(nil, mustRound(float64(x)), 'f', -1, 64), nil
}

func mustRound(x float64) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 10, 64), 64)
	if err != nil {
		return x
	}
	if r == 0 {
		return 0 // never minus zero
	}
	return r
}

// number gives nil for what JSON has no number for.
func jsonNumber(x float64) *tenDigits {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	t := tenDigits(x)
	return &t
}

// Result is one line of [Results], without its line feed.
func Result(x finding.Finding) []byte {
	voice := say.Voice{}
	text := func(l say.Line) *string {
		if l.Empty() {
			return nil
		}
		s := voice.Say(l)
		return &s
	}
	r := result{
		Check: x.Check(), Part: x.Part(), Parts: x.Parts(), Verdict: x.Verdict().Code(),
		Reason: text(x.Reason()), Next: text(x.Next()), Source: text(x.Source()), Assumed: []string{}, Rules: Rules,
	}
	if r.Parts == nil {
		r.Parts = []string{}
	}
	for _, a := range x.Assumed() {
		r.Assumed = append(r.Assumed, voice.Say(a))
	}
	if v, ok := x.Found(); ok {
		r.Found = &foundJSON{Low: jsonNumber(v.Low), High: jsonNumber(v.High), Unit: string(v.Unit), Text: voice.Say(v.Text)}
		if v.HasValue {
			r.Found.Value = jsonNumber(v.Value)
		}
	}
	if l, ok := x.Limit(); ok {
		r.Limit = &limitJSON{Name: l.Name, Unit: string(l.Unit), Text: voice.Say(l.Line())}
		if l.Min != nil {
			r.Limit.Min = jsonNumber(*l.Min)
		}
		if l.Max != nil {
			r.Limit.Max = jsonNumber(*l.Max)
		}
		kind := string(l.Kind)
		r.LimitKind = &kind
	}
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(r); err != nil {
		panic("checks: result of " + x.Check() + ": " + err.Error())
	}
	return bytes.TrimRight(out.Bytes(), "\n")
}
