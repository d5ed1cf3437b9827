package checks

import (
	"strings"
	"testing"

	"lugmark/core/finding"
)

// releasedAlone is one warm block alone on the bench whose charge is released.
const releasedAlone = `
	stage.first-charge/hazards-read = yes
	b1/sheet = sheet1
	sheet1/capacity = 100 Ah
	sheet1/charge-voltage-max = 14.6 V
	sheet1/charge-max = 50 A
	b1/charge-temperature = 20 C
	b1/sensor = own
	charger1/set-current = 20 A
	charger1/absorption = 14.2 V
	charger1/float = 13.5 V
	charger1/equalise = off
	charger1/temp-comp = off
	charger1/recover = off
	bank/charge-current = 20 A
	charge1/target = b1
`

// The clamp of these rows is not entered: ±(2 % + 5 counts) and 0.5 A for its
// zero, so 2.0 A is more than the 1 A that counts as none, and 1.5 A may be.
func TestCurrentThatNothingReleased(t *testing.T) {
	out := func(key string) string {
		var kept []string
		for _, l := range strings.Split(releasedAlone, "\n") {
			if !strings.HasPrefix(strings.TrimSpace(l), key) {
				kept = append(kept, l)
			}
		}
		return strings.Join(kept, "\n")
	}
	warm := func(amps string) string {
		return listed(5, [3]string{amps, "13.80 V, m1", "20.0 C"}, [3]string{amps, "13.80 V, m1", "20.0 C"})
	}
	then := func(amps string) string {
		return listed(5, [3]string{"20.0 A", "13.80 V, m1", "20.0 C"}, [3]string{amps, "13.60 V, m1", "20.0 C"})
	}
	rows := []struct {
		name, lines string
		want        finding.Verdict
		off         bool
		from        string
	}{
		{"released", releasedAlone + warm("20.0 A"), finding.Pass, false, "every condition of the charge"},
		{"its temperature has aged, the lines are warm", out("b1/charge-temperature") + "b1/charge-temperature = 20 C, at -16m\n" + warm("20.0 A"), finding.Pass, false, "a running charge carries its own temperature"},
		{"its temperature has aged, the lines have none", out("b1/charge-temperature") + "b1/charge-temperature = 20 C, at -16m\n" + listed(5, [3]string{"20.0 A", "13.80 V, m1", ""}, [3]string{"20.0 A", "13.80 V, m1", ""}), finding.Fail, true, "unknown opens nothing"},
		{"no temperature of the block", out("b1/charge-temperature") + warm("20.0 A"), finding.Fail, true, "unknown opens nothing"},
		{"cautions not read", out("stage.") + warm("20.0 A"), finding.Fail, true, "the hold point is shut"},
		{"a setting not read back", out("charger1/equalise") + warm("20.0 A"), finding.Fail, true, "the hold point is shut"},
		{"the whole bank, its main open", out("charge1/target") + warm("20.0 A"), finding.Fail, true, "the hold point is shut"},
		{"nothing flows", out("stage.") + warm("0.0 A"), finding.Pass, false, "hand: 0 + 0.82 ≤ 1 A"},
		{"perhaps something flows", out("stage.") + warm("1.5 A"), finding.CantTell, true, "hand: 1.5 − 0.8 < 1"},
		{"switched off since", out("stage.") + then("0.0 A"), finding.Fail, false, "what flowed, flowed; the charger is off"},
	}
	for _, r := range rows {
		f := fixture(t, oneBlock, goodMeter, r.lines)
		if got, why := verdict(t, f, chargeTrend, "bank"); got != r.want {
			t.Errorf("%s: %v (%s), want %v (%s)", r.name, got, why, r.want, r.from)
		}
		if _, off := f.ChargerOff(); off != r.off {
			t.Errorf("%s: charger off %v, want %v (%s)", r.name, off, r.off, r.from)
		}
	}
}

// "Never charge below the maker's lowest temperature, at any visit": what runs as
// the last visit left it needs no release, and a frozen block is a fail all the
// same. Without a line the visit is not asked about a charge.
func TestFrozenCurrentIsAFailAtAReturnVisit(t *testing.T) {
	rows := []struct {
		name, temp string
		want       finding.Verdict
		off        bool
		from       string
	}{
		{"frozen", "-8.0 C", finding.Fail, true, "hand: −8 + 3 < 0 °C, 29 − 6.1 > 1 A"},
		{"near freezing", "2.0 C", finding.CantTell, false, "hand: 2 − 3 < 0 °C; one line"},
		{"warm", "20.0 C", finding.CantTell, false, "one line shows no course"},
		{"too hot", "60.0 C", finding.Fail, true, "hand: 60 − 3 > 45 °C"},
	}
	for _, r := range rows {
		line := strings.ReplaceAll(listed(1, [3]string{"29.0 A", "13.80 V, m1", r.temp}), "charge1.", "v2: charge1.")
		f := fixture(t, oneBlock, goodMeter, releasedAlone, "v2: bank/marks-moved = no", line)
		if got, why := verdict(t, f, chargeTrend, "bank"); got != r.want {
			t.Errorf("%s: %v (%s), want %v (%s)", r.name, got, why, r.want, r.from)
		}
		if _, off := f.ChargerOff(); off != r.off {
			t.Errorf("%s: charger off %v, want %v (%s)", r.name, off, r.off, r.from)
		}
	}
	f := fixture(t, oneBlock, goodMeter, releasedAlone, "v2: bank/marks-moved = no")
	Run(f)
	if len(f.byCheck[chargeTrend.ID]) > 0 {
		t.Error("no line, and the course of a charge is asked")
	}
}

// 29 A into a heated block at −8 °C whose heaters take 5 A: never Can't tell and
// never "stay". Heaters' current that nobody released says "charger off" as well.
func TestFrozenCurrentIsAFail(t *testing.T) {
	clamp := "m3/measures = A\nm3/percent = 2 %\nm3/counts = 5\nm3/step = 0.1 A\n"
	cold := func(amps string) string {
		return clamp + listed(1, [3]string{amps + ", m3", "13.5 V", "-8.0 C"})
	}
	watched := "bank/heat-watched = yes, at -2m"
	rows := []struct {
		name, lines string
		toCharge    finding.Verdict
		trend       finding.Verdict
		off         bool
		from        string
	}{
		{"29 A, nothing released", swapped(t, "bank/heat-watched", "") + cold("29.0 A"), finding.Fail, finding.Fail, true, "hand: 29 − 1.1 > 6 A at −8 + 3 °C"},
		{"29 A, heating released", swapped(t, "bank/heat-watched", watched) + cold("29.0 A"), finding.Fail, finding.Fail, true, "the same"},
		{"5 A, heating released", swapped(t, "bank/heat-watched", watched) + cold("5.0 A"), finding.CantTell, finding.CantTell, false, "their heaters' current, and one line"},
		{"5 A, nobody watches", swapped(t, "bank/heat-watched", "") + cold("5.0 A"), finding.CantTell, finding.Fail, true, "nothing released it"},
	}
	for _, r := range rows {
		f := fixture(t, oneBlock, r.lines)
		x := judged(t, f, heaterToCharge, "bank")[0]
		if x.Verdict() != r.toCharge {
			t.Errorf("%s: from heating to charging %v, want %v (%s)", r.name, x.Verdict(), r.toCharge, r.from)
		}
		if stay := x.Next().Key == sayStepOn.Key; stay == r.off {
			t.Errorf("%s: %v, want charger off %v", r.name, x.Next(), r.off)
		}
		if got, why := verdict(t, f, chargeTrend, "bank"); got != r.trend {
			t.Errorf("%s: course %v (%s), want %v (%s)", r.name, got, why, r.trend, r.from)
		}
		if _, off := f.ChargerOff(); off != r.off {
			t.Errorf("%s: charger off %v, want %v", r.name, off, r.off)
		}
	}
}
