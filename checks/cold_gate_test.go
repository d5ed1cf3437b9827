package checks

import (
	"slices"
	"strings"
	"testing"
	"time"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

// ownAt gives block 1 a temperature by its own sensor and the others 20 °C.
func ownAt(first string) string {
	return "b1/charge-temperature = " + first + "\nb1/sensor = own\n" + others
}

const others = `
	b2/charge-temperature = 20 C
	b2/sensor = own
	b3/charge-temperature = 20 C
	b3/sensor = own
	b4/charge-temperature = 20 C
	b4/sensor = own
`

// The check values at U = 3 K: +3.0 can't tell, +3.1 pass, −2 can't tell, −3 fail.
func TestColdGate(t *testing.T) {
	const contact = "b1/sensor = contact\n" + others
	walk(t, twoByTwo, coldGate, "", []row{
		{"warm", ownAt("18 C"), "bank", finding.Pass, "hand: 18 − 3 > 0"},
		{"+3.1", ownAt("3.1 C"), "bank", finding.Pass, "hand: 3.1 − 3 > 0"},
		{"+3.0", ownAt("3.0 C"), "bank", finding.CantTell, "boundary: strictly above 0 °C"},
		{"−2", ownAt("-2 C"), "bank", finding.CantTell, "hand: −5 … +1"},
		{"−3", ownAt("-3 C"), "bank", finding.Fail, "boundary: −3 + 3 ≤ 0"},
		{"41.9", ownAt("41.9 C"), "bank", finding.Pass, "hand: 44.9 ≤ 45"},
		{"42", ownAt("42 C"), "bank", finding.Pass, "boundary: 45 ≤ 45"},
		{"42.1", ownAt("42.1 C"), "bank", finding.CantTell, "hand: 45.1 > 45"},
		{"48.1", ownAt("48.1 C"), "bank", finding.Fail, "hand: 48.1 − 3 > 45"},
		{"the maker's lowest", "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/charge-temp-min = 5 C\n" + ownAt("7 C"), "bank", finding.CantTell, "hand: 7 − 3 = 4 < 5"},
		{"one sheet is stricter", "b1/sheet = sheet1\nsheet1/charge-temp-min = 5 C\n" + ownAt("7 C"), "bank", finding.CantTell, "hand: the strictest binds"},
		{"the maker's highest", "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/charge-temp-max = 55 C\n" + ownAt("50 C"), "bank", finding.Pass, "hand: 53 ≤ 55"},
		{"above the maker's highest", "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/charge-temp-max = 55 C\n" + ownAt("58.1 C"), "bank", finding.Fail, "hand: 58.1 − 3 > 55"},
		{"the maker allows −10, heated", "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/charge-temp-min = -10 C\n" + ownAt("-5 C"), "bank", finding.CantTell, "hand: no proof that the heating works"},
		{"the maker allows −10, warm", "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/charge-temp-min = -10 C\n" + ownAt("5 C"), "bank", finding.Pass, "hand: 5 − 3 > 0"},
		{"the firm is looser", "house/cold-gate.coldest = -5 C\n" + ownAt("2 C"), "bank", finding.CantTell, "hand: −1 °C is not above 0; no rule of a firm loosens that"},
		{"the firm is stricter", "house/cold-gate.coldest = 5 C\n" + ownAt("7 C"), "bank", finding.CantTell, "hand: 4 < 5"},
		{"one temperature missing", others, "bank", finding.ToDo, "boundary: missing is not warm"},
		{"one missing, one frozen", "b2/charge-temperature = -5 C\nb2/sensor = own", "bank", finding.Fail, "hand: one frozen block is enough"},
		{"which sensor is missing", "b1/charge-temperature = 18 C\n" + others, "bank", finding.ToDo, "boundary: it could be infrared"},
		{"no thermometer here", "b1/charge-temperature = skip cannot no-meter\nb1/sensor = own\n" + others, "bank", finding.CantTell, "boundary: an unknown temperature opens nothing"},
		{"set aside", "b1/charge-temperature = skip not-needed other\nb1/sensor = own\n" + others, "bank", finding.NotNeeded, "hand: a person's word, and it opens nothing"},
		{"fifteen minutes old", ownAt("18 C, at -15m"), "bank", finding.Pass, "boundary: 15 ≤ 15"},
		{"sixteen minutes old", ownAt("18 C, at -16m"), "bank", finding.CantTell, "boundary: 16 > 15"},
		{"dated an hour ahead", ownAt("18 C, at 1h"), "bank", finding.CantTell, "hand: an unknown age is not fresh"},
		{"old and frozen", ownAt("-8 C, at -16m"), "bank", finding.CantTell, "hand: stale says nothing, also not that"},
		{"infrared", "b1/charge-temperature = 25 C\nb1/sensor = infrared\n" + others, "bank", finding.CantTell, "hand: a cold core can sit under a warm case"},
		{"contact, its meter not known", "bank/settled = no\nb1/charge-temperature = 2.1 C\n" + contact, "bank", finding.Pass, "hand: 2.1 − (2 + 0.05) = 0.05 > 0"},
		{"contact, at its limit", "bank/settled = no\nb1/charge-temperature = 2.0 C\n" + contact, "bank", finding.CantTell, "hand: 2.0 − 2.05 < 0"},
		{"contact after a cold drive", "bank/settled = yes\nb1/charge-temperature = 18 C\n" + contact, "bank", finding.CantTell, "hand: the case is warm before the cells"},
		{"contact, nobody says how the air changed", "b1/charge-temperature = 18 C\n" + contact, "bank", finding.ToDo, "boundary: missing is not settled"},
		{"glued after a cold drive", "bank/settled = yes\nb1/charge-temperature = 18 C\nb1/sensor = glued\n" + others, "bank", finding.CantTell, "hand: glued to the case"},
		{"its own sensor after a cold drive", "bank/settled = yes\n" + ownAt("18 C"), "bank", finding.Pass, "hand: it feels the cells"},
		{"two people, two temperatures", ownAt("18 C") + "b1/charge-temperature = 19 C", "bank", finding.CantTell, "hand: a conflict is never a pass"},
	})
}

func TestSettingATemperatureAsideOpensNothing(t *testing.T) {
	x := judged(t, fixture(t, twoByTwo, "b1/charge-temperature = skip not-needed other\nb1/sensor = own\n", others), coldGate, "bank")[0]
	if x.Settled() {
		t.Error("a temperature that was set aside opens the gate")
	}
}

func TestJoinCold(t *testing.T) {
	const settled = "bank/settled = no\n"
	temps := func(first string) string {
		return settled + "b1/temperature = " + first + "\nb2/temperature = 18 C\nb3/temperature = 18 C\nb4/temperature = 18 C\n"
	}
	walk(t, twoByTwo, joinCold, "", []row{
		{"warm", temps("18 C"), "bank", finding.Pass, "hand: 18 − 2.5 > 0"},
		{"just above", temps("2.1 C"), "bank", finding.Pass, "hand: 2.1 − 2.05 > 0"},
		{"just below", temps("2.0 C"), "bank", finding.CantTell, "boundary: 2.0 − 2.05 < 0"},
		{"frozen", temps("-3 C"), "bank", finding.Fail, "hand: −3 + 2.5 ≤ 0"},
		{"too hot", temps("48 C"), "bank", finding.Fail, "hand: 48 − 2.5 > 45"},
		{"hotter than one maker wants", "b1/sheet = sheet1\nsheet1/charge-temp-max = 40 C\n" + temps("43 C"), "bank", finding.Fail, "hand: 43 − 2.3 > 40"},
		{"the maker allows −10", "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/charge-temp-min = -10 C\n" + temps("-5 C"), "bank", finding.Fail, "hand: joining heats nothing, 0 °C stands"},
		{"one is missing", settled + "b1/temperature = 18 C", "bank", finding.ToDo, "boundary"},
		{"after a cold drive", strings.Replace(temps("18 C"), "= no", "= yes", 1), "bank", finding.CantTell, "hand: read on the case"},
		{"nobody says how the air changed", strings.TrimPrefix(temps("18 C"), settled), "bank", finding.ToDo, "boundary"},
		{"read an hour ago", temps("18 C, at -1h"), "bank", finding.CantTell, "hand: 60 min > 15"},
		{"read before it was joined, long ago", "b1/temperature = 18 C, at -1h\nb2/temperature = 18 C, at -1h\nb3/temperature = 18 C, at -1h\nb4/temperature = 18 C, at -1h\n" + settled, "bank", finding.CantTell, "hand: not joined yet, so now counts"},
	})
	walk(t, bank.New(4, 1, bank.JoinStrings, bank.OneEnd), joinCold, "", []row{
		{"nothing in parallel", "", "bank", finding.NotNeeded, "boundary"},
	})
	walk(t, bank.New(2, 2, bank.JoinGroups, bank.OneEnd), joinCold, settled, []row{
		{"one group warm, the other not read", "b1/temperature = 18 C\nb2/temperature = 18 C", "gA", finding.Pass, "hand: group A alone"},
		{"the other group", "b1/temperature = 18 C\nb2/temperature = 18 C", "gB", finding.ToDo, "boundary"},
	})
}

// What counts for a join is how warm the blocks were when they were joined.
func TestJoinColdLooksAtTheTimeOfJoining(t *testing.T) {
	const temps = "bank/settled = no\nb1/temperature = 18 C\nb2/temperature = 18 C\nb3/temperature = 18 C\nb4/temperature = 18 C\n"
	later := fixtureNow.Add(2 * time.Hour)
	for _, r := range []struct {
		links string
		want  finding.Verdict
	}{
		{"sA.p~sB.p/closed = yes\nsA.n~sB.n/closed = yes", finding.Pass}, // hand: joined within 15 min of the reading
		{"sA.n~sB.n/closed = yes", finding.CantTell},                     // hand: still open, and the reading is 2 h old
	} {
		f := NewFacts(fixture(t, twoByTwo, temps, r.links).state, "v1", later)
		if got, why := verdict(t, f, joinCold, "bank"); got != r.want {
			t.Errorf("%s: %v (%s), want %v", r.links, got, why, r.want)
		}
	}
}

// A charge that is over is judged by what was known while it ran; one that is
// not, by now.
func TestColdGateOfAnEndedCharge(t *testing.T) {
	const warm = `
		bank/settled = no
		b1/charge-temperature = 18 C, at -5h
		b1/sensor = own
		b2/charge-temperature = 18 C, at -5h
		b2/sensor = own
	`
	const sampled = "charge1.s1/sample-current = 20 A, at -295m\ncharge1.s2/sample-current = 4 A, at -1h\n"
	const ended = "b1/top-voltage-again = 14.2 V, at -1h\nb2/top-voltage-again = 14.2 V, at -1h\n"
	walk(t, bank.New(2, 1, bank.JoinStrings, bank.OneEnd), coldGate, warm, []row{
		{"running, read five hours ago", sampled, "bank", finding.CantTell, "hand: 5 h is more than 15 min"},
		{"ended, read five minutes before its first sample", sampled + ended, "bank", finding.Pass, "hand: 18 − 3 > 0, and 5 min ≤ 15 min before the first sample"},
		{"ended, nobody noted when it ran", ended, "bank", finding.CantTell, "hand: no sample, so it is judged by now"},
		{"ended, read half an hour before its first sample", strings.Replace(sampled, "-295m", "-270m", 1) + ended, "bank", finding.CantTell, "hand: 30 min is more than 15 min"},
	})
}

// Three blocks below zero and one at 18 °C: the three are named, for
// each is to be warmed (hand).
func TestEachFrozenBlockIsNamed(t *testing.T) {
	f := fixture(t, twoByTwo, "b1/temperature = -8 C", "b2/temperature = 18 C", "b3/temperature = -8 C", "b4/temperature = -8 C")
	x := judged(t, f, joinCold, "bank")[0]
	if x.Verdict() != finding.Fail || !slices.Equal(x.Parts(), []string{"b1", "b3", "b4"}) {
		t.Errorf("%v of %v, want a fail of b1, b3 and b4", x.Verdict(), x.Parts())
	}
}
