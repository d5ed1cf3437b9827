package draw

import (
	"math"
	"strconv"

	"lugmark/core/bank"
	"lugmark/core/say"
)

var (
	altInString = say.Phrase{Key: "draw.alt-in-string", English: "Block {block}: place {place} of {size} in string {letter}, from the plus side"}
	altInGroup  = say.Phrase{Key: "draw.alt-in-group", English: "Block {block}: place {place} of {size} in group {letter}"}
)

// Locator is the 76 × 76 picture beside a figure that says which block is
// meant: outlines only, the current block boxed. It shows no verdict.
func Locator(l bank.Layout, block string) Picture {
	row, col, ok := l.Position(block)
	if !ok {
		return Picture{}
	}
	const side = 76.0
	rows, cols := float64(l.Series), float64(l.Parallel)
	pitchX, pitchY := math.Min(36, 70/cols), math.Min(32, 64/rows)
	w, h := math.Min(26, pitchX*0.66), math.Min(24, pitchY*0.75)
	if cols == 1 {
		w = math.Min(40, h*1.6)
	}
	numbers := h >= 20 && w >= 20
	x0, y0 := side/2-pitchX*(cols-1)/2, side/2-pitchY*(rows-1)/2
	x := func(c int) float64 { return x0 + pitchX*float64(c) }
	y := func(r int) float64 { return y0 + pitchY*float64(r) }
	top, bottom := y(0)-h/2-8, y(l.Series-1)+h/2+8
	line := math.Max(1, math.Min(2, w/6))

	var p pen
	if l.Parallel > 1 {
		p.path("str", line, d("M", x(0), top, "H", x(l.Parallel-1), "M", x(0), bottom, "H", x(l.Parallel-1)))
	}
	for c := 0; c < l.Parallel; c++ {
		p.path("str", line, d("M", x(c), top, "V", bottom))
	}
	if l.Join == bank.JoinGroups && l.Parallel > 1 {
		for r := 1; r < l.Series; r++ {
			p.path("str", line, d("M", x(0), (y(r-1)+y(r))/2, "H", x(l.Parallel-1)))
		}
	}
	for r := 0; r < l.Series; r++ {
		for c := 0; c < l.Parallel; c++ {
			if r == row && c == col {
				continue
			}
			p.rect("surf edge", math.Min(1.5, w/5), x(c)-w/2, y(r)-h/2, w, h, 0)
			if n, _ := bank.BlockNumber(l.At(r, c)); numbers {
				p.text("lt", middle, 16, x(c), y(r)+6, strconv.Itoa(n))
			}
		}
	}
	n, _ := bank.BlockNumber(block)
	if grow := 6.0; numbers {
		p.rect("surf edge", 3, x(col)-w/2-grow/2, y(row)-h/2-grow/3, w+grow, h+grow*2/3, 0)
		p.text("", middle, 18, x(col), y(row)+6, strconv.Itoa(n))
	} else { // boxed: a gap between its outline and the box keeps it apart
		p.rect("surf edge", 2.5, x(col)-w/2-4, y(row)-h/2-4, w+8, h+8, 0)
		p.rect("ink", 0, x(col)-w/2, y(row)-h/2, w, h, 0)
	}
	place, size, phrase, unit := row+1, l.Series, altInString, l.StringOf(block)
	if l.Join == bank.JoinGroups {
		place, size, phrase, unit = col+1, l.Parallel, altInGroup, l.GroupOf(block)
	}
	return Picture{
		SVG: svg("draw", side, side, "", p.String()), Width: side, Height: side,
		Alt: phrase.With("block", strconv.Itoa(n), "place", strconv.Itoa(place), "size", strconv.Itoa(size), "letter", unit[1:]),
	}
}
