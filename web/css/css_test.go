// Package css holds the style sheets. They are read as they are by the program
// that puts the phone app together; this test is all the Go in here.
package css

import (
	"compress/gzip"
	"embed"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

//go:embed *.css
var sheets embed.FS

func read(t *testing.T) map[string]string {
	t.Helper()
	entries, err := sheets.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, e := range entries {
		text, err := sheets.ReadFile(e.Name())
		if err != nil {
			t.Fatal(err)
		}
		all[e.Name()] = string(text)
	}
	return all
}

var (
	comment = regexp.MustCompile(`(?s)/\*.*?\*/`)
	colour  = regexp.MustCompile(`--([a-z0-9-]+):\s*#([0-9A-Fa-f]{6})\b`)
)

// themes reads the colour tokens of each theme; light is the root.
func themes(t *testing.T, css string) map[string]map[string]string {
	t.Helper()
	css = comment.ReplaceAllString(css, "")
	found := map[string]map[string]string{}
	for theme, selector := range map[string]string{"light": ":root {", "dark": "[data-theme=dark] {", "sun": "[data-theme=sun] {"} {
		_, rest, ok := strings.Cut(css, selector)
		if !ok {
			t.Fatalf("no block %s", selector)
		}
		block, _, _ := strings.Cut(rest, "}")
		found[theme] = map[string]string{}
		for _, m := range colour.FindAllStringSubmatch(block, -1) {
			found[theme][m[1]] = m[2]
		}
	}
	return found
}

// luminance and ratio after WCAG 2.2, "relative luminance" and "contrast ratio".
func luminance(hex string) float64 {
	n, _ := strconv.ParseUint(hex, 16, 32)
	part := func(shift uint) float64 {
		c := float64(n>>shift&255) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*part(16) + 0.7152*part(8) + 0.0722*part(0)
}

func ratio(a, b string) float64 {
	x, y := luminance(a), luminance(b)
	if x < y {
		x, y = y, x
	}
	return (x + 0.05) / (y + 0.05)
}

// hand: white on black is (1 + 0.05) / (0 + 0.05) = 21. #777777 on white is
// given as 4.48 in WCAG's own techniques.
func TestRatio(t *testing.T) {
	if r := ratio("FFFFFF", "000000"); math.Abs(r-21) > 1e-9 {
		t.Error(r)
	}
	if r := ratio("777777", "FFFFFF"); math.Abs(r-4.48) > 0.005 {
		t.Error(r)
	}
}

// A text pair needs 7:1 in light and dark, and 10:1 where it is read in the sun.
func TestContrast(t *testing.T) {
	textPairs := [][2]string{
		{"ink", "bg"}, {"ink", "surface"}, {"ink-2", "bg"}, {"ink-2", "surface"}, {"ink", "off-tint"}, {"bg", "ink"},
		{"act", "bg"}, {"act", "surface"}, {"on-act", "act"},
		{"pass", "bg"}, {"pass", "surface"}, {"pass", "pass-tint"},
		{"fail", "bg"}, {"fail", "surface"}, {"fail", "fail-tint"}, {"fail", "fail-wash"}, {"ink", "fail-wash"}, {"ink", "fail-tint"},
		{"unk", "bg"}, {"unk", "surface"}, {"unk", "unk-tint"}, {"unk", "unk-wash"}, {"ink", "unk-wash"}, {"ink", "unk-tint"},
		{"off", "bg"}, {"off", "surface"}, {"off", "off-tint"},
	}
	linePairs := [][2]string{{"rule", "bg"}, {"rule", "surface"}, {"rule", "off-tint"}, {"focus", "bg"}, {"focus", "surface"}, {"focus", "off-tint"},
		{"line-v", "surface"}, {"line-a", "surface"}, {"line-t", "surface"}}
	least := map[string]float64{"light": 7, "dark": 7, "sun": 10}
	for theme, tokens := range themes(t, read(t)["tokens.css"]) {
		check := func(pairs [][2]string, want float64) {
			for _, p := range pairs {
				a, b := tokens[p[0]], tokens[p[1]]
				if a == "" || b == "" {
					t.Errorf("%s: --%s or --%s has no colour", theme, p[0], p[1])
				} else if r := ratio(a, b); r < want {
					t.Errorf("%s: --%s on --%s is %.2f:1, want %g:1", theme, p[0], p[1], r, want)
				}
			}
		}
		check(textPairs, least[theme])
		check(linePairs, 3)
	}
}

// Paper has its own few colours; they are read on white.
func TestPaperContrast(t *testing.T) {
	_, rest, _ := strings.Cut(comment.ReplaceAllString(read(t)["sheet.css"], ""), ".sheet {")
	block, _, _ := strings.Cut(rest, "}")
	found := 0
	for _, m := range colour.FindAllStringSubmatch(block, -1) {
		least := 10.0
		switch m[1] {
		case "bg", "surface", "fail-wash", "unk-wash", "fail-tint", "unk-tint":
			continue
		case "rule":
			least = 3
		}
		found++
		if r := ratio(m[2], "FFFFFF"); r < least {
			t.Errorf("paper: --%s is %.2f:1", m[1], r)
		}
	}
	if found < 6 {
		t.Errorf("only %d colours found", found)
	}
}

// The app runs under a policy without inline styles and fetches nothing: no
// file may point anywhere.
func TestSheetsPointNowhere(t *testing.T) {
	for name, text := range read(t) {
		for _, bad := range []string{"url(", "@import", "image-set(", "expression("} {
			if strings.Contains(strings.ToLower(text), bad) {
				t.Errorf("%s contains %s", name, bad)
			}
		}
		text = comment.ReplaceAllString(text, "")
		if open, shut := strings.Count(text, "{"), strings.Count(text, "}"); open != shut {
			t.Errorf("%s: %d { and %d }", name, open, shut)
		}
		for _, used := range regexp.MustCompile(`var\(--([a-z0-9-]+)`).FindAllStringSubmatch(text, -1) {
			if !declared(t, used[1]) {
				t.Errorf("%s uses --%s, which nothing sets", name, used[1])
			}
		}
	}
}

// declared tells whether a property is set in some sheet, or by the app through
// the object model.
func declared(t *testing.T, name string) bool {
	switch name {
	case "x", "y", "wd", "ht", "n", "c", "k", "fill", "wash":
		return true
	}
	for _, text := range read(t) {
		if strings.Contains(text, "--"+name+":") {
			return true
		}
	}
	return false
}

// Sides are logical, so that a right-to-left language mirrors by itself. The
// one exception is the place of a button over a drawing, which never mirrors.
func TestSidesAreLogical(t *testing.T) {
	physical := regexp.MustCompile(`[{;\s](margin|padding|border|inset)?-?(left|right):|(margin|padding|border)-(top|bottom)|text-align: (left|right)|[\s{;](width|height|top|bottom):`)
	for name, text := range read(t) {
		for i, line := range strings.Split(comment.ReplaceAllString(text, ""), "\n") {
			if physical.MatchString(line) && !strings.Contains(line, "left: var(--x)") && !strings.Contains(line, "@media") {
				t.Errorf("%s:%d: %s", name, i+1, strings.TrimSpace(line))
			}
		}
	}
}

// Bytes count on a slow link: what is read, and what travels. Some
// 1500 of the raw ones are text of twice the size and the page on Letter paper.
const (
	mostRaw    = 33_500
	mostZipped = 9 << 10
)

func TestSize(t *testing.T) {
	raw, zipped := 0, counter(0)
	w := gzip.NewWriter(&zipped)
	for _, text := range read(t) {
		raw += len(text)
		if _, err := io.WriteString(w, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if raw > mostRaw || int(zipped) > mostZipped {
		t.Errorf("%d bytes, %d zipped", raw, zipped)
	}
	t.Logf("%d bytes, %d zipped", raw, zipped)
}

type counter int

func (c *counter) Write(p []byte) (int, error) { *c += counter(len(p)); return len(p), nil }
