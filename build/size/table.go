package main

import (
	"fmt"
	"sort"
	"strings"
)

// table is the comparison in words and figures.
func table(ours, hello set) string {
	var b strings.Builder
	line := func(name string, w weight) {
		fmt.Fprintf(&b, "%-28s %12d %12d %12d\n", name, w.Raw, w.Gzip, w.Brotli)
	}
	fmt.Fprintf(&b, "%-28s %12s %12s %12s   bytes\n", "", "raw", "gzip", fmt.Sprintf("brotli-%d", quality))
	for _, part := range []struct {
		name  string
		files set
	}{{"phone app", ours}, {"go-app hello world", hello}} {
		paths := make([]string, 0, len(part.files))
		for path := range part.files {
			paths = append(paths, path)
		}
		sort.Strings(paths)
		for _, path := range paths {
			line("  "+path, part.files[path])
		}
		line(part.name, part.files.total())
	}
	fmt.Fprintf(&b, "the phone app is %.3f × the hello world in brotli; %.1f × is the limit\n", ratio(ours, hello), limit)
	return b.String()
}

func ratio(ours, hello set) float64 {
	return float64(ours.total().Brotli) / float64(hello.total().Brotli)
}

// grown lists what grew most since the figures were kept: files by their packed
// size, packages by their code.
func grown(was, is figures) string {
	type growth struct {
		name     string
		from, to int
	}
	var all []growth
	for path, w := range is.Files {
		all = append(all, growth{path + " (brotli)", was.Files[path].Brotli, w.Brotli})
	}
	for name, n := range is.Packages {
		all = append(all, growth{name + " (code)", was.Packages[name], n})
	}
	sort.Slice(all, func(i, j int) bool {
		if di, dj := all[i].to-all[i].from, all[j].to-all[j].from; di != dj {
			return di > dj
		}
		return all[i].name < all[j].name
	})
	var b strings.Builder
	for _, g := range all[:min(20, len(all))] {
		if g.to > g.from {
			fmt.Fprintf(&b, "%+9d  %s: %d, was %d\n", g.to-g.from, g.name, g.to, g.from)
		}
	}
	if b.Len() == 0 {
		return "nothing grew since the figures were kept\n"
	}
	return b.String()
}
