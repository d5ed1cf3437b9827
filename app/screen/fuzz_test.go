package screen

import (
	"strings"
	"testing"

	"lugmark/checks"
)

// Whatever is typed or pasted, the point that sets itself adds one sign at most
// and changes none of those that were typed.
func FuzzPointed(f *testing.F) {
	for _, x := range [][2]string{{"132", "1320"}, {"13.2", "1320"}, {"", "-1320"}, {"-", "--1320"}, {"1", "٣٣٣٣"}, {"", "\xff13"}, {"13.", "13.2.1"}} {
		f.Add(x[0], x[1])
	}
	field, _ := checks.FieldOf("rest-voltage", "b1")
	f.Fuzz(func(t *testing.T, before, text string) {
		for _, point := range []string{".", ","} {
			got := pointed(field, before, text, point)
			if got != text && (len(got) != len(text)+1 || strings.Replace(got, point, "", 1) != text) {
				t.Fatalf("%q after %q became %q", text, before, got)
			}
		}
	})
}
