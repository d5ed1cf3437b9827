package e2e

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
)

// shared is the browser of all tests of a package that do not kill theirs.
var shared *Browser

// Run is the whole of a TestMain: it builds the program, starts the browser,
// runs the tests and returns what to exit with.
func Run(m *testing.M) int {
	if err := BuildProgram(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	profile, err := os.MkdirTemp("", "lugmark-e2e-")
	if err == nil {
		defer os.RemoveAll(profile)
		shared, err = LaunchAt(profile)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer shared.Close()
	return m.Run()
}

// Open opens an address in a tab of the shared browser and waits for the app.
func Open(t *testing.T, url string) *Phone {
	t.Helper()
	return OpenIn(t, shared, url)
}

// Launch starts a browser for one test, which may kill it.
func Launch(t *testing.T) *Browser {
	t.Helper()
	b, err := LaunchAt(filepath.Join(t.TempDir(), "profile"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	return b
}

// Relaunch starts a browser again on the profile of one that was closed or killed.
func Relaunch(t *testing.T, b *Browser) *Browser {
	t.Helper()
	again, err := LaunchAt(b.Profile)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { again.Close() })
	return again
}
