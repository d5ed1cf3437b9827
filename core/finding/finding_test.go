package finding_test

import (
	"testing"

	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

var sentence = say.Phrase{Key: "test.sentence", English: "Something."}.With()

func TestFiguresNeverContradictTheVerdict(t *testing.T) {
	limit := finding.AtMost("spread", unit.Volt(0.010), finding.Practice, sentence)
	// hand: 9.82 mV, inside.
	f := finding.Measured(measure.Reading[unit.Volt]{Value: 0.009, U: 0.000816496581}, "V", limit)
	if got := (say.Voice{}).Say(f.Text); got != "0.00900 V ± 0.00082 V" {
		t.Errorf("got %q", got)
	}
	// hand: 9.9996 mV ± 0.0003 mV is inside (9.9999 ≤ 10); two digits say 9.99960 ± 0.00030.
	f = finding.Measured(measure.Reading[unit.Volt]{Value: 0.0099996, U: 0.0000003}, "mV", limit)
	if got := (say.Voice{}).Say(f.Text); got != "9.99960 mV ± 0.00030 mV" {
		t.Errorf("got %q", got)
	}
}

func TestPredictedOpensOutwardYetKeepsTheVerdict(t *testing.T) {
	limit := finding.AtMost("current", unit.Ampere(100), finding.Maker, sentence)
	// hand: 99.96 A keeps 100 A; three digits upward would say 100, which keeps it too.
	f := finding.Predicted(measure.Interval[unit.Ampere]{Low: 80, High: 99.96}, "A", limit)
	if got := (say.Voice{}).Say(f.Text); got != "80.0 A to 100.0 A" {
		t.Errorf("got %q", got)
	}
	// hand: low 100.04 breaks 100; three digits downward would say 100, so a digit is added.
	f = finding.Predicted(measure.Interval[unit.Ampere]{Low: 100.04, High: 120}, "A", limit)
	if got := (say.Voice{}).Say(f.Text); got != "100.04 A to 120.00 A" {
		t.Errorf("got %q", got)
	}
}

func TestLimitsAreSaid(t *testing.T) {
	rows := []struct {
		limit finding.Limit
		want  string
	}{
		{finding.AtMost("spread", unit.Volt(0.008), finding.House, sentence), "at most 0.008 V"},
		{finding.AtMost("spread", unit.Volt(0.010), finding.House, sentence).In("mV"), "at most 10 mV"},
		{finding.AtLeast("charge", unit.AmpereHour(100), finding.Standard, sentence), "at least 100 Ah"},
		{finding.Window("torque", unit.NewtonMetre(8), 10, finding.Maker, sentence), "8 N.m to 10 N.m"},
	}
	for _, r := range rows {
		if got := (say.Voice{}).Say(r.limit.Line()); got != r.want {
			t.Errorf("got %q, want %q (hand)", got, r.want)
		}
	}
}

func TestAVerdictWithoutItsSentenceCannotBeBuilt(t *testing.T) {
	for name, build := range map[string]func(){
		"fail without next":         func() { finding.Fails(sentence, say.Line{}) },
		"fail without reason":       func() { finding.Fails(say.Line{}, sentence) },
		"can't tell without next":   func() { finding.CannotTell(sentence, say.Line{}) },
		"not needed without reason": func() { finding.Unneeded(say.Line{}) },
		"to do without next":        func() { finding.Undone(say.Line{}) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: built", name)
				}
			}()
			build()
		}()
	}
}

func TestWorstFirst(t *testing.T) {
	if w, ok := finding.Worst(finding.Pass, finding.NotNeeded, finding.Later, finding.CantTell, finding.ToDo); !ok || w != finding.CantTell {
		t.Errorf("worst is %v", w)
	}
	if _, ok := finding.Worst(); ok {
		t.Error("nothing has a worst")
	}
}
