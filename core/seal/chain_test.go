package seal

import (
	"bytes"
	"crypto/ed25519"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"lugmark/core/job"
)

const testJob = "019ab3c0-1d00-7000-8000-000000000001"

// A record of two devices, the second of which saw the first.
func twoStreams(t testing.TB) []job.Signed {
	t.Helper()
	s := job.New(testJob)
	var out []job.Signed
	n := 0
	for stream, secret := range []string{rfc8032[0].secret, rfc8032[1].secret} {
		key := ed25519.NewKeyFromSeed(unhex(t, secret))
		author := job.Author{By: "p1", Key: EncodeKey(key.Public().(ed25519.PublicKey)), App: "lugmark test"}
		w := job.NewWriter(author, [16]byte{byte(stream)}, s)
		for range 3 {
			n++
			at := job.Stamp{Now: time.Date(2026, 11, 25, 8, n, 0, 0, time.UTC), ID: fmt.Sprintf("019ab3c0-1d00-7000-8000-%012x", n)}
			k := job.Key{Visit: "v1", Part: "b3", Field: "rest-voltage"}
			stamped, err := w.SetQuantity(at, k, fmt.Sprintf("13.2%d", n), "V", "m1", s.Seen(k))
			if err != nil {
				t.Fatal(err)
			}
			signed := stamped.Signed(Sign(key, stamped.Hash))
			if err := s.ApplySigned(signed); err != nil {
				t.Fatal(err)
			}
			out = append(out, signed)
		}
	}
	return out
}

func TestAWholeRecordHasNoFaults(t *testing.T) {
	events := twoStreams(t)
	if f := VerifyChain(testJob, events); len(f) != 0 {
		t.Errorf("%v", f)
	}
	slices.Reverse(events)
	if f := VerifyChain(testJob, append(events, events[2])); len(f) != 0 {
		t.Errorf("in another order and one twice: %v", f)
	}
	if f := VerifyChain(testJob, nil); len(f) != 0 {
		t.Errorf("nothing at all: %v", f)
	}
}

// resign puts a changed event in place of event i, signed with a good key.
func resign(t *testing.T, events []job.Signed, i int, secret, from, to string) {
	t.Helper()
	raw := bytes.Replace(events[i].Raw, []byte(from), []byte(to), 1)
	if bytes.Equal(raw, events[i].Raw) {
		t.Fatalf("event %d holds no %s", i, from)
	}
	events[i].Raw, events[i].Sig = raw, Sign(ed25519.NewKeyFromSeed(unhex(t, secret)), Hash(raw))
}

func TestEachKindOfTamperingIsNamed(t *testing.T) {
	rows := []struct {
		name   string
		tamper func(e []job.Signed) []job.Signed
		line   int
		want   Trouble
		says   string
	}{
		{"a digit changed", func(e []job.Signed) []job.Signed {
			e[1].Raw = bytes.Replace(e[1].Raw, []byte("13.22"), []byte("13.99"), 1)
			return e
		}, 2, Forged, "event 2 of stream"},
		{"a signature of another event", func(e []job.Signed) []job.Signed {
			e[1].Sig = e[0].Sig
			return e
		}, 2, Forged, "does not match"},
		{"signed with the other device's key", func(e []job.Signed) []job.Signed {
			resign(t, e, 2, rfc8032[1].secret, "13.23", "13.99")
			return e
		}, 3, Forged, "does not match"},
		{"rewritten by its own device", func(e []job.Signed) []job.Signed {
			resign(t, e, 1, rfc8032[0].secret, "13.22", "13.99")
			return e
		}, 3, Broken, "does not follow event 2"},
		{"the end rewritten after others saw it", func(e []job.Signed) []job.Signed {
			resign(t, e, 2, rfc8032[0].secret, "13.23", "13.99")
			return e
		}, 4, Unseen, "but here it reads otherwise"},
		{"the key changed", func(e []job.Signed) []job.Signed {
			e[0].Raw = bytes.Replace(e[0].Raw, []byte(`"dev":"MCowBQYDK2VwAyEA1`), []byte(`"dev":"MCowBQYDK2VwAyEA2`), 1)
			return e
		}, 1, Keyless, "not as it was signed"},
		{"one taken out", func(e []job.Signed) []job.Signed { return slices.Delete(e, 1, 2) }, 2, Gap, "events 2 to 2 are missing"},
		{"the first taken out", func(e []job.Signed) []job.Signed { return e[1:] }, 1, Keyless, "its first event is missing"},
		{"the end cut off after others saw it", func(e []job.Signed) []job.Signed { return slices.Delete(e, 2, 3) }, 3, Unseen, "which is not here"},
		{"two with one seq", func(e []job.Signed) []job.Signed {
			twin := slices.Clone(e)
			resign(t, twin, 2, rfc8032[0].secret, `00000000003"`, `00000000abc"`)
			return append(e, twin[2])
		}, 7, Twin, "there twice"},
		{"two with one id", func(e []job.Signed) []job.Signed {
			resign(t, e, 5, rfc8032[1].secret, `"id":"019ab3c0-1d00-7000-8000-000000000006"`, `"id":"019ab3c0-1d00-7000-8000-000000000001"`)
			return e
		}, 6, Twin, "also that of event 1"},
		{"of another job", func(e []job.Signed) []job.Signed {
			const other = "019ab3c0-1d00-7000-8000-000000000002"
			resign(t, e, 5, rfc8032[1].secret, testJob, other)
			e[5].Job = other
			return e
		}, 6, Foreign, "belongs to job"},
		{"filed under another name", func(e []job.Signed) []job.Signed {
			e[5].Seq = 7
			return e
		}, 6, Unreadable, "filed as"},
		{"not an event", func(e []job.Signed) []job.Signed {
			e[5].Raw = []byte("{}")
			return e
		}, 6, Unreadable, "missing"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			faults := VerifyChain(testJob, r.tamper(twoStreams(t)))
			for _, f := range faults {
				if f.Line == r.line && f.Trouble == r.want && strings.Contains(f.String(), r.says) {
					return
				}
			}
			t.Errorf("faults %v; want line %d, %d, %q", faults, r.line, r.want, r.says)
		})
	}
}

func TestADamagedFirstEventDoesNotMakeForgeriesOfTheOthers(t *testing.T) {
	events := twoStreams(t)
	events[0].Raw = bytes.Replace(events[0].Raw, []byte(`"dev":"MCowBQYDK2VwAyEA1`), []byte(`"dev":"MCowBQYDK2VwAyEA2`), 1)
	for _, f := range VerifyChain(testJob, events) {
		if f.Trouble == Forged && f.Line != 1 {
			t.Errorf("%v", f)
		}
	}
}

func TestASealTellsThatTheEndOfAStreamIsMissing(t *testing.T) {
	s := job.New(testJob)
	var events []job.Signed
	writers, keys := []*job.Writer{}, []ed25519.PrivateKey{}
	for i := range 2 {
		key := ed25519.NewKeyFromSeed(unhex(t, rfc8032[i].secret))
		author := job.Author{By: "p1", Key: EncodeKey(key.Public().(ed25519.PublicKey)), App: "lugmark test"}
		writers, keys = append(writers, job.NewWriter(author, [16]byte{byte(i)}, s)), append(keys, key)
	}
	digest := strings.Repeat("ab", 32)
	results := job.Ref{Sum: digest, Len: 9, Type: "application/json"}
	k := job.Key{Visit: "v1", Part: "b3", Field: "model"}
	write := func(i int, body job.Body, field job.Key) {
		t.Helper()
		id := fmt.Sprintf("019ab3c0-1d00-7000-8000-%012x", len(events))
		stamped, err := writers[i].Stamp(time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC), id, field, body, nil)
		if err != nil {
			t.Fatal(err)
		}
		events = append(events, stamped.Signed(Sign(keys[i], stamped.Hash)))
		if err := s.ApplySigned(events[len(events)-1]); err != nil {
			t.Fatal(err)
		}
	}
	text := job.Set{Value: job.Value{Kind: job.KindText, Text: "Invented 100"}}
	write(0, text, k)
	write(1, text, k)
	write(0, text, k) // nobody's first event has seen this one
	write(1, job.Seal{Rev: 1, Frontier: s.Frontier(), Digest: digest, Results: results, Rules: "2026-11"}, job.Key{})
	if f := VerifyChain(testJob, events); len(f) != 0 {
		t.Fatalf("whole: %v", f)
	}
	f := VerifyChain(testJob, slices.Delete(events, 2, 3))
	if len(f) != 1 || f[0].Trouble != Unseen || f[0].Line != 3 {
		t.Errorf("cut: %v", f)
	}
}

// Whatever bit is turned in whatever event, somebody notices.
func TestAnyFlippedBitOfARecordIsFound(t *testing.T) {
	events := twoStreams(t)
	for i := range events {
		for at := range events[i].Raw {
			bad := slices.Clone(events)
			bad[i].Raw = bytes.Clone(events[i].Raw)
			bad[i].Raw[at] ^= 1 << (at % 8)
			if len(VerifyChain(testJob, bad)) == 0 {
				t.Fatalf("event %d, byte %d", i+1, at)
			}
		}
	}
}
