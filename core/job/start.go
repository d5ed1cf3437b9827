package job

import "fmt"

// Kinds of records.
const (
	KindBank     = "bank"     // one bank at one site
	KindRegister = "register" // what a firm keeps for all its jobs: meters, sheets, people, rules
)

// Start says what the record is about.
type Start struct {
	Kind string // KindBank or KindRegister
	App  string // which program began it
}

func (Start) Type() string { return "job/1" }

func (s Start) Validate() error {
	if s.Kind != KindBank && s.Kind != KindRegister {
		return fmt.Errorf("kind: %q is neither bank nor register", s.Kind)
	}
	if !isPlain(s.App) {
		return fmt.Errorf("app: %q is not the name of a program", s.App)
	}
	return nil
}

func (s Start) append(b []byte) []byte {
	o := object{b: b}
	o.text("kind", s.Kind)
	o.text("app", s.App)
	return o.end()
}

func readStart(r *reader) (Body, error) {
	var s Start
	seen, err := r.fields([]string{"kind", "app"}, func(i int) (err error) {
		switch i {
		case 0:
			s.Kind, err = r.text()
		case 1:
			s.App, err = r.text()
		}
		return err
	})
	if err == nil && seen != 3 {
		err = r.fail("a job has kind and app")
	}
	return s, err
}
