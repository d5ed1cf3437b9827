package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

// driftMeters is a millivolt range and a clamp whose dates reach over both
// visits: one meter, and nobody adjusted it in between.
const driftMeters = `
	m2/measures = A
	m2/percent = 2 %
	m2/counts = 5
	m2/step = 0.1 A
	m2/due = 2027-03-01
	m4/measures = A
	m4/percent = 2 %
	m4/counts = 5
	m4/step = 0.1 A
	m4/due = 2027-03-01
	m3/measures = V
	m3/percent = 0.5 %
	m3/counts = 2
	m3/step = 0.00001 V
	m3/due = 2027-03-01
`

// jointAt is one joint as a visit read it: 4.80 mV at 160.0 A is 30 µΩ.
func jointAt(visit, millivolts, amps string) string {
	const joint = "b1.n~b2.p@b1.n"
	return visit + ": bank/drop-current = " + amps + "\n" + visit + ": " + joint + "/drop = " + millivolts + ", m3\n" + visit + ": " + joint + "/drop-zero = 0.00 mV, m3\n"
}

// With both gains out of it what is left is d/√6 of the millivolts and ±0.5 A of
// the clamp: U(R) = 2·√((0.00408/160)² + (R·0.5/160/√3)²) is 0.14 µΩ at 36 and
// 0.12 µΩ at 30, and U(R/R0) near 1.2 is √(0.14² + 1.2²·0.12²)/30 = 0.0067.
func TestJointDrift(t *testing.T) {
	two := bank.New(2, 1, bank.JoinStrings, bank.OneEnd)
	const joint, clamp = "b1.n~b2.p@b1.n", "160.0 A, m2"
	new30, new20 := jointAt("v1", "4.80 mV", clamp), jointAt("v1", "3.20 mV", clamp)
	walk(t, two, jointDrift, driftMeters, []row{
		{"nothing read today", new30 + "v2: bank/built-again = no", joint, finding.ToDo, "a reading is never inherited"},
		{"no baseline", jointAt("v2", "4.80 mV", clamp), joint, finding.CantTell, "no baseline: never Pass"},
		{"as it was", new30 + jointAt("v2", "4.80 mV", clamp), joint, finding.Pass, "hand: 1.000 + 0.006 ≤ 1.20"},
		{"a fifth more, not quite", new30 + jointAt("v2", "5.70 mV", clamp), joint, finding.Pass, "hand: 35.63/30 = 1.1875 + 0.0067"},
		{"a fifth more", new30 + jointAt("v2", "5.76 mV", clamp), joint, finding.CantTell, "boundary: 1.200 ± 0.0067"},
		{"above", new30 + jointAt("v2", "5.80 mV", clamp), joint, finding.Fail, "hand: 1.2083 − 0.0067 > 1.20"},
		{"another clamp, its gain stays", new30 + jointAt("v2", "5.70 mV", "160.0 A, m4"), joint, finding.CantTell, "hand: ±2.31 % each: 1.1875 + 0.045 > 1.20"},
		{"another clamp, far above", new30 + jointAt("v2", "6.40 mV", "160.0 A, m4"), joint, finding.Fail, "hand: 1.333 − 0.05 > 1.20"},
		{"the clamp was calibrated in between", new30 + "v2: m2/due = 2028-03-01\n" + jointAt("v2", "5.70 mV", clamp), joint, finding.CantTell, "as another clamp"},
		{"a clamp without a name", jointAt("v1", "4.80 mV", "160.0 A") + jointAt("v2", "5.70 mV", "160.0 A"), joint, finding.CantTell, "nobody knows that it is the same: as another clamp"},
		{"small joint, 4.5 µΩ more", new20 + jointAt("v2", "3.92 mV", clamp), joint, finding.Pass, "hand: 24.5 − 20 = 4.5 + 0.25 ≤ 5; 1.225 would be above 1.20"},
		{"small joint, 4.8 µΩ more", new20 + jointAt("v2", "3.97 mV", clamp), joint, finding.CantTell, "boundary: 4.81 + 0.136 + 2.5 % of it = 5.07 > 5"},
		{"small joint, 5 µΩ more", new20 + jointAt("v2", "4.00 mV", clamp), joint, finding.CantTell, "boundary: 5.0 ± 0.26"},
		{"small joint, 5.6 µΩ more", new20 + jointAt("v2", "4.10 mV", clamp), joint, finding.Fail, "hand: 5.63 − 0.28 > 5"},
		{"at 49 A", new30 + jointAt("v2", "1.47 mV", "49.0 A, m2"), joint, finding.CantTell, "boundary: 50 A is the least"},
		{"at 50 A", new30 + jointAt("v2", "1.50 mV", "50.0 A, m2"), joint, finding.Pass, "boundary: 50 A is enough; 1.00 + 0.02"},
		{"bad, but at 49 A", new30 + jointAt("v2", "4.90 mV", "49.0 A, m2"), joint, finding.CantTell, "the rule: below 50 A nobody can tell"},
		{"the second visit did not read it", new30 + "v2: bank/marks-moved = no\n" + jointAt("v3", "4.80 mV", clamp), joint, finding.Pass, "the latest earlier visit that has it"},
		{"made anew at the second visit", new30 + jointAt("v2", "3.20 mV", clamp) + jointAt("v3", "4.80 mV", clamp), joint, finding.Fail, "hand: 30 − 20 > 5 µΩ against the latest"},
		{"it creeps", new30 + jointAt("v2", "5.50 mV", clamp) + jointAt("v3", "6.20 mV", clamp), joint, finding.CantTell, "hand: 38.75/34.4 = 1.13 against the last visit, 1.29 against the first"},
		{"two people disagreed at the first visit", new30 + joint + "/drop = 9.00 mV, m3\n" + jointAt("v2", "4.80 mV", clamp), joint, finding.CantTell, "a baseline in conflict is none"},
		{"the first visit put it off", "bank/drop-current = 160.0 A, m2\n" + joint + "/drop = skip later wait\n" + jointAt("v2", "4.80 mV", clamp), joint, finding.CantTell, "no baseline: never Pass"},
		{"the first visit may have read nothing", jointAt("v1", "0.03 mV", "1.0 A, m2") + jointAt("v2", "4.80 mV", clamp), joint, finding.CantTell, "hand: 30 µΩ ± 0.5 A of 1.0 A and 10 µΩ of the step"},
	})
}
