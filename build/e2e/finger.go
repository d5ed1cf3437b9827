package e2e

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// tappable are the roles that answer a finger.
var tappable = []string{"button", "link", "checkbox", "radio", "switch", "tab", "menuitem", "option", "textbox",
	"searchbox", "spinbutton", "combobox", "slider", "DisclosureTriangle", "toggle button", "ComboBoxSelect", "MenuListPopup"}

// Tap taps the one control with that name, as a screen reader says it. It
// scrolls to it, and refuses when something lies over it or it is switched off.
func (p *Phone) Tap(name string) {
	p.T.Helper()
	p.TapNth(name, 0)
}

// TapNth taps the n-th control of that name, from 0, in the order of the page.
func (p *Phone) TapNth(name string, n int) {
	p.T.Helper()
	if err := wait(func() error { return p.tap(name, n) }); err != nil {
		p.fatal("tap %q: %v", name, err)
	}
}

// Type replaces what stands in the field of that name.
func (p *Phone) Type(name, text string) {
	p.T.Helper()
	p.Tap(name)
	p.Eval(`document.activeElement.select && document.activeElement.select()`, nil)
	if text == "" {
		p.Press(kb.Delete)
		return
	}
	p.Do(input.InsertText(text))
	p.frame()
}

// Press presses keys of a keyboard; kb has the names of the special ones.
func (p *Phone) Press(keys string) {
	p.T.Helper()
	p.Do(chromedp.KeyEvent(keys))
	p.frame()
}

// Sees waits until the text is on the screen, anywhere, as a person reads it:
// spaces and line breaks count as one space.
func (p *Phone) Sees(text string) {
	p.T.Helper()
	p.Until(fmt.Sprintf("%q is on the screen", text), seen(text))
}

// SeesNot waits until the text is gone from the screen.
func (p *Phone) SeesNot(text string) {
	p.T.Helper()
	p.Until(fmt.Sprintf("%q is gone", text), "!("+seen(text)+")")
}

// Can reports whether there is, now, a control of that name.
func (p *Phone) Can(name string) bool {
	p.T.Helper()
	var found []*accessibility.Node
	p.Do(chromedp.ActionFunc(func(ctx context.Context) (err error) {
		found, err = named(ctx, name)
		return err
	}))
	return len(found) > 0
}

// Text returns what is on the screen, spaces and line breaks as one space.
func (p *Phone) Text() string {
	p.T.Helper()
	var text string
	p.Eval(`document.body.innerText`, &text)
	return strings.Join(strings.Fields(text), " ")
}

func seen(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	return fmt.Sprintf(`document.body && document.body.innerText.replace(/\s+/g, " ").includes(%q)`, text)
}

// frame waits until the app has painted what the last step changed.
func (p *Phone) frame() {
	p.TryEval(`new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(0))))`, nil)
}

// named returns the controls of that name, in the order of the page.
func named(ctx context.Context, name string) ([]*accessibility.Node, error) {
	root, err := dom.GetDocument().WithDepth(0).Do(ctx)
	if err != nil {
		return nil, err
	}
	all, err := accessibility.QueryAXTree().WithNodeID(root.NodeID).WithAccessibleName(name).Do(ctx)
	return slices.DeleteFunc(all, func(n *accessibility.Node) bool {
		return n.Ignored || !slices.Contains(tappable, word(n.Role))
	}), err
}

func word(v *accessibility.Value) string {
	if v == nil {
		return ""
	}
	return strings.Trim(string(v.Value), `"`)
}

func (p *Phone) tap(name string, n int) error {
	err := p.Try(chromedp.ActionFunc(func(ctx context.Context) error {
		found, err := named(ctx, name)
		if err != nil {
			return err
		}
		if n >= len(found) {
			return fmt.Errorf("there are %d controls of that name", len(found))
		}
		for _, property := range found[n].Properties {
			if property.Name == accessibility.PropertyNameDisabled && word(property.Value) == "true" {
				return errors.New("it is switched off")
			}
		}
		x, y, err := middle(ctx, found[n].BackendDOMNodeID)
		if err != nil {
			return err
		}
		return press(ctx, x, y)
	}))
	if err == nil {
		p.frame()
	}
	return err
}

// middle scrolls a node into view and returns its middle, if a finger there
// would touch it and nothing over it.
func middle(ctx context.Context, id cdp.BackendNodeID) (x, y float64, err error) {
	if err := dom.ScrollIntoViewIfNeeded().WithBackendNodeID(id).Do(ctx); err != nil {
		return 0, 0, err
	}
	quads, err := dom.GetContentQuads().WithBackendNodeID(id).Do(ctx)
	if err != nil {
		return 0, 0, err
	}
	if len(quads) == 0 {
		return 0, 0, errors.New("it has no size")
	}
	q := quads[0]
	x, y = (q[0]+q[2]+q[4]+q[6])/4, (q[1]+q[3]+q[5]+q[7])/4
	object, err := dom.ResolveNode().WithBackendNodeID(id).Do(ctx)
	if err != nil {
		return 0, 0, err
	}
	var top string
	err = chromedp.CallFunctionOn(`function(x, y) {
		const top = document.elementFromPoint(x, y);
		if (!top) return "nothing is at that point";
		if (this === top || this.contains(top) || top.contains(this)) return "";
		const labels = this.labels ? Array.from(this.labels) : [];
		if (labels.some(l => l.contains(top))) return "";
		return "it is covered by <" + top.tagName.toLowerCase() + " class='" + top.className + "'>";
	}`, &top, onObject(object.ObjectID), x, y).Do(ctx)
	if err == nil && top != "" {
		err = errors.New(top)
	}
	return x, y, err
}

// onObject makes a function run with that object as its this.
func onObject(id runtime.RemoteObjectID) chromedp.CallOption {
	return func(p *runtime.CallFunctionOnParams) *runtime.CallFunctionOnParams { return p.WithObjectID(id) }
}

// press is one touch of a finger at a point of the window.
func press(ctx context.Context, x, y float64) error {
	if err := input.DispatchTouchEvent(input.TouchStart, []*input.TouchPoint{{X: x, Y: y}}).Do(ctx); err != nil {
		return err
	}
	return input.DispatchTouchEvent(input.TouchEnd, []*input.TouchPoint{}).Do(ctx)
}
