package draw

// Icon is a small sign for a bar or a key. Each stands beside a word, or its
// button carries an accessible name.
type Icon string

const (
	Back   Icon = "back"
	Menu   Icon = "menu"
	Delete Icon = "delete" // the last digit
	Camera Icon = "camera"
	Clock  Icon = "clock"
	Shut   Icon = "shut"
)

var icons = map[Icon]string{
	Back:   `<path d="M14 4 6 12l8 8M7 12h14"/>`,
	Menu:   `<path d="M3 6h18M3 12h18M3 18h18"/>`,
	Delete: `<path d="M10 3h20v18H10L3 12zM16 8l8 8m0-8-8 8"/>`,
	Camera: `<path d="M2 7h5l2-3h6l2 3h5v13H2z"/><circle cx="12" cy="13" r="3.5"/>`,
	Clock:  `<circle cx="12" cy="12" r="9"/><path d="M12 6v6l4 3"/>`,
	Shut:   `<path d="M5 5l14 14M19 5 5 19"/>`,
}

// Draw gives the icon as one svg element of class ico, hidden from readers. An
// unknown icon is empty.
func (i Icon) Draw() string {
	shape, ok := icons[i]
	if !ok {
		return ""
	}
	width := 24.0
	if i == Delete {
		width = 32
	}
	return svg("ico", width, 24, "", shape)
}

// LineSample is a piece of conductor in the style of a state, for legends.
func LineSample(s State) string {
	var p pen
	p.wire(run{point{2, 8}, point{88, 8}}, s)
	return svg("draw sample "+string(s), 90, 16, "", p.String())
}

// BoltSample is a link that is closed or still open, whatever its verdict.
func BoltSample(closed bool) string {
	var p pen
	p.wire(run{point{0, 10}, point{22, 10}}, "")
	p.bolt(point{11, 10}, closed)
	return svg("draw", 22, 20, "", p.String())
}
