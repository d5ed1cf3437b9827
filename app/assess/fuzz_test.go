//go:build !js

package assess

import (
	"bytes"
	"encoding/json"
	"os"
	"testing"
	"time"
)

// Any file: a complaint with its line, or findings that are valid JSON.
func FuzzJudge(f *testing.F) {
	first, err := os.ReadFile("../../core/record/testdata/first.txt")
	if err != nil {
		f.Fatal(err)
	}
	for _, raw := range [][]byte{[]byte(small), first, bytes.ReplaceAll(first, []byte("\n"), []byte("\r\n")), first[:900], []byte("\ufeff\n {"), []byte("lugmark-record"), nil} {
		f.Add(raw)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		var out, complaints bytes.Buffer
		ok, err := Judge(Input{"file", raw}, Options{Clock: time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)}, &out, &complaints)
		if err != nil {
			t.Fatal(err)
		}
		if !ok && (out.Len() > 0 || complaints.Len() == 0) {
			t.Fatalf("not judged: %d bytes of findings, complaints %q", out.Len(), complaints.String())
		}
		for line := range bytes.Lines(out.Bytes()) {
			if !json.Valid(line) {
				t.Fatalf("not JSON: %s", line)
			}
		}
	})
}
