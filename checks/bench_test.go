package checks

import (
	"fmt"
	"strings"
	"testing"

	"lugmark/core/bank"
)

// filled is a bank in which every block has its readings.
func filled(l bank.Layout) []string {
	lines := []string{"sheet1/model = Invented 100", "sheet1/capacity = 100 Ah", "sheet1/charge-max = 50 A", "sheet1/discharge-max = 100 A",
		"sheet1/charge-voltage-max = 14.6 V", "sheet1/torque-min = 8 N.m", "sheet1/torque-max = 10 N.m", "sheet1/series-max = 16", "sheet1/parallel-max = 16",
		"bank/last-current = -14h", "bank/design-current = 200 A"}
	for i, b := range l.Blocks() {
		lines = append(lines, b+"/sheet = sheet1", b+"/date-code = 2026-05", b+"/firmware = 1", b+"/serial = N-"+b,
			fmt.Sprintf("%s/arrival-voltage = 13.2%02d V", b, i%10), fmt.Sprintf("%s/rest-voltage = 13.28%d V", b, i%4), b+"/temperature = 18 C",
			b+".p/torque-set = 9 N.m", b+".n/torque-set = 9 N.m", b+"/full-voltage = 14.30 V", b+"/full-current = 2.0 A",
			b+"/full-voltage-again = 14.30 V", b+"/full-current-again = 1.9 A", b+"/full-ended = fell-slowly")
	}
	return lines
}

// The whole list on banks of three sizes; the screen runs it after every keep.
func BenchmarkRun(b *testing.B) {
	for _, l := range []bank.Layout{
		bank.New(2, 2, bank.JoinStrings, bank.OneEnd), bank.New(8, 8, bank.JoinStrings, bank.OneEnd),
		bank.New(16, 16, bank.JoinStrings, bank.OneEnd), bank.New(16, 16, bank.JoinGroups, bank.Diagonal),
	} {
		f := fixture(b, l, strings.Join(filled(l), "\n"))
		b.Run(l.Title()+" "+string(l.Join), func(b *testing.B) {
			for b.Loop() {
				Run(NewFacts(f.state, "v1", fixtureNow))
			}
		})
	}
}
