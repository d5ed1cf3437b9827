package screen

import (
	"bytes"
	"encoding/json"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks/plain"
	"lugmark/checks/sample"
	"lugmark/core/job"
	"lugmark/core/record"
	"lugmark/core/say"
)

var (
	sayForeign   = say.Phrase{Key: "screen.file.foreign", English: "This is not a job file of Lugmark: it begins neither with a brace nor with “lugmark-record 1”. Nothing was changed."}
	sayFaults    = say.Phrase{Key: "screen.file.faults", English: "The file was not opened, and nothing was changed. Line {line}: {text} ({n} in all)"}
	sayPlainFull = say.Phrase{Key: "screen.file.plain-full", English: "This phone has no room left: the file was brought in only in part. Make room, then open the file again as another job."}
	sayPlainPart = say.Phrase{Key: "screen.file.plain-part", English: "The phone's storage gave up: the file was brought in only in part. Open the file again as another job."}
	sayOpened    = say.Phrase{Key: "screen.file.opened", English: "The file was added as a new job."}
	saySamples   = say.Phrase{Key: "screen.file.samples", English: "The sample jobs are here. Everything in them is invented."}
	sayGathering = say.Phrase{Key: "screen.file.gathering", English: "Bringing in the sample jobs: {n} of {all} …"}
	sayNoFile    = say.Phrase{Key: "screen.file.unreadable", English: "The phone could not read this file. Nothing was changed."}
	sayTooBig    = say.Phrase{Key: "screen.file.big", English: "This file is larger than this phone can open at once. Nothing was changed. Save the jobs one by one, or without photos."}
)

// largestFile is more than a few jobs with many photos have as text [bytes].
// All of it is in memory at once.
const largestFile = 64 << 20

// fileButton asks for a file and hands on what is in it.
func (r *root) fileButton(id, label string, take func(app.Context, []byte)) app.UI {
	return app.Label().Class("btn file").Body(app.Text(label),
		app.Input().Type("file").ID(id).Class("vh").Accept(".txt,.json,application/json,text/plain").
			DataSet("act", r.act(func(ctx app.Context) { r.onFile(ctx, take) })).OnChange(r.onAct))
}

// onFile reads the file that was chosen.
func (r *root) onFile(ctx app.Context, take func(app.Context, []byte)) {
	files := ctx.JSSrc().Get("files")
	if files.Get("length").Int() == 0 {
		return
	}
	file, input := files.Call("item", 0), ctx.JSSrc()
	if file.Get("size").Int() > largestFile {
		r.notice = notice{says: sayTooBig.With(), bad: true}
		return
	}
	r.async(func() {
		raw, err := bytesOf(file)
		r.dispatch(func(ctx app.Context) {
			input.Set("value", "")
			if err != nil {
				r.notice = notice{says: sayNoFile.With(), bad: true}
				return
			}
			take(ctx, raw)
		})
	})
}

// takeFile opens a job file of either kind, told by how it begins.
func (r *root) takeFile(ctx app.Context, raw []byte) {
	text := bytes.TrimLeft(bytes.TrimPrefix(raw, []byte("\ufeff")), " \t\r\n")
	switch {
	case bytes.HasPrefix(text, []byte("{")):
		file, faults := plain.Parse(raw)
		if len(faults) > 0 {
			r.notice = notice{says: sayFaults.With("line", itoa(faults[0].Line), "text", faults[0].Text, "n", itoa(len(faults))), bad: true}
			return
		}
		me, named := r.bringer(file)
		r.importPlain(ctx, file, me, 0, func(ctx app.Context, id string) {
			if named {
				r.bind(id, r.prefs.Person, me)
			}
			r.notice = notice{says: sayOpened.With()}
			ctx.Navigate("/j/" + id)
		})
	case bytes.HasPrefix(text, []byte(record.Header)):
		r.importRecord(raw)
	default:
		r.notice = notice{says: sayForeign.With(), bad: true}
	}
}

// importPlain makes ordinary signed events of a plain job file, in a new job.
// Me is who of its people brings it in.
func (r *root) importPlain(ctx app.Context, file *plain.File, me string, shift time.Duration, then func(app.Context, string)) {
	id, err := uuid.NewV7()
	if err != nil {
		return
	}
	if file.Now.IsZero() {
		file.Now = now()
	}
	r.async(func() {
		j, err := r.keepPlain(id.String(), me, file, shift)
		r.dispatch(func(ctx app.Context) {
			if err != nil {
				app.Logf("lugmark: import: %v", err)
				r.notice = notice{says: sayPlainPart.With(), bad: true}
				if r.troubleOf(err) == Full {
					r.notice.says = sayPlainFull.With()
				}
				r.loadJobs(nil)
				return
			}
			then(ctx, j.id)
		})
	})
}

// keepPlain keeps the events of a plain job file, act by act.
func (r *root) keepPlain(id, me string, file *plain.File, shift time.Duration) (*opened, error) {
	j := &opened{id: id, me: me, visit: firstVisit, state: job.New(id), blobs: job.Blobs{}}
	r.newWriter(j)
	line := firstLineOf(file)
	keep := func(stamp stamper) error {
		stamped, blobs, err := r.keepAct(j, "", line, stamp)
		if err == nil {
			j.apply(stamped, blobs)
		}
		return err
	}
	err := keep(func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
		e, err := w.Start(at(), "bank")
		return []job.Stamped{e}, nil, err
	})
	for _, batch := range file.Batches(shift) {
		if err != nil {
			return nil, err
		}
		err = keep(func(w *job.Writer, at func() job.Stamp) ([]job.Stamped, []job.Blob, error) {
			return plain.Stamps(batch, w, j.state, at, salt)
		})
	}
	if err != nil {
		return nil, err
	}
	j.visit = latestVisit(j.state)
	j.judge()
	summary, err := json.Marshal(r.summarise(j))
	if err != nil {
		return nil, err
	}
	return j, r.device.Store.Keep(job.Act{Job: j.id, Summary: summary})
}

// addSamples adds the invented jobs, with their times moved to the present.
func (r *root) addSamples(ctx app.Context) {
	left := sample.List()
	for _, have := range r.jobs {
		for i, s := range left {
			if strings.HasPrefix(have.Title, sampleName(s)) {
				left = append(left[:i:i], left[i+1:]...)
				break
			}
		}
	}
	all := len(left)
	var next func(app.Context, string)
	next = func(ctx app.Context, id string) {
		if id != "" {
			r.bind(id, anyHolder, "p1")
		}
		if len(left) == 0 {
			r.notice = notice{says: saySamples.With()}
			r.loadJobs(nil)
			return
		}
		r.notice = notice{says: sayGathering.With("n", itoa(all-len(left)+1), "all", itoa(all))}
		file, faults := plain.Parse(left[0].Raw)
		left = left[1:]
		if len(faults) > 0 {
			next(ctx, "")
			return
		}
		r.importPlain(ctx, file, "p1", now().Sub(file.Now), next)
	}
	next(ctx, "")
}

// sampleName is the name of the site in a sample.
func sampleName(s sample.Sample) string {
	var head struct {
		Title string `json:"title"`
	}
	json.Unmarshal(s.Raw, &head)
	return head.Title
}
