//go:build !js

// Package assess judges a job file on the command line: it reads a plain job
// or a record, runs the checks and prints one line of JSON for each finding.
//
// It decides nothing itself and writes no file. The same checks judge on the
// phone.
package assess

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"os"
	"time"

	"lugmark/checks"
	"lugmark/checks/plain"
	"lugmark/core/job"
	"lugmark/core/record"
)

// Input is one file to judge.
type Input struct {
	Name string // as the complaints call it
	Raw  []byte
}

// Options of a judgement.
type Options struct {
	Now   time.Time // judge at this time; zero: the time of the file
	Clock time.Time // the present, for a file that holds no time
}

// unreadable is how many files could not be judged.
type unreadable int

func (n unreadable) Error() string {
	if n == 1 {
		return "one file could not be judged"
	}
	return fmt.Sprintf("%d files could not be judged", int(n))
}

// Files judges one file after the other. Faults and notes go to complaints, one
// on each line as FILE:LINE: sentence. The error says how many files could not
// be judged; the others are printed all the same.
func Files(names []string, stdin io.Reader, o Options, out, complaints io.Writer) error {
	var bad unreadable
	for _, name := range names {
		raw, err := read(name, stdin)
		if err != nil {
			fmt.Fprintln(complaints, "lugmark assess:", err)
			bad++
			continue
		}
		if name == "-" {
			name = "stdin"
		}
		ok, err := Judge(Input{name, raw}, o, out, complaints)
		if err != nil {
			return fmt.Errorf("assess %s: %w", name, err)
		}
		if !ok {
			bad++
		}
	}
	if bad > 0 {
		return bad
	}
	return nil
}

func read(name string, stdin io.Reader) ([]byte, error) {
	if name == "-" {
		return io.ReadAll(stdin)
	}
	return os.ReadFile(name)
}

// Judge prints the findings of one file. It reports whether the file could be
// judged; the error is one of writing.
func Judge(in Input, o Options, out, complaints io.Writer) (bool, error) {
	c, faults := open(in.Raw, o)
	for _, f := range faults {
		fmt.Fprintf(complaints, "%s:%d: %s\n", in.Name, f.line, checks.ASCII(f.says))
	}
	if c.state == nil {
		return false, nil
	}
	w := bufio.NewWriter(out)
	if _, err := w.Write(checks.Results(checks.Run(checks.NewFacts(c.state, c.visit, c.now)))); err != nil {
		return true, err
	}
	return true, w.Flush()
}

// content is a file that was read: what to judge, at which visit and time.
// Without a state it could not be read.
type content struct {
	state *job.State
	visit string
	now   time.Time
}

type fault struct {
	line int
	says string
}

// open reads a file of either kind.
func open(raw []byte, o Options) (content, []fault) {
	start := bytes.TrimLeft(bytes.TrimPrefix(raw, []byte("\ufeff")), " \t\r\n")
	switch {
	case bytes.HasPrefix(start, []byte("{")):
		return openPlain(raw, o)
	case bytes.HasPrefix(start, []byte("lugmark-record")):
		return openRecord(raw, o)
	}
	return content{}, []fault{{1, "This is neither a plain job, which begins with a brace, nor a record, which begins with " + record.Header + "."}}
}

func openPlain(raw []byte, o Options) (c content, out []fault) {
	file, faults := plain.Parse(raw)
	for _, f := range faults {
		out = append(out, fault{f.Line, f.Error()})
	}
	if file == nil {
		return c, out
	}
	for _, f := range file.Notes {
		out = append(out, fault{f.Line, "Note: " + f.Error()})
	}
	if file.Now.IsZero() {
		file.Now = o.Clock
		if !o.Now.IsZero() {
			file.Now = o.Now
		}
	}
	state, _, err := file.State()
	if err != nil {
		return c, append(out, fault{1, err.Error()})
	}
	c = content{state, file.Visit, file.Now}
	if !o.Now.IsZero() {
		c.now = o.Now
	}
	return c, out
}
