//go:build !js

package serve

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"syscall"
	"time"
)

// Options is what Run needs to know.
type Options struct {
	Listen string // address and port, "127.0.0.1:8093"; port 0 takes a free one
	Cert   string // files for https; both or none
	Key    string
	Open   string // path to open first, without the slash; "" is the first page
}

// Run serves the shell until ctx ends, then lets what is under way finish, for
// five seconds at most. It prints the address to out once it answers there.
func Run(ctx context.Context, o Options, shell fs.FS, out io.Writer) error {
	secure := o.Cert != "" && o.Key != ""
	if !secure && (o.Cert != "" || o.Key != "") {
		return errors.New("serve: --cert and --key go together")
	}
	handler, err := Handler(shell, secure)
	if err != nil {
		return err
	}
	server := &http.Server{
		Handler:           handler,
		ReadHeaderTimeout: 10 * time.Second,
		ReadTimeout:       30 * time.Second,
		WriteTimeout:      10 * time.Minute, // the app over a very slow line
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    16 << 10,
	}
	scheme := "http"
	if secure {
		scheme = "https"
		pair, err := tls.LoadX509KeyPair(o.Cert, o.Key)
		if err != nil {
			return fmt.Errorf("serve: certificate: %w", err)
		}
		server.TLSConfig = &tls.Config{Certificates: []tls.Certificate{pair}, MinVersion: tls.VersionTLS12}
	}
	listener, err := net.Listen("tcp", o.Listen)
	if errors.Is(err, syscall.EADDRINUSE) {
		return fmt.Errorf("serve: another program already listens on %s: stop it, or choose a port with --listen 127.0.0.1:0", o.Listen)
	}
	if err != nil {
		return fmt.Errorf("serve: %w", err)
	}
	fmt.Fprintf(out, "Lugmark is at %s://%s/%s\nOpen that address in a browser on this computer. Ctrl-C stops it.\n",
		scheme, listener.Addr(), o.Open)
	if !secure && !loopback(listener.Addr()) {
		fmt.Fprint(out, "Beyond this computer that address has no https: a phone will open it, but keep nothing\n"+
			"for use without signal and not allow the camera. Give --cert and --key, or put a server with https in front.\n")
	}

	ended := make(chan error, 1)
	go func() {
		if secure {
			ended <- server.ServeTLS(listener, "", "")
		} else {
			ended <- server.Serve(listener)
		}
	}()
	select {
	case err := <-ended:
		return fmt.Errorf("serve: %w", err)
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	if err := server.Shutdown(last); err != nil {
		return fmt.Errorf("serve: stop: %w", err)
	}
	fmt.Fprintln(out, "Stopped.")
	return nil
}

func loopback(addr net.Addr) bool {
	tcp, ok := addr.(*net.TCPAddr)
	return ok && tcp.IP.IsLoopback()
}
