package screen

import (
	"testing"
	"time"

	"lugmark/checks/sample"
	"lugmark/core/job"
)

// Hours after the technician signed nothing has changed but the clock, and the
// signature still holds; a reading that is changed ends it.
func TestASignatureOutlastsTheClockAndNoChange(t *testing.T) {
	j := shown(t, sample.List()[0]).job
	w := job.NewWriter(job.Author{By: "p1", Key: make([]byte, 44), App: "test"}, [16]byte{1}, j.state)
	moment := j.facts.Now().Add(time.Minute)
	stamp := func(at time.Time, id string) job.Stamp { return job.Stamp{Now: at, ID: id} }
	_, ink := job.Personal("Ida Marn", [job.Salt]byte{})
	e, err := w.Sign(stamp(moment, "019ab000-0000-7000-8000-000000000001"), job.Sign{
		Who: "p1", Role: "technician", How: job.Typed, Digest: j.sheetAt(moment).digest, Ink: ink,
	})
	if err != nil {
		t.Fatal(err)
	}
	if err := j.state.Apply(e.Event); err != nil {
		t.Fatal(err)
	}
	j.judgeAt(moment.Add(30 * time.Hour))
	if _, current, ok := j.signed("technician"); !ok || !current {
		t.Fatalf("after 30 h: signed %v, current %v; want both (nothing but the clock moved)", ok, current)
	}
	set, err := w.Set(stamp(moment.Add(time.Hour), "019ab000-0000-7000-8000-000000000002"), j.key("b1", "rest-voltage"), job.Value{Kind: job.KindQuantity, Number: "12.10", Unit: "V", Source: "typed"}, j.state.Seen(j.key("b1", "rest-voltage")))
	if err != nil {
		t.Fatal(err)
	}
	if err := j.state.Apply(set.Event); err != nil {
		t.Fatal(err)
	}
	j.judgeAt(moment.Add(30 * time.Hour))
	if _, current, _ := j.signed("technician"); current {
		t.Error("a changed reading left the signature standing")
	}
}

// A finished good job has nothing that is closed while its hold point is shut.
func TestTheGoodJobHasNoBreach(t *testing.T) {
	for _, h := range shown(t, sample.List()[0]).job.breaches() {
		t.Errorf("%s %s is said to be closed while shut: %v", h.Gate, h.Part, h.Shut())
	}
}
