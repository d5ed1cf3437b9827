package job

import "fmt"

// Seal closes a handover: it names how far the record went, and freezes the
// results. Its hash is the fingerprint on the sheet. A later seal supersedes
// the one before; the old sheet still verifies as what it was.
type Seal struct {
	Rev      int    // from 1
	Frontier []Head // what it covers, directly or through the heads that those saw
	Digest   string // SHA-256 in hex of the results
	Results  Ref    // the list of results
	Rules    string // the edition of the rules that judged: "2026-11"
}

func (Seal) Type() string { return "seal/1" }

func (s Seal) Validate() error {
	switch {
	case s.Rev < 1:
		return fmt.Errorf("rev: less than 1")
	case len(s.Frontier) == 0:
		return fmt.Errorf("frontier: a seal covers something")
	case !isSum(s.Digest):
		return fmt.Errorf("digest: %q is not a SHA-256 in lower-case hex", s.Digest)
	case !isPlain(s.Rules):
		return fmt.Errorf("rules: %q is not an edition", s.Rules)
	}
	if err := checkHeads("frontier", s.Frontier); err != nil {
		return err
	}
	return under("results", s.Results.validate())
}

func (s Seal) append(b []byte) []byte {
	o := object{b: b}
	o.whole("rev", s.Rev)
	o.texts("frontier", headTexts(s.Frontier))
	o.text("digest", s.Digest)
	o.ref("results", s.Results)
	o.text("rules", s.Rules)
	return o.end()
}

func readSeal(r *reader) (Body, error) {
	var s Seal
	seen, err := r.fields([]string{"rev", "frontier", "digest", "results", "rules"}, func(i int) (err error) {
		switch i {
		case 0:
			s.Rev, err = r.whole(1)
		case 1:
			s.Frontier, err = r.heads()
		case 2:
			s.Digest, err = r.text()
		case 3:
			s.Results, err = r.ref()
		case 4:
			s.Rules, err = r.text()
		}
		return err
	})
	if err == nil && seen != 31 {
		err = r.fail("a seal has rev, frontier, digest, results and rules")
	}
	return s, err
}
