package checks

import (
	"testing"

	"lugmark/core/finding"
)

func TestSerialOnce(t *testing.T) {
	walk(t, twoByTwo, serialOnce, "b1/serial = IV-1\nb2/serial = IV-2\nb3/serial = IV-3\n", []row{
		{"all different", "b4/serial = IV-4", "bank", finding.Pass, "hand: four numbers"},
		{"one missing", "", "bank", finding.ToDo, "missing is not different"},
		{"twice", "b4/serial = IV-2", "bank", finding.Fail, "hand: block 2 has it"},
		{"twice, other case and blanks", "b4/serial = iv-2 ", "bank", finding.Fail, "hand: the same label"},
	})
	walk(t, twoByTwo, serialOnce, "b3/serial = IV-1\nb4/serial = IV-1", []row{
		{"twice, others missing", "", "bank", finding.Fail, "hand: what is entered is wrong already"},
	})
}
