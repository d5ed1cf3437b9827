package checks

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/unit"

	"pgregory.net/rapid"
)

// meterLines is the sheet of a meter, and one that is nowhere better.
func meterLines(r *rapid.T, id, measures string, steps []string) (fine, coarse string) {
	percents := []string{"0", "0.05", "0.1", "0.5", "1"}
	counts := rapid.IntRange(0, 5)
	p := rapid.IntRange(0, len(percents)-1).Draw(r, "percent")
	q := rapid.IntRange(p, len(percents)-1).Draw(r, "coarse percent")
	a, b := counts.Draw(r, "counts"), counts.Draw(r, "coarse counts")
	a, b = min(a, b), max(a, b)
	s := rapid.IntRange(0, len(steps)-1).Draw(r, "step")
	u := rapid.IntRange(s, len(steps)-1).Draw(r, "coarse step")
	late := rapid.Bool().Draw(r, "past its date")
	sheet := func(p string, n, step int, due string) string {
		return fmt.Sprintf("%[1]s/measures = %[2]s\n%[1]s/percent = %[3]s %%\n%[1]s/counts = %[4]d\n%[1]s/step = %[5]s\n%[1]s/due = %[6]s\n", id, measures, p, n, steps[step], due)
	}
	due := "2027-03-01"
	if late {
		due = "2025-03-01"
	}
	return sheet(percents[p], a, s, "2027-03-01"), sheet(percents[q], b, u, due)
}

// moved lets the last digit of some readings move in the second text.
func moved(r *rapid.T, text string) string {
	if !rapid.Bool().Draw(r, "moving") {
		return text
	}
	return strings.ReplaceAll(text, ", m1", ", m1, moving")
}

// A coarser meter, the same digits: nothing that did not pass may pass.
func TestMoreUncertaintyNeverHelps(t *testing.T) {
	volts := []string{"0.001 V", "0.002 V", "0.01 V", "0.05 V"}
	rows := []struct {
		check    *Check
		part     string
		measures string
		steps    []string
		lines    func(r *rapid.T) string
	}{
		{voltageMatch, "sA", "V", volts, func(r *rapid.T) string {
			mv := rapid.IntRange(0, 30).Draw(r, "mV")
			return restedAlike + fmt.Sprintf("b1/rest-voltage = 13.200 V, m1\nb2/rest-voltage = 13.2%02d V, m1", mv)
		}},
		{gapVoltageCheck, "sA", "V", []string{"0.0001 V", "0.001 V", "0.01 V"}, func(r *rapid.T) string {
			return restedAlike + fmt.Sprintf("b2/gap-voltage = %.1f mV, m1", rapid.Float64Range(-20, 20).Draw(r, "mV"))
		}},
		{topSpread, "bank", "V", volts, func(r *rapid.T) string {
			mv := rapid.IntRange(0, 600).Draw(r, "mV")
			low := rapid.IntRange(13900, 14300).Draw(r, "low")
			return joinSheet + fmt.Sprintf("sA/tail-current = 2.00 A, m2\nsB/tail-current = 2.00 A, m2\nb1/top-voltage = %.3f V, m1\nb2/top-voltage = %.3f V, m1\nb3/top-voltage = 14.200 V, m1\nb4/top-voltage = 14.200 V, m1",
				float64(low)/1000, float64(low+mv)/1000) + goodShunt
		}},
		{coldGate, "bank", "C", []string{"0.1 C", "0.5 C", "1 C"}, func(r *rapid.T) string {
			return fmt.Sprintf("bank/settled = no\nb1/charge-temperature = %.1f C, m1\nb1/sensor = contact\n", rapid.Float64Range(-3, 47).Draw(r, "temperature")) + others
		}},
	}
	for _, row := range rows {
		t.Run(row.check.ID, func(t *testing.T) {
			rapid.Check(t, func(r *rapid.T) {
				fine, coarse := meterLines(r, "m1", row.measures, row.steps)
				lines := row.lines(r)
				a, whyA := verdict(t, fixture(t, twoByTwo, fine, lines), row.check, row.part)
				b, whyB := verdict(t, fixture(t, twoByTwo, coarse, moved(r, lines)), row.check, row.part)
				if b == finding.Pass && a != finding.Pass {
					r.Fatalf("%v (%s) became %v (%s)\n%s\nagainst\n%s\n%s", a, whyA, b, whyB, fine, coarse, lines)
				}
			})
		})
	}
}

// standing maps every finding of a run to its verdict, and every hold point to
// Pass where it opens by itself.
func standing(f *Facts) map[string]finding.Verdict {
	out := map[string]finding.Verdict{}
	for _, x := range Run(f) {
		key := x.Check() + "@" + x.Part()
		if l, ok := x.Limit(); ok && x.Check() == chargerSettings.ID {
			key += " " + l.Name
		}
		if v, had := out[key]; !had || x.Verdict().Worse(v) {
			out[key] = x.Verdict()
		}
	}
	for _, h := range f.Holds() {
		out["hold "+h.Gate+" "+h.Part] = finding.ToDo
		if h.Passed() {
			out["hold "+h.Gate+" "+h.Part] = finding.Pass
		}
	}
	return out
}

// Leaving an entry out of a job never makes anything pass and never opens a hold
// point: not of the whole job, nor of any part of it, links closed or open.
func TestMissingNeverHelps(t *testing.T) {
	// A line of the charge list is a moment and not an answer: without it the
	// list is shorter, not wrong.
	whole := slices.DeleteFunc(goodJob(), func(line string) bool { return strings.HasPrefix(line, "charge1.") })
	whole = append(whole, "switch/capacitors = yes", "sA.p~sB.p/closed = yes", "sA.n~sB.n/last-gap = 0.002 V, m1", "switch/closed = no")
	full := standing(fixture(t, twoByTwo, whole...))
	for i := range whole {
		without := append(append([]string(nil), whole[:i]...), whole[i+1:]...)
		for key, v := range standing(fixture(t, twoByTwo, without...)) {
			if before, had := full[key]; had && before != finding.Pass && v == finding.Pass {
				t.Errorf("without %q: %s was %v and passes", whole[i], key, before)
			}
		}
	}
	rapid.Check(t, func(r *rapid.T) {
		var some []string
		for _, l := range whole {
			if rapid.IntRange(0, 9).Draw(r, "kept") > 0 {
				some = append(some, l)
			}
		}
		gone := rapid.IntRange(0, len(some)-1).Draw(r, "left out")
		before := standing(fixture(t, twoByTwo, some...))
		for key, v := range standing(fixture(t, twoByTwo, append(append([]string(nil), some[:gone]...), some[gone+1:]...)...)) {
			if was, had := before[key]; had && was != finding.Pass && v == finding.Pass {
				r.Errorf("without %q: %s was %v and passes\n%s", some[gone], key, was, strings.Join(some, "\n"))
			}
		}
	})
}

// The widest pair is found among the few that are kept, whatever the order.
func TestTheWidestPairIsFound(t *testing.T) {
	f := fixture(t, twoByTwo, goodMeter)
	rapid.Check(t, func(r *rapid.T) {
		var run []stop
		for i := range rapid.IntRange(2, 8).Draw(r, "blocks") {
			v, _ := unit.Parse(fmt.Sprintf("13.%03d V", rapid.IntRange(0, 40).Draw(r, "mV")), "V", true)
			run = append(run, stop{bank.BlockID(i + 1), restVoltage.Field, measure.Shown[unit.Volt]{
				Value: unit.Volt(v.Value), Step: unit.Volt(v.Step), Decimals: v.Decimals, Typed: v,
				Meter: rapid.SampledFrom([]string{"m1", "m2"}).Draw(r, "meter"), Moving: rapid.Bool().Draw(r, "moving"),
			}})
		}
		reach := 0.0
		for i, a := range run {
			for _, b := range run[i+1:] {
				d := difference(f, a.shown, b.shown, 0)
				reach = max(reach, float64(max(d.Value, -d.Value)+d.U))
			}
		}
		if w := worstPair(f, run, 0).spread; float64(w.Value+w.U) < reach-1e-12 {
			r.Fatalf("found %v ± %v, but a pair reaches %v", w.Value, w.U, reach)
		}
	})
}
