package e2e

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/chromedp/chromedp"
)

// Shot writes a picture of the screen to build/dist/shots/name.png.
func (p *Phone) Shot(name string) {
	p.T.Helper()
	if err := p.tryShot(name); err != nil {
		p.T.Fatal(err)
	}
}

func (p *Phone) tryShot(name string) error {
	var picture []byte
	if err := p.Try(chromedp.CaptureScreenshot(&picture)); err != nil {
		return err
	}
	path := Dist("shots", name+".png")
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, picture, 0o644)
}

// AxePath is where build/need puts the accessibility rules.
func AxePath() string { return Dist("npm", "node_modules", "axe-core", "axe.min.js") }

// Axe fails the test for every breach of WCAG 2.2 A and AA that can be found by
// program on the present screen. It needs axe-core, which build/need installs;
// without it the test stops, it does not pass.
func (p *Phone) Axe() {
	p.T.Helper()
	rules, err := os.ReadFile(AxePath())
	if err != nil {
		p.T.Fatalf("the accessibility rules are missing: go run ./build/need axe installs them (%v)", err)
	}
	var there bool
	p.Eval(`typeof axe === "object"`, &there)
	if !there {
		p.Eval(string(rules)+"; 0", nil)
	}
	var answer string
	p.Eval(`axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}).then(r =>
		JSON.stringify(r.violations.map(v => ({rule: v.id, help: v.help, nodes: v.nodes.map(n => n.html)}))))`, &answer)
	var breaches []struct {
		Rule, Help string
		Nodes      []string
	}
	if err := json.Unmarshal([]byte(answer), &breaches); err != nil {
		p.T.Fatal(err)
	}
	for _, b := range breaches {
		p.T.Error(fmt.Sprintf("axe: %s: %s\n  %s", b.Rule, b.Help, strings.Join(b.Nodes, "\n  ")))
	}
}

// Theme and Density set how the app looks, as its settings do, and reload.
func (p *Phone) Theme(name string) {
	p.T.Helper()
	p.Eval(fmt.Sprintf(`localStorage.setItem("lugmark.theme", %q)`, name), nil)
	p.Reload()
}

// Density is the size of what is tapped: hand, gloves or desk.
func (p *Phone) Density(name string) {
	p.T.Helper()
	p.Eval(fmt.Sprintf(`localStorage.setItem("lugmark.density", %q)`, name), nil)
	p.Reload()
}
