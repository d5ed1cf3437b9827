package screen

import (
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/job"
	"lugmark/core/say"
)

// cantPanel holds the four answers of somebody who cannot measure, and the
// mark for a digit that will not stand still.
func (r *root) cantPanel() app.UI {
	var reasons [][2]string
	for _, o := range checks.SkipReasons {
		reasons = append(reasons, [2]string{o.Code, r.say(o.Label.With())})
	}
	body := []app.UI{
		app.H2().Text(r.t("cant.title", "Cannot measure this?")),
		r.button("btn", r.t("cant.back", "Back to the number"), func(app.Context) { r.read.cant = false; r.focus = "value" }),
		r.button("btn", r.movingLabel(), func(app.Context) { r.read.moving = !r.read.moving }),
	}
	body = append(body, r.pick("why", r.t("cant.why", "Reason"), reasons), r.input("why-text", r.t("cant.more", "In your own words, if it helps"), "", "text"))
	for _, o := range checks.Skips {
		body = append(body, r.button("btn", r.say(o.Label.With()), func(ctx app.Context) { r.keepSkip(ctx, o.Code) }))
	}
	return app.Section().Class("cant").Body(body...)
}

func (r *root) movingLabel() string {
	if r.read.moving {
		return r.t("cant.still", "Last digit is moving: marked. Press to unmark")
	}
	return r.t("cant.moving", "The last digit keeps moving")
}

// usualReason is the reason that an answer says by itself. Why something is
// not needed only a person can say.
var usualReason = map[string]string{"later": "wait", "cannot": "no-meter", "unsafe": "other"}

// whyChosen is the reason chosen for a skip, or the one that it says by itself;
// false, with a slip at the question, when there is none.
func (r *root) whyChosen(how string) (string, bool) {
	why := r.text["why"]
	if why == "" {
		why = usualReason[how]
	}
	if why == "" {
		r.slips["why"] = say.Phrase{Key: "screen.cant.no-reason", English: "Choose the reason first. It is printed."}.With()
		r.focus = "why"
		return "", false
	}
	delete(r.slips, "why")
	return why, true
}

// keepSkip keeps a skip under the key of what it skips, so that measuring
// later simply replaces it.
func (r *root) keepSkip(ctx app.Context, how string) {
	f, part := r.read.field, r.read.part
	why, ok := r.whyChosen(how)
	if !ok {
		return
	}
	v := job.Value{Kind: job.KindSkip, Skip: how, Why: why}
	if how == job.SkipLater {
		v.Until = now().Add(putOffFor).Format(time.DateOnly)
	}
	undo := r.undoOf(part, f.ID)
	r.keep([]change{{part: part, field: f.ID, value: v, personal: r.text["why-text"]}}, r.draftKey(), func(ctx app.Context, kept bool) {
		if !kept {
			return
		}
		r.notice = notice{says: say.Phrase{Key: "screen.cant.kept", English: "{part}: not measured, reason kept."}.With("part", bank.Name(part)), undo: undo()}
		if how == job.SkipUnsafe {
			ctx.Navigate(r.to("open"))
			return
		}
		r.onward(ctx, f, part, false)
	})
}
