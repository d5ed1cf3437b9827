package job

import "fmt"

// Void takes what its sup names out of view, for a reason. What was voided
// stays in the record, and what it superseded stays superseded.
type Void struct {
	Why string // a code word: "wrong-part"
	X   Ref    // the reason in a person's words, or the zero Ref
}

func (Void) Type() string { return "void/1" }

func (v Void) Validate() error {
	if !isWord(v.Why) {
		return fmt.Errorf("why: %q is not a word", v.Why)
	}
	if v.X != (Ref{}) {
		return under("x", v.X.personal())
	}
	return nil
}

func (v Void) append(b []byte) []byte {
	o := object{b: b}
	o.text("why", v.Why)
	o.optRef("x", v.X)
	return o.end()
}

func readVoid(r *reader) (Body, error) {
	var v Void
	seen, err := r.fields([]string{"why", "x"}, func(i int) (err error) {
		switch i {
		case 0:
			v.Why, err = r.text()
		case 1:
			v.X, err = r.ref()
		}
		return err
	})
	if err == nil && seen&1 == 0 {
		err = r.fail("a void gives its reason: why")
	}
	return v, err
}
