package bank

// Unit is a string or a group: its id ("sA", "gB") and its blocks, from the
// plus side for a string, from the first column for a group.
type Unit struct {
	ID     string
	Blocks []string
}

// Letter is the letter of the unit: "A".
func (u Unit) Letter() string { return u.ID[1:] }

// Blocks lists the block ids in place order, the order of every round.
func (l Layout) Blocks() []string { return append([]string(nil), l.Place...) }

// Strings lists the strings in order; none when blocks are joined in groups.
func (l Layout) Strings() []Unit {
	if l.Join != JoinStrings {
		return nil
	}
	return l.cut("s", l.Parallel, l.Series)
}

// Groups lists the groups from the plus side down; none when blocks are joined
// in strings.
func (l Layout) Groups() []Unit {
	if l.Join != JoinGroups {
		return nil
	}
	return l.cut("g", l.Series, l.Parallel)
}

// Units lists the strings or the groups, whichever this bank has.
func (l Layout) Units() []Unit {
	if l.Join == JoinGroups {
		return l.Groups()
	}
	return l.Strings()
}

func (l Layout) cut(prefix string, count, size int) []Unit {
	units := make([]Unit, count)
	for i := range units {
		units[i] = Unit{ID: prefix + letter(i), Blocks: l.Place[i*size : (i+1)*size : (i+1)*size]}
	}
	return units
}

// StringOf gives the id of the string a block stands in, or "".
func (l Layout) StringOf(block string) string {
	if _, column, ok := l.Position(block); ok && l.Join == JoinStrings {
		return "s" + letter(column)
	}
	return ""
}

// GroupOf gives the id of the group a block stands in, or "".
func (l Layout) GroupOf(block string) string {
	if row, _, ok := l.Position(block); ok && l.Join == JoinGroups {
		return "g" + letter(row)
	}
	return ""
}

// Position gives the row (0 is the plus side) and the column (0 is A, or the
// first of a group) of a block in the drawing.
func (l Layout) Position(block string) (row, column int, ok bool) {
	for i, id := range l.Place {
		if id != block {
			continue
		}
		if l.Join == JoinGroups {
			return i / l.Parallel, i % l.Parallel, true
		}
		return i % l.Series, i / l.Series, true
	}
	return 0, 0, false
}

// At gives the block at a row and column of the drawing, or "".
func (l Layout) At(row, column int) string {
	if row < 0 || row >= l.Series || column < 0 || column >= l.Parallel {
		return ""
	}
	if l.Join == JoinGroups {
		return l.Place[row*l.Parallel+column]
	}
	return l.Place[column*l.Series+row]
}

// Levels gives, for every post, string end, group end, bus bar and main lead,
// how many blocks stand between it and bank minus when all is wired as drawn.
func (l Layout) Levels() map[string]int {
	levels := map[string]int{"lead.p": l.Series, "lead.n": 0}
	for _, block := range l.Place {
		row, _, _ := l.Position(block)
		levels[block+".p"] = l.Series - row
		levels[block+".n"] = l.Series - row - 1
	}
	for _, s := range l.Strings() {
		levels[s.ID+".p"] = l.Series
		levels[s.ID+".n"] = 0
	}
	for i, g := range l.Groups() {
		levels[g.ID+".p"] = l.Series - i
		levels[g.ID+".n"] = l.Series - i - 1
	}
	if l.Bars() && l.Join == JoinStrings {
		levels["bar.p"] = l.Series
		levels["bar.n"] = 0
	}
	return levels
}

// letter is the letter of index i: 0 is A.
func letter(i int) string { return string(rune('A' + i)) }

// letterIndex reads a letter among the first n.
func letterIndex(s string, n int) (int, bool) {
	if len(s) != 1 || s[0] < 'A' || int(s[0]-'A') >= n {
		return 0, false
	}
	return int(s[0] - 'A'), true
}
