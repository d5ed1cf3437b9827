//go:build !js

package verify

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"lugmark/checks/sample"
	"lugmark/core/seal"
)

// printed is the script as the document has it: the lines that stand indented
// after its name.
func printed(t *testing.T) string {
	t.Helper()
	doc, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(doc), "<!-- check.sh -->\n\n")
	var script strings.Builder
	for line := range strings.Lines(rest) {
		text, indented := strings.CutPrefix(line, "    ")
		if !indented {
			break
		}
		script.WriteString(text)
	}
	if !found || script.Len() == 0 {
		t.Fatal("the README has no check.sh")
	}
	return script.String()
}

// The script that the README prints, run as it stands there on a whole job by
// programs that are not ours: silent on a sound record but for its fingerprint,
// and loud about whatever was changed.
func TestTheScriptOfTheReadmeChecksAWholeJob(t *testing.T) {
	for _, tool := range []string{"sh", "openssl", "sed", "grep", "cut", "tr", "od", "comm", "sort", "base32", "base64", "sha256sum"} {
		_, err := exec.LookPath(tool)
		switch {
		case err != nil && os.Getenv("CI") != "":
			t.Fatalf("%s is missing: go run ./build/need openssl installs openssl; the others come with the system", tool)
		case err != nil:
			t.Skipf("left out: %s is missing", tool)
		}
	}
	script := printed(t)
	run := func(file []byte) string {
		t.Helper()
		dir := t.TempDir()
		for name, text := range map[string][]byte{"check.sh": []byte(script), "job.txt": file} {
			if err := os.WriteFile(filepath.Join(dir, name), text, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		cmd := exec.Command("sh", "check.sh", "job.txt")
		cmd.Dir = dir
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		return strings.TrimSpace(string(out))
	}
	file, print := exported(t, smallest())
	lines := bytes.SplitAfter(file, []byte("\n"))
	events := bytes.Count(file, []byte("\ne "))
	if got := run(file); got != "seal: "+string(print) {
		t.Fatalf("a sound record of %d entries:\n%s\nwant the seal %s alone", events, got, string(print))
	}
	if p, err := seal.ParsePrint(string(print)); err != nil || p != print {
		t.Fatal(err)
	}
	t.Logf("%d entries and %d texts verified by openssl and sha256sum", events, bytes.Count(file, []byte("\nb ")))

	swap := func(from, to string, line int) []byte {
		out := bytes.Clone(file)
		at := len(bytes.Join(lines[:line], nil))
		changed := bytes.Replace(out[at:], []byte(from), []byte(to), 1)
		if bytes.Equal(changed, out[at:]) {
			t.Fatalf("nothing to change: %s", from)
		}
		return append(out[:at:at], changed...)
	}
	file = swap(`"at":"20`, `"at":"21`, 4)
	file = swap(" eyJja", " eyJjb", events+1)
	changed := run(file)
	taken := run(bytes.Join(slices.Concat(lines[:5], lines[6:events-3], lines[events-2:]), nil))
	for _, r := range []struct{ name, out, says string }{
		{"a digit changed", changed, ": the signature is bad"},
		{"a digit changed, by its chain", changed, ": does not follow"},
		{"a text changed", changed, ": another text"},
		{"an entry taken out", taken, ": does not follow"},
		{"the last entry of a run taken out", taken, ": seen by another, and not here"},
	} {
		if !strings.Contains(r.out, r.says) {
			t.Errorf("%s: %q is not in\n%s", r.name, r.says, r.out)
		}
	}
}

// smallest is the sample with the fewest bytes: each entry costs five programs.
func smallest() sample.Sample {
	list := sample.List()
	least := list[0]
	for _, s := range list {
		if len(s.Raw) < len(least.Raw) {
			least = s
		}
	}
	return least
}
