package checks

import (
	"math"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// The blocks, with the gaps that they need for air, fit on the shelf, and the
// shelf carries them with a twentieth to spare for cables.
var shelfFits = &Check{
	ID: "shelf-fits", Stage: Before,
	Title:   say.Phrase{Key: "shelf-fits.title", English: "Shelf"},
	Asks:    say.Phrase{Key: "shelf-fits.asks", English: "Do the blocks fit on the shelf, and does it carry them?"},
	Formula: "n·W + (n − 1)·gap ≤ length, rows·L + (rows − 1)·gap ≤ depth [m]; 1.05·Σm ≤ rating [kg]",
	Limits:  []LimitOf{{"length", finding.Practice}, {"mass", finding.Maker}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.OurRule},
	Fields: []*Field{&standsOn.Field, &shelfLength.Field, &shelfDepth.Field, &shelfRating.Field, &shelfRow.Field, &blockGap.Field,
		&sheetLength.Field, &sheetWidth.Field, &sheetMass.Field},
	Parts: onBank,
	Eval:  evalShelfFits,
}

var (
	sayShelfFloor = say.Phrase{Key: "shelf-fits.floor", English: "The bank stands on the floor."}
	sayShelfGood  = say.Phrase{Key: "shelf-fits.pass", English: "The blocks need {along} by {deep}; the shelf has {length} by {depth}. They weigh {mass}; it carries {limit}."}
	sayShelfShort = say.Phrase{Key: "shelf-fits.length", English: "A row of {n} with gaps of {gap} needs {along}; the shelf has {length}. Without the gaps the blocks cannot cool."}
	sayShelfDeep  = say.Phrase{Key: "shelf-fits.depth", English: "The rows with gaps of {gap} need {deep}; the shelf has {depth}."}
	sayShelfTight = say.Phrase{Key: "shelf-fits.tight", English: "The blocks need {along} by {deep}; the shelf has {length} by {depth}, too close for a rule."}
	sayShelfWeak  = say.Phrase{Key: "shelf-fits.mass", English: "With cables the blocks weigh {mass}; the shelf carries {limit}."}
	sayShelfUnk   = say.Phrase{Key: "shelf-fits.no-rating", English: "The blocks weigh {mass} with cables, and what the shelf may carry is not known."}
	sayShelfFind  = say.Phrase{Key: "shelf-fits.next", English: "Find the shelf's rating or put the bank on the floor."}
	sayShelfOther = say.Phrase{Key: "shelf-fits.other", English: "Use a larger or stronger shelf, or put the bank on the floor."}
	sayAssumedGap = say.Phrase{Key: "assumed.block-gap", English: "A gap of {gap} between blocks assumed; none entered."}
	sayAssumedRow = say.Phrase{Key: "assumed.shelf-row", English: "All blocks in one row assumed."}
)

const (
	// Between 10 and 20 mm is read in makers' texts.
	usualGap unit.Metre = 0.015
	// What a steel rule or a tape is off by: our choice.
	ruleU unit.Metre = 0.002
	// Cables, links and straps: our choice.
	withCables unit.Ratio = 1.05
)

func evalShelfFits(f *Facts, _ string) []finding.Finding {
	if !f.HasLayout() {
		return one(finding.Undone(sayNoLayout.With()))
	}
	stands, ok := standsOn.Of(f, "bank")
	switch {
	case !ok:
		return one(missing(standsOn.Field, "bank"))
	case stands == "floor":
		return one(finding.Unneeded(sayShelfFloor.With()))
	}
	length, hasLength := shelfLength.Of(f, "bank")
	depth, hasDepth := shelfDepth.Of(f, "bank")
	l, w, m := highest(f, sheetLength, "bank"), highest(f, sheetWidth, "bank"), f.blocksMass()
	for _, s := range []stated[unit.Metre]{l, w} {
		if !s.All() {
			return one(s.Missing())
		}
	}
	if x := firstMissing(need{hasLength, shelfLength.Field, "bank"}, need{hasDepth, shelfDepth.Field, "bank"}); x != nil {
		return one(*x)
	}
	if m.gap != nil {
		return one(*m.gap)
	}
	gap, ok := blockGap.Plain(f, "bank")
	if !ok {
		gap = usualGap
		f.assume(sayAssumedGap.With("gap", exact(gap, "mm")))
	}
	blocks := len(f.Layout().Blocks())
	n, ok := shelfRow.Plain(f, "bank")
	if !ok {
		n = unit.Count(blocks)
		f.assume(sayAssumedRow.With())
	}
	n = max(1, min(n, unit.Count(blocks)))
	rows := unit.Metre(math.Ceil(float64(blocks) / float64(n)))
	along := unit.Metre(n)*w.Value + unit.Metre(n-1)*gap
	deep := rows*l.Value + (rows-1)*gap
	heavy := m.sum * unit.Kilogram(withCables)
	rating, hasRating := shelfRating.Of(f, "bank")
	said := []any{"n", exact(n, "1"), "gap", exact(gap, "mm"), "along", rounded(along, "mm"), "deep", rounded(deep, "mm"),
		"length", typed(length), "depth", typed(depth), "mass", rounded(heavy, "kg")}
	room := finding.AtLeast("length", along, finding.Practice, cite.CommonPractice.Line()).In("mm")
	side := measure.AtLeast(f.byRule(length).Interval(), along)
	sideDeep := measure.AtLeast(f.byRule(depth).Interval(), deep)
	carries := finding.AtMost("mass", rating.Value, finding.Maker, cite.Maker("").Line())
	if hasRating {
		said = append(said, "limit", typed(rating))
	}
	weight := measure.Exact(heavy)
	switch {
	case side == measure.Outside:
		return one(finding.Fails(sayShelfShort.With(said...), sayShelfOther.With()).Value(finding.Measured(f.byRule(length), "mm", room)).Against(room))
	case sideDeep == measure.Outside:
		return one(finding.Fails(sayShelfDeep.With(said...), sayShelfOther.With()).Against(room))
	case hasRating && measure.AtMost(weight.Interval(), rating.Value) != measure.Inside:
		return one(finding.Fails(sayShelfWeak.With(said...), sayShelfOther.With()).Value(finding.Measured(weight, "kg", carries)).Against(carries))
	case side == measure.Across || sideDeep == measure.Across:
		return one(finding.CannotTell(sayShelfTight.With(said...), sayShelfOther.With()).Against(room))
	case !hasRating:
		return one(finding.CannotTell(sayShelfUnk.With(said...), sayShelfFind.With()).Against(room))
	}
	return one(finding.Passes(sayShelfGood.With(said...)).Value(finding.Measured(weight, "kg", carries)).Against(carries))
}

// byRule is a length measured with a rule or tape: by its sheet where one is
// entered, else known to 2 mm.
func (f *Facts) byRule(x measure.Shown[unit.Metre]) measure.Reading[unit.Metre] {
	if m := specOf(f, x); !m.Assumed {
		return measure.Absolute(x, m)
	}
	return measure.Reading[unit.Metre]{Value: x.Value, U: ruleU}
}

// masses is what the blocks weigh: as weighed, else by their sheets.
type masses struct {
	sum     unit.Kilogram
	heavy   measure.Reading[unit.Kilogram] // the heaviest, with its uncertainty
	heavyID string
	gap     *finding.Finding
}

func (f *Facts) blocksMass() (m masses) {
	for _, b := range f.Layout().Blocks() {
		r, ok := blockMass.Read(f, b)
		if !ok {
			s := lowest(f, sheetMass, b)
			if !s.All() {
				x := s.Missing()
				m.gap = &x
				return m
			}
			r = measure.Exact(s.Value)
		}
		m.sum += r.Value + r.U
		if m.heavyID == "" || r.Value+r.U > m.heavy.Value+m.heavy.U {
			m.heavy, m.heavyID = r, b
		}
	}
	return m
}

// blockName names the heaviest block.
func (m masses) blockName() say.Line { return bank.Name(m.heavyID) }
