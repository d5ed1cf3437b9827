// Package checks is the rules: what a senior technician asks of a bank, one
// file each, in the order on site.
//
// A [Check] reads typed fields from [Facts], judges by the one decision rule of
// core/measure and answers with findings. [Run] does this for all of them;
// screens, sheets, the command line and the tests call nothing else. Adding a
// check is its file, its test and one line in [All].
//
// The package computes; it has no clock, no storage and no screen. Nothing in
// it says that a bank is safe or conforms to a standard.
package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// Rules is the edition of this set of rules; findings and seals carry it.
const Rules = "2026-11"

// Check is one rule.
type Check struct {
	ID    string     // for ever
	Title say.Phrase // two or three words
	Asks  say.Phrase // the question it answers, one sentence
	Stage Stage

	// Formula is what is computed and what it is held against, in symbols, with
	// the unit in [brackets]. It is not translated. U is a voltage, u the
	// expanded uncertainty of what stands before it.
	Formula string

	// Limits are what its findings are judged against, the strongest kind of
	// each first, for the list of rules. A check that only informs has none.
	// What a firm may tighten is not said here: see [HouseLimits].
	Limits []LimitOf

	// Visits says at which visits of a job it is asked; the zero value is
	// commissioning.
	Visits Visits

	// Sources are the documents behind the defaults, for the list of rules.
	Sources []*cite.Source

	// Fields are the entries it reads, in the order in which a person gives
	// them; forms and rounds are made from them. Where a field stands, and not
	// what it is: a check is then data of the program and no code.
	Fields []*Field

	// After names checks that must have passed before this one is asked at
	// all; until then it is To do.
	After []*Check

	// Needs names preconditions: this check is judged without them, but it
	// cannot pass. They stand earlier in All.
	Needs []*Check

	// Parts gives the parts it judges, one finding or more each; none means
	// that it does not apply, and why.
	Parts func(f *Facts) (parts []string, why say.Line)

	// Spare says why the check need not be done after all, because an earlier
	// one has settled its question another way. It is asked only of a To do;
	// nil never spares.
	Spare func(f *Facts, part string) (why say.Line, spared bool)

	// SettledBy is a later check whose Pass about the same part answers what
	// this one could not tell.
	SettledBy *Check

	// Eval judges one part. It reads only through Facts and never fails.
	Eval func(f *Facts, part string) []finding.Finding
}

// onBank is the Parts of a check about the whole bank.
func onBank(*Facts) ([]string, say.Line) { return []string{"bank"}, say.Line{} }

// onBlocks is the Parts of a check about each block.
func onBlocks(f *Facts) ([]string, say.Line) { return f.Layout().Blocks(), say.Line{} }

// onUnits is the Parts of a check about each string or group.
func onUnits(f *Facts) ([]string, say.Line) {
	var ids []string
	for _, u := range f.Layout().Units() {
		ids = append(ids, u.ID)
	}
	return ids, say.Line{}
}

// one is the usual answer of Eval: a single finding.
func one(x finding.Finding) []finding.Finding { return []finding.Finding{x} }

var (
	sayNeedFirst  = say.Phrase{Key: "check.need-first", English: "{reason} First: {need}."}
	sayAfterFirst = say.Phrase{Key: "check.after-first", English: "First: {need}."}
	saySettledBy  = say.Phrase{Key: "check.settled-by", English: "Answered by “{check}”."}
	sayConflict   = say.Phrase{Key: "check.conflict", English: "Two people entered different values for “{field}” of {part}."}
	sayChoose     = say.Phrase{Key: "check.choose", English: "Choose the value that is right."}
	sayNewer      = say.Phrase{Key: "check.newer", English: "A newer version of the app entered “{field}” of {part}; this version cannot read it."}
	sayUpdate     = say.Phrase{Key: "check.update", English: "Use the newest version of the app on this job."}
	sayNoLayout   = say.Phrase{Key: "check.no-layout", English: "Enter the layout of the bank."}
)

// Run judges every check that this visit asks and returns the findings in the
// order of [All], then part. Later checks may read the findings of earlier ones.
func Run(f *Facts) []finding.Finding {
	f.asked, f.findings, f.byCheck, f.troubled, f.memo = All, nil, map[string][]finding.Finding{}, map[string]bool{}, nil
	for _, c := range All {
		if !c.asked(f) {
			continue
		}
		for _, x := range c.run(f) {
			f.findings = append(f.findings, x)
			f.byCheck[c.ID] = append(f.byCheck[c.ID], x)
		}
	}
	f.settleLate()
	return f.findings
}

// settleLate turns a Can't tell into Not needed where a later check answered it.
func (f *Facts) settleLate() {
	for i, x := range f.findings {
		if x.Verdict() != finding.CantTell {
			continue
		}
		c := known(x.Check())
		if c.SettledBy == nil || !f.allPass(c.SettledBy.ID, x.Part()) {
			continue
		}
		y := finding.Unneeded(saySettledBy.With("check", c.SettledBy.Title)).Of(x.Check(), x.Part()).Reading(x.Reads())
		f.findings[i] = y
		for k, same := range f.byCheck[c.ID] {
			if same.Part() == x.Part() && same.Verdict() == finding.CantTell {
				f.byCheck[c.ID][k] = y
			}
		}
	}
}

// run judges one check on all its parts.
func (c *Check) run(f *Facts) []finding.Finding {
	if f.layout == nil && c.Stage != Before {
		return one(finding.Undone(sayNoLayout.With()).Of(c.ID, "bank").Reading([]finding.Key{{Part: "bank", Field: "layout"}}))
	}
	parts, why := c.Parts(f)
	if len(parts) == 0 {
		return one(finding.Unneeded(why).Of(c.ID, "bank"))
	}
	var out []finding.Finding
	for _, part := range parts {
		if first, ok := c.blocked(f, part); ok {
			out = append(out, finding.Undone(sayAfterFirst.With("need", first.Title)).Of(c.ID, part))
			continue
		}
		f.begin()
		f.eval++
		found := c.Eval(f, part)
		if f.trouble != nil {
			f.troubled[c.ID+"@"+part] = true
		}
		for _, x := range found {
			x = f.settle(x)
			x = c.sparing(f, part, x)
			x = c.needing(f, part, x)
			if len(x.Reads()) == 0 { // one of several findings may have kept its own
				x = x.Reading(f.reads)
			}
			x = x.Of(c.ID, part).Assuming(f.assumed...)
			out = append(out, x)
		}
	}
	return out
}

// sparing turns a To do into Not needed where the question is settled another
// way.
func (c *Check) sparing(f *Facts, part string, x finding.Finding) finding.Finding {
	if c.Spare == nil || x.Verdict() != finding.ToDo {
		return x
	}
	why, spared := say.Line{}, false
	f.quietly(func() {
		why, spared = c.Spare(f, part)
	})
	if !spared {
		return x
	}
	return finding.Unneeded(why)
}

// blocked gives the first check of After that has not passed for this part.
func (c *Check) blocked(f *Facts, part string) (*Check, bool) {
	for _, a := range c.After {
		if !f.passed(a, part) {
			return a, true
		}
	}
	return nil, false
}

// needing turns a Pass whose precondition has not passed into Can't tell.
func (c *Check) needing(f *Facts, part string, x finding.Finding) finding.Finding {
	if x.Verdict() != finding.Pass {
		return x
	}
	for _, n := range c.Needs {
		if f.passed(n, part) {
			continue
		}
		first := f.worst(n, part)
		next := first.Next()
		if next.Empty() {
			next = sayAfterFirst.With("need", n.Title)
		}
		y := finding.CannotTell(sayNeedFirst.With("reason", x.Reason(), "need", n.Title), next).About(x.Parts()...).Noting(x.Notes()...)
		if v, ok := x.Found(); ok {
			y = y.Value(v)
		}
		if l, ok := x.Limit(); ok {
			y = y.Against(l)
		}
		return y
	}
	return x
}

// passed reports whether every finding of c that touches part lets work go on.
func (f *Facts) passed(c *Check, part string) bool {
	any := false
	for _, x := range f.touching(c.ID, part) {
		any = true
		if !x.Settled() {
			return false
		}
	}
	return any
}

// worst gives the worst finding of c that touches part; the zero Finding when
// there is none.
func (f *Facts) worst(c *Check, part string) finding.Finding {
	var out finding.Finding
	for i, x := range f.touching(c.ID, part) {
		if i == 0 || x.Verdict().Worse(out.Verdict()) {
			out = x
		}
	}
	return out
}

// touching gives the findings of a check that concern part: the same part, the
// whole bank, or a part that shares a block with it.
func (f *Facts) touching(check, part string) []finding.Finding {
	var out []finding.Finding
	for _, x := range f.byCheck[check] {
		if x.Part() == part || x.Part() == "bank" || part == "bank" || f.overlap(x.Part(), part) {
			out = append(out, x)
		}
	}
	return out
}

// overlap reports whether two parts share a block.
func (f *Facts) overlap(a, b string) bool {
	for _, x := range f.BlocksOf(a) {
		for _, y := range f.BlocksOf(b) {
			if x == y {
				return true
			}
		}
	}
	return false
}

// BlocksOf lists the blocks that a part consists of or touches, in place order.
func (f *Facts) BlocksOf(part string) []string {
	blocks, known := f.blocks[part]
	if !known {
		blocks = f.blocksOf(part)
		f.blocks[part] = blocks
	}
	return blocks
}

func (f *Facts) blocksOf(part string) []string {
	kind, ok := bank.PartKind(part)
	if !ok || f.layout == nil {
		return nil
	}
	switch kind {
	case bank.KindBlock:
		return []string{part}
	case bank.KindPost, bank.KindEnd:
		return f.BlocksOf(bank.OwnerOf(part))
	case bank.KindString, bank.KindGroup:
		for _, u := range f.layout.Units() {
			if u.ID == part {
				return u.Blocks
			}
		}
	case bank.KindLink:
		from, to, _ := bank.EndsOf(part)
		return append(append([]string(nil), f.BlocksOf(from)...), f.BlocksOf(to)...)
	case bank.KindJoint:
		_, at, _ := bank.LinkOf(part)
		return f.BlocksOf(at)
	case bank.KindBank:
		return f.layout.Blocks()
	}
	return nil
}
