package screen

import (
	"cmp"
	"sort"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/job"
	"lugmark/core/say"
)

// personal is one text or photo that can be erased from this phone: the record
// names it by its hash alone, so it stays whole without it.
type personal struct {
	part    string // "" for the job as a whole
	what    say.Line
	sums    []string // of its blob, and of the pieces of a photo
	size    int      // [bytes]
	at      string
	id      string // of its event
	photo   bool
	earlier bool // no longer in view
	erased  bool // the record says so
}

var (
	whatOverride = say.Phrase{Key: "screen.personal.override", English: "Reason for overriding a hold point"}
	whatTaken    = say.Phrase{Key: "screen.personal.taken-back", English: "Reason for taking something back"}
	whatNote     = say.Phrase{Key: "screen.personal.note", English: "Note"}
	whatSign     = say.Phrase{Key: "screen.personal.signature", English: "Signature"}
	whatPhoto    = say.Phrase{Key: "screen.personal.photo", English: "Photo"}
)

// whyErased is the reason of the void that goes with an erased photo.
const whyErased = "erased"

// personalOf lists what can be erased of a record: entries about people and
// places, reasons, notes, signatures, photos; also what is no longer in view.
func personalOf(events []job.Event) (out []*personal) {
	gone := map[string]string{} // ids that something supersedes, with the reason
	for _, e := range events {
		why := "corrected"
		if v, ok := e.Body.(job.Void); ok {
			why = v.Why
		}
		for _, id := range e.Sup {
			if gone[id] != whyErased {
				gone[id] = why
			}
		}
	}
	seen := map[string]bool{}
	for _, e := range events {
		for _, x := range job.Refs(e) {
			k, _ := job.ParseKey(e.Field)
			p := &personal{part: k.Part, what: whatOf(k), sums: []string{x.Sum}, size: x.Len, at: e.At, id: e.ID}
			switch body := e.Body.(type) {
			case job.Seal:
				continue // results are about a bank
			case job.Void:
				p.what = whatTaken.With()
			case job.Note:
				p.part, p.what = body.Part, whatNote.With()
			case job.Sign:
				p.part, p.what = body.Who, whatSign.With()
			case job.Photo:
				p.part, p.what, p.photo = body.Part, whatPhoto.With(), true
				p.sums = append(p.sums, body.Chunks...)
			}
			if seen[x.Sum] && !p.photo {
				continue
			}
			seen[x.Sum] = true
			why := gone[e.ID]
			p.earlier, p.erased = why != "", p.photo && why == whyErased
			out = append(out, p)
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		return cmp.Or(strings.Compare(out[i].part, out[j].part), strings.Compare(out[i].at, out[j].at)) < 0
	})
	return out
}

// whatOf names an entry. What is no field is a hold point that was overridden.
func whatOf(k job.Key) say.Line {
	if f, ok := checks.FieldOf(k.Field, k.Part); ok {
		return f.Label.With()
	}
	return whatOverride.With()
}

// loadPersonal reads the whole record for what can be erased.
func (r *root) loadPersonal() {
	j := r.job
	r.personal = nil
	r.async(func() {
		signed, _, err := r.device.Store.Job(j.id)
		if err != nil {
			return
		}
		var events []job.Event
		for _, s := range signed {
			if e, err := job.Decode(s.Raw); err == nil {
				events = append(events, e)
			}
		}
		list := personalOf(events)
		r.dispatch(func(app.Context) {
			if r.job == j {
				r.personal = list
			}
		})
	})
}

// viewPersonal lists what can be erased, part by part.
func (r *root) viewPersonal() page {
	main := []app.UI{app.P().Text(r.t("personal.what", "Names, notes and photos of this job, as this phone holds them, earlier ones too. What is erased cannot be brought back here. The record stays whole: it says that something stood there, not what.")),
		app.P().Text(r.t("personal.copies", "Files that were saved or handed on before still hold it. Erase it there too."))}
	last := "\x00"
	var rows []app.UI
	flush := func() {
		if len(rows) > 0 {
			title := r.t("personal.job", "The job")
			if last != "" {
				title = r.name(last)
			}
			main = append(main, app.H2().Text(title), app.Ul().Class("rows").Body(rows...))
		}
		rows = nil
	}
	for _, p := range r.personal {
		if p.part != last {
			flush()
		}
		last = p.part
		rows = append(rows, app.Li().Body(r.personalRow(p)...))
	}
	flush()
	return page{title: r.t("personal", "Names and photos"), sub: r.job.text("site", "name"), back: r.to("photos"), main: main, foot: []app.UI{r.tabs("")}}
}

// personalRow is one text or photo, and what erases it.
func (r *root) personalRow(p *personal) []app.UI {
	text, here := r.personalText(p)
	label := r.say(p.what)
	meta := r.clockOf(p.at)
	if p.earlier {
		meta += ", " + r.t("personal.earlier", "no longer in view")
	}
	says := app.Span().Body(app.B().Text(label), app.Br(), app.Text(text), app.Br(), app.Span().Class("note").Text(meta))
	if !here {
		return []app.UI{app.Div().Class("pair").Body(says)}
	}
	if r.panel == "erase-"+p.id {
		return []app.UI{app.Div().Class("pair").Body(says), r.eraseAsk(text, func(ctx app.Context) { r.erasePersonal(p, label) })}
	}
	return []app.UI{app.Div().Class("pair").Body(says,
		r.button("btn", r.t("erase", "Erase"), func(app.Context) { r.panel, r.focus = "erase-"+p.id, "erase-no" }).
			Aria("label", r.t("erase.label", "Erase from this phone: {what}, {text}", "what", label, "text", text)))}
}

func (r *root) personalText(p *personal) (text string, here bool) {
	if p.photo {
		if p.erased || r.job.absent[p.sums[0]] {
			return r.t("erased", "(erased)"), false
		}
		return r.bytes(p.size), true
	}
	text, here = job.Text(r.job.blobs, job.Ref{Sum: p.sums[0], Len: p.size})
	if !here {
		text = r.t("erased", "(erased)")
	}
	return text, here
}
