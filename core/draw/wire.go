package draw

import (
	"math"
	"strconv"
)

type point struct{ x, y float64 }

// trim writes a factor with three decimals.
func trim(x float64) string {
	return strconv.FormatFloat(math.Round(x*1000)/1000, 'f', -1, 64)
}

// Distances along a failed conductor: one cross every crossStep; the first
// beside a bolt head sits a little closer, or a short link would have none.
const (
	crossStep  = 14.0
	crossFirst = 12.6
	boltHead   = 7.5 // radius of the hexagon over its corners
)

// run is a straight conductor between two points, already shortened by what
// stands at its ends.
type run struct{ from, to point }

func (r run) length() float64 { return math.Hypot(r.to.x-r.from.x, r.to.y-r.from.y) }

// along gives the point at a distance from the start.
func (r run) along(s float64) point {
	f := s / r.length()
	return point{r.from.x + f*(r.to.x-r.from.x), r.from.y + f*(r.to.y-r.from.y)}
}

// wire draws a conductor without a bolt, in the style of its state. An empty
// state is a plain conductor.
func (p *pen) wire(r run, s State) {
	p.path(wireClass(s), 0, d("M", r.from.x, r.from.y, "L", r.to.x, r.to.y))
	switch s {
	case Fail:
		n := math.Floor((r.length() - 8) / crossStep)
		first := (r.length() - n*crossStep) / 2
		for i := 0.0; i <= n; i++ {
			p.cross(r.along(first+i*crossStep), 4)
		}
	case NotNeeded:
		p.strike(r.along(r.length() / 2))
	}
}

func wireClass(s State) string {
	if s == "" {
		return "wire"
	}
	return "wire " + string(s)
}

// link draws a conductor with its bolt head: filled when the link is closed,
// hollow while it is open. The line runs from each end to the bolt, so that its
// style reads on both sides.
func (p *pen) link(r run, s State, closed bool) point {
	at := r.along(r.length() / 2)
	if s == NotNeeded { // clear of the strike at mid-length
		p.wire(r, s)
		at = r.along(r.length() / 4)
		p.bolt(at, closed)
		return at
	}
	half := r.length()/2 - boltHead + 0.5
	p.path(wireClass(s), 0, d("M", r.from.x, r.from.y, "L", r.along(half).x, r.along(half).y))
	p.path(wireClass(s), 0, d("M", r.to.x, r.to.y, "L", r.along(r.length()-half).x, r.along(r.length()-half).y))
	if s == Fail {
		for off := crossFirst; off <= r.length()/2-2; off += crossStep {
			p.cross(r.along(r.length()/2-off), 4)
			p.cross(r.along(r.length()/2+off), 4)
		}
	}
	p.bolt(at, closed)
	return at
}

// bolt is a hexagon, always ink: it says closed or open, never a verdict.
func (p *pen) bolt(at point, closed bool) {
	class, r := "bolt on", boltHead
	if !closed {
		class, r = "bolt", 6.5 // its outline adds the rest
	}
	x, h := r/2, r*math.Sqrt(3)/2
	p.path(class, 2.5, d("M", at.x-r, at.y, "L", at.x-x, at.y-h, "H", at.x+x, "L", at.x+r, at.y,
		"L", at.x+x, at.y+h, "H", at.x-x, "z"))
}

func (p *pen) cross(at point, arm float64) {
	p.path("xx", 2.6, d("M", at.x-arm, at.y-arm, "L", at.x+arm, at.y+arm,
		"M", at.x-arm, at.y+arm, "L", at.x+arm, at.y-arm))
}

// strike rules a thing out, once.
func (p *pen) strike(at point) {
	p.path("strike", 2.5, d("M", at.x-4, at.y+7, "L", at.x+4, at.y-7))
}

func (p *pen) dot(at point, r float64) { p.circle("ink", 0, at.x, at.y, r) }

// gap is the mark of what is left out of a drawing: two strokes across the line.
func (p *pen) gap(at point, upright bool) {
	dx, dy := 3.0, 8.0
	if upright {
		dx, dy = 8, 3
	}
	for _, off := range []float64{-3.5, 3.5} {
		x, y := at.x+off, at.y
		if upright {
			x, y = at.x, at.y+off
		}
		p.path("halo-s", 6, d("M", x-dx, y+dy, "L", x+dx, y-dy))
	}
	for _, off := range []float64{-3.5, 3.5} {
		x, y := at.x+off, at.y
		if upright {
			x, y = at.x, at.y+off
		}
		p.path("str", 2.5, d("M", x-dx, y+dy, "L", x+dx, y-dy))
	}
}

// plusPost is a solid disc with the plus cut out, minusPost a hollow disc with
// a bar; r is their radius.
func (p *pen) plusPost(at point, r float64) {
	arm := r * 0.55
	p.circle("ink", 0, at.x, at.y, r)
	p.path("cut", math.Max(3, r/5), d("M", at.x-arm, at.y, "h", 2*arm, "M", at.x, at.y-arm, "v", 2*arm))
}

func (p *pen) minusPost(at point, r float64) {
	w := math.Max(3, r/5)
	p.circle("surf", 0, at.x, at.y, r)
	p.circle("str", w, at.x, at.y, r-w/2)
	p.path("str", w, d("M", at.x-r/2, at.y, "h", r))
}
