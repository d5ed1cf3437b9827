package e2e

import (
	"bufio"
	"net/url"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// Server is the real program, serving.
type Server struct {
	URL string // "http://127.0.0.1:40000", without a slash at the end

	t    *testing.T
	args []string
	cmd  *exec.Cmd
}

// Serve starts lugmark serve on a free port. More arguments may be given. It is
// killed when the test ends.
func Serve(t *testing.T, args ...string) *Server {
	t.Helper()
	s := &Server{t: t, args: args}
	s.start("127.0.0.1:0")
	t.Cleanup(s.Kill)
	return s
}

func (s *Server) start(listen string) {
	s.t.Helper()
	s.cmd = exec.Command(Dist("lugmark"), append([]string{"serve", "--listen", listen}, s.args...)...)
	out, err := s.cmd.StdoutPipe()
	if err != nil {
		s.t.Fatal(err)
	}
	var complaints strings.Builder
	s.cmd.Stderr = &complaints
	if err := s.cmd.Start(); err != nil {
		s.t.Fatal(err)
	}
	address := make(chan string, 1)
	go func() {
		lines := bufio.NewScanner(out)
		for lines.Scan() {
			if _, after, found := strings.Cut(lines.Text(), " is at "); found {
				address <- strings.TrimRight(after, "/")
			}
		}
		close(address)
	}()
	select {
	case url, ok := <-address:
		if !ok {
			s.cmd.Wait()
			s.t.Fatalf("lugmark serve ended: %s", complaints.String())
		}
		s.URL = url
	case <-time.After(20 * time.Second):
		s.t.Fatal("lugmark serve did not say its address")
	}
}

// Kill ends the program at once; no goodbye to any browser.
func (s *Server) Kill() {
	if s.cmd == nil {
		return
	}
	s.cmd.Process.Kill()
	s.cmd.Wait()
	s.cmd = nil
}

// Restart starts the program again at the same address.
func (s *Server) Restart() {
	s.t.Helper()
	s.Kill()
	u, err := url.Parse(s.URL)
	if err != nil {
		s.t.Fatal(err)
	}
	s.start(u.Host)
}
