package screen

import (
	"strconv"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/job"
	"lugmark/core/say"
)

// firstVisit is commissioning; return visits count on.
const firstVisit = "v1"

// returning reports whether the visit on the screen is a return visit.
func (j *opened) returning() bool { return j.visit != firstVisit }

// began is the Lamport count at which this visit begins: signatures and seals
// before it are about an earlier one. Beyond all while nothing is kept in it.
func (j *opened) began() int {
	if !j.returning() {
		return 0
	}
	first := j.state.MaxLam() + 1
	for _, k := range j.state.KeysFrom(j.visit, "") {
		for _, e := range j.state.History(k) {
			first = min(first, e.Lam)
		}
	}
	return first
}

// visitNumber counts visits from 1, commissioning; 0 is none.
func visitNumber(visit string) int {
	n, err := strconv.Atoi(strings.TrimPrefix(visit, "v"))
	if err != nil || n < 1 {
		return 0
	}
	return n
}

// latestVisit is the last visit of which a record holds anything.
func latestVisit(s *job.State) string {
	last := 1
	for _, k := range s.Keys() {
		last = max(last, visitNumber(k.Visit))
	}
	return "v" + strconv.Itoa(last)
}

// begunDraft is the key of the note that a visit was begun in which nothing is
// kept yet. Without it a phone that is locked meanwhile would come back to the
// visit before, and today's reading would replace the one of the first day.
func begunDraft(id string) string { return id + "/visit" }

// visitOf is the visit on which a job opens: the last one, begun or kept.
func (r *root) visitOf(j *opened) string {
	latest := latestVisit(j.state)
	begun, _, err := r.device.Store.Draft(begunDraft(j.id))
	if err == nil && visitNumber(begun) == visitNumber(latest)+1 {
		return begun
	}
	return latest
}

var sayPast = say.Phrase{Key: "screen.visit.past", English: "It was not kept: this is {visit}, and it is over. What is measured now belongs to {latest}."}

// keysUpTo lists the keys of this visit and of those before it whose part begins
// with prefix.
func (j *opened) keysUpTo(prefix string) (out []job.Key) {
	for n := range visitNumber(j.visit) {
		out = append(out, j.state.KeysFrom("v"+strconv.Itoa(n+1), prefix)...)
	}
	return out
}

// visitName says a visit: "Commissioning", "Return visit 1".
func (r *root) visitName(visit string) string {
	if visit == firstVisit {
		return r.t("visit.first", "Commissioning")
	}
	return r.t("visit.return", "Return visit {n}", "n", itoa(visitNumber(visit)-1))
}

// visitDay is the day on which the first entry of a visit was kept; "" while it
// has none.
func (r *root) visitDay(visit string) string {
	day := ""
	for _, k := range r.job.state.KeysFrom(visit, "") {
		for _, e := range r.job.state.History(k) {
			if day == "" || e.At < day {
				day = e.At
			}
		}
	}
	return r.day(day)
}

// lookAt shows the job as another visit has it. A visit exists once something
// is kept in it.
func (r *root) lookAt(ctx app.Context, visit string) {
	r.job.visit = visit
	r.job.judge()
	r.panel = ""
	ctx.Navigate(r.to())
}

// beginVisit begins a return visit and remembers that it was begun.
func (r *root) beginVisit(visit string) {
	id := r.job.id
	r.async(func() {
		err := r.device.Store.PutDraft(begunDraft(id), visit)
		r.dispatch(func(ctx app.Context) {
			if err != nil {
				app.Logf("lugmark: begin a visit: %v", err)
				r.notice = notice{says: troubles[r.troubleOf(err)].With(), bad: true}
				return
			}
			r.lookAt(ctx, visit)
		})
	})
}

// visitBar says which visit is on the screen and leads to the others; nothing
// while there is only commissioning.
func (r *root) visitBar() []app.UI {
	last := max(visitNumber(latestVisit(r.job.state)), visitNumber(r.job.visit))
	if last == 1 {
		return nil
	}
	here := r.visitName(r.job.visit)
	if day := r.visitDay(r.job.visit); day != "" {
		here = r.t("visit.on", "{visit}, {day}", "visit", here, "day", day)
	} else {
		here = r.t("visit.not-begun", "{visit}: nothing is kept in it yet.", "visit", here)
	}
	body := []app.UI{app.Span().Body(app.B().Text(here))}
	for n := range last {
		visit := "v" + itoa(n+1)
		if visit != r.job.visit {
			body = append(body, r.button("plain", r.t("visit.look", "Look at: {visit}", "visit", lowerFirst(r.visitName(visit))), func(ctx app.Context) { r.lookAt(ctx, visit) }))
		}
	}
	return []app.UI{app.Div().Class("copyline").Body(body...)}
}

// longAgo is when a job that was never sealed may be come back to: a month, our
// choice.
const longAgo = 30 * 24 * time.Hour

// returnBox begins the next visit, once the one before has been handed over.
func (r *root) returnBox() app.UI {
	latest := latestVisit(r.job.state)
	_, sealed := r.job.state.SealedAt()
	if r.job.visit != latest || !sealed && now().Sub(r.job.latest) < longAgo {
		return app.Div()
	}
	next := "v" + itoa(visitNumber(latest)+1)
	return app.Div().Class("signbox").Body(
		app.H2().Text(r.t("visit.again", "Coming back")),
		app.P().Text(r.t("visit.again-how", "A return visit measures again what ages, and compares it with this one. What stands here stays as it is.")),
		r.button("btn", r.t("visit.begin", "Begin: {visit}", "visit", lowerFirst(r.visitName(next))), func(app.Context) { r.beginVisit(next) }))
}

// stagesHere lists the stages of which this visit asks anything.
func (j *opened) stagesHere() (out []checks.Stage) {
	for _, s := range checks.Stages {
		if !j.returning() && s == checks.Return {
			continue // it begins six months from now
		}
		if j.returning() && len(j.ofStage(s)) == 0 {
			continue
		}
		out = append(out, s)
	}
	return out
}
