package main

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"
)

// The tools work at the top of the module.
func TestMain(m *testing.M) {
	if err := os.Chdir("../.."); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}

func TestShellIsTheSameEachTimeAndItsVersionFollowsItsBytes(t *testing.T) {
	one, err := assemble([]byte("wasm"))
	if err != nil {
		t.Fatal(err)
	}
	two, err := assemble([]byte("wasm"))
	if err != nil {
		t.Fatal(err)
	}
	other, err := assemble([]byte("wasm of another source"))
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range one {
		if !bytes.Equal(data, two[name]) {
			t.Errorf("%s differs between two builds of the same source", name)
		}
	}
	if bytes.Equal(one["worker.js"], other["worker.js"]) || bytes.Equal(one["index.html"], other["index.html"]) {
		t.Error("another app has the same worker or first page, so no phone would notice")
	}
}

func TestWorkerListsEveryFileWithItsHash(t *testing.T) {
	files, err := assemble([]byte("wasm"))
	if err != nil {
		t.Fatal(err)
	}
	worker := string(files["worker.js"])
	for name, data := range files {
		sum := sha256.Sum256(data)
		path := "/" + name
		switch name {
		case "worker.js":
			continue
		case "index.html":
			path = "/"
		}
		if entry := `["` + path + `","sha256-` + base64.StdEncoding.EncodeToString(sum[:]) + `"]`; !strings.Contains(worker, entry) {
			t.Errorf("the worker does not list %s", entry)
		}
	}
	// What the first page asks for is in the shell.
	for part := range strings.SplitSeq(string(files["index.html"]), `"/`) {
		name, _, _ := strings.Cut(part, `"`)
		if strings.Contains(name, ".") && !strings.Contains(name, "<") && files[name] == nil {
			t.Errorf("the first page asks for %s, which is not in the shell", name)
		}
	}
}

func TestTemplateThatLostAMarkIsRefused(t *testing.T) {
	if _, err := fill("x", []byte("no mark"), map[string]string{"@VERSION@": "1"}); err == nil {
		t.Error("a template without its mark was filled")
	}
	if _, err := fill("x", []byte("@VERSION@ @FILES@"), map[string]string{"@VERSION@": "1"}); err == nil {
		t.Error("a mark was left in a template")
	}
}

func TestWriteShellWritesTwinsAndClearsWhatIsOld(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{".keep", "old.js", "old.js.br"} {
		if err := os.WriteFile(filepath.Join(dir, name), nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	text := bytes.Repeat([]byte("the same again "), 1000)
	noise := []byte{3, 1, 4, 1, 5, 9, 2, 6}
	if err := writeShell(options{Out: dir, Quality: 5}, map[string][]byte{"a.js": text, "b.png": noise}); err != nil {
		t.Fatal(err)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	if got, want := strings.Join(names, " "), ".keep a.js a.js.br a.js.gz b.png"; got != want {
		t.Errorf("the folder holds %s, want %s", got, want)
	}
	for ext, unpack := range map[string]func(io.Reader) (io.Reader, error){
		".br": func(r io.Reader) (io.Reader, error) { return brotli.NewReader(r), nil },
		".gz": func(r io.Reader) (io.Reader, error) { return gzip.NewReader(r) },
	} {
		packed, err := os.Open(filepath.Join(dir, "a.js"+ext))
		if err != nil {
			t.Fatal(err)
		}
		defer packed.Close()
		r, err := unpack(packed)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := io.ReadAll(r); err != nil || !bytes.Equal(got, text) {
			t.Errorf("a.js%s does not unpack to a.js: %v", ext, err)
		}
	}
}

func TestIconsHaveTheirSizes(t *testing.T) {
	for name, side := range map[string]int{"icon-180.png": 180, "icon-192.png": 192, "icon-512.png": 512, "icon-mask.png": 512} {
		data, err := icons[name]()
		if err != nil {
			t.Fatal(err)
		}
		c, err := png.DecodeConfig(bytes.NewReader(data))
		if err != nil || c.Width != side || c.Height != side {
			t.Errorf("%s is %d × %d, %v", name, c.Width, c.Height, err)
		}
	}
}
