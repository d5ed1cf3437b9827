//go:build !js

package serve

import (
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"io"
	"math/big"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// running starts Run and returns the address it printed, all it printed, and a
// way to stop it that returns its error.
func running(t *testing.T, o Options) (address string, said *bytes.Buffer, stop func() error) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	read, write := io.Pipe()
	ended := make(chan error, 1)
	go func() {
		ended <- Run(ctx, o, shell(), write)
		write.Close()
	}()
	said = &bytes.Buffer{}
	first := make([]byte, 1000)
	n, err := read.Read(first)
	if err != nil {
		t.Fatalf("it ended at once: %v", <-ended)
	}
	said.Write(first[:n])
	copied := make(chan bool)
	go func() {
		io.Copy(said, read)
		close(copied)
	}()
	_, address, _ = strings.Cut(strings.SplitN(said.String(), "\n", 2)[0], " is at ")
	return address, said, func() error {
		cancel()
		err := <-ended
		<-copied
		return err
	}
}

func TestRunPrintsItsAddressAndStops(t *testing.T) {
	address, said, stop := running(t, Options{Listen: "127.0.0.1:0", Open: "demo"})
	if !strings.HasPrefix(address, "http://127.0.0.1:") || !strings.HasSuffix(address, "/demo") {
		t.Errorf("it says it is at %q", address)
	}
	r, err := http.Get(strings.TrimSuffix(address, "demo") + "alive")
	if err != nil {
		t.Fatal(err)
	}
	r.Body.Close()
	if r.StatusCode != 200 {
		t.Errorf("alive: %d", r.StatusCode)
	}
	if err := stop(); err != nil || !strings.Contains(said.String(), "Stopped.") {
		t.Errorf("it ended with %v and said %q", err, said)
	}
	if strings.Contains(said.String(), "--cert") {
		t.Errorf("it warned of loopback: %q", said)
	}
}

func TestRunSaysWhenThePortIsTaken(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	err = Run(t.Context(), Options{Listen: taken.Addr().String()}, shell(), io.Discard)
	if err == nil || !strings.Contains(err.Error(), "another program already listens on "+taken.Addr().String()) {
		t.Errorf("got %v", err)
	}
}

func TestRunWarnsOfPlainHTTPBeyondThisComputer(t *testing.T) {
	_, said, stop := running(t, Options{Listen: "0.0.0.0:0"})
	if err := stop(); err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"no https", "without signal", "--cert and --key"} {
		if !strings.Contains(said.String(), words) {
			t.Errorf("it does not say %q: %q", words, said)
		}
	}
}

func TestRunServesHTTPSWithACertificate(t *testing.T) {
	cert, key, pool := selfSigned(t)
	address, _, stop := running(t, Options{Listen: "127.0.0.1:0", Cert: cert, Key: key})
	client := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool}}}
	r, err := client.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	r.Body.Close()
	guards(t, "https", r.Header, true)
	client.CloseIdleConnections()
	if err := stop(); err != nil {
		t.Error(err)
	}
	for _, o := range []Options{{Cert: cert}, {Key: key}, {Cert: key, Key: cert}} {
		o.Listen = "127.0.0.1:0"
		if err := Run(t.Context(), o, shell(), io.Discard); err == nil {
			t.Errorf("%+v was taken", o)
		}
	}
}

func selfSigned(t *testing.T) (certFile, keyFile string, pool *x509.CertPool) {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	form := x509.Certificate{
		SerialNumber: big.NewInt(1),
		NotBefore:    time.Now().Add(-time.Hour),
		NotAfter:     time.Now().Add(time.Hour),
		IPAddresses:  []net.IP{net.IPv4(127, 0, 0, 1)},
	}
	der, err := x509.CreateCertificate(rand.Reader, &form, &form, key.Public(), key)
	if err != nil {
		t.Fatal(err)
	}
	private, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	write := func(name, kind string, data []byte) string {
		path := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(path, pem.EncodeToMemory(&pem.Block{Type: kind, Bytes: data}), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	parsed, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	pool = x509.NewCertPool()
	pool.AddCert(parsed)
	return write("cert.pem", "CERTIFICATE", der), write("key.pem", "PRIVATE KEY", private), pool
}
