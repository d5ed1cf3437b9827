package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestARewriteThatNoLongerFitsStopsTheBuild(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "a.go"), []byte("one two two"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, old := range []string{"three", "two"} {
		if err := (rewrite{"a.go", old, ""}).apply(dir); err == nil || !strings.Contains(err.Error(), "go-app has changed") {
			t.Errorf("%q: %v", old, err)
		}
	}
	if err := (rewrite{"a.go", "one", "1"}).apply(dir); err != nil {
		t.Error(err)
	}
}
