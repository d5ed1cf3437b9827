package main

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// stamp remembers from what a shell was built, and what came out.
type stamp struct {
	Inputs string
	Files  map[string]string // name to hash
}

// hashInputs hashes all that can change the outcome: the sources that the phone
// app may be built from, this tool, the Go version and the flags.
func hashInputs(o options) (string, error) {
	h := sha256.New()
	fmt.Fprintf(h, "%s %s %d\n", runtime.Version(), o.Release, o.Quality)
	for _, root := range []string{"go.mod", "go.sum", "app", "core", "checks", "web", "build/phone", "build/pack"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if os.IsNotExist(err) {
				return nil
			}
			if err != nil {
				return err
			}
			if d.IsDir() {
				if path == "web/shell" || d.Name() == "testdata" {
					return fs.SkipDir
				}
				return nil
			}
			if strings.HasSuffix(path, "_test.go") {
				return nil
			}
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			fmt.Fprintf(h, "%s %x\n", path, sha256.Sum256(data))
			return nil
		})
		if err != nil {
			return "", err
		}
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

func stampPath(out string) string {
	name := strings.NewReplacer("/", "-", "\\", "-").Replace(filepath.Clean(out))
	return filepath.Join(scratch, "phone."+name+".json")
}

// stillGood reports whether out holds, byte for byte, what these inputs gave
// the last time. Anything unreadable is a no: it only costs a build.
func stillGood(out, inputs string) bool {
	data, err := os.ReadFile(stampPath(out))
	if err != nil {
		return false
	}
	var last stamp
	if json.Unmarshal(data, &last) != nil || last.Inputs != inputs {
		return false
	}
	now, err := hashFiles(out)
	if err != nil || len(now) != len(last.Files) {
		return false
	}
	for name, sum := range now {
		if last.Files[name] != sum {
			return false
		}
	}
	return true
}

func writeStamp(out, inputs string) error {
	files, err := hashFiles(out)
	if err != nil {
		return err
	}
	data, err := json.Marshal(stamp{inputs, files})
	if err != nil {
		return err
	}
	return os.WriteFile(stampPath(out), data, 0o644)
}

// hashFiles returns the hash of each file directly in dir, dot-files left out.
func hashFiles(dir string) (map[string]string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	sums := map[string]string{}
	for _, entry := range entries {
		if strings.HasPrefix(entry.Name(), ".") || entry.IsDir() {
			continue
		}
		data, err := os.ReadFile(filepath.Join(dir, entry.Name()))
		if err != nil {
			return nil, err
		}
		sum := sha256.Sum256(data)
		sums[entry.Name()] = hex.EncodeToString(sum[:])
	}
	return sums, nil
}
