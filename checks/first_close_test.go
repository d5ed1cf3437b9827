package checks

import (
	"testing"

	"lugmark/core/finding"
)

// A clamp of ±(1 % + 1 count) that shows 0.01 A knows 0.50 A to 0.015 A; the
// usual clamp knows it to 0.56 A.
func TestFirstClose(t *testing.T) {
	const shunt = "m2/measures = A\nm2/percent = 1\nm2/counts = 1\n"
	walk(t, fourInSeries, firstClose, shunt+"switch/close-tripped = no\nswitch/close-voltage = 53.2 V\n", []row{
		{"quiet", "switch/close-current = 0.50 A, m2", "switch", finding.Pass, "hand: 0.515 ≤ 1"},
		{"near the limit", "switch/close-current = 0.99 A, m2", "switch", finding.CantTell, "hand: 0.97 … 1.01"},
		{"it flows out", "switch/close-current = -1.10 A, m2", "switch", finding.Fail, "hand: 1.10 − 0.021 > 1, whichever way"},
		{"usual clamp, nothing", "switch/close-current = 0.0 A", "switch", finding.Pass, "hand: 0.5 counts of 0.1 A and ±0.5 A zero: B = 1.0 ≤ 1"},
		{"current not read", "", "switch", finding.ToDo, "boundary"},
		{"the firm is stricter", "house/first-close.current = 0.2 A\nswitch/close-current = 0.50 A, m2", "switch", finding.Fail, "hand: 0.485 > 0.2"},
	})
	walk(t, fourInSeries, firstClose, shunt+"switch/close-current = 0.10 A, m2\n", []row{
		{"tripped", "switch/close-tripped = yes", "switch", finding.Fail, "hand: whatever was read, it tripped"},
		{"trip unknown", "switch/close-voltage = 53.2 V", "switch", finding.CantTell, "boundary: not read"},
		{"below 8 V a block", "switch/close-tripped = no\nswitch/close-voltage = 31.0 V", "switch", finding.Fail, "hand: 31.0 + 0.46 < 32"},
		{"at 8 V a block", "switch/close-tripped = no\nswitch/close-voltage = 32.0 V", "switch", finding.CantTell, "boundary: 32.0 ± 0.46 is not surely 8 V a block"},
		{"one block fell asleep", "bank/total-voltage = 53.2 V\nswitch/close-tripped = no\nswitch/close-voltage = 45.0 V", "switch", finding.CantTell, "hand: three blocks of 13.3 V and one of 8 V are 47.9 V"},
		{"none fell asleep", "bank/total-voltage = 53.2 V\nswitch/close-tripped = no\nswitch/close-voltage = 53.0 V", "switch", finding.Pass, "hand: 53.0 − 0.6 ≥ 47.9 + 0.4"},
		{"volts not read", "switch/close-tripped = no", "switch", finding.ToDo, "boundary"},
	})
}
