package e2e

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// sizes are the two papers [pt], as a PDF rounds them.
var sizes = map[string]*regexp.Regexp{
	"A4":     regexp.MustCompile(`MediaBox ?\[0 0 59[45][.0-9]* 84[12][.0-9]*\]`),
	"Letter": regexp.MustCompile(`MediaBox ?\[0 0 612[.0]* 792[.0]*\]`),
}

var pdfPage = regexp.MustCompile(`/Type ?/Page\b[^s]`)

// Print prints the screen as the browser would, and reads the paper: every
// value as it was typed, and the fingerprint.
func (w *Walker) Print(t *testing.T, paper, fingerprint string) {
	t.Helper()
	var pdf []byte
	w.Do(chromedp.ActionFunc(func(ctx context.Context) (err error) {
		pdf, _, err = page.PrintToPDF().WithPreferCSSPageSize(true).WithPrintBackground(true).Do(ctx)
		return err
	}))
	path := Dist("shots", "walk-"+strings.ToLower(paper)+".pdf")
	if err := os.WriteFile(path, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	if !sizes[paper].Match(pdf) {
		t.Errorf("%s: the paper is %s", paper, regexp.MustCompile(`MediaBox ?\[[^\]]*\]`).Find(pdf))
	}
	if pages := len(pdfPage.FindAll(pdf, -1)); pages > 14 {
		t.Errorf("%s: %d pages for four blocks", paper, pages)
	}
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Logf("%s: %d bytes; its words are not read, for pdftotext is not here", paper, len(pdf))
		return
	}
	said, err := exec.Command("pdftotext", "-enc", "UTF-8", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	words := map[string]int{}
	for _, word := range strings.FieldsFunc(string(said), func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(";,:()", r) }) {
		words[strings.TrimSuffix(word, ".")]++
	}
	need := map[string]int{}
	for _, k := range w.Standing() {
		if digits, _, found := strings.Cut(k.Value, " "); found && strings.Trim(digits, "0123456789.") == "" {
			need[digits]++
		}
	}
	for digits, n := range need {
		if words[digits] < n {
			t.Errorf("%s: %q stands %d times on the paper and was kept %d times", paper, digits, words[digits], n)
		}
	}
	if !strings.Contains(strings.Join(strings.Fields(string(said)), ""), fingerprint) {
		t.Errorf("%s: the fingerprint %s is not on the paper", paper, fingerprint)
	}
}

// sheet is what the handover screen shows, by part and by field.
type sheet struct {
	cells map[string]string   // "part|field" to the value
	lines map[string][]string // part to its entries in one cell
}

// shown reads the tables of the handover screen.
func (w *Walker) shown() sheet {
	w.T.Helper()
	var rows []struct{ Part, Field, Text string }
	w.Eval(`(() => {
		const says = el => el.innerText.replace(/\s+/g, " ").trim(), out = [];
		for (const table of document.querySelectorAll(".sheet table")) {
			const heads = [...table.querySelectorAll("thead th, thead td")].map(says);
			for (const row of table.querySelectorAll("tbody tr")) {
				const cells = [...row.children].map(says);
				const samples = heads[1] === "V" && heads[2] === "A";
				for (let i = 1; i < cells.length; i++) out.push({part: samples ? "sample " + cells[1] : cells[0].split(": ")[0], field: heads[i] || "", text: cells[i]});
			}
		}
		return out;
	})()`, &rows)
	s := sheet{map[string]string{}, map[string][]string{}}
	for _, r := range rows {
		r.Text = strings.ReplaceAll(r.Text, "\u2212", "-")
		s.cells[r.Part+"|"+r.Field] = r.Text
		s.lines[r.Part] = append(s.lines[r.Part], r.Text)
	}
	return s
}

// has reports whether a kept value stands on the sheet.
func (s sheet) has(k Kept) bool {
	if s.cells[k.Part+"|"+k.Field] == k.Value {
		return true
	}
	for _, line := range s.lines[k.Part] {
		if strings.HasPrefix(line, k.Value) { // an override: who, and why, and what did not pass
			return true
		}
		for _, entry := range strings.Split(line, "; ") {
			if strings.EqualFold(entry, fmt.Sprintf("%s: %s", k.Field, k.Value)) {
				return true
			}
		}
	}
	return false
}
