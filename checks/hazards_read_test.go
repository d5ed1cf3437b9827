package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestHazardsRead(t *testing.T) {
	walk(t, twoByTwo, hazardsReadCheck, "", []row{
		{"nobody confirmed", "", "stage.wire", finding.ToDo, "boundary: missing is not yes"},
		{"confirmed", "stage.wire/hazards-read = yes", "stage.wire", finding.Pass, "hand: one stage, and it is confirmed"},
		{"refused", "stage.wire/hazards-read = no", "stage.wire", finding.Fail, "hand: refused is refused"},
		{"another stage does not count", "stage.match/hazards-read = yes", "stage.wire", finding.ToDo, "hand"},
		{"two people disagree", "stage.wire/hazards-read = yes\nstage.wire/hazards-read = no", "stage.wire", finding.CantTell, "hand: a conflict is never a pass"},
		{"set aside opens nothing", "stage.wire/hazards-read = skip not-needed other", "stage.wire", finding.NotNeeded, "hand: a person's word, and not settled"},
	})
	x := judged(t, fixture(t, twoByTwo, "stage.wire/hazards-read = skip not-needed other"), hazardsReadCheck, "stage.wire")[0]
	if x.Settled() {
		t.Error("cautions that were set aside count as read")
	}
}

func TestEachStageThatCanHurtAsks(t *testing.T) {
	rows := []struct {
		name, lines string
		asks        func(Stage) bool
	}{
		{"the first visit", "", func(s Stage) bool { return s != Return }},
		{"a return visit", "v2: bank/marks-moved = no", func(s Stage) bool { return s == Return || s == Prove }},
		{"built up again", "v2: bank/built-again = yes", func(Stage) bool { return true }},
	}
	for _, r := range rows {
		f := fixture(t, twoByTwo, r.lines)
		Run(f)
		asked := map[string]bool{}
		for _, x := range f.byCheck[hazardsReadCheck.ID] {
			asked[x.Part()] = true
		}
		for _, s := range Stages {
			if asked[s.Part()] != (len(s.Hazards()) > 0 && r.asks(s)) {
				t.Errorf("%s, %s: asked %v, cautions %d", r.name, s, asked[s.Part()], len(s.Hazards()))
			}
		}
	}
}
