package draw

import "math"

// box is the outline of a block.
type box struct{ x, y, w, h float64 }

func (b box) centre() float64 { return b.x + b.w/2 }
func (b box) bottom() float64 { return b.y + b.h }
func (b box) plus() point     { return point{b.centre(), b.y} }
func (b box) minus() point    { return point{b.centre(), b.bottom()} }

const postRadius = 9.0

// outline draws a block in the style of its state. Not by colour alone: a
// failed one is crossed all round, one that is not needed is struck once.
func (p *pen) outline(b box, s State) {
	if s == Fail { // the crosses stand out beyond the line
		b.x, b.w = b.x+1, b.w-2
	}
	p.rect("blk "+string(s), 0, b.x, b.y, b.w, b.h, 3)
	switch s {
	case Fail:
		for _, at := range roundTheEdge(b) {
			if math.Abs(at.x-b.centre()) > postRadius+2 {
				p.cross(at, 3.4)
			}
		}
	case NotNeeded:
		p.strike(point{b.x, b.y + b.h/2})
	}
}

// roundTheEdge spreads points about crossStep apart along an outline, one in
// each corner.
func roundTheEdge(b box) []point {
	var list []point
	across := math.Round(b.w / crossStep)
	down := math.Round(b.h / crossStep)
	for i := 0.0; i <= across; i++ {
		x := b.x + b.w*i/across
		list = append(list, point{x, b.y}, point{x, b.bottom()})
	}
	for i := 1.0; i < down; i++ {
		y := b.y + b.h*i/down
		list = append(list, point{b.x, y}, point{b.x + b.w, y})
	}
	return list
}

// face is how the number, silhouette and reading stand in a block.
type face struct {
	number, numberX, numberY float64 // size, offsets from the upper left corner
	mark, markX, markY       float64 // size, offset from the right edge, from the top
	reading, readingY        float64 // size of a whole reading, offset from the top
	decimals                 float64 // size of a reading printed without its whole volts
}

// faceFor chooses by the width of the block. Text is never under 16 units.
func faceFor(width float64) face {
	switch {
	case width >= 80:
		return face{22, 11, 31, 24, 33, 10, 17, 50, 20}
	case width >= 54:
		return face{20, 7, 28, 18, 23, 12, 16, 48, 20}
	default:
		return face{18, 6, 26, 16, 20, 12, 16, 47, 18}
	}
}
