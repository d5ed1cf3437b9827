//go:build !js

// Package web holds what a browser is handed as it is: the first page, the
// loader, the worker, the style sheets, and, once built, the whole phone app.
//
// Shell is that built app: build/phone writes it into web/shell, which is not
// committed. In a fresh clone it holds one empty file, so that the program can
// still be built and checked; such a program can do everything but serve.
// Nothing here decides how a file is served; see app/serve.
package web

import (
	"embed"
	"io/fs"
)

//go:embed all:shell
var shell embed.FS

// Shell returns the files of the phone app as build/phone wrote them:
// index.html, app.wasm and the rest, with their .br and .gz twins.
func Shell() fs.FS {
	sub, err := fs.Sub(shell, "shell")
	if err != nil {
		panic(err) // the name above is a constant: only a mistake here can fail
	}
	return sub
}
