package e2e

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
)

// Walker is a technician with a phone: every step is a tap on something that
// is in view, by its name, or text typed into a field. It remembers all that
// the screen said was kept, and counts.
type Walker struct {
	*Phone

	Browser *Browser
	Taps    int // fingers on the glass
	Typed   int // signs typed on a keyboard of the phone
	Digits  int // signs of readings, typed on our pad
	Read    int // readings kept
	Picked  int // answers picked from a list
	Reloads int // killed and opened again

	kept  []Kept
	ahead time.Duration
}

// Kept is one thing that the screen said was kept.
type Kept struct {
	Part, Field string // as the screen names them
	Value       string // as it was typed, with the unit as shown
	Before      int    // the place of an earlier value that this one replaced, or -1
}

// NewWalker opens an address in a browser, 360 × 740, as a phone held upright.
func NewWalker(t *testing.T, b *Browser, url string, ahead time.Duration) *Walker {
	t.Helper()
	w := &Walker{Browser: b, ahead: ahead}
	w.open(t, b)
	w.Go(url)
	return w
}

// open gives the walker a new tab.
func (w *Walker) open(t *testing.T, b *Browser) {
	t.Helper()
	w.Browser = b
	w.Phone = NewTab(t, b, Before(movedClock), Before(aheadBy(w.ahead)))
	w.Size(walkWidth, walkHeight)
}

const walkWidth, walkHeight = 360, 740

// movedClock lets the clock of the page be moved: a rest of twelve hours and
// the minute between two samples need not be sat through. Everything that
// stamps and judges asks this clock.
const movedClock = `(() => {
	const real = Date;
	const now = () => real.now() + (window.clockAhead || 0);
	class Moved extends real {
		constructor(...given) { if (given.length) super(...given); else super(now()); }
		static now() { return now(); }
	}
	window.Date = Moved;
})();`

func aheadBy(d time.Duration) string { return fmt.Sprintf("window.clockAhead = %d;", d.Milliseconds()) }

// Later moves the clock on.
func (w *Walker) Later(d time.Duration) {
	w.T.Helper()
	w.ahead += d
	w.Do(Before(aheadBy(w.ahead)))
	w.Eval(aheadBy(w.ahead), nil)
}

// Now is the time on the walker's phone.
func (w *Walker) Now() time.Time { return time.Now().Add(w.ahead) }

// On taps the one control of that name. What lies under the foot of the screen
// is scrolled up first, as a thumb does.
func (w *Walker) On(name string) {
	w.T.Helper()
	w.Taps++
	err := wait(func() error {
		err := w.tap(name, 0)
		if err != nil && strings.Contains(err.Error(), "covered") {
			w.TryEval(`window.scrollBy(0, 160)`, nil)
		}
		return err
	})
	if err != nil {
		w.fatal("tap %q: %v", name, err)
	}
}

// Row taps the first control in view whose words begin so: rows of lists carry
// their counts and states after the name.
func (w *Walker) Row(begins string) {
	w.T.Helper()
	w.press(begins, fmt.Sprintf(`name.startsWith(%q)`, begins), `document`)
}

// Pick taps an answer of the question with that legend.
func (w *Walker) Pick(legend, answer string) {
	w.T.Helper()
	w.Picked++
	w.press(legend+": "+answer, fmt.Sprintf(`el.matches("label") && name === %q`, answer),
		fmt.Sprintf(`[...document.querySelectorAll("fieldset")].find(f => says(f.querySelector("legend")) === %q)`, legend))
	w.Until("it is chosen: "+answer, fmt.Sprintf(`[...document.querySelectorAll("fieldset")].some(f =>
		f.querySelector("legend").innerText.trim() === %q && [...f.querySelectorAll("label")].some(l => l.innerText.trim() === %q && l.querySelector("input").checked))`, legend, answer))
}

// press finds a control by an expression over el and its name, and touches it.
func (w *Walker) press(what, wanted, inside string) {
	w.T.Helper()
	w.Taps++
	err := wait(func() error {
		var at struct {
			X, Y float64
			Why  string
		}
		find := fmt.Sprintf(`(() => {
			const says = el => el ? (el.getAttribute("aria-label") || el.innerText || "").replace(/\s+/g, " ").trim() : "";
			const root = %s;
			if (!root) return {why: "the question is not there"};
			const el = [...root.querySelectorAll("a[href], button, summary, label")].find(el => { const name = says(el); return el.getClientRects().length > 0 && %s; });
			if (!el) return {why: "no such control"};
			el.scrollIntoView({block: "center", behavior: "instant"});
			const box = el.getBoundingClientRect(), x = box.x + box.width / 2, y = box.y + Math.min(box.height / 2, 40);
			const top = document.elementFromPoint(x, y);
			if (!top || !(el.contains(top) || top.contains(el))) return {why: "it is covered by " + (top ? top.outerHTML.slice(0, 80) : "nothing")};
			return {x, y, why: ""};
		})()`, inside, wanted)
		if err := w.TryEval(find, &at); err != nil {
			return err
		}
		if at.Why != "" {
			return fmt.Errorf("%s", at.Why)
		}
		return w.Try(chromedp.ActionFunc(func(ctx context.Context) error { return press(ctx, at.X, at.Y) }))
	})
	if err != nil {
		w.fatal("tap %q: %v", what, err)
	}
	w.frame()
}

// Fill types a text into a field that is not a reading.
func (w *Walker) Fill(label, text string) {
	w.T.Helper()
	w.Taps++
	w.Typed += len([]rune(text))
	w.Type(label, text)
}

// FillTime types a day, or a day and a time, into the field for it, part by
// part as the field has them in English: month, day, year, hour, minute.
func (w *Walker) FillTime(label string, at time.Time, withTime bool) {
	w.T.Helper()
	keys := at.Format("01022006")
	if withTime {
		keys += "\t" + at.Format("0304PM")
	}
	w.Taps++
	w.Typed += len(keys)
	id := ""
	w.Eval(fmt.Sprintf(`(() => { const l = [...document.querySelectorAll("label")].find(l => l.innerText.trim() === %q); document.getElementById(l.htmlFor).scrollIntoView({block: "center"}); document.getElementById(l.htmlFor).focus(); return l.htmlFor; })()`, label), &id)
	w.Press(keys)
	want := at.Format(time.DateOnly)
	if withTime {
		want = at.Format("2006-01-02T15:04")
	}
	w.Until("the field holds "+want, fmt.Sprintf(`document.getElementById(%q).value === %q`, id, want))
}

// Pad types a reading on the number pad, sign by sign. Where the pad sets the
// point by itself, its key is not pressed.
func (w *Walker) Pad(digits string, pointByItself bool) {
	w.T.Helper()
	for _, d := range digits {
		switch {
		case d == '.' && pointByItself:
			continue
		case d == '.':
			w.On("Decimal sign")
		case d == '-':
			w.On("Minus")
		default:
			w.On(string(d))
		}
		w.Digits++
	}
	w.Until(digits+" stands in the field", fmt.Sprintf(`document.getElementById("value").value === %q`, digits))
}

// Keep presses the key that keeps a reading and waits until the screen says
// that it was kept.
func (w *Walker) Keep(part, field, digits, unit string) {
	w.T.Helper()
	w.Taps++
	w.TapID("keep")
	w.Sees(part + ": " + digits + " " + unit + " kept")
	w.Read++
	w.Remember(part, field, digits+" "+unit)
}

// TapID touches the element of that id.
func (w *Walker) TapID(id string) {
	w.T.Helper()
	var name string
	w.Eval(fmt.Sprintf(`document.getElementById(%q).innerText.trim()`, id), &name)
	w.Tap(name)
}

// crossSwitch is the reading in volts whose places are not known beforehand.
const crossSwitch = "Volts left across the open main switch"

// Reading enters one reading of a round: the part must be the one on screen.
func (w *Walker) Reading(part, field, digits, unit string) {
	w.T.Helper()
	w.At(part)
	w.Sees(field)
	w.Pad(digits, unit == "V" && field != crossSwitch)
	w.Keep(part, field, digits, unit)
}

// At waits for the screen with that title.
func (w *Walker) At(title string) {
	w.T.Helper()
	w.Until("the screen is "+title, fmt.Sprintf(`document.querySelector("h1") && document.querySelector("h1").innerText.replace(/\s+/g, " ").startsWith(%q)`, title))
}

// Remember writes down what was said to be kept.
func (w *Walker) Remember(part, field, value string) {
	k := Kept{Part: part, Field: field, Value: value, Before: -1}
	for i, old := range w.kept {
		if old.Part == part && old.Field == field {
			k.Before = i
		}
	}
	w.kept = append(w.kept, k)
}

// Standing lists what must be on the screens now: of each entry the last.
func (w *Walker) Standing() []Kept {
	var out []Kept
	for i, k := range w.kept {
		replaced := false
		for _, later := range w.kept[i+1:] {
			replaced = replaced || later.Before == i
		}
		if !replaced {
			out = append(out, k)
		}
	}
	return out
}

// KillTab ends the tab as a phone does that needs its memory for something
// else, and opens the address where it stood in a new one.
func (w *Walker) KillTab(t *testing.T) {
	t.Helper()
	var at string
	w.Eval(`location.href`, &at)
	tab := chromedp.FromContext(w.ctx)
	if err := target.CloseTarget(tab.Target.TargetID).Do(cdp.WithExecutor(w.ctx, tab.Browser)); err != nil {
		t.Fatal(err)
	}
	w.open(t, w.Browser)
	w.Reloads++
	w.Load(at)
}

// KillPhone ends the whole browser with SIGKILL and opens it again where it was.
func (w *Walker) KillPhone(t *testing.T) {
	t.Helper()
	var at string
	w.Eval(`location.href`, &at)
	w.Browser.Kill()
	w.open(t, Relaunch(t, w.Browser))
	w.Reloads++
	w.Load(at)
}
