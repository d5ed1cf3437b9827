package e2e

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"
)

// view is one screen in one state: where it is, and what a person does there
// to see it so.
type view struct {
	name string
	path string // "/…", or after the address of a sample: "jetty/why/…"
	do   func(p *Phone)
}

// views are the screens of the app on the sample jobs.
var views = []view{
	{"jobs", "/", nil},
	{"menu", "/menu", nil},
	{"check", "/check", nil},
	{"check-record", "/check", func(p *Phone) {
		p.choose("check-file", "../../core/record/testdata/first.txt")
		p.Sees("Sound: every signature is good")
	}},
	{"register", "/register", nil},
	{"new-job", "/new", nil},
	{"new-job-slips", "/new", func(p *Phone) {
		p.Type("Name of the site", "")
		p.Type("Your name", "")
		p.Tap("Start this job")
		p.Sees("Put right first")
	}},
	{"bank", "jetty", nil},
	{"bank-words", "jetty", func(p *Phone) { p.Tap("Words"); p.Until("the words are there", `document.querySelector("ul.rows")`) }},
	{"bank-done", "hut", nil},
	{"bank-sixteen", "barge", nil},
	{"steps", "jetty/steps", nil},
	{"stage-before", "jetty/stage/before", nil},
	{"stage-receive", "jetty/stage/receive", nil},
	{"stage-match", "jetty/stage/match", nil},
	{"stage-wire", "jetty/stage/wire", nil},
	{"stage-switch-on", "hut/stage/switch-on", nil},
	{"stage-first-charge", "hut/stage/first-charge", nil},
	{"stage-prove", "hut/stage/prove", nil},
	{"stage-hand-over", "hut/stage/hand-over", nil},
	{"stage-match-rest", "mast/stage/match", nil},
	{"reading", "jetty/read/arrival-voltage/b2", nil},
	{"reading-typed", "jetty/read/arrival-voltage/b3", func(p *Phone) {
		p.Tap("Voltage on arrival")
		for _, d := range "1320" {
			p.Press(string(d))
		}
		p.Sees("Not kept yet: 13.20 V")
	}},
	{"reading-doubt", "jetty/read/arrival-voltage/b4", func(p *Phone) { p.Tap("Voltage on arrival"); p.Press("99"); p.Press("\r"); p.Sees("Did you mean") }},
	{"reading-slip", "jetty/read/arrival-voltage/b1", func(p *Phone) { p.Tap("Voltage on arrival"); p.Press("13.2.1"); p.Sees("more than one point or comma") }},
	{"reading-cant", "jetty/read/rest-voltage/b2", func(p *Phone) { p.Tap("Can't measure this"); p.Sees("Cannot measure this?") }},
	{"reading-where", "jetty/read/rest-voltage/b2", func(p *Phone) {
		p.Tap("Where to touch")
		p.Until("the plate is there", `document.querySelector("main figure svg")`)
	}},
	{"reading-joint", "jetty/read/drop/b1.n~b2.p@b1.n", nil},
	{"form-sheet", "jetty/enter/sheet1/before", nil},
	{"form-meter", "jetty/enter/m1/before", nil},
	{"form-slips", "jetty/enter/charger1/switch-on", func(p *Phone) {
		p.Type("Absorption voltage, as left, V", "28..4")
		p.Type("Charge current, as left, A", "20 V")
		p.Tap("Keep")
		p.Sees("Put right first")
	}},
	{"why-fail", "jetty/why/voltage-match/sB", nil},
	{"why-cant-tell", "jetty/why/fault-break/fuse.main", nil},
	{"form-topic", "jetty/enter/bank/before/lift", nil},
	{"form-put-off", "jetty/enter/bank/wire/insulation", func(p *Phone) { p.Tap("Cannot answer this?") }},
	{"form-ticks", "hut/enter/bank/hand-over", nil},
	{"why-pass", "jetty/why/plan-series/bank", nil},
	{"why-to-do", "jetty/why/torque/b1.p", nil},
	{"open", "jetty/open", nil},
	{"photos", "jetty/photos", nil},
	{"personal", "hut/personal", func(p *Phone) { p.Sees("Ines Varga") }},
	{"part-block", "jetty/part/b4", nil},
	{"part-link", "jetty/part/b1.n~b2.p", nil},
	{"part-switch", "jetty/part/switch", nil},
	{"hold-series", "jetty/hold/series/b1.n~b2.p", nil},
	{"hold-parallel", "jetty/hold/parallel/sA.p~sB.p", nil},
	{"hold-main", "jetty/hold/main/switch", nil},
	{"hold-charge", "jetty/hold/charge/bank", nil},
	{"hold-done", "hut/hold/main/switch", nil},
	{"hold-test", "hut/hold/test/bank", nil},
	{"hold-overridden", "jetty/hold/series/b3.n~b4.p", func(p *Phone) {
		if !p.Can("It is closed now") {
			p.Eval(`[...document.querySelectorAll("details")].forEach(d => d.open = true)`, nil)
			p.Type("Reason, in a sentence", "The owner asked for it in writing")
			p.Tap("Override this hold point")
			p.Sees("Override kept")
		}
	}},
	{"charge", "hut/charge", nil},
	{"charge-slips", "hut/charge", func(p *Phone) { p.Type("Voltage, V", "5x"); p.Tap("Keep sample"); p.Sees("Put right first") }},
	{"handover", "hut/handover", nil},
	{"handover-open", "jetty/handover", nil},
}

var themes = []string{"light", "dark", "sun"}

// Every screen, in every theme: the accessibility rules, what a finger needs,
// narrow phones and large text, and a picture of each for people to look at.
func TestScreens(t *testing.T) {
	server := Serve(t)
	p := Open(t, server.URL+"/")
	p.Size(walkWidth, walkHeight)
	p.Tap("Sample jobs")
	p.Sees("The sample jobs are here")
	jobs := p.jobs()
	for _, name := range []string{"jetty", "hut", "mast", "barge"} {
		if jobs["Invented "+name] == "" {
			t.Fatalf("there is no sample %s among %v", name, jobs)
		}
	}
	for _, v := range views {
		t.Run(v.name, func(t *testing.T) {
			p.T = t
			path := v.path
			if !strings.HasPrefix(path, "/") {
				sample, rest, _ := strings.Cut(path, "/")
				path = jobs["Invented "+sample] + "/" + rest
			}
			p.visit(path)
			p.focusOnTitle()
			if v.do != nil {
				v.do(p)
			}
			p.structure()
			p.targets()
			p.narrow()
			for i, theme := range themes {
				p.Eval(fmt.Sprintf(`document.documentElement.dataset.theme = %q`, theme), nil)
				p.frame()
				p.rules(theme, i == 0)
				p.Shot(theme + "/" + v.name)
			}
			p.Eval(`document.documentElement.dataset.theme = "light"`, nil)
			p.console.complain(t)
		})
	}
	p.T = t
}

// jobs gives the address of each job on the list by the name of its site.
func (p *Phone) jobs() map[string]string {
	p.T.Helper()
	var out map[string]string
	p.Eval(`Object.fromEntries([...document.querySelectorAll("a.job")].map(a => [a.querySelector("h2").innerText.trim(), a.getAttribute("href")]))`, &out)
	return out
}

// visit goes to an address inside the running app, as a link does.
func (p *Phone) visit(path string) {
	p.T.Helper()
	p.Eval(fmt.Sprintf(`(async () => {
		const link = href => {
			const a = document.createElement("a");
			a.href = href;
			document.body.append(a);
			a.click();
			a.remove();
		};
		if (location.pathname === new URL(%[1]q, location.origin).pathname) link("/menu#" + Math.random()); // it would go nowhere
		link(%[1]q);
	})()`, path), nil)
	p.Until("the address is "+path, fmt.Sprintf(`location.pathname + location.search === new URL(%q, location.origin).pathname + new URL(%q, location.origin).search`, path, path))
	p.Until("the screen is drawn", `document.querySelector("h1") && !/^Opening/.test(document.querySelector("main").innerText.trim())`)
	p.frame()
}

// focusOnTitle checks that a reader hears the title of the new screen first.
func (p *Phone) focusOnTitle() {
	p.T.Helper()
	var on string
	if err := wait(func() error {
		p.Eval(`document.activeElement ? document.activeElement.tagName + "#" + document.activeElement.id : ""`, &on)
		if on != "H1#title" {
			return fmt.Errorf("%s", on)
		}
		return nil
	}); err != nil {
		p.T.Errorf("the focus is on %s, not on the title", on)
	}
}

// structure checks what a reader walks by: one h1, no heading level skipped,
// one main, a title of the page.
func (p *Phone) structure() {
	p.T.Helper()
	var s struct {
		H1, Main int
		Title    string
		Levels   []int
		Twice    []string
	}
	p.Eval(`({
		h1: [...document.querySelectorAll("h1")].filter(h => h.getClientRects().length).length, main: document.querySelectorAll("main").length, title: document.title,
		levels: [...document.querySelectorAll("h1,h2,h3,h4,h5,h6")].filter(h => h.getClientRects().length).map(h => +h.tagName[1]),
		twice: [...document.querySelectorAll("[id]")].map(e => e.id).filter((id, i, all) => all.indexOf(id) !== i),
	})`, &s)
	if s.H1 != 1 || s.Main != 1 || s.Title == "" {
		p.T.Errorf("%d h1, %d main, title %q", s.H1, s.Main, s.Title)
	}
	for i := 1; i < len(s.Levels); i++ {
		if s.Levels[i] > s.Levels[i-1]+1 {
			p.T.Errorf("the headings go %v", s.Levels)
			break
		}
	}
	if len(s.Twice) > 0 {
		p.T.Errorf("ids that stand twice: %v", s.Twice)
	}
}

// targets checks that everything to tap is as large as a bare hand needs
// [CSS px]: 56 high and 44 wide; in the drawing 44, for there the drawing
// decides; a box inside its label counts as the label.
func (p *Phone) targets() {
	p.T.Helper()
	var was string
	p.Eval(`(() => { const html = document.documentElement.dataset, was = html.density; html.density = "hand"; return was; })()`, &was)
	p.frame()
	defer p.Eval(fmt.Sprintf(`document.documentElement.dataset.density = %q; 0`, was), nil)
	var small []string
	p.Eval(`[...document.querySelectorAll("a[href], button, summary, input, select, textarea, label")].flatMap(el => {
		if (el.matches("label") && !el.querySelector("input")) return [];
		if (el.matches("input") && el.closest("label")) return [];
		const r = (el.closest(".field") || el).getBoundingClientRect();
		if (!r.width || el.closest("[hidden]") || getComputedStyle(el).visibility === "hidden") return [];
		const least = el.matches(".hit") ? 44 : 56;
		return r.height < least - 0.5 || r.width < 43.5 ? [el.tagName + " " + (el.getAttribute("aria-label") || el.innerText || el.id).trim().slice(0, 40) + ": " + Math.round(r.width) + " by " + Math.round(r.height)] : [];
	})`, &small)
	for _, s := range small {
		p.T.Errorf("too small to tap: %s", s)
	}
}

// narrow checks that nothing has to be scrolled sideways, on narrow phones and
// with text of twice the size.
func (p *Phone) narrow() {
	p.T.Helper()
	for _, width := range []int64{320, 430, walkWidth} {
		p.Size(width, walkHeight)
		p.frame()
		p.fits(fmt.Sprintf("%d px", width))
	}
	p.Eval(`(() => { const html = document.documentElement; html.style.fontSize = 2 * parseFloat(getComputedStyle(html).fontSize) + "px"; })()`, nil)
	p.frame()
	p.fits("360 px, text of twice the size")
	p.Eval(`document.documentElement.style.fontSize = ""`, nil)
	p.frame()
}

// fits checks that the page is not wider than the window, and that nothing in
// it is cut off at the side: what may be scrolled in a box of its own is not.
func (p *Phone) fits(where string) {
	p.T.Helper()
	var over string
	for range 5 { // a page that was just made narrower may need a moment
		p.Eval(`(() => {
			const html = document.documentElement, w = html.clientWidth;
			const scrolls = el => { for (let e = el.parentElement; e && e !== document.body; e = e.parentElement) { const o = getComputedStyle(e).overflowX; if (o === "auto" || o === "scroll") return true; } return false; };
			const over = [...document.querySelectorAll("body *")].filter(el => {
				const r = el.getBoundingClientRect();
				return r.width > 1 && r.height > 1 && r.right > w + 1 && !el.closest(".vh, svg") && !scrolls(el);
			}).slice(0, 3).map(el => el.tagName + "." + el.className + " " + (el.innerText || "").trim().slice(0, 40) + ", right edge at " + Math.round(el.getBoundingClientRect().right));
			if (html.scrollWidth > w) over.unshift("the page is " + html.scrollWidth + " px wide");
			return over.join("; ");
		})()`, &over)
		if over == "" {
			return
		}
		p.frame()
	}
	p.T.Errorf("%s: %s", where, over)
}

// rules runs axe-core: all of WCAG 2.2 A and AA and the regions once, in the
// other themes only what depends on colour. The size of targets is measured
// above: axe takes a row that lies half under the foot for a small one.
func (p *Phone) rules(theme string, all bool) {
	p.T.Helper()
	source, err := os.ReadFile(AxePath())
	if err != nil {
		p.T.Fatalf("the accessibility rules are missing: go run ./build/need axe installs them (%v)", err)
	}
	var there bool
	p.Eval(`typeof axe === "object"`, &there)
	if !there {
		p.Eval(string(source)+"; 0", nil)
	}
	only := `{type: "rule", values: ["color-contrast"]}`
	if all {
		only = `{type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}`
	}
	extra := ""
	if all {
		extra = `rules: {region: {enabled: true}, "landmark-one-main": {enabled: true}, "heading-order": {enabled: true}, "target-size": {enabled: false}},`
	}
	var answer string
	p.Eval(fmt.Sprintf(`axe.run(document, {%s runOnly: %s, resultTypes: ["violations"]}).then(r =>
		JSON.stringify(r.violations.map(v => ({rule: v.id, help: v.help, nodes: v.nodes.slice(0, 3).map(n => n.html.slice(0, 200) + " " + (n.any[0] || n.all[0] || n.none[0] || {message: ""}).message)}))))`, extra, only), &answer)
	var breaches []struct {
		Rule, Help string
		Nodes      []string
	}
	if err := json.Unmarshal([]byte(answer), &breaches); err != nil {
		p.T.Fatal(err)
	}
	for _, b := range breaches {
		p.T.Errorf("%s: axe: %s: %s\n  %s", theme, b.Rule, b.Help, strings.Join(b.Nodes, "\n  "))
	}
}
