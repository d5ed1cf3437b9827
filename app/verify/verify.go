//go:build !js

// Package verify is the command that checks a record file: what is in it, by
// whom, whether it is as it was signed, and whether a printed fingerprint
// belongs to it.
//
// It decides nothing itself: core/prove does, for this command and for the page
// of the phone app alike. It judges no reading; see app/assess.
package verify

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"

	"lugmark/core/prove"
	"lugmark/core/say"
	"lugmark/core/seal"
)

// Options of a check.
type Options struct {
	Print seal.Print // the fingerprint on the sheet; "" compares none
	JSON  bool       // one object instead of sentences
}

// ErrNot means that the record is not sound, or has not that fingerprint. What
// is wrong was printed.
var ErrNot = errors.New("the record does not hold")

// File checks one file; "-" is stdin. The error is [ErrNot], or of reading or
// writing.
func File(name string, stdin io.Reader, o Options, out io.Writer) error {
	raw, err := read(name, stdin)
	if err != nil {
		return err
	}
	report := prove.Read(raw, func(int, int) {})
	w := bufio.NewWriter(out)
	if o.JSON {
		encoder := json.NewEncoder(w)
		encoder.SetEscapeHTML(false)
		err = encoder.Encode(asJSON(report, o.Print))
	} else {
		write(w, report, o.Print)
	}
	if err = errors.Join(err, w.Flush()); err != nil {
		return err
	}
	if !report.Holds(o.Print) {
		return ErrNot
	}
	return nil
}

func read(name string, stdin io.Reader) ([]byte, error) {
	if name == "-" {
		return io.ReadAll(stdin)
	}
	return os.ReadFile(name)
}

// marks stand before the sentences; what was only read and not checked has none.
var marks = map[prove.Mark]string{prove.Good: "ok", prove.Bad: "FAULT", prove.Open: "note"}

func write(w io.Writer, r *prove.Report, p seal.Print) {
	voice := say.Voice{}
	facts := func(list []prove.Fact) {
		for _, f := range list {
			fmt.Fprintf(w, "%-7s%s\n", marks[f.Mark], voice.Say(f.Says))
		}
	}
	facts(r.Verdict(p))
	facts(r.FaultFacts(0))
	for _, j := range r.Jobs {
		fmt.Fprintf(w, "\n%s\n", voice.Say(j.Name()))
		facts(j.Facts())
	}
	list := func(head say.Line, lines []say.Line) {
		fmt.Fprintf(w, "\n%s\n", voice.Say(head))
		for _, l := range lines {
			fmt.Fprintf(w, "     - %s\n", voice.Say(l))
		}
	}
	showsHead, cannotHead := prove.BoundHeads()
	shows, cannot := r.Bounds()
	if r.Sound() {
		list(showsHead, shows)
	}
	list(cannotHead, cannot)
}
