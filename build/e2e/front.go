package e2e

import (
	"net"
	"net/http"
	"net/http/httputil"
	"net/url"
	"strconv"
	"sync/atomic"
	"testing"
)

// Front stands before a server at an address that stays, so that what answers
// there can change under a browser: another release, a line that is cut, nothing.
type Front struct {
	URL string

	target atomic.Pointer[url.URL]
	cut    atomic.Value // path whose answers break half way; "" none
	count  atomic.Int64 // requests that reached it
}

// NewFront starts a front before a server.
func NewFront(t *testing.T, s *Server) *Front {
	t.Helper()
	f := &Front{}
	f.cut.Store("")
	f.Lead(t, s)
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	server := &http.Server{Handler: f}
	go server.Serve(listener)
	t.Cleanup(func() { server.Close() })
	f.URL = "http://" + listener.Addr().String()
	return f
}

// Lead sends what comes from now on to another server; nil to none.
func (f *Front) Lead(t *testing.T, s *Server) {
	t.Helper()
	if s == nil {
		f.target.Store(nil)
		return
	}
	u, err := url.Parse(s.URL)
	if err != nil {
		t.Fatal(err)
	}
	f.target.Store(u)
}

// Cut breaks every answer for path half way; "" mends the line.
func (f *Front) Cut(path string) { f.cut.Store(path) }

// Requests returns how many have come so far.
func (f *Front) Requests() int64 { return f.count.Load() }

func (f *Front) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	f.count.Add(1)
	target := f.target.Load()
	if target == nil {
		hangUp(w)
		return
	}
	proxy := httputil.NewSingleHostReverseProxy(target)
	proxy.ErrorHandler = func(w http.ResponseWriter, _ *http.Request, _ error) { hangUp(w) }
	if r.URL.Path == f.cut.Load() {
		r.Header.Del("If-None-Match") // a cut line has a body to cut
		proxy.ServeHTTP(&half{ResponseWriter: w}, r)
		return
	}
	proxy.ServeHTTP(w, r)
}

// hangUp breaks the connection without an answer, as a dead server does.
func hangUp(http.ResponseWriter) { panic(http.ErrAbortHandler) }

// half passes on half of what was promised and then hangs up.
type half struct {
	http.ResponseWriter
	left int
}

func (h *half) WriteHeader(code int) {
	total, _ := strconv.Atoi(h.Header().Get("Content-Length"))
	h.left = total / 2
	h.ResponseWriter.WriteHeader(code)
}

func (h *half) Write(p []byte) (int, error) {
	if len(p) > h.left {
		h.ResponseWriter.Write(p[:h.left])
		http.NewResponseController(h.ResponseWriter).Flush()
		hangUp(h)
	}
	h.left -= len(p)
	return h.ResponseWriter.Write(p)
}
