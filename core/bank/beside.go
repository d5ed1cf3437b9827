package bank

// Beside lists what a parallel link of the drawing puts side by side: two
// strings, or two blocks of a group. For a lead to a bus bar it is the branch
// of that lead and then all other branches of the same bar, joined there or
// not yet. None for a series link and for a link that is not drawn.
func (l Layout) Beside(link string) []string {
	k, ok := l.Link(link)
	if !ok || k.Kind != Parallel {
		return nil
	}
	from, to := splitEnd(k.From), splitEnd(k.To)
	switch {
	case from.kind == KindBar:
		list := []string{to.owner}
		for _, s := range l.Strings() {
			if s.ID != to.owner {
				list = append(list, s.ID)
			}
		}
		return list
	case to.kind == KindGroup:
		list := []string{from.owner}
		for _, block := range l.Groups()[to.number].Blocks {
			if block != from.owner {
				list = append(list, block)
			}
		}
		return list
	}
	return []string{from.owner, to.owner}
}

// Shorts reports whether a conductor on the link other would make a dead short
// of one block or more once the parallel link of the drawing is closed.
//
// In a group that is any link between unlike posts of two of its blocks. Strings
// keep the series links inside each string; between two strings that are put
// side by side it is any cross tie between posts at different levels.
func (l Layout) Shorts(link, other string) bool {
	k, ok := l.Link(link)
	p, parsed := parse(other)
	if !ok || k.Kind != Parallel || !parsed || p.kind != KindLink {
		return false
	}
	a, b := splitEnd(p.from), splitEnd(p.to)
	levelA, unitA, okA := l.standing(a)
	levelB, unitB, okB := l.standing(b)
	if !okA || !okB || unitA == "" || unitB == "" {
		return false
	}
	if l.Join == JoinGroups {
		return unitA == k.Of && unitB == k.Of && a.owner != b.owner && levelA != levelB
	}
	if unitA == unitB || levelA == levelB {
		return false
	}
	beside := l.Beside(link)
	return contains(beside, unitA) && contains(beside, unitB)
}

// SeriesBeside lists the ids of all links for which [Layout.Shorts] holds
// against the given parallel link: what must not be on before it closes. None
// of them is in the drawing; they remain from an earlier layout or a mistake.
func (l Layout) SeriesBeside(link string) []string {
	var ids []string
	beside := l.Beside(link)
	if len(beside) == 0 {
		return nil
	}
	blocks := beside
	if l.Join == JoinStrings {
		blocks = nil
		for _, s := range l.Strings() {
			if contains(beside, s.ID) {
				blocks = append(blocks, s.Blocks...)
			}
		}
	} else {
		k, _ := l.Link(link)
		blocks = l.Groups()[splitEnd(k.Of+".p").number].Blocks
	}
	for i, a := range blocks {
		for _, b := range blocks[i+1:] {
			for _, signs := range [4][2]string{{".p", ".p"}, {".p", ".n"}, {".n", ".p"}, {".n", ".n"}} {
				id := LinkID(a+signs[0], b+signs[1])
				if l.Shorts(link, id) {
					ids = append(ids, id)
				}
			}
		}
	}
	return ids
}

// standing gives the level of a post or string end and the unit it belongs to.
func (l Layout) standing(e end) (level int, unit string, ok bool) {
	switch e.kind {
	case KindBlock:
		row, _, placed := l.Position(e.owner)
		level = l.Series - row
		if e.sign == "n" {
			level--
		}
		return level, l.StringOf(e.owner) + l.GroupOf(e.owner), placed
	case KindString:
		if e.sign == "p" {
			level = l.Series
		}
		return level, e.owner, l.Join == JoinStrings && e.number < l.Parallel
	}
	return 0, "", false
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}
