package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/job"
	"lugmark/core/say"
)

var (
	sayErased    = say.Phrase{Key: "screen.erase.done", English: "Erased from this phone: {what}."}
	sayNotErased = say.Phrase{Key: "screen.erase.failed", English: "It was not erased: the phone's storage gave no way. Close the other tabs of Lugmark and try once more."}
	sayHidden    = say.Phrase{Key: "screen.erase.hidden", English: "The photo is out of view, but its bytes are still on this phone: the storage gave no way. Erase it once more under “Names and photos”."}
)

// eraseAsk asks once more before something is erased, in plain words.
func (r *root) eraseAsk(what string, yes func(app.Context)) app.UI {
	return r.ruled("fail", app.P().Body(app.B().Text(r.t("erase.ask", "Erase for good from this phone: {what}?", "what", what))),
		app.P().Text(r.t("erase.means", "Nobody can bring it back here. The signed record still checks, and says “erased” in its place. Files that were saved before still hold it.")),
		app.Div().Class("two").Body(r.button("btn", r.t("erase.no", "Leave it"), func(app.Context) { r.panel = "" }).ID("erase-no"),
			r.button("btn go", r.t("erase.yes", "Erase for good"), yes)))
}

// erasePhotoBox erases one photo.
func (r *root) erasePhotoBox(p photo) []app.UI {
	if r.panel != "erase" {
		return []app.UI{r.button("btn", r.t("erase.photo", "Erase from this phone"), func(app.Context) { r.panel, r.focus = "erase", "erase-no" })}
	}
	return []app.UI{r.eraseAsk(r.photoAlt(p), func(ctx app.Context) {
		r.erasePhoto(p.Body.Blob.Sum, append([]string{p.Body.Blob.Sum}, p.Body.Chunks...), func(ctx app.Context) { ctx.Navigate(r.to("photos")) })
	})}
}

// erasePersonal erases one line of the list.
func (r *root) erasePersonal(p *personal, label string) {
	r.panel = ""
	again := func(app.Context) { r.loadPersonal() }
	if p.photo {
		r.erasePhoto(p.sums[0], p.sums, again)
		return
	}
	r.erase(p.sums, sayErased.With("what", lowerFirst(label)), sayNotErased, again)
}

// erasePhoto takes every photo with these bytes out of view, which the record
// keeps, and then their bytes off this phone. A file that is opened later does
// not bring them back: what is out of view is not filled in.
func (r *root) erasePhoto(sum string, sums []string, then func(app.Context)) {
	j := r.job
	var ids []string
	for _, p := range j.photosOf("", "") {
		if p.Body.Blob.Sum == sum {
			ids = append(ids, p.ID)
		}
	}
	says := sayErased.With("what", whatPhoto.With())
	if len(ids) == 0 {
		r.erase(sums, says, sayNotErased, then)
		return
	}
	r.act1(j, "", nil, func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
		e, err := w.Void(at(), job.Key{}, whyErased, job.Ref{}, ids)
		return []job.Stamped{e}, nil, err
	}, func(_ app.Context, kept bool) {
		if kept {
			r.erase(sums, says, sayHidden, then)
		}
	})
}

// erase takes blobs off this phone, and says so only when they are gone. The
// line of the job is written anew: it may have held a name.
func (r *root) erase(sums []string, says say.Line, failed say.Phrase, then func(app.Context)) {
	if r.busy {
		return
	}
	j := r.job
	r.busy = true
	r.async(func() {
		err := r.device.Store.Erase(j.id, sums...)
		r.dispatch(func(ctx app.Context) {
			r.busy = false
			if err != nil {
				app.Logf("lugmark: erase: %v", err)
				r.notice = notice{says: failed.With(), bad: true}
				return
			}
			for _, sum := range sums {
				delete(j.blobs, sum)
			}
			r.keepSummary(j)
			r.notice = notice{says: says}
			if r.job == j {
				then(ctx)
			}
		})
	})
}
