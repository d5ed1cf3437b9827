//go:build !js

package verify

import (
	"bytes"
	"crypto/ed25519"
	"fmt"
	"testing"

	"lugmark/checks"
	"lugmark/checks/plain"
	"lugmark/checks/sample"
	"lugmark/core/job"
	"lugmark/core/record"
	"lugmark/core/seal"
)

// exported is a sample job as a phone keeps, signs, seals and exports it.
func exported(t *testing.T, s sample.Sample) ([]byte, seal.Print) {
	t.Helper()
	file, faults := plain.Parse(s.Raw)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	key := ed25519.NewKeyFromSeed(bytes.Repeat([]byte{5}, ed25519.SeedSize))
	state := job.New("019ab3c0-1d00-7000-8000-000000000001")
	author := job.Author{By: "p1", Key: seal.EncodeKey(key.Public().(ed25519.PublicKey)), Soft: true, App: "lugmark test"}
	w := job.NewWriter(author, [16]byte{1}, state)
	n := 0
	stamp := func() job.Stamp {
		n++
		return job.Stamp{Now: file.Now, ID: fmt.Sprintf("019ab3c0-1d00-7000-8000-%012x", n)}
	}
	salt := func() [job.Salt]byte { return [job.Salt]byte{byte(n), byte(n >> 8)} }
	var c record.Contents
	keep := func(stamped []job.Stamped, blobs []job.Blob, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		c.Blobs = append(c.Blobs, blobs...)
		for _, st := range stamped {
			signed := st.Signed(seal.Sign(key, st.Hash))
			c.Events = append(c.Events, signed)
			if err := state.ApplySigned(signed); err != nil {
				t.Fatal(err)
			}
		}
	}
	start, err := w.Start(stamp(), job.KindBank)
	keep([]job.Stamped{start}, nil, err)
	for _, batch := range file.Batches(0) {
		keep(plain.Stamps(batch, w, state, stamp, salt))
	}
	w = job.NewWriter(author, [16]byte{2}, state) // the app was started again before the handover
	results := checks.Results(checks.Run(checks.NewFacts(state, file.Visit, file.Now)))
	for _, who := range [][3]string{{"p1", checks.RoleTechnician, "Ines Varga"}, {"p3", checks.RoleOwner, "Olu Brandt"}} {
		ink, ref := job.Personal(who[2], salt())
		st, err := w.Sign(stamp(), job.Sign{Who: who[0], Role: who[1], How: job.Typed, Ink: ref, Digest: seal.Digest(results)})
		keep([]job.Stamped{st}, []job.Blob{ink}, err)
	}
	blob, ref := job.NewBlob("text/plain", results)
	st, err := w.Seal(stamp(), seal.Digest(results), ref, checks.Rules)
	keep([]job.Stamped{st}, []job.Blob{blob}, err)
	out, err := record.Write(c)
	if err != nil {
		t.Fatal(err)
	}
	return out, seal.Fingerprint(st.Hash)
}
