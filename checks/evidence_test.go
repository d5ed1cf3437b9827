package checks

import (
	"slices"
	"strings"
	"testing"

	"lugmark/core/finding"
	"lugmark/core/say"
)

// built is the good job with its links closed in order, up to the last rail.
func built() []string {
	return append(goodJob(),
		"b1.n~b2.p/closed = yes", "b3.n~b4.p/closed = yes",
		"sA.n~sB.n/closed = no", "sA.p~sB.p/closed = yes", "sA.n~sB.n/last-gap = 0.002 V, m1")
}

// later judges a job some days after it was kept.
func later(f *Facts, days int) *Facts {
	return NewFacts(f.state, f.visit, f.now.AddDate(0, 0, days))
}

// What was proved when it was used stays proved: a meter or wrench that was in
// date, a charge of that week, temperatures and volts of that hour.
func TestEvidenceIsJudgedWhenItWasUsed(t *testing.T) {
	f := fixture(t, twoByTwo, append(built(), "switch/closed = no")...)
	// The second rail and the main close over what was an answer before: as
	// corrections of it, one after the other.
	correct(t, f, "sA.n~sB.n/closed", "yes")
	correct(t, f, "switch/closed", "yes")
	for _, days := range []int{0, 1, 200} {
		g := later(f, days)
		for _, x := range Run(g) {
			if x.Check() == coldGate.ID || x.Check() == chargeRate.ID {
				continue // no samples tell when the charge ran: judged by now
			}
			if x.Verdict() == finding.NotNeeded && (goodNeedsNot[x.Check()] != "" || goodProofNot[x.Check()] != "") {
				continue
			}
			if x.Verdict() != finding.Pass {
				t.Errorf("after %d days %s@%s: %v (%s)", days, x.Check(), x.Part(), x.Verdict(), say.Voice{}.Say(x.Reason()))
			}
		}
		for _, h := range g.Holds() {
			if h.Breached() || h.Gate != "charge" && h.Gate != "test" && !h.Done {
				t.Errorf("after %d days %s %s: done %v, breached %v, shut %v", days, h.Gate, h.Part, h.Done, h.Breached(), h.Shut())
			}
		}
	}
}

// What is still about now ages: an open link, an open main.
func TestWhatIsAboutNowAges(t *testing.T) {
	uncharged := slices.DeleteFunc(goodJob(), func(line string) bool { return strings.HasPrefix(line, "charge1.") })
	g := later(fixture(t, twoByTwo, append(uncharged, "switch/closed = no")...), 200)
	for _, want := range []struct{ gate, part string }{{"main", "switch"}, {"parallel", "sA.p~sB.p"}, {"charge", "bank"}} {
		if hold(t, g, want.gate, want.part).Passed() {
			t.Errorf("%s %s opens on evidence of 200 days ago", want.gate, want.part)
		}
	}
}

// A due date is compared with the day of the reading.
func TestAMeterInDateOnTheDay(t *testing.T) {
	const meter = "m1/measures = V\nm1/percent = 0.05 %\nm1/counts = 3\n"
	rows := []struct {
		name, lines string
		want        finding.Verdict
		from        string
	}{
		{"due in between", meter + "m1/due = 2026-11-20\nb1/arrival-voltage = 12.811 V, m1, at -240h", finding.Pass, "hand: read on the 15th, 12.811 − 0.0094 ≥ 12.8"},
		{"due before", meter + "m1/due = 2026-11-14\nb1/arrival-voltage = 12.811 V, m1, at -240h", finding.CantTell, "hand: 12.811 − 2 · 0.0094 < 12.8"},
	}
	for _, r := range rows {
		got, why := verdict(t, fixture(t, twoByTwo, r.lines), arrivalVoltageCheck, "b1")
		if got != r.want {
			t.Errorf("%s: %v (%s), want %v (%s)", r.name, got, why, r.want, r.from)
		}
	}
	wrench := window8to10 + "w1/max = 25 N.m\nw1/percent = 4 %\nw1/due = 2026-11-20\nb1.p/torque-set = 9 N.m, w1, at -240h"
	if got, why := verdict(t, fixture(t, twoByTwo, wrench), torque, "b1.p"); got != finding.Pass {
		t.Errorf("a wrench in date on the day: %v (%s)", got, why)
	}
}

// The yes to "equal charge is not proved" speaks of the readings it was given for.
func TestAcceptedBeforeTheReadingsIsNotAccepted(t *testing.T) {
	common := oneDelivery2 + sameCodes
	if hold(t, fixture(t, twoByTwo, common+"bank/level-accepted = yes\n"+fourAlike), "series", "b1.n~b2.p").Passed() {
		t.Error("accepted before anything was read, and the link opens")
	}
	if !hold(t, fixture(t, twoByTwo, common+fourAlike+"bank/level-accepted = yes"), "series", "b1.n~b2.p").Passed() {
		t.Error("accepted after the readings, and the link stays shut")
	}
}

// What was put off to a time comes back when the time has come.
func TestLaterComesDue(t *testing.T) {
	rows := []struct {
		until string
		want  finding.Verdict
	}{
		{"2026-11-20", finding.ToDo}, {"2026-11-25", finding.ToDo}, {"2026-11-26", finding.Later},
		{"2026-11-25T11:59:00+01:00", finding.ToDo}, {"2026-11-25T12:01:00+01:00", finding.Later}, {"", finding.Later},
	}
	for _, r := range rows {
		f := fixture(t, twoByTwo, strings.TrimSpace("b1/arrival-voltage = skip later wait "+r.until))
		if got, why := verdict(t, f, arrivalVoltageCheck, "b1"); got != r.want {
			t.Errorf("until %q: %v (%s), want %v", r.until, got, why, r.want)
		}
	}
}

// Each setting of a charger rests on its own entries.
func TestASettingRestsOnItself(t *testing.T) {
	f := fixture(t, twoByTwo, goodJob()...)
	for _, x := range judged(t, f, chargerSettings, "charger1") {
		l, _ := x.Limit()
		for _, k := range x.Reads() {
			if k.Part == "charger1" && l.Name == "float" && k.Field != "float" || l.Name == "equalise" && k.Part == "charger1" && k.Field != "equalise" {
				t.Errorf("%s rests on %v", l.Name, k)
			}
		}
		if len(x.Reads()) == 0 {
			t.Errorf("%s rests on nothing", l.Name)
		}
	}
}

// A match that fails is not said to prove nothing about charge.
func TestOnlyAMatchIsNoProofOfCharge(t *testing.T) {
	for volts, want := range map[string]bool{"13.281 V": true, "13.350 V": false} {
		lines := oneDelivery2 + strings.Replace(fourAlike, "13.281 V", volts, 1)
		said := false
		for _, n := range judged(t, fixture(t, twoByTwo, lines), voltageMatch, "sA")[0].Notes() {
			said = said || n.Key == sayFlatNote.Key
		}
		if said != want {
			t.Errorf("%s: said %v, want %v", volts, said, want)
		}
	}
}

// Nobody is sent to a resistance of the bank as a whole: there is no such entry.
func TestTheLinkToLookAtExists(t *testing.T) {
	for _, lines := range []string{"", "sA.n~sB.n/lug-to-lug = 1 mOhm"} {
		part := fixture(t, twoByTwo, lines).enteredLink()
		if _, ok := FieldOf(linkR.ID, part); !ok {
			t.Errorf("%q has no resistance to enter", part)
		}
		if lines != "" && part != "sA.n~sB.n" {
			t.Errorf("the link that was entered is not named, but %s", part)
		}
	}
}
