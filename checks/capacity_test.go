package checks

import (
	"math"
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/say"
)

const capacitySheet = `
	b1/sheet = sheet1
	b2/sheet = sheet1
	b3/sheet = sheet1
	b4/sheet = sheet1
	sheet1/capacity = 100 Ah
`

// A proper run of capacity1 but for its charge.
const properRun = `
	capacity1/started-full = yes
	capacity1/test-temperature = 25 C
	capacity1/test-current = 20 A
	capacity1/charge-error = 1.2 Ah
	capacity1/end-reason = cut-off
	capacity1/end-voltage = 40.0 V
`

func TestCapacity(t *testing.T) {
	walk(t, fourInSeries, capacity, capacitySheet, []row{
		{"above", properRun + "capacity1/charge = 102 Ah", "capacity1", finding.Pass, "hand: 102 − 1.2 ≥ 100"},
		{"just above", properRun + "capacity1/charge = 101.2 Ah", "capacity1", finding.Pass, "boundary: 101.2 − 1.2 = 100"},
		{"rated, within the counter's error", properRun + "capacity1/charge = 100 Ah", "capacity1", finding.CantTell, "hand: a worse counter must not pass more"},
		{"between floor and rated", properRun + "capacity1/charge = 97 Ah", "capacity1", finding.CantTell, "hand: 98.2 < 100, first run"},
		{"at the floor", properRun + "capacity1/charge = 93.8 Ah", "capacity1", finding.CantTell, "boundary: 93.8 + 1.2 = 95"},
		{"below the floor", properRun + "capacity1/charge = 93.7 Ah", "capacity1", finding.Fail, "hand: 93.7 + 1.2 < 95"},
		{"charge, current and time contradict", properRun + "capacity1/duration = 1 h\ncapacity1/charge = 103 Ah", "capacity1", finding.CantTell, "hand: 20 A for 1 h is 20 Ah"},
		{"they agree within the counter and 5 %", properRun + "capacity1/duration = 5 h\ncapacity1/charge = 106.1 Ah", "capacity1", finding.Pass, "hand: 20 A for 5 h is 100 Ah; 6.1 is within 5 + 1.2"},
		{"they differ by more", properRun + "capacity1/duration = 5 h\ncapacity1/charge = 106.3 Ah", "capacity1", finding.CantTell, "hand: 6.3 is above 5 + 1.2"},
		{"no charge entered", "", "capacity1", finding.ToDo, "boundary"},
		{"the firm asks for more", "house/capacity.rated = 1.02 ratio\n" + properRun + "capacity1/charge = 102 Ah", "capacity1", finding.CantTell, "hand: 100.8 < 102"},
	})
	walk(t, fourInSeries, capacity, "", []row{
		{"no rated capacity", properRun + "capacity1/charge = 102 Ah", "capacity1", finding.CantTell, "boundary: without the sheet there is no limit"},
	})
	const quiet = `
	capacity1/started-full = yes
	capacity1/test-temperature = 25 C
	capacity1/test-current = 20 A
	capacity1/charge-error = 1.2 Ah
	`
	walk(t, fourInSeries, capacity, capacitySheet, []row{
		{"stopped by a person, already above", quiet + "capacity1/charge = 103 Ah\ncapacity1/end-reason = person\ncapacity1/end-voltage = 50.0 V", "capacity1", finding.Pass, "hand: 103 − 1.2 ≥ 100, already above"},
		{"stopped by a person, below", quiet + "capacity1/charge = 80 Ah\ncapacity1/end-reason = person", "capacity1", finding.CantTell, "hand: a lower bound cannot fail"},
		{"ended above the cut-off", quiet + "capacity1/charge = 80 Ah\ncapacity1/end-reason = cut-off\ncapacity1/end-voltage = 44.0 V", "capacity1", finding.CantTell, "hand: 44 V is 11 V per block, above 10"},
		{"the sheet's own cut-off", "sheet1/discharge-cut-off = 11.0 V\n" + quiet + "capacity1/charge = 80 Ah\ncapacity1/end-reason = cut-off\ncapacity1/end-voltage = 44.0 V", "capacity1", finding.Fail, "hand: 44 V is the maker's cut-off"},
		{"a protection opened", quiet + "capacity1/charge = 80 Ah\ncapacity1/end-reason = protection", "capacity1", finding.Fail, "hand: 81.2 < 95"},
		{"why it ended is not known", quiet + "capacity1/charge = 80 Ah", "capacity1", finding.CantTell, "boundary: it may have been stopped"},
		{"the inverter's cut-off, usable", quiet + "capacity1/charge = 97 Ah\ncapacity1/end-reason = inverter", "capacity1", finding.CantTell, "hand: the second line never turns the first to Pass"},
	})
	const cutoff = "capacity1/charge-error = 1.2 Ah\ncapacity1/end-reason = cut-off\ncapacity1/end-voltage = 40.0 V\n"
	walk(t, fourInSeries, capacity, capacitySheet+cutoff, []row{
		{"not from full", "capacity1/started-full = no\ncapacity1/test-temperature = 25 C\ncapacity1/charge = 80 Ah", "capacity1", finding.CantTell, "boundary: a charge that was not full may be why"},
		{"nobody said full", "capacity1/test-temperature = 25 C\ncapacity1/charge = 102 Ah", "capacity1", finding.CantTell, "boundary: missing is not yes"},
		{"temperature unknown", "capacity1/started-full = yes\ncapacity1/charge = 102 Ah", "capacity1", finding.CantTell, "boundary: an unknown temperature proves nothing"},
		{"cold and above", "capacity1/started-full = yes\ncapacity1/test-temperature = 12 C\ncapacity1/charge = 102 Ah", "capacity1", finding.Pass, "hand: cold only lowers it"},
		{"cold and below", "capacity1/started-full = yes\ncapacity1/test-temperature = 12 C\ncapacity1/test-current = 20 A\ncapacity1/charge = 80 Ah", "capacity1", finding.CantTell, "hand: cold may be the reason"},
		{"hardly cold, and below", "capacity1/started-full = yes\ncapacity1/test-temperature = 23 C\ncapacity1/test-current = 20 A\ncapacity1/charge = 80 Ah", "capacity1", finding.Fail, "boundary: 23 − 2.5 ≥ 20"},
		{"perhaps cold, and below", "capacity1/started-full = yes\ncapacity1/test-temperature = 22 C\ncapacity1/test-current = 20 A\ncapacity1/charge = 80 Ah", "capacity1", finding.CantTell, "boundary: 22 − 2.5 < 20"},
		{"hot and above", "capacity1/started-full = yes\ncapacity1/test-temperature = 34 C\ncapacity1/charge = 102 Ah", "capacity1", finding.CantTell, "hand: 34 > 30"},
		{"hot and below", "capacity1/started-full = yes\ncapacity1/test-temperature = 34 C\ncapacity1/test-current = 20 A\ncapacity1/charge = 80 Ah", "capacity1", finding.Fail, "hand: heat only raises it"},
		{"thermometer near 30", "capacity1/started-full = yes\ncapacity1/test-temperature = 29 C\ncapacity1/charge = 102 Ah", "capacity1", finding.CantTell, "hand: 29 + 2.5 > 30"},
		{"thermometer not so near 30", "capacity1/started-full = yes\ncapacity1/test-temperature = 27 C\ncapacity1/charge = 102 Ah", "capacity1", finding.Pass, "boundary: 27 + 2.5 ≤ 30"},
		{"drawn hard and below", "capacity1/started-full = yes\ncapacity1/test-temperature = 25 C\ncapacity1/test-current = 50 A\ncapacity1/charge = 80 Ah", "capacity1", finding.CantTell, "hand: 50 > 0.2 × 100"},
		{"drawn just too hard and below", "capacity1/started-full = yes\ncapacity1/test-temperature = 25 C\ncapacity1/test-current = 20.5 A\ncapacity1/charge = 80 Ah", "capacity1", finding.CantTell, "boundary: 20.5 > 0.2 × 100"},
		{"in one hour and below", "capacity1/started-full = yes\ncapacity1/test-temperature = 25 C\ncapacity1/duration = 1 h\ncapacity1/charge = 80 Ah", "capacity1", finding.CantTell, "hand: 80 Ah in 1 h are 80 A, more than 0.2 × 100"},
		{"in five hours and below", "capacity1/started-full = yes\ncapacity1/test-temperature = 25 C\ncapacity1/duration = 5 h\ncapacity1/charge = 80 Ah", "capacity1", finding.Fail, "hand: 80 Ah in 5 h are 16 A, no more than 0.2 × 100"},
		{"rated at that current", "sheet1/capacity-rate = 50 A\ncapacity1/started-full = yes\ncapacity1/test-temperature = 25 C\ncapacity1/test-current = 50 A\ncapacity1/charge = 80 Ah", "capacity1", finding.Fail, "hand: the sheet rates it at 50 A"},
		{"above the sheet's current", "sheet1/capacity-rate = 33 A\ncapacity1/started-full = yes\ncapacity1/test-temperature = 25 C\ncapacity1/test-current = 50 A\ncapacity1/charge = 102 Ah", "capacity1", finding.CantTell, "hand: 50 > 33"},
	})
}

// Two strings of 100 Ah are rated at twice the current of the sheet, 100 A, else
// at 0.2 · 200 Ah = 40 A.
func TestTheRateOfStringsSideBySide(t *testing.T) {
	const run = "capacity1/started-full = yes\ncapacity1/test-temperature = 25 C\ncapacity1/charge = 160 Ah\ncapacity1/charge-error = 1.2 Ah\ncapacity1/end-reason = cut-off\ncapacity1/end-voltage = 20.0 V\n"
	walk(t, twoByTwo, capacity, capacitySheet+run, []row{
		{"below the sheet's current", "sheet1/capacity-rate = 50 A\ncapacity1/test-current = 90 A", "capacity1", finding.Fail, "hand: 90 ≤ 2 × 50; 161.2 < 190"},
		{"above the sheet's current", "sheet1/capacity-rate = 50 A\ncapacity1/test-current = 110 A", "capacity1", finding.CantTell, "hand: 110 > 2 × 50"},
		{"no current on the sheet", "capacity1/test-current = 40 A", "capacity1", finding.Fail, "boundary: 0.2 × 200"},
	})
}

func TestTheBestOfThreeRunsCounts(t *testing.T) {
	run := func(n, q string) string {
		return strings.ReplaceAll(properRun, "capacity1", "capacity"+n) + "capacity" + n + "/charge = " + q + " Ah\n"
	}
	for _, r := range []struct {
		lines, part string
		want        finding.Verdict
		from        string
	}{
		{run("1", "96.0") + run("2", "97.0"), "capacity2", finding.CantTell, "hand: two runs"},
		{run("1", "96.0") + run("2", "97.0") + run("3", "96.5"), "capacity3", finding.Fail, "hand: best 97 + 1.2 < 100"},
		{run("1", "96.0") + run("2", "99.0") + run("3", "96.5"), "capacity3", finding.CantTell, "hand: best 99 + 1.2 > 100"},
		{run("1", "96.0") + run("2", "97.0") + run("3", "96.5"), "capacity1", finding.CantTell, "hand: the first run alone condemns nothing"},
		{run("1", "96.0") + run("2", "97.0") + run("3", "102.0"), "capacity3", finding.Pass, "hand: 100.8"},
		{run("1", "96.0") + run("2", "97.0") + run("3", "102.0"), "capacity1", finding.NotNeeded, "hand: the third counts"},
		{run("1", "93.0") + "capacity2/charge = 97 Ah\ncapacity2/charge-error = 1.2 Ah\ncapacity2/target = b1", "capacity1", finding.Fail, "hand: another test, of another part"},
	} {
		if got, why := verdict(t, fixture(t, fourInSeries, capacitySheet, r.lines), capacity, r.part); got != r.want {
			t.Errorf("%s: got %v (%s), want %v (%s)", r.part, got, why, r.want, r.from)
		}
	}
}

func TestCapacityOfStringsAndGroups(t *testing.T) {
	for _, r := range []struct {
		l      bank.Layout
		target string
		want   float64
		from   string
	}{
		{bank.New(4, 1, bank.JoinStrings, bank.OneEnd), "bank", 90, "hand: in series the least"},
		{bank.New(2, 2, bank.JoinStrings, bank.OneEnd), "bank", 190, "hand: 100 + 90"},
		{bank.New(2, 2, bank.JoinStrings, bank.OneEnd), "sB", 90, "hand"},
		{bank.New(2, 2, bank.JoinGroups, bank.Diagonal), "bank", 190, "hand: the weaker group, 100 + 90"},
		{bank.New(2, 2, bank.JoinGroups, bank.Diagonal), "gA", 200, "hand"},
		{bank.New(2, 2, bank.JoinGroups, bank.Diagonal), "b4", 90, "hand"},
	} {
		f := fixture(t, r.l, "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet2\nsheet1/capacity = 100 Ah\nsheet2/capacity = 90 Ah")
		if q, s := f.ratedCharge(r.target); float64(q) != r.want || s.Silent != "" {
			t.Errorf("%s %s: got %v, want %v (%s)", r.l.Title(), r.target, q, r.want, r.from)
		}
	}
}

func TestCounterUncertainty(t *testing.T) {
	for _, r := range []struct {
		lines string
		want  float64
		from  string
	}{
		{"capacity1/charge = 100 Ah\ncapacity1/duration = 5 h", 1.19, "hand: 2·√((1² + 0.25²)/3) = 1.1902"},
		{"capacity1/charge = 100 Ah\ncapacity1/test-current = 20 A", 1.19, "hand: 100/20 = 5 h"},
		{"capacity1/charge = 100 Ah\ncapacity1/charge-error = 1.2 Ah", 1.2, "hand: as entered"},
		{"m1/measures = Ah\nm1/percent = 0.5\nm1/counts = 2\ncapacity1/charge = 100.0 Ah, m1", 0.7, "hand: 0.5 + 2 × 0.1"},
		{"m1/measures = A\nm1/percent = 0.5\nm1/counts = 2\nm1/step = 0.01 A\ncapacity1/charge = 100 Ah, m1\ncapacity1/duration = 5 h", 0.5888, "hand: 2·√((0.5² + 0.1²)/3) = 0.5888"},
	} {
		f := fixture(t, fourInSeries, capacitySheet, r.lines)
		q, gap := f.runCharge("capacity1")
		if gap != nil || math.Abs(float64(q.U)-r.want) > 1e-3 {
			t.Errorf("got %v, want %v (%s)", q.U, r.want, r.from)
		}
	}
}

func TestUsableIsANote(t *testing.T) {
	// hand: 97 − 1.2 = 95.8 ≥ 95 is usable; 96 − 1.2 = 94.8 is not proved.
	for q, want := range map[string]string{"97": "at least 95 Ah as it should be", "96": "it should be at least 95 Ah"} {
		lines := "capacity1/started-full = yes\ncapacity1/test-temperature = 25 C\ncapacity1/test-current = 20 A\ncapacity1/charge-error = 1.2 Ah\ncapacity1/end-reason = inverter\ncapacity1/charge = " + q + " Ah"
		x := judged(t, fixture(t, fourInSeries, capacitySheet, lines), capacity, "capacity1")[0]
		if n := x.Notes(); len(n) != 1 || !strings.Contains(say.Voice{}.Say(n[0]), want) || x.Verdict() != finding.CantTell {
			t.Errorf("%s Ah: %v %v", q, x.Verdict(), n)
		}
	}
}
