package checks

import (
	"math"
	"strings"
	"testing"

	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

func TestAFigureIsNeverNotANumber(t *testing.T) {
	pi, third := math.Pi, 1.0/3e6
	for want, x := range map[string]float64{
		"null": math.NaN(), "0": math.Copysign(0, -1), "3.141592654": pi, "0.0000003333333333": third,
		"-40": -40, "12166.66667": 73000.0 / 6, "0.1": 0.1, "1e+300": 1e300, "0.3": 0.1 + 0.2,
		"0.000000001": 1e-9, "9.5e-10": 9.5e-10, "0.00000000105": 1.05e-9, "950000000000000": 9.5e14, "1e+15": 1e15,
	} {
		got, err := figureJSON{&x}.MarshalJSON()
		if err != nil || string(got) != want {
			t.Errorf("%v: got %s, want %s", x, got, want)
		}
	}
	for _, x := range []float64{math.Inf(1), math.Inf(-1)} {
		if got, _ := (figureJSON{&x}).MarshalJSON(); string(got) != "null" {
			t.Errorf("%v: %s", x, got)
		}
	}
}

func TestAPredictionHasNoValue(t *testing.T) {
	l := finding.AtMost("current", unit.Ampere(20000), finding.Maker, cite.Maker("p. 1").Line())
	reason := say.Phrase{Key: "test", English: "a < b & “c” \u22125\u00a0V"}.With()
	x := finding.Passes(reason).Against(l).
		Value(finding.Predicted(measure.Interval[unit.Ampere]{Low: 12000, High: 15000}, "A", l)).Of("share", "b1")
	got := string(Results([]finding.Finding{x}))
	for _, want := range []string{`"found":{"value":null,"low":12000,"high":15000,"unit":"A","text":"12 000 A to 15 000 A"}`,
		`"text":"at most 20 000 A"`, `"reason":"a < b & “c” -5 V"`} {
		if !strings.Contains(got, want) {
			t.Errorf("want %s in %s", want, got)
		}
	}
}
