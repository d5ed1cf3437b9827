package store

import (
	"bytes"
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"lugmark/core/job"
)

// check refuses an act that a store could not hand back byte for byte. Records
// travel between Go and JavaScript as lines of text, so an event is one line of
// valid UTF-8 and an id has no space.
func check(act job.Act) error {
	if !word(act.Job) {
		return fmt.Errorf("store: keep: %q is no job", act.Job)
	}
	for _, e := range act.Events {
		var why error
		switch {
		case e.Job != act.Job:
			why = fmt.Errorf("it belongs to job %q", e.Job)
		case !word(e.Stream):
			why = fmt.Errorf("%q is no stream", e.Stream)
		case e.Seq < 1:
			why = errors.New("numbers begin at 1")
		case len(e.Sig) != ed25519.SignatureSize:
			why = errors.New("it is not signed")
		case len(e.Raw) == 0 || !utf8.Valid(e.Raw) || bytes.ContainsAny(e.Raw, "\n\x00"):
			why = errors.New("it is not one line of text")
		}
		if why != nil {
			return fmt.Errorf("store: keep event %s %d of %s: %w", e.Stream, e.Seq, act.Job, why)
		}
	}
	for _, b := range act.Blobs {
		sum := sha256.Sum256(b.Data)
		if b.Sum != hex.EncodeToString(sum[:]) {
			return fmt.Errorf("store: keep blob %s of %s: that is not the hash of its bytes", b.Sum, act.Job)
		}
		if !word(b.Type) {
			return fmt.Errorf("store: keep blob %s of %s: %q is no type", b.Sum, act.Job, b.Type)
		}
	}
	if bytes.IndexByte(act.Summary, 0) >= 0 || !utf8.Valid(act.Summary) {
		return fmt.Errorf("store: keep summary of %s: it is not text", act.Job)
	}
	return nil
}

// word reports whether s is short, printable ASCII without a space.
func word(s string) bool {
	return s != "" && len(s) <= 200 && !strings.ContainsFunc(s, func(r rune) bool { return r <= ' ' || r > '~' })
}

// isText reports whether a blob is handed out with its job.
func isText(blobType string) bool { return strings.HasPrefix(blobType, "text/") }

// forked is the error for an event whose place is taken by another.
func forked(e job.Signed) error {
	return fmt.Errorf("store: keep event %s %d of %s: %w", e.Stream, e.Seq, e.Job, ErrForked)
}
