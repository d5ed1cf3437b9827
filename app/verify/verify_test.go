//go:build !js

package verify

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"lugmark/core/seal"
)

// check runs the command on bytes of the standard input.
func check(t *testing.T, file []byte, o Options) (string, error) {
	t.Helper()
	var out bytes.Buffer
	err := File("-", bytes.NewReader(file), o, &out)
	return out.String(), err
}

func TestTheCommandSaysWhetherARecordHolds(t *testing.T) {
	file, print := exported(t, smallest())
	forged := bytes.Replace(file, []byte(`"unit":"V"`), []byte(`"unit":"A"`), 1)
	forged = bytes.Replace(forged, []byte(`"u":"V"`), []byte(`"u":"A"`), 1)
	rows := []struct {
		name  string
		file  []byte
		print seal.Print
		err   error
		says  string
	}{
		{"sound", file, "", nil, "ok     Sound: every signature is good"},
		{"sound, with its fingerprint", file, print, nil, "ok     The fingerprint matches: it is that of revision 1 of "},
		{"what it does not prove", file, print, nil, "What it cannot show\n     - That what was typed is true"},
		{"sound, with another fingerprint", file, seal.Fingerprint([32]byte{}), ErrNot, "FAULT  The fingerprint is not found"},
		{"a unit changed", forged, print, ErrNot, "FAULT  Line "},
		{"nothing", nil, "", ErrNot, "FAULT  Line 1: the file holds no entry."},
	}
	for _, r := range rows {
		out, err := check(t, r.file, Options{Print: r.print})
		if !errors.Is(err, r.err) || !strings.Contains(out, r.says) {
			t.Errorf("%s: %v\n%s\nwant %q", r.name, err, out, r.says)
		}
	}
}

func TestTheCommandHandsTheReportToPrograms(t *testing.T) {
	file, print := exported(t, smallest())
	out, err := check(t, file, Options{Print: print, JSON: true})
	if err != nil {
		t.Fatal(err)
	}
	var got reportJSON
	decoder := json.NewDecoder(strings.NewReader(out))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&got); err != nil {
		t.Fatal(err)
	}
	if !got.Sound || got.Found == nil || !*got.Found || len(got.Jobs) != 1 || len(got.Jobs[0].Seals) != 1 ||
		got.Jobs[0].Seals[0].Fingerprint != string(print) || len(got.Jobs[0].Seals[0].Signed) != 2 || got.Jobs[0].Phones[0].Runs != 2 {
		t.Errorf("%s", out)
	}
	if strings.Count(out, "\n") != 1 || strings.Contains(out, `"faults":null`) {
		t.Errorf("one object on one line, lists never null: %s", out)
	}
}

func TestAFileOnDisk(t *testing.T) {
	file, print := exported(t, smallest())
	path := filepath.Join(t.TempDir(), "job.txt")
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := File(path, nil, Options{Print: print}, new(bytes.Buffer)); err != nil {
		t.Error(err)
	}
	if err := File(path+"x", nil, Options{}, new(bytes.Buffer)); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no such file: %v", err)
	}
}
