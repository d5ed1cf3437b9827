// Package pack makes files smaller as browsers can undo it. The same bytes give
// the same bytes. It does not decide which files are worth it.
package pack

import (
	"bytes"
	"compress/gzip"

	"github.com/andybalholm/brotli"
)

// Brotli packs data; quality is 0 to 11.
func Brotli(data []byte, quality int) ([]byte, error) {
	var out bytes.Buffer
	// Window 24 is 16 MiB, the most a browser accepts: the whole app in one window.
	w := brotli.NewWriterOptions(&out, brotli.WriterOptions{Quality: quality, LGWin: 24})
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	err := w.Close()
	return out.Bytes(), err
}

// Gzip packs data as small as gzip can.
func Gzip(data []byte) ([]byte, error) {
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
