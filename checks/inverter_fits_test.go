package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func TestInverterFits(t *testing.T) {
	const window = "inverter1/dc-min = 40 V\ninverter1/dc-max = 60 V\n"
	walk(t, bank.New(4, 1, bank.JoinStrings, bank.OneEnd), inverterFits, "", []row{ // highest 58.4 V
		{"no inverter", "", "bank", finding.NotNeeded, "hand: nothing to fit"},
		{"fits", window + "inverter1/cut-off = 46 V", "inverter1", finding.Pass, "hand: 40 ≤ 46, 60 ≥ 58.4"},
		{"window missing", "inverter1/cut-off = 46 V", "inverter1", finding.ToDo, "missing"},
		{"cut-off missing", window, "inverter1", finding.ToDo, "missing"},
		{"cut-off of the blocks", window + "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/discharge-cut-off = 10.0 V", "inverter1", finding.Pass, "boundary: 4·10.0 = 40 V"},
		{"at the head", "inverter1/dc-min = 40 V\ninverter1/dc-max = 58.4 V\ninverter1/cut-off = 46 V", "inverter1", finding.Pass, "boundary: 58.4"},
		{"too low a head", "inverter1/dc-min = 40 V\ninverter1/dc-max = 58.3 V\ninverter1/cut-off = 46 V", "inverter1", finding.Fail, "boundary: 58.3 < 58.4"},
		{"at the foot", "inverter1/dc-min = 46.0 V\ninverter1/dc-max = 60 V\ninverter1/cut-off = 46 V", "inverter1", finding.Pass, "boundary: 46.0"},
		{"a cut-off below the protection", window + "inverter1/cut-off = 10.5 V", "inverter1", finding.Fail, "hand: 40 > 10.5"},
		{"too high a foot", "inverter1/dc-min = 46.1 V\ninverter1/dc-max = 60 V\ninverter1/cut-off = 46 V", "inverter1", finding.Fail, "boundary: 46.1 > 46"},
	})
}
