package circuit

import (
	"math"
	"testing"
)

func TestFault(t *testing.T) {
	tests := []struct {
		name  string
		fault Fault
		want  float64
		from  string
	}{
		{"1S2P 100 Ah, 1.4 mΩ, 0.1 mΩ shared", Fault{Series: 1, Feeds: FeedsMain(2), Volts: 14.6, Block: .0014, Shared: .0001},
			18250, "hand: 14.6/(0.7+0.1) mΩ"},
		{"4S2P, 2 mΩ, 0.8 mΩ shared", Fault{Series: 4, Feeds: FeedsMain(2), Volts: 14.6, Block: .002, Shared: .0008},
			12166.667, "hand: 58.4/(4+0.8) mΩ"},
		{"4S4P, fuse of one string sees three", Fault{Series: 4, Feeds: FeedsBranch(4), Volts: 14.6, Block: .002, Shared: .0008},
			16846.154, "hand: 58.4/(8/3+0.8) mΩ"},
		{"1S2P, no copper of a branch", Fault{Series: 1, Feeds: 2, Volts: 14.6, Block: .002, Shared: .0001},
			13272.727, "hand: 14.6/1.1 mΩ"},
		{"4S2P, 0.68 mΩ in each branch", Fault{Series: 4, Feeds: 2, Volts: 14.6, Block: .0006, Branch: .00068, Shared: .0001},
			35609.756, "hand: 58.4/((2.4+0.68)/2+0.1) mΩ"},
		{"one block of 4 mΩ", Fault{Series: 1, Feeds: 1, Volts: 13.3, Block: .004}, 3325, "hand: 13.3/4 mΩ"},
		{"published", Fault{Series: 1, Feeds: 1, Volts: 12, Block: .005}, 2400, "an installer's article: 12 V over 5 mΩ gives 2400 A"},
		{"four in parallel, 0.5 mΩ of cable", Fault{Series: 1, Feeds: 4, Volts: 13.3, Block: .004, Shared: .0005},
			8866.667, "hand: 13.3/1.5 mΩ"},
		{"a charger adds", Fault{Series: 1, Feeds: 1, Volts: 12, Block: .005, Other: 50}, 2450, "hand"},
		{"lowest: 100 Ah at −20 °C, far end", Fault{Series: 1, Feeds: 1, Volts: 12.8, Block: .036, Shared: .004},
			320, "hand: 12.8/(3·12+4) mΩ"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, ok := tt.fault.Current()
			if !ok || !(math.Abs(float64(got)-tt.want) <= 1e-3) {
				t.Errorf("%.3f A %v, want %.3f A (%s)", float64(got), ok, tt.want, tt.from)
			}
		})
	}
}

func TestFaultRefusesWhatIsMissing(t *testing.T) {
	for _, f := range []Fault{
		{},
		{Feeds: 1, Volts: 14.6, Block: .002},
		{Series: 1, Volts: 14.6, Block: .002},
		{Series: 1, Feeds: 1, Block: .002},
		{Series: 1, Feeds: 1, Volts: 14.6},
		{Series: 1, Feeds: 1, Volts: 14.6, Block: .002, Shared: -1},
	} {
		if got, ok := f.Current(); ok {
			t.Errorf("%+v gave %v A", f, got)
		}
	}
}

func TestFeedsBranchIsNeverZero(t *testing.T) {
	for parallel, want := range map[int]int{1: 1, 2: 1, 4: 3} { // hand: max(1, Np − 1)
		if got := FeedsBranch(parallel); got != want {
			t.Errorf("%d strings: %d, want %d", parallel, got, want)
		}
	}
}
