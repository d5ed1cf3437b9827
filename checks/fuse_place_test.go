package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func TestFusePlace(t *testing.T) { // a rule of ±2 mm
	walk(t, bank.New(4, 1, bank.JoinStrings, bank.OneEnd), fusePlace, "site/kind = boat\n", []row{
		{"not measured", "", "bank", finding.ToDo, "missing"},
		{"on the post", "fuse.main/unfused-length = 0 cm", "bank", finding.Pass, "hand: 0 + 0.2 ≤ 18"},
		{"17.8 cm", "fuse.main/unfused-length = 17.8 cm", "bank", finding.Pass, "boundary: 17.8 + 0.2 = 18 cm, after ABYC E-11"},
		{"17.9 cm, bare", "fuse.main/unfused-length = 17.9 cm\nfuse.main/sheathed = no", "bank", finding.CantTell, "boundary: 17.7 to 18.1"},
		{"18.3 cm, bare", "fuse.main/unfused-length = 18.3 cm\nfuse.main/sheathed = no", "bank", finding.Fail, "boundary: 18.3 − 0.2 > 18"},
		{"30 cm, not said", "fuse.main/unfused-length = 30 cm", "bank", finding.ToDo, "missing: a sheath decides"},
		{"30 cm in a sheath", "fuse.main/unfused-length = 30 cm\nfuse.main/sheathed = yes", "bank", finding.Pass, "hand: 30.2 ≤ 102"},
		{"101.8 cm in a sheath", "fuse.main/unfused-length = 101.8 cm\nfuse.main/sheathed = yes", "bank", finding.Pass, "boundary: 102"},
		{"103 cm in a sheath, not said", "fuse.main/unfused-length = 103 cm\nfuse.main/sheathed = yes", "bank", finding.ToDo, "missing: the post decides"},
		{"103 cm in a sheath, from a bar", "fuse.main/unfused-length = 103 cm\nfuse.main/sheathed = yes\nfuse.main/at-post = no", "bank", finding.Fail, "hand: 102.8 > 102"},
		{"103 cm in a sheath, from the post", "fuse.main/unfused-length = 103 cm\nfuse.main/sheathed = yes\nfuse.main/at-post = yes", "bank", finding.Pass, "hand: 103.2 ≤ 183"},
		{"182.8 cm", "fuse.main/unfused-length = 182.8 cm\nfuse.main/sheathed = yes\nfuse.main/at-post = yes", "bank", finding.Pass, "boundary: 183"},
		{"184 cm", "fuse.main/unfused-length = 184 cm\nfuse.main/sheathed = yes\nfuse.main/at-post = yes", "bank", finding.Fail, "boundary: 183.8 > 183"},
	})
	walk(t, twoByTwo, fusePlace, "fuse.main/unfused-length = 10 cm\nfuse.A/unfused-length = 5 cm\n", []row{
		{"one string's missing", "", "bank", finding.ToDo, "the rule: one in every string"},
		{"one string's too far", "fuse.B/unfused-length = 50 cm\nfuse.B/sheathed = no", "bank", finding.Fail, "hand: 49.8 > 18"},
		{"all near", "fuse.B/unfused-length = 5 cm", "bank", finding.Pass, "hand: 10.2 ≤ 18, 5.2 ≤ 18"},
	})
}
