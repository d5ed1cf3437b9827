package plain

import (
	"strings"
	"time"

	"lugmark/core/bank"
	"lugmark/core/job"
	"lugmark/core/say"
)

// Form is what a plain job file says of itself.
const Form = "job/1"

var (
	sayForeign = say.Phrase{Key: "plain.foreign", English: "This is JSON, but not a plain job: it does not say “lugmark”: “job/1”."}
	sayNewer   = say.Phrase{Key: "plain.newer", English: "This file is of the form “{form}”; this version reads “job/1”. Use a newer version of the app."}
	sayWrong   = say.Phrase{Key: "plain.wrong-type", English: "“{name}” takes {want}."}

	wantObject = say.Phrase{Key: "plain.want-object", English: "an object in braces"}
	wantList   = say.Phrase{Key: "plain.want-list", English: "a list in square brackets"}
	wantText   = say.Phrase{Key: "plain.want-text", English: "a text in quotes"}
	wantVisit  = say.Phrase{Key: "plain.want-visit", English: "a visit, such as v1"}

	sayNowTaken = say.Phrase{Key: "plain.now-taken", English: "The file does not say “now”; its latest time is taken: {now}."}
	sayNoNow    = say.Phrase{Key: "plain.no-now", English: "The file holds no time, so everything counts as read just now."}
)

// sections of a plain job file, in the order in which they are kept.
var sections = []struct {
	name string
	read func(*parser, *node)
}{
	{"lugmark", func(*parser, *node) {}},
	{"title", (*parser).title},
	{"now", (*parser).now},
	{"visit", (*parser).visit},
	{"layout", (*parser).layout},
	{"sheets", (*parser).sheets},
	{"parts", (*parser).parts},
	{"meters", (*parser).meters},
	{"use", (*parser).use},
	{"house", (*parser).house},
	{"readings", (*parser).readings},
}

type parser struct {
	file    File
	faults  []Fault
	lines   map[string]int    // key, with the mark of an earlier value -> line
	bank    *bank.Layout      // nil while there is none
	named   []string          // parts for which the file has a section of their own
	meterOf map[string]string // quantity -> meter of this job
	latest  time.Time
}

// Parse reads a plain job file. It returns the file, or every fault that keeps
// it from being one; never both.
func Parse(raw []byte) (*File, []Fault) {
	root, faults := tree(raw)
	if root == nil {
		return nil, faults
	}
	p := &parser{faults: faults, lines: map[string]int{}, meterOf: map[string]string{}}
	if !p.ours(root) {
		return nil, p.faults[len(faults):]
	}
	names := make([]string, len(sections))
	for i, s := range sections {
		names[i] = s.name
	}
	for _, m := range root.members {
		if !contains(names, m.name) {
			p.unknown(m.line, m.name, names)
		}
	}
	for _, s := range sections {
		if n := root.get(s.name); n != nil {
			s.read(p, n)
		}
	}
	if len(p.faults) > 0 {
		return nil, inOrder(p.faults)
	}
	p.finish(root.line)
	return &p.file, nil
}

// ours reports whether the file is a plain job of the one known form.
func (p *parser) ours(root *node) bool {
	form := root.get("lugmark")
	switch {
	case root.shape != object || form == nil || form.shape != text || !strings.HasPrefix(form.text, "job/"):
		line := root.line
		if form != nil {
			line = form.line
		}
		p.fault(line, sayForeign.With())
		return false
	case form.text != Form:
		p.fault(form.line, sayNewer.With("form", form.text))
		return false
	}
	return true
}

// is notes a fault unless n has this shape.
func (p *parser) is(n *node, name string, s shape, want say.Phrase) bool {
	if n.shape != s {
		p.fault(n.line, sayWrong.With("name", name, "want", want))
		return false
	}
	return true
}

func (p *parser) now(n *node) {
	if t, ok := p.moment(n, "now"); ok {
		p.file.Now = t
	}
}

func (p *parser) visit(n *node) {
	if n.shape != text || !isVisit(n.text) {
		p.fault(n.line, sayWrong.With("name", "visit", "want", wantVisit))
		return
	}
	p.file.Visit = n.text
}

// isVisit: v1 to v999.
func isVisit(s string) bool {
	digits, ok := strings.CutPrefix(s, "v")
	return ok && len(digits) <= 3 && digits != "" && digits[0] != '0' && strings.Trim(digits, "0123456789") == ""
}

// later reports whether visit a comes after b.
func later(a, b string) bool { return len(a) > len(b) || len(a) == len(b) && a > b }

// finish fills in what the file left to be understood.
func (p *parser) finish(line int) {
	f := &p.file
	if f.Visit == "" {
		f.Visit = "v1"
		for _, e := range f.Entries {
			if later(e.Key.Visit, f.Visit) {
				f.Visit = e.Key.Visit
			}
		}
	}
	switch {
	case !f.Now.IsZero():
	case p.latest.IsZero():
		f.Notes = append(f.Notes, Fault{line, sayNoNow.With()})
	default:
		f.Now = p.latest
		f.Notes = append(f.Notes, Fault{line, sayNowTaken.With("now", f.Now.Format(time.RFC3339))})
	}
	f.Notes = inOrder(append(f.Notes, sameSerials(f.Entries)...))
}

var saySameSerial = say.Phrase{Key: "plain.same-serial", English: "{b} has the serial of {a}: “{serial}”. Read the label again."}

// sameSerials notes serials that stand on two blocks. It is no fault: a label
// can be misread on site too, and the record must be able to say so.
func sameSerials(entries []Entry) (notes []Fault) {
	first := map[string]string{}
	for _, e := range entries {
		if kind, _ := bank.PartKind(e.Key.Part); e.Key.Field != "serial" || kind != bank.KindBlock || e.Value.Kind != job.KindText {
			continue
		}
		serial := strings.ToUpper(strings.TrimSpace(e.Value.Text))
		if a, known := first[serial]; known && a != e.Key.Part {
			notes = append(notes, Fault{e.Line, saySameSerial.With("a", bank.Name(a), "b", bank.Name(e.Key.Part), "serial", e.Value.Text)})
			continue
		}
		first[serial] = e.Key.Part
	}
	return notes
}
