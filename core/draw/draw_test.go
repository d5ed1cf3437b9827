package draw

import (
	"encoding/xml"
	"io"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lugmark/core/bank"
	"lugmark/core/say"
)

// wellFormed reads a picture as XML and refuses what the content policy of the
// app would block.
func wellFormed(t interface{ Fatalf(string, ...any) }, p Picture) {
	dec := xml.NewDecoder(strings.NewReader(p.SVG))
	for {
		token, err := dec.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("not well formed: %v\n%s", err, p.SVG)
		}
		el, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if el.Name.Local == "style" || el.Name.Local == "script" {
			t.Fatalf("a <%s> element", el.Name.Local)
		}
		for _, a := range el.Attr {
			if a.Name.Local == "style" || strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "href" {
				t.Fatalf("attribute %s on <%s>", a.Name.Local, el.Name.Local)
			}
			if a.Name.Local == "d" && strings.Contains(a.Value, "NaN") {
				t.Fatalf("a path without a place: %s", a.Value)
			}
		}
	}
}

func anyLayout(t *rapid.T, most int) bank.Layout {
	return bank.New(
		rapid.IntRange(1, most).Draw(t, "series"),
		rapid.IntRange(1, most).Draw(t, "parallel"),
		rapid.SampledFrom([]bank.Join{bank.JoinStrings, bank.JoinGroups}).Draw(t, "join"),
		rapid.SampledFrom([]bank.Takeoff{bank.OneEnd, bank.Diagonal, bank.EqualLeads}).Draw(t, "takeoff"))
}

// onSheet are the parts that must be reachable by a tap in a drawing that shows
// the whole bank.
func onSheet(l bank.Layout) []string {
	ids := append(l.Blocks(), "fuse.main", "switch", "shunt", "lead.p", "lead.n", "charger1", "inverter1")
	for _, k := range l.Links() {
		ids = append(ids, k.ID)
	}
	if l.Join == bank.JoinStrings && l.Parallel > 1 {
		for _, s := range l.Strings() {
			ids = append(ids, "fuse."+s.Letter())
		}
		if l.Bars() {
			ids = append(ids, "bar.p", "bar.n")
		}
	}
	return ids
}

func TestEveryPartCanBeTapped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLayout(t, 4)
		p := sample(l).Draw()
		wellFormed(t, p)
		if p.Width != 336 { // the content width of a 360 px phone
			t.Fatalf("%v wide", p.Width)
		}
		found := map[string]int{}
		for _, h := range p.Hits {
			found[h.Part]++
			if w, high := h.W*p.Width/100, h.H*p.Height/100; w < 43.99 || high < 43.99 {
				t.Fatalf("%s is %v × %v units", h.Part, w, high)
			}
			if h.X < 0 || h.X > 100 || h.Y < 0 || h.Y > 100 {
				t.Fatalf("%s lies off the sheet", h.Part)
			}
			if !bank.Exists(l, h.Part) {
				t.Fatalf("%s is not in the layout", h.Part)
			}
		}
		for _, id := range onSheet(l) {
			if found[id] != 1 {
				t.Fatalf("%s has %d places to tap in %s %s %s", id, found[id], l.Title(), l.Join, l.Takeoff)
			}
		}
	})
}

func TestBlocksDoNotOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := sample(anyLayout(t, 16)).Draw()
		wellFormed(t, p)
		var blocks []Hit
		for _, h := range p.Hits {
			if kind, _ := bank.PartKind(h.Part); kind == bank.KindBlock {
				blocks = append(blocks, h)
			}
		}
		if len(blocks) == 0 {
			t.Fatal("no block is shown")
		}
		for i, a := range blocks {
			for _, b := range blocks[i+1:] {
				if math.Abs(a.X-b.X) < (a.W+b.W)/2-0.01 && math.Abs(a.Y-b.Y) < (a.H+b.H)/2-0.01 {
					t.Fatalf("%s and %s overlap", a.Part, b.Part)
				}
			}
		}
	})
}

// Height is voltage: whatever stands at a higher level is drawn higher, and a
// link begins and ends at what it joins.
func TestHeightIsVoltage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLayout(t, 4)
		s := &sheet{grid: newGrid(sample(l)), runs: map[string]run{}}
		levels := l.Levels()
		height := map[string]point{}
		for row := range s.rows {
			for col := range s.cols {
				id, b := s.block(row, col), s.box(row, col)
				height[id+".p"], height[id+".n"] = b.plus(), b.minus()
			}
		}
		for a, pa := range height {
			for b, pb := range height {
				if levels[a] > levels[b] && pa.y >= pb.y {
					t.Fatalf("%s at level %d is not above %s at level %d", a, levels[a], b, levels[b])
				}
			}
		}
		if s.strings() {
			s.strungLinks()
		} else {
			s.groupedLinks()
		}
		for _, k := range l.Links() {
			r, ok := s.runs[k.ID]
			if !ok {
				t.Fatalf("%s is not drawn", k.ID)
			}
			for _, end := range k.Ends() {
				at, isPost := height[end]
				if !isPost {
					continue
				}
				// The post itself, or the place on its rail straight above or below.
				near := min(math.Hypot(at.x-r.from.x, at.y-r.from.y), math.Hypot(at.x-r.to.x, at.y-r.to.y))
				onRail := min(math.Abs(at.x-r.from.x), math.Abs(at.x-r.to.x))
				if k.Kind == bank.Series && near > 0.01 || onRail > 0.01 {
					t.Fatalf("%s does not reach %s", k.ID, end)
				}
			}
			if k.Kind == bank.Series && r.from.x != r.to.x {
				t.Fatalf("%s is not upright", k.ID)
			}
		}
	})
}

func TestTextIsEscaped(t *testing.T) {
	b := sample(bank.New(2, 2, bank.JoinStrings, bank.OneEnd))
	b.MainFuse = `<b onclick="x">&'`
	b.Readings["b1"] = "<13>"
	p := b.Draw()
	wellFormed(t, p)
	if strings.Contains(p.SVG, "<b ") || strings.Contains(p.SVG, "<13>") {
		t.Error("markup of the user came through")
	}
}

func TestFiveDigits(t *testing.T) {
	tests := []struct {
		name     string
		readings map[string]string
		want     map[string]string
		note     string
	}{
		{"all alike", map[string]string{"b1": "13.312", "b2": "13.310", "b3": "13.311", "b4": "12.981"},
			map[string]string{"b1": ".312", "b2": ".310", "b4": "12.98"}, "Read 13 before each point: .310 is 13.310\u00a0V."},
		{"more than a quarter differ", map[string]string{"b1": "13.312", "b2": "13.310", "b3": "12.981"},
			map[string]string{"b1": "13.31", "b2": "13.31", "b3": "12.98"}, ""},
		{"two decimals need no help", map[string]string{"b1": "13.31", "b2": "13.30"},
			map[string]string{"b1": "13.31", "b2": "13.30"}, ""},
	}
	for _, tt := range tests {
		got, note := shorten(tt.readings)
		for id, want := range tt.want {
			if got[id].text != want {
				t.Errorf("%s: %s is printed %q, want %q", tt.name, id, got[id].text, want)
			}
		}
		if n := say.Screen.Say(note); n != tt.note {
			t.Errorf("%s: note %q, want %q", tt.name, n, tt.note)
		}
	}
}

// A closed link has a filled bolt head whatever its verdict, an open one a
// hollow one.
func TestBoltsSayClosed(t *testing.T) {
	for _, st := range States {
		b := Bank{Layout: bank.New(2, 1, bank.JoinStrings, bank.OneEnd), States: map[string]State{"b1.n~b2.p": st}}
		if open := b.Draw().SVG; strings.Contains(open, `"bolt on"`) || !strings.Contains(open, `"bolt"`) {
			t.Errorf("%s, open: wrong bolt head", st)
		}
		b.Closed = map[string]bool{"b1.n~b2.p": true}
		if closed := b.Draw().SVG; !strings.Contains(closed, `"bolt on"`) || strings.Contains(closed, `"bolt"`) {
			t.Errorf("%s, closed: wrong bolt head", st)
		}
	}
}

func TestOtherPictures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLayout(t, 16)
		b := sample(l)
		block := rapid.SampledFrom(l.Place).Draw(t, "block")
		for _, p := range []Picture{Plan(l), Miniature(l, b.States), Grid(l, b.States), Locator(l, block)} {
			wellFormed(t, p)
			if say.Screen.Say(p.Alt) == "" || strings.Contains(say.Screen.Say(p.Alt), "{") {
				t.Fatalf("alternative text %q", say.Screen.Say(p.Alt))
			}
		}
		seen := map[string]int{}
		for _, c := range Strip(l, b.States) {
			for i, id := range c.Blocks {
				seen[id]++
				if c.States[i] != b.state(id) {
					t.Fatalf("%s has state %s in the strip", id, c.States[i])
				}
			}
			b.Open = c.Open
			for _, id := range c.Blocks {
				if Windowed(l) && !hasHit(b.Draw(), id) {
					t.Fatalf("%s opens a window without %s", c.Open, id)
				}
			}
		}
		for _, id := range l.Place {
			if seen[id] != 1 {
				t.Fatalf("%s stands %d times in the strip", id, seen[id])
			}
		}
	})
}

func hasHit(p Picture, part string) bool {
	for _, h := range p.Hits {
		if h.Part == part {
			return true
		}
	}
	return false
}

func TestSpanIsOnItsAxis(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(-1e4, 1e4).Draw(t, "low")
		s := Span{Low: low, High: low + rapid.Float64Range(0, 1e3).Draw(t, "width"), Unit: "V", State: CantTell}
		limit := rapid.Float64Range(-1e4, 1e4).Draw(t, "limit")
		s.Max, s.MaxText = &limit, "1"
		wellFormed(t, s.Draw())
		a := newAxis([]float64{s.Low, s.High, limit})
		for _, v := range []float64{s.Low, s.High, limit} {
			if x := a.x(v); x < axisLeft-0.01 || x > axisRight+0.01 {
				t.Fatalf("%v lies at %v", v, x)
			}
		}
		if n := (a.last - a.first) / a.step; n < 1.9 || n > 8.1 {
			t.Fatalf("%v marks", n)
		}
	})
	if p := (Span{Low: math.NaN()}).Draw(); p.SVG != "" {
		t.Error("a span that is not a number was drawn")
	}
}

func TestPlates(t *testing.T) {
	for _, p := range []Picture{
		VoltsPlate(say.Screen, "b3", "13.28"), GapPlate(say.Screen, "b1", "b3"), TorquePlate(say.Screen, "b3.p", "9 <N·m>"),
		DropPlate(say.Screen), KeepOpenPlate(say.Screen, say.Line{}), StackPlate([]Layer{{Bolt, "Bolt", ""}, {Pad, "Pad", "bare"}}),
	} {
		wellFormed(t, p)
	}
	for _, kind := range []string{"posts", "gap", "steps", "switch", "torque", "joint"} {
		for _, part := range []string{"", "b3", "b3.n", "b1.n~b2.p@b1.n", "bank"} {
			p, ok := PlateFor(say.Screen, kind, part, "b1")
			if !ok || say.Screen.Say(p.Alt) == "" {
				t.Errorf("no plate %q", kind)
			}
			wellFormed(t, p)
		}
	}
	for _, st := range append(States, "", "unheard") {
		for _, markup := range []string{Mark(st), SmallMark(st), LineSample(st), IconBack, IconMenu, IconDelete, IconCamera, IconShut, BoltClosed, BoltOpen} {
			wellFormed(t, Picture{SVG: markup})
		}
	}
}
