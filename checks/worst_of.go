package checks

import "lugmark/core/finding"

// worstOf judges several parts by themselves and gives the worst answer, about
// every part that stands as badly: one finding where one is enough. False when
// there is no part.
func worstOf(parts []string, judge func(part string) finding.Finding) (worst finding.Finding, ok bool) {
	var about []string
	for i, part := range parts {
		x := judge(part)
		switch {
		case i == 0 || x.Verdict().Worse(worst.Verdict()):
			worst, about = x, []string{part}
		case x.Verdict() == worst.Verdict():
			about = append(about, part)
		}
	}
	if v := worst.Verdict(); v == finding.Fail || v == finding.CantTell {
		worst = worst.About(about...)
	}
	return worst, len(parts) > 0
}
