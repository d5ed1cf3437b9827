package bank

// LinkKind says whether a link carries the sum of voltages on or puts things
// side by side.
type LinkKind string

const (
	Series   LinkKind = "series"
	Parallel LinkKind = "parallel"
)

// Link is one conductor with its two lugs between two ends.
type Link struct {
	ID       string // From + "~" + To
	From, To string // posts ("b1.n"), ends of strings or groups ("sA.p", "gA.n"), bus bars ("bar.p")
	Kind     LinkKind
	Of       string // the string or group it lies in, else "bank"
}

// Ends gives both ends.
func (k Link) Ends() [2]string { return [2]string{k.From, k.To} }

// Joints gives the ids of its two joints.
func (k Link) Joints() [2]string { return [2]string{k.ID + "@" + k.From, k.ID + "@" + k.To} }

// Posts lists all posts in place order, plus before minus.
func (l Layout) Posts() []string {
	posts := make([]string, 0, 2*len(l.Place))
	for _, block := range l.Place {
		posts = append(posts, block+".p", block+".n")
	}
	return posts
}

// Links lists every link of the drawing: first what makes the strings or
// groups, then what joins them, plus side before minus side.
//
// With bus bars each branch has its own two leads, and these leads are the
// links: "bar.p~sA.p", or in a group "b1.p~gA.p", the group's end being its bar.
func (l Layout) Links() []Link {
	var links []Link
	if l.Join == JoinGroups {
		return l.groupLinks()
	}
	strs := l.Strings()
	for _, s := range strs {
		for i := 0; i+1 < len(s.Blocks); i++ {
			links = append(links, newLink(s.Blocks[i]+".n", s.Blocks[i+1]+".p", Series, s.ID))
		}
	}
	for _, sign := range []string{".p", ".n"} {
		for i, s := range strs {
			if l.Bars() {
				links = append(links, newLink("bar"+sign, s.ID+sign, Parallel, "bank"))
			} else if i > 0 {
				links = append(links, newLink(strs[i-1].ID+sign, s.ID+sign, Parallel, "bank"))
			}
		}
	}
	return links
}

func (l Layout) groupLinks() []Link {
	var links []Link
	groups := l.Groups()
	for _, g := range groups {
		for _, sign := range []string{".p", ".n"} {
			for i, block := range g.Blocks {
				if l.Bars() {
					links = append(links, newLink(block+sign, g.ID+sign, Parallel, g.ID))
				} else if i > 0 {
					links = append(links, newLink(g.Blocks[i-1]+sign, block+sign, Parallel, g.ID))
				}
			}
		}
	}
	for i := 1; i < len(groups); i++ {
		links = append(links, newLink(groups[i-1].ID+".n", groups[i].ID+".p", Series, "bank"))
	}
	return links
}

// Joints lists the joints of all links, in the order of [Layout.Links].
func (l Layout) Joints() []string {
	var joints []string
	for _, k := range l.Links() {
		pair := k.Joints()
		joints = append(joints, pair[0], pair[1])
	}
	return joints
}

// Link finds a link of the drawing by its id. A second conductor of a drawn
// link ("b1.n~b2.p~2") is found too.
func (l Layout) Link(id string) (Link, bool) {
	p, ok := parse(id)
	if !ok || p.kind != KindLink {
		return Link{}, false
	}
	kind, of, ok := l.drawn(p.from, p.to)
	return Link{ID: id, From: p.from, To: p.to, Kind: kind, Of: of}, ok
}

// LinkID is the id of a link between two ends: lower number or letter first,
// then plus before minus; bus bars before strings, posts before groups.
func LinkID(a, b string) string {
	if endBefore(b, a) {
		a, b = b, a
	}
	return a + "~" + b
}

func newLink(a, b string, kind LinkKind, of string) Link {
	if endBefore(b, a) {
		a, b = b, a
	}
	return Link{ID: a + "~" + b, From: a, To: b, Kind: kind, Of: of}
}

// drawn tells what a link between two ends, in id order, is in this layout.
// It works from places, because checks ask it for every part of every event.
func (l Layout) drawn(from, to string) (kind LinkKind, of string, ok bool) {
	a, b := splitEnd(from), splitEnd(to)
	switch {
	case a.kind == KindBlock && b.kind == KindBlock:
		return l.drawnPosts(a, b)
	case a.kind == KindString && b.kind == KindString:
		ok = l.Join == JoinStrings && !l.Bars() && a.sign == b.sign &&
			b.number == a.number+1 && b.number < l.Parallel
		return Parallel, "bank", ok
	case a.kind == KindBar && b.kind == KindString:
		ok = l.Join == JoinStrings && l.Bars() && a.sign == b.sign && b.number < l.Parallel
		return Parallel, "bank", ok
	case a.kind == KindGroup && b.kind == KindGroup:
		ok = l.Join == JoinGroups && a.sign == "n" && b.sign == "p" &&
			b.number == a.number+1 && b.number < l.Series
		return Series, "bank", ok
	case a.kind == KindBlock && b.kind == KindGroup:
		row, _, placed := l.Position(a.owner)
		ok = placed && l.Join == JoinGroups && l.Bars() && a.sign == b.sign && row == b.number
		return Parallel, b.owner, ok
	}
	return "", "", false
}

func (l Layout) drawnPosts(a, b end) (kind LinkKind, of string, ok bool) {
	rowA, colA, okA := l.Position(a.owner)
	rowB, colB, okB := l.Position(b.owner)
	if !okA || !okB {
		return "", "", false
	}
	if l.Join == JoinGroups {
		beside := rowA == rowB && (colA-colB == 1 || colB-colA == 1)
		return Parallel, "g" + letter(rowA), beside && a.sign == b.sign && !l.Bars()
	}
	if rowB < rowA {
		rowA, rowB, a, b = rowB, rowA, b, a
	}
	under := colA == colB && rowB == rowA+1
	return Series, "s" + letter(colA), under && a.sign == "n" && b.sign == "p"
}
