package job

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"testing"
)

func FuzzDecode(f *testing.F) {
	files, _ := filepath.Glob(filepath.Join("testdata", "events", "*.json"))
	for _, name := range files {
		raw, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(raw)
	}
	f.Add([]byte(`{"v":1,"v":1}`))                    // doubled
	f.Add([]byte(`{"V":1}`))                          // another case
	f.Add([]byte(`{"v":1e0,"id":"\ud83d\ude00\ud8"`)) // escapes that end early
	f.Add([]byte(`[[[[[[[[[[`))
	f.Fuzz(func(t *testing.T, raw []byte) {
		e, err := Decode(raw)
		if err != nil {
			return
		}
		if !json.Valid(raw) {
			t.Fatal("kept what is not JSON")
		}
		again, err := Encode(e)
		if err != nil {
			t.Fatalf("read, but not written: %v", err)
		}
		back, err := Decode(again)
		if err != nil {
			t.Fatal(err)
		}
		back.Raw, back.Hash = e.Raw, e.Hash
		if !reflect.DeepEqual(back, e) {
			t.Fatalf("%+v\nwritten and read again\n%+v", e, back)
		}
		s := New(e.Job)
		if err := s.Apply(e); err != nil || s.Len() != 1 {
			t.Fatalf("read, but not applied: %v", err)
		}
		if bytes.ContainsAny(raw, "\n\r") {
			t.Fatal("an event is one line")
		}
		Refs(e)
		s.Frontier()
		s.UnknownFields()
	})
}

// What Strict takes, encoding/json takes too.
func FuzzStrict(f *testing.F) {
	f.Add([]byte(` {"a" : [ -1.5e+3 , null, "\u00e9\ud83d\ude00" ] }`))
	f.Add([]byte("{\"a\":1,\n\"a\":2}"))
	f.Add([]byte(`"\ud800"`))
	f.Add([]byte(`01`))
	f.Fuzz(func(t *testing.T, text []byte) {
		if Strict(text, 8) == nil && !json.Valid(text) {
			t.Fatalf("%q is not JSON", text)
		}
	})
}

// A key and a head have one spelling each.
func FuzzParseKey(f *testing.F) {
	for _, s := range []string{"v1/b3/rest-voltage", "v1/b1.n~b2.p@b1.n/joint-r", "//", "v1/b1", "v1/b1/a/b", "v1/b1/ü"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if k, err := ParseKey(s); err == nil && k.String() != s {
			t.Fatalf("%q is read as %q", s, k.String())
		}
	})
}

func FuzzParseHead(f *testing.F) {
	const sum = " 4f5e3a2b4f5e3a2b4f5e3a2b4f5e3a2b4f5e3a2b4f5e3a2b4f5e3a2b4f5e3a2b"
	for _, s := range []string{"abcdefghijklmnop 17" + sum, "abcdefghijklmnop 017" + sum, "abcdefghijklmnop -1" + sum, "abcdefghijklmnop 1  ", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if h, err := ParseHead(s); err == nil && (h.String() != s || h.Seq < 1) {
			t.Fatalf("%q is read as %q", s, h)
		}
	})
}
