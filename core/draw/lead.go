package draw

import "lugmark/core/say"

var (
	wordMain     = say.Phrase{Key: "draw.main", English: "Main"}
	wordShunt    = say.Phrase{Key: "draw.shunt", English: "Shunt"}
	wordCharger  = say.Phrase{Key: "draw.charger", English: "Charger"}
	wordInverter = say.Phrase{Key: "draw.inverter", English: "Inverter"}
)

// Heights of the lines below the bank, from its lowest rail.
const (
	belowPlus  = 46.0  // the plus line, with the main switch
	belowMinus = 130.0 // the minus line, with the shunt
	margin     = 10.0  // of the plus lead, from the left
	lineEnd    = 300.0
)

// leads draws the two main leads and what hangs between them. With the minus
// lead at the left it drops straight and crosses the plus line once, with a
// hop; else it runs down the right-hand side and nothing crosses.
func (s *sheet) leads() {
	plusY, minusY := s.foot()+belowPlus, s.foot()+belowMinus
	s.height = minusY + 11
	plus, minus := s.leavesAt()
	s.plusLead(plus, plusY)
	if !s.bars() && !s.single() && minus.x <= 110 {
		s.minusLeft(minus.x, minus.y, plusY, minusY)
	} else {
		s.minusRight(minus.x, minus.y, plusY, minusY)
	}
}

// plusLead leaves at the top and runs down the margin. The main fuse is the
// first thing after the bank, as on the wall.
func (s *sheet) plusLead(from point, plusY float64) {
	st := s.b.stated("lead.p")
	y := from.y
	labelX, labelY, first := 0.0, y-13, from.x
	path := []point{from, {margin, y}}
	switch {
	case s.single():
		path = []point{{from.x, s.top[0] - postRadius}, {from.x, y}, {margin, y}}
	case s.lift > 0:
		y, first = 14, s.x[0]
		path = []point{from, {from.x, y}, {margin, y}}
		labelX, labelY = margin+8, y+26
	}
	s.wires.lead(append(path, point{margin, plusY}), st)
	s.hit("lead.p", point{margin, (s.top[0] + plusY) / 2}, 0, 0)
	at := point{(margin+first)/2 - 1, y}
	if s.single() {
		at.x = (margin+from.x)/2 - 12
	}
	s.fuse(at, false, s.b.stated("fuse.main"))
	s.words.text("lt", start, 16, labelX, labelY, s.b.MainFuse)
	s.hit("fuse.main", at, 0, 0)
}

func (s *sheet) minusLeft(x, foot, plusY, minusY float64) {
	st := s.b.stated("lead.n")
	off := 29.0
	if x > 100 { // the letters of groups have pushed the column to the right
		off = 20
	}
	from, to := x+off, x+off+34
	// One half circle where the plus line crosses the minus lead.
	s.wires.path(wireClass(s.b.stated("lead.p")), 0,
		d("M", margin-3, plusY, "H", x-9, "a", 9, 9, " 0 0 1 ", 18, 0, "H", from))
	s.wires.path("wire", 0, d("M", to, plusY, "H", lineEnd+1.5))
	s.wires.lead([]point{{x, foot}, {x, minusY}, {x + off, minusY}}, st)
	s.wires.path("wire", 0, d("M", x+off+40, minusY, "H", lineEnd+1.5))
	s.hit("lead.n", point{x, (plusY+minusY)/2 + 3}, 0, 0)
	s.mainSwitch(from, to, plusY)
	box := x + off
	s.boxes.rect("sym", 2.5, box, minusY-8, 40, 16, 0)
	s.boxes.path("str", 2.5, d("M", box+10, minusY-8, "v", -8, "M", box+30, minusY-8, "v", -8))
	s.words.text("lt", middle, 17, box+20, minusY-22, s.b.Voice.Say(wordShunt.With()))
	s.hit("shunt", point{box + 20, minusY - 11}, 48, 0)
	s.markShunt(point{box + 43, minusY - 30})
	s.devices([]float64{186, 264}, 70, plusY, minusY)
}

func (s *sheet) minusRight(x, foot, plusY, minusY float64) {
	const side = 324.0
	from, to := 52.0, 86.0
	first := 100.0
	s.wires.path(wireClass(s.b.stated("lead.p")), 0, d("M", margin-3, plusY, "H", from))
	s.wires.path("wire", 0, d("M", to, plusY, "H", first+110))
	turn := foot + 20
	if s.bars() {
		turn = foot + 14
	}
	top := point{x, foot}
	if s.single() {
		top.y += postRadius
	}
	s.wires.lead([]point{top, {x, turn}, {side, turn}, {side, plusY + 26}}, s.b.stated("lead.n"))
	s.wires.path("wire", 0, d("M", side, plusY+58, "V", minusY, "H", first+32))
	s.hit("lead.n", point{max(x, 0)/2 + side/2, turn}, 0, 0)
	s.mainSwitch(from, to, plusY)
	s.boxes.rect("sym", 2.5, side-8, plusY+20, 16, 40, 0)
	s.boxes.path("str", 2.5, d("M", side-8, plusY+30, "h", -8, "M", side-8, plusY+50, "h", -8))
	s.words.text("lt", end, 17, side-20, plusY+22, s.b.Voice.Say(wordShunt.With()))
	s.hit("shunt", point{side - 9, plusY + 44}, 0, 0)
	s.markShunt(point{side - 38, plusY + 32})
	s.devices([]float64{first, first + 75}, 67, plusY, minusY)
}

func (s *sheet) markShunt(at point) {
	if st := s.b.stated("shunt"); worthShowing(st) {
		s.words.mark(st, at.x, at.y, 18)
	}
}

// mainSwitch shows its lever up when open and its line through when closed.
func (s *sheet) mainSwitch(from, to, y float64) {
	lever := y - 16
	if s.b.Closed["switch"] {
		lever = y
	}
	s.boxes.path("str", 4, d("M", from, y, "L", to, lever))
	s.boxes.circle("sym", 2.5, from, y, 4.5)
	s.boxes.circle("sym", 2.5, to, y, 4.5)
	at := point{(from + to) / 2, y + 26}
	s.words.text("lt", middle, 17, at.x, at.y, s.b.Voice.Say(wordMain.With()))
	if st := s.b.stated("switch"); worthShowing(st) {
		s.words.mark(st, at.x-9, at.y+5, 18)
	}
	s.hit("switch", point{at.x, y + 3}, to-from+12, 56)
}

// devices hang between the plus line above and the minus line below.
func (s *sheet) devices(x []float64, w, plusY, minusY float64) {
	for i, id := range s.b.Devices {
		if i == len(x) {
			break
		}
		s.device(id, box{x[i], plusY + 19, w, 46}, plusY, minusY)
	}
	if len(s.b.Devices) == 0 { // the lines end open
		s.boxes.circle("sym", 2.5, x[0]+w/2, plusY, 4.5)
		s.boxes.circle("sym", 2.5, x[0]+w/2, minusY, 4.5)
	} else if len(s.b.Devices) > 1 { // dots where the first one is joined to a line that runs on
		mid := x[0] + w/2
		s.wires.dot(point{mid, plusY}, 5)
		if s.single() || x[0] < 150 {
			mid = x[1] + w/2 // the minus line comes from the right
		}
		s.wires.dot(point{mid, minusY}, 5)
	}
}

func (s *sheet) device(id string, b box, plusY, minusY float64) {
	x := b.centre()
	s.wires.path("str", 3, d("M", x, plusY, "V", b.y, "M", x, b.bottom(), "V", minusY))
	class := "sym"
	if st := s.b.stated(id); st == Fail || st == CantTell {
		class += " " + string(st)
	}
	s.boxes.rect(class, 2.5, b.x, b.y, b.w, b.h, 2)
	word, wave, bars := wordCharger, x-22, x+6
	if len(id) > 7 && id[:7] != "charger" {
		word, wave, bars = wordInverter, x+6, x-22
	}
	// Wave and double bar stand in the order in which the power flows.
	s.boxes.path("str", 2.5, d("M", wave, b.y+33, "c4 -9 8 -9 10 0s6 9 10 0",
		"M", bars, b.y+33, "h18m-18 6h18"))
	s.words.text("lt", middle, 16, x, b.y+19, s.b.Voice.Say(word.With()))
	if st := s.b.stated(id); worthShowing(st) {
		s.words.mark(st, b.x+b.w-12, b.bottom()-12, 18)
	}
	s.hit(id, point{x, b.y + b.h/2}, b.w, 50)
}

// lead draws a conductor round corners.
func (p *pen) lead(path []point, st State) {
	pieces := []any{"M", path[0].x, path[0].y}
	for _, at := range path[1:] {
		pieces = append(pieces, "L", at.x, at.y)
	}
	p.path(wireClass(st), 0, d(pieces...))
	for i := 1; i < len(path); i++ {
		r := run{path[i-1], path[i]}
		switch {
		case st == Fail && r.length() >= crossStep:
			for off := crossStep / 2; off < r.length(); off += crossStep {
				p.cross(r.along(off), 4)
			}
		case st == NotNeeded && i == 1:
			p.strike(r.along(r.length() / 2))
		}
	}
}
