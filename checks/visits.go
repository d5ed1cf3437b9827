package checks

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// Visits says at which visits of a job a check is asked. A check that is not
// asked has no finding at all: it is neither to do nor settled, so no hold
// point opens on it, and nothing of an earlier visit speaks for it.
type Visits uint8

const (
	AtFirst  Visits = iota // commissioning, and a return visit at which the bank is built up again
	AtReturn               // return visits only
	AtEach
	WhenListed // as AtFirst, and at a return visit whose charge list has a line
)

// firstVisit is commissioning; v2, v3 … are the return visits of the same job.
const firstVisit = "v1"

// asked reports whether this visit asks a check.
func (c *Check) asked(f *Facts) bool {
	switch c.Visits {
	case AtEach:
		return true
	case AtReturn:
		return f.Returning()
	case WhenListed:
		if f.listed() {
			return true
		}
	}
	return !f.Returning() || f.builtAgain()
}

// listed reports whether the charge list of this visit has a line.
func (f *Facts) listed() bool {
	return slices.ContainsFunc(f.state.KeysFrom(f.visit, "charge1."), func(k job.Key) bool { return len(f.state.Live(k)) > 0 })
}

// Returning reports whether this is a return visit.
func (f *Facts) Returning() bool { return f.visit != firstVisit }

// builtAgain reports whether something is opened or exchanged at this visit:
// somebody entered so or, while nobody has answered, the drawing is another one
// than that of the last visit. Otherwise not answered is no, and the hold points
// stay shut.
func (f *Facts) builtAgain() bool {
	return rememberQuietly(f, "built again", func() bool {
		if answer, ok := rebuilt.Of(f, "bank"); ok {
			return answer == "yes"
		}
		before := f.earlier()
		return f.layout != nil && len(before) > 0 && before[0].layout != nil && !sameDrawing(*f.layout, *before[0].layout)
	})
}

// enteredHere reports whether an entry is of this visit: who stood by on the
// first day need not be here today.
func (f *Facts) enteredHere(field Field, part string) bool {
	e, standing := f.state.Get(f.key(part, field))
	return standing == job.One && e.Value.Skip == ""
}

// visitsBefore lists the earlier visits of which there is anything, the latest
// first.
func (f *Facts) visitsBefore() []string {
	return rememberQuietly(f, "visits before", func() (out []string) {
		now, ok := visitNumber(f.visit)
		for _, k := range f.state.Keys() {
			if n, is := visitNumber(k.Visit); ok && is && n < now && !slices.Contains(out, k.Visit) {
				out = append(out, k.Visit)
			}
		}
		slices.SortFunc(out, func(a, b string) int {
			x, _ := visitNumber(a)
			y, _ := visitNumber(b)
			return cmp.Compare(y, x)
		})
		return out
	})
}

func visitNumber(visit string) (int, bool) {
	n, err := strconv.Atoi(strings.TrimPrefix(visit, "v"))
	return n, err == nil && n > 0
}

// leftClosed reports whether a link was left closed by the latest earlier visit
// that says anything of it; where two people differ it may have been.
func (f *Facts) leftClosed(link string) bool {
	for _, visit := range f.visitsBefore() {
		e, standing := f.state.Get(job.Key{Visit: visit, Part: link, Field: closed.ID})
		if standing != job.Missing {
			return standing == job.Conflict || e.Value.Choice == "yes"
		}
	}
	return false
}

// IsClosed reports whether a link or the main is closed as far as the record
// says: by this visit, else as the last one left it.
func (f *Facts) IsClosed(part string) bool {
	e, standing := f.state.Get(f.key(part, closed.Field))
	return standing == job.One && e.Value.Choice == "yes" || standing == job.Missing && f.leftClosed(part)
}

// leftOn lists the links, drawn or not, that earlier visits left closed.
func (f *Facts) leftOn() (links []string) {
	for _, visit := range f.visitsBefore() {
		for _, k := range f.state.KeysFrom(visit, "") {
			kind, _ := bank.PartKind(k.Part)
			if k.Field == closed.ID && kind == bank.KindLink && !slices.Contains(links, k.Part) && f.leftClosed(k.Part) {
				links = append(links, k.Part)
			}
		}
	}
	return links
}

var (
	sayStanding    = say.Phrase{Key: "hold.standing", English: "Entered that something is opened or exchanged"}
	sayStandingAsk = say.Phrase{Key: "hold.standing-ask", English: "The bank stands as the last visit left it. Before anything is opened, exchanged or joined, enter so: then all of it is asked again, by today's readings."}
	sayBarStanding = say.Phrase{Key: "hold.bar-standing", English: "No override: what was read at an earlier visit releases nothing today."}
	sayKeepAsIs    = say.Phrase{Key: "hold.keep-as-is", English: "Leave it as it is: {part}"}
	sayKeepCharge  = say.Phrase{Key: "hold.keep-charge", English: "Leave charging to the charger, as it was set"}
)

// standing is a hold point of a return visit at which nothing is built up
// again: shut, whatever an earlier visit had read. A test has no such end: it
// is begun anew.
func (f *Facts) standing(h Hold) Hold {
	if h.Gate == "test" {
		return h
	}
	h.Clauses = []Clause{{ID: "standing", Title: sayStanding.With(), Says: sayStandingAsk.With(), Asks: &finding.Key{Part: "bank", Field: rebuilt.ID}}}
	h.Barred, h.Keep = sayBarStanding.With(), sayKeepAsIs.With("part", bank.Name(h.Part))
	if h.Gate == "charge" || h.Gate == "heat" {
		h.Keep = sayKeepCharge.With()
	}
	return h
}
