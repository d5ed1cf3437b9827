package screen

import (
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// shellState is what the page around the app knows: whether it starts without
// signal, and whether a newer version waits.
type shellState struct {
	offline     string // "no", "checking", "ready", "never"
	files       int
	expected    int
	waiting     bool
	installable bool
	installed   bool
}

// watchShell follows window.lugmarkShell.
func (r *root) watchShell(ctx app.Context) {
	read := func() {
		s := app.Window().Get("lugmarkShell")
		if !s.Truthy() {
			return
		}
		r.shell = shellState{
			offline: s.Get("offline").String(), files: s.Get("files").Int(), expected: s.Get("expected").Int(),
			waiting: s.Get("waiting").Bool(), installable: s.Get("installable").Bool(), installed: s.Get("installed").Bool(),
		}
	}
	read()
	app.Window().Call("addEventListener", "lugmark:shell", app.FuncOf(func(app.Value, []app.Value) any {
		r.dispatch(func(app.Context) { read() })
		return nil
	}))
}

// clockSlack is how far two phones' clocks may stand apart before it is said:
// two minutes, our choice.
const clockSlack = 2 * time.Minute

// shellNotes are the lines that a person must see before work: a newer version
// that waits, storage that was not promised.
func (r *root) shellNotes() []app.UI {
	var out []app.UI
	if r.shell.waiting {
		out = append(out, app.Div().Class("copyline").Body(
			app.Span().Text(r.t("shell.waiting", "A newer version is here, whole. It starts at the next cold start.")),
			r.button("plain", r.t("shell.use", "Use it now"), func(app.Context) { app.Window().Get("lugmarkShell").Call("activate") })))
	}
	if r.job != nil && now().Before(r.job.latest.Add(-clockSlack)) {
		out = append(out, r.ruled("unk", app.P().Text(r.say(sayClock.With("when", r.moment(r.job.latest.Format(time.RFC3339)))))))
	}
	if r.route().screen == "jobs" {
		out = append(out, r.lossNotes()...)
	}
	if text, good := r.storageSays(); !good && r.route().screen == "jobs" {
		out = append(out, app.P().Class("copyline").Text(text))
	}
	if r.route().screen == "jobs" {
		out = append(out, app.P().Class("note ready").Text(r.offlineSays()))
		if r.shell.installable && !r.shell.installed {
			out = append(out, r.button("btn", r.t("shell.install", "Install Lugmark on this phone"), func(app.Context) { app.Window().Get("lugmarkShell").Call("install") }))
		}
	}
	return out
}

// lossNotes say what the browser did to the record behind our back.
func (r *root) lossNotes() []app.UI {
	var out []app.UI
	if r.device.Lost != nil && r.device.Lost() {
		out = append(out, r.ruled("fail", app.P().Text(r.t("shell.lost", "The browser threw away what Lugmark kept on this phone. Bring the jobs back from a safe copy: open the record file here."))))
	}
	if r.device.NewKey {
		out = append(out, r.ruled("todo", app.P().Text(r.t("shell.new-key", "The signing key of this phone was gone; a new one was made. What the old one signed is safe and can still be checked."))))
	}
	if r.device.Healed == nil {
		return out
	}
	if n := r.device.Healed(); n > 0 {
		out = append(out, r.ruled("todo", app.P().Text(r.t("shell.healed", "The browser had lost {n} entries of the record. They came back from the second copy on this phone.", "n", itoa(n)))))
	}
	return out
}

// offlineSays tells whether Lugmark opens without signal. "Ready" is said only
// after every file was read back.
func (r *root) offlineSays() string {
	switch r.shell.offline {
	case "ready":
		return r.t("shell.ready", "Ready without signal: {n} of {all} files read back.", "n", itoa(r.shell.files), "all", itoa(r.shell.expected))
	case "checking":
		return r.t("shell.checking", "Checking that Lugmark opens without signal …")
	case "never":
		return r.t("shell.never", "This browser cannot open Lugmark without signal at this address.")
	}
	return r.t("shell.not-ready", "Not ready without signal yet: stay where there is signal.")
}

// shellStatus is the same in the menu, in full.
func (r *root) shellStatus() []app.UI {
	storage, _ := r.storageSays()
	out := []app.UI{app.P().Text(r.offlineSays()), app.P().Text(storage)}
	if r.device.Soft {
		out = append(out, app.P().Text(r.t("shell.soft", "The signing key of this phone lies in its storage and could be copied by whoever can copy that.")))
	} else if r.ready {
		out = append(out, app.P().Text(r.t("shell.hard", "The signing key of this phone cannot be copied out of the browser.")))
	}
	out = append(out, app.P().Class("note").Text(r.t("shell.install-how", "To install: in the browser's menu choose Add to home screen. On an iPhone: Share, then Add to Home Screen; install first, then start a job, because the installed app has its own storage.")))
	return out
}
