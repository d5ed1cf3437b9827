package prove

import (
	"bytes"
	"encoding/json"
	"strings"
	"time"
	"unicode"

	"lugmark/core/job"
	"lugmark/core/seal"
)

// seal tells of one handover what it covers and what came after it.
func (x *reading) seal(s job.Item[job.Seal]) *Seal {
	out := &Seal{Rev: s.Body.Rev, Print: seal.Fingerprint(s.Hash), Line: x.lines[s.Hash], At: moment(s.At), By: x.name(s.By), Rules: s.Body.Rules}
	changed, err := x.state.ChangedSince(s.ID)
	if err == nil {
		out.Since = len(changed)
		out.Covers = x.state.Len() - len(x.state.Seals()) - len(changed)
	}
	after := map[[32]byte]bool{}
	for i := range changed {
		after[changed[i].Hash] = true
	}
	for _, e := range x.events {
		if sign, ok := e.Body.(job.Sign); ok && sign.Digest == s.Body.Digest && !after[e.Hash] {
			out.signedBy(x.signature(e.At, sign))
		}
	}
	if list, here := x.blobs[s.Body.Results.Sum]; here {
		out.Results = verdicts(list)
	}
	return out
}

// verdicts counts the findings of a frozen list, one JSON object on each line.
// What is no finding is not counted: the list is another program's, perhaps of
// another year.
func verdicts(list []byte) map[string]int {
	out := map[string]int{}
	for line := range bytes.Lines(list) {
		var finding struct {
			Verdict string `json:"verdict"`
		}
		if json.Unmarshal(line, &finding) == nil && finding.Verdict != "" {
			out[finding.Verdict]++
		}
	}
	return out
}

// signedBy adds a signature; who signed again, signed then.
func (s *Seal) signedBy(now Signature) {
	for i, was := range s.Signed {
		if was.Name == now.Name && was.Role == now.Role {
			s.Signed[i] = now
			return
		}
	}
	s.Signed = append(s.Signed, now)
}

func (x *reading) signature(at string, s job.Sign) Signature {
	name := ""
	if s.How == job.Typed {
		name, _ = job.Text(x.blobs, s.Ink)
		name = shown(name)
	}
	if name == "" {
		name = x.name(s.Who)
	}
	return Signature{Name: name, Role: s.Role, At: moment(at), Digest: s.Digest}
}

// name is a person's name, or the id where the name is not here.
func (x *reading) name(person string) string {
	if name := x.text(person); name != "" {
		return name
	}
	return person
}

// text is the personal text "name" of a part, "" when it is not here. Setup is
// looked up from the last visit backwards.
func (x *reading) text(part string) string {
	last := "v1"
	for _, k := range x.state.Keys() {
		if len(k.Visit) > len(last) || len(k.Visit) == len(last) && k.Visit > last {
			last = k.Visit
		}
	}
	e, standing := x.state.Lookup(last, part, "name", true)
	if standing != job.One {
		return ""
	}
	text, _ := job.Text(x.blobs, e.Value.X)
	return shown(text)
}

// shown is a text as it may be printed: what steers a terminal or turns the
// direction of reading stands as a sign of its own, so that no name can write
// over a verdict.
func shown(text string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsControl(c) || unicode.Is(unicode.Cf, c) || c == '\u2028' || c == '\u2029' {
			return unicode.ReplacementChar
		}
		return c
	}, text)
}

func (x *reading) allHere(sums []string) bool {
	for _, sum := range sums {
		if x.blobs[sum] == nil {
			return false
		}
	}
	return true
}

// moment reads the time of an event, which Decode has read once already.
func moment(at string) time.Time {
	t, _ := time.Parse(time.RFC3339, at)
	return t
}

func earlier(a, b time.Time) time.Time {
	if a.IsZero() || b.Before(a) {
		return b
	}
	return a
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}
