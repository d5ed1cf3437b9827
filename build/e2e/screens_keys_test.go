package e2e

import (
	"fmt"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// A round with a paired keypad: digits, a comma, Enter, and no finger on the
// glass.
func TestRoundWithKeysOnly(t *testing.T) {
	w := NewWalker(t, shared, Serve(t).URL+"/", 0)
	w.newJob()
	w.Go(w.address() + "/read/arrival-voltage/b1")
	for i, digits := range []string{"13,21", "13,22", "13,202", "1320"} {
		w.At(blocks[i])
		w.Press(digits)
		want := []string{"13.21", "13.22", "13.202", "13.20"}[i]
		w.Sees("Not kept yet: " + want + " V")
		w.Press(kb.Enter)
		w.Sees(blocks[i] + ": " + want + " V kept")
		w.onSomething()
	}
	w.At("Receive")

	// What was mistyped is taken back by the same keys.
	w.visit(w.path() + "/read/arrival-voltage/b1")
	w.At("Block 1")
	w.Press("-13.29" + kb.Backspace + "1")
	w.Sees("Not kept yet: −13.21 V")
	w.Press(kb.Enter)
	w.Sees("Block 1: −13.21 V kept")
}

// Tab reaches everything, in view, and never gets lost.
func TestTabGoesThroughDrawingAndForms(t *testing.T) {
	w := NewWalker(t, shared, Serve(t).URL+"/", 0)
	w.newJob()
	var hits int
	w.Eval(`document.querySelectorAll(".hit").length`, &hits)
	seen := map[string]bool{}
	for range hits + 14 {
		w.Press(kb.Tab)
		on := w.onSomething()
		if on.Hit != "" {
			seen[on.Hit] = true
		}
		if on.Name == "Hand over" {
			break
		}
	}
	if len(seen) != hits {
		t.Errorf("Tab reached %d of %d parts of the drawing", len(seen), hits)
	}
	if !seen["b1"] || !seen["b4"] || !seen["switch"] {
		t.Errorf("Tab reached %v", seen)
	}
	w.Eval(`document.querySelector(".hit[data-part=b3]").focus()`, nil)
	w.Press(kb.Enter)
	w.At("Block 3")
	w.focusOnTitle()

	w.visit(w.path() + "/enter/charger1/switch-on")
	w.At("Charger")
	w.focusOnTitle()
	for range 2 {
		w.Press(kb.Tab) // after the title: the theme, the menu
		w.onSomething()
	}
	for _, digits := range []string{"28.4", "27", "20"} {
		w.Press(kb.Tab)
		w.onSomething()
		w.Press(digits)
	}
	w.Press(kb.Tab)
	w.Press(" ")
	w.onSomething()
	w.Until("the space bar chose the first answer", `document.activeElement.type === "radio" && document.activeElement.checked`)
	for range 6 {
		w.Press(kb.Tab)
		if w.onSomething().Name == "Keep" {
			break
		}
	}
	w.Press(kb.Enter)
	w.Sees("Charger: 4 entries kept.")
	w.focusOnTitle()
}

// address and path are where the open job is.
func (w *Walker) address() string {
	w.T.Helper()
	var at string
	w.Eval(`location.origin + location.pathname.split("/").slice(0, 3).join("/")`, &at)
	return at
}

func (w *Walker) path() string {
	w.T.Helper()
	var at string
	w.Eval(`location.pathname.split("/").slice(0, 3).join("/")`, &at)
	return at
}

// focused is what has the focus.
type focused struct {
	Name, Hit, Wrong string
}

// onSomething checks that the focus is on a thing that can be seen, wholly in
// view, and marked.
func (p *Phone) onSomething() focused {
	p.T.Helper()
	var on focused
	err := wait(func() error {
		p.Eval(`(() => {
			const el = document.activeElement;
			if (!el || el === document.body || el === document.documentElement) return {name: "", hit: "", wrong: "nothing has the focus"};
			const name = (el.getAttribute("aria-label") || el.innerText || (el.labels && el.labels[0] && el.labels[0].innerText) || el.id).replace(/\s+/g, " ").trim();
			const shown = el.closest("label") || el, r = shown.getBoundingClientRect(), style = getComputedStyle(el);
			const x = r.x + r.width / 2, y = r.y + Math.min(r.height / 2, 20), top = document.elementFromPoint(x, y);
			let wrong = "";
			if (!el.matches(".vh") && (r.width < 2 || r.height < 2 || style.visibility === "hidden")) wrong = "it cannot be seen";
			else if (!el.matches(".vh, h1") && !(top && (shown.contains(top) || top.contains(shown)))) wrong = "it is covered by " + (top ? top.outerHTML.slice(0, 60) : "the edge");
			else if (!el.matches(".vh, h1, [type=radio]") && style.outlineStyle === "none" && style.boxShadow === "none") wrong = "it is not marked";
			return {name, hit: el.dataset.part || "", wrong};
		})()`, &on)
		if on.Wrong != "" {
			return fmt.Errorf("%s", on.Wrong)
		}
		return nil
	})
	if err != nil {
		p.fatal("the focus is on %q: %v", on.Name, err)
	}
	return on
}
