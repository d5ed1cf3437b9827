package checks

import (
	"bytes"
	"strings"
	"testing"

	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

func TestSignatures(t *testing.T) {
	sign := func(role, digest string) job.Item[job.Sign] {
		return job.Item[job.Sign]{Body: job.Sign{Role: role, Digest: digest}}
	}
	rows := []struct {
		name  string
		signs []job.Item[job.Sign]
		want  finding.Verdict
		says  string
		from  string
	}{
		{"nobody", nil, finding.ToDo, "sign: technician, owner", "missing"},
		{"one", []job.Item[job.Sign]{sign("technician", "d")}, finding.ToDo, "sign: owner", "both parties"},
		{"the other", []job.Item[job.Sign]{sign("owner", "d")}, finding.ToDo, "sign: technician", "both parties"},
		{"both", []job.Item[job.Sign]{sign("technician", "d"), sign("owner", "d")}, finding.Pass, "technician and the owner", "both parties"},
		{"one twice", []job.Item[job.Sign]{sign("owner", "d"), sign("owner", "d")}, finding.ToDo, "sign: technician", "boundary: one party is not two"},
		{"a witness", []job.Item[job.Sign]{sign("technician", "d"), sign("witness", "d")}, finding.ToDo, "sign: owner", "another role is neither party"},
		{"changed since", []job.Item[job.Sign]{sign("technician", "c"), sign("owner", "d")}, finding.ToDo, "sign again: technician", "a signature is about what was on the screen"},
		{"signed again", []job.Item[job.Sign]{sign("technician", "c"), sign("owner", "d"), sign("technician", "d")}, finding.Pass, "", "the last one of a role counts"},
		{"signed something else later", []job.Item[job.Sign]{sign("technician", "d"), sign("owner", "d"), sign("owner", "e")}, finding.ToDo, "sign again: owner", "the last one of a role counts"},
	}
	for _, r := range rows {
		x := Signatures(r.signs, "d")
		said := say.Voice{}.Say(x.Reason()) + say.Voice{}.Say(x.Next())
		if x.Verdict() != r.want || !strings.Contains(said, r.says) {
			t.Errorf("%s: %v, %q, want %v with %q (%s)", r.name, x.Verdict(), said, r.want, r.says, r.from)
		}
	}
}

// A signature changes nothing of what is signed.
func TestSignaturesAreNotAmongWhatIsSigned(t *testing.T) {
	f := fixture(t, twoByTwo, goodJob()...)
	before := Results(Run(f))
	if bytes.Contains(before, []byte(`"check":"signatures"`)) || known("signatures") != nil {
		t.Error("signatures are judged among what is signed")
	}
	w := job.NewWriter(job.Author{By: "p1", Key: make([]byte, 44), App: "test"}, [16]byte{1}, f.state)
	_, ink := job.Personal("Ines Varga", [job.Salt]byte{})
	e, err := w.Sign(job.Stamp{Now: f.now, ID: "019ab000-0000-7000-8000-0000000fffff"},
		job.Sign{Who: "p1", Role: RoleTechnician, How: job.Typed, Digest: strings.Repeat("0", 64), Ink: ink})
	if err == nil {
		err = f.state.Apply(e.Event)
	}
	if err != nil {
		t.Fatal(err)
	}
	if len(f.state.Signs()) != 1 || !bytes.Equal(before, Results(Run(f))) {
		t.Error("a signature changed the results that it is about")
	}
}
