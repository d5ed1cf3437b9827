package checks

import (
	"strings"
	"testing"

	"lugmark/core/finding"
	"lugmark/core/say"
)

// m1 is a good meter: ±(0.05 % + 3 counts). At 13 V with 1 mV steps
// U = 0.0065 + 0.003 = 9.5 mV (hand).
const goodMeter = `
	m1/measures = V
	m1/percent = 0.05 %
	m1/counts = 3
	m1/step = 0.001 V
	m1/range = 60 V
	m1/due = 2027-03-01
`

func TestArrivalVoltage(t *testing.T) {
	walk(t, twoByTwo, arrivalVoltageCheck, goodMeter, []row{
		{"usual", "b1/arrival-voltage = 13.200 V, m1", "b1", finding.Pass, "hand: 13.190 … 13.210 in 12.8 … 13.6"},
		{"just above the low end", "b1/arrival-voltage = 12.810 V, m1", "b1", finding.Pass, "hand: 12.810 − 0.0094 = 12.8006"},
		{"at the low end", "b1/arrival-voltage = 12.800 V, m1", "b1", finding.CantTell, "boundary: 12.7906 is below"},
		{"just below the high end", "b1/arrival-voltage = 13.590 V, m1", "b1", finding.Pass, "hand: 13.590 + 0.0098 = 13.5998"},
		{"at the high end", "b1/arrival-voltage = 13.600 V, m1", "b1", finding.CantTell, "boundary: 13.6098 is above"},
		{"low", "b1/arrival-voltage = 11.500 V, m1", "b1", finding.CantTell, "hand: between 10 and 12.8"},
		{"ten volts", "b1/arrival-voltage = 10.000 V, m1", "b1", finding.CantTell, "boundary: 9.992 … 10.008"},
		{"below ten", "b1/arrival-voltage = 9.900 V, m1", "b1", finding.Fail, "hand: 9.908 < 10"},
		{"just above eight", "b1/arrival-voltage = 8.010 V, m1", "b1", finding.Fail, "hand: 8.010 − 0.007 = 8.003"},
		{"eight volts", "b1/arrival-voltage = 8.000 V, m1", "b1", finding.CantTell, "boundary: perhaps asleep"},
		{"nothing", "b1/arrival-voltage = 0.003 V, m1", "b1", finding.CantTell, "hand: the protection is open or the cells are empty"},
		{"reversed", "b1/arrival-voltage = -13.200 V, m1", "b1", finding.CantTell, "hand: probes or posts"},
		{"just charged", "b1/arrival-voltage = 14.000 V, m1", "b1", finding.CantTell, "hand: between 13.6 and 14.6"},
		{"at the highest charge voltage", "b1/arrival-voltage = 14.600 V, m1", "b1", finding.CantTell, "boundary: 14.590 … 14.610"},
		{"above it", "b1/arrival-voltage = 14.620 V, m1", "b1", finding.Fail, "hand: 14.620 − 0.0103 > 14.6"},
		{"above the maker's", "b1/sheet = sheet1\nsheet1/charge-voltage-max = 14.4 V\nb1/arrival-voltage = 14.450 V, m1", "b1", finding.Fail, "hand: 14.450 − 0.0102 > 14.4"},
		{"a common meter near the end", "b1/arrival-voltage = 12.85 V", "b1", finding.CantTell, "hand: 12.85 − (0.064 + 0.03) = 12.756"},
		{"a common meter in the middle", "b1/arrival-voltage = 13.20 V", "b1", finding.Pass, "hand: ±(0.066 + 0.03)"},
		{"not read", "", "b1", finding.ToDo, "boundary: missing is not zero"},
		{"no access", "b1/arrival-voltage = skip cannot no-access", "b1", finding.CantTell, "boundary: not read is not usual"},
		{"unsafe", "b1/arrival-voltage = skip unsafe other", "b1", finding.Fail, "hand: unsafe to measure stops the stage"},
	})
}

// Low and high ask for opposite acts.
func TestArrivalSaysWhatToDo(t *testing.T) {
	for volts, words := range map[string]string{"12.700 V": "Charge", "11.000 V": "Charge", "13.700 V": "rest"} { // hand: 13.2 is in the middle
		x := judged(t, fixture(t, twoByTwo, goodMeter, "b1/arrival-voltage = "+volts+", m1"), arrivalVoltageCheck, "b1")[0]
		if next := (say.Voice{}).Say(x.Next()); !strings.Contains(next, words) {
			t.Errorf("%s: %q, want %q", volts, next, words)
		}
	}
}
