package checks

import (
	"testing"

	"lugmark/core/finding"
)

const ohmMeter = `
	m6/measures = Ohm
	m6/percent = 1 %
	m6/counts = 2
	m6/step = 0.01 mOhm
	m6/due = 2027-03-01
	m7/measures = C
	m7/percent = 0 %
	m7/counts = 1
	m7/step = 0.1 C
	m7/due = 2027-03-01
`

// ohmsAt is one block as a visit read it.
func ohmsAt(visit, ohms, celsius string) string {
	return visit + ": bank/resistance-method = step\n" + visit + ": bank/resistance-step = 40 A\n" + visit + ": b1/resistance = " + ohms + "\n" + visit + ": b1/temperature = " + celsius + "\n"
}

// One meter: its gain falls out, two counts of 0.01 mΩ stay: U = 0.02 mΩ. Near
// 1.3 times 4.00 mΩ that makes √(0.02² + 1.3²·0.02²)/4 = 0.0082.
func TestBlockRDrift(t *testing.T) {
	was := ohmsAt("v1", "4.00 mOhm, m6", "18.0 C, m7")
	now := func(ohms string) string { return was + ohmsAt("v2", ohms+" mOhm, m6", "18.0 C, m7") }
	walk(t, twoByTwo, blockRDrift, ohmMeter, []row{
		{"nothing read today", was + "v2: bank/built-again = no", "b1", finding.ToDo, "a reading is never inherited"},
		{"no baseline", ohmsAt("v2", "4.00 mOhm, m6", "18.0 C, m7"), "b1", finding.CantTell, "no baseline: never Pass"},
		{"as it was", now("4.00"), "b1", finding.Pass, "hand: 1.00 + 0.007 ≤ 1.3"},
		{"less", now("3.60"), "b1", finding.Pass, "hand: 0.90"},
		{"below 1.3", now("5.15"), "b1", finding.Pass, "hand: 1.2875 + 0.0082"},
		{"nearly 1.3", now("5.18"), "b1", finding.CantTell, "boundary: 1.295 + 0.0082 > 1.3"},
		{"between", now("5.60"), "b1", finding.CantTell, "hand: 1.40 lies between 1.3 and 1.5"},
		{"at 1.5", now("6.00"), "b1", finding.CantTell, "boundary: F above 1.5 only"},
		{"above 1.5", now("6.10"), "b1", finding.Fail, "hand: 1.525 − 0.009 > 1.5"},
		{"another meter, its gain stays", was + ohmsAt("v2", "5.15 mOhm, m8", "18.0 C, m7"), "b1", finding.CantTell, "hand: ±0.057 and ±0.06 mΩ: 1.2875 + 0.024 > 1.3"},
		{"4.8 K warmer", was + ohmsAt("v2", "4.00 mOhm, m6", "22.8 C, m7"), "b1", finding.Pass, "boundary: 4.8 + 0.14 ≤ 5 K"},
		{"5 K warmer", was + ohmsAt("v2", "4.00 mOhm, m6", "23.0 C, m7"), "b1", finding.CantTell, "boundary: 5 ± 0.14 K"},
		{"6 K colder and twice as much", was + ohmsAt("v2", "8.00 mOhm, m6", "12.0 C, m7"), "b1", finding.CantTell, "a cold block has more: C, not F"},
		{"temperature not read today", was + "v2: bank/resistance-method = step\nv2: bank/resistance-step = 40 A\nv2: b1/resistance = 4.00 mOhm, m6", "b1", finding.ToDo, "missing is never zero"},
		{"temperature not read then", "bank/resistance-method = step\nbank/resistance-step = 40 A\nb1/resistance = 4.00 mOhm, m6\n" + ohmsAt("v2", "4.00 mOhm, m6", "18.0 C, m7"), "b1", finding.CantTell, "missing is never zero"},
		{"coarse thermometers", ohmsAt("v1", "4.00 mOhm, m6", "18 C") + ohmsAt("v2", "4.00 mOhm, m6", "20 C"), "b1", finding.CantTell, "hand: 2 + √2·2.5 = 5.5 > 5 K"},
		{"read at 1 kHz today", was + "v2: bank/resistance-method = 1khz\nv2: b1/resistance = 4.00 mOhm, m6\nv2: b1/temperature = 18.0 C, m7", "b1", finding.CantTell, "another way is no comparison"},
		{"a step of 19 A", was + "v2: bank/resistance-method = step\nv2: bank/resistance-step = 19 A\nv2: b1/resistance = 4.00 mOhm, m6\nv2: b1/temperature = 18.0 C, m7", "b1", finding.CantTell, "boundary: 20 A is the least"},
		{"it creeps", was + ohmsAt("v2", "4.80 mOhm, m6", "18.0 C, m7") + ohmsAt("v3", "5.60 mOhm, m6", "18.0 C, m7"), "b1", finding.CantTell, "hand: 1.17 against the last visit, 1.40 against the first"},
		{"two people disagreed then", was + "b1/resistance = 9.00 mOhm, m6\n" + ohmsAt("v2", "4.00 mOhm, m6", "18.0 C, m7"), "b1", finding.CantTell, "a baseline in conflict is none"},
	})
}
