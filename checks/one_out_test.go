package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

func TestOneOut(t *testing.T) {
	const sheets = "b1/sheet = sheet1\nb2/sheet = sheet1\nsheet1/capacity = 100 Ah\nbank/design-current = 100 A\n"
	pair := bank.New(1, 2, bank.JoinGroups, bank.OneEnd)
	walk(t, pair, oneOut, sheets, []row{ // with one of two lost the other carries all of it
		{"bears all", "sheet1/discharge-max = 100 A", "bank", finding.Pass, "boundary: 100 A into the one that is left"},
		{"bears less", "sheet1/discharge-max = 99 A", "bank", finding.Fail, "boundary: 100 > 99"},
		{"no sheet", "", "bank", finding.CantTell, "boundary: no limit is stated"},
		{"peak long enough", "sheet1/discharge-max = 60 A\nsheet1/discharge-peak = 120 A\nsheet1/peak-time = 10 s\nbank/shed-time = 10 s", "bank", finding.Pass, "boundary: 100 ≤ 120 A for 10 s"},
		{"peak too short", "sheet1/discharge-max = 60 A\nsheet1/discharge-peak = 120 A\nsheet1/peak-time = 9 s\nbank/shed-time = 10 s", "bank", finding.Fail, "boundary: 9 s < 10 s, so 100 > 60"},
		{"shedding not known", "sheet1/discharge-max = 60 A\nsheet1/discharge-peak = 120 A\nsheet1/peak-time = 9 s", "bank", finding.Fail, "missing is not shed"},
	})
	walk(t, bank.New(4, 1, bank.JoinStrings, bank.OneEnd), oneOut, "", []row{
		{"one string", "", "bank", finding.NotNeeded, "hand"},
	})
	// Four measured blocks of 5 mΩ with links of 0.25 mΩ on one end, 200 A: with
	// block 1 open (its links stay) the others carry 0, 76.8, 64.5 and 58.7 A.
	// A tenth of resistance moves a current by less than a fifth of itself.
	const four = "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/capacity = 100 Ah\nbank/design-current = 200 A\n" +
		"b1/resistance = 5 mOhm\nb2/resistance = 5 mOhm\nb3/resistance = 5 mOhm\nb4/resistance = 5 mOhm\n" +
		"b1.p~b2.p/lug-to-lug = 0.25 mOhm\nb2.p~b3.p/lug-to-lug = 0.25 mOhm\nb3.p~b4.p/lug-to-lug = 0.25 mOhm\n" +
		"b1.n~b2.n/lug-to-lug = 0.25 mOhm\nb2.n~b3.n/lug-to-lug = 0.25 mOhm\nb3.n~b4.n/lug-to-lug = 0.25 mOhm\n"
	walk(t, bank.New(1, 4, bank.JoinGroups, bank.OneEnd), oneOut, four, []row{
		{"bears far more", "sheet1/discharge-max = 100 A", "bank", finding.Pass, "hand: the most of any three is near 77 A, a fifth more is 92"},
		{"bears less", "sheet1/discharge-max = 60 A", "bank", finding.Fail, "published: 76.8 A when block 1 is lost, a fifth less is 61.5"},
	})
	f := fixture(t, bank.New(1, 4, bank.JoinGroups, bank.OneEnd), four)
	n, gap := f.network("bank")
	if gap != nil {
		t.Fatal("no network")
	}
	flow, err := n.ladder.Without(0).Divide(200)
	want := []float64{0, 76.833, 64.516, 58.651} // published vector
	for k, w := range want {
		if d := float64(flow.Branch[k]) - w; err != nil || d > 1e-3 || d < -1e-3 {
			t.Errorf("block %d carries %v, want %v A", k+1, flow.Branch[k], w)
		}
	}
}
