package checks

import (
	"slices"

	"lugmark/core/bank"
)

// RoundParts lists the parts of a round in the order in which a person walks
// along the bank; none when this bank has nothing of the kind.
func RoundParts(l bank.Layout, field Field) []string {
	switch {
	case field.ID == stepVoltage.ID:
		return climb(l)
	case field.ID == totalVoltage.ID:
		return append(unitsInParallel(l), "bank")
	case field.ID == shareAmps.ID:
		return branches(l)
	case field.ID == gapVoltage.ID:
		return slices.DeleteFunc(l.Blocks(), func(b string) bool { return GapReference(l, b) == b })
	case field.ID == stringGap.ID && l.Parallel > 1 && l.Join == bank.JoinStrings:
		var out []string
		for _, s := range l.Strings()[1:] {
			out = append(out, s.ID)
		}
		return out
	case field.Has(bank.KindBlock):
		return l.Blocks()
	case field.Has(bank.KindPost):
		return l.Posts()
	case field.Has(bank.KindJoint):
		return l.Joints()
	case field.Has(bank.KindString), field.Has(bank.KindGroup):
		var ids []string
		for _, u := range l.Units() {
			ids = append(ids, u.ID)
		}
		return ids
	case field.Has(bank.KindSwitch):
		return []string{"switch"}
	}
	return nil
}

// climb lists the plus posts of each string from its minus up, or the plus ends
// of the groups: where the red probe stands while the black one stays.
func climb(l bank.Layout) []string {
	var out []string
	if l.Join == bank.JoinGroups {
		for _, g := range l.Groups() {
			out = append(out, g.ID+".p")
		}
		slices.Reverse(out)
		return out
	}
	for _, s := range l.Strings() {
		for i := len(s.Blocks) - 1; i >= 0; i-- {
			out = append(out, s.Blocks[i]+".p")
		}
	}
	return out
}

// GapReference is the block against which the gap of a block is read; the block
// itself for one that is the reference, and has no gap.
func GapReference(l bank.Layout, block string) string {
	units := l.Strings()
	if l.Join == bank.JoinGroups {
		units = l.Groups()
	}
	first := l.Blocks()[0]
	for _, u := range units {
		switch {
		case !slices.Contains(u.Blocks, block):
		case l.Join != bank.JoinGroups && l.Series == 1, l.Join == bank.JoinGroups && u.Blocks[0] == block:
			return first // side by side, or the first of its group: against the first of all
		default:
			return u.Blocks[0]
		}
	}
	return first
}

// branches lists what stands side by side, each with a current of its own:
// strings, or blocks.
func branches(l bank.Layout) (out []string) {
	if l.Parallel < 2 {
		return nil
	}
	if l.Join == bank.JoinGroups {
		return l.Blocks()
	}
	for _, s := range l.Strings() {
		if len(s.Blocks) == 1 {
			out = append(out, s.Blocks[0])
			continue
		}
		out = append(out, s.ID)
	}
	return out
}

// Fuses lists the fuses of a layout: the main one, and one in every string
// where strings stand in parallel.
func Fuses(l bank.Layout) []string {
	out := []string{"fuse.main"}
	if l.Parallel > 1 && l.Join == bank.JoinStrings {
		for _, s := range l.Strings() {
			out = append(out, "fuse."+s.ID[1:])
		}
	}
	return out
}

// unitsInParallel lists the strings that stand in parallel and have more than
// one block: each has a total of its own.
func unitsInParallel(l bank.Layout) []string {
	var out []string
	if l.Join == bank.JoinStrings && l.Parallel > 1 && l.Series > 1 {
		for _, s := range l.Strings() {
			out = append(out, s.ID)
		}
	}
	return out
}

// SetupParts lists the parts whose sheets are entered before work begins.
func SetupParts(l bank.Layout) []string {
	parts := []string{"sheet1", "bank", "m1", "m2", "m3", "m4", "w1", "charger1", "inverter1", "cable1", "lead.p", "lead.n"}
	return append(append(parts, Fuses(l)...), "site", "p1", "p2")
}
