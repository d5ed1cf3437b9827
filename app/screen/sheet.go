package screen

import (
	"time"

	"lugmark/checks"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/seal"
)

// sheet is what the handover prints, the people sign and the seal freezes.
// Findings change with the clock alone: rests grow, temperatures go stale. So
// a sheet is judged at one moment, and a signature is about that moment.
type sheet struct {
	findings []finding.Finding
	results  []byte
	digest   string
	moment   time.Time // of the signature that froze it; zero while nobody has signed what stands
}

// sheetAt judges the record as it stands, at a moment.
func (j *opened) sheetAt(moment time.Time) sheet {
	findings := checks.Run(checks.NewFacts(j.state, j.visit, moment))
	results := checks.Results(findings)
	return sheet{findings: findings, results: results, digest: seal.Digest(results), moment: moment}
}

// sheet is the sheet of the first signature that still holds: judged at its
// moment, the record gives what was signed. Without one it is the present. A
// reading that was changed since changes the digest, and nothing holds.
func (j *opened) sheet() sheet {
	if j.paper != nil {
		return *j.paper
	}
	now := sheet{findings: j.findings, results: checks.Results(j.findings)}
	now.digest = seal.Digest(now.results)
	j.paper = &now
	for _, s := range j.state.Signs() {
		moment, err := time.Parse(time.RFC3339, s.At)
		if err != nil {
			continue
		}
		if then := j.sheetAt(moment); then.digest == s.Body.Digest {
			j.paper = &then
			break
		}
	}
	return *j.paper
}

// signed gives the last signature in a role; current is false when what it is
// about has changed since.
func (j *opened) signed(role string) (s job.Item[job.Sign], current, ok bool) {
	for _, x := range j.state.Signs() {
		if x.Body.Role == role && x.Lam >= j.began() {
			s, ok = x, true
		}
	}
	return s, ok && s.Body.Digest == j.sheet().digest, ok
}

// pastSigns lists the signatures, not yet sealed, that others gave in a role
// under other results.
func (j *opened) pastSigns(by job.Sign) (past []string) {
	for _, x := range j.state.UnsealedSigns() {
		if x.Body.Role == by.Role && x.Body.Who != by.Who && x.Body.Digest != by.Digest {
			past = append(past, x.ID)
		}
	}
	return past
}

// signatures says whether both parties have signed the sheet as it stands. It
// stands beside the findings that they sign and is never one of them.
func (j *opened) signatures() finding.Finding {
	return checks.Signatures(j.state.Signs(), j.sheet().digest)
}

// sealed gives the seal in force; current is false when the results have
// changed since.
func (j *opened) sealed() (s job.Item[job.Seal], current, ok bool) {
	s, ok = j.state.SealedAt()
	ok = ok && s.Lam >= j.began()
	return s, ok && s.Body.Digest == j.sheet().digest, ok
}
