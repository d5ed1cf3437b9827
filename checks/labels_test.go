package checks

import (
	"strings"
	"testing"

	"lugmark/core/finding"
	"lugmark/core/say"
)

func TestLabels(t *testing.T) {
	walk(t, twoByTwo, labelsCheck, "", []row{
		{"nobody looked", "", "bank", finding.ToDo, "missing"},
		{"all five", "bank/labels = voltage, fault-current, isolator, date, emergency", "bank", finding.Pass, "after IEC 62446-1 and NEC 706: all present"},
		{"four", "bank/labels = voltage, fault-current, isolator, date", "bank", finding.Fail, "boundary: all present"},
		{"none", "bank/labels = none", "bank", finding.Fail, "boundary: looked at, and none is on"},
		{"put off", "bank/labels = skip later wait", "bank", finding.Later, "put off is not done"},
		{"put aside", "bank/labels = skip not-needed agreed", "bank", finding.NotNeeded, "a person's word"},
		{"two people differ", "bank/labels = voltage\nbank/labels = none", "bank", finding.CantTell, "a conflict"},
		{"one that a newer version asks for", "bank/labels = voltage, fault-current, isolator, date, emergency, newer", "bank", finding.Pass, "what is asked here is on"},
	})
	namedIn(t, labelsCheck, "bank/labels = voltage, isolator, emergency", "missing: Fault current, Date.")
}

// named asks that a finding names what is missing, in its reason or, where it
// has none, in what to do next.
func namedIn(t *testing.T, c *Check, lines, want string) {
	t.Helper()
	x := judged(t, fixture(t, twoByTwo, lines), c, "bank")[0]
	if reason, next := (say.Voice{}).Say(x.Reason()), (say.Voice{}).Say(x.Next()); !strings.Contains(reason+next, want) {
		t.Errorf("%q and %q do not say %q", reason, next, want)
	}
}

// Answers stand in lists with commas between them, so none has one of its own.
func TestNoAnswerOfAListHasAComma(t *testing.T) {
	for _, f := range Fields() {
		for _, o := range f.Options {
			if f.Kind == Several && strings.ContainsAny(o.Label.English, ",;") {
				t.Errorf("%s: %q", f.ID, o.Label.English)
			}
		}
	}
}
