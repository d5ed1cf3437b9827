package prove

import (
	"strconv"
	"time"

	"lugmark/core/say"
	"lugmark/core/seal"
)

// Mark is how a fact weighs.
type Mark uint8

const (
	Plain Mark = iota // it is so
	Good              // it was checked, and is as it should be
	Bad               // it was checked, and is not
	Open              // nothing is wrong, and something is not known
)

// Fact is one sentence of a report.
type Fact struct {
	Mark Mark
	Says say.Line
}

// list collects facts. A place takes a number or a time as it is.
type list []Fact

func (l *list) add(m Mark, p *say.Phrase, pairs ...any) {
	for i, x := range pairs {
		switch x := x.(type) {
		case int:
			pairs[i] = strconv.Itoa(x)
		case time.Time:
			pairs[i] = x.Format("15:04, 2 January 2006") // as the sheet prints it
		}
	}
	*l = append(*l, Fact{m, p.With(pairs...)})
}

func phrase(key, english string) say.Phrase { return say.Phrase{Key: "prove." + key, English: english} }

var (
	saySound   = phrase("sound", "Sound: every signature is good, and each entry follows the one before it, as the phones wrote them.")
	sayUnsound = phrase("unsound", "Not sound. Faults: {n}, each named below with its line.")

	sayMatch     = phrase("match", "The fingerprint matches: it is that of revision {rev} of {job}, sealed {when}.")
	sayMatchBad  = phrase("match-bad", "The fingerprint is that of revision {rev} of {job}, sealed {when}. But the record is not whole, so it is not known to be the record of the sheet.")
	sayNoMatch   = phrase("no-match", "The fingerprint is not found: no seal in this file has it. The sheet and this file do not belong together, or a sign was copied wrongly.")
	sayNoSeal    = phrase("no-seal", "The fingerprint is not found: nothing in this file is sealed.")
	sayNotAsked  = phrase("not-asked", "No fingerprint was compared. Without one, this shows that the file is whole, not that it is the record of your sheet: whoever has a phone can make another whole record.")
	sayOldMatch  = phrase("old-match", "A later seal is in this record: the sheet is not the last one.")
	sayLineFault = phrase("fault", "Line {line}: {why}.")
	sayOnlyFault = phrase("fault-nowhere", "{why}.")
	sayPassedBy  = phrase("passed", "Line {line}: {why}. Nothing of the record was touched.")
	sayMoreFault = phrase("more", "And {n} more.")
)

// Verdict is what a reader wants to know first: whether the record is sound,
// and whether the print of the sheet, "" if none was given, is that of a seal.
func (r *Report) Verdict(p seal.Print) []Fact {
	var out list
	if r.Sound() {
		out.add(Good, &saySound)
	} else {
		out.add(Bad, &sayUnsound, "n", len(r.Faults))
	}
	if p == "" {
		out.add(Open, &sayNotAsked)
		return out
	}
	found := r.Find(p)
	for _, f := range found {
		mark, says := Good, &sayMatch
		if !r.Sound() {
			mark, says = Bad, &sayMatchBad
		}
		out.add(mark, says, "rev", f.Seal.Rev, "job", f.Job.name(), "when", f.Seal.At)
		if f.Seal.Later {
			out.add(Open, &sayOldMatch)
		}
	}
	switch {
	case len(found) > 0:
	case r.seals() == 0:
		out.add(Bad, &sayNoSeal)
	default:
		out.add(Bad, &sayNoMatch)
	}
	return out
}

// Holds reports whether the record is sound and, where a print was given, that
// of a sheet.
func (r *Report) Holds(p seal.Print) bool {
	return r.Sound() && (p == "" || len(r.Find(p)) > 0)
}

// FaultFacts lists the faults, at most so many; 0 means all.
func (r *Report) FaultFacts(most int) []Fact {
	var out list
	for i, f := range r.Faults {
		if most > 0 && i == most {
			out.add(Bad, &sayMoreFault, "n", len(r.Faults)-most)
			return out
		}
		says := &sayLineFault
		if f.Line == 0 {
			says = &sayOnlyFault
		}
		out.add(Bad, says, "line", f.Line, "why", f.Why)
	}
	for _, f := range r.Passed {
		out.add(Open, &sayPassedBy, "line", f.Line, "why", f.Why)
	}
	return out
}

func (r *Report) seals() (n int) {
	for _, j := range r.Jobs {
		n += len(j.Seals)
	}
	return n
}

var (
	sayProvesHead = phrase("proves", "What this shows")
	sayNotHead    = phrase("proves-not", "What it cannot show")

	sayProvesSound = phrase("proves.sound", "Each entry is, sign for sign, what the phone with that key signed: none was changed since, and none is missing before one that is here.")
	sayProvesPrint = phrase("proves.print", "A fingerprint that matches shows in addition that this is the very record from which the sheet was printed, with every entry that the seal covers and with the results that were frozen with it.")
	sayNotTrue     = phrase("not.true", "That what was typed is true: a wrong number, a wrong name or a wrong clock is signed like a right one.")
	sayNotTail     = phrase("not.tail", "That nothing was held back: the last entries of a phone, made after the seal and seen by no other phone, can be left out of a file, and nobody can notice it.")
	sayNotSealed   = phrase("not.sealed", "Without a seal, the end of a record can be cut off: what nobody has sealed or seen since is not missed.")
	sayNotWho      = phrase("not.who", "Who held the phone: a key belongs to a phone, not to a person.")
	sayNotSafe     = phrase("not.safe", "That the bank is in order today.")
)

// Bounds says what the checks show and what they cannot.
func (r *Report) Bounds() (shows, cannot []say.Line) {
	shows = []say.Line{sayProvesSound.With(), sayProvesPrint.With()}
	cannot = []say.Line{sayNotTrue.With(), sayNotTail.With()}
	for _, j := range r.Jobs {
		if len(j.Seals) == 0 {
			cannot = append(cannot, sayNotSealed.With())
			break
		}
	}
	return shows, append(cannot, sayNotWho.With(), sayNotSafe.With())
}

// BoundHeads are the titles of the two lists.
func BoundHeads() (shows, cannot say.Line) { return sayProvesHead.With(), sayNotHead.With() }
