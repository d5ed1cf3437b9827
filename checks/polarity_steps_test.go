package checks

import (
	"slices"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

var fourInSeries = bank.New(4, 1, bank.JoinStrings, bank.OneEnd)

// Block 4 is the lowest: its plus post is the first to be read.
func TestPolaritySteps(t *testing.T) {
	walk(t, fourInSeries, polaritySteps, "", []row{
		{"four good blocks", "b4.p/step-voltage = 13.30 V\nb3.p/step-voltage = 26.60 V\nb2.p/step-voltage = 39.90 V\nb1.p/step-voltage = 53.20 V", "sA", finding.Pass, "hand: 13.3 each"},
		{"one in backwards", "b4.p/step-voltage = 13.30 V\nb3.p/step-voltage = 0.00 V\nb2.p/step-voltage = 13.30 V\nb1.p/step-voltage = 26.60 V", "sA", finding.Fail, "hand: 4S with one reversed reads 26.6 of 53.2; the second step is −13.3"},
		{"found before the climb is done", "b4.p/step-voltage = -13.30 V", "sA", finding.Fail, "hand: −13.3 + 0.10 ≤ −8"},
		{"one missing", "b4.p/step-voltage = 13.30 V\nb3.p/step-voltage = 26.60 V\nb1.p/step-voltage = 53.20 V", "sA", finding.ToDo, "boundary: missing is not zero"},
		{"nothing read", "", "sA", finding.ToDo, "boundary"},
		{"a small negative step", "b4.p/step-voltage = 13.30 V\nb3.p/step-voltage = 12.90 V\nb2.p/step-voltage = 26.20 V\nb1.p/step-voltage = 39.50 V", "sA", finding.CantTell, "hand: −0.4 V is a sleeping block or a lead off"},
		{"a sleeping block", "b4.p/step-voltage = 13.30 V\nb3.p/step-voltage = 20.80 V\nb2.p/step-voltage = 34.10 V\nb1.p/step-voltage = 47.40 V", "sA", finding.CantTell, "hand: 7.5 < 8"},
		{"just below minus 8", "m1/measures = V\nm1/percent = 0.1\nm1/counts = 1\nb4.p/step-voltage = -8.02 V, m1", "sA", finding.Fail, "hand: 8.02 × 0.1 % + 0.01 = 0.01802; −8.002 ≤ −8"},
		{"at minus 8", "m1/measures = V\nm1/percent = 0.1\nm1/counts = 1\nb4.p/step-voltage = -8.01 V, m1\nb3.p/step-voltage = 5.30 V, m1\nb2.p/step-voltage = 18.60 V, m1\nb1.p/step-voltage = 31.90 V, m1", "sA", finding.CantTell, "hand: −8.01 + 0.018 > −8"},
		{"more than a block", "b4.p/step-voltage = 14.90 V", "sA", finding.Fail, "hand: 14.9 − 0.1045 > 14.7"},
		{"near the upper end", "b4.p/step-voltage = 14.65 V\nb3.p/step-voltage = 29.30 V\nb2.p/step-voltage = 43.95 V\nb1.p/step-voltage = 58.60 V", "sA", finding.CantTell, "hand: 14.65 + 0.103 > 14.7"},
		{"ranges that change", "b4.p/step-voltage = 13.30 V\nb3.p/step-voltage = 26.6 V\nb2.p/step-voltage = 39.9 V\nb1.p/step-voltage = 53.2 V", "sA", finding.Pass, "hand: two ranges are two meters: ±0.44 V at the second step, well inside"},
	})
}

func TestPolarityNamesTheBlock(t *testing.T) {
	rows := []struct {
		l     bank.Layout
		lines string
		part  string
		want  string
		from  string
	}{
		{fourInSeries, "b4.p/step-voltage = 13.30 V\nb3.p/step-voltage = 0.00 V\nb2.p/step-voltage = 13.30 V\nb1.p/step-voltage = 26.60 V", "sA", "b3", "hand: 26.6 of 53.2"},
		{bank.New(3, 1, bank.JoinStrings, bank.OneEnd), "b3.p/step-voltage = 13.30 V\nb2.p/step-voltage = 26.60 V\nb1.p/step-voltage = 13.30 V", "sA", "b1", "hand: 13.3 of 39.9"},
		{bank.New(2, 1, bank.JoinStrings, bank.OneEnd), "b2.p/step-voltage = -13.30 V\nb1.p/step-voltage = 0.00 V", "sA", "b2", "hand: 0.0 of 26.6"},
		{bank.New(2, 2, bank.JoinGroups, bank.Diagonal), "gB.p/step-voltage = 13.30 V\ngA.p/step-voltage = 0.00 V", "bank", "gA", "hand: the upper group falls by 13.3"},
	}
	for _, r := range rows {
		x := judged(t, fixture(t, r.l, r.lines), polaritySteps, r.part)[0]
		if x.Verdict() != finding.Fail || !slices.Equal(x.Parts(), []string{r.want}) {
			t.Errorf("%s: got %v about %v, want %s (%s)", r.l.Title(), x.Verdict(), x.Parts(), r.want, r.from)
		}
	}
}
