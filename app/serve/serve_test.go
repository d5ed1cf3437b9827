//go:build !js

package serve

import (
	"io"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"
)

// shell is a small shell: one file with both twins, one with none.
func shell() fs.FS {
	return fstest.MapFS{
		".keep":               {},
		"index.html":          {Data: []byte("<!doctype html>page")},
		"app.wasm":            {Data: []byte("plain wasm")},
		"app.wasm.br":         {Data: []byte("wasm in brotli")},
		"app.wasm.gz":         {Data: []byte("wasm in gzip")},
		"start.js":            {Data: []byte("start")},
		"start.js.gz":         {Data: []byte("start in gzip")},
		"worker.js":           {Data: []byte("worker")},
		"lugmark.css":         {Data: []byte("css")},
		"lugmark.webmanifest": {Data: []byte("{}")},
		"icon.svg":            {Data: []byte("<svg/>")},
		"icon-192.png":        {Data: []byte("png")},
	}
}

func ask(t *testing.T, secure bool, method, target string, header map[string]string) *http.Response {
	t.Helper()
	h, err := Handler(shell(), secure)
	if err != nil {
		t.Fatal(err)
	}
	r := httptest.NewRequest(method, target, nil)
	for name, value := range header {
		r.Header.Set(name, value)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func body(r *http.Response) string {
	data, _ := io.ReadAll(r.Body)
	return string(data)
}

func TestEveryRouteHasItsTypeAndAnswer(t *testing.T) {
	for _, c := range []struct {
		method, target string
		code           int
		kind, cache    string
		body           string // begins with
	}{
		{"GET", "/", 200, "text/html; charset=utf-8", "no-cache", "<!doctype html>page"},
		{"GET", "/job/123", 200, "text/html; charset=utf-8", "no-cache", "<!doctype html>page"},
		{"GET", "/job/123?x=1.5", 200, "text/html; charset=utf-8", "no-cache", "<!doctype html>page"},
		{"HEAD", "/job/123", 200, "text/html; charset=utf-8", "no-cache", ""},
		{"GET", "/app.wasm", 200, "application/wasm", "no-cache", "plain wasm"},
		{"GET", "/start.js", 200, "text/javascript; charset=utf-8", "no-cache", "start"},
		{"GET", "/worker.js", 200, "text/javascript; charset=utf-8", "no-cache", "worker"},
		{"GET", "/lugmark.css", 200, "text/css; charset=utf-8", "no-cache", "css"},
		{"GET", "/lugmark.webmanifest", 200, "application/manifest+json", "no-cache", "{}"},
		{"GET", "/icon.svg", 200, "image/svg+xml", "no-cache", "<svg/>"},
		{"GET", "/icon-192.png", 200, "image/png", "no-cache", "png"},
		{"GET", "/alive", 200, "text/plain; charset=utf-8", "no-store", "alive"},
		{"HEAD", "/alive", 200, "text/plain; charset=utf-8", "no-store", ""},
		{"GET", "/nothing.js", 404, "text/plain; charset=utf-8", "no-store", "There is no such file"},
		{"GET", "/app.wasm.br", 404, "text/plain; charset=utf-8", "no-store", "There is no such file"},
		{"GET", "/.keep", 404, "text/plain; charset=utf-8", "no-store", "There is no such file"},
		{"GET", "/favicon.ico", 404, "text/plain; charset=utf-8", "no-store", "There is no such file"},
		{"GET", "/v1/jobs", 404, "text/plain; charset=utf-8", "no-store", "There is no such file"},
		{"GET", "/ready", 404, "text/plain; charset=utf-8", "no-store", "There is no such file"},
		{"GET", "/openapi.json", 404, "text/plain; charset=utf-8", "no-store", "There is no such file"},
		{"POST", "/", 405, "text/plain; charset=utf-8", "no-store", "This address can only be read"},
		{"DELETE", "/alive", 405, "text/plain; charset=utf-8", "no-store", "This address can only be read"},
		{"PUT", "/app.wasm", 405, "text/plain; charset=utf-8", "no-store", "This address can only be read"},
	} {
		for _, secure := range []bool{false, true} {
			r := ask(t, secure, c.method, c.target, nil)
			if got := body(r); r.StatusCode != c.code || !strings.HasPrefix(got, c.body) || c.method == "HEAD" && got != "" {
				t.Errorf("%s %s: %d %q, want %d %q", c.method, c.target, r.StatusCode, got, c.code, c.body)
			}
			if got := r.Header.Get("Content-Type"); got != c.kind {
				t.Errorf("%s %s: type %q, want %q", c.method, c.target, got, c.kind)
			}
			if got := r.Header.Get("Cache-Control"); got != c.cache {
				t.Errorf("%s %s: cache %q, want %q", c.method, c.target, got, c.cache)
			}
			guards(t, c.method+" "+c.target, r.Header, secure)
		}
	}
}

// guards checks the headers that every answer has, an error too.
func guards(t *testing.T, what string, h http.Header, secure bool) {
	t.Helper()
	want := map[string]string{
		"Content-Security-Policy": "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; " +
			"img-src 'self' blob:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; " +
			"base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
		"X-Content-Type-Options":       "nosniff",
		"Referrer-Policy":              "no-referrer",
		"Permissions-Policy":           "camera=(self), geolocation=(), microphone=(), payment=(), usb=()",
		"Cross-Origin-Opener-Policy":   "same-origin",
		"Cross-Origin-Resource-Policy": "same-origin",
		"Strict-Transport-Security":    "",
		"Access-Control-Allow-Origin":  "",
		"Set-Cookie":                   "",
	}
	if secure {
		want["Strict-Transport-Security"] = "max-age=31536000"
	}
	for name, value := range want {
		if got := h.Get(name); got != value {
			t.Errorf("%s: %s is %q, want %q", what, name, got, value)
		}
	}
}

func TestTwinIsChosenByWhatTheBrowserAccepts(t *testing.T) {
	for _, c := range []struct{ target, accept, coding, body string }{
		{"/app.wasm", "gzip, deflate, br, zstd", "br", "wasm in brotli"},
		{"/app.wasm", "br;q=0.9, gzip", "br", "wasm in brotli"},
		{"/app.wasm", "gzip, deflate", "gzip", "wasm in gzip"},
		{"/app.wasm", "br;q=0, gzip;q=0.5", "gzip", "wasm in gzip"},
		{"/app.wasm", "br; q=0.0, gzip; q=0", "", "plain wasm"},
		{"/app.wasm", "brotli, xgzip", "", "plain wasm"},
		{"/app.wasm", "", "", "plain wasm"},
		{"/start.js", "br", "", "start"},
		{"/start.js", "br, gzip", "gzip", "start in gzip"},
		{"/icon-192.png", "br, gzip", "", "png"},
	} {
		r := ask(t, false, "GET", c.target, map[string]string{"Accept-Encoding": c.accept})
		if got := body(r); got != c.body || r.Header.Get("Content-Encoding") != c.coding {
			t.Errorf("%s accepting %q: %q as %q, want %q as %q", c.target, c.accept, got, r.Header.Get("Content-Encoding"), c.body, c.coding)
		}
		if r.ContentLength != int64(len(c.body)) || r.Header.Get("Vary") != "Accept-Encoding" {
			t.Errorf("%s accepting %q: length %d, Vary %q", c.target, c.accept, r.ContentLength, r.Header.Get("Vary"))
		}
	}
}

func TestUnchangedFileIsNotSentAgain(t *testing.T) {
	etag := ask(t, false, "GET", "/app.wasm", nil).Header.Get("ETag")
	for header, want := range map[string]int{
		etag: 304, "W/" + etag: 304, `"other", ` + etag: 304, "*": 304, `"other"`: 200, "": 200,
	} {
		r := ask(t, false, "GET", "/app.wasm", map[string]string{"If-None-Match": header, "Accept-Encoding": "br"})
		if r.StatusCode != want {
			t.Errorf("If-None-Match %s: %d, want %d", header, r.StatusCode, want)
		}
		if got := body(r); want == 304 && (got != "" || r.Header.Get("Content-Encoding") != "") {
			t.Errorf("If-None-Match %s: a 304 with %q as %q", header, got, r.Header.Get("Content-Encoding"))
		}
		guards(t, "304", r.Header, false)
	}
	if other := ask(t, false, "GET", "/job/1", map[string]string{"If-None-Match": etag}); other.StatusCode != 200 {
		t.Errorf("the tag of one file answered for another: %d", other.StatusCode)
	}
}

func TestProgramWithoutTheAppSaysSo(t *testing.T) {
	if _, err := Handler(fstest.MapFS{".keep": {}}, false); err != ErrNoApp {
		t.Errorf("got %v, want ErrNoApp", err)
	}
	if _, err := Handler(fstest.MapFS{"index.html": {}, "x.exe": {}}, false); err == nil {
		t.Error("a file of unknown type was taken")
	}
}
