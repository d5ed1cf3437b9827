package checks

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/say"

	"pgregory.net/rapid"
)

// goodReturn is the second visit to the good job: everything read again, and
// everything as it was.
func goodReturn() (out []string) {
	add := func(lines string) {
		for _, l := range strings.Split(lines, "\n") {
			if l = strings.TrimSpace(l); l != "" {
				out = append(out, "v2: "+l)
			}
		}
	}
	add(`
		stage.return/hazards-read = yes
		stage.prove/hazards-read = yes
		bank/built-again = no
		bank/marks-moved = no
		bank/sound-still = yes
		bank/swelling-most = 0 %
		charger1/absorption = 28.4 V
		charger1/float = 27.0 V
		charger1/set-current = 20 A
		charger1/equalise = off
		charger1/temp-comp = off
		charger1/recover = off
		inverter1/cut-off-seen = 22 V
		bank/stray-plus = 0.10 V
		bank/stray-minus = -0.10 V
		bank/last-current = -14h
		bank/full-before = yes
		bank/resistance-method = step
		bank/resistance-step = 40 A
		bank/clamp-zeroed = yes
		sA/share-current = 30.00 A, m2
		sB/share-current = 30.00 A, m2
		bank/share-total = 60.00 A, m2
		capacity1/started-full = yes
		capacity1/test-temperature = 25 C
		capacity1/test-current = 40 A
		capacity1/charge = 200 Ah
		capacity1/charge-error = 1.2 Ah
		capacity1/end-reason = cut-off
		capacity1/end-voltage = 20.0 V
	`)
	for n, b := range twoByTwo.Blocks() {
		add(fmt.Sprintf("%[1]s/rest-voltage = 13.40%[2]d V, m1\n%[1]s/temperature = 18 C\n%[1]s/resistance = 4.0 mOhm", b, n))
	}
	for _, link := range twoByTwo.Links() {
		add(link.ID + "/drop-current = 50.0 A, m2")
		for _, joint := range link.Joints() {
			add(joint + "/drop = 2.00 mV, m3\n" + joint + "/drop-zero = 0.00 mV, m3")
		}
	}
	return out
}

func TestTheGoodReturnPasses(t *testing.T) {
	found := Run(fixture(t, twoByTwo, append(goodJob(), goodReturn()...)...))
	sound(t, found)
	seen := map[string]bool{}
	for _, x := range found {
		seen[x.Check()] = true
		if x.Verdict() != finding.Pass {
			t.Errorf("%s@%s: %v (%s)", x.Check(), x.Part(), x.Verdict(), say.Voice{}.Say(x.Reason())+" -> "+say.Voice{}.Say(x.Next()))
		}
	}
	for _, c := range All {
		if seen[c.ID] != (c.Visits != AtFirst && c.Visits != WhenListed) { // no line is on its charge list
			t.Errorf("%s is asked: %v", c.ID, seen[c.ID])
		}
	}
}

// What is compared with an earlier visit never passes without one.
func TestWithoutABaselineNothingPasses(t *testing.T) {
	setup := slices.DeleteFunc(goodJob(), func(line string) bool {
		key, _, _ := strings.Cut(line, " =")
		part, id, _ := strings.Cut(key, "/")
		field, _ := FieldOf(id, part)
		return !field.Setup
	})
	f := fixture(t, twoByTwo, append(setup, goodReturn()...)...)
	Run(f)
	for _, c := range []*Check{settingsMoved, markMoved, jointDrift, blockRDrift, shareAgain} {
		for _, x := range f.byCheck[c.ID] {
			if x.Part() == "inverter1" { // its cut-off is of the plan, which is kept
				continue
			}
			if x.Verdict() != finding.CantTell {
				t.Errorf("%s@%s: %v", c.ID, x.Part(), x.Verdict())
			}
		}
	}
}

// Leaving out an entry, of this visit or of an earlier one, never makes anything
// pass and never opens a hold point.
func TestMissingNeverHelpsAReturn(t *testing.T) {
	whole := append(slices.DeleteFunc(goodJob(), func(line string) bool { return strings.HasPrefix(line, "charge1.") }), goodReturn()...)
	rapid.Check(t, func(r *rapid.T) {
		var some []string
		for _, l := range whole {
			if rapid.IntRange(0, 29).Draw(r, "kept") > 0 {
				some = append(some, l)
			}
		}
		gone := rapid.IntRange(0, len(some)-1).Draw(r, "left out")
		if strings.HasSuffix(some[gone], "built-again = no") {
			return
		}
		before := standing(fixture(t, twoByTwo, some...))
		for key, v := range standing(fixture(t, twoByTwo, append(append([]string(nil), some[:gone]...), some[gone+1:]...)...)) {
			if was, had := before[key]; had && was != finding.Pass && v == finding.Pass {
				r.Errorf("without %q: %s was %v and passes", some[gone], key, was)
			}
		}
	})
}

// A coarser meter, today or then or both, the same digits: nothing that did not
// pass may pass.
func TestMoreUncertaintyNeverHelpsAReturn(t *testing.T) {
	two := bank.New(2, 1, bank.JoinStrings, bank.OneEnd)
	const joint = "b1.n~b2.p@b1.n"
	pick := func(r *rapid.T, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(r, "value") }
	rows := []struct {
		check          *Check
		layout         bank.Layout
		part, measures string
		steps          []string
		common         string
		visit          func(r *rapid.T) string // what one visit reads, with m1
	}{
		{matchAgain, twoByTwo, "sA", "V", []string{"0.001 V", "0.002 V", "0.01 V"}, "v3: bank/last-current = -14h\nv3: bank/full-before = yes\n", func(r *rapid.T) string {
			return fmt.Sprintf("b1/rest-voltage = 13.300 V, m1\nb2/rest-voltage = %.3f V, m1", pick(r, 13.300, 13.340))
		}},
		{jointDrift, two, joint, "V", []string{"0.00001 V", "0.0001 V"}, driftMeters, func(r *rapid.T) string {
			return fmt.Sprintf("bank/drop-current = 160.0 A, m2\n%[1]s/drop = %.2[2]f mV, m1\n%[1]s/drop-zero = 0.00 mV, m1", joint, pick(r, 3, 6))
		}},
		{jointDrift, two, joint, "A", []string{"0.1 A", "1 A", "5 A"}, driftMeters, func(r *rapid.T) string {
			return fmt.Sprintf("bank/drop-current = 160.0 A, m1\n%[1]s/drop = %.2[2]f mV, m3\n%[1]s/drop-zero = 0.00 mV, m3", joint, pick(r, 3, 6))
		}},
		{blockRDrift, twoByTwo, "b1", "Ohm", []string{"0.01 mOhm", "0.1 mOhm", "0.5 mOhm"}, ohmMeter, func(r *rapid.T) string {
			return fmt.Sprintf("bank/resistance-method = step\nbank/resistance-step = 40 A\nb1/resistance = %.2f mOhm, m1\nb1/temperature = 18.0 C, m7", pick(r, 4, 6.5))
		}},
		{blockRDrift, twoByTwo, "b1", "C", []string{"0.1 C", "1 C", "2 C"}, ohmMeter, func(r *rapid.T) string {
			return fmt.Sprintf("bank/resistance-method = step\nbank/resistance-step = 40 A\nb1/resistance = 4.00 mOhm, m6\nb1/temperature = %.1f C, m1", pick(r, 15, 22))
		}},
		{shareAgain, twoByTwo, "bank", "A", []string{"0.01 A", "0.1 A", "1 A"}, capacitySheet + "bank/design-current = 100 A\nsheet1/discharge-max = 80 A\n", func(r *rapid.T) string {
			a := pick(r, 44, 56)
			return fmt.Sprintf("bank/clamp-zeroed = yes\nsA/share-current = %.2f A, m1\nsB/share-current = %.2f A, m1\nbank/share-total = 100.00 A, m1", a, 100-a)
		}},
		{insulationAgain, twoByTwo, "bank", "Ohm", []string{"0.01 MOhm", "0.1 MOhm"}, "", func(r *rapid.T) string {
			return fmt.Sprintf("bank/insulation-volts = 250 V\nbank/insulation-free = yes\nbank/insulation-proved = yes\nbank/cable-insulation = %.2f MOhm, m1", pick(r, 0.4, 0.7))
		}},
		{capacityDrift, fourInSeries, "capacity1", "Ah", []string{"0.1 Ah", "1 Ah", "5 Ah"}, capacitySheet, func(r *rapid.T) string {
			return strings.Replace(properRun, "capacity1/charge-error = 1.2 Ah", fmt.Sprintf("capacity1/charge = %.1f Ah, m1", pick(r, 75, 100)), 1)
		}},
	}
	at := func(visit, lines string) (out string) {
		for _, l := range strings.Split(lines, "\n") {
			if l = strings.TrimSpace(l); l != "" {
				out += visit + ": " + l + "\n"
			}
		}
		return out
	}
	for _, row := range rows {
		t.Run(row.check.ID+" "+row.measures, func(t *testing.T) {
			rapid.Check(t, func(r *rapid.T) {
				fine, coarse := meterLines(r, "m1", row.measures, row.steps)
				read := map[string]string{}
				for _, v := range []string{"v1", "v2", "v3"} {
					if v == "v3" || rapid.IntRange(0, 3).Draw(r, "read "+v) > 0 {
						read[v] = at(v, row.visit(r))
					}
				}
				lines := read["v1"] + read["v2"] + read["v3"]
				sheet := at("v1", coarse) // at every visit
				switch rapid.IntRange(0, 4).Draw(r, "coarse from") {
				case 1:
					sheet = at("v1", fine) + at("v2", coarse)
				case 2:
					sheet = at("v1", fine) + at("v3", coarse)
				case 3: // then, and better today
					sheet = at("v1", coarse) + at("v3", fine)
				case 4:
					sheet = at("v1", fine) + at("v2", coarse) + at("v3", fine)
				}
				a, whyA := verdict(t, fixture(t, row.layout, row.common, at("v1", fine), lines), row.check, row.part)
				b, whyB := verdict(t, fixture(t, row.layout, row.common, sheet, moved(r, lines)), row.check, row.part)
				if b == finding.Pass && a != finding.Pass {
					r.Fatalf("%v (%s) became %v (%s)\n%s\nagainst\n%s\n%s", a, whyA, b, whyB, fine, sheet, lines)
				}
			})
		})
	}
}
