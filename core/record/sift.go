package record

import (
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"slices"

	"lugmark/core/job"
	"lugmark/core/seal"
)

// Sifted is a file beside what a phone holds already. Every event of the file
// is in one of the four: New, Held, Unsure, Forked.
type Sifted struct {
	New    Contents // signed well and not here yet, in the order of the file, and all blobs
	Held   int      // events that are here already
	Unsure int      // events whose signature is bad, or whose key is nowhere
	Forked int      // events that a place on this phone cannot take
	Faults []Fault  // what Verify says of the file
	Forks  []Fault  // the first event of each stream that goes another way
}

// place is where an event stands. A store has one event in each.
type place struct {
	job, id string
	seq     int
}

type link struct {
	hash [32]byte
	prev string
	held bool // on the phone
}

// Sift parts what a file brings from what must stay out of a phone that holds
// these events of the same jobs. An event whose signature is bad is never new,
// nor is one that nothing here has the key for. Where a stream of the file and
// that of the phone go two ways, or the file itself has two, nobody can say
// which is right: from there on nothing of that stream is new, and what is held
// stays. An event that misses the one before it is taken: the hole can be filled
// later.
func Sift(c Contents, known []job.Signed, tell func(n, all int)) Sifted {
	good, faults := VerifyTelling(c, tell)
	out := Sifted{New: Contents{Blobs: c.Blobs}}
	g := ground{map[place][]link{}, map[place][]byte{}}
	for _, e := range known {
		g.add(e, true)
	}
	begun, lent := map[string]bool{}, map[string]bool{}
	for _, signed := range good.Events {
		begun[signed.Stream] = begun[signed.Stream] || signed.Seq == 1
	}
	var taken Contents
	for i, signed := range good.Events {
		if !begun[signed.Stream] { // the file has lost the key: the phone's is as good
			if !g.signs(signed) {
				continue
			}
			lent[signed.Stream] = true
		}
		g.add(signed, false)
		taken.Events, taken.Lines = append(taken.Events, signed), append(taken.Lines, good.line(i))
	}
	for _, f := range faults {
		if !f.keyless || !lent[f.stream] {
			out.Faults = append(out.Faults, f)
		}
	}
	out.Unsure = len(c.Events) - len(taken.Events)
	forks, told := g.forks(), map[place]bool{}
	for i, e := range taken.Events {
		at := place{e.Job, e.Stream, e.Seq}
		cut := forks[at.stream()]
		switch {
		case g.holds(at, job.Hash(e.Raw)):
			out.Held++
		case cut > 0 && e.Seq >= cut:
			out.Forked++
			if !told[at.stream()] {
				told[at.stream()] = true
				out.Forks = append(out.Forks, Fault{Line: taken.Lines[i], Why: g.whyForked(at)})
			}
		default:
			out.New.Events, out.New.Lines = append(out.New.Events, e), append(out.New.Lines, taken.Lines[i])
		}
	}
	return out
}

// stream is the place that stands for the whole stream.
func (p place) stream() place { return place{p.job, p.id, 0} }

// ground is what stands on the phone and in the file, place by place.
type ground struct {
	links map[place][]link
	keys  map[place][]byte // of each stream that the phone holds the first event of
}

func (g ground) add(signed job.Signed, held bool) {
	e, err := job.Decode(signed.Raw)
	if err != nil {
		return // a phone may hold what this version cannot read; a file's was read
	}
	at := place{e.Job, e.Stream, e.Seq}
	if !slices.ContainsFunc(g.links[at], func(l link) bool { return l.hash == e.Hash }) {
		g.links[at] = append(g.links[at], link{e.Hash, e.Prev, held})
	}
	if held && e.Open != nil {
		if key, err := base64.StdEncoding.DecodeString(e.Open.Dev); err == nil {
			g.keys[at.stream()] = key
		}
	}
}

// signs reports whether the phone has the key of that stream, and it is good
// for the signature.
func (g ground) signs(e job.Signed) bool {
	key, err := seal.ParseKey(g.keys[place{e.Job, e.Stream, 0}])
	return err == nil && seal.Verify(key, seal.Hash(e.Raw), e.Sig)
}

func (g ground) holds(at place, hash [32]byte) bool {
	return slices.ContainsFunc(g.links[at], func(l link) bool { return l.hash == hash && l.held })
}

// forks returns for each stream the lowest seq from which it goes more than one
// way.
func (g ground) forks() map[place]int {
	forks := map[place]int{}
	for at, links := range g.links {
		before := g.links[place{at.job, at.id, at.seq - 1}]
		seq := 0
		for _, l := range links {
			switch {
			case len(links) > 1:
				seq = at.seq
			case len(before) > 0 && !follows(l, before):
				seq = at.seq
				if l.held { // the phone keeps its own, so the one before it stays out
					seq--
				}
			}
		}
		if was := forks[at.stream()]; seq > 0 && (was == 0 || seq < was) {
			forks[at.stream()] = seq
		}
	}
	return forks
}

func follows(l link, before []link) bool {
	return slices.ContainsFunc(before, func(b link) bool { return hex.EncodeToString(b.hash[:]) == l.prev })
}

func (g ground) whyForked(at place) string {
	links := g.links[at]
	switch {
	case len(links) > 1 && links[0].held:
		return fmt.Sprintf("this phone has another entry as number %d of stream %s", at.seq, at.id)
	case len(links) > 1:
		return fmt.Sprintf("the file has two entries as number %d of stream %s", at.seq, at.id)
	}
	return fmt.Sprintf("number %d of stream %s does not continue what stands before it, or goes on otherwise here", at.seq, at.id)
}
