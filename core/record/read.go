package record

import (
	"bytes"
	"fmt"

	"lugmark/core/job"
)

// Fault is what is wrong with one line of a file, counted from 1; line 0 is
// what is not there. One that was passed over took nothing from the record: only
// the text around it was changed on the way, as mail programs do.
type Fault struct {
	Line   int
	Why    string
	Passed bool

	stream  string // that it is about
	keyless bool   // none of the stream's signatures can be checked
}

func (f Fault) String() string {
	if f.Line == 0 {
		return f.Why
	}
	return fmt.Sprintf("line %d: %s", f.Line, f.Why)
}

// Read reads a record file and keeps every line that is whole: one that is, byte
// for byte, what Write would make of what was read from it. A bit turned in the
// padding of base64 or the case of hex would otherwise hide. What is not whole
// is a fault, and the rest is kept all the same.
//
// Read does not verify signatures; see [Verify].
func Read(file []byte) (Contents, []Fault) {
	var c Contents
	var faults []Fault
	if rest, ok := bytes.CutPrefix(file, []byte("\ufeff")); ok {
		faults = append(faults, Fault{Line: 1, Why: "an invisible sign was put in front of the file; it is passed over", Passed: true})
		file = rest
	}
	lineEnd := []byte("\n")
	if bytes.HasPrefix(file, []byte(Header+"\r\n")) {
		faults = append(faults, Fault{Line: 1, Why: "the line ends were changed to CR LF; they are passed over", Passed: true})
		lineEnd = []byte("\r\n")
	}
	kinds := map[string]string{} // sum of a blob to its media type
	held := map[[32]byte]bool{}
	for n := 1; len(file) > 0; n++ {
		line, rest, _ := bytes.Cut(file, lineEnd)
		file = rest
		if n == 1 {
			if string(line) != Header {
				faults = append(faults, Fault{Line: 1, Why: notHeader(line)})
			}
			continue
		}
		var err error
		switch {
		case bytes.HasPrefix(line, []byte("e ")):
			err = c.readEvent(line, n, kinds, held)
		case bytes.HasPrefix(line, []byte("b ")):
			err = c.readBlob(line)
		default:
			err = fmt.Errorf("begins neither with e nor with b")
		}
		if err != nil {
			faults = append(faults, Fault{Line: n, Why: err.Error()})
		}
	}
	for i := range c.Blobs {
		c.Blobs[i].Type = kinds[c.Blobs[i].Sum]
	}
	if len(c.Events)+len(c.Blobs) == 0 && len(faults) > 0 {
		faults = []Fault{{Line: 1, Why: "not a record file: no line of it can be read"}}
	}
	return c, faults
}

func notHeader(line []byte) string {
	if bytes.HasPrefix(line, []byte("lugmark-record ")) {
		return fmt.Sprintf("the file says %.40q; this app reads %q", line, Header)
	}
	return fmt.Sprintf("the file does not begin with %q", Header)
}

// ParseEvent reads the line of one signed event, without its line feed; it
// refuses every spelling but that of [AppendEvent]. It does not verify the
// signature. The event does not share memory with the line.
func ParseEvent(line []byte) (job.Event, job.Signed, error) {
	rest, ok := bytes.CutPrefix(line, []byte("e "))
	if !ok {
		return job.Event{}, job.Signed{}, fmt.Errorf("does not begin with e")
	}
	sig64, raw, _ := bytes.Cut(rest, []byte(" "))
	sig, err := encoding.DecodeString(string(sig64))
	if err != nil || len(sig) != 64 {
		return job.Event{}, job.Signed{}, fmt.Errorf("its signature is not 64 bytes in base64")
	}
	e, err := job.Decode(bytes.Clone(raw))
	if err != nil {
		return job.Event{}, job.Signed{}, err
	}
	signed := job.Signed{Job: e.Job, Stream: e.Stream, Seq: e.Seq, Raw: e.Raw, Sig: sig}
	if !bytes.Equal(AppendEvent(nil, signed), line) {
		return job.Event{}, job.Signed{}, fmt.Errorf("not written as a record writes it")
	}
	return e, signed, nil
}

func (c *Contents) readEvent(line []byte, n int, kinds map[string]string, held map[[32]byte]bool) error {
	e, signed, err := ParseEvent(line)
	if err != nil {
		return err
	}
	for _, x := range job.Refs(e) {
		kinds[x.Sum] = x.Type
	}
	if p, ok := e.Body.(job.Photo); ok {
		for _, sum := range p.Chunks {
			kinds[sum] = p.Blob.Type
		}
	}
	if !held[e.Hash] {
		held[e.Hash] = true
		c.Events = append(c.Events, signed)
		c.Lines = append(c.Lines, n)
	}
	return nil
}

func (c *Contents) readBlob(line []byte) error {
	sum, data64, _ := bytes.Cut(line[2:], []byte(" "))
	data, err := encoding.DecodeString(string(data64))
	if err != nil {
		return fmt.Errorf("a blob that is not base64")
	}
	blob := job.Blob{Sum: sumOf(data), Data: data}
	if !bytes.Equal(appendBlob(nil, blob), line) {
		return fmt.Errorf("a blob that does not have the sum %.64q", sum)
	}
	c.Blobs = append(c.Blobs, blob)
	return nil
}
