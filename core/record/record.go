// Package record writes and reads the record file: the signed events of a job
// and its blobs as lines of text, which a phone can share and a person can
// check without this program.
//
//	lugmark-record 1
//	e <base64 of the signature> <the event's exact bytes>
//	b <SHA-256 in hex> <base64 of the blob>
//
// To check line N of file F by hand:
//
//	sed -n Np F | cut -d' ' -f3- | tr -d '\n' | (printf '1\n'; cat) | openssl dgst -sha256 -binary > hash
//	sed -n Np F | cut -d' ' -f2 | base64 -d > sig
//	openssl pkeyutl -verify -pubin -inkey dev.pem -rawin -in hash -sigfile sig
//
// where dev.pem is the "dev" of the stream's first event between the two lines
// of a PEM.
//
// It is the truth and the backup. It is not the job file that people write by
// hand, which begins with a brace.
package record

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"slices"
	"sort"
	"strings"

	"lugmark/core/job"
)

// Header is the first line of a record file, without its line feed.
const Header = "lugmark-record 1"

// Contents is what a record file holds. Lines are the lines [from 1] on which
// the events stood, one for each; nil when the contents come from elsewhere.
type Contents struct {
	Events []job.Signed
	Blobs  []job.Blob
	Lines  []int
}

// Not Strict: that each line equals its own re-encoding is the stronger rule.
var encoding = base64.StdEncoding

// Write returns the file. The same set of events and blobs makes the same
// bytes: events by job, lam and id, blobs by their sum, nothing twice.
func Write(c Contents) ([]byte, error) {
	type event struct {
		job.Event
		signed job.Signed
	}
	events := make([]event, 0, len(c.Events))
	for _, signed := range c.Events {
		e, err := job.Decode(signed.Raw)
		if err != nil {
			return nil, fmt.Errorf("record: write %s %d: %w", signed.Stream, signed.Seq, err)
		}
		if len(signed.Sig) != 64 {
			return nil, fmt.Errorf("record: write %s: a signature of %d bytes", e.ID, len(signed.Sig))
		}
		events = append(events, event{e, signed})
	}
	sort.Slice(events, func(i, j int) bool {
		a, b := events[i], events[j]
		return cmp.Or(strings.Compare(a.Job, b.Job), a.Lam-b.Lam, strings.Compare(a.ID, b.ID),
			bytes.Compare(a.Hash[:], b.Hash[:]), bytes.Compare(a.signed.Sig, b.signed.Sig)) < 0
	})
	events = slices.CompactFunc(events, func(a, b event) bool { return a.Hash == b.Hash })

	blobs := slices.Clone(c.Blobs)
	sort.Slice(blobs, func(i, j int) bool { return blobs[i].Sum < blobs[j].Sum })
	blobs = slices.CompactFunc(blobs, func(a, b job.Blob) bool { return a.Sum == b.Sum })

	out := []byte(Header + "\n")
	for _, e := range events {
		out = append(AppendEvent(out, e.signed), '\n')
	}
	for _, b := range blobs {
		if sumOf(b.Data) != b.Sum {
			return nil, fmt.Errorf("record: write blob %s: its sum is %s", b.Sum, sumOf(b.Data))
		}
		out = append(appendBlob(out, b), '\n')
	}
	return out, nil
}

// AppendEvent appends the line of one signed event, without its line feed. The
// same line stands in a record file and in what phones and an office exchange.
func AppendEvent(b []byte, s job.Signed) []byte {
	b = append(b, "e "...)
	b = encoding.AppendEncode(b, s.Sig)
	b = append(b, ' ')
	return append(b, s.Raw...)
}

func appendBlob(b []byte, blob job.Blob) []byte {
	b = append(b, "b "...)
	b = append(b, blob.Sum...)
	b = append(b, ' ')
	return encoding.AppendEncode(b, blob.Data)
}

func sumOf(data []byte) string {
	h := sha256.Sum256(data)
	return hex.EncodeToString(h[:])
}
