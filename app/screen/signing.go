package screen

import (
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/seal"
)

// owner is the person of a job to whom it is handed over.
const owner = "p3"

// signBox takes a typed signature, or shows the one that was given.
func (r *root) signBox(role, title string) app.UI {
	s, current, ok := r.job.signed(role)
	id := "sign-" + role
	body := []app.UI{app.H2().Text(title)}
	if ok {
		name := r.written(s.Body.Ink)
		says := r.t("sign.signed", "Signed by {name}, {when}.", "name", name, "when", r.moment(s.At))
		if !current {
			says += " " + r.t("sign.changed", "The results have changed since: sign again.")
		}
		body = append(body, app.P().Text(says))
	}
	if !current {
		body = append(body, r.input(id, r.t("sign.name", "Type the full name to sign: {title}", "title", lowerFirst(title)), "", "text"),
			r.button("btn", r.t("sign", "Sign"), func(ctx app.Context) { r.keepSignature(role, id) }))
	}
	return app.Div().Class("signbox").Body(body...)
}

// keepSignature keeps the signature of the owner, or of the technician who holds
// this phone. What another signed in the same role under other results is taken
// out of view: a seal stands on signatures under the same results only.
func (r *root) keepSignature(role, id string) {
	name := r.text[id]
	if len([]rune(name)) < 2 {
		r.slips[id] = say.Phrase{Key: "screen.sign.empty", English: "Type the name first."}.With()
		r.focus = id
		return
	}
	delete(r.slips, id)
	blob, ref := job.Personal(name, salt())
	j := r.job
	r.act1(j, "", nil, func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
		stamp := at()
		about := j.sheet()
		if about.moment.IsZero() { // the first to sign freezes the sheet at this moment
			stamp.Now = stamp.Now.Truncate(time.Millisecond)
			about = j.sheetAt(stamp.Now)
		}
		s := job.Sign{Who: j.me, Role: role, How: job.Typed, Ink: ref, Digest: about.digest}
		if role == checks.RoleOwner {
			s.Who = owner
		}
		var stamped []job.Stamped
		if past := j.pastSigns(s); len(past) > 0 {
			e, err := w.Void(at(), job.Key{}, "results-changed", job.Ref{}, past)
			if err != nil {
				return nil, nil, err
			}
			stamped = append(stamped, e)
		}
		e, err := w.Sign(stamp, s)
		return append(stamped, e), []job.Blob{blob}, err
	}, func(_ app.Context, kept bool) {
		if kept {
			r.notice = notice{says: say.Phrase{Key: "screen.sign.kept", English: "Signature kept."}.With()}
		}
	})
}

// moment says a time of the record with its day and year, for paper.
func (r *root) moment(at string) string {
	t, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return at
	}
	return t.Format("15:04, 2 January 2006")
}

// day says the day of a time of the record; "" of none.
func (r *root) day(at string) string {
	t, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return ""
	}
	return t.Format("2 January 2006")
}

// sealBox freezes the results once both have signed what is on the screen.
func (r *root) sealBox() app.UI {
	if sealed, current, _ := r.job.sealed(); current {
		return r.ruled("pass", app.P().Text(r.t("seal.done", "Sealed, revision {rev}. The fingerprint is on the sheet.", "rev", itoa(sealed.Body.Rev))))
	}
	if x := r.job.signatures(); x.Verdict() != finding.Pass {
		return app.Div().Body(app.P().Class("note").Text(r.t("seal.first", "Both sign, then the sheet is sealed and gets its fingerprint.")),
			app.P().Class("note").Text(r.say(x.Next())))
	}
	return r.button("btn go", r.t("seal", "Seal the sheet"), func(ctx app.Context) {
		about := r.job.sheet()
		blob, ref := job.NewBlob("text/plain", about.results)
		r.act1(r.job, "", nil, func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
			e, err := w.Seal(at(), about.digest, ref, checks.Rules)
			return []job.Stamped{e}, []job.Blob{blob}, err
		}, func(_ app.Context, kept bool) {
			if kept {
				r.notice = notice{says: say.Phrase{Key: "screen.seal.kept", English: "Sealed."}.With()}
			}
		})
	})
}

// fingerprint is the seal's hash in 26 signs, or the word that there is none.
func (r *root) fingerprint() app.UI {
	sealed, current, ok := r.job.sealed()
	if !ok {
		return app.P().Class("note").Text(r.t("seal.none", "Not sealed."))
	}
	rows := seal.Fingerprint(sealed.Hash).Rows()
	body := []app.UI{app.P().Class("fp num").Text(strings.Join(rows[:], "  "))}
	if !current {
		body = append(body, app.P().Class("note").Text(r.t("seal.changed", "Changed since this seal.")))
	}
	return app.Div().Body(body...)
}

// annexSigned is the last part: who signed, and what the fingerprint proves.
func (r *root) annexSigned() app.UI {
	var rows []app.UI
	for _, x := range []struct{ role, title string }{{checks.RoleTechnician, r.t("hand.you", "Technician")}, {checks.RoleOwner, r.t("hand.owner", "Owner")}} {
		name, when := "", ""
		if s, _, ok := r.job.signed(x.role); ok {
			name = r.written(s.Body.Ink)
			when = r.moment(s.At)
		}
		rows = append(rows, app.Tr().Body(app.Th().Scope("row").Text(x.title), app.Td().Class("sign").Text(name), app.Td().Text(when)))
	}
	x := r.job.signatures()
	return r.sheetPage(r.kickerAnnex(), r.t("annex.signed", "Signatures"),
		app.P().Body(r.stateWord(x.Verdict()), app.Text(" "+r.say(x.Reason())+r.say(x.Next()))),
		app.Table().Class("big").TabIndex(0).Body(app.Caption().Text(r.t("annex.signatures", "Signed by")), app.TBody().Body(rows...)),
		app.P().Text(r.t("seal.proves", "The fingerprint is made from the whole signed record. The same 26 signs prove that this paper matches that record. They do not prove that each reading was true. Whoever has the record file can compare it: in Lugmark under Jobs, Check a record.")),
		r.paperFoot())
}
