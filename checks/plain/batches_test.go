package plain

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"lugmark/core/job"
)

// imported keeps a file in a new job as the app does: a batch is stamped,
// saved, applied.
func imported(t *testing.T, f *File, shift time.Duration) (*job.State, job.Blobs, int) {
	t.Helper()
	state, blobs := job.New("019ab3c0-1d00-7000-8000-000000000001"), job.Blobs{}
	w := job.NewWriter(job.Author{By: "p1", Key: []byte{1}, App: "test"}, [16]byte{1}, state)
	n := 0
	stamp := func() job.Stamp {
		n++
		return job.Stamp{Now: f.Now.Add(shift), ID: fmt.Sprintf("019ab3c0-1d00-7000-8000-%012x", n)}
	}
	salt := func() [job.Salt]byte { return [job.Salt]byte{byte(n)} }
	batches := f.Batches(shift)
	for _, batch := range batches {
		stamped, texts, err := Stamps(batch, w, state, stamp, salt)
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range texts {
			blobs[b.Sum] = b.Data
		}
		for _, s := range stamped {
			if err := state.ApplySigned(s.Signed(make([]byte, 64))); err != nil {
				t.Fatal(err)
			}
		}
	}
	return state, blobs, len(batches)
}

func TestAnImportJudgesLikeTheFile(t *testing.T) {
	for name, text := range map[string]string{
		"a job":  jetty,
		"rivals": with("", `"b1/rest-voltage": ["13.20 V", "13.21 V", "13.22 V"]`),
		"earlier": with("", `"bank/last-current": "2026-11-24T20:00:00+01:00", "b1.p~b3.p/closed#1": "yes", "b1.p~b3.p/closed#2": "no",
"b1.p~b3.p/closed": "yes"`),
	} {
		f, state, _ := read(t, text)
		kept, blobs, _ := imported(t, f, 0)
		if a, b := verdicts(state, "v1", f.Now), verdicts(kept, "v1", f.Now); a != b {
			t.Errorf("%s: file:\n%s\nimported:\n%s", name, a, b)
		}
		if e, standing := kept.Get(job.Key{Visit: "v1", Part: "site", Field: "name"}); name == "a job" {
			if text, ok := job.Text(blobs, e.Value.X); standing != job.One || !ok || text != "Invented jetty" {
				t.Errorf("title %q", text)
			}
		}
	}
}

func TestAShiftMovesEveryTime(t *testing.T) {
	f, state, _ := read(t, jetty)
	shift := 40*24*time.Hour + 90*time.Minute
	kept, _, _ := imported(t, f, shift)
	// The dates in sentences move too, so only what stands before them is compared.
	if a, b := verdicts(state, "v1", f.Now), verdicts(kept, "v1", f.Now.Add(shift)); strings.Count(a, "pass") != strings.Count(b, "pass") || strings.Count(a, "\n") != strings.Count(b, "\n") {
		t.Errorf("before:\n%s\nafter:\n%s", a, b)
	}
	for key, want := range map[string]string{
		"m1/due":            "2027-04-10",                // hand: 2027-03-01 + 40 days
		"bank/last-current": "2027-01-03T21:30:00+01:00", // hand: 24 Nov 20:00 + 40 days + 1 h 30
	} {
		part, field, _ := strings.Cut(key, "/")
		if e, _ := kept.Get(job.Key{Visit: "v1", Part: part, Field: field}); e.Value.Time != want {
			t.Errorf("%s: %s, want %s", key, e.Value.Time, want)
		}
	}
	e, _ := kept.Get(job.Key{Visit: "v1", Part: "b3", Field: "rest-voltage"})
	if e.Value.When != "2027-01-04T13:22:00+01:00" { // hand: 25 Nov 11:52 + 40 days + 1 h 30
		t.Errorf("when %s", e.Value.When)
	}
}

func TestBatchesAreSmall(t *testing.T) {
	var b strings.Builder
	for i := 1; i <= 250; i++ {
		fmt.Fprintf(&b, `"b%d/temperature": "18 C",`, i)
	}
	text := strings.Replace(with("", b.String()+`"b251/temperature": "18 C"`), `"series": 2, "parallel": 2`, `"series": 16, "parallel": 16`, 1)
	f, _, _ := read(t, text)
	_, _, n := imported(t, f, 0)
	if n != 3 { // hand: 251 readings and the layout in hundreds
		t.Errorf("%d batches", n)
	}
}
