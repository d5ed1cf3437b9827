package seal

import (
	"bytes"
	"strings"
	"testing"
)

// Whatever a person copies: a print of 26 signs of the alphabet, or a sentence.
func FuzzParsePrint(f *testing.F) {
	for _, s := range []string{"", "012345 6789ABC\nDEFGHJ KMNPQ10", "ol23456789abcdefghjkmnpqLO", strings.Repeat("U", 26),
		"\ufeff012345\u202f6789ABC\u2013DEFG\u00adHJKMNPQ10", "ıſ", "\xff\xfe", strings.Repeat("\u0130", 26)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := ParsePrint(text)
		if (err == nil) != (p != "") {
			t.Fatalf("%q: a print or an error, never both or neither: %q, %v", text, string(p), err)
		}
		if err != nil {
			return
		}
		if len(p) != printLen || strings.Trim(string(p), signs) != "" {
			t.Fatalf("%q became %q", text, string(p))
		}
		for _, again := range []string{string(p), p.String(), strings.ToLower(strings.Join(strings.Split(string(p), ""), " - "))} {
			if back, err := ParsePrint(again); err != nil || back != p {
				t.Fatalf("%q became %q, and that became %q, %v", text, string(p), string(back), err)
			}
		}
	})
}

// There is one spelling of a key.
func FuzzParseKey(f *testing.F) {
	f.Add([]byte(derPrefix + strings.Repeat("k", 32)))
	f.Add([]byte(derPrefix))
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, der []byte) {
		if key, err := ParseKey(der); err == nil && !bytes.Equal(EncodeKey(key), der) {
			t.Fatalf("%x is read as %x", der, key)
		}
	})
}
