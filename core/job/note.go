package job

import "fmt"

// Note is something a person wrote about a part. Notes never conflict.
type Note struct {
	Part string
	X    Ref // the text, personal
}

func (Note) Type() string { return "note/1" }

func (n Note) Validate() error {
	if !isSegment(n.Part) {
		return fmt.Errorf("part: %q is not a part", n.Part)
	}
	return under("x", n.X.personal())
}

func (n Note) append(b []byte) []byte {
	o := object{b: b}
	o.text("part", n.Part)
	o.ref("x", n.X)
	return o.end()
}

func readNote(r *reader) (Body, error) {
	var n Note
	seen, err := r.fields([]string{"part", "x"}, func(i int) (err error) {
		switch i {
		case 0:
			n.Part, err = r.text()
		case 1:
			n.X, err = r.ref()
		}
		return err
	})
	if err == nil && seen != 3 {
		err = r.fail("a note has part and x")
	}
	return n, err
}
