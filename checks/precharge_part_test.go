package checks

import (
	"testing"

	"lugmark/core/finding"
)

// Four in series reach 58.4 V: 10 mF take ½·0.01·58.4² = 17.0528 J, and with
// 25 Ω five time constants are 1.25 s.
func TestPrechargePart(t *testing.T) {
	const common = "inverter1/power = 3000 W\nswitch/precharge-resistor = 25 Ohm\n"
	const sheet = "switch/precharge-capacitance = 10 mF\nswitch/precharge-bears = 2 s\n"
	walk(t, fourInSeries, prechargePart, common, []row{
		{"bears more", sheet + "switch/precharge-pulse = 20 J", "switch", finding.Pass, "hand: 17.0528 ≤ 20; 1.25 s ≤ 2 s"},
		{"at the limit", sheet + "switch/precharge-pulse = 17.0528 J", "switch", finding.Pass, "boundary: 17.0528 J, as above"},
		{"just above it", sheet + "switch/precharge-pulse = 17.05 J", "switch", finding.Fail, "boundary: 17.0528 > 17.05"},
		{"longer than it bears", "switch/precharge-capacitance = 10 mF\nswitch/precharge-bears = 1.2 s\nswitch/precharge-pulse = 20 J", "switch", finding.Fail, "hand: 1.25 > 1.2"},
		{"by stop-watch", "switch/precharge-time = 0.75 s\nswitch/precharge-bears = 2 s\nswitch/precharge-pulse = 20.5 J", "switch", finding.Pass, "hand: 0.75/(3·25) = 10 mF ±20 %: 13.6 … 20.46 J"},
		{"by stop-watch, between", "switch/precharge-time = 0.75 s\nswitch/precharge-bears = 2 s\nswitch/precharge-pulse = 17 J", "switch", finding.CantTell, "hand: 13.6 … 20.46 J about 17"},
		{"by stop-watch, just between", "switch/precharge-time = 0.75 s\nswitch/precharge-bears = 2 s\nswitch/precharge-pulse = 20.3 J", "switch", finding.CantTell, "boundary: 20.46 > 20.3"},
		{"by stop-watch, surely too much", "switch/precharge-time = 0.75 s\nswitch/precharge-bears = 2 s\nswitch/precharge-pulse = 13 J", "switch", finding.Fail, "hand: 13.64 > 13"},
		{"no pulse in its sheet", sheet, "switch", finding.CantTell, "boundary: no sheet"},
		{"no time in its sheet", "switch/precharge-capacitance = 10 mF\nswitch/precharge-pulse = 20 J", "switch", finding.CantTell, "boundary: no sheet"},
		{"no capacitance", "switch/precharge-pulse = 20 J", "switch", finding.ToDo, "boundary: missing is not zero"},
		{"precharges itself", "inverter1/precharges-itself = yes\ninverter1/page = p. 7", "bank", finding.NotNeeded, "hand: no resistor of its own"},
	})
	walk(t, fourInSeries, prechargePart, "", []row{
		{"no inverter", "switch/capacitors = no", "bank", finding.NotNeeded, "hand: nothing to fill"},
		{"nobody said whether there is one", "", "switch", finding.ToDo, "boundary: not entered is not none"},
		{"no resistor entered", "inverter1/power = 3000 W", "switch", finding.ToDo, "boundary"},
	})
}
