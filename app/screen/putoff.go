package screen

import (
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/draw"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// askedHere lists the entries of a form for which a check waits now: of each
// check that is still to do the first one that is not there.
func (r *root) askedHere(f form) []finding.Key {
	in := map[finding.Key]bool{}
	for _, field := range r.formFields(f) {
		in[finding.Key{Part: r.formSource(f.part), Field: field.ID}] = true
	}
	var out []finding.Key
	taken := map[finding.Key]bool{}
	for _, x := range r.job.findings {
		if x.Verdict() != finding.ToDo {
			continue
		}
		if k, ok := r.job.wants(x); ok && in[k] && !taken[k] && !r.job.has(k) {
			out, taken[k] = append(out, k), true
		}
	}
	return out
}

// putOff is for somebody who cannot enter what a form asks: the four answers of
// a skip, with a reason, for every check that waits here.
func (r *root) putOff(f form, asked []finding.Key) app.UI {
	var reasons [][2]string
	for _, o := range checks.SkipReasons {
		reasons = append(reasons, [2]string{o.Code, r.say(o.Label.With())})
	}
	waits := r.t("form.waits", "Waits here: {what}.", "what", r.waiting(asked))
	body := []app.UI{app.P().Class("note").Text(waits),
		r.pick("why", r.t("cant.why", "Reason"), reasons), r.input("why-text", r.t("cant.more", "In your own words, if it helps"), "", "text")}
	for _, o := range checks.Skips {
		body = append(body, r.button("btn", r.say(o.Label.With()), func(ctx app.Context) { r.keepPutOff(ctx, f, asked, o.Code) }))
	}
	fold := app.Details().Class("fold")
	if _, asks := r.slips["why"]; asks { // what is to be put right must be seen
		fold = fold.Open(true)
	}
	return fold.Body(
		app.Summary().Body(mark(draw.Later), app.Span().Text(r.t("form.cant", "Cannot answer this?"))), app.Div().Body(body...))
}

// waiting names the entries for which checks wait: "Reach, height".
func (r *root) waiting(asked []finding.Key) string {
	list := ""
	for i, k := range asked {
		if i > 0 {
			list += r.t("list.comma", ", ")
		}
		list += r.say(r.labelOf(k.Field, k.Part))
	}
	return list
}

func (r *root) keepPutOff(ctx app.Context, f form, asked []finding.Key, how string) {
	why, ok := r.whyChosen(how)
	if !ok {
		return
	}
	parts := r.partsIn(f)
	var changes []change
	for _, k := range asked {
		for _, p := range parts {
			v := job.Value{Kind: job.KindSkip, Skip: how, Why: why}
			if how == job.SkipLater {
				v.Until = now().Add(putOffFor).Format(time.DateOnly)
			}
			changes = append(changes, change{part: p, field: k.Field, value: v, personal: r.text["why-text"]})
		}
	}
	part, way := f.part, r.to("stage", string(f.stage))
	if how == job.SkipUnsafe {
		way = r.to("open")
	}
	r.keep(changes, "", func(ctx app.Context, kept bool) {
		if !kept {
			return
		}
		r.notice = notice{says: say.Phrase{Key: "screen.form.put-off", English: "{part}: set aside, reason kept."}.With("part", r.nameOf(part))}
		ctx.Navigate(way)
	})
}

// putOffFor is how long "later" lasts when nobody says a day.
const putOffFor = 7 * 24 * time.Hour

// nameOf names what a form is about, as part of a sentence.
func (r *root) nameOf(part string) any {
	if part == allLinks {
		return r.partTitle(part)
	}
	return bank.Name(part)
}
