package draw

// Icons are small signs for bars and keys, each an svg element of class ico,
// hidden from readers: they stand beside a word, or their button has a name.
var (
	IconBack   = icon(24, `<path d="M14 4 6 12l8 8M7 12h14"/>`)
	IconMenu   = icon(24, `<path d="M3 6h18M3 12h18M3 18h18"/>`)
	IconDelete = icon(32, `<path d="M10 3h20v18H10L3 12zM16 8l8 8m0-8-8 8"/>`) // the last digit
	IconCamera = icon(24, `<path d="M2 7h5l2-3h6l2 3h5v13H2z"/><circle cx="12" cy="13" r="3.5"/>`)
	IconShut   = icon(24, `<path d="M5 5l14 14M19 5 5 19"/>`)
)

func icon(width float64, shape string) string { return svg("ico", width, 24, "", shape) }

// BoltClosed and BoltOpen are a link that is closed or still open, whatever its
// verdict, for the count below a drawing.
var (
	BoltClosed = boltSample(true)
	BoltOpen   = boltSample(false)
)

// LineSample is a piece of conductor in the style of a state, for legends.
func LineSample(s State) string {
	var p pen
	p.wire(run{point{2, 8}, point{88, 8}}, s)
	return svg("draw sample "+string(s), 90, 16, "", p.String())
}

func boltSample(closed bool) string {
	var p pen
	p.wire(run{point{0, 10}, point{22, 10}}, "")
	p.bolt(point{11, 10}, closed)
	return svg("draw", 22, 20, "", p.String())
}
