package screen

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/draw"
	"lugmark/core/prove"
	"lugmark/core/say"
	"lugmark/core/seal"
)

var (
	sayNotPrint  = say.Phrase{Key: "screen.check.not-print", English: "This is not a fingerprint: {why}. It stands at the foot of the sheet, 26 signs in four groups."}
	sayChecking  = say.Phrase{Key: "screen.check.checking", English: "Checking the record …"}
	sayCheckingN = say.Phrase{Key: "screen.check.checking-n", English: "Checking the record: {n} of {all} signatures."}
)

// checked is the record file on the page that checks one. It is never kept.
type checked struct {
	file   string // its name
	typed  string // the fingerprint as it was typed
	print  seal.Print
	report *prove.Report
}

// mostFaults is how many faults of a file are listed; the command lists all.
const mostFaults = 20

// viewCheck checks a record file that somebody has, with what stands on the
// sheet. It brings nothing in.
func (r *root) viewCheck() page {
	c := r.check
	open, again := "btn go file", r.t("check.open", "Open a record file (.txt)")
	if c.report != nil {
		open, again = "btn file", r.t("check.other", "Open another record file (.txt)")
	}
	main := []app.UI{
		app.P().Text(r.t("check.what", "Is this the record of a sheet, and was anything changed? The file is read and checked on this phone. It is not brought in, and nothing leaves the phone.")),
		app.Label().Class(open).Body(app.Text(again),
			app.Input().Type("file").ID("check-file").Class("vh").Accept(".txt,text/plain").OnChange(r.onCheckFile)),
		app.Div().Body(r.input("print", r.t("check.print", "Fingerprint on the sheet, if you have it"), r.t("check.print-hint", "26 signs. Capitals, gaps, O for 0 and I or L for 1 do not matter."), "text")),
		r.button("btn", r.t("check.compare", "Compare the fingerprint"), func(app.Context) { r.comparePrint() }),
	}
	if c.report != nil {
		main = append(main, r.reportOn(c.report, c.print)...)
	}
	return page{title: r.t("check", "Check a record"), sub: c.file, back: "/", main: main}
}

// reportOn is what the command prints, as a page.
func (r *root) reportOn(report *prove.Report, print seal.Print) []app.UI {
	var out []app.UI
	for _, f := range report.Verdict(print) {
		out = append(out, app.Div().Class("ruled", "big", string(factState(f.Mark))).Body(mark(factState(f.Mark)), app.Div().Body(app.P().Text(r.say(f.Says)))))
	}
	out = []app.UI{app.Div().ID("verdict").TabIndex(-1).Role("status").Body(out...)}
	if faults := report.FaultFacts(mostFaults); len(faults) > 0 {
		out = append(out, app.H2().Text(r.t("check.faults", "What is wrong, or was passed over")), r.facts(faults))
	}
	for _, j := range report.Jobs {
		out = append(out, app.H2().Text(r.say(j.Name())), r.facts(j.Facts()))
	}
	showsHead, cannotHead := prove.BoundHeads()
	shows, cannot := report.Bounds()
	list := func(head say.Line, lines []say.Line) {
		var rows []prove.Fact
		for _, l := range lines {
			rows = append(rows, prove.Fact{Says: l})
		}
		out = append(out, app.H2().Text(r.say(head)), r.facts(rows))
	}
	if report.Sound() {
		list(showsHead, shows)
	}
	list(cannotHead, cannot)
	return out
}

// facts are rows with the silhouette of what was checked; what was only read
// has none.
func (r *root) facts(list []prove.Fact) app.UI {
	var rows []app.UI
	for _, f := range list {
		var sign app.UI = app.Span().Class("mark")
		if f.Mark != prove.Plain {
			sign = mark(factState(f.Mark))
		}
		rows = append(rows, app.Li().Class(string(factState(f.Mark))).Body(sign, app.Span().Text(r.say(f.Says))))
	}
	return app.Ul().Class("opens").Body(rows...)
}

func factState(m prove.Mark) draw.State {
	switch m {
	case prove.Good:
		return draw.Pass
	case prove.Bad:
		return draw.Fail
	}
	return draw.CantTell
}

// comparePrint reads what was typed; without a file it only says whether that
// can be a fingerprint.
func (r *root) comparePrint() {
	r.check.typed, r.check.print = r.text["print"], ""
	delete(r.slips, "print")
	if strings.TrimSpace(r.check.typed) == "" {
		return
	}
	print, err := seal.ParsePrint(r.check.typed)
	if err != nil {
		r.slips["print"] = sayNotPrint.With("why", strings.TrimPrefix(err.Error(), "seal: "))
		r.focus = "print"
		return
	}
	r.check.print = print
	r.focus = "verdict"
	if r.check.report == nil {
		r.focus = "check-file"
	}
}

// onCheckFile reads the bytes of the file that was chosen, exactly.
func (r *root) onCheckFile(ctx app.Context, _ app.Event) {
	input := ctx.JSSrc()
	files := input.Get("files")
	if files.Get("length").Int() == 0 {
		return
	}
	file := files.Call("item", 0)
	if file.Get("size").Int() > largestFile {
		r.notice = notice{says: sayTooBig.With(), bad: true}
		return
	}
	name := file.Get("name").String()
	whenSettled(file.Call("arrayBuffer"), func(v app.Value, err error) {
		var raw []byte
		if err == nil {
			bytes := app.Window().Get("Uint8Array").New(v)
			raw = make([]byte, bytes.Get("length").Int())
			app.CopyBytesToGo(raw, bytes)
		}
		r.dispatch(func(app.Context) {
			input.Set("value", "")
			if err != nil {
				r.notice = notice{says: sayNoFile.With(), bad: true}
				return
			}
			r.checkFile(name, raw)
		})
	})
}

// checkFile checks a file beside the screen and shows the report.
func (r *root) checkFile(name string, raw []byte) {
	if r.busy {
		return
	}
	r.comparePrint()
	r.check.file, r.check.report = name, nil
	r.inFront(sayChecking, func(tell func(say.Phrase, int, int)) func() {
		report := prove.Read(raw, func(n, all int) { tell(sayCheckingN, n, all) })
		return func() {
			r.check.report = report
			r.notice = notice{}
			if len(r.slips) == 0 {
				r.focus = "verdict"
			}
		}
	})
}
