//go:build !js

// A program in node starts no other one, so this stands outside the tests that
// run there.

package record

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"lugmark/core/job"
)

// recipe is the one of the package comment, as it stands there: for line N of
// file F, once the key is in dev.pem.
func recipe(t *testing.T) string {
	t.Helper()
	source, err := os.ReadFile("record.go")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(source), "// To check line N of file F by hand:\n//\n")
	script := `set -e
printf -- '-----BEGIN PUBLIC KEY-----\n%s\n-----END PUBLIC KEY-----\n' "$DEV" > dev.pem
`
	lines := 0
	for line := range strings.Lines(rest) {
		text, indented := strings.CutPrefix(line, "//\t")
		if !indented {
			break
		}
		script += strings.Replace(text, "sed -n Np", "sed -n ${N}p", 1)
		lines++
	}
	if !found || lines != 3 {
		t.Fatalf("the package comment has a recipe of %d lines", lines)
	}
	return script
}

const blobRecipe = `sed -n ${N}p F | cut -d' ' -f3 | base64 -d | sha256sum | cut -d' ' -f1`

func TestTheRecipeVerifiesEveryLine(t *testing.T) {
	for _, tool := range []string{"sh", "openssl", "sed", "cut", "tr", "base64", "sha256sum"} {
		_, err := exec.LookPath(tool)
		switch {
		case err != nil && os.Getenv("CI") != "":
			t.Fatalf("%s is missing: go run ./build/need openssl installs openssl; the others come with the system", tool)
		case err != nil:
			t.Skipf("left out: %s is missing", tool)
		}
	}
	dir, recipe := t.TempDir(), recipe(t)
	f := file(t)
	run := func(content []byte, script, n string) (string, error) {
		if err := os.WriteFile(filepath.Join(dir, "F"), content, 0o600); err != nil {
			t.Fatal(err)
		}
		first, _ := Read(content)
		e, _ := job.Decode(first.Events[0].Raw)
		cmd := exec.Command("sh", "-c", script)
		cmd.Dir = dir
		cmd.Env = append(os.Environ(), "N="+n, "DEV="+e.Open.Dev)
		out, err := cmd.CombinedOutput()
		return string(out), err
	}
	for _, n := range []string{"2", "3", "4", "5", "6", "7"} {
		if out, err := run(f, recipe, n); err != nil || !strings.Contains(out, "Verified Successfully") {
			t.Errorf("line %s: %s %v", n, out, err)
		}
	}
	if out, err := run(bytes.Replace(f, []byte("13.28"), []byte("13.29"), 1), recipe, "4"); err == nil {
		t.Errorf("one digit changed, and openssl says %s", out)
	}
	lines := strings.Split(string(f), "\n")
	for _, n := range []string{"8", "9"} {
		sum := strings.Fields(lines[n[0]-'1'])[1]
		if out, err := run(f, blobRecipe, n); err != nil || strings.TrimSpace(out) != sum {
			t.Errorf("blob on line %s: %s %v", n, out, err)
		}
	}
}
