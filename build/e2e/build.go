package e2e

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// Root returns the folder of go.mod, from any folder below it.
func Root() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", errors.New("no go.mod in this folder or above it")
		}
		dir = up
	}
}

// Dist returns a path in build/dist.
func Dist(names ...string) string {
	root, err := Root()
	if err != nil {
		panic(err) // go test always runs inside the module
	}
	return filepath.Join(append([]string{root, "build", "dist"}, names...)...)
}

// BuildProgram builds the phone app, quickly packed, and the program with it.
func BuildProgram() error {
	if err := goDo(nil, "run", "./build/phone", "-quality", "5"); err != nil {
		return err
	}
	return goDo(nil, "build", "-o", Dist("lugmark"), "./app")
}

// BuildShell builds the phone app as another release into build/dist/name, and
// returns the folder.
func BuildShell(name, release string) (string, error) {
	err := goDo(nil, "run", "./build/phone", "-quality", "1", "-release", release, "-out", filepath.Join("build", "dist", name))
	return Dist(name), err
}

// goDo runs the go command at the root.
func goDo(env []string, args ...string) error {
	root, err := Root()
	if err != nil {
		return err
	}
	cmd := exec.Command("go", args...)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), env...)
	if said, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("go %v: %w\n%s", args, err, said)
	}
	return nil
}
