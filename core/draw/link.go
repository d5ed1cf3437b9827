package draw

import "lugmark/core/bank"

// join draws one link between two points of the sheet, with its bolt, its
// button, and its silhouette at an offset from the bolt when there is room or
// cause. clear is what stands at each end: a post or a dot.
func (s *sheet) join(id string, r run, clear float64, at point, small float64) {
	s.runs[id] = r
	length := r.length()
	st := s.b.state(id)
	bolt := s.wires.link(run{r.along(clear), r.along(length - clear)}, st, s.b.Closed[id])
	s.mark(st, point{bolt.x + at.x, bolt.y + at.y}, small)
	s.hit(id, r.along(length/2), 0, 0)
}

func (s *sheet) mark(st State, at point, size float64) {
	if s.few() || worthShowing(st) {
		s.words.mark(st, at.x, at.y, size)
	}
}

// railDot is the radius of the dot where conductors are joined.
const railDot = 6.0

// Where the silhouette stands, from the bolt.
var (
	besideSeries = point{13, -11}
	besideNarrow = point{9, -9}
	aboveRail    = point{-9, -28}
	belowRail    = point{-9, 8}
)

// strungLinks draws the links inside each string and those between strings.
func (s *sheet) strungLinks() {
	l := s.b.Layout
	for col := range s.cols {
		for row := 0; row+1 < len(s.rows); row++ {
			if s.block(row, col) != "" {
				s.seriesLink(bank.LinkID(s.block(row, col)+".n", s.block(row+1, col)+".p"), row, col)
			}
		}
	}
	if s.single() {
		return
	}
	units := l.Strings()
	for _, rail := range []struct {
		y    float64
		sign string
		mark point
	}{{s.railP[0], ".p", aboveRail}, {s.railN[0], ".n", belowRail}} {
		for col, c := range s.cols {
			at := point{s.x[col], rail.y}
			switch {
			case c == omitted:
				s.wires.gap(at, false)
				continue
			case s.bars():
				s.barLead(bank.LinkID("bar"+rail.sign, units[c].ID+rail.sign), at, col, rail.sign)
			default:
				s.drop(col, 0, rail.y, rail.sign)
			}
		}
		if s.bars() {
			s.bar("bar"+rail.sign, rail.y)
			continue
		}
		for col := 0; col+1 < len(s.cols); col++ {
			left, right := s.cols[col], s.cols[col+1]
			if left == omitted {
				left = right - 1
			} else if right == omitted {
				right = left + 1
			}
			id := bank.LinkID(units[left].ID+rail.sign, units[right].ID+rail.sign)
			s.join(id, run{point{s.x[col], rail.y}, point{s.x[col+1], rail.y}}, railDot-1, rail.mark, 18)
		}
	}
}

// seriesLink goes from the minus post of the upper block straight down to the
// plus post of the next.
func (s *sheet) seriesLink(id string, row, col int) {
	upper, lower := s.box(row, col), s.box(row+1, col)
	at, size := besideSeries, 22.0
	if !s.few() {
		at, size = besideNarrow, 18
	}
	s.join(id, run{upper.minus(), lower.plus()}, postRadius, at, size)
}

// drop is the piece between a rail and the post at its foot or head, and the
// dot where it is joined.
func (s *sheet) drop(col, row int, rail float64, sign string) {
	x := s.x[col]
	s.wires.dot(point{x, rail}, railDot)
	if sign == ".n" {
		if s.strings() {
			row = len(s.rows) - 1
		}
		s.wires.wire(run{point{x, s.box(row, col).bottom() + postRadius}, point{x, rail}}, "")
		return
	}
	s.wires.wire(run{point{x, rail}, point{x, s.top[row] - postRadius}}, "")
}

// groupedLinks draws the rails or bars of each group, and the one link from
// each group to the next.
func (s *sheet) groupedLinks() {
	units := s.b.Layout.Groups()
	for row, r := range s.rows {
		if r == omitted {
			continue
		}
		if !s.single() {
			s.groupRail(row, units[r], ".p", s.railP[row], aboveRail)
			s.groupRail(row, units[r], ".n", s.railN[row], belowRail)
		}
	}
	for row := 0; row+1 < len(s.rows); row++ {
		upper := s.rows[row]
		if upper == omitted {
			upper = s.rows[row+1] - 1
		}
		id := bank.LinkID(units[upper].ID+".n", units[upper+1].ID+".p")
		if s.single() {
			s.seriesLink(id, row, 0)
			continue
		}
		x := s.crossX(upper)
		from, to := point{x, s.railN[row]}, point{x, s.railP[row+1]}
		s.join(id, run{from, to}, railDot-1, besideSeries, 22)
		for i, end := range []point{from, to} {
			if s.rows[row+i] == omitted {
				s.wires.gap(end, true)
				s.words.text("lt", middle, 17, x+18, end.y+6, units[upper+i].Letter())
			}
		}
	}
}

func (s *sheet) groupRail(row int, u bank.Unit, sign string, y float64, mark point) {
	for col, c := range s.cols {
		if c == omitted {
			s.wires.gap(point{s.x[col], y}, false)
			continue
		}
		if s.bars() {
			s.barLead(bank.LinkID(u.Blocks[c]+sign, u.ID+sign), point{s.x[col], y}, col, sign)
			continue
		}
		s.drop(col, row, y, sign)
	}
	if s.bars() {
		s.bar("", y)
		return
	}
	for col := 0; col+1 < len(s.cols); col++ {
		left, right := s.cols[col], s.cols[col+1]
		if left == omitted {
			left = right - 1
		} else if right == omitted {
			right = left + 1
		}
		id := bank.LinkID(u.Blocks[left]+sign, u.Blocks[right]+sign)
		s.join(id, run{point{s.x[col], y}, point{s.x[col+1], y}}, railDot-1, mark, 18)
	}
}

// bar draws a bus bar over all columns.
func (s *sheet) bar(part string, y float64) {
	left, right := s.barEnds()
	s.boxes.rect("bar-b", 3, left, y-barHalf, right-left, 2*barHalf, 0)
	if part != "" { // taken at its end, clear of the leads
		s.hit(part, point{right, y}, 0, 0)
	}
}

// barLead draws the lead from a bus bar to a string or block; its bolt head is
// the one on the bar.
func (s *sheet) barLead(id string, at point, col int, sign string) {
	st := s.b.state(id)
	foot, label := point{at.x, at.y + 25}, point{at.x + 12, at.y + 8}
	if !s.strings() {
		foot.y = at.y + 34 - postRadius
	}
	if sign == ".n" {
		foot.y, label.y = at.y-34+postRadius, at.y-26
	}
	s.runs[id] = run{at, foot}
	from := at
	from.y += barHalf + 1.5
	if sign == ".n" {
		from.y -= 2*barHalf + 3
	}
	s.wires.wire(run{from, foot}, st)
	s.posts.bolt(at, s.b.Closed[id])
	s.mark(st, label, 18)
	s.hit(id, at, 0, 0)
}
