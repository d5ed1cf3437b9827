//go:build !js

// A program in node starts no other one, so this stands outside the tests that
// run there.

package seal

import (
	"crypto/ed25519"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// A second program must come to the same verdict.
func TestOpenSSLVerifiesWhatWeSign(t *testing.T) {
	openssl, err := exec.LookPath("openssl")
	switch {
	case err != nil && os.Getenv("CI") != "":
		t.Fatal("openssl is missing: go run ./build/need openssl installs it")
	case err != nil:
		t.Skip("left out: openssl is missing; go run ./build/need openssl installs it")
	}
	dir := t.TempDir()
	write := func(name string, data []byte) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	key := ed25519.NewKeyFromSeed(unhex(t, rfc8032[2].secret))
	hash := Hash([]byte(`{"v":1}`))
	der := write("key.der", EncodeKey(key.Public().(ed25519.PublicKey)))
	sig := write("sig", Sign(key, hash))
	verify := func(message [32]byte) (string, error) {
		out, err := exec.Command(openssl, "pkeyutl", "-verify", "-pubin", "-keyform", "DER", "-inkey", der,
			"-rawin", "-in", write("hash", message[:]), "-sigfile", sig).CombinedOutput()
		return string(out), err
	}
	if out, err := verify(hash); err != nil || !strings.Contains(out, "Verified Successfully") {
		t.Errorf("openssl: %s %v", out, err)
	}
	hash[0] ^= 1
	if out, err := verify(hash); err == nil {
		t.Errorf("openssl accepts another hash: %s", out)
	}
}
