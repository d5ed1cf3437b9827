package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/job"
	"lugmark/core/say"
)

// photo is passed on by one word: what stands around an event is much.
type photo = *job.Item[job.Photo]

// photosOf lists the photos in view of a part and of its posts, newest first;
// of one field, where it is given.
func (j *opened) photosOf(part, field string) []photo {
	var out []photo
	all := j.state.Photos()
	for i := len(all) - 1; i >= 0; i-- {
		p := &all[i]
		if (part == "" || p.Body.Part == part || bank.OwnerOf(p.Body.Part) == part) && (field == "" || p.Body.Field == field) {
			out = append(out, p)
		}
	}
	return out
}

// photoSize adds up what photos weigh [bytes].
func photoSize(list []photo) (n int) {
	for _, p := range list {
		n += p.Body.Blob.Len
	}
	return n
}

// photosBox shows the photos of a part, or of a field of it, and takes more.
func (r *root) photosBox(part, field string) []app.UI {
	out := r.twinBox(part, field)
	if list := r.job.photosOf(part, field); len(list) > 0 {
		out = append(out, r.photoGrid(list))
	}
	return append(out, r.photoButtons(part, field))
}

// photoGrid is small pictures in rows, each leading to the whole.
func (r *root) photoGrid(list []photo) app.UI {
	var tiles []app.UI
	for _, p := range list {
		tiles = append(tiles, app.Li().Body(app.A().Href(r.to("photo", p.ID)).Body(
			r.pictureOf(p), app.Span().Class("note").Aria("hidden", "true").Text(r.name(p.Body.Part)+", "+r.clockOf(p.At)))))
	}
	return app.Ul().Class("tiles").Body(tiles...)
}

// pictureOf is the frame of a photo, or the words that it is not here.
func (r *root) pictureOf(p photo) app.UI {
	if r.job.absent[p.Body.Blob.Sum] {
		return app.Span().Class("photo").Body(app.Span().Class("vh").Text(r.photoAlt(p)+": "), app.Text(r.t("photo.absent", "Not on this phone")))
	}
	return frameOf(p.Body.Blob.Sum, r.photoAlt(p))
}

// photoAlt says what a photo shows, for who cannot see it.
func (r *root) photoAlt(p photo) string {
	if f, ok := checks.FieldOf(p.Body.Field, p.Body.Part); ok {
		return r.t("photo.alt-field", "Photo of {part}, {field}, {when}", "part", lowerFirst(r.name(p.Body.Part)), "field", lowerFirst(r.say(f.Label.With())), "when", r.clockOf(p.At))
	}
	return r.t("photo.alt", "Photo of {part}, {when}", "part", lowerFirst(r.name(p.Body.Part)), "when", r.clockOf(p.At))
}

// photosTitle names the page of all photos, with how many there are.
func (r *root) photosTitle() string {
	return r.t("photos.title", "Photos ({n})", "n", itoa(len(r.job.photosOf("", ""))))
}

// viewPhotos is every photo of the job.
func (r *root) viewPhotos() page {
	list := r.job.photosOf("", "")
	var main []app.UI
	if len(list) == 0 {
		main = append(main, app.P().Text(r.t("photos.none", "No photo yet. A part's page takes photos of it; here they are of the whole bank.")))
	} else {
		main = append(main, app.P().Text(r.t("photos.count", "Photos: {n}, {size}. They may show people: ask them before you hand a photo on.", "n", itoa(len(list)), "size", r.bytes(photoSize(list)))),
			r.photoGrid(list))
	}
	main = append(append(main, r.twinBox("bank", "")...), r.photoButtons("bank", ""), goLink("btn", r.t("personal.link", "Erase names, notes and photos"), r.to("personal")))
	return page{title: r.t("photos", "Photos"), sub: r.job.text("site", "name"), back: r.to(), main: main, foot: []app.UI{r.tabs("")}}
}

// withdrawn are the reasons for taking a photo out of view.
var withdrawn = [][2]string{{"wrong-part", "It shows another part"}, {"not-sharp", "It cannot be made out"}, {"shows-person", "It shows a person"}, {"taken-again", "It was taken again"}}

// viewPhoto is one photo, whole, with what is known of it and the ways to take
// it back.
func (r *root) viewPhoto(id string) page {
	p, ok := r.photoAt(id)
	if !ok {
		return page{title: r.t("photo", "Photo"), sub: r.job.text("site", "name"), back: r.to("photos"),
			main: []app.UI{app.P().Text(r.t("photo.gone", "This photo is not in view: it was taken out, or erased."))}, foot: []app.UI{r.tabs("")}}
	}
	var main []app.UI
	if r.job.absent[p.Body.Blob.Sum] {
		main = append(main, r.ruled("todo", app.P().Text(r.t("photo.absent-why", "The picture is not on this phone: it was left out of the file that brought this record, or erased. The record still says that it was taken."))))
	} else {
		main = append(main, frameOf(p.Body.Blob.Sum, r.photoAlt(p)).Class("photo whole").DataSet("whole", "yes"))
	}
	said := [][2]string{{r.t("photo.part", "Part"), r.name(p.Body.Part)}}
	if f, ok := checks.FieldOf(p.Body.Field, p.Body.Part); ok {
		said = append(said, [2]string{r.t("photo.field", "Shows"), r.say(f.Label.With())})
	}
	said = append(said, [2]string{r.t("photo.when", "Taken in"), r.moment(p.At)}, [2]string{r.t("photo.who", "By"), r.by(p.By)},
		[2]string{r.t("photo.size", "Size"), r.bytes(p.Body.Blob.Len)}, [2]string{r.t("photo.hash", "Hash (SHA-256)"), grouped(p.Body.Blob.Sum)})
	var rows []app.UI
	for _, s := range said {
		rows = append(rows, app.Tr().Body(app.Th().Scope("row").Text(s[0]), app.Td().Text(s[1])))
	}
	main = append(main, app.Table().TabIndex(0).Body(app.Caption().Text(r.t("photo.record", "In the record")), app.TBody().Body(rows...)),
		app.P().Text(r.t("photo.people", "A photo may show people. Ask them before you hand it on.")))
	main = append(main, r.withdrawBox(p)...)
	main = append(main, r.erasePhotoBox(p)...)
	return page{title: r.name(p.Body.Part), sub: r.t("photo.sub", "Photo, {when}", "when", r.clockOf(p.At)), back: r.to("part", p.Body.Part), main: main, foot: []app.UI{r.tabs("")}}
}

// grouped parts a long sum, so that it can be read and broken over lines.
func grouped(sum string) string {
	out := ""
	for i := 0; i < len(sum); i += 8 {
		out += sum[i:min(i+8, len(sum))] + " "
	}
	return out
}

func (r *root) photoAt(id string) (photo, bool) {
	for _, p := range r.job.photosOf("", "") {
		if p.ID == id {
			return p, true
		}
	}
	return nil, false
}

// withdrawBox takes a photo out of view for a reason. It stays in the record.
func (r *root) withdrawBox(p photo) []app.UI {
	if r.panel != "withdraw" {
		return []app.UI{r.button("btn", r.t("photo.withdraw", "Take it out of view"), func(app.Context) { r.panel, r.focus = "withdraw", "why" })}
	}
	var options [][2]string
	for _, o := range withdrawn {
		options = append(options, [2]string{o[0], r.t("photo.why."+o[0], o[1])})
	}
	return []app.UI{app.P().Text(r.t("photo.withdraw-what", "It will no longer be shown or printed. It stays in the record, and so do its bytes on this phone.")),
		r.pick("why", r.t("cant.why", "Reason"), options),
		r.button("btn go", r.t("photo.withdraw", "Take it out of view"), func(ctx app.Context) {
			if r.text["why"] == "" {
				r.slips["why"] = sayWhyFirst.With()
				r.focus = "why"
				return
			}
			r.withdraw(p, r.text["why"], func(ctx app.Context) {
				r.notice = notice{says: sayPhotoUndone.With()}
				ctx.Navigate(r.to("photos"))
			})
		}),
		r.button("btn", r.t("leave", "Leave it"), func(app.Context) { r.panel = "" })}
}

var sayWhyFirst = say.Phrase{Key: "screen.photo.why-first", English: "Choose the reason first."}

// withdraw voids the event of a photo.
func (r *root) withdraw(p photo, why string, then func(app.Context)) {
	r.act1(r.job, "", nil, func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
		e, err := w.Void(at(), job.Key{}, why, job.Ref{}, []string{p.ID})
		return []job.Stamped{e}, nil, err
	}, func(ctx app.Context, kept bool) {
		if kept {
			then(ctx)
		}
	})
}

// annexPhotos is the part of the sheet with the photos: part, time and the
// beginning of the hash, by which the record's own can be told.
func (r *root) annexPhotos() []app.UI {
	began := r.job.began() // a return visit shows its own
	var tiles []app.UI
	list := r.job.photosOf("", "")
	for i := len(list) - 1; i >= 0; i-- {
		p := list[i]
		if p.Lam < began {
			continue
		}
		var picture app.UI = frameOf(p.Body.Blob.Sum, r.photoAlt(p)).DataSet("stays", "yes")
		if r.job.absent[p.Body.Blob.Sum] {
			picture = r.pictureOf(p)
		}
		tiles = append(tiles, app.Li().Body(picture, app.Div().Class("note").Body(app.B().Text(r.name(p.Body.Part)), app.Br(),
			app.Text(r.moment(p.At)), app.Br(), app.Text(p.Body.Blob.Sum[:hashOnPaper]))))
	}
	if len(tiles) == 0 {
		return nil
	}
	return []app.UI{r.sheetPage(r.kickerAnnex(), r.t("annex.photos", "J Photos"),
		app.P().Class("note").Text(r.t("annex.photos-what", "Part, time, and the beginning of the SHA-256 of each photo. The record holds the whole hash.")),
		app.Ul().Class("tiles").Body(tiles...))}
}

// hashOnPaper is how many signs of a hash are printed: 48 bits tell the photos
// of a job apart; the record has them all.
const hashOnPaper = 12
