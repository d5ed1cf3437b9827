package checks

import (
	"strings"
	"testing"

	"lugmark/core/finding"
)

func TestCapacityDrift(t *testing.T) {
	run := func(visit, charge string) string {
		return strings.ReplaceAll(properRun, "\n\tcapacity1", "\n"+visit+": capacity1") + visit + ": capacity1/charge = " + charge + "\n"
	}
	walk(t, fourInSeries, capacityDrift, capacitySheet, []row{
		{"never tested", "v2: bank/built-again = no", "capacity1", finding.ToDo, "missing is never good"},
		{"well", run("v1", "102 Ah") + run("v2", "98 Ah"), "capacity1", finding.Pass, "hand: 98 − 1.2 ≥ 90"},
		{"just well", run("v2", "91.2 Ah"), "capacity1", finding.Pass, "boundary: 91.2 − 1.2 = 90; of rated, so no baseline is needed"},
		{"nearly", run("v2", "91.1 Ah"), "capacity1", finding.CantTell, "boundary: 89.9 < 90"},
		{"between", run("v2", "85 Ah"), "capacity1", finding.CantTell, "hand: between 80 and 90"},
		{"at the floor", run("v2", "78.8 Ah"), "capacity1", finding.CantTell, "boundary: 78.8 + 1.2 = 80"},
		{"below the floor", run("v2", "78.7 Ah"), "capacity1", finding.Fail, "boundary: 79.9 < 80"},
		{"stopped by a person", run("v2", "70 Ah") + "v2: capacity1/end-reason = skip cannot other", "capacity1", finding.CantTell, "a lower bound cannot fail"},
		{"two runs, the second is well", run("v2", "75 Ah") + strings.ReplaceAll(run("v2", "95 Ah"), "capacity1", "capacity2"), "capacity1", finding.NotNeeded, "the best counts"},
		{"tested 100 days ago", run("v1", "102 Ah, at -2400h") + "v2: bank/built-again = no", "capacity1", finding.Later, "hand: a year has not passed"},
		{"tested 364 days ago", run("v1", "102 Ah, at -8736h") + "v2: bank/built-again = no", "capacity1", finding.Later, "boundary: a year"},
		{"tested 365 days ago", run("v1", "102 Ah, at -8760h") + "v2: bank/built-again = no", "capacity1", finding.ToDo, "boundary: a year"},
		{"tested lately, and between", run("v1", "85 Ah, at -2400h") + "v2: bank/built-again = no", "capacity1", finding.ToDo, "only a test that passed puts the next one off"},
		{"the third visit, tested at the first", run("v1", "102 Ah, at -8784h") + "v2: bank/marks-moved = no\nv3: bank/marks-moved = no", "capacity1", finding.ToDo, "hand: 366 days"},
	})
	walk(t, fourInSeries, capacityDrift, "", []row{
		{"no rated capacity", run("v2", "98 Ah"), "capacity1", finding.CantTell, "without the sheet there is no limit"},
	})
}
