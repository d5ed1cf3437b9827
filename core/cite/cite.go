// Package cite names every source that a limit, a table or a formula of this
// program rests on: once, with how it was verified.
//
// Standards are sold on paper, and most of them were only read where somebody
// else reproduced them. A source therefore carries its [Level], and [Source.Line]
// prints what that level allows: a clause nobody compared with the document is
// "after NEC 110.14(C)" and never a quotation.
//
// Package cite holds no limits and no tables; those stand beside the code that
// uses them and point here.
//
//	say.Screen.Say(cite.NEC110_14C.Line()) // after NEC 110.14(C)
package cite

import "lugmark/core/say"

// Level is how a source was verified. The zero Level is the weakest, so that a
// source somebody forgot to judge is never printed as checked.
type Level uint8

const (
	FromMemory        Level = iota // remembered; the document was not opened
	Read                           // read where it is reproduced or summarised, not in the document itself
	ReadInFull                     // the document itself was opened and compared
	Computed                       // worked out from a formula or from open data
	EngineeringChoice              // ours; nobody published it
	Practice                       // what the trade does; no document says it
	MakerStates                    // the sheet or manual of the part in hand
	FirmRule                       // written by the firm that does the job
)

// Source is one document, table, open data set or habit.
type Source struct {
	ID      string // kebab case, for ever: translations hang on it
	Title   string // as printed, with the clause when there is one: "NEC 110.14(C)"
	Edition string // "2023"; empty where no edition is claimed
	Place   string // page, table or file, when it is not part of the title
	Checked Level
	Note    string // what a reader must know before trusting it; empty says nothing
}

var (
	after        = say.Phrase{Key: "cite.after", English: "after {source}"}
	quoted       = say.Phrase{Key: "cite.quoted", English: "{source}"}
	computed     = say.Phrase{Key: "cite.computed", English: "computed: {source}"}
	ourRule      = say.Phrase{Key: "cite.our-rule", English: "our rule, no published source"}
	practice     = say.Phrase{Key: "cite.practice", English: "common practice, no source"}
	firmRule     = say.Phrase{Key: "cite.firm-rule", English: "the firm's own rule"}
	makerPage    = say.Phrase{Key: "cite.maker-page", English: "the maker's sheet, {page}"}
	makerNoPage  = say.Phrase{Key: "cite.maker-no-page", English: "the maker's sheet, page not named"}
	withEdition  = say.Phrase{Key: "cite.edition", English: "{title} ({edition} edition)"}
	withPlace    = say.Phrase{Key: "cite.place", English: "{title}, {place}"}
	twoSources   = say.Phrase{Key: "cite.two", English: "{first}; {second}"}
	levelPhrases = [...]say.Phrase{
		FromMemory:        {Key: "cite.level.from-memory", English: "from memory, to be compared with the document"},
		Read:              {Key: "cite.level.read", English: "read in a public copy or summary, to be compared with the document"},
		ReadInFull:        {Key: "cite.level.read-in-full", English: "compared with the document"},
		Computed:          {Key: "cite.level.computed", English: "computed"},
		EngineeringChoice: {Key: "cite.level.engineering-choice", English: "engineering choice"},
		Practice:          {Key: "cite.level.practice", English: "common practice"},
		MakerStates:       {Key: "cite.level.maker", English: "stated by the maker"},
		FirmRule:          {Key: "cite.level.firm", English: "the firm's own rule"},
	}
)

// Phrase says in words how a source of this level was verified.
func (l Level) Phrase() say.Phrase { return levelPhrases[l] }

// Maker is the sheet or manual of the part in hand, at the page entered with
// the value: "p. 12". An empty page is said, not hidden.
func Maker(page string) Source {
	return Source{ID: "maker", Title: "the maker's sheet", Place: page, Checked: MakerStates}
}

// Line is the source as a finding prints it. The line of the zero Source is
// empty.
func (s Source) Line() say.Line {
	switch s.Checked {
	case EngineeringChoice:
		return ourRule.With()
	case Practice:
		return practice.With()
	case FirmRule:
		return firmRule.With()
	case MakerStates:
		if s.Place == "" {
			return makerNoPage.With()
		}
		return makerPage.With("page", s.Place)
	}
	if s.Title == "" {
		return say.Line{}
	}
	switch s.Checked {
	case Computed:
		return computed.With("source", s.Name())
	case ReadInFull:
		return quoted.With("source", s.Name())
	default:
		return after.With("source", s.Name())
	}
}

// Name is the title with its edition and its place, and says nothing about how
// it was verified: for a list that has its own column for that.
func (s Source) Name() say.Line {
	name := say.Phrase{Key: "cite.source." + s.ID, English: s.Title}.With()
	if s.Edition != "" {
		name = withEdition.With("title", name, "edition", s.Edition)
	}
	if s.Place != "" {
		name = withPlace.With("title", name, "place", s.Place)
	}
	return name
}

// Remark is the note of the source. The remark of a source without one is empty.
func (s Source) Remark() say.Line {
	if s.Note == "" {
		return say.Line{}
	}
	return say.Phrase{Key: "cite.source." + s.ID + ".note", English: s.Note}.With()
}

// Both prints two sources that a rule rests on together.
func Both(first, second Source) say.Line {
	return twoSources.With("first", first.Line(), "second", second.Line())
}
