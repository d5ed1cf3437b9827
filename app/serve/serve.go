//go:build !js

// Package serve hands the phone app to browsers: the right bytes, packed as the
// browser can take them, under headers that let nothing else run in the page.
//
// It holds no job and answers no question about one; what a person enters never
// reaches it. It serves loopback unless it is told otherwise.
package serve

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"path"
	"strconv"
	"strings"
)

// ErrNoApp means that the program was built without the phone app in it.
var ErrNoApp = errors.New("serve: the phone app is not in this program: run make build, which builds it first")

// types names each kind of file that may be served; any other kind is refused
// when the program starts, so that no file goes out as a guess.
var types = map[string]string{
	".html":        "text/html; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".wasm":        "application/wasm", // without it browsers do not compile while they fetch
	".webmanifest": "application/manifest+json",
	".svg":         "image/svg+xml",
	".png":         "image/png",
	".woff2":       "font/woff2",
	".json":        "application/json",
	".txt":         "text/plain; charset=utf-8",
}

// file is one file of the shell with its twins; a nil twin does not exist.
type file struct {
	kind   string
	etag   string
	plain  []byte
	br, gz []byte
}

// handler serves the shell from memory.
type handler struct {
	files map[string]file // by path, "/app.wasm"; the first page is "/"
}

// Handler returns the phone app as a handler. secure says that it is reached by
// https, and adds the header that keeps it so. The shell is read once, here.
func Handler(shell fs.FS, secure bool) (http.Handler, error) {
	h := handler{files: map[string]file{}}
	names, err := fs.Glob(shell, "*")
	if err != nil {
		return nil, fmt.Errorf("serve: list the shell: %w", err)
	}
	for _, name := range names {
		ext := path.Ext(name)
		if ext == ".br" || ext == ".gz" || strings.HasPrefix(name, ".") {
			continue
		}
		kind, known := types[ext]
		if !known {
			return nil, fmt.Errorf("serve: %s: no content type is known for %q", name, ext)
		}
		f := file{kind: kind}
		if f.plain, err = fs.ReadFile(shell, name); err != nil {
			return nil, fmt.Errorf("serve: read %s: %w", name, err)
		}
		f.br, _ = fs.ReadFile(shell, name+".br") // no twin: it did not pay
		f.gz, _ = fs.ReadFile(shell, name+".gz")
		sum := sha256.Sum256(f.plain)
		f.etag = `"` + hex.EncodeToString(sum[:12]) + `"`
		if name == "index.html" {
			name = ""
		}
		h.files["/"+name] = f
	}
	if _, ok := h.files["/"]; !ok {
		return nil, ErrNoApp
	}
	mux := http.NewServeMux()
	mux.HandleFunc("/alive", alive)
	mux.Handle("/", h)
	return guarded(mux, secure), nil
}

// alive answers whoever wants to know whether the program runs.
func alive(w http.ResponseWriter, r *http.Request) {
	if !reading(w, r) {
		return
	}
	w.Header().Set("Content-Type", types[".txt"])
	w.Header().Set("Cache-Control", "no-store")
	if r.Method == http.MethodGet {
		fmt.Fprintln(w, "alive")
	}
}

func (h handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if !reading(w, r) {
		return
	}
	f, ok := h.files[r.URL.Path]
	if !ok {
		if !deepLink(r.URL.Path) {
			w.Header().Set("Cache-Control", "no-store")
			http.Error(w, "There is no such file here.", http.StatusNotFound)
			return
		}
		f = h.files["/"]
	}
	f.serve(w, r)
}

// reading reports whether r only reads, and answers it when not.
func reading(w http.ResponseWriter, r *http.Request) bool {
	if r.Method == http.MethodGet || r.Method == http.MethodHead {
		return true
	}
	w.Header().Set("Allow", "GET, HEAD")
	w.Header().Set("Cache-Control", "no-store")
	http.Error(w, "This address can only be read.", http.StatusMethodNotAllowed)
	return false
}

// deepLink reports whether a path is an address inside the app, which the first
// page answers, and not the name of a file. Addresses of the office's own
// interface are never pages: a page there would look like a good answer.
func deepLink(p string) bool {
	if strings.HasPrefix(p, "/v1/") || p == "/v1" || p == "/ready" {
		return false
	}
	return !strings.Contains(path.Base(p), ".") && !strings.Contains(p, "//")
}

func (f file) serve(w http.ResponseWriter, r *http.Request) {
	head := w.Header()
	head.Set("Content-Type", f.kind)
	head.Set("ETag", f.etag)
	head.Set("Cache-Control", "no-cache") // kept, but asked about each time
	head.Set("Vary", "Accept-Encoding")
	if matches(r.Header.Get("If-None-Match"), f.etag) {
		head.Del("Content-Type")
		w.WriteHeader(http.StatusNotModified)
		return
	}
	body := f.plain
	accept := r.Header.Get("Accept-Encoding")
	switch {
	case f.br != nil && accepts(accept, "br"):
		body = f.br
		head.Set("Content-Encoding", "br")
	case f.gz != nil && accepts(accept, "gzip"):
		body = f.gz
		head.Set("Content-Encoding", "gzip")
	}
	head.Set("Content-Length", strconv.Itoa(len(body)))
	if r.Method == http.MethodGet {
		w.Write(body) // an error here means that the reader has gone
	}
}

// matches reports whether an If-None-Match header names etag.
func matches(header, etag string) bool {
	for tag := range strings.SplitSeq(header, ",") {
		tag = strings.TrimPrefix(strings.TrimSpace(tag), "W/")
		if tag == etag || tag == "*" {
			return true
		}
	}
	return false
}

// accepts reports whether an Accept-Encoding header names a coding, and not
// with the weight 0 that forbids it.
func accepts(header, coding string) bool {
	for part := range strings.SplitSeq(header, ",") {
		name, weight, _ := strings.Cut(part, ";")
		if strings.TrimSpace(name) != coding {
			continue
		}
		_, q, found := strings.Cut(weight, "q=")
		if !found {
			return true
		}
		value, err := strconv.ParseFloat(strings.TrimSpace(q), 64)
		return err == nil && value > 0
	}
	return false
}
