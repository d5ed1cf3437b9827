package checks

import (
	"slices"
	"strings"
	"testing"
	"time"

	"lugmark/core/bank"
	"lugmark/core/say"
)

// heatReady is one cold block alone on the bench that heats itself with 5 A, a
// charger set to 10 A, and somebody who stays.
const heatReady = heatedSheet + `
	sheet1/charge-voltage-max = 14.6 V
	sheet1/charge-max = 50 A
	b1/charge-temperature = -10 C
	b1/sensor = own
	charger1/set-current = 10 A
	charger1/absorption = 14.2 V
	charger1/float = 13.5 V
	charger1/equalise = off
	charger1/temp-comp = off
	charger1/recover = off
	bank/heat-watched = yes
	charge1/target = b1
	stage.first-charge/hazards-read = yes
`

// swapped is heatReady with the line of one entry replaced; "" takes it out.
func swapped(t *testing.T, key, line string) string {
	t.Helper()
	var out []string
	found := false
	for _, l := range strings.Split(heatReady, "\n") {
		if strings.HasPrefix(strings.TrimSpace(l), key+" =") {
			l, found = line, true
		}
		out = append(out, l)
	}
	if !found {
		t.Fatalf("%s is not in the job", key)
	}
	return strings.Join(out, "\n")
}

// The rows follow the sentence of the trade that this hold point is: the sheet
// says so, the charger carries the heaters and hardly more, its settings fit,
// somebody watches, and nothing but heater current has flowed.
func TestHeatOpensOnEveryClauseOnly(t *testing.T) {
	rows := []struct {
		name, key, line string
		open, barred    bool
		from            string
	}{
		{"as it should be", "b1/sensor", "b1/sensor = own", true, false, "every clause; the measured absorption is not asked for"},
		{"cautions not read", "stage.first-charge/hazards-read", "", false, false, "nothing that can hurt before its cautions"},
		{"the block has no sheet", "b1/sheet", "", false, true, "no sheet: nothing heats, no hold point"},
		{"the sheet says no", "sheet1/heated", "sheet1/heated = no", false, true, "nothing heats"},
		{"the sheet is silent", "sheet1/heated", "", false, true, "nothing heats"},
		{"its release is not entered", "sheet1/heater-release", "", false, true, "nothing says that cold cells are kept off"},
		{"it lets charge in at freezing", "sheet1/heater-release", "sheet1/heater-release = 0 C", false, true, "boundary: not above 0 °C"},
		{"just above freezing", "sheet1/heater-release", "sheet1/heater-release = 0.1 C", true, false, "boundary"},
		{"heater current unknown", "sheet1/heater-current", "", false, false, "heater-supply is to do"},
		{"the charger is not set", "charger1/set-current", "", false, false, "heater-supply is to do"},
		{"it carries the heater", "charger1/set-current", "charger1/set-current = 6.25 A", true, false, "boundary: 1.25 · 5"},
		{"it hardly does", "charger1/set-current", "charger1/set-current = 6.2 A", false, false, "boundary: heater-supply cannot tell"},
		{"one step above", "charger1/set-current", "charger1/set-current = 11.25 A", true, false, "boundary: 6.25 + 5"},
		{"set too high", "charger1/set-current", "charger1/set-current = 11.3 A", false, false, "boundary: not as low as the heaters allow"},
		{"more than the block takes", "sheet1/charge-max", "sheet1/charge-max = 9 A", false, false, "hand: 10 > 9"},
		{"as much as it takes", "sheet1/charge-max", "sheet1/charge-max = 10 A", true, false, "boundary"},
		{"what it takes is unknown", "sheet1/charge-max", "", false, false, "missing is no limit that is kept"},
		{"absorption not entered", "charger1/absorption", "", false, false, "every setting"},
		{"absorption too high", "charger1/absorption", "charger1/absorption = 14.7 V", false, false, "hand: 14.7 > 14.6"},
		{"float not entered", "charger1/float", "", false, false, "every setting"},
		{"float too high", "charger1/float", "charger1/float = 13.9 V", false, false, "hand: 13.9 > 13.8"},
		{"equalise on", "charger1/equalise", "charger1/equalise = on", false, false, "every setting"},
		{"equalise not entered", "charger1/equalise", "", false, false, "every setting"},
		{"temperature compensation on", "charger1/temp-comp", "charger1/temp-comp = on", false, false, "every setting"},
		{"temperature compensation not entered", "charger1/temp-comp", "", false, false, "every setting"},
		{"recover on", "charger1/recover", "charger1/recover = on", false, false, "every setting"},
		{"recover not entered", "charger1/recover", "", false, false, "every setting"},
		{"a setting put aside", "charger1/recover", "charger1/recover = skip not-needed agreed", false, false, "what a person puts aside opens nothing"},
		{"nobody said so", "bank/heat-watched", "", false, true, "nobody present"},
		{"nobody stays", "bank/heat-watched", "bank/heat-watched = no", false, true, "nobody present"},
		{"put off", "bank/heat-watched", "bank/heat-watched = skip later wait", false, true, "nobody present"},
		{"said a quarter of an hour ago", "bank/heat-watched", "bank/heat-watched = yes, at -15m", true, false, "boundary: as fresh as a temperature"},
		{"said earlier, and no charger came on", "bank/heat-watched", "bank/heat-watched = yes, at -16m", false, true, "boundary"},
		{"two people differ", "bank/heat-watched", "bank/heat-watched = yes\nbank/heat-watched = no", false, true, "a conflict opens nothing"},
		{"temperature unknown", "b1/charge-temperature", "", true, false, "the block keeps its own cells off; the charge asks for the temperature"},
		{"unsafe to measure", "b1/charge-temperature", "b1/charge-temperature = skip unsafe no-access", true, true, "nobody may override what was unsafe"},
	}
	for _, r := range rows {
		f := fixture(t, oneBlock, swapped(t, r.key, r.line))
		Run(f)
		h, listed := f.HoldFor("heat", "bank")
		if h.Passed() != r.open || h.Released() != r.open {
			t.Errorf("%s: passed %v, released %v, want %v (%s); shut: %v", r.name, h.Passed(), h.Released(), r.open, r.from, h.Shut())
		}
		if barred := !listed || !h.Barred.Empty(); barred != r.barred {
			t.Errorf("%s: barred %v, want %v (%s)", r.name, barred, r.barred, r.from)
		}
		charge, _ := f.HoldFor("charge", "bank")
		if charge.Passed() || charge.Barred.Empty() {
			t.Errorf("%s: the charge of a cold block is open or can be overridden", r.name)
		}
	}
}

// An override must name a charger that is not set, beside what rests on it.
func TestHeatNamesEveryClauseThatIsShut(t *testing.T) {
	h := hold(t, fixture(t, oneBlock, swapped(t, "charger1/set-current", "")), "heat", "bank")
	for _, must := range []string{"heater-supply@bank", "charger-settings@charger1", "heat-current@bank"} {
		if !slices.Contains(h.Shut(), must) {
			t.Errorf("%s is not named: %v", must, h.Shut())
		}
	}
	for _, c := range h.Clauses {
		if l, known := ClauseTitle(c.ID); !known || l.Empty() {
			t.Errorf("%s has no title for whoever reads the override", c.ID)
		}
	}
}

// What flowed so far tells whether it may go on. Lines are a minute apart, the
// last one now.
func TestHeatShutsOnMoreThanHeaterCurrent(t *testing.T) {
	heats := [3]string{"5.0 A", "13.5 V", "-9.0 C"}
	line := func(amps, temp string) [3]string { return [3]string{amps, "13.6 V", temp} }
	rows := []struct {
		name   string
		listed string
		open   bool
		from   string
	}{
		{"heaters alone", listed(1, heats, heats, heats), true, "nothing but their 5 A"},
		{"a fifth more", listed(1, line("6.0 A", "-9.0 C"), line("6.0 A", "-9.0 C")), true, "boundary: 1.2 · 5"},
		{"surely more, from the start", listed(1, line("34.0 A", "-9.0 C"), line("34.0 A", "-9.0 C")), false, "hand: 34 A into a frozen block"},
		{"from the start, temperature unknown", listed(1, line("34.0 A", ""), line("34.0 A", "")), false, "unknown opens nothing"},
		{"from the start, warm", listed(1, line("34.0 A", "6.0 C"), line("34.0 A", "6.0 C")), true, "hand: 6 − 3 > 0; the charge has its own hold point"},
		{"a step while frozen", listed(1, heats, heats, line("34.0 A", "-5.0 C"), line("34.0 A", "-5.0 C"), line("34.0 A", "-5.0 C")), false, "heater-to-charge fails"},
		{"a step near freezing", listed(1, heats, heats, line("34.0 A", "2.0 C"), line("34.0 A", "2.0 C"), line("34.0 A", "2.0 C")), false, "hand: 2 ± 3: charger off"},
		{"a step, no temperature", listed(1, heats, heats, line("34.0 A", ""), line("34.0 A", ""), line("34.0 A", "")), false, "heater-to-charge cannot tell: charger off"},
		{"a step once warm", listed(1, heats, heats, line("34.0 A", "6.0 C"), line("34.0 A", "6.0 C"), line("34.0 A", "6.0 C")), true, "hand: 6 − 3 > 0"},
	}
	for _, r := range rows {
		f := fixture(t, oneBlock, swapped(t, "bank/heat-watched", "bank/heat-watched = yes, at -10m"), r.listed)
		h := hold(t, f, "heat", "bank")
		if h.Passed() != r.open {
			t.Errorf("%s: open %v, want %v (%s); shut: %v", r.name, h.Passed(), r.open, r.from, h.Shut())
		}
		if !r.open && h.Barred.Empty() {
			t.Errorf("%s: an override is offered", r.name)
		}
	}
	unknown := fixture(t, oneBlock, swapped(t, "sheet1/heater-current", ""), listed(1, heats))
	if h := hold(t, unknown, "heat", "bank"); h.Barred.Empty() {
		t.Error("current flows, nobody knows how much the heaters take, and it can be overridden")
	}
}

// Somebody who stays writes the current down: nine lines in the first ten
// minutes, or three; but not one and then none.
func TestHeatIsWatched(t *testing.T) {
	heats := [3]string{"5.0 A", "13.5 V", "-9.0 C"}
	rows := []struct {
		name, said, listed string
		open               bool
		from               string
	}{
		{"every minute", "-9m", listed(1, heats, heats, heats, heats, heats, heats, heats, heats), true, "as asked"},
		{"every five minutes", "-11m", listed(5, heats, heats, heats), true, "boundary"},
		{"every six minutes", "-13m", listed(6, heats, heats, heats), false, "boundary: a gap above 5 min"},
		{"on too late", "-26m", listed(5, heats, heats, heats), false, "hand: on 16 min after it was said"},
		{"just in time", "-25m", listed(5, heats, heats, heats), true, "boundary: 15 min"},
		{"lines of an earlier run", "-1m", listed(6, heats, heats, [3]string{"0.0 A", "13.3 V", "-9.0 C"}), true, "said again: a new run"},
	}
	for _, r := range rows {
		f := fixture(t, oneBlock, swapped(t, "bank/heat-watched", "bank/heat-watched = yes, at "+r.said), r.listed)
		if h := hold(t, f, "heat", "bank"); h.Passed() != r.open {
			t.Errorf("%s: open %v, want %v (%s); shut: %v", r.name, h.Passed(), r.open, r.from, h.Shut())
		}
	}
	one := fixture(t, oneBlock, swapped(t, "bank/heat-watched", "bank/heat-watched = yes, at -1m"), listed(1, heats))
	for _, later := range []struct {
		minutes int
		open    bool
	}{{5, true}, {6, false}} { // boundary: 5 min without a line
		g := NewFacts(one.state, one.visit, one.now.Add(time.Duration(later.minutes)*time.Minute))
		if h := hold(t, g, "heat", "bank"); h.Passed() != later.open {
			t.Errorf("one line, then none for %d min: open %v", later.minutes, h.Passed())
		}
	}
	three := fixture(t, oneBlock, swapped(t, "bank/heat-watched", "bank/heat-watched = yes, at -11m"), listed(5, heats, heats, heats))
	for _, later := range []struct {
		after time.Duration
		open  bool
	}{{6 * time.Hour, true}, {6*time.Hour + time.Minute, false}} { // boundary: six hours after the last line
		if h := hold(t, NewFacts(three.state, three.visit, three.now.Add(later.after)), "heat", "bank"); h.Passed() != later.open {
			t.Errorf("%v after the last line: open %v", later.after, h.Passed())
		}
	}
	// hand: a second line five minutes after the first, and none until the ten
	// minutes are over, is a gap of 5 min; a second line after four is one of 6.
	for minutes, open := range map[int]bool{5: true, 4: false} {
		two := fixture(t, oneBlock, swapped(t, "bank/heat-watched", "bank/heat-watched = yes, at -6m"), listed(minutes, heats, heats))
		if h := hold(t, NewFacts(two.state, two.visit, two.now.Add(time.Hour)), "heat", "bank"); h.Passed() != open {
			t.Errorf("a second line after %d minutes: open %v, want %v", minutes, h.Passed(), open)
		}
	}
}

// Heaters count by strings; a block that does not heat itself waits.
func TestHeatOfABank(t *testing.T) {
	const more = heatReady + "sheet1/series-max = 4\nsheet1/parallel-max = 4\nb2/charge-temperature = -10 C\nb2/sensor = own\n"
	two := bank.New(2, 1, bank.JoinStrings, bank.OneEnd)
	twice := strings.NewReplacer("absorption = 14.2 V", "absorption = 28.4 V", "float = 13.5 V", "float = 27.0 V", "target = b1", "target = sA").Replace(more) + "b1.n~b2.p/closed = yes\n"
	if h := hold(t, fixture(t, two, twice, "b2/sheet = sheet1"), "heat", "bank"); !h.Passed() {
		t.Errorf("two in series share one path (hand: 5 A): shut %v", h.Shut())
	}
	other := "sheet2/heated = no\nsheet2/charge-voltage-max = 14.6 V\nsheet2/charge-max = 50 A\nb2/sheet = sheet2"
	h := hold(t, fixture(t, two, twice, other), "heat", "bank")
	if h.Passed() || h.Barred.Empty() {
		t.Error("a block that does not heat itself takes the heaters' current of the other")
	}
	if said := (say.Voice{}).Say(h.Clauses[1].Says); !strings.Contains(said, "block 2") && !strings.Contains(said, "Block 2") {
		t.Errorf("the block that waits is not named: %q", said)
	}
	if h := hold(t, fixture(t, two, more, other), "heat", "bank"); !h.Passed() {
		t.Errorf("the heated block alone: shut %v", h.Shut())
	}
}

// Where nothing heats, and where the blocks are proved warm, there is no such
// hold point: the charge's own one speaks.
func TestHeatIsForColdBlocks(t *testing.T) {
	for _, r := range []struct {
		name, lines string
		listed      bool
	}{
		{"nothing heats", "b1/charge-temperature = -10 C\nb1/sensor = own", false},
		{"cold", heatReady, true},
		{"warm", swapped(t, "b1/charge-temperature", "b1/charge-temperature = 8 C"), false},
		{"too close to freezing to tell", swapped(t, "b1/charge-temperature", "b1/charge-temperature = 2 C"), true},
	} {
		f := fixture(t, oneBlock, r.lines)
		Run(f)
		if _, listed := f.HoldFor("heat", "bank"); listed != r.listed {
			t.Errorf("%s: listed %v, want %v", r.name, listed, r.listed)
		}
	}
	said := say.Voice{}.Say(hold(t, fixture(t, oneBlock, heatReady), "heat", "bank").Expect)
	for _, must := range []string{"Heater current only", "5 A", "first ten minutes", "charger off"} {
		if !strings.Contains(said, must) {
			t.Errorf("%q does not say %q", said, must)
		}
	}
}
