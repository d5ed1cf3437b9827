package rules

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// The rules can only be kept by what Load sees; this is a module with one file
// of each kind.
func TestLoadSeesWhatABuildOfOnePlatformHides(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"core/a/a.go":        "// Package a is.\npackage a\nimport clock \"time\"\nvar now = clock.Now()\n",
		"app/s/s_js.go":      "package s\nimport \"net/http\"\nvar _ = http.Get\n",
		"app/s/s_linux.go":   "package s\n",
		"app/s/t.go":         "//go:build !js\n\npackage s\nimport _ \"net/http\"\n",
		"app/s/s_test.go":    "package s\n",
		"build/dist/skip.go": "this is no Go",
		"web/shell/.keep":    "",
		"web/shell/app.js":   "",
	} {
		full := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(full, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	all, err := Load(dir)
	if err != nil {
		t.Fatal(err)
	}
	js := map[string]bool{}
	for _, s := range all {
		js[s.Path] = s.JS
		if s.Path == "core/a/a.go" && !slices.Contains(s.Calls(), "time.Now") {
			t.Errorf("a call under another name was not seen: %v", s.Calls())
		}
	}
	for path, want := range map[string]bool{
		"core/a/a.go": true, "app/s/s_js.go": true, "app/s/s_linux.go": false, "app/s/t.go": false, "app/s/s_test.go": true,
	} {
		if got, seen := js[path]; !seen || got != want {
			t.Errorf("%s: seen %v, in the phone app %v, want %v", path, seen, got, want)
		}
	}
	names, err := Files(dir)
	if err != nil || slices.Contains(names, "web/shell/app.js") || !slices.Contains(names, "web/shell/.keep") {
		t.Errorf("the files are %v, %v", names, err)
	}
}

func TestRowsOfTheHouse(t *testing.T) {
	for folder, want := range map[string]string{
		"core/unit": "core", "checks": "checks", "checks/plain": "checks", "app": "app", "app/screen": "app/screen",
		"app/newcomer": "app/newcomer", "web": "web", "build/e2e": "build",
	} {
		if _, self := allowed(folder); self != want {
			t.Errorf("%s is judged as %s, want %s", folder, self, want)
		}
	}
	if may, _ := allowed("app/newcomer"); slices.Contains(may, "app") {
		t.Error("a new package of app may import its sisters")
	}
}
