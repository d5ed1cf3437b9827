package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"strings"
)

// The icon is the head of a bolt, a hexagon, with one mark across it that shows
// it was tightened. Lengths are in parts of the picture's side, 0 to 1.

type point struct{ x, y float64 }

// head is a regular hexagon, flat sides left and right, about the middle.
// 0.40 is its outer radius; 0.3464 is 0.40 × cos 30°.
var head = []point{{0.5, 0.10}, {0.8464, 0.30}, {0.8464, 0.70}, {0.5, 0.90}, {0.1536, 0.70}, {0.1536, 0.30}}

// mark is a slanted bar that runs past the head on both sides, as paint does
// when it is drawn across a bolt and what the bolt holds.
var mark = []point{{0.845, 0.085}, {0.925, 0.145}, {0.155, 0.915}, {0.075, 0.855}}

var (
	paper = color.NRGBA{0xFB, 0xFA, 0xF7, 0xFF}
	ink   = color.NRGBA{0x14, 0x19, 0x1F, 0xFF}
	blue  = color.NRGBA{0x0B, 0x4A, 0x6F, 0xFF}
)

// icons draws each icon file by name.
var icons = map[string]func() ([]byte, error){
	"icon.svg":      func() ([]byte, error) { return iconSVG(), nil },
	"icon-180.png":  func() ([]byte, error) { return iconPNG(180, 0.86) },
	"icon-192.png":  func() ([]byte, error) { return iconPNG(192, 0.92) },
	"icon-512.png":  func() ([]byte, error) { return iconPNG(512, 0.92) },
	"icon-mask.png": func() ([]byte, error) { return iconPNG(512, 0.70) }, // a phone may cut to a circle of 0.8
}

func iconSVG() []byte {
	path := func(shape []point) string {
		var b strings.Builder
		for i, p := range shape {
			b.WriteString([]string{"L", "M"}[btoi(i == 0)])
			fmt.Fprintf(&b, "%.4g %.4g", p.x*100, p.y*100)
		}
		return b.String() + "Z"
	}
	hex := func(c color.NRGBA) string { return fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B) }
	return fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">`+
		`<path fill="%s" d="M0 0H100V100H0Z"/><path fill="%s" d="%s"/>`+
		`<path fill="%s" stroke="%s" stroke-width="4" d="%s"/></svg>`+"\n",
		hex(paper), hex(ink), path(head), hex(blue), hex(paper), path(mark))
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// iconPNG draws the icon side × side pixels, the drawing shrunk about the
// middle by scale. Each pixel is the mean of 4 × 4 samples of three colours, so
// that there are at most 153 shades and the file needs one byte a pixel.
func iconPNG(side int, scale float64) ([]byte, error) {
	const fine = 4
	wide := outset(mark, 0.02) // the paper-coloured edge of the mark, as the SVG's stroke
	img := image.NewPaletted(image.Rect(0, 0, side, side), nil)
	shades := map[color.NRGBA]uint8{}
	for y := range side {
		for x := range side {
			var r, g, b int
			for i := range fine * fine {
				p := point{
					((float64(x)+(float64(i%fine)+0.5)/fine)/float64(side)-0.5)/scale + 0.5,
					((float64(y)+(float64(i/fine)+0.5)/fine)/float64(side)-0.5)/scale + 0.5,
				}
				c := paper
				switch {
				case inside(mark, p):
					c = blue
				case inside(wide, p):
				case inside(head, p):
					c = ink
				}
				r, g, b = r+int(c.R), g+int(c.G), b+int(c.B)
			}
			n := fine * fine
			shade := color.NRGBA{uint8(r / n), uint8(g / n), uint8(b / n), 0xFF}
			if _, known := shades[shade]; !known {
				shades[shade] = uint8(len(shades))
				img.Palette = append(img.Palette, shade)
			}
			img.SetColorIndex(x, y, shades[shade])
		}
	}
	var out bytes.Buffer
	err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&out, img)
	return out.Bytes(), err
}

// outset moves each corner of a small shape away from its middle along the
// shape's short side, so that a bar grows wider by d on each side.
func outset(bar []point, d float64) []point {
	short := point{bar[1].x - bar[0].x, bar[1].y - bar[0].y}
	k := d / 0.1 // the short side of the mark is 0.1 long: (0.08, 0.06)
	dx, dy := short.x*k, short.y*k
	return []point{
		{bar[0].x - dx, bar[0].y - dy}, {bar[1].x + dx, bar[1].y + dy},
		{bar[2].x + dx, bar[2].y + dy}, {bar[3].x - dx, bar[3].y - dy},
	}
}

// inside reports whether p lies in a convex shape: on the same side of every edge.
func inside(shape []point, p point) bool {
	var left, right bool
	for i, a := range shape {
		b := shape[(i+1)%len(shape)]
		cross := (b.x-a.x)*(p.y-a.y) - (b.y-a.y)*(p.x-a.x)
		left, right = left || cross < 0, right || cross > 0
	}
	return !(left && right)
}
