package screen

import (
	"bytes"
	"encoding/json"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/job"
	"lugmark/core/record"
	"lugmark/core/say"
)

var (
	sayReading   = say.Phrase{Key: "screen.file.reading", English: "Reading the record …"}
	sayBringing  = say.Phrase{Key: "screen.file.bringing", English: "Bringing the record in: {n} of {all} entries. Leave Lugmark open."}
	sayBroughtN  = say.Phrase{Key: "screen.file.brought", English: "The record was brought in: {n} new entries of {all}. {jobs}What was here already is untouched."}
	sayAdded     = say.Phrase{Key: "screen.file.added", English: "Added as a new job: {titles}. "}
	sayFilled    = say.Phrase{Key: "screen.file.filled", English: "Here before, and what was missing came: {titles}. "}
	sayTwoLines  = say.Phrase{Key: "screen.file.two", English: "{a}{b}"}
	sayAndMore   = say.Phrase{Key: "screen.file.and-more", English: "{titles} and {n} more"}
	sayPassed    = say.Phrase{Key: "screen.file.passed", English: "{brought} On its way the text of the file was changed ({text})."}
	sayPartFull  = say.Phrase{Key: "screen.file.part-full", English: "This phone has no room left: {n} of {all} new entries were brought in. Make room, then open the file again; what is in is passed over."}
	sayPart      = say.Phrase{Key: "screen.file.part", English: "The phone's storage gave up: {n} of {all} new entries were brought in. Open the file again; what is in is passed over."}
	sayElsewhere = say.Phrase{Key: "screen.file.elsewhere", English: "Another tab has a newer version of Lugmark and holds the storage: {n} of {all} new entries were brought in. Close the other tab, reload, then open the file again."}
)

// importBatch is how many events one act of an import keeps.
const importBatch = 100

// slow is when a person wants to see that something goes on.
const slow = time.Second

// importRecord brings the signed events of a record file in. Of a file that is
// damaged, or that goes another way than this phone, nothing is brought in
// before the person has heard what and said so.
func (r *root) importRecord(raw []byte) {
	if r.busy {
		return
	}
	r.offer = nil
	r.inFront(sayReading, func(tell func(say.Phrase, int, int)) func() {
		o, err := r.weigh(raw, func(n, all int) { tell(sayCheckingN, n, all) })
		if err != nil {
			app.Logf("lugmark: import: %v", err)
			return func() { r.notice = notice{says: sayPart.With("n", "0", "all", "0"), bad: true} }
		}
		if !o.clean() {
			return func() {
				if r.notice = (notice{}); r.route().screen == "jobs" {
					r.offer, r.focus = o, "offer"
					return
				}
				r.notice = notice{says: o.says()[0], bad: true} // the person went on: nothing waits unseen
			}
		}
		return r.bringIn(o, tell)
	})
}

// bringWhole brings in what the person was offered.
func (r *root) bringWhole() {
	o := r.offer
	if r.busy || o == nil {
		return
	}
	r.offer = nil
	r.inFront(sayReading, func(tell func(say.Phrase, int, int)) func() { return r.bringIn(o, tell) })
}

// inFront does long work beside the screen, which says how far it has come, and
// then what the work returns on the goroutine of the screen.
func (r *root) inFront(says say.Phrase, work func(tell func(says say.Phrase, n, all int)) func()) {
	r.busy = true
	r.notice = notice{says: says.With()}
	began := now()
	said := began
	r.async(func() {
		time.Sleep(50 * time.Millisecond) // the sentence is painted before the work holds the screen
		done := work(func(says say.Phrase, n, all int) {
			if at := now(); at.Sub(began) > slow && at.Sub(said) > slow/5 {
				said = at
				r.dispatch(func(app.Context) {
					if r.busy {
						r.notice = notice{says: says.With("n", itoa(n), "all", itoa(all))}
					}
				})
				time.Sleep(10 * time.Millisecond) // so that it is seen
			}
		})
		r.dispatch(func(app.Context) {
			r.busy = false
			done()
		})
	})
}

// bringIn keeps what an offer holds and tells of it.
func (r *root) bringIn(o *offer, tell func(says say.Phrase, n, all int)) func() {
	says, bad := r.takeIn(o, func(n, all int) { tell(sayBringing, n, all) })
	return func() {
		r.notice = notice{says: says, bad: bad}
		r.loadJobs(nil)
		for _, p := range o.plans {
			r.changedElsewhere(p.id)
		}
	}
}

// takeIn keeps the acts of an offer, and returns what is to be said.
func (r *root) takeIn(o *offer, tell func(n, all int)) (says say.Line, bad bool) {
	n, photos, all := 0, 0, len(o.sifted.New.Events)
	tell(0, all)
	for _, p := range o.plans {
		photos += p.photos
		for _, act := range p.acts {
			if err := r.device.Store.Keep(act); err != nil {
				app.Logf("lugmark: import: %v", err)
				says := map[Trouble]say.Phrase{Full: sayPartFull, Elsewhere: sayElsewhere}[r.troubleOf(err)]
				if says.Key == "" {
					says = sayPart
				}
				return says.With("n", itoa(n), "all", itoa(all)), true
			}
			n += len(act.Events)
			tell(n, all)
		}
	}
	says = sayBroughtN.With("n", itoa(n), "all", itoa(o.entries), "jobs", o.jobs())
	if photos > 0 {
		says = sayBroughtPhotos.With("brought", says, "n", itoa(photos))
	}
	if len(o.passed) > 0 {
		says = sayPassed.With("brought", says, "text", strings.Join(o.passed, "; "))
	}
	return says, false
}

// arrival is what a record file brings to one job: acts of at most importBatch
// events, each with the blobs that its events name and the job's line.
type arrival struct {
	id    string
	title string
	fresh bool // nothing of the job is on this phone
	acts  []job.Act

	photos int // pictures of events that are here already
}

// weigh reads a record file and compares it with what is on the phone. Nothing
// is written.
func (r *root) weigh(raw []byte, tell func(n, all int)) (*offer, error) {
	o := &offer{}
	contents, faults := record.Read(raw)
	for _, f := range faults {
		if f.Passed {
			o.passed = append(o.passed, f.Why)
		} else {
			o.faults = append(o.faults, f)
		}
	}
	o.entries = len(contents.Events)
	here := map[string][]job.Signed{}
	texts := map[string][]job.Blob{}
	var known []job.Signed
	var ids []string
	for _, e := range contents.Events {
		if _, seen := here[e.Job]; seen {
			continue
		}
		ids = append(ids, e.Job)
		events, blobs, err := r.device.Store.Job(e.Job)
		if err != nil {
			return nil, err
		}
		here[e.Job], texts[e.Job] = events, blobs
		known = append(known, here[e.Job]...)
	}
	o.sifted = record.Sift(contents, known, tell)
	o.faults = append(o.faults, o.sifted.Faults...)
	blobs := map[string]job.Blob{}
	for _, b := range contents.Blobs {
		blobs[b.Sum] = b
	}
	for _, id := range ids {
		p, err := r.plan(id, here[id], texts[id], o.sifted.New, blobs)
		if err != nil {
			return nil, err
		}
		if len(p.acts) > 0 {
			o.plans = append(o.plans, p)
		}
	}
	return o, nil
}

// plan is what a file brings to one job: its new events, and blobs that what is
// here names and lacks. Blobs that no event names stay out.
func (r *root) plan(id string, have []job.Signed, texts []job.Blob, brought record.Contents, blobs map[string]job.Blob) (arrival, error) {
	p := arrival{id: id, fresh: len(have) == 0 && id != registerID} // a register is joined, never added
	j := &opened{id: id, visit: firstVisit, state: job.New(id), blobs: job.Blobs{}}
	for _, b := range texts {
		j.blobs[b.Sum] = b.Data
	}
	for _, e := range have {
		j.fold(e)
	}
	hidden := j.hiddenPhotos(have)
	for _, e := range have {
		if !bytes.Contains(e.Raw, []byte(`"b":"`)) {
			continue // it names no blob
		}
		for _, b := range wanted(e, blobs, j) {
			if hidden[b.Sum] {
				continue
			}
			_, there, err := r.device.Store.Blob(id, b.Sum)
			if err != nil {
				return p, err
			}
			if !there {
				act := p.act()
				act.Blobs = append(act.Blobs, b)
				j.blobs[b.Sum] = b.Data
				if strings.HasPrefix(b.Type, "image/") {
					p.photos++
				}
			}
		}
	}
	for _, e := range brought.Events {
		if e.Job != id {
			continue
		}
		j.fold(e)
		act := p.act()
		act.Events = append(act.Events, e)
		for _, b := range wanted(e, blobs, j) {
			act.Blobs = append(act.Blobs, b)
			j.blobs[b.Sum] = b.Data
		}
	}
	if len(p.acts) == 0 {
		return p, nil
	}
	j.visit = latestVisit(j.state)
	j.judge()
	line := r.summarise(j)
	p.title = line.Title
	text, err := json.Marshal(line)
	for i := range p.acts {
		p.acts[i].Summary = text
	}
	return p, err
}

// wanted returns the blobs of a file that an event names and the job lacks.
func wanted(e job.Signed, blobs map[string]job.Blob, j *opened) (out []job.Blob) {
	event, err := job.Decode(e.Raw)
	if err != nil {
		return nil
	}
	for _, sum := range named(event) {
		if b, in := blobs[sum]; in && j.blobs[sum] == nil {
			out = append(out, b)
		}
	}
	return out
}
