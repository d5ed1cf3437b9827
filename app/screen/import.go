package screen

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/job"
	"lugmark/core/record"
	"lugmark/core/say"
)

var (
	sayDamaged   = say.Phrase{Key: "screen.file.damaged", English: "The record file is damaged at line {line}: {text}. Nothing was changed."}
	sayReading   = say.Phrase{Key: "screen.file.reading", English: "Reading the record …"}
	sayBringing  = say.Phrase{Key: "screen.file.bringing", English: "Bringing the record in: {n} of {all} entries. Leave Lugmark open."}
	sayBroughtN  = say.Phrase{Key: "screen.file.brought", English: "The record was brought in: {n} new entries of {all}. What was here already is untouched."}
	sayPassed    = say.Phrase{Key: "screen.file.passed", English: "{brought} On its way the text of the file was changed ({text})."}
	sayForked    = say.Phrase{Key: "screen.file.forked", English: "The record in the file and the one on this phone differ at line {line}: each has another entry in the same place. Nothing was changed. Keep both."}
	sayPartFull  = say.Phrase{Key: "screen.file.part-full", English: "This phone has no room left: {n} of {all} new entries were brought in. Make room, then open the file again; what is in is passed over."}
	sayPart      = say.Phrase{Key: "screen.file.part", English: "The phone's storage gave up: {n} of {all} new entries were brought in. Open the file again; what is in is passed over."}
	sayElsewhere = say.Phrase{Key: "screen.file.elsewhere", English: "Another tab has a newer version of Lugmark and holds the storage: {n} of {all} new entries were brought in. Close the other tab, reload, then open the file again."}
)

// importBatch is how many events one act of an import keeps.
const importBatch = 100

// slow is when a person wants to see that something goes on.
const slow = time.Second

// forkedFile says where a file and the phone hold different entries in the same
// place of a stream.
type forkedFile struct{ line int }

func (f forkedFile) Error() string { return fmt.Sprintf("screen: import: forked at line %d", f.line) }

// importRecord brings the signed events of a record file in. A file with a
// fault that touched the record changes nothing.
func (r *root) importRecord(raw []byte) {
	if r.busy {
		return
	}
	r.busy = true
	r.notice = notice{says: sayReading.With()}
	began := now()
	r.async(func() {
		time.Sleep(50 * time.Millisecond) // the sentence is painted before the checking holds the screen
		says, bad, jobs := r.takeRecord(raw, func(n, all int) {
			if now().Sub(began) > slow {
				r.dispatch(func(app.Context) {
					if r.busy {
						r.notice = notice{says: sayBringing.With("n", itoa(n), "all", itoa(all))}
					}
				})
				time.Sleep(10 * time.Millisecond) // so that it is seen
			}
		})
		r.dispatch(func(app.Context) {
			r.busy = false
			r.notice = notice{says: says, bad: bad}
			r.loadJobs(nil)
			for _, id := range jobs {
				r.changedElsewhere(id)
			}
		})
	})
}

// takeRecord reads, checks and keeps a record file. It returns what is to be
// said and the jobs that have changed.
func (r *root) takeRecord(raw []byte, tell func(n, all int)) (says say.Line, bad bool, jobs []string) {
	contents, faults := record.Read(raw)
	passed := ""
	for _, f := range faults {
		if !f.Passed {
			return sayDamaged.With("line", itoa(f.Line), "text", f.Why), true, nil
		}
		if passed != "" {
			passed += "; "
		}
		passed += f.Why
	}
	contents, faults = record.Verify(contents)
	if len(faults) > 0 {
		return sayDamaged.With("line", itoa(faults[0].Line), "text", faults[0].Why), true, nil
	}
	plans, all, err := r.plan(contents)
	n := 0
	if err == nil {
		tell(0, all)
		for _, p := range plans {
			jobs = append(jobs, p.id)
			for _, act := range p.acts {
				if err = r.device.Store.Keep(act); err != nil {
					break
				}
				n += len(act.Events)
				tell(n, all)
			}
			if err != nil {
				break
			}
		}
	}
	var fork forkedFile
	switch {
	case errors.As(err, &fork):
		return sayForked.With("line", itoa(fork.line)), true, nil
	case err != nil:
		app.Logf("lugmark: import: %v", err)
		says := map[Trouble]say.Phrase{Full: sayPartFull, Elsewhere: sayElsewhere}[r.troubleOf(err)]
		if says.Key == "" {
			says = sayPart
		}
		return says.With("n", itoa(n), "all", itoa(all)), true, jobs
	}
	says = sayBroughtN.With("n", itoa(n), "all", itoa(len(contents.Events)))
	if passed != "" {
		says = sayPassed.With("brought", says, "text", passed)
	}
	return says, false, jobs
}

// arrival is what a record file brings to one job: acts of at most importBatch
// events, each with the blobs that its events name and the job's line.
type arrival struct {
	id   string
	acts []job.Act
}

type spot struct {
	stream string
	seq    int
}

// plan compares a record with what is on the phone before anything is written.
// All counts the events that are new here. Blobs that no event names stay out.
func (r *root) plan(c record.Contents) (plans []arrival, all int, err error) {
	blobs := map[string]job.Blob{}
	for _, b := range c.Blobs {
		blobs[b.Sum] = b
	}
	lines := map[string][]int{}
	var ids []string
	for i, e := range c.Events {
		if lines[e.Job] == nil {
			ids = append(ids, e.Job)
		}
		lines[e.Job] = append(lines[e.Job], i)
	}
	for _, id := range ids {
		have, texts, err := r.device.Store.Job(id)
		if err != nil {
			return nil, 0, err
		}
		j := &opened{id: id, visit: firstVisit, state: job.New(id), blobs: job.Blobs{}}
		for _, b := range texts {
			j.blobs[b.Sum] = b.Data
		}
		there := map[spot][]byte{}
		for _, e := range have {
			there[spot{e.Stream, e.Seq}] = e.Raw
			j.fold(e)
		}
		p := arrival{id: id}
		for _, i := range lines[id] {
			e := c.Events[i]
			at := spot{e.Stream, e.Seq}
			if old, held := there[at]; held {
				if !bytes.Equal(old, e.Raw) {
					return nil, 0, forkedFile{c.Lines[i]}
				}
				continue
			}
			there[at] = e.Raw
			j.fold(e)
			p.add(e, blobs, j)
			all++
		}
		if len(p.acts) == 0 {
			continue
		}
		j.visit = latestVisit(j.state)
		j.judge()
		line, err := json.Marshal(r.summarise(j))
		if err != nil {
			return nil, 0, err
		}
		for i := range p.acts {
			p.acts[i].Summary = line
		}
		plans = append(plans, p)
	}
	return plans, all, nil
}

// add puts one event and the blobs it names into the last act, or a new one.
func (p *arrival) add(e job.Signed, blobs map[string]job.Blob, j *opened) {
	if last := len(p.acts) - 1; last < 0 || len(p.acts[last].Events) == importBatch {
		p.acts = append(p.acts, job.Act{Job: p.id})
	}
	act := &p.acts[len(p.acts)-1]
	act.Events = append(act.Events, e)
	event, err := job.Decode(e.Raw)
	if err != nil {
		return // Read has decoded it already
	}
	for _, sum := range named(event) {
		if b, in := blobs[sum]; in && j.blobs[sum] == nil {
			j.blobs[sum] = b.Data
			act.Blobs = append(act.Blobs, b)
		}
	}
}
