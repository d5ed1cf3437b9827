package draw

import (
	"math"
	"strconv"

	"lugmark/core/bank"
	"lugmark/core/say"
)

// sheet collects a drawing in layers: conductors lie under outlines, posts over
// both, and nothing covers a word.
type sheet struct {
	*grid
	wires, boxes, posts, words pen
	height                     float64
	hits                       []Hit
	runs                       map[string]run // every link as it was drawn, from post or rail to post or rail
}

var altBank = say.Phrase{Key: "draw.alt-bank",
	English: "Bank drawing, {series} in series, {parallel} in parallel. Plus is up."}

// Draw makes the drawing of a bank. A layout that does not validate gives an
// empty picture.
func (b Bank) Draw() Picture {
	if b.Layout.Validate() != nil {
		return Picture{}
	}
	s := &sheet{grid: newGrid(b), runs: map[string]run{}}
	s.letters()
	s.leads()
	for row := range s.rows {
		for col := range s.cols {
			if s.block(row, col) != "" {
				s.blockAt(row, col)
			}
		}
	}
	note := s.readings()
	if s.strings() {
		s.strungLinks()
	} else {
		s.groupedLinks()
	}
	s.scale()
	class := "draw"
	if b.Black {
		class += " black"
	}
	body := s.wires.String() + s.boxes.String() + s.posts.String() + s.words.String()
	return Picture{
		SVG: svg(class, sheetWidth, s.height, "", body), Width: sheetWidth, Height: s.height,
		Hits: s.percent(), Note: note,
		Alt: altBank.With("series", strconv.Itoa(b.Layout.Series), "parallel", strconv.Itoa(b.Layout.Parallel)),
	}
}

// touch is the smallest side of a button, in units.
const touch = 44.0

// hit lays a button over a part, around a centre.
func (s *sheet) hit(part string, at point, w, h float64) {
	s.hits = append(s.hits, Hit{part, at.x, at.y, max(w, touch), max(h, touch)})
}

// percent turns the buttons into shares of the finished sheet.
func (s *sheet) percent() []Hit {
	list := make([]Hit, len(s.hits))
	for i, h := range s.hits {
		list[i] = Hit{h.Part, 100 * h.X / sheetWidth, 100 * h.Y / s.height, 100 * h.W / sheetWidth, 100 * h.H / s.height}
	}
	return list
}

// letters name what is joined first: strings at the head of their column,
// groups at the left of their row.
func (s *sheet) letters() {
	if s.single() {
		return
	}
	units := s.b.Layout.Units()
	if !s.strings() {
		for i, r := range s.rows {
			if r == omitted {
				continue
			}
			at := point{36, s.top[i] + s.grid.height/2}
			s.words.text("", middle, 22, at.x, at.y+8, units[r].Letter())
			s.hit(units[r].ID, at, 0, s.grid.height)
		}
		return
	}
	plus, _, ok := s.b.Layout.LeadColumns()
	for i, c := range s.cols {
		x, y := s.x[i], s.railP[0]-19
		if ok && c == plus && s.lift > 0 {
			x -= 16 // beside the lead that leaves upward
		}
		if c == omitted { // the neighbour behind the gap
			c = s.neighbour(i)
			x += 15
			if i > 0 {
				x -= 30
			}
			s.words.text("lt", middle, 17, x, y, units[c].Letter())
			continue
		}
		s.words.text("", middle, 22, x, y, units[c].Letter())
		if s.few() {
			s.hit(units[c].ID, point{x, y - 8}, 0, 0)
		}
	}
}

// neighbour is the column of the layout next to a window's end.
func (s *sheet) neighbour(i int) int {
	if i == 0 {
		return s.cols[1] - 1
	}
	return s.cols[i-1] + 1
}

// blockAt draws one block with its posts and, in a string, its fuse.
func (s *sheet) blockAt(row, col int) {
	id, b := s.block(row, col), s.box(row, col)
	st := s.b.state(id)
	s.boxes.outline(b, st)
	s.posts.plusPost(b.plus(), postRadius)
	s.posts.minusPost(b.minus(), postRadius)
	f := faceFor(b.w)
	n, _ := bank.BlockNumber(id)
	size := f.number
	if n > 99 || n > 9 && b.w < 60 {
		size -= 2
	}
	s.words.text("", start, size, b.x+f.numberX, b.y+f.numberY, strconv.Itoa(n))
	s.words.mark(st, b.x+b.w-f.markX, b.y+f.markY, f.mark)
	if s.strings() && row == 0 && !s.single() {
		s.stringFuse(col)
	}
	s.hit(id, point{b.centre(), b.y + b.h/2}, b.w, b.h)
}

// stringFuse stands between the rail and the top post, its conductor drawn
// through.
func (s *sheet) stringFuse(col int) {
	id := "fuse." + s.b.Layout.Strings()[s.cols[col]].Letter()
	x, y := s.x[col], s.railP[0]+7
	if s.bars() {
		y = s.railP[0] + 25
	}
	s.wires.wire(run{point{x, y}, point{x, s.top[0] - postRadius}}, "")
	s.fuse(point{x, y + 13}, true, s.b.stated(id))
	s.hit(id, point{x, y + 13}, 0, 0)
}

// fuse draws the box of a fuse. Its state tells by the box; a silhouette stands
// beside it where there is room.
func (s *sheet) fuse(at point, upright bool, st State) {
	class := "sym"
	if st == Fail || st == CantTell {
		class += " " + string(st)
	}
	w, h := 30.0, 14.0
	if upright {
		w, h = 14, 26
	}
	s.boxes.rect(class, 2.5, at.x-w/2, at.y-h/2, w, h, 0)
	if upright {
		s.boxes.path("str", 2.5, d("M", at.x, at.y-h/2, "v", h))
	} else {
		s.boxes.path("str", 2.5, d("M", at.x-w/2, at.y, "h", w))
	}
	if worthShowing(st) && upright && s.few() {
		s.words.mark(st, at.x+11, at.y-9, 18)
	} else if worthShowing(st) && !upright {
		s.words.mark(st, at.x-8, at.y+10, 16)
	}
}

// worthShowing are the states that a crowded drawing still marks.
func worthShowing(st State) bool { return st != "" && st != Pass && st != ToDo }

func (s *sheet) readings() say.Line {
	shown := map[string]string{}
	for row := range s.rows {
		for col := range s.cols {
			if text, ok := s.b.Readings[s.block(row, col)]; ok {
				shown[s.block(row, col)] = text
			}
		}
	}
	var note say.Line
	out := map[string]printed{}
	if s.few() {
		for id, text := range shown {
			out[id] = printed{text: text}
		}
	} else {
		out, note = shorten(shown)
	}
	for row := range s.rows {
		for col := range s.cols {
			r, ok := out[s.block(row, col)]
			if !ok {
				continue
			}
			b, f := s.box(row, col), faceFor(s.width)
			size := f.reading
			if r.decimals {
				size = f.decimals
			}
			s.words.text("val", middle, size, b.centre(), b.y+f.readingY, s.b.Voice.Digits(r.text))
		}
	}
	return note
}

// scale gives the expected volts above bank minus at each level.
func (s *sheet) scale() {
	if s.b.Volts == 0 {
		return
	}
	y, blocks := s.levels()
	x := s.scaleX()
	s.words.text("lt", end, 17, sheetWidth, y[0]-19, "V")
	s.wires.path("thin", 1.5, d("M", x, y[0], "V", y[len(y)-1]))
	for i := range y {
		s.wires.path("thin", 2.5, d("M", x-5, y[i], "h", 10))
		text, size := "0", 17.0
		if blocks[i] > 0 {
			text = strconv.FormatFloat(math.Round(10*float64(blocks[i])*s.b.Volts)/10, 'f', 1, 64)
		}
		if len(text) > 4 {
			size = 16
		}
		s.words.text("lt", end, size, sheetWidth, y[i]+6, s.b.Voice.Digits(text))
	}
}
