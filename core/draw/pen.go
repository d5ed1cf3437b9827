package draw

import (
	"math"
	"strconv"
	"strings"
)

// pen writes SVG elements. Every text goes through escape, every number through
// num; nothing else writes data into markup.
type pen struct{ strings.Builder }

// num writes a coordinate with one decimal: a tenth of a pixel.
func num(x float64) string {
	r := math.Round(x*10) / 10
	if r == 0 {
		r = 0 // a rounded -0.04 must not print as -0
	}
	return strconv.FormatFloat(r, 'f', -1, 64)
}

var escape = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;").Replace

// attr writes name="value".
func (p *pen) attr(name, value string) {
	p.WriteString(" " + name + `="` + escape(value) + `"`)
}

func (p *pen) open(tag, class string, width float64) {
	p.WriteString("<" + tag)
	if class != "" {
		p.attr("class", class)
	}
	if width > 0 {
		p.attr("stroke-width", num(width))
	}
}

// path draws a path; width 0 leaves the width to the style sheet.
func (p *pen) path(class string, width float64, d string) {
	p.open("path", class, width)
	p.attr("d", d)
	p.WriteString("/>")
}

func (p *pen) rect(class string, width, x, y, w, h, rx float64) {
	p.open("rect", class, width)
	p.attr("x", num(x))
	p.attr("y", num(y))
	p.attr("width", num(w))
	p.attr("height", num(h))
	if rx > 0 {
		p.attr("rx", num(rx))
	}
	p.WriteString("/>")
}

func (p *pen) circle(class string, width, x, y, r float64) {
	p.open("circle", class, width)
	p.attr("cx", num(x))
	p.attr("cy", num(y))
	p.attr("r", num(r))
	p.WriteString("/>")
}

// Where a text stands on its point.
const (
	start  = "start"
	middle = "middle"
	end    = "end"
)

func (p *pen) text(class, anchor string, size, x, y float64, s string) {
	if s == "" {
		return
	}
	p.open("text", class, 0)
	p.attr("x", num(x))
	p.attr("y", num(y))
	p.attr("font-size", num(size))
	if anchor != start {
		p.attr("text-anchor", anchor)
	}
	p.WriteString(">" + escape(s) + "</text>")
}

// d writes a path datum from commands and numbers: d("M", x, y, "H", x2).
func d(pieces ...any) string {
	var b strings.Builder
	space := false
	for _, piece := range pieces {
		switch v := piece.(type) {
		case string:
			b.WriteString(v)
			space = false
			continue
		case float64:
			if space {
				b.WriteByte(' ')
			}
			b.WriteString(num(v))
		case int:
			if space {
				b.WriteByte(' ')
			}
			b.WriteString(strconv.Itoa(v))
		}
		space = true
	}
	return b.String()
}

// svg wraps what was drawn. A named picture is an image to a screen reader; an
// unnamed one is hidden from it.
func svg(class string, w, h float64, name, body string) string {
	var p pen
	p.WriteString(`<svg xmlns="http://www.w3.org/2000/svg"`)
	p.attr("class", class)
	p.attr("viewBox", "0 0 "+num(w)+" "+num(h))
	p.attr("width", num(w))
	p.attr("height", num(h))
	if name == "" {
		p.attr("aria-hidden", "true")
	} else {
		p.attr("role", "img")
		p.attr("aria-label", name)
	}
	p.attr("focusable", "false")
	p.WriteString(">" + body + "</svg>")
	return p.String()
}
