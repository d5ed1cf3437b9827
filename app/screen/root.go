// Package screen holds what the person sees. It computes no verdict and keeps
// nothing itself: it shows what core and checks say of the record, and hands
// every act to the store. It reaches the other packages of app only through
// [Device].
package screen

import (
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/say"
)

// Root returns the one component that every address shows. Open makes the
// device ready; it may wait, and is called once.
func Root(open func() (Device, error)) app.Composer { return &root{open: open} }

// root is the whole screen: one component, so that a step from one address to
// the next keeps what was typed and never tears down what both share.
type root struct {
	app.Compo
	open func() (Device, error)
	home app.Context // of the root itself, which is always there; a button's may be gone

	device  Device
	ready   bool
	barred  say.Line // why nothing can be kept at all
	voice   say.Voice
	prefs   prefs
	storage storageState
	shell   shellState

	path  string
	query map[string]string
	jobs  []summary
	job   *opened

	register *opened // beside the jobs; nil until it is read

	acts      []func(app.Context) // of the buttons on screen, by their number
	text      map[string]string   // what stands in each input, by its id
	slips     map[string]say.Line // what is wrong with it
	asked     map[string]string   // the text of each input about which a doubt was said already
	slipOrder []string            // the order in which the page lists what is wrong
	focus     string              // id of what takes the focus after the next paint
	moved     bool                // the address changed: start at the top
	notice    notice
	read      reading
	draft     newJob
	check     checked
	offer     *offer            // a record file that waits for an answer
	panel     string            // which small panel is open on this screen
	mine      map[string]string // job and holder → the person of the job; see whoAmI
	question  *question         // an act that waits for the answer to who holds this phone
	busy      bool              // an act is being kept
	made      []string          // ids of the events of the last act that was kept
	copied    copied            // a further range of a meter that is being added
	camera    camera
	gallery   gallery
	personal  []*personal // what can be erased in the open job; see personal.go
}

// OnMount opens the store and starts the minute.
func (r *root) OnMount(ctx app.Context) {
	r.home = ctx
	r.text, r.slips = map[string]string{}, map[string]say.Line{}
	r.prefs, r.mine = loadPrefs(), loadMine()
	r.voice = r.prefs.voice()
	r.prefs.show()
	r.watchShell(ctx)
	r.watchKeys()
	r.tick(ctx)
	r.async(func() {
		device, err := r.open()
		r.dispatch(func(ctx app.Context) {
			if err != nil {
				r.barred = troubles[Refused].With()
				if device.Trouble != nil {
					r.barred = troubles[device.Trouble(err)].With()
				}
				r.paintedFirst(ctx)
				return
			}
			r.device, r.ready = device, true
			device.Store.Watch(func(id string) { r.dispatch(func(app.Context) { r.changedElsewhere(id) }) })
			r.loadJobs(func(ctx app.Context) {
				r.arrive(ctx)
				r.paintedFirst(ctx)
				r.loadRegister(func(app.Context) { r.offerKit() })
			})
			r.askStorage(ctx)
		})
	})
}

// paintedFirst tells the page that the first real screen is up.
func (r *root) paintedFirst(ctx app.Context) {
	r.home.Defer(func(app.Context) { app.Window().Set("lugmarkReady", true) })
}

// OnNav follows the address.
func (r *root) OnNav(ctx app.Context) {
	u := ctx.Page().URL()
	r.path, r.query = u.Path, map[string]string{}
	for k := range u.Query() {
		r.query[k] = u.Query().Get(k)
	}
	if r.ready {
		r.arrive(ctx)
	}
	r.home.Defer(r.settle)
}

// arrive prepares what the address needs: the job that it names, the texts of
// its inputs, the draft of what was being typed.
func (r *root) arrive(ctx app.Context) {
	r.moved, r.panel, r.question, r.offer, r.slips = true, "", nil, nil, map[string]say.Line{}
	at := r.route()
	// The act that made a notice may itself have led here; one step on it has
	// done its work, but in a round it stays until the next keep. It never goes
	// over into another job, where its Undo has no meaning.
	if r.notice.seen && (r.notice.undo == nil || at.screen != "read" || at.a != r.notice.round) || r.notice.undo != nil && (r.job == nil || r.job.id != at.job) {
		r.notice = notice{}
	}
	r.notice.seen = true
	if at.job == "" {
		if at.screen != "menu" { // the menu goes back to where one was
			r.job = nil
		}
		r.loadJobs(func(ctx app.Context) {
			if r.path == "/demo" {
				r.addSamples(ctx)
			}
		})
		r.enterRoute(ctx, at)
		return
	}
	if r.job != nil && r.job.id != at.job {
		r.notice = notice{}
	}
	r.openJob(at.job, func(ctx app.Context) { r.enterRoute(ctx, at) })
}

// tick judges again each minute: rests end and temperatures grow stale.
func (r *root) tick(ctx app.Context) {
	r.home.After(time.Minute, func(ctx app.Context) {
		if r.job != nil && !r.busy {
			r.job.judge()
		}
		r.tick(ctx)
		r.home.Defer(r.settle)
	})
}

// dispatch runs f on the goroutine of the screen and settles the page after it.
// It works on from the root, which is always there: a button that began
// something may be gone when it ends.
func (r *root) dispatch(f func(app.Context)) {
	r.home.Dispatch(func(ctx app.Context) {
		defer r.recovered()
		f(ctx)
		r.home.Defer(r.settle)
	})
}

// async runs f beside the screen. A fault in it must not end the program, which
// would leave a painted page that answers nothing.
func (r *root) async(f func()) {
	r.home.Async(func() {
		defer func() {
			if fault := recover(); fault != nil {
				reportFault(fault)
				r.dispatch(func(app.Context) {
					r.busy = false
					r.notice = notice{says: troubles[Faulty].With(), bad: true}
				})
			}
		}()
		f()
	})
}

// notice is the bar that tells what was just done; it stays until the next act.
type notice struct {
	says say.Line
	bad  bool
	undo func(app.Context)
	seen bool
	// round is the field of the round in which it was made: there it stays.
	round string
	grave bool // what was kept fails: it is said as a Fail
}
