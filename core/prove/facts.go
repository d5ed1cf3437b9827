package prove

import (
	"strconv"
	"strings"

	"lugmark/core/say"
)

var (
	sayUntitled   = phrase("untitled", "the job {id}")
	sayEntries    = phrase("entries", "Entries: {n}, from {first} to {last} by the clocks of the phones.")
	sayWholeOnes  = phrase("entries-whole", "Entries that are whole: {n}, from {first} to {last} by the clocks of the phones. What follows is about these.")
	sayNewer      = phrase("newer", "Entries by a newer version of Lugmark: {n}. They are signed and kept, and not understood here.")
	sayPhone      = phrase("phone", "Phone with the key {key}, {app}. Entries: {n}, runs of the app: {streams}. The key could not be copied out of its browser.")
	saySoft       = phrase("soft", "Phone with the key {key}, {app}. Entries: {n}, runs of the app: {streams}. A soft key: whoever could copy the storage of that phone could sign with it.")
	sayLost       = phrase("lost", "Runs of the app whose first entry is lost, and with it the key of the phone: {n}.")
	sayPerson     = phrase("person", "Entered by {name} ({id}): {n}.")
	sayNobody     = phrase("nobody", "Entered by {id}, whose name is not in this file: {n}.")
	sayNoSealHere = phrase("unsealed", "Not sealed: there is no fingerprint to compare.")
	sayTexts      = phrase("texts", "Texts and files that the entries name: {n}, and all of them are here.")
	sayMissing    = phrase("missing", "Texts and files that the entries name and that are not here: {n}. They were erased, or are not in this file. That is no fault: the entries that name them are whole.")

	saySeal     = phrase("seal", "Revision {rev}, sealed {when} by {name}, rules {rules}. Its fingerprint: {print}")
	sayCovers   = phrase("covers", "Revision {rev} covers all {n} entries: nothing that is here came after it.")
	sayCoversOf = phrase("covers-of", "Revision {rev} covers {n} of them. What it covered besides cannot be said of a record that is not whole.")
	sayChanged  = phrase("changed", "Changed since revision {rev}: it covers {n} entries, and {since} more came later, or from a phone that it had not heard of.")
	saySigned   = phrase("signed", "Its results were signed by {name} ({role}), {when}.")
	sayUnsigned = phrase("unsigned", "Nobody's signature under the results of revision {rev} is in this file.")
	sayFrozen   = phrase("frozen", "The results that revision {rev} froze are here and are those that it names: {counts}.")
	sayNotHere  = phrase("not-frozen", "The list of results that revision {rev} froze is not in this file; only its digest is.")
	sayLooseInk = phrase("loose", "{name} ({role}) signed {when}, under results that no seal here froze.")
)

// name is what to call a job.
func (j *Job) name() any {
	if j.Title != "" {
		return j.Title
	}
	return sayUntitled.With("id", j.ID)
}

// Name is the title of the job, or its id where the title is not in the file.
func (j *Job) Name() say.Line { return phrase("name", "{job}").With("job", j.name()) }

// Facts are the facts of one job, in the order in which a reader asks for them.
func (j *Job) Facts() []Fact {
	var out list
	if j.Sound {
		out.add(Plain, &sayEntries, "n", j.Events, "first", j.First, "last", j.Last)
	} else {
		out.add(Plain, &sayWholeOnes, "n", j.Events, "first", j.First, "last", j.Last)
	}
	if j.Unread > 0 {
		out.add(Open, &sayNewer, "n", j.Unread)
	}
	if len(j.Seals) == 0 {
		out.add(Open, &sayNoSealHere)
	}
	for i := len(j.Seals) - 1; i >= 0; i-- { // the one in force first
		j.Seals[i].facts(&out, j.Sound)
	}
	for _, s := range j.Signed {
		if !j.sealed(s) {
			out.add(Plain, &sayLooseInk, "name", s.Name, "role", s.Role, "when", s.At)
		}
	}
	for _, d := range j.Devices {
		mark, says := Plain, &sayPhone
		if d.Soft {
			mark, says = Open, &saySoft
		}
		out.add(mark, says, "key", d.Key, "n", d.Events, "streams", d.Streams, "app", d.App)
	}
	if j.Keyless > 0 {
		out.add(Bad, &sayLost, "n", j.Keyless)
	}
	for _, p := range j.People {
		mark, says := Plain, &sayPerson
		if p.Name == "" {
			mark, says = Open, &sayNobody
		}
		out.add(mark, says, "name", p.Name, "id", p.ID, "n", p.Events)
	}
	switch {
	case j.Missing > 0:
		out.add(Open, &sayMissing, "n", j.Missing)
	case j.Blobs > 0:
		out.add(Good, &sayTexts, "n", j.Blobs)
	}
	return out
}

// sealed reports whether a seal is about what this signature is under.
func (j *Job) sealed(s Signature) bool {
	for _, x := range j.Seals {
		for _, under := range x.Signed {
			if under == s {
				return true
			}
		}
	}
	return false
}

func (s *Seal) facts(out *list, sound bool) {
	rows := s.Print.Rows()
	out.add(Plain, &saySeal, "rev", s.Rev, "when", s.At, "name", s.By, "rules", s.Rules, "print", strings.Join(rows[:], " "))
	switch {
	case !sound:
		out.add(Open, &sayCoversOf, "rev", s.Rev, "n", s.Covers)
	case s.Since > 0:
		out.add(Open, &sayChanged, "rev", s.Rev, "n", s.Covers, "since", s.Since)
	default:
		out.add(Good, &sayCovers, "rev", s.Rev, "n", s.Covers)
	}
	if s.Results != nil {
		out.add(Good, &sayFrozen, "rev", s.Rev, "counts", s.counts())
	} else {
		out.add(Open, &sayNotHere, "rev", s.Rev)
	}
	for _, x := range s.Signed {
		out.add(Plain, &saySigned, "name", x.Name, "role", x.Role, "when", x.At)
	}
	if len(s.Signed) == 0 {
		out.add(Open, &sayUnsigned, "rev", s.Rev)
	}
}

// words of the verdicts in the order of the sheet; another program's words come
// out as they stand.
var words = []struct{ code, word string }{
	{"pass", "Pass"}, {"fail", "Fail"}, {"cant-tell", "Can't tell"}, {"to-do", "To do"}, {"later", "Later"}, {"not-needed", "Not needed"},
}

func (s *Seal) counts() string {
	var out []string
	other := 0
	for _, n := range s.Results {
		other += n
	}
	for _, w := range words {
		if n := s.Results[w.code]; n > 0 {
			out = append(out, strconv.Itoa(n)+" "+w.word)
			other -= n
		}
	}
	if other > 0 || len(out) == 0 {
		out = append(out, strconv.Itoa(other)+" others")
	}
	return strings.Join(out, ", ")
}
