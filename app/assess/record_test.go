//go:build !js

package assess

import (
	"crypto/ed25519"
	"crypto/x509"
	"fmt"
	"strings"
	"testing"
	"time"

	"lugmark/checks/plain"
	"lugmark/core/job"
	"lugmark/core/record"
)

// recorded keeps a plain file as a signed record, as the phone does.
func recorded(t *testing.T, raw string) []byte {
	t.Helper()
	return recordedAs(t, job.KindBank, raw)
}

func recordedAs(t *testing.T, kind, raw string) []byte {
	t.Helper()
	file, faults := plain.Parse([]byte(raw))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	key := ed25519.NewKeyFromSeed(make([]byte, ed25519.SeedSize))
	der, err := x509.MarshalPKIXPublicKey(key.Public())
	if err != nil {
		t.Fatal(err)
	}
	state := job.New("019ab3c0-1d00-7000-8000-000000000001")
	w := job.NewWriter(job.Author{By: "p1", Key: der, App: "test"}, [16]byte{1}, state)
	n := 0
	stamp := func() job.Stamp {
		n++
		return job.Stamp{Now: file.Now, ID: fmt.Sprintf("019ab3c0-1d00-7000-8000-%012x", n)}
	}
	var c record.Contents
	keep := func(s job.Stamped) {
		signed := s.Signed(ed25519.Sign(key, s.Hash[:]))
		c.Events = append(c.Events, signed)
		if err := state.ApplySigned(signed); err != nil {
			t.Fatal(err)
		}
	}
	start, err := w.Start(stamp(), kind)
	if err != nil {
		t.Fatal(err)
	}
	keep(start)
	for _, batch := range file.Batches(0) {
		stamped, blobs, err := plain.Stamps(batch, w, state, stamp, func() [job.Salt]byte { return [job.Salt]byte{byte(n)} })
		if err != nil {
			t.Fatal(err)
		}
		c.Blobs = append(c.Blobs, blobs...)
		for _, s := range stamped {
			keep(s)
		}
	}
	out, err := record.Write(c)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestARecordJudgesLikeThePlainFile(t *testing.T) {
	want, _, _ := judge(t, small, Options{})
	got, complaints, ok := judge(t, string(recorded(t, small)), Options{})
	if !ok || complaints != "" {
		t.Fatalf("%v %s", ok, complaints)
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestARegisterIsNoJob(t *testing.T) {
	lines, complaints, ok := judge(t, string(recordedAs(t, job.KindRegister, small)), Options{})
	if ok || strings.Join(lines, "") != "" || !strings.Contains(complaints, "This is a register") {
		t.Errorf("%v, %d lines, %s", ok, len(lines), complaints)
	}
}

func TestAForgedReadingDoesNotCount(t *testing.T) {
	raw := string(recorded(t, small))
	forged := strings.Replace(raw, `"n":"13.284"`, `"n":"13.285"`, 1)
	if forged == raw {
		t.Fatal("nothing was changed")
	}
	lines, complaints, ok := judge(t, forged, Options{Now: time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)})
	if !ok || !strings.Contains(complaints, "job.json:") {
		t.Errorf("%v %q", ok, complaints)
	}
	if l := find(lines, "voltage-match", "sA"); !strings.Contains(l, `"verdict":"to-do"`) {
		t.Errorf("got %s", l)
	}
	if _, complaints, ok := judge(t, "lugmark-record 1\n", Options{}); ok || complaints == "" {
		t.Errorf("an empty record: %v %q", ok, complaints)
	}
}
