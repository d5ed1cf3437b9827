// Command need sees to what a suite needs beyond Go, installs it where it can,
// and says in plain words what is missing where it cannot:
//
//	go run ./build/need            all of it
//	go run ./build/need chromium   only that
//
// chromium comes from the system's packages, which needs root; axe, the
// accessibility rules, from npm at the version of the lock file, into
// build/dist; node runs the tests of the pure packages as WebAssembly; openssl
// verifies in tests what was signed.
//
// It never replaces what is there already.
package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
)

var needs = map[string]func() error{
	"chromium": chromium,
	"node":     node,
	"axe":      axe,
	"make":     makes,
	"openssl":  openssl,
}

func main() {
	names := os.Args[1:]
	if len(names) == 0 {
		names = []string{"chromium", "node", "axe", "openssl"}
	}
	missing := 0
	for _, name := range names {
		see, known := needs[name]
		if !known {
			fmt.Fprintf(os.Stderr, "need: nothing is known of %q; there are chromium, node, axe, openssl and make\n", name)
			os.Exit(2)
		}
		if err := see(); err != nil {
			fmt.Fprintf(os.Stderr, "need: %s: %v\n", name, err)
			missing++
		}
	}
	if missing > 0 {
		os.Exit(1)
	}
}

func chromium() error {
	if os.Getenv("CHROMIUM") != "" || found("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome") {
		return nil
	}
	if err := aptInstall("chromium"); err != nil {
		return fmt.Errorf("the browser tests need Chromium; install it, or name one in CHROMIUM (%w)", err)
	}
	return nil
}

func node() error {
	if found("node") {
		return nil
	}
	if err := aptInstall("nodejs", "npm"); err != nil {
		return fmt.Errorf("the tests of the pure packages as WebAssembly need node 20 or newer; install it (%w)", err)
	}
	return nil
}

func openssl() error {
	if found("openssl") {
		return nil
	}
	if err := aptInstall("openssl"); err != nil {
		return fmt.Errorf("the tests of the record let openssl verify what was signed; install it (%w)", err)
	}
	return nil
}

func makes() error {
	if found("make") {
		return nil
	}
	return aptInstall("make")
}

func axe() error {
	dir := filepath.Join("build", "dist", "npm")
	if _, err := os.Stat(filepath.Join(dir, "node_modules", "axe-core", "axe.min.js")); err == nil {
		return nil
	}
	if !found("npm") {
		if err := aptInstall("npm"); err != nil {
			return fmt.Errorf("the accessibility rules come from npm; install npm (%w)", err)
		}
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, name := range []string{"package.json", "package-lock.json"} {
		data, err := os.ReadFile(filepath.Join("build", "need", "npm", name))
		if err == nil {
			err = os.WriteFile(filepath.Join(dir, name), data, 0o644)
		}
		if err != nil {
			return err
		}
	}
	return do("npm", "ci", "--prefix", dir, "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error")
}

// aptInstall installs Debian packages, if this is Debian and we may.
func aptInstall(packages ...string) error {
	if runtime.GOOS != "linux" || !found("apt-get") {
		return errors.New("there is no apt-get here to install it with")
	}
	if os.Geteuid() != 0 {
		return errors.New("only root may install it: sudo go run ./build/need")
	}
	if err := do("apt-get", "update", "-qq"); err != nil {
		return err
	}
	return do("apt-get", append([]string{"install", "-y", "-qq", "--no-install-recommends"}, packages...)...)
}

func found(names ...string) bool {
	for _, name := range names {
		if _, err := exec.LookPath(name); err == nil {
			return true
		}
	}
	return false
}

func do(name string, args ...string) error {
	fmt.Println("+", name, args)
	cmd := exec.Command(name, args...)
	cmd.Env = append(os.Environ(), "DEBIAN_FRONTEND=noninteractive")
	cmd.Stdout, cmd.Stderr = os.Stdout, os.Stderr
	return cmd.Run()
}
