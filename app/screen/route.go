package screen

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// route is an address, taken apart: /j/JOB/SCREEN/A/B/C.
type route struct {
	screen string // "jobs", "new", "menu", "check", or a screen of a job
	job    string
	a, b   string // what the screen is about: a field and a part, a gate and a link
	c      string // the topic of a form
}

func (r *root) route() route {
	w := strings.Split(strings.Trim(r.path, "/"), "/")
	get := func(i int) string {
		if i < len(w) {
			return w[i]
		}
		return ""
	}
	switch get(0) {
	case "j":
		s := get(2)
		if s == "" {
			s = "bank"
		}
		return route{screen: s, job: get(1), a: get(3), b: get(4), c: get(5)}
	case "register":
		switch {
		case get(1) == "enter":
			return route{screen: "enter", job: registerID, a: get(2), b: get(3), c: get(4)}
		case get(1) != "":
			return route{screen: "item", job: registerID, a: get(1)}
		}
		return route{screen: "register", job: registerID}
	case "new", "menu", "check":
		return route{screen: get(0)}
	}
	return route{screen: "jobs"}
}

// to is an address of the open job.
func (r *root) to(words ...string) string {
	if r.job.isRegister() {
		return r.wayIn(words...)
	}
	return "/j/" + r.job.id + "/" + strings.Join(words, "/")
}

// enterRoute sets up the screen that the address names.
func (r *root) enterRoute(ctx app.Context, at route) {
	r.text = map[string]string{}
	switch at.screen {
	case "new":
		r.startNewJob()
	case "check":
		r.text["print"] = r.check.typed
	case "layout":
		r.startLayout()
	case "read":
		r.enterReading(ctx, at.a, at.b)
	case "enter":
		f := formAt(at.a, at.b, at.c)
		r.enterForm(f)
		r.loadFormDraft(f)
	case "personal":
		r.loadPersonal()
	}
	r.home.Defer(r.settle)
}

// page is one screen, ready to be framed.
type page struct {
	title, sub string
	back       string
	class      string
	main       []app.UI
	foot       []app.UI
	pad        app.UI
	quiet      bool // the screen itself says what was just kept
}

// Render frames the screen that the address names. A fault while drawing one
// screen must not take the app down: it shows a sentence and the way back.
func (r *root) Render() (ui app.UI) {
	r.acts = r.acts[:0]
	defer func() {
		if fault := recover(); fault != nil {
			reportFault(fault)
			ui = r.frame(page{title: r.t("fault.title", "This screen has a fault"), back: "/", main: []app.UI{
				app.P().Text(r.t("fault.text", "Lugmark could not draw this screen. Everything kept is safe. Go back, and tell the makers of Lugmark what you did.")),
			}})
		}
	}()
	return r.frame(r.view())
}

func (r *root) view() page {
	at := r.route()
	switch {
	case !r.barred.Empty():
		return page{title: "Lugmark", main: []app.UI{r.ruled("fail", app.P().Text(r.say(r.barred)))}}
	case !r.ready:
		return page{title: "Lugmark", main: []app.UI{app.P().Class("note").Text(r.t("opening", "Opening …"))}}
	case at.job != "" && (r.job == nil || r.job.id != at.job):
		return page{title: "Lugmark", back: "/", main: []app.UI{app.P().Class("note").Text(r.t("opening-job", "Opening the job …"))}}
	case at.job != "" && r.job.unread:
		return page{title: "Lugmark", back: "/", main: []app.UI{r.ruled("fail",
			app.P().Text(r.t("unread.text", "This job could not be read just now. Nothing was changed. Close the other tabs of Lugmark, go back and open it again.")),
		)}}
	case at.job != "" && r.job.missing:
		return page{title: r.t("no-job.title", "No such job"), back: "/", main: []app.UI{
			app.P().Text(r.t("no-job.text", "This job is not on this phone. Go back to the list of jobs.")),
		}}
	}
	if r.question != nil {
		return r.viewWho()
	}
	switch at.screen {
	case "new":
		return r.viewNewJob()
	case "menu":
		return r.viewMenu()
	case "check":
		return r.viewCheck()
	case "bank":
		return r.viewBank()
	case "layout":
		return r.viewLayout()
	case "steps":
		return r.viewSteps()
	case "stage":
		return r.viewStage(at.a)
	case "read":
		return r.viewReading()
	case "enter":
		return r.viewForm(formAt(at.a, at.b, at.c))
	case "part":
		return r.viewPart(at.a)
	case "why":
		return r.viewWhy(at.a, at.b)
	case "open":
		return r.viewOpen()
	case "hold":
		return r.viewHold(at.a, at.b)
	case "charge":
		return r.viewCharge()
	case "handover":
		return r.viewHandover()
	case "photos":
		return r.viewPhotos()
	case "photo":
		return r.viewPhoto(at.a)
	case "personal":
		return r.viewPersonal()
	case "register":
		return r.viewRegister()
	case "item":
		return r.viewItem(at.a)
	}
	return r.viewJobs()
}
