package screen

import (
	"errors"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks/plain"
	"lugmark/core/job"
	"lugmark/core/record"
	"lugmark/core/say"
)

var (
	sayRecordSaved = say.Phrase{Key: "screen.copy.record", English: "Saved: {file}, the signed record with {n} entries. Put it where it does not travel with this phone. “Open a job file” brings all of it back."}
	sayRecordSent  = say.Phrase{Key: "screen.copy.record-sent", English: "Handed on: {file}, the signed record with {n} entries. “Open a job file” brings all of it back."}
	sayPlainSaved  = say.Phrase{Key: "screen.copy.plain", English: "Saved: {file}, what was entered, as plain text. It is not signed and has no history: it does not replace the record."}
	sayPlainSent   = say.Phrase{Key: "screen.copy.plain-sent", English: "Handed on: {file}, what was entered, as plain text. It is not signed and has no history: it does not replace the record."}
	sayNotSent     = say.Phrase{Key: "screen.copy.not-sent", English: "Nothing was handed on, and no file was saved."}
	sayNoPlain     = say.Phrase{Key: "screen.copy.no-plain", English: "This job cannot be written as a plain job file: {why}. Save the record."}
	sayUnreadable  = say.Phrase{Key: "screen.copy.unread", English: "No copy was saved: the phone's storage could not be read."}
	sayLeftOut     = say.Phrase{Key: "screen.copy.left-out", English: "{saved} {n} entries could not be read and are not in it."}
	sayNothingHere = say.Phrase{Key: "screen.copy.nothing", English: "There is no job on this phone to save."}
)

// copyBox is what takes a job out of the phone.
func (r *root) copyBox() []app.UI {
	id := r.job.id
	out := []app.UI{
		app.H2().Text(r.t("copy.title", "Safe copy")),
		app.P().Text(r.t("copy.what", "This job is only on this phone. The record is all of it, signed: with it nothing is lost when the phone is. It holds the names and addresses that were entered.")),
		r.button("btn", r.t("copy.record", "Save the record (.txt)"), func(app.Context) { r.saveRecord(id, true) }),
	}
	if photos := photoSize(r.job.photosOf("", "")); photos > 0 {
		rest := r.job.textSize()
		out = append(out, app.P().Class("note").Text(r.t("copy.sizes", "With its photos it is about {with}, without them about {without}.", "with", r.bytes(rest+inText(photos)), "without", r.bytes(rest))),
			r.button("btn", r.t("copy.no-photos", "Save it without photos"), func(app.Context) { r.saveRecord(id, false) }))
	}
	return append(out, r.button("btn", r.t("copy.plain", "Save as plain job file (.json)"), func(app.Context) { r.savePlain() }))
}

// inText is how long bytes are in a record file: base64 makes four signs of
// three bytes.
func inText(n int) int { return (n + 2) / 3 * 4 }

// eventLine is about what an event is long in a record file [bytes].
const eventLine = 800

// textSize estimates the record file of a job without its photos [bytes].
func (j *opened) textSize() int {
	n := eventLine * j.state.Len()
	for _, b := range j.blobs {
		n += inText(len(b))
	}
	return n
}

// allBox does it for every job and the register.
func (r *root) allBox() app.UI {
	photos := 0
	for _, s := range r.jobs {
		photos += s.Photos
	}
	all := r.button("btn", r.t("copy.all", "Save all jobs and the register (.txt)"), func(app.Context) { r.saveAll(true) })
	if photos == 0 {
		return all
	}
	return app.Div().Class("noprint").Body(all,
		app.P().Class("note").Text(r.t("copy.all-sizes", "The photos of all jobs make up about {size} of it.", "size", r.bytes(inText(photos)))),
		r.button("btn", r.t("copy.all-no-photos", "Save all jobs without photos"), func(app.Context) { r.saveAll(false) }))
}

// saveRecord saves or shares the record of one job.
func (r *root) saveRecord(id string, photos bool) {
	title := ""
	if r.job != nil && r.job.id == id {
		title = r.job.text("site", "name")
	}
	r.saveRecords(title, photos, id)
}

// saveAll saves or shares the records of all jobs in one file.
func (r *root) saveAll(photos bool) {
	var ids []string
	for _, s := range r.jobs {
		ids = append(ids, s.ID)
	}
	if r.register != nil && r.register.state.Len() > 0 {
		ids = append(ids, registerID)
	}
	if len(ids) == 0 {
		r.notice = notice{says: sayNothingHere.With(), bad: true}
		return
	}
	r.saveRecords("all jobs", photos, ids...)
}

func (r *root) saveRecords(title string, photos bool, ids ...string) {
	r.async(func() {
		text, n, unread, err := recordOf(r.device.Store, photos, ids...)
		r.dispatch(func(app.Context) {
			if err != nil {
				app.Logf("lugmark: copy: %v", err)
				r.notice = notice{says: sayUnreadable.With(), bad: true}
				return
			}
			file := fileName(title, now(), "txt")
			saved, sent := sayRecordSaved.With("file", file, "n", itoa(n)), sayRecordSent.With("file", file, "n", itoa(n))
			if unread > 0 {
				saved, sent = sayLeftOut.With("saved", saved, "n", itoa(unread)), sayLeftOut.With("saved", sent, "n", itoa(unread))
			}
			r.handOut(file, "text/plain", text, saved, sent)
		})
	})
}

// recordOf writes the record file of jobs: every event that is kept, and every
// blob that is still there, of photos only when they are wanted. Unread counts
// what no version of this program wrote.
func recordOf(store Store, photos bool, ids ...string) (text []byte, n, unread int, err error) {
	var c record.Contents
	for _, id := range ids {
		events, blobs, err := store.Job(id)
		if err != nil {
			return nil, 0, 0, err
		}
		c.Blobs = append(c.Blobs, blobs...)
		held := map[string]bool{}
		for _, b := range blobs {
			held[b.Sum] = true
		}
		for _, signed := range events {
			e, err := job.Decode(signed.Raw)
			if err != nil {
				unread++
				continue
			}
			c.Events = append(c.Events, signed)
			if _, is := e.Body.(job.Photo); is && !photos {
				continue
			}
			for _, sum := range named(e) {
				if held[sum] {
					continue
				}
				b, there, err := store.Blob(id, sum)
				if err != nil {
					return nil, 0, 0, err
				}
				if there {
					held[sum] = true
					c.Blobs = append(c.Blobs, b)
				}
			}
		}
	}
	text, err = record.Write(c)
	return text, len(c.Events), unread, err
}

// named lists the sums of the blobs that an event needs, the pieces of a photo
// too.
func named(e job.Event) []string {
	var out []string
	for _, x := range job.Refs(e) {
		out = append(out, x.Sum)
	}
	if p, ok := e.Body.(job.Photo); ok && len(p.Chunks) > 1 { // the only piece is the photo itself
		out = append(out, p.Chunks...)
	}
	return out
}

// savePlain saves or shares what is entered, as a file that people can write.
func (r *root) savePlain() {
	j := r.job
	text, err := plain.Export(j.state, j.blobs, j.visit, now())
	if err != nil {
		r.notice = notice{says: sayNoPlain.With("why", strings.TrimPrefix(err.Error(), "plain: export: ")), bad: true}
		return
	}
	file := fileName(j.text("site", "name"), now(), "json")
	r.handOut(file, "application/json", text, sayPlainSaved.With("file", file), sayPlainSent.With("file", file))
}

// handOut gives a file to the phone's share sheet where that takes it, else to
// the downloads, and says which. Its bytes cross to the browser as they are: a
// record with photos has many millions of them.
func (r *root) handOut(file, kind string, text []byte, saved, sent say.Line) {
	download := func() {
		downloadFile(file, kind, text)
		r.notice = notice{says: saved}
	}
	nav := app.Window().Get("navigator")
	if !nav.Truthy() || !nav.Get("canShare").Truthy() {
		download()
		return
	}
	shared := map[string]any{"files": []any{app.Window().Get("File").New([]any{blobOf(kind, text)}, file, map[string]any{"type": kind})}}
	if !nav.Call("canShare", shared).Bool() {
		download()
		return
	}
	whenSettled(nav.Call("share", shared), func(_ app.Value, err error) {
		r.dispatch(func(app.Context) {
			switch {
			case err == nil:
				r.notice = notice{says: sent}
			case errors.Is(err, errAborted):
				r.notice = notice{says: sayNotSent.With()}
			default: // such as a tap that is too long ago
				download()
			}
		})
	})
}

// errAborted is a person's "no" to the share sheet.
var errAborted = errors.New("AbortError")

// whenSettled waits for a promise of the browser.
func whenSettled(promise app.Value, then func(app.Value, error)) {
	var good, bad app.Func
	good = app.FuncOf(func(_ app.Value, args []app.Value) any {
		good.Release()
		bad.Release()
		var v app.Value
		if len(args) > 0 {
			v = args[0]
		}
		then(v, nil)
		return nil
	})
	bad = app.FuncOf(func(_ app.Value, args []app.Value) any {
		good.Release()
		bad.Release()
		err := errors.New("refused")
		if len(args) > 0 && args[0].Truthy() {
			if name := args[0].Get("name").String(); name == errAborted.Error() {
				err = errAborted
			} else {
				err = errors.New(name)
			}
		}
		then(nil, err)
		return nil
	})
	promise.Call("then", good, bad)
}

// keepURL is how long the address of a download stays good: the browser reads
// it after the tap, and a slow phone takes its time.
const keepURL = time.Minute

func downloadFile(file, kind string, text []byte) {
	window := app.Window()
	url := window.Get("URL").Call("createObjectURL", blobOf(kind, text))
	a := window.Get("document").Call("createElement", "a")
	a.Set("href", url)
	a.Set("download", file)
	a.Call("click")
	time.AfterFunc(keepURL, func() { window.Get("URL").Call("revokeObjectURL", url) })
}

// asciiOf writes the letters of the Latin scripts that have a usual form.
var asciiOf = strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss", "æ", "ae", "ø", "o", "å", "a", "œ", "oe",
	"á", "a", "à", "a", "â", "a", "ã", "a", "ą", "a", "ă", "a", "ā", "a", "ç", "c", "ć", "c", "č", "c", "ď", "d", "đ", "d", "ð", "d",
	"é", "e", "è", "e", "ê", "e", "ë", "e", "ę", "e", "ě", "e", "ē", "e", "ğ", "g", "í", "i", "ì", "i", "î", "i", "ï", "i", "ı", "i", "ī", "i",
	"ł", "l", "ñ", "n", "ń", "n", "ň", "n", "ó", "o", "ò", "o", "ô", "o", "õ", "o", "ő", "o", "ř", "r", "ś", "s", "š", "s", "ş", "s", "ș", "s",
	"ť", "t", "ţ", "t", "ț", "t", "þ", "th", "ú", "u", "ù", "u", "û", "u", "ů", "u", "ű", "u", "ū", "u", "ý", "y", "ÿ", "y", "ź", "z", "ż", "z", "ž", "z")

// fileName makes a name for a file that every phone and mail program leaves
// alone: "lugmark-invented-jetty-2026-11-25.txt".
func fileName(title string, at time.Time, ending string) string {
	var b strings.Builder
	for _, c := range asciiOf.Replace(strings.ToLower(title)) {
		switch {
		case c >= 'a' && c <= 'z', c >= '0' && c <= '9':
			b.WriteRune(c)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	name := b.String()
	if len(name) > longestName {
		name = name[:longestName]
	}
	if name = strings.Trim(name, "-"); name == "" {
		name = "job"
	}
	return "lugmark-" + name + "-" + at.Format(time.DateOnly) + "." + ending
}

// longestName keeps a file's name on one line of a list of files [letters].
const longestName = 40
