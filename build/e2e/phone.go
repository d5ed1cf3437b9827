package e2e

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// The size of the phone [CSS px], a common one of these years.
const (
	phoneWidth  = 390
	phoneHeight = 844
)

// patience is how long a step waits for what it needs. The machines that run
// this may be slow and shared; nothing waits this long when all is well.
const patience = 30 * time.Second

// Phone is one tab, the size of a phone, with a finger.
type Phone struct {
	T *testing.T

	ctx     context.Context
	console *console
}

// OpenIn opens an address in a tab of a browser and waits until the app has
// painted its first screen. The tab is closed when the test ends.
func OpenIn(t *testing.T, b *Browser, url string, before ...chromedp.Action) *Phone {
	t.Helper()
	p := NewTab(t, b, before...)
	p.Go(url)
	return p
}

// NewTab opens an empty tab; before runs in it first.
func NewTab(t *testing.T, b *Browser, before ...chromedp.Action) *Phone {
	t.Helper()
	ctx, stop := chromedp.NewContext(b.ctx)
	p := &Phone{T: t, ctx: ctx, console: listen(ctx)}
	t.Cleanup(func() {
		t.Helper()
		stop()
		p.console.complain(t)
	})
	// The tab lives as long as the context of its first run, so that one has no end.
	if err := chromedp.Run(ctx); err != nil {
		t.Fatal(err)
	}
	p.Do(append([]chromedp.Action{
		emulation.SetDeviceMetricsOverride(phoneWidth, phoneHeight, 2, true),
		emulation.SetTouchEmulationEnabled(true),
		page.BringToFront(),
		emulation.SetFocusEmulationEnabled(true),
	}, before...)...)
	return p
}

// Front brings this tab before the others. A tab behind another paints nothing
// and feels no finger; a test with two tabs says which one it acts on.
func (p *Phone) Front() {
	p.T.Helper()
	p.Do(page.BringToFront())
}

// Size makes the phone another size [CSS px].
func (p *Phone) Size(width, height int64) {
	p.T.Helper()
	p.Do(emulation.SetDeviceMetricsOverride(width, height, 2, width < 800))
}

// Slow makes the phone's processor n times slower than this machine's.
func (p *Phone) Slow(n float64) {
	p.T.Helper()
	p.Do(emulation.SetCPUThrottlingRate(n))
}

// Before runs a script in every page before anything of the page runs.
func Before(script string) chromedp.Action {
	return chromedp.ActionFunc(func(ctx context.Context) error {
		_, err := page.AddScriptToEvaluateOnNewDocument(script).Do(ctx)
		return err
	})
}

// Do runs actions of the driver; the door for what has no word here.
func (p *Phone) Do(actions ...chromedp.Action) {
	p.T.Helper()
	if err := p.Try(actions...); err != nil {
		p.T.Fatal(err)
	}
}

// Try is Do for what may fail.
func (p *Phone) Try(actions ...chromedp.Action) error {
	ctx, cancel := context.WithTimeout(p.ctx, 2*patience)
	defer cancel()
	return chromedp.Run(ctx, actions...)
}

// Go opens an address and waits for the app.
func (p *Phone) Go(url string) {
	p.T.Helper()
	p.Load(url)
	p.Ready()
}

// Load opens an address and waits for nothing of the app.
func (p *Phone) Load(url string) {
	p.T.Helper()
	p.Do(chromedp.ActionFunc(func(ctx context.Context) error {
		_, _, failure, _, err := page.Navigate(url).Do(ctx)
		if err == nil && failure != "" {
			err = fmt.Errorf("open %s: %s", url, failure)
		}
		return err
	}))
}

// Reload loads the page again and waits for the app.
func (p *Phone) Reload() {
	p.T.Helper()
	p.Eval(`window.lugmarkReady = false`, nil)
	p.Do(page.Reload())
	p.Ready()
}

// Back goes back one step in the tab's history, inside the app.
func (p *Phone) Back() {
	p.T.Helper()
	p.Eval(`history.back()`, nil)
}

// Ready waits until the app has painted its first screen.
func (p *Phone) Ready() {
	p.T.Helper()
	p.Until("the app is ready", `window.lugmarkReady === true`)
}

// Until waits until an expression in the page, or what it promises, is true.
func (p *Phone) Until(what, expression string) {
	p.T.Helper()
	err := wait(func() error {
		var yes bool
		if err := p.TryEval(`Promise.resolve(`+expression+`).then(it => !!it)`, &yes); err != nil {
			return err
		}
		if !yes {
			return fmt.Errorf("%s is not true", expression)
		}
		return nil
	})
	if err != nil {
		p.fatal("waited in vain until %s: %v", what, err)
	}
}

// Eval evaluates an expression, waits for it if it is a promise, and stores its
// value in what into points at, if not nil. A person's tap is pretended, for
// what browsers allow only after one.
func (p *Phone) Eval(expression string, into any) {
	p.T.Helper()
	if err := p.TryEval(expression, into); err != nil {
		p.fatal("%s: %v", expression, err)
	}
}

// TryEval is Eval for what may fail.
func (p *Phone) TryEval(expression string, into any) error {
	return p.Try(chromedp.Evaluate(expression, into, func(e *runtime.EvaluateParams) *runtime.EvaluateParams {
		return e.WithAwaitPromise(true).WithUserGesture(true)
	}))
}

// wait tries again and again until try succeeds, and returns its last error.
func wait(try func() error) error {
	end := time.Now().Add(patience)
	for pause := 10 * time.Millisecond; ; pause = min(2*pause, 200*time.Millisecond) {
		err := try()
		if err == nil || time.Now().After(end) {
			return err
		}
		time.Sleep(pause)
	}
}

// fatal ends the test with what was on the screen, in words and as a picture.
func (p *Phone) fatal(format string, args ...any) {
	p.T.Helper()
	var text, at string
	p.TryEval(`document.body.innerText`, &text)
	p.TryEval(`location.href`, &at)
	name := "failed-" + strings.NewReplacer("/", "-", " ", "-").Replace(p.T.Name())
	p.tryShot(name)
	p.console.complain(p.T)
	p.T.Fatalf("%s\nat %s, with this on the screen (picture: build/dist/shots/%s.png):\n%s",
		fmt.Sprintf(format, args...), at, name, text)
}
