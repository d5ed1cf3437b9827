package checks

import (
	"fmt"
	"strings"
	"testing"

	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// photograph puts a photo into the record, and takes it out of view again when gone.
func photograph(t *testing.T, f *Facts, n int, part, field string, gone bool) {
	t.Helper()
	_, photo := job.NewPhoto(part, field, "image/jpeg", fmt.Append(nil, "photo ", n))
	id := fmt.Sprintf("019ab000-0000-7000-8000-%012x", 1000+n)
	add := func(i int, kind, id string, body job.Body, sup ...string) {
		raw, err := job.Encode(job.Event{V: 1, ID: id, Job: fixtureJob, Stream: "bbbbbbbbbbbbbbbb", Seq: 2*n + i, Prev: strings.Repeat("0", 64), Lam: 1000 + n, Sup: sup,
			At: fixtureNow.Format("2006-01-02T15:04:05.000-07:00"), By: "p1", Type: kind, Body: body})
		if err != nil {
			t.Fatal(err)
		}
		e, err := job.Decode(raw)
		if err == nil {
			err = f.state.Apply(e)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	add(2, "photo/1", id, photo)
	if gone {
		add(3, "void/1", fmt.Sprintf("019ab000-0000-7000-8000-%012x", 2000+n), job.Void{Why: "undo"}, id)
	}
}

// The sentence says how many photos stand in the record; the verdict stays what
// the person said. From: hand, counted.
func TestPhotosAreCounted(t *testing.T) {
	const whole = "b1/condition = whole\nb2/condition = whole\nb3/condition = whole\nb4/condition = whole\n"
	const stack = "bank/lug-stacks = yes\nbank/lug-thread = yes\nbank/lugs-most = 2\n"
	for _, row := range []struct {
		name    string
		check   *Check
		lines   string
		photos  []string // part/field, with "-" in front when it was taken out of view
		verdict finding.Verdict
		says    string
	}{
		{"none", arrivedWhole, whole + "bank/arrival-photo = yes", nil, finding.Pass, "not attached here"},
		{"two", arrivedWhole, whole + "bank/arrival-photo = yes", []string{"bank/arrival-photo", "b2/condition", "b1/", "bank/lug-photo"}, finding.Pass, "in this record: 2."},
		{"one taken back", arrivedWhole, whole + "bank/arrival-photo = yes", []string{"-bank/arrival-photo"}, finding.Pass, "not attached here"},
		{"shown, but said to be missing", arrivedWhole, whole + "bank/arrival-photo = no", []string{"bank/arrival-photo"}, finding.CantTell, "no photo was taken"},
		{"shown, not answered", arrivedWhole, whole, []string{"bank/arrival-photo"}, finding.ToDo, ""},
		{"posts, none", lugStack, stack + "bank/lug-photo = yes", []string{"bank/arrival-photo"}, finding.Pass, "not attached here"},
		{"posts", lugStack, stack + "bank/lug-photo = yes", []string{"bank/lug-photo"}, finding.Pass, "in this record: 1."},
	} {
		f := fixture(t, twoByTwo, row.lines)
		for i, p := range row.photos {
			p, gone := strings.CutPrefix(p, "-")
			part, field, _ := strings.Cut(p, "/")
			photograph(t, f, i, part, field, gone)
		}
		x := judged(t, f, row.check, "bank")[0]
		if says := say.Screen.Say(x.Reason()); x.Verdict() != row.verdict || !strings.Contains(says, row.says) {
			t.Errorf("%s: %v, %q; want %v with %q", row.name, x.Verdict(), says, row.verdict, row.says)
		}
	}
}
