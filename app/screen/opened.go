package screen

import (
	"crypto/rand"
	"encoding/json"
	"errors"
	"sync"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// opened is the job on the screen: its record, and what the checks say of it.
type opened struct {
	id       string
	missing  bool // nothing of it is on this phone, or it could not be read
	unread   bool // it could not be read just now
	unfolded int  // entries that this version cannot read
	visit    string
	me       string // the person of this job who holds this phone; "" while that is not known
	authors  authors
	state    *job.State
	blobs    job.Blobs
	writer   *job.Writer
	facts    *checks.Facts
	findings []finding.Finding
	holes    int             // entries that are known of and not here
	uses     *uses           // made when first asked for; see asks
	held     []checks.Hold   // made when first asked for; see holds
	paper    *sheet          // made when first asked for; see sheet
	latest   time.Time       // the latest time that the record claims
	one      sync.Mutex      // one act at a time
	erased   string          // what stands where a text was erased
	absent   map[string]bool // photos that are not on this phone, as far as looked for
}

// openJob loads a job, if it is not the one that is open.
func (r *root) openJob(id string, then func(app.Context)) {
	if r.job != nil && r.job.id == id && !r.job.missing {
		then(r.home)
		return
	}
	r.async(func() {
		j, err := r.load(id)
		r.dispatch(func(ctx app.Context) {
			if err != nil {
				app.Logf("lugmark: open: %v", err)
				j = &opened{id: id, missing: true, unread: true}
			}
			if r.route().job != id {
				return // the person went on meanwhile
			}
			r.job = j
			if j.unfolded > 0 {
				r.notice = notice{says: sayUnfolded.With("n", itoa(j.unfolded)), bad: true}
			}
			if j.isRegister() {
				r.register = j
			} else if !j.missing {
				r.keepSummary(j) // an act may have been kept without its line
			}
			then(ctx)
		})
	})
}

var (
	sayUnfolded = say.Phrase{Key: "screen.job.unfolded", English: "{n} entries of this job could not be read by this version. They are kept as they are."}
	sayOtherTab = say.Phrase{Key: "screen.job.other-tab", English: "Another tab kept something in this job. What is shown here has followed."}
	sayClock    = say.Phrase{Key: "screen.job.clock", English: "The clock of this phone stands before the last entry of this job ({when}). Set it right before you go on: hours of rest cannot be counted with it."}
)

// load folds a job from the store. An event that this version cannot read
// stays in the store and is counted; the rest is shown.
func (r *root) load(id string) (*opened, error) {
	events, blobs, err := r.device.Store.Job(id)
	if err != nil {
		return nil, err
	}
	j := &opened{id: id, missing: len(events) == 0 && id != registerID, visit: firstVisit, state: job.New(id), blobs: job.Blobs{}, erased: r.t("erased", "(erased)")}
	for _, b := range blobs {
		j.blobs[b.Sum] = b.Data
	}
	for _, e := range events {
		j.fold(e)
	}
	j.visit = r.visitOf(j)
	j.me = r.whoAmI(j)
	r.newWriter(j)
	j.judge()
	return j, nil
}

// fold takes one stored event into the record.
func (j *opened) fold(signed job.Signed) {
	e, err := job.Decode(signed.Raw)
	if err == nil {
		err = j.state.Apply(e)
	}
	if err != nil {
		app.Logf("lugmark: fold %s %s %d: %v", signed.Job, signed.Stream, signed.Seq, err)
		j.unfolded++
		return
	}
	j.seen(e)
}

// seen remembers who wrote, and the latest time that the record claims.
func (j *opened) seen(e job.Event) {
	j.authors.add(e)
	if at, err := time.Parse(time.RFC3339, e.At); err == nil && at.After(j.latest) {
		j.latest = at
	}
}

// newWriter begins a stream: at each opening, and after a save that failed. While
// it is not known who holds the phone it can stamp nothing.
func (r *root) newWriter(j *opened) {
	var random [16]byte
	rand.Read(random[:])
	j.writer = job.NewWriter(job.Author{By: j.me, Key: r.device.PublicKey, Soft: r.device.Soft, App: r.device.App}, random, j.state)
}

// judge runs the checks at the present time.
func (j *opened) judge() { j.judgeAt(now()) }

func (j *opened) judgeAt(moment time.Time) {
	if j.missing {
		return
	}
	j.facts = checks.NewFacts(j.state, j.visit, moment)
	if j.isRegister() {
		return // nothing in it is measured
	}
	j.findings = checks.Run(j.facts)
	j.uses, j.held, j.paper = nil, nil, nil
	j.holes = j.state.Missing()
}

// holds lists the hold points as the last judging has them.
func (j *opened) holds() []checks.Hold {
	if j.held == nil {
		j.held = j.facts.Holds()
	}
	return j.held
}

// changedElsewhere takes in what another tab kept.
func (r *root) changedElsewhere(id string) {
	r.loadJobs(nil)
	if id == registerID && (r.job == nil || !r.job.isRegister()) {
		r.loadRegister(nil)
	}
	if r.job == nil || r.job.id != id {
		return
	}
	j := r.job
	began := j.state.Len()
	r.async(func() {
		events, blobs, err := r.device.Store.Job(id)
		r.dispatch(func(app.Context) {
			if err != nil || r.job != j {
				return
			}
			before := j.state.Len()
			if before == began && !r.busy { // nothing was kept here meanwhile: what is not there is erased
				j.blobs = job.Blobs{}
			}
			j.absent = nil
			for _, b := range blobs {
				j.blobs[b.Sum] = b.Data
			}
			for _, e := range events {
				j.fold(e) // what is already there changes nothing
			}
			j.missing = len(events) == 0 && !j.isRegister()
			j.judge()
			if j.state.Len() > before && r.notice.says.Empty() {
				r.notice = notice{says: sayOtherTab.With()}
			}
		})
	})
}

// change is one entry of an act. Without a value and a text it takes the entry
// out of view.
type change struct {
	part, field string
	value       job.Value
	personal    string // text about a person: it becomes a blob, value gives only its kind
	saw         []string
}

// keep stamps, signs and saves the changes as one act, and only then says so.
// Draft is the key of the draft that the act makes needless. Then is called
// with whether it was kept; when not, what was typed is still on the screen.
func (r *root) keep(changes []change, draft string, then func(ctx app.Context, kept bool)) {
	r.keepIn(r.job, changes, draft, then)
}

// keepIn is [root.keep] in the open job or in the register beside it.
func (r *root) keepIn(j *opened, changes []change, draft string, then func(ctx app.Context, kept bool)) {
	if latest := latestVisit(j.state); visitNumber(j.visit) < visitNumber(latest) {
		r.notice = notice{says: sayPast.With("visit", lowerFirst(r.visitName(j.visit)), "latest", lowerFirst(r.visitName(latest))), bad: true}
		return
	}
	for i := range changes {
		changes[i].saw = j.state.Seen(j.key(changes[i].part, changes[i].field))
	}
	r.act1(j, draft, nil, r.stamper(j, changes), then)
}

// stamper stamps changes; the first of a register begins it.
func (r *root) stamper(j *opened, changes []change) stamper {
	return func(w *job.Writer, at func() job.Stamp) (stamped []job.Stamped, blobs []job.Blob, err error) {
		if j.isRegister() {
			if stamped, blobs, err = r.beginRegister(j, w, at, changes); err != nil {
				return nil, nil, err
			}
		}
		for _, c := range changes {
			if c.value.Kind == job.KindOverride {
				c.value.Who = j.me
			}
			e, b, err := stampChange(w, at(), j.key(c.part, c.field), c)
			if err != nil {
				return nil, nil, err
			}
			stamped, blobs = append(stamped, e), append(blobs, b...)
		}
		return stamped, blobs, nil
	}
}

func (j *opened) key(part, field string) job.Key {
	return job.Key{Visit: j.visit, Part: part, Field: field}
}

// stampChange makes the event of one entry, and its blob when it is personal.
func stampChange(w *job.Writer, at job.Stamp, k job.Key, c change) (job.Stamped, []job.Blob, error) {
	v := c.value
	if v.Kind == job.NoValue && c.personal == "" {
		e, err := w.Void(at, k, "taken-out", job.Ref{}, c.saw)
		return e, nil, err
	}
	var blobs []job.Blob
	if c.personal != "" {
		blob, ref := job.Personal(c.personal, salt())
		blobs = append(blobs, blob)
		v.X = ref
		if v.Kind == job.NoValue {
			v.Kind = job.KindPersonal
		}
	}
	e, err := w.Set(at, k, v, c.saw)
	return e, blobs, err
}

// act1 is one act of a person in a job: stamped, signed, kept in one
// transaction, and only then applied, judged and shown. While one is being kept
// another is not begun: two taps are one act. Line is the job's line in the
// list, for its first act; then is left out when the person has gone to another
// screen meanwhile. Who writes here for the first time is asked for a name first.
func (r *root) act1(j *opened, draft string, line []byte, stamp stamper, then func(ctx app.Context, kept bool)) {
	if r.busy {
		return
	}
	r.followHolder(j)
	if j.me == "" {
		r.ask(j, func() { r.act1(j, draft, line, stamp, then) })
		return
	}
	r.busy = true
	path := r.path
	r.async(func() {
		j.one.Lock()
		stamped, blobs, err := r.keepAct(j, draft, line, stamp)
		j.one.Unlock()
		r.dispatch(func(ctx app.Context) {
			r.busy = false
			r.made = nil
			for _, e := range stamped {
				r.made = append(r.made, e.Event.ID)
			}
			if err != nil {
				app.Logf("lugmark: keep: %v", err)
				r.notice = notice{says: troubles[r.troubleOf(err)].With(), bad: true}
				r.changedElsewhere(j.id) // it may have been kept all the same
			} else {
				j.apply(stamped, blobs)
				j.judge()
				if !j.isRegister() {
					r.keepSummary(j)
				}
			}
			if (r.job == j || r.register == j) && r.path == path {
				then(ctx, err == nil)
			}
		})
	})
}

// stamper makes the events and blobs of an act.
type stamper func(*job.Writer, func() job.Stamp) ([]job.Stamped, []job.Blob, error)

// unstamped is an error of ours, before the store was asked; unsigned is one of
// the key.
type (
	unstamped struct{ error }
	unsigned  struct{ error }
)

func (r *root) troubleOf(err error) Trouble {
	switch {
	case errors.As(err, new(unstamped)):
		return Faulty
	case errors.As(err, new(unsigned)):
		return Unsigned
	}
	return r.device.Trouble(err)
}

// keepAct stamps, signs and keeps, outside the goroutine of the screen. When
// it fails nothing was kept that is shown; whether the store has something all
// the same is not known, so a new stream begins.
func (r *root) keepAct(j *opened, draft string, line []byte, stamp stamper) ([]job.Stamped, []job.Blob, error) {
	j.writer.By(j.me)
	mark := j.writer.Mark
	stamped, blobs, err := stamp(j.writer, newStamp)
	if err != nil {
		j.writer.Undo(mark)
		return nil, nil, unstamped{err}
	}
	act := job.Act{Job: j.id, Blobs: blobs, Draft: draft, Summary: line}
	for _, e := range stamped {
		sig, err := r.device.Sign(e.Hash[:])
		if err != nil {
			j.writer.Undo(mark)
			return nil, nil, unsigned{err}
		}
		act.Events = append(act.Events, e.Signed(sig))
	}
	if err := r.device.Store.Keep(act); err != nil {
		r.newWriter(j)
		return nil, nil, err
	}
	return stamped, blobs, nil
}

// apply takes what was kept into the record on the screen.
func (j *opened) apply(stamped []job.Stamped, blobs []job.Blob) {
	for _, b := range blobs {
		j.blobs[b.Sum] = b.Data
	}
	for _, e := range stamped {
		if err := j.state.Apply(e.Event); err != nil {
			app.Logf("lugmark: apply %s: %v", e.Event.ID, err) // it is kept; the next opening shows it
			j.unfolded++
			continue
		}
		j.seen(e.Event)
	}
	j.missing = false
}

// keepSummary writes the job's line in the list of jobs, after the act that
// changed it. It is a cache: written with the act it would have to be made
// before the act was kept.
func (r *root) keepSummary(j *opened) {
	line, err := json.Marshal(r.summarise(j))
	if err != nil {
		return
	}
	r.async(func() {
		r.device.Store.Keep(job.Act{Job: j.id, Summary: line})
		r.dispatch(func(app.Context) {
			if r.route().screen == "jobs" { // the person was quicker than the line
				r.loadJobs(nil)
			}
		})
	})
}

// text gives the personal text of a field, "" when there is none.
func (j *opened) text(part, field string) string {
	e, standing := j.state.Lookup(j.visit, part, field, true)
	if standing != job.One || e.Value.Kind != job.KindPersonal { // the reason of a skip is no name
		return ""
	}
	if s, here := job.Text(j.blobs, e.Value.X); here {
		return s
	}
	return j.erased
}
