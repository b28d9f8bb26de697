package wall

import (
	"html"
	"strconv"
	"strings"
)

// canvas is a picture in SVG while it is drawn, in millimetres. All text that goes into it is
// escaped here.
type canvas struct {
	strings.Builder
}

func round(v float64) string {
	s := strconv.FormatFloat(v, 'f', 2, 64)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// tag writes an element without content: its name, a class, and pairs of names and lengths.
func (c *canvas) tag(name, class string, pairs ...any) {
	c.WriteString("<" + name)
	if class != "" {
		c.WriteString(` class="` + class + `"`)
	}
	for i := 0; i+1 < len(pairs); i += 2 {
		value := ""
		switch v := pairs[i+1].(type) {
		case float64:
			value = round(v)
		case string:
			value = v // of our own making
		}
		c.WriteString(" " + pairs[i].(string) + `="` + value + `"`)
	}
	c.WriteString("/>\n")
}

func (c *canvas) rect(class string, x, y, w, h float64) {
	c.tag("rect", class, "x", x, "y", y, "width", max(w, 0), "height", h)
}

func (c *canvas) line(class string, x1, y1, x2, y2 float64) {
	c.tag("path", class, "d", "M"+round(x1)+" "+round(y1)+"L"+round(x2)+" "+round(y2))
}

func (c *canvas) path(class, d string) { c.tag("path", class, "d", d) }

func (c *canvas) circle(class string, x, y, r float64) {
	c.tag("circle", class, "cx", x, "cy", y, "r", r)
}

func escape(s string) string { return html.EscapeString(s) }

// text writes a clean text from x on, on a base line. One whose width is sure takes that width
// in any font.
func (c *canvas) text(class string, f font, x, y float64, s string) float64 {
	return c.anchored(class, "", f, x, y, s)
}

// textEnd is text that ends at x.
func (c *canvas) textEnd(class string, f font, x, y float64, s string) float64 {
	return c.anchored(class, "end", f, x, y, s)
}

func (c *canvas) anchored(class, anchor string, f font, x, y float64, s string) float64 {
	w, sure := f.width(s)
	if s == "" {
		return 0
	}
	c.WriteString(`<text x="` + round(x) + `" y="` + round(y) + `" font-size="` + round(f.size) + `"`)
	if f.bold {
		class = strings.TrimSpace(class + " b")
	}
	if class != "" {
		c.WriteString(` class="` + class + `"`)
	}
	if anchor != "" {
		c.WriteString(` text-anchor="` + anchor + `"`)
	}
	if sure && len(s) > 2 {
		c.WriteString(` textLength="` + round(w) + `" lengthAdjust="spacingAndGlyphs"`)
	}
	c.WriteString(">" + escape(s) + "</text>\n")
	return w
}

// within draws what is drawn inside a window that cuts it off.
func (c *canvas) within(x, y, w, h float64, draw func()) {
	c.WriteString(`<svg x="` + round(x) + `" y="` + round(y) + `" width="` + round(w) + `" height="` + round(h) +
		`" viewBox="` + round(x) + " " + round(y) + " " + round(w) + " " + round(h) + `">` + "\n")
	draw()
	c.WriteString("</svg>\n")
}
