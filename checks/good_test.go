package checks

import (
	"fmt"
	"strings"
	"testing"

	"lugmark/core/finding"
	"lugmark/core/say"
)

// goodJob is an invented bank of two strings of two on which everything was
// measured and every check passes. The laws take it apart.
func goodJob() []string {
	lines := strings.Split(`
m1/measures = V
m1/percent = 0.05 %
m1/counts = 3
m1/step = 0.001 V
m1/range = 60 V
m1/due = 2027-03-01
m2/measures = A
m2/percent = 1 %
m2/counts = 1
m2/step = 0.01 A
m2/due = 2027-03-01
w1/measures = N.m
w1/percent = 4 %
w1/max = 25 N.m
w1/due = 2027-03-01
bank/use-torque = w1
sheet1/model = Invented 100
sheet1/page = p. 12
sheet1/capacity = 100 Ah
sheet1/charge-voltage-max = 14.6 V
sheet1/absorption-voltage = 14.4 V
sheet1/tail-current = 5 A
sheet1/charge-max = 50 A
sheet1/discharge-max = 100 A
sheet1/short-trip = 400 A
sheet1/series-max = 4
sheet1/parallel-max = 4
sheet1/charge-temp-min = 0 C
sheet1/charge-temp-max = 45 C
sheet1/torque-min = 8 N.m
sheet1/torque-max = 10 N.m
stage.receive/hazards-read = yes
stage.match/hazards-read = yes
stage.wire/hazards-read = yes
stage.switch-on/hazards-read = yes
stage.first-charge/hazards-read = yes
stage.prove/hazards-read = yes
bank/links-clear = yes
bank/settled = no
bank/last-current = -23h30m
b2/gap-voltage = 1.0 mV, m3
b4/gap-voltage = 1.0 mV, m3
sB/string-gap = 1.0 mV, m3
sA/total-voltage = 27.203 V, m1
sB/total-voltage = 27.203 V, m1
sA/tail-current = 3.00 A, m2, at -80s
sB/tail-current = 3.00 A, m2, at -80s
sA/tail-current-again = 2.50 A, m2, at -10s
sB/tail-current-again = 2.50 A, m2, at -10s
bank/charge-ended = fell-slowly
bank/charge-current = 20 A
site/kind = building
site/ambient-max = 30 C
site/ambient-min = 5 C
bank/design-current = 60 A
cable1/size = 2/0 AWG
cable1/standard = ASTM B258
cable1/insulation = 90 C
cable1/terminal = 75 C
lead.p/cable = cable1
lead.n/cable = cable1
lead.p/length = 1.0 m
lead.n/length = 1.0 m
b1.n~b2.p/cable = cable1
b3.n~b4.p/cable = cable1
sA.p~sB.p/cable = cable1
sA.n~sB.n/cable = cable1
b1.n~b2.p/length = 0.3 m
b3.n~b4.p/length = 0.3 m
sA.p~sB.p/length = 0.3 m
sA.n~sB.n/length = 0.3 m
fuse.main/rating = 100 A
fuse.main/voltage = 80 V
fuse.main/breaking = 50000 A
fuse.A/rating = 80 A
fuse.A/voltage = 80 V
fuse.A/breaking = 50000 A
fuse.B/rating = 80 A
fuse.B/voltage = 80 V
fuse.B/breaking = 50000 A
b2.p/step-voltage = 13.601 V, m1
b1.p/step-voltage = 27.203 V, m1
b4.p/step-voltage = 13.601 V, m1
b3.p/step-voltage = 27.203 V, m1
bank/total-voltage = 27.203 V, m1
inverter1/power = 1000 W
inverter1/cut-off = 22 V
inverter1/off = yes
switch/precharge-left = 0.100 V, m1
charger1/current-max = 30 A
charger1/absorption = 28.4 V
charger1/float = 27.0 V
charger1/set-current = 20 A
charger1/equalise = off
charger1/temp-comp = off
charger1/recover = off
charger1/absorption-at-posts = 28.40 V, m1
bank/drop-current = 100.0 A
capacity1/started-full = yes
capacity1/test-temperature = 25 C
capacity1/test-current = 40 A
capacity1/charge = 205 Ah
capacity1/charge-error = 1.2 Ah
capacity1/end-reason = cut-off
capacity1/end-voltage = 20.0 V
`, "\n")
	for n := 1; n <= 4; n++ {
		block := fmt.Sprintf(`
B/sheet = sheet1
B/date-code = 2026-0%d
B/firmware = 1.2
B/arrival-voltage = 13.200 V, m1
B/rest-voltage = 13.60%d V, m1
B/temperature = 18 C
B/charge-temperature = 18 C
B/sensor = own
B/resistance = 4.0 mOhm
B/full-temperature = 18 C, at -24h5m
B/full-voltage = 14.400 V, m1, at -24h2m
B/full-current = 3.00 A, m2, at -24h2m
B/full-voltage-again = 14.400 V, m1, at -24h
B/full-current-again = 2.50 A, m2, at -24h
B/full-ended = fell-slowly
B/top-voltage = 14.30%d V, m1, at -80s
B/top-voltage-again = 14.31%d V, m1, at -10s
B.p/torque-set = 9 N.m, w1
B.n/torque-set = 9 N.m, w1
`, n, n%2+1, n, n)
		lines = append(lines, strings.Split(strings.ReplaceAll(block, "B", fmt.Sprintf("b%d", n)), "\n")...)
	}
	for _, link := range twoByTwo.Links() {
		lines = append(lines, link.ID+"/drop-current = 50.0 A, m2")
		for _, joint := range link.Joints() {
			lines = append(lines, joint+"/drop = 2.00 mV, m3", joint+"/drop-zero = 0.00 mV, m3")
		}
	}
	lines = append(lines, strings.Split(goodPlan, "\n")...)
	lines = append(lines, strings.Split(goodProof, "\n")...)
	var out []string
	for _, l := range lines {
		if l != "" {
			out = append(out, l)
		}
	}
	return out
}

func TestTheGoodJobPasses(t *testing.T) {
	f := fixture(t, twoByTwo, goodJob()...)
	found := Run(f)
	sound(t, found)
	for _, x := range found {
		if x.Verdict() != finding.Pass && !(x.Verdict() == finding.NotNeeded && x.Settled() && goodNeedsNot[x.Check()]+goodProofNot[x.Check()] != "") {
			t.Errorf("%s@%s: %v (%s)", x.Check(), x.Part(), x.Verdict(), say.Voice{}.Say(x.Reason())+" -> "+say.Voice{}.Say(x.Next()))
		}
	}
}
