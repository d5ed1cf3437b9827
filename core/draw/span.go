package draw

import (
	"math"
	"strconv"
	"unicode/utf8"

	"lugmark/core/say"
)

// Span is what a reading can mean, drawn across its limit: two brackets at the
// ends of the interval, a post at each limit. All figures are in one unit.
type Span struct {
	Low, High float64  // the interval of the true value; equal for a bare figure
	Min, Max  *float64 // the limits; nil where there is none
	MinText   string   // how the limits are written, ASCII digits without unit: "0.010"
	MaxText   string
	Unit      string // ASCII symbol, "mV"
	State     State
	Voice     say.Voice
}

var (
	spanLimit   = say.Phrase{Key: "draw.span-limit", English: "Limit {limit}"}
	spanFrom    = say.Phrase{Key: "draw.span-from", English: "From {limit}"}
	spanTo      = say.Phrase{Key: "draw.span-to", English: "to {limit}"}
	spanWindow  = say.Phrase{Key: "draw.span-window", English: "Limits {min} to {max}"}
	spanInside  = say.Phrase{Key: "draw.span-inside", English: "inside"}
	spanOutside = say.Phrase{Key: "draw.span-outside", English: "outside"}

	altSpanMax = say.Phrase{Key: "draw.alt-span-max",
		English: "The true value lies between {low} and {high}. The limit is at most {max}."}
	altSpanMin = say.Phrase{Key: "draw.alt-span-min",
		English: "The true value lies between {low} and {high}. The limit is at least {min}."}
	altSpanBoth = say.Phrase{Key: "draw.alt-span-both",
		English: "The true value lies between {low} and {high}. The limits are {min} to {max}."}
	altSpanNone = say.Phrase{Key: "draw.alt-span-none",
		English: "The true value lies between {low} and {high}. There is no limit."}
)

// axis maps values onto the width of the figure.
type axis struct {
	first, last, step float64
	decimals          int
}

const axisLeft, axisRight = 12.0, 324.0

func (a axis) x(v float64) float64 {
	return axisLeft + (axisRight-axisLeft)*(v-a.first)/(a.last-a.first)
}

// newAxis covers all values with some room and three to six marks.
func newAxis(values []float64) axis {
	low, high := values[0], values[0]
	for _, v := range values {
		low, high = math.Min(low, v), math.Max(high, v)
	}
	room := (high - low) * 0.12
	if room == 0 {
		room = math.Max(math.Abs(high)*0.1, 1e-9)
	}
	first, last := low-room, high+room
	if low >= 0 && low < (high-low) { // near zero the axis begins there
		first = 0
	}
	a := axis{first: first, last: last}
	power := math.Pow(10, math.Floor(math.Log10((last-first)/4)))
	for _, m := range []float64{1, 2, 5, 10} {
		if a.step = m * power; (last-first)/a.step <= 5 {
			break
		}
	}
	a.first, a.last = math.Floor(first/a.step+1e-9)*a.step, math.Ceil(last/a.step-1e-9)*a.step
	a.decimals = max(0, -int(math.Floor(math.Log10(a.step)+1e-9)))
	return a
}

func (s Span) figure(v float64, decimals int) say.Figure {
	return say.Figure{Digits: strconv.FormatFloat(v, 'f', decimals, 64), Unit: s.Unit}
}

// Draw makes the figure, 336 wide. A span of values that are not finite gives
// an empty picture.
func (s Span) Draw() Picture {
	values := []float64{s.Low, s.High}
	for _, limit := range []*float64{s.Min, s.Max} {
		if limit != nil {
			values = append(values, *limit)
		}
	}
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return Picture{}
		}
	}
	a := newAxis(values)
	var p pen
	s.ticks(&p, a)
	s.limits(&p, a)
	s.brackets(&p, a)
	return Picture{SVG: svg("draw", sheetWidth, 104, "", p.String()), Width: sheetWidth, Height: 104, Alt: s.alt(a)}
}

// wide estimates the width of a text: a digit is a little over half as wide as
// high in every face of the system stack.
func wide(text string, size float64) float64 {
	return 0.6 * size * float64(utf8.RuneCountInString(text))
}

// ticks rules the axis. The last mark carries the unit; a mark whose figure
// would touch its neighbour keeps its stroke only.
func (s Span) ticks(p *pen, a axis) {
	const line, size = 70.0, 17.0
	p.path("str", 2, d("M", axisLeft, line, "H", axisRight))
	n := int(math.Round((a.last - a.first) / a.step))
	unit := s.Voice.Figure(s.figure(a.last, a.decimals))
	free, stop := 0.0, sheetWidth-2-wide(unit, size)-6
	for i := 0; i <= n; i++ {
		v := a.first + float64(i)*a.step
		x := a.x(v)
		p.path("str", 2, d("M", x, line-6, "v", 12))
		if i == n {
			p.text("lt", end, size, sheetWidth-2, 98, unit)
			break
		}
		text := s.Voice.Digits(strconv.FormatFloat(v, 'f', a.decimals, 64))
		half := wide(text, size) / 2
		x = max(x, half+2)
		if x-half >= free && x+half <= stop {
			p.text("lt", middle, size, x, 98, text)
			free = x + half + 6
		}
	}
}

// limits draws the posts, what they are called, and on which side is inside.
func (s Span) limits(p *pen, a axis) {
	const size, word = 17.0, 33.0
	inside, outside := s.Voice.Say(spanInside.With()), s.Voice.Say(spanOutside.With())
	label := func(x float64, line say.Line) {
		text := s.Voice.Say(line)
		half := wide(text, size) / 2
		p.text("", middle, size, min(max(x, half), sheetWidth-half), 12, text)
	}
	limit := func(text string) say.Figure { return say.Figure{Digits: text, Unit: s.Unit} }
	for _, at := range []*float64{s.Min, s.Max} {
		if at != nil {
			p.path("wire", 0, d("M", a.x(*at), 18, "V", 80))
		}
	}
	beside := func(x float64, left, right string) {
		if x-10 > wide(left, size) {
			p.text("lt", end, size, x-10, word, left)
		}
		if x+10+wide(right, size) < sheetWidth {
			p.text("lt", start, size, x+10, word, right)
		}
	}
	switch {
	case s.Min != nil && s.Max != nil:
		from, to := a.x(*s.Min), a.x(*s.Max)
		if to-from < 150 {
			label((from+to)/2, spanWindow.With("min", say.Figure{Digits: s.MinText, Unit: "1"}, "max", limit(s.MaxText)))
		} else {
			label(from, spanFrom.With("limit", limit(s.MinText)))
			label(to, spanTo.With("limit", limit(s.MaxText)))
		}
		if to-from > wide(inside, size)+12 {
			p.text("lt", middle, size, (from+to)/2, word, inside)
		}
	case s.Min != nil:
		label(a.x(*s.Min), spanLimit.With("limit", limit(s.MinText)))
		beside(a.x(*s.Min), outside, inside)
	case s.Max != nil:
		label(a.x(*s.Max), spanLimit.With("limit", limit(s.MaxText)))
		beside(a.x(*s.Max), inside, outside)
	}
}

// brackets are two facing hooks at the ends of the interval, and the line
// between them in the style of the state.
func (s Span) brackets(p *pen, a axis) {
	const y, half, hook = 50.0, 14.0, 12.0
	low, high := a.x(s.Low), a.x(s.High)
	if mid := (low + high) / 2; high-low < 14 { // still to be seen as two brackets
		low, high = mid-7, mid+7
	}
	arm := math.Min(hook, (high-low)/2-2)
	class := "span " + string(s.State)
	p.path(class, 0, d("M", low+5, y, "H", high-5))
	p.path("hook "+string(s.State), 0, d("M", low+arm, y-half, "H", low, "V", y+half, "H", low+arm,
		"M", high-arm, y-half, "H", high, "V", y+half, "H", high-arm))
	for _, limit := range []*float64{s.Min, s.Max} {
		if limit != nil && *limit > s.Low && *limit < s.High {
			p.circle("surf", 0, a.x(*limit), y, 7)
			p.circle("str", 3, a.x(*limit), y, 7)
		}
	}
}

func (s Span) alt(a axis) say.Line {
	digits := a.decimals + 1
	pairs := []any{"low", s.figure(s.Low, digits), "high", s.figure(s.High, digits)}
	phrase := altSpanNone
	switch {
	case s.Min != nil && s.Max != nil:
		phrase = altSpanBoth
	case s.Min != nil:
		phrase = altSpanMin
	case s.Max != nil:
		phrase = altSpanMax
	}
	if s.Min != nil {
		pairs = append(pairs, "min", say.Figure{Digits: s.MinText, Unit: s.Unit})
	}
	if s.Max != nil {
		pairs = append(pairs, "max", say.Figure{Digits: s.MaxText, Unit: s.Unit})
	}
	return phrase.With(pairs...)
}
