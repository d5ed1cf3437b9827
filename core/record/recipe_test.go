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

// The recipe of the package comment, run as it stands there by programs that
// are not ours.
const recipe = `set -e
printf -- '-----BEGIN PUBLIC KEY-----\n%s\n-----END PUBLIC KEY-----\n' "$DEV" > dev.pem
sed -n ${N}p F | cut -d' ' -f3- | tr -d '\n' | (printf '1\n'; cat) | openssl dgst -sha256 -binary > hash
sed -n ${N}p F | cut -d' ' -f2 | base64 -d > sig
openssl pkeyutl -verify -pubin -inkey dev.pem -rawin -in hash -sigfile sig
`

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
	dir := t.TempDir()
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
