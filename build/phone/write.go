package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"lugmark/build/pack"
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
		for ext, shrink := range map[string]func([]byte) ([]byte, error){".br": brotliAt(o.Quality), ".gz": pack.Gzip} {
			jobs++
			go func() {
				small, err := shrink(data)
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
	return func(data []byte) ([]byte, error) { return pack.Brotli(data, quality) }
}
