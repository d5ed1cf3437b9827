// Package prove says what a record file proves, and what it does not, to
// somebody who has the file and perhaps a printed sheet, a year later.
//
//	report := prove.Read(file, tell)
//	report.Sound()
//	report.Find(print) // the seals that a sheet with this fingerprint was printed from
//
// The command and the page both say what [Report] says, in the same sentences.
// It judges no reading and keeps nothing.
package prove

import (
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"sort"
	"time"

	"lugmark/core/job"
	"lugmark/core/record"
	"lugmark/core/seal"
)

// Report is what a record file holds and what is wrong with it.
type Report struct {
	Faults []record.Fault // by line; none: all that is here is as it was signed
	Passed []record.Fault // changes to the text around the record, which took nothing from it
	Jobs   []*Job         // by id
}

// Job is what the file holds of one job.
type Job struct {
	ID      string
	Title   string // "" where its text is not in the file
	Events  int
	Unread  int // of them by a newer version of the app
	Blobs   int // that its events name and the file holds
	First   time.Time
	Last    time.Time // both as the phones claimed
	Devices []*Device // in the order in which they began
	Keyless int       // streams whose device is unknown, because their first event is lost
	People  []Person
	Signed  []Signature // in view
	Seals   []*Seal     // by revision
	Missing int         // blobs that are named and not here: erased, or never brought
	Sound   bool        // nothing is wrong with the file; else what is wrong is not counted here
}

// Device is one phone, known by its key.
type Device struct {
	Key     string // the first signs of the key's print
	Soft    bool   // the key could be copied out of the phone
	App     string // the program that began its last stream
	Streams int
	Events  int
	First   time.Time
	Last    time.Time
}

// Person is who entered something.
type Person struct {
	ID     string // p1
	Name   string // "" where it is not in the file
	Events int
}

// Signature is a person's, under a list of results.
type Signature struct {
	Name   string
	Role   string
	At     time.Time
	Digest string
}

// Seal is one handover.
type Seal struct {
	Rev     int
	Print   seal.Print
	Line    int
	At      time.Time
	By      string // name or id
	Rules   string
	Covers  int // events, seals aside
	Since   int // events that are here and that it does not cover
	Signed  []Signature
	Results map[string]int // frozen findings by verdict; nil where their list is not in the file
	Later   bool           // a later revision is here too
}

// Found is a seal that a fingerprint belongs to.
type Found struct {
	Job  *Job
	Seal *Seal
}

// Sound reports whether there is a record and nothing is wrong with it.
func (r *Report) Sound() bool { return len(r.Faults) == 0 && len(r.Jobs) > 0 }

// Find returns the seals with that print.
func (r *Report) Find(p seal.Print) (out []Found) {
	for _, j := range r.Jobs {
		for _, s := range j.Seals {
			if s.Print == p {
				out = append(out, Found{j, s})
			}
		}
	}
	return out
}

// Read reads and checks a whole file. Tell hears how many of its signatures are
// checked; nothing else takes long.
func Read(file []byte, tell func(n, all int)) *Report {
	r := &Report{}
	contents, faults := record.Read(file)
	for _, f := range faults {
		if f.Passed {
			r.Passed = append(r.Passed, f)
		} else {
			r.Faults = append(r.Faults, f)
		}
	}
	good, faults := record.VerifyTelling(contents, tell)
	r.Faults = append(r.Faults, faults...)
	if len(r.Faults) == 0 && len(good.Events) == 0 {
		r.Faults = append(r.Faults, record.Fault{Line: 1, Why: "the file holds no entry"})
	}
	held := job.Blobs{}
	for _, b := range good.Blobs {
		held[b.Sum] = b.Data
	}
	byJob := map[string]*reading{}
	var ids []string
	for i, signed := range good.Events {
		x := byJob[signed.Job]
		if x == nil {
			x = &reading{state: job.New(signed.Job), blobs: held, lines: map[[32]byte]int{}}
			byJob[signed.Job] = x
			ids = append(ids, signed.Job)
		}
		e, err := job.Decode(signed.Raw)
		if err == nil {
			err = x.state.Apply(e)
		}
		if err != nil { // the readers before this one took it
			r.Faults = append(r.Faults, record.Fault{Line: good.Lines[i], Why: err.Error()})
			continue
		}
		x.events = append(x.events, &e)
		x.lines[e.Hash] = good.Lines[i]
		if why := x.untrue(&e); why != "" {
			r.Faults = append(r.Faults, record.Fault{Line: good.Lines[i], Why: why})
		}
	}
	sort.Strings(ids)
	for _, id := range ids {
		j := byJob[id].job()
		j.Sound = len(r.Faults) == 0
		r.Jobs = append(r.Jobs, j)
	}
	sort.SliceStable(r.Faults, func(a, b int) bool { return r.Faults[a].Line < r.Faults[b].Line })
	return r
}

// reading is one job on its way into the report.
type reading struct {
	state  *job.State
	blobs  job.Blobs
	events []*job.Event
	lines  map[[32]byte]int
}

// untrue says what an event claims of its blobs that they do not bear out.
func (x *reading) untrue(e *job.Event) string {
	for _, ref := range job.Refs(*e) {
		if data, here := x.blobs[ref.Sum]; here && len(data) != ref.Len {
			return fmt.Sprintf("it says that blob %.12s… has %d bytes; it has %d", ref.Sum, ref.Len, len(data))
		}
	}
	if s, ok := e.Body.(job.Seal); ok && s.Digest != s.Results.Sum {
		return fmt.Sprintf("the seal is about the results %.12s…, but those that it froze are %.12s…", s.Digest, s.Results.Sum)
	}
	return ""
}

func (x *reading) job() *Job {
	j := &Job{ID: x.state.Job(), Title: x.text("site"), Events: len(x.events), Unread: len(x.state.Unknown())}
	people, devices := map[string]int{}, map[string]string{} // events by person; key by stream
	sort.SliceStable(x.events, func(a, b int) bool { return x.events[a].Lam < x.events[b].Lam })
	named := map[string]bool{}
	for _, e := range x.events {
		if e.Open != nil {
			devices[e.Stream] = e.Open.Dev
		}
	}
	streams := map[string]bool{}
	for _, e := range x.events {
		at := moment(e.At)
		j.First, j.Last = earlier(j.First, at), later(j.Last, at)
		people[e.By]++
		if key := devices[e.Stream]; key != "" {
			j.device(key, e, at)
		} else if !streams[e.Stream] {
			j.Keyless++
		}
		streams[e.Stream] = true
		for _, ref := range job.Refs(*e) {
			if p, ok := e.Body.(job.Photo); named[ref.Sum] || ok && x.allHere(p.Chunks) {
				continue
			}
			named[ref.Sum] = true
			if x.blobs[ref.Sum] != nil {
				j.Blobs++
			} else {
				j.Missing++
			}
		}
	}
	for id, n := range people {
		j.People = append(j.People, Person{id, x.text(id), n})
	}
	sort.Slice(j.People, func(a, b int) bool {
		one, two := j.People[a].ID, j.People[b].ID
		return len(one) < len(two) || len(one) == len(two) && one < two
	})
	for _, s := range x.state.Signs() {
		j.Signed = append(j.Signed, x.signature(s.At, s.Body))
	}
	for _, s := range x.state.Seals() {
		j.Seals = append(j.Seals, x.seal(s))
	}
	sort.SliceStable(j.Seals, func(a, b int) bool { return j.Seals[a].Rev < j.Seals[b].Rev })
	for _, s := range j.Seals {
		s.Later = s.Rev < j.Seals[len(j.Seals)-1].Rev
	}
	return j
}

// device counts an event to the phone that made it.
func (j *Job) device(key string, e *job.Event, at time.Time) {
	der, _ := base64.StdEncoding.DecodeString(key) // Decode has read it
	name := string(seal.Fingerprint(sha256.Sum256(der))[:6])
	var d *Device
	for _, known := range j.Devices {
		if known.Key == name {
			d = known
		}
	}
	if d == nil {
		d = &Device{Key: name}
		j.Devices = append(j.Devices, d)
	}
	d.Events++
	d.First, d.Last = earlier(d.First, at), later(d.Last, at)
	if e.Open != nil {
		d.Streams++
		d.App = e.Open.App
		d.Soft = d.Soft || e.Open.Soft
	}
}
