package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/andybalholm/brotli"
)

// writeShell writes the files and their twins, and removes what an earlier
// build left. A twin is only worth its place when it saves a twentieth.
func writeShell(o options, files map[string][]byte) error {
	if err := os.MkdirAll(o.Out, 0o755); err != nil {
		return err
	}
	type packed struct {
		name string
		data []byte
		err  error
	}
	results := make(chan packed)
	jobs := 0
	for name, data := range files {
		for ext, pack := range map[string]func([]byte) ([]byte, error){".br": brotliAt(o.Quality), ".gz": gzipBest} {
			jobs++
			go func() {
				small, err := pack(data)
				if len(small) > len(data)-len(data)/20 {
					small = nil
				}
				results <- packed{name + ext, small, err}
			}()
		}
	}
	all := make(map[string][]byte, 3*len(files))
	for name, data := range files {
		all[name] = data
	}
	for range jobs {
		r := <-results
		if r.err != nil {
			return fmt.Errorf("pack %s: %w", r.name, r.err)
		}
		if r.data != nil {
			all[r.name] = r.data
		}
	}
	if err := clear(o.Out, all); err != nil {
		return err
	}
	for name, data := range all {
		if err := os.WriteFile(filepath.Join(o.Out, name), data, 0o644); err != nil {
			return err
		}
	}
	fmt.Printf("%s: app.wasm %d bytes, %d gzip, %d brotli-%d; %d files\n",
		o.Out, len(all["app.wasm"]), len(all["app.wasm.gz"]), len(all["app.wasm.br"]), o.Quality, len(all))
	return nil
}

// clear removes files that the new build does not have. Dot-files stay.
func clear(dir string, keep map[string][]byte) error {
	old, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, entry := range old {
		name := entry.Name()
		if _, ok := keep[name]; ok || strings.HasPrefix(name, ".") || entry.IsDir() {
			continue
		}
		if err := os.Remove(filepath.Join(dir, name)); err != nil {
			return err
		}
	}
	return nil
}

func brotliAt(quality int) func([]byte) ([]byte, error) {
	return func(data []byte) ([]byte, error) {
		var out bytes.Buffer
		// Window 24 is 16 MiB, the most a browser accepts: the whole app in one window.
		w := brotli.NewWriterOptions(&out, brotli.WriterOptions{Quality: quality, LGWin: 24})
		if _, err := w.Write(data); err != nil {
			return nil, err
		}
		err := w.Close()
		return out.Bytes(), err
	}
}

func gzipBest(data []byte) ([]byte, error) {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	err = w.Close()
	return out.Bytes(), err
}
