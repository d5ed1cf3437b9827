package pack

import (
	"bytes"
	"compress/gzip"
	"io"
	"testing"

	"github.com/andybalholm/brotli"
)

func TestPackedComesBack(t *testing.T) {
	data := bytes.Repeat([]byte("block 3, 13.20 V\n"), 500)
	br, err := Brotli(data, 9)
	if err != nil {
		t.Fatal(err)
	}
	gz, err := Gzip(data)
	if err != nil {
		t.Fatal(err)
	}
	unzip, err := gzip.NewReader(bytes.NewReader(gz))
	if err != nil {
		t.Fatal(err)
	}
	for name, r := range map[string]io.Reader{"brotli": brotli.NewReader(bytes.NewReader(br)), "gzip": unzip} {
		if got, err := io.ReadAll(r); err != nil || !bytes.Equal(got, data) {
			t.Errorf("%s did not give the same back: %v", name, err)
		}
	}
	if again, _ := Brotli(data, 9); !bytes.Equal(again, br) {
		t.Error("brotli gave other bytes the second time")
	}
	if again, _ := Gzip(data); !bytes.Equal(again, gz) {
		t.Error("gzip gave other bytes the second time")
	}
}
