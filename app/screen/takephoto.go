package screen

import (
	"errors"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/bank"
	"lugmark/core/job"
	"lugmark/core/say"
)

var (
	sayShrinking   = say.Phrase{Key: "screen.photo.shrinking", English: "Making the photo smaller …"}
	sayPhotoKept   = say.Phrase{Key: "screen.photo.kept", English: "{part}: photo kept, {size}. It may show people: ask them before you hand it on."}
	sayPhotoUndone = say.Phrase{Key: "screen.photo.undone", English: "The photo is out of view. It stays in the record until it is erased."}
	sayPhotoTwice  = say.Phrase{Key: "screen.photo.twice", English: "This photo is here already, taken {when}. It was not kept a second time."}
	sayNoPhoto     = say.Phrase{Key: "screen.photo.unreadable", English: "This phone cannot show that file as a picture. Nothing was kept. Take the photo here, or choose a JPEG or PNG."}
	sayPhotoFull   = say.Phrase{Key: "screen.photo.full", English: "The photo was not kept: more than 95 % of the room for Lugmark is used. Readings are still kept. Make room on the phone, or erase photos that nobody needs."}
	sayPhotoNear   = say.Phrase{Key: "screen.photo.near", English: "{kept} More than 80 % of the room for Lugmark is used; above 95 % photos are no longer kept."}
)

// Photos end where room gets short, so that readings never do; it is said
// earlier. Our choice.
const (
	roomWarn   = 0.80
	roomRefuse = 0.95
)

// room says how full the store is.
type room uint8

const (
	roomEnough room = iota // also where the browser does not say
	roomNear
	roomNone
)

// roomFor judges used and all the space that the browser gives [bytes].
func roomFor(used, quota int64) room {
	switch share := float64(used); {
	case quota <= 0:
		return roomEnough
	case share > roomRefuse*float64(quota):
		return roomNone
	case share > roomWarn*float64(quota):
		return roomNear
	}
	return roomEnough
}

// camera is the photo that is being taken in.
type camera struct {
	busy bool
	told bool // that it takes a while
	twin *twinPhoto
}

// twinPhoto is a photo that stands at another part already; it waits for a word.
type twinPhoto struct {
	part, field, other string
	data               []byte
}

// photoButtons take a photo of a part, or of what a field of it asks. Phones
// that are told to take one offer no album, so there are two.
func (r *root) photoButtons(part, field string) app.UI {
	input := func(id string) app.HTMLInput {
		return app.Input().Type("file").ID(id+"-"+part+"-"+field).Class("vh").Accept("image/*").
			DataSet("about", part+"/"+field).OnChange(r.onPhoto)
	}
	return app.Div().Class("two even").Body(
		app.Label().Class("btn file").Body(app.Text(r.t("photo.take", "Take a photo")), input("take").Attr("capture", "environment")),
		app.Label().Class("btn file").Body(app.Text(r.t("photo.choose", "Choose a picture")), input("choose")))
}

// onPhoto takes in the picture that was taken or chosen.
func (r *root) onPhoto(ctx app.Context, _ app.Event) {
	defer r.recovered()
	src := ctx.JSSrc()
	files := src.Get("files")
	if files.Get("length").Int() == 0 || r.camera.busy || r.job == nil {
		return
	}
	file := files.Call("item", 0)
	part, field, _ := strings.Cut(src.Get("dataset").Get("about").String(), "/")
	src.Set("value", "") // so that the same file can be chosen again
	r.takePhoto(r.job, part, field, file)
}

// takePhoto makes a photo small and keeps it with its event in one act. What
// goes on meanwhile is said when it takes long.
func (r *root) takePhoto(j *opened, part, field string, file app.Value) {
	r.camera = camera{busy: true}
	time.AfterFunc(slow, func() {
		r.dispatch(func(app.Context) {
			if r.camera.busy {
				r.camera.told, r.notice = true, notice{says: sayShrinking.With()}
			}
		})
	})
	r.async(func() {
		data, full, err := r.readPhoto(file)
		r.dispatch(func(app.Context) {
			if r.camera.told {
				r.notice = notice{}
			}
			r.camera = camera{}
			switch {
			case err != nil:
				if !errors.Is(err, errNoPicture) {
					app.Logf("lugmark: photo: %v", err)
				}
				r.notice = notice{says: sayNoPhoto.With(), bad: true}
			case full == roomNone:
				r.notice = notice{says: sayPhotoFull.With(), bad: true}
			default:
				r.keepPhoto(j, part, field, data, full, false)
			}
		})
	})
}

// readPhoto asks for room first, then makes the picture small. It waits.
func (r *root) readPhoto(file app.Value) (data []byte, full room, err error) {
	if full = roomFor(r.device.Store.Estimate()); full == roomNone {
		return nil, full, nil
	}
	blob, err := shrink(file, photoSide, photoQuality)
	if err != nil {
		return nil, full, err
	}
	raw, err := bytesOf(blob)
	if err != nil {
		return nil, full, err
	}
	data, _, _, ok := onlyPicture(raw)
	if !ok {
		return nil, full, errNoPicture
	}
	return data, full, nil
}

// keepPhoto keeps a photo, unless the very same one stands here already. One
// that stands at another part is asked about, unless sure.
func (r *root) keepPhoto(j *opened, part, field string, data []byte, full room, sure bool) {
	if r.job != nil && r.job.id == j.id {
		j = r.job // it was opened again meanwhile; any other job is left alone
	}
	if r.busy { // an act is being kept; this one is not to be lost for it
		time.AfterFunc(50*time.Millisecond, func() {
			r.dispatch(func(app.Context) { r.keepPhoto(j, part, field, data, full, sure) })
		})
		return
	}
	r.camera.twin = nil
	blob, body := job.NewPhoto(part, field, "image/jpeg", data)
	for _, p := range j.photosOf("", "") {
		switch {
		case p.Body.Blob.Sum != blob.Sum:
		case p.Body.Part == part && p.Body.Field == field:
			r.notice = notice{says: sayPhotoTwice.With("when", r.clockOf(p.At)), bad: true}
			return
		case !sure:
			r.camera.twin = &twinPhoto{part: part, field: field, other: p.Body.Part, data: data}
			r.notice, r.focus = notice{}, "twin"
			return
		}
	}
	answer, answers := j.photoAnswer(part, field)
	r.act1(j, "", nil, func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
		e, err := w.Photo(at(), body)
		if err != nil || !answers {
			return []job.Stamped{e}, []job.Blob{blob}, err
		}
		a, _, err := stampChange(w, at(), j.key(part, field), answer)
		return []job.Stamped{e, a}, []job.Blob{blob}, err
	}, func(_ app.Context, kept bool) {
		if !kept {
			return
		}
		if answers {
			r.text[field] = answer.value.Choice
		}
		delete(j.absent, blob.Sum)
		says := sayPhotoKept.With("part", bank.Name(part), "size", r.bytes(len(data)))
		if full == roomNear {
			says = sayPhotoNear.With("kept", says)
		}
		r.notice = notice{says: says, undo: r.undoMade(j)}
	})
}

// undoMade takes what the last act made out of view.
func (r *root) undoMade(j *opened) func(app.Context) {
	made := r.made
	return func(app.Context) {
		r.act1(j, "", nil, func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
			e, err := w.Void(at(), job.Key{}, "undo", job.Ref{}, made)
			return []job.Stamped{e}, nil, err
		}, func(_ app.Context, kept bool) {
			if kept {
				r.notice = notice{says: sayPhotoUndone.With()}
			}
		})
	}
}

// photoAnswer is the answer that a photo gives to a field which asks whether
// one was taken.
func (j *opened) photoAnswer(part, field string) (change, bool) {
	over := visitNumber(j.visit) < visitNumber(latestVisit(j.state)) // it takes no new answers
	if over || !asksPhoto[field] || j.choiceOf(part, field) == "yes" {
		return change{}, false
	}
	return change{part: part, field: field, value: job.Value{Kind: job.KindChoice, Choice: "yes"}, saw: j.state.Seen(j.key(part, field))}, true
}

// asksPhoto are the fields that ask whether a photo was taken: with the photo
// itself the answer is yes.
var asksPhoto = map[string]bool{"arrival-photo": true, "lug-photo": true}

// showsPhoto are the fields that a photo can show, beside their form.
var showsPhoto = map[string]bool{"arrival-photo": true, "lug-photo": true, "condition": true, "labels": true}

// twinBox asks about a photo that stands at another part already.
func (r *root) twinBox(part, field string) []app.UI {
	t := r.camera.twin
	if t == nil || t.part != part || t.field != field {
		return nil
	}
	j := r.job
	return []app.UI{r.ruled("unk", app.P().Text(r.t("photo.twin", "The very same photo stands at {other} already. Was the wrong one chosen?", "other", lowerFirst(r.name(t.other)))),
		r.button("btn", r.t("photo.twin-drop", "Do not keep it"), func(app.Context) { r.camera.twin = nil }).ID("twin"),
		r.button("btn", r.t("photo.twin-keep", "Keep it here too"), func(app.Context) { r.keepPhoto(j, t.part, t.field, t.data, roomEnough, true) }))}
}

// clockOf says a time of the record.
func (r *root) clockOf(at string) string {
	t, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return at
	}
	return r.clock(t)
}

// bytes says how large something is: "214 kB", "4.1 MB".
func (r *root) bytes(n int) string {
	const kilo = 1000
	switch {
	case n < kilo*kilo:
		return itoa((n+kilo-1)/kilo) + "\u00a0kB"
	}
	return r.voice.Digits(oneDecimal(float64(n)/(kilo*kilo))) + "\u00a0MB"
}
