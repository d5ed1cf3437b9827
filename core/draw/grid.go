package draw

import "lugmark/core/bank"

// omitted stands in a list of columns or rows for those a window leaves out.
const omitted = -1

// grid is where everything of a bank stands on the sheet.
type grid struct {
	b      Bank
	cols   []int     // columns of the layout, omitted at either end of a window
	rows   []int     // rows of the layout, likewise
	x      []float64 // centre of each column
	top    []float64 // upper edge of the blocks of each row
	width  float64   // of a block
	height float64   // of a block
	railP  []float64 // strings: one plus rail; groups: one in each row
	railN  []float64
	lift   float64 // room above for a plus lead that leaves from a middle column
}

// Measures of the sheet, in units: 336 of them are 336 px on a phone.
const (
	sheetWidth  = 336.0
	marginScale = 50.0 // right, for the volt scale
	marginLead  = 28.0 // left, for the plus lead and the main fuse
	marginBars  = 44.0 // the same with bus bars
	marginName  = 22.0 // more on the left for the letters of groups
	firstRail   = 37.0
	seriesGap   = 56.0 // between blocks of a string, and between groups
	barHalf     = 6.0
)

func newGrid(b Bank) *grid {
	g := &grid{b: b}
	g.cols, g.rows = window(b.Layout, b.Open)
	g.columns()
	if g.strings() {
		g.stringRows()
	} else {
		g.groupRows()
	}
	return g
}

func (g *grid) strings() bool { return g.b.Layout.Join == bank.JoinStrings }
func (g *grid) bars() bool    { return g.b.Layout.Bars() }

// single reports a bank of one column: no rails, no letter.
func (g *grid) single() bool { return g.b.Layout.Parallel == 1 }

// few reports whether there is room for a silhouette at every link.
func (g *grid) few() bool { return g.shown(g.cols) <= 2 }

func (g *grid) shown(list []int) int {
	n := 0
	for _, c := range list {
		if c != omitted {
			n++
		}
	}
	return n
}

// columns sets the pitch: the width left over, divided by the columns.
func (g *grid) columns() {
	left := marginLead
	if g.bars() {
		left = marginBars
	}
	if !g.strings() && !g.single() {
		left += marginName
	}
	right := g.scaleX() - 6
	for i, c := range g.cols {
		if c == omitted && i == 0 {
			left += g.gapRoom()
		} else if c == omitted {
			right -= g.gapRoom()
		}
	}
	n := float64(g.shown(g.cols))
	pitch := (right - left) / n
	g.width = min(pitch-18, 112)
	g.height = 64
	if n > 2 {
		g.width, g.height = pitch-8, 62
	}
	at := left + pitch/2
	for i, c := range g.cols {
		switch {
		case c == omitted && i == 0:
			g.x = append(g.x, left-g.gapRoom()/2+2)
		case c == omitted:
			g.x = append(g.x, right+g.gapRoom()/2-2)
		default:
			g.x = append(g.x, at)
			at += pitch
		}
	}
	if plus, _, ok := g.b.Layout.LeadColumns(); ok && g.column(plus) > 0 && g.rows[0] != omitted {
		g.lift = 30
	}
}

// gapRoom is what a gap takes beside the columns of a window.
func (g *grid) gapRoom() float64 {
	if g.strings() {
		return 38
	}
	return 24
}

// scaleX is the line of the volt scale: further left for figures above 100 V.
func (g *grid) scaleX() float64 {
	if g.b.Volts*float64(g.b.Layout.Series) >= 100 {
		return sheetWidth - marginScale - 4
	}
	return sheetWidth - marginScale + 6
}

func (g *grid) stringRows() {
	rail := firstRail + g.lift
	y := rail + 47 // a string fuse stands between rail and post
	switch {
	case g.single():
		y = rail + 25
	case g.bars():
		y = rail + 67
	}
	for range g.rows {
		g.top = append(g.top, y)
		y += g.height + seriesGap
	}
	g.railP = []float64{rail}
	below := 26.0
	switch {
	case g.single():
		below = 0 // the lead goes straight to the post
	case g.bars():
		below = 34
	}
	g.railN = []float64{y - seriesGap + below}
}

func (g *grid) groupRows() {
	rail := firstRail + g.lift
	near, between := 28.0, seriesGap+4
	if g.bars() {
		near, between = 34, 72
	}
	if g.single() { // blocks in series, joined post to post
		near, between = 0, seriesGap
		rail += 25
	}
	for _, r := range g.rows {
		g.railP = append(g.railP, rail)
		if r == omitted {
			g.top = append(g.top, rail)
			g.railN = append(g.railN, rail)
			rail += between - 16
			continue
		}
		g.top = append(g.top, rail+near)
		g.railN = append(g.railN, rail+near+g.height+near)
		rail += near + g.height + near + between
	}
}

// box is the outline of the block in a column and row of the sheet.
func (g *grid) box(row, col int) box {
	return box{g.x[col] - g.width/2, g.top[row], g.width, g.height}
}

// block is the id there, or "" where the window leaves it out.
func (g *grid) block(row, col int) string {
	if g.rows[row] == omitted || g.cols[col] == omitted {
		return ""
	}
	return g.b.Layout.At(g.rows[row], g.cols[col])
}

// column finds where a column of the layout stands: itself, or the end of the
// window behind which it lies.
func (g *grid) column(real int) int {
	for i, c := range g.cols {
		if c == real {
			return i
		}
	}
	if g.cols[0] == omitted && real < g.cols[1] {
		return 0
	}
	return len(g.cols) - 1
}

// row does the same for rows.
func (g *grid) row(real int) int {
	for i, r := range g.rows {
		if r == real {
			return i
		}
	}
	if g.rows[0] == omitted && real < g.rows[1] {
		return 0
	}
	return len(g.rows) - 1
}

// leavesAt gives the points where the two main leads leave the bank: its rail or
// post, the end of a bus bar, or the gap behind which a window leaves out the
// rest of the way.
func (g *grid) leavesAt() (plus, minus point) {
	last := len(g.rows) - 1
	p, n, ok := g.b.Layout.LeadColumns()
	plus, minus = point{g.x[g.column(p)], g.plusY()}, point{g.x[g.column(n)], g.foot()}
	if !ok {
		left, right := g.barEnds()
		plus.x, minus = left, point{right - 8, g.foot() + barHalf}
	}
	if g.rows[0] == omitted {
		plus = point{g.crossX(g.rows[1] - 1), g.railP[0]}
	}
	if g.rows[last] == omitted {
		minus = point{g.crossX(g.rows[last-1]), g.foot()}
	}
	return plus, minus
}

// foot is the height of the lowest rail, or of the lowest post of one column.
func (g *grid) foot() float64 { return g.railN[len(g.railN)-1] }

func (g *grid) barEnds() (left, right float64) {
	left, right = g.x[0]-28, g.x[len(g.x)-1]+28
	if g.cols[0] == omitted {
		left = g.x[0]
	}
	if g.cols[len(g.cols)-1] == omitted {
		right = g.x[len(g.x)-1]
	}
	return left, right
}

// crossX is where the link between two rows of groups is drawn; mid-way
// between bus bars.
func (g *grid) crossX(upperRow int) float64 {
	if c, ok := g.b.Layout.GroupLinkColumn(upperRow); ok {
		return g.x[g.column(c)]
	}
	return (g.x[0] + g.x[len(g.x)-1]) / 2
}

// levels gives the heights of whole numbers of blocks above bank minus, for the
// volt scale.
func (g *grid) levels() (y []float64, blocks []int) {
	s := g.b.Layout.Series
	add := func(at float64, n int) { y, blocks = append(y, at), append(blocks, n) }
	last := len(g.rows) - 1
	add(g.plusY(), s)
	for i := 0; i < last; i++ {
		if g.rows[i] == omitted || g.rows[i+1] == omitted {
			continue
		}
		if g.strings() || g.single() {
			add(g.top[i]+g.height+seriesGap/2, s-g.rows[i]-1)
		} else {
			add((g.railN[i]+g.railP[i+1])/2, s-g.rows[i]-1)
		}
	}
	if g.rows[0] == omitted {
		y[0], blocks[0] = g.railP[1], s-g.rows[1]
	}
	if g.rows[last] == omitted {
		add(g.railN[last-1], s-g.rows[last-1]-1)
	} else {
		add(g.railN[len(g.railN)-1], 0)
	}
	return y, blocks
}

// plusY is the height of bank plus: where the main plus lead runs to the margin.
func (g *grid) plusY() float64 {
	if g.single() {
		return firstRail + g.lift
	}
	return g.railP[0]
}

// window chooses what is shown of a large bank: one string, or up to three
// blocks of one group.
func window(l bank.Layout, open string) (cols, rows []int) {
	if !Windowed(l) {
		return count(0, l.Parallel, l.Parallel), count(0, l.Series, l.Series)
	}
	row, col := 0, 0
	if r, c, ok := l.Position(open); ok {
		row, col = r, c
	}
	for i, u := range l.Units() {
		if u.ID == open && l.Join == bank.JoinGroups {
			row = i
		} else if u.ID == open {
			col = i
		}
	}
	if l.Join == bank.JoinStrings {
		return count(col, col+1, l.Parallel), count(0, l.Series, l.Series)
	}
	if l.Parallel == 1 { // 17 and more in one column cannot be: series ends at 16
		return count(0, 1, 1), count(0, l.Series, l.Series)
	}
	first := col / windowColumns * windowColumns
	return count(first, min(first+windowColumns, l.Parallel), l.Parallel), count(row, row+1, l.Series)
}

const windowColumns = 3

// count lists from first up to before, and says what is left out of all.
func count(first, before, all int) []int {
	var list []int
	if first > 0 {
		list = append(list, omitted)
	}
	for i := first; i < before; i++ {
		list = append(list, i)
	}
	if before < all {
		list = append(list, omitted)
	}
	return list
}
