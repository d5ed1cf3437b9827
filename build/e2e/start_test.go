package e2e

import (
	"context"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// ready waits until the page says that it opens without signal.
func (p *Phone) offlineReady() {
	p.T.Helper()
	p.Until("the page is ready without signal", `lugmarkShell.offline === "ready"`)
}

func TestAppStartsAndSaysWhenItIsReadyWithoutSignal(t *testing.T) {
	phone := Open(t, Serve(t).URL+"/")
	phone.offlineReady()
	var files, expected int
	phone.Eval(`lugmarkShell.files`, &files)
	phone.Eval(`lugmarkShell.expected`, &expected)
	if files != expected || files < 10 {
		t.Errorf("ready with %d of %d files", files, expected)
	}
}

// A browser may throw single files away. Then the page must not go on saying
// that it is ready; with signal, the worker mends itself.
func TestReadyIsOnlySaidOfWholeFiles(t *testing.T) {
	server := Serve(t)
	phone := Open(t, server.URL+"/")
	phone.offlineReady()
	spoil := `(async () => {
		const name = (await caches.keys()).find(k => k.startsWith("lugmark-"));
		const cache = await caches.open(name);
		await cache.delete("/wasm_exec.js");
		await cache.put("/theme.js", new Response("spoilt"));
	})()`
	phone.Eval(spoil, nil)
	server.Kill()
	phone.Allow("Failed to load resource|Failed to fetch|ERR_CONNECTION_REFUSED")
	phone.Eval(`lugmarkShell.check()`, nil)
	var state string
	var missing int
	phone.Eval(`lugmarkShell.offline`, &state)
	phone.Eval(`lugmarkShell.expected - lugmarkShell.files`, &missing)
	if state != "no" || missing != 2 {
		t.Errorf("with two files spoilt and no signal it says %q, %d missing", state, missing)
	}
	server.Restart()
	phone.Eval(`lugmarkShell.check()`, nil)
	phone.Eval(`lugmarkShell.offline`, &state)
	if state != "ready" {
		t.Errorf("with signal again it says %q", state)
	}
}

func TestThemeIsSetBeforeAnythingIsPainted(t *testing.T) {
	for _, c := range []struct{ theme, density, wantTheme, wantDensity string }{
		{"", "", "light", "gloves"},
		{"sun", "hand", "sun", "hand"},
		{"dark", "desk", "dark", "desk"},
		{"<script>", "huge", "light", "gloves"},
	} {
		phone := NewTab(t, shared, Before(`
			localStorage.clear();
			if (`+quote(c.theme)+`) localStorage.setItem("lugmark.theme", `+quote(c.theme)+`);
			if (`+quote(c.density)+`) localStorage.setItem("lugmark.density", `+quote(c.density)+`);
			document.addEventListener("DOMContentLoaded", () => {
				const set = document.documentElement.dataset;
				window.early = set.theme + " " + set.density;
			});`))
		phone.Go(Serve(t).URL + "/")
		var got string
		phone.Eval(`early`, &got)
		if want := c.wantTheme + " " + c.wantDensity; got != want {
			t.Errorf("kept %q %q: got %q, want %q", c.theme, c.density, got, want)
		}
	}
}

func quote(s string) string { return "'" + s + "'" }

func TestOldBrowserIsToldInPlainWords(t *testing.T) {
	for name, script := range map[string]string{
		"no WebAssembly": `delete window.WebAssembly`,
		"cannot compile": `WebAssembly.instantiateStreaming = async () => { throw new WebAssembly.CompileError("unknown opcode") }`,
	} {
		t.Run(name, func(t *testing.T) {
			phone := NewTab(t, shared, Before(script))
			phone.Allow("could not start")
			phone.Load(Serve(t).URL + "/")
			phone.Sees("This browser is too old to run Lugmark.")
			phone.SeesNot("Opening …")
			phone.Axe()
		})
	}
}

func TestFirstLoadThatFailsOffersAnotherTry(t *testing.T) {
	server := Serve(t)
	front := NewFront(t, server)
	front.Cut("/app.wasm")
	phone := NewTab(t, shared)
	phone.Allow("could not start|net::ERR|Failed to load resource")
	phone.Load(front.URL + "/")
	phone.Sees("Lugmark could not be fetched.")
	phone.Shot("first-load-failed")
	front.Cut("")
	phone.Tap("Try again")
	phone.Ready()
}

func TestFirstLoadShowsHowFarItIs(t *testing.T) {
	phone := NewTab(t, shared, Before(`
		window.steps = [];
		const observe = () => {
			const bar = document.getElementById("splash-progress");
			if (bar && !bar.closest("[hidden]") && window.steps.at(-1) !== bar.value) window.steps.push(bar.value);
			if (!window.lugmarkReady) requestAnimationFrame(observe);
		};
		observe();`),
		chromedp.ActionFunc(func(ctx context.Context) error {
			return network.Enable().Do(ctx)
		}))
	phone.Do(slowLine())
	phone.Go(Serve(t).URL + "/")
	var steps []float64
	phone.Eval(`window.steps`, &steps)
	if len(steps) < 4 {
		t.Errorf("the bar stood at %v only", steps)
	}
	for i := 1; i < len(steps); i++ {
		if steps[i] < steps[i-1] || steps[i] > 100 {
			t.Errorf("the bar went %v", steps)
		}
	}
}

// slowLine is a line of 8 Mbit/s. The driver has no word for it any more; the
// browser still has.
func slowLine() chromedp.Action {
	return chromedp.ActionFunc(func(ctx context.Context) error {
		return cdp.Execute(ctx, "Network.emulateNetworkConditions", map[string]any{
			"offline": false, "latency": 20, "downloadThroughput": 1e6, "uploadThroughput": 1e6,
		}, nil)
	})
}

// The program ends on a fault in it. The page must then say so, for it stays
// painted and answers nothing.
func TestStoppedAppSaysSo(t *testing.T) {
	phone := NewTab(t, shared, Before(`
		let made;
		Object.defineProperty(window, "Go", {
			get: () => made,
			set: (real) => { made = class extends real {
				async run(instance) {
					const ended = super.run(instance);
					window.endNow = () => this.importObject.gojs["runtime.wasmExit"] && this._resolveExitPromise();
					return ended;
				}
			} },
			configurable: true,
		});`))
	phone.Go(Serve(t).URL + "/")
	phone.Eval(`window.endNow()`, nil)
	phone.Sees("Lugmark stopped")
	phone.Sees("Every reading that was shown as kept is safe")
	phone.Axe()
	phone.Shot("stopped")
	phone.Tap("Start again")
	phone.Ready()
	phone.SeesNot("Lugmark stopped")
}

func TestTrappedAppSaysSo(t *testing.T) {
	phone := Open(t, Serve(t).URL+"/")
	phone.Allow("unreachable")
	// A module whose one function is the instruction "unreachable" (opcode 00).
	phone.Eval(`setTimeout(() => new WebAssembly.Instance(new WebAssembly.Module(new Uint8Array([
		0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 7, 5, 1, 1, 102, 0, 0, 10, 5, 1, 3, 0, 0, 11,
	]))).exports.f(), 0)`, nil)
	phone.Sees("Lugmark stopped")
}

func TestNothingInThePageBreaksItsPolicy(t *testing.T) {
	server := Serve(t)
	phone := Open(t, server.URL+"/")
	phone.Axe()
	phone.Allow("Content Security Policy")
	// The policy is there and bites: an inline script does not run.
	phone.Eval(`(() => { const s = document.createElement("script"); s.textContent = "window.ran = 1"; document.head.append(s); })()`, nil)
	var ran bool
	phone.Eval(`window.ran === 1`, &ran)
	if ran {
		t.Error("an inline script ran")
	}
	var html string
	phone.Eval(`fetch("/").then(r => r.text())`, &html)
	if strings.Contains(html, "<style") || strings.Contains(html, "onclick=") {
		t.Error("the first page has inline style or script")
	}
}
