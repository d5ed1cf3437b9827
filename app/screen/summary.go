package screen

import (
	"encoding/json"
	"slices"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/checks/plain"
	"lugmark/core/bank"
	"lugmark/core/draw"
	"lugmark/core/finding"
)

// summary is the line of a job in the list of jobs: a cache, made anew with
// every act, and never what a verdict rests on.
type summary struct {
	ID       string                `json:"-"`
	Title    string                `json:"title"`
	Layout   bank.Layout           `json:"layout"`
	Energy   string                `json:"energy,omitempty"`
	Answered int                   `json:"answered"`
	Needed   int                   `json:"needed"`
	Fail     int                   `json:"fail"`
	CantTell int                   `json:"cant"`
	Due      string                `json:"due,omitempty"` // the next "later", with its time
	Done     string                `json:"done,omitempty"`
	States   map[string]draw.State `json:"states"`
	Changed  string                `json:"changed"`
	Photos   int                   `json:"photos,omitempty"` // of all in view [bytes]
}

// summarise makes the line of a job.
func (r *root) summarise(j *opened) summary {
	if j.isRegister() { // it is on no list, but its name is said
		return summary{Title: r.t("register", "Register")}
	}
	s := summary{Title: j.text("site", "name"), Layout: j.facts.Layout(), States: map[string]draw.State{}, Changed: now().Format(time.RFC3339)}
	c := count(j.findings)
	s.Answered, s.Needed, s.Fail, s.CantTell = c.answered(), c.needed(), c[finding.Fail], c[finding.CantTell]
	s.Energy, s.Photos = j.energy(r), photoSize(j.photosOf("", ""))
	for _, x := range j.findings {
		if x.Verdict() == finding.Later && !x.Due().IsZero() && (s.Due == "" || x.Due().Format(time.RFC3339) < s.Due) {
			s.Due = x.Due().Format(time.RFC3339)
		}
	}
	for _, b := range s.Layout.Blocks() {
		s.States[b] = draw.ToDo
		if v, ok := worstOf(j.findings, b); ok {
			s.States[b] = stateOf(v)
		}
	}
	switch _, current, sealed := j.sealed(); {
	case sealed && current:
		s.Done = "handed-over"
	case sealed:
		s.Done = "changed"
	}
	return s
}

// firstLine is the line of a job that begins: kept with its first act, so that
// no job is ever kept and not listed.
func firstLine(title string, l bank.Layout) []byte {
	s := summary{Title: title, Layout: l, States: map[string]draw.State{}, Changed: now().Format(time.RFC3339)}
	for _, b := range l.Blocks() {
		s.States[b] = draw.ToDo
	}
	line, err := json.Marshal(s)
	if err != nil {
		return nil
	}
	return line
}

// firstLineOf is the line of a job file: the name of its site and its layout,
// whole numbers when it gives them.
func firstLineOf(file *plain.File) []byte {
	title := ""
	var l bank.Layout
	for _, e := range file.Entries {
		switch e.Key.Part + "/" + e.Key.Field {
		case "site/name":
			title = e.Personal
		case "bank/layout":
			json.Unmarshal(e.Value.Layout, &l)
		}
	}
	return firstLine(title, l)
}

// counts holds how many findings have each verdict.
type counts map[finding.Verdict]int

func count(list []finding.Finding) counts {
	c := counts{}
	for _, x := range list {
		c[x.Verdict()]++
	}
	return c
}

// needed leaves out what does not apply.
func (c counts) needed() int {
	return c[finding.Pass] + c[finding.Fail] + c[finding.CantTell] + c[finding.ToDo] + c[finding.Later]
}

func (c counts) answered() int { return c[finding.Pass] + c[finding.Fail] + c[finding.CantTell] }

// worstOf gives the worst verdict that names a part or one of its posts, To do
// left aside while anything is known.
func worstOf(list []finding.Finding, part string) (finding.Verdict, bool) {
	var vs []finding.Verdict
	for _, x := range list {
		for _, p := range x.Parts() {
			if p == part || bank.OwnerOf(p) == part {
				vs = append(vs, x.Verdict())
				break
			}
		}
	}
	return finding.Worst(vs...)
}

// energy is what the bank stores by the sheets of its blocks: nominal volts
// times rated ampere-hours; "" while a sheet is missing.
func (j *opened) energy(r *root) string {
	wh := checks.NominalEnergy(j.facts)
	if wh == 0 {
		return ""
	}
	return r.t("energy", "{kwh} kWh", "kwh", r.voice.Digits(oneDecimal(float64(wh)/1000)))
}

// loadJobs reads the lines of all jobs.
func (r *root) loadJobs(then func(app.Context)) {
	r.async(func() {
		lines, err := r.device.Store.Summaries()
		list := newestFirst(lines)
		r.dispatch(func(ctx app.Context) {
			if err != nil {
				r.notice = notice{says: troubles[r.troubleOf(err)].With(), bad: true}
			}
			r.jobs = list
			if then != nil {
				then(ctx)
			}
		})
	})
}

// newestFirst reads the lines of all jobs, the one changed last first. It sorts
// texts and not lines: that code is there already.
func newestFirst(lines map[string][]byte) (list []summary) {
	read := map[string]summary{}
	var order []string
	for id, raw := range lines {
		s := summary{ID: id}
		if id != registerID && json.Unmarshal(raw, &s) == nil {
			key := s.Changed + "\n" + id
			read[key], order = s, append(order, key)
		}
	}
	slices.Sort(order)
	for i := len(order) - 1; i >= 0; i-- {
		list = append(list, read[order[i]])
	}
	return list
}
