package job

import "fmt"

// How a signature was given.
const (
	Drawn = "drawn"
	Typed = "typed"
)

// Sign is a person's signature under a list of results. It is not the device's
// signature, which every event has.
type Sign struct {
	Who    string // p1
	Role   string // a code word: "technician", "owner"
	How    string // Drawn or Typed
	Ink    Ref    // the strokes, or the typed name as a personal text
	Digest string // SHA-256 in hex of the results that were on the screen
}

func (Sign) Type() string { return "sign/1" }

func (s Sign) Validate() error {
	switch {
	case !isPerson(s.Who):
		return fmt.Errorf("who: %q is not p and a number", s.Who)
	case !isWord(s.Role):
		return fmt.Errorf("role: %q is not a word", s.Role)
	case s.How != Drawn && s.How != Typed:
		return fmt.Errorf("how: %q is neither drawn nor typed", s.How)
	case !isSum(s.Digest):
		return fmt.Errorf("digest: %q is not a SHA-256 in lower-case hex", s.Digest)
	}
	if s.How == Drawn {
		return under("ink", s.Ink.validate())
	}
	return under("ink", s.Ink.personal())
}

func (s Sign) append(b []byte) []byte {
	o := object{b: b}
	o.text("who", s.Who)
	o.text("role", s.Role)
	o.text("how", s.How)
	o.ref("ink", s.Ink)
	o.text("digest", s.Digest)
	return o.end()
}

func readSign(r *reader) (Body, error) {
	var s Sign
	seen, err := r.fields([]string{"who", "role", "how", "ink", "digest"}, func(i int) (err error) {
		switch i {
		case 0:
			s.Who, err = r.text()
		case 1:
			s.Role, err = r.text()
		case 2:
			s.How, err = r.text()
		case 3:
			s.Ink, err = r.ref()
		case 4:
			s.Digest, err = r.text()
		}
		return err
	})
	if err == nil && seen != 31 {
		err = r.fail("a signature has who, role, how, ink and digest")
	}
	return s, err
}
