package plain

import (
	"strconv"

	"lugmark/core/say"
)

// Fault is one thing in a file that is not as it must be, or, among the notes
// of a [File], one that a reader should know. Line counts from 1.
type Fault struct {
	Line int
	Text say.Line
}

// Error says the fault as it stands in files: ASCII signs, English.
func (f Fault) Error() string { return say.Voice{}.Say(f.Text) }

// maxFaults ends the search: after so many the file is of another kind.
const maxFaults = 50

var (
	sayNear    = say.Phrase{Key: "plain.near", English: "{what} The nearest known name is “{near}”."}
	sayMany    = say.Phrase{Key: "plain.many", English: "There are more faults; put these right first."}
	sayOf      = say.Phrase{Key: "plain.of", English: "“{field}” of “{part}”: {what}"}
	sayUnknown = say.Phrase{Key: "plain.unknown", English: "“{name}” is not known here."}
)

// fault notes what is wrong on a line.
func (p *parser) fault(line int, l say.Line) {
	switch {
	case len(p.faults) < maxFaults:
		p.faults = append(p.faults, Fault{line, l})
	case len(p.faults) == maxFaults:
		p.faults = append(p.faults, Fault{line, sayMany.With()})
	}
}

// unknown notes a name that is not known, with the nearest of those that are.
func (p *parser) unknown(line int, name string, known []string) {
	p.near(line, sayUnknown.With("name", name), name, known)
}

// near notes what is wrong with a name and adds the nearest known one, when
// any is near at all.
func (p *parser) near(line int, what say.Line, name string, known []string) {
	if len(p.faults) > maxFaults {
		return
	}
	if best := nearest(name, known); best != "" {
		what = sayNear.With("what", what, "near", best)
	}
	p.fault(line, what)
}

func count(n int) string { return strconv.Itoa(n) }
