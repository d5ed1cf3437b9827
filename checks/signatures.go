package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// The roles under which a hand-over is signed.
const (
	RoleTechnician, RoleOwner = "technician", "owner"
)

var (
	saySigned      = say.Phrase{Key: "signatures.pass", English: "The technician and the owner signed these results."}
	sayAskSign     = say.Phrase{Key: "signatures.next", English: "Ask the missing person to sign: {missing}."}
	saySignAgain   = say.Phrase{Key: "signatures.again", English: "The results have changed since it was signed. Ask to sign again: {missing}."}
	saySignedLimit = say.Phrase{Key: "signatures.limit", English: "both parties"}
	saySignRoles   = map[string]say.Phrase{
		RoleTechnician: {Key: "signatures.technician", English: "technician"},
		RoleOwner:      {Key: "signatures.owner", English: "owner"},
	}
)

// Signatures says who still has to sign results with this digest. A signature
// counts for its role as long as the last one of the role is about them.
//
// It is no check of [All]. What is signed and sealed are the findings of All; a
// finding about signatures among them would change with the first signature,
// and the second could never be about the same results.
func Signatures(signs []job.Item[job.Sign], digest string) finding.Finding {
	limit := finding.Limit{Name: "signatures", Kind: finding.House, Source: cite.OurRule.Line(), Text: saySignedLimit.With()}
	last := map[string]job.Sign{}
	for _, s := range signs {
		last[s.Body.Role] = s.Body
	}
	var open say.Line
	ask := sayAskSign
	for _, role := range []string{RoleOwner, RoleTechnician} {
		s, signed := last[role]
		if signed && s.Digest == digest {
			continue
		}
		if signed {
			ask = saySignAgain
		}
		name := saySignRoles[role].With()
		if !open.Empty() {
			name = sayListMore.With("first", name, "more", open)
		}
		open = name
	}
	x := finding.Passes(saySigned.With())
	if !open.Empty() {
		x = finding.Undone(ask.With("missing", open))
	}
	return x.Of("signatures", "bank").Against(limit)
}
