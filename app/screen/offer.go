package screen

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/draw"
	"lugmark/core/record"
	"lugmark/core/say"
)

var (
	sayDamaged  = say.Phrase{Key: "screen.file.damaged", English: "The record file is damaged at line {line}: {text}. Nothing was changed."}
	sayForked   = say.Phrase{Key: "screen.file.forked", English: "The record in the file and the one on this phone differ at line {line}: {text}. Nothing was changed."}
	sayAlsoAt   = say.Phrase{Key: "screen.file.also", English: "Line {line}: {text}."}
	sayAlsoNot  = say.Phrase{Key: "screen.file.also-nowhere", English: "{text}."}
	sayWhole    = say.Phrase{Key: "screen.file.whole", English: "Entries that are whole: {whole} of {all} that could be read. New here: {n}; here already: {held}."}
	sayUnsure   = say.Phrase{Key: "screen.file.unsure", English: "Entries that cannot be trusted: {n}. Their signature is bad, or the key to check it is lost. They stay out."}
	sayStandOff = say.Phrase{Key: "screen.file.stand-off", English: "Entries that go another way: {n}. A phone has one place for each entry, so both cannot stand here, and nobody can say which came first. They stay out, and what is on this phone stays. Keep the file: it is where they stand. It happens when a phone's storage was copied, or one was set back."}
	sayWouldAdd = say.Phrase{Key: "screen.file.would-add", English: "It would be added as a new job: {titles}."}
	sayWouldGo  = say.Phrase{Key: "screen.file.would-go", English: "It would bring what is missing to: {titles}."}
	sayNoneNew  = say.Phrase{Key: "screen.file.none-new", English: "There is nothing in it to bring in."}
)

// offer is a record file that was read and compared, before anything of it is
// kept.
type offer struct {
	faults  []record.Fault
	passed  []string // what was changed around the record on its way
	entries int      // that could be read
	sifted  record.Sifted
	plans   []arrival
}

// clean reports whether all of the file can be brought in without a word.
func (o *offer) clean() bool {
	return len(o.faults) == 0 && len(o.sifted.Forks) == 0 && o.sifted.Unsure == 0
}

// says is what is wrong, the first of it in a sentence of its own.
func (o *offer) says() []say.Line {
	var out []say.Line
	add := func(first say.Phrase, list []record.Fault) {
		for _, f := range list {
			says := sayAlsoAt
			switch {
			case len(out) == 0:
				says = first
			case f.Line == 0:
				says = sayAlsoNot
			}
			out = append(out, says.With("line", itoa(f.Line), "text", f.Why))
		}
	}
	add(sayDamaged, o.faults)
	add(sayForked, o.sifted.Forks)
	return out
}

// jobs names the jobs that an offer brings something to.
func (o *offer) jobs() say.Line {
	fresh, filled := o.titles()
	var a, b any = "", ""
	if fresh != nil {
		a = sayAdded.With("titles", fresh)
	}
	if filled != nil {
		b = sayFilled.With("titles", filled)
	}
	return sayTwoLines.With("a", a, "b", b)
}

// mostTitles is how many jobs a sentence names.
const mostTitles = 3

// titles are the names of the jobs that are new here and of those that are not;
// nil where there is none.
func (o *offer) titles() (fresh, filled any) {
	var new, old []string
	for _, p := range o.plans {
		if p.fresh {
			new = append(new, p.title)
		} else {
			old = append(old, p.title)
		}
	}
	few := func(list []string) any {
		switch {
		case len(list) == 0:
			return nil
		case len(list) > mostTitles:
			return sayAndMore.With("titles", strings.Join(list[:mostTitles], ", "), "n", itoa(len(list)-mostTitles))
		}
		return strings.Join(list, ", ")
	}
	return few(new), few(old)
}

// offerBox says what is wrong with a file that was opened, and offers what of
// it is whole.
func (r *root) offerBox() []app.UI {
	o := r.offer
	if o == nil {
		return nil
	}
	s := o.sifted
	lines := o.says()
	var rows []app.UI
	for i, l := range lines {
		if i == mostTitles {
			rows = append(rows, app.P().Text(r.t("file.more", "And {n} more. “Check a record” lists them.", "n", itoa(len(lines)-i))))
			break
		}
		rows = append(rows, app.P().Text(r.say(l)))
	}
	body := []app.UI{app.Div().Class("ruled", "fail").Body(mark(draw.Fail), app.Div().Body(rows...))}
	add := func(l say.Line) { body = append(body, app.P().Text(r.say(l))) }
	add(sayWhole.With("whole", itoa(len(s.New.Events)+s.Held), "all", itoa(o.entries), "n", itoa(len(s.New.Events)), "held", itoa(s.Held)))
	if s.Unsure > 0 {
		add(sayUnsure.With("n", itoa(s.Unsure)))
	}
	if s.Forked > 0 {
		add(sayStandOff.With("n", itoa(s.Forked)))
	}
	fresh, filled := o.titles()
	if fresh != nil {
		add(sayWouldAdd.With("titles", fresh))
	}
	if filled != nil {
		add(sayWouldGo.With("titles", filled))
	}
	if len(o.plans) == 0 {
		add(sayNoneNew.With())
	} else {
		says := r.t("file.bring-whole", "Bring in the {n} entries that are whole", "n", itoa(len(s.New.Events)))
		if len(s.New.Events) == 0 {
			says = r.t("file.bring-texts", "Bring in the texts that are missing here")
		}
		body = append(body, r.button("btn go", says, func(app.Context) { r.bringWhole() }))
	}
	body = append(body, r.button("btn", r.t("file.bring-none", "Bring in nothing"), func(app.Context) { r.offer = nil }))
	return []app.UI{app.Section().Class("cant").ID("offer").TabIndex(-1).Role("alert").Body(body...)}
}
