package draw

// silhouettes on a 24 unit grid, drawn to be told apart at 16 px in pure black.
// Solid ones fill with the current colour; open ones are stroked with it.
var silhouettes = map[State]string{
	ToDo:      `<path d="M9 4.5H4.5v15h15v-15H15" fill="none" stroke="currentColor" stroke-width="3"/>`,
	Pass:      `<path fill-rule="evenodd" d="M2 2h20v20H2zM5 12.6l5.2 5.4 9-10.4-2.5-2.1-6.6 7.7-2.8-2.9z"/>`,
	Fail:      `<path d="M3 6.2 6.2 3 12 8.8 17.8 3 21 6.2 15.2 12l5.8 5.8-3.2 3.2L12 15.2 6.2 21 3 17.8 8.8 12z"/>`,
	CantTell:  `<path d="M7.5 6H3v12h4.5M16.5 6H21v12h-4.5M12 0v24" fill="none" stroke="currentColor" stroke-width="3"/>`,
	NotNeeded: `<path d="M2 9h20v6H2z"/>`,
	Later:     `<circle cx="12" cy="12" r="9" fill="none" stroke="currentColor" stroke-width="3"/><path d="m12 12 5-5" fill="none" stroke="currentColor" stroke-width="3.4"/>`,
}

// plainBlock is Pass where it is small and many: a block without its tick.
const plainBlock = `<path d="M2 2h20v20H2z"/>`

// Mark is the silhouette of a state by itself, to stand beside its word. Its
// size is set by the style sheet.
func Mark(s State) string {
	if silhouettes[s] == "" {
		s = ToDo
	}
	return svg("mark "+string(s), 24, 24, "", silhouettes[s])
}

// SmallMark is the silhouette for overviews, where Pass is a plain block.
func SmallMark(s State) string {
	if s == Pass {
		return svg("mark pass", 24, 24, "", plainBlock)
	}
	return Mark(s)
}

// mark draws a silhouette into a drawing, size units wide, with its upper left
// corner at x, y.
func (p *pen) mark(s State, x, y, size float64) {
	p.silhouette("mk "+string(s), silhouettes[s], x, y, size)
}

// smallMark is mark for overviews.
func (p *pen) smallMark(s State, x, y, size float64) {
	if s == Pass {
		p.silhouette("ink", plainBlock, x, y, size)
		return
	}
	p.mark(s, x, y, size)
}

func (p *pen) silhouette(class, shape string, x, y, size float64) {
	p.WriteString("<g")
	p.attr("class", class)
	t := "translate(" + num(x) + " " + num(y) + ")"
	if size != 24 {
		t += " scale(" + trim(size/24) + ")"
	}
	p.attr("transform", t)
	p.WriteString(">" + shape + "</g>")
}
