package draw

import (
	"strconv"

	"lugmark/core/bank"
	"lugmark/core/say"
)

var altPlan = say.Phrase{Key: "draw.alt-plan",
	English: "Plan of the bank, {series} in series, {parallel} in parallel. Plus is up. The two main leads end at the discs."}

// Plan is the drawing of a layout that is still to be chosen: blocks with their
// numbers and where the main leads leave. Nothing is built yet, so it carries
// no bolts, no states and no fuses.
//
// Of a bank with more than four columns or rows it draws the first and last
// ones and a gap between them.
func Plan(l bank.Layout) Picture {
	if l.Validate() != nil {
		return Picture{}
	}
	p := &plan{l: l, rows: ends(l.Series), cols: ends(l.Parallel)}
	p.place()
	p.draw()
	w := p.right + 30
	return Picture{
		SVG: svg("draw", w, p.height, "", p.wires.String()+p.boxes.String()), Width: w, Height: p.height,
		Alt: altPlan.With("series", strconv.Itoa(l.Series), "parallel", strconv.Itoa(l.Parallel)),
	}
}

type plan struct {
	l            bank.Layout
	rows, cols   []int // of the layout; omitted for those left out
	x            []float64
	y            []float64 // upper edge of the blocks
	railP, railN []float64
	right        float64
	height       float64
	wires, boxes pen
}

const (
	planPitch  = 66.0
	planWidth  = 52.0
	planHeight = 44.0
)

// ends lists up to four columns or rows, or the first two and the last.
func ends(n int) []int {
	if n > 4 {
		return []int{0, 1, omitted, n - 1}
	}
	return count(0, n, n)
}

func (p *plan) strings() bool { return p.l.Join == bank.JoinStrings }

func (p *plan) place() {
	left := 44.0
	if !p.strings() && p.l.Parallel > 1 {
		left = 62
	}
	for i := range p.cols {
		p.x = append(p.x, left+planWidth/2+float64(i)*planPitch)
	}
	p.right = p.x[len(p.x)-1] + planWidth/2
	y, near, gap := 37.0, 26.0, 30.0
	if p.l.Parallel == 1 {
		y, near = 14, 22
	}
	if p.strings() || p.l.Parallel == 1 {
		p.railP = []float64{y}
		for range p.rows {
			p.y = append(p.y, y+near)
			y += planHeight + gap
		}
		p.railN = []float64{y - gap + 2*near}
		p.height = p.railN[0] + 14
		return
	}
	y = 14
	for range p.rows {
		p.railP = append(p.railP, y)
		p.y = append(p.y, y+near-4)
		p.railN = append(p.railN, y+2*near-8+planHeight)
		y += 2*near - 8 + planHeight + gap
	}
	p.height = y - gap + 16
}

func (p *plan) draw() {
	for i, c := range p.cols {
		if p.l.Parallel > 1 && p.strings() && c != omitted {
			p.boxes.text("", middle, 22, p.x[i], 18, p.l.Strings()[c].Letter())
		}
		for j, r := range p.rows {
			p.column(i, j, c == omitted || r == omitted)
		}
	}
	for j, r := range p.rows {
		if !p.strings() && p.l.Parallel > 1 && r != omitted {
			p.boxes.text("", middle, 22, 46, p.y[j]+30, p.l.Groups()[r].Letter())
		}
	}
	for j := range p.railP {
		p.rail(p.railP[j])
		p.rail(p.railN[j])
		if j > 0 {
			p.cross(j)
		}
	}
	p.terminals()
}

// column draws what stands in one place: a block with its conductors, or the
// gap that stands for the ones left out.
func (p *plan) column(i, j int, leftOut bool) {
	x, y := p.x[i], p.y[j]
	if p.cols[i] == omitted {
		return
	}
	up, down := y-30.0, y+planHeight+30
	last := len(p.rows) - 1
	if !p.strings() && p.l.Parallel > 1 {
		up, down = p.railP[j], p.railN[j]
	} else {
		if j == 0 {
			up = p.railP[0]
		}
		if j == last {
			down = p.railN[0]
		}
	}
	if leftOut {
		p.wires.path("wire", 0, d("M", x, up, "V", down))
		p.wires.gap(point{x, y + planHeight/2}, true)
		return
	}
	p.wires.path("wire", 0, d("M", x, up, "V", y-postRadius, "M", x, y+planHeight+postRadius, "V", down))
	b := box{x - planWidth/2, y, planWidth, planHeight}
	p.boxes.outline(b, Pass)
	p.boxes.plusPost(b.plus(), postRadius)
	p.boxes.minusPost(b.minus(), postRadius)
	n, _ := bank.BlockNumber(p.l.At(p.rows[j], p.cols[i]))
	p.boxes.text("", middle, 20, x, y+29, strconv.Itoa(n))
}

func (p *plan) rail(y float64) {
	if p.l.Parallel == 1 {
		return
	}
	first, last := p.x[0], p.x[len(p.x)-1]
	if p.l.Bars() {
		p.boxes.rect("bar-b", 3, first-26, y-barHalf, last-first+52, 2*barHalf, 0)
	} else {
		p.wires.path("wire", 0, d("M", first, y, "H", last))
	}
	for i, c := range p.cols {
		switch {
		case c == omitted:
			p.boxes.gap(point{p.x[i], y}, false)
		case p.l.Bars():
			p.boxes.dot(point{p.x[i], y}, 4)
		default:
			p.wires.dot(point{p.x[i], y}, railDot)
		}
	}
}

// cross is the link from the row above down to row j of groups.
func (p *plan) cross(j int) {
	upper := p.rows[j] - 1
	if p.rows[j] == omitted {
		upper = p.rows[j-1]
	}
	x := (p.x[0] + p.x[len(p.x)-1]) / 2
	if c, ok := p.l.GroupLinkColumn(upper); ok {
		x = p.x[p.at(c)]
	}
	half := 0.0
	if p.l.Bars() {
		half = barHalf
	}
	p.wires.path("wire", 0, d("M", x, p.railN[j-1]+half, "V", p.railP[j]-half))
}

// at finds the place of a column of the layout.
func (p *plan) at(c int) int {
	for i, x := range p.cols {
		if x == c {
			return i
		}
	}
	return len(p.cols) - 2 // in the gap
}

// terminals are the discs at which the main leads end.
func (p *plan) terminals() {
	topY, botY := p.railP[0], p.railN[len(p.railN)-1]
	plus, minus, ok := p.l.LeadColumns()
	x, to := p.x[p.at(plus)], p.x[p.at(minus)]
	left, right := 10.0, p.right+20
	if !ok {
		x, to = p.x[0]-26, p.x[len(p.x)-1]+26
	}
	if ok && p.at(plus) > 0 { // over the letters it could not pass; it leaves on the other side
		p.wires.path("wire", 0, d("M", x, topY, "H", right-8))
		p.boxes.plusPost(point{right, topY}, 10)
	} else {
		p.wires.path("wire", 0, d("M", x, topY, "H", left+8))
		p.boxes.plusPost(point{left, topY}, 10)
	}
	if ok && p.at(minus) == 0 {
		p.wires.path("wire", 0, d("M", to, botY, "H", left+8))
		p.boxes.minusPost(point{left, botY}, 10)
		return
	}
	p.wires.path("wire", 0, d("M", to, botY, "H", right-8))
	p.boxes.minusPost(point{right, botY}, 10)
}
