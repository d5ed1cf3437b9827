package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// What lies between the post and its fuse is protected by nothing: it must be
// short, and may be longer only in a sheath. Where strings stand side by side
// each has its own fuse, because the others feed its fault.
var fusePlace = &Check{
	ID: "fuse-place", Stage: Wire,
	Title:   say.Phrase{Key: "fuse-place.title", English: "Place of the fuses"},
	Asks:    say.Phrase{Key: "fuse-place.asks", English: "Is the cable in front of every fuse short enough?"},
	Formula: "unfused length ≤ 0.18 m bare, 1.02 m in a sheath, 1.83 m at the post [m]",
	Limits:  []LimitOf{{"length", finding.Standard}, {"length", finding.Practice}},
	Sources: []*cite.Source{&cite.ABYCE11FusePlace},
	Fields:  []*Field{&unfused.Field, &fuseSheath.Field, &fuseAtPost.Field, &siteKind.Field, &useMetres.Field},
	Parts:   onBank,
	Eval:    evalFusePlace,
}

var (
	sayFuseNear = say.Phrase{Key: "fuse-place.pass", English: "The cable in front of every fuse is short enough; the longest is {found} where {limit} is allowed."}
	sayFuseFar  = say.Phrase{Key: "fuse-place.fail", English: "{found} of cable stand in front of {part} without a fuse; here {limit} is allowed. A short in it burns until the cable has melted."}
	sayFuseEdge = say.Phrase{Key: "fuse-place.cant-tell", English: "{found} of cable stand in front of {part}; here {limit} is allowed, too close for a rule."}
	sayFuseMove = say.Phrase{Key: "fuse-place.next", English: "Move the fuse closer to the battery post."}
	sayFuseRoom = say.Phrase{Key: "fuse-place.elsewhere", English: "Written for boats; elsewhere it says as close as practicable."}
)

// Bare, in a sheath, and in a sheath straight from a post: 7, 40 and 72 in.
const (
	bareFor   unit.Metre = 0.18
	sheathFor unit.Metre = 1.02
	postFor   unit.Metre = 1.83
)

func evalFusePlace(f *Facts, _ string) []finding.Finding {
	_, kind := f.afloat()
	parts, _ := fuseParts(f)
	var longest finding.Found
	var allowed unit.Metre
	x, _ := worstOf(parts, func(fuse string) finding.Finding {
		v, ok := unfused.Of(f, fuse)
		if !ok {
			return missing(unfused.Field, fuse)
		}
		r := f.byRule(v)
		if v.Value == 0 { // the fuse stands on the post
			r.U = 0
		}
		most, gap := f.unfusedMost(fuse, r)
		if gap != nil {
			return *gap
		}
		limit := finding.AtMost("length", most, boatKind(kind), cite.ABYCE11FusePlace.Line()).In("cm")
		found := finding.Measured(r, "cm", limit)
		if allowed == 0 || r.Value/most > unit.Metre(longest.Value)/allowed {
			longest, allowed = found, most
		}
		said := []any{"part", bank.Name(fuse), "found", found.Text, "limit", exact(most, "cm")}
		return finding.Judge(measure.AtMost(r.Interval(), most), finding.Words{
			Pass: sayFuseNear.With(said...), Fail: sayFuseFar.With(said...), CantTell: sayFuseEdge.With(said...), Mend: sayFuseMove.With(),
		}).Value(found).Against(limit)
	})
	if x.Verdict() == finding.Pass {
		limit := finding.AtMost("length", allowed, boatKind(kind), cite.ABYCE11FusePlace.Line()).In("cm")
		x = finding.Passes(sayFuseNear.With("found", longest.Text, "limit", exact(allowed, "cm"))).Value(longest).Against(limit)
	}
	if kind != "boat" && x.Verdict() != finding.ToDo {
		x = x.Noting(sayFuseRoom.With())
	}
	return one(x)
}

// unfusedMost is how long the cable in front of a fuse may be. The sheath and
// the post are asked about only where they matter.
func (f *Facts) unfusedMost(fuse string, r measure.Reading[unit.Metre]) (unit.Metre, *finding.Finding) {
	if measure.AtMost(r.Interval(), bareFor) == measure.Inside {
		return bareFor, nil
	}
	sheath, ok := fuseSheath.Of(f, fuse)
	if !ok {
		x := missing(fuseSheath.Field, fuse)
		return 0, &x
	}
	if sheath != "yes" {
		return bareFor, nil
	}
	if measure.AtMost(r.Interval(), sheathFor) == measure.Inside {
		return sheathFor, nil
	}
	post, ok := fuseAtPost.Of(f, fuse)
	if !ok {
		x := missing(fuseAtPost.Field, fuse)
		return 0, &x
	}
	if post == "yes" {
		return postFor, nil
	}
	return sheathFor, nil
}
