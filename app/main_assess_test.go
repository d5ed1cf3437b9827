//go:build !js

package main

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// How assess ends: nil is 0, a usage 2, everything else 1.
func TestAssessSaysHowItEnded(t *testing.T) {
	dir := t.TempDir()
	put := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	good := put("good.json", `{"lugmark": "job/1", "now": "2026-11-25T12:00:00+01:00"}`)
	bad := put("bad.json", "{\"lugmark\": \"job/1\",\n \"layuot\": {}}")
	rows := []struct {
		name     string
		args     []string
		ends     int
		out, err string
	}{
		{"a good file", []string{good}, ended, `"check":"`, ""},
		{"standard input", []string{"-"}, ended, `"check":"`, ""},
		{"a time, behind the file", []string{good, "--now", "2026-11-26T12:00:00Z"}, ended, `"check":"`, ""},
		{"a bad file", []string{bad}, failed, "", "bad.json:2: “layuot” is not known here. The nearest known name is “layout”."},
		{"a good one beside a bad one", []string{bad, good}, failed, `"check":"`, "bad.json:2: "},
		{"no such file", []string{filepath.Join(dir, "none")}, failed, "", "no such file"},
		{"nothing", nil, unsaid, "", ""},
		{"a time that is none", []string{good, "--now", "noon"}, unsaid, "", ""},
		{"an unknown flag", []string{"--fast", good}, unsaid, "", ""},
		{"the schema", []string{"--schema"}, ended, `"$schema"`, ""},
		{"the schema of a file", []string{"--schema", good}, unsaid, "", ""},
		{"help", []string{"--help"}, ended, "lugmark assess FILE", ""},
	}
	for _, r := range rows {
		var out, complaints bytes.Buffer
		err := assessFiles(r.args, strings.NewReader(`{"lugmark": "job/1", "now": "2026-11-25T12:00:00Z"}`), &out, &complaints)
		got := failed
		var wrong usage
		switch {
		case err == nil, errors.Is(err, flag.ErrHelp):
			got = ended
		case errors.As(err, &wrong):
			got = unsaid
		}
		if got != r.ends || !strings.Contains(out.String(), r.out) || !strings.Contains(complaints.String(), r.err) {
			t.Errorf("%s: ended with %d, want %d (%v)\nout: %.200s\nerr: %s", r.name, got, r.ends, err, out.String(), complaints.String())
		}
	}
}
