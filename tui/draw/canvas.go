package draw

import "strings"

// canvas is a grid of cells. Whatever is drawn outside it is cut off, so a frame always
// has the size that was asked for.
type canvas struct {
	w, h  int
	low   int // nothing is drawn left of this column
	cells []cell
}

// cell is one column of one line: a character, the second column of a wide
// one, or empty.
type cell struct {
	text  string // empty: a space
	style Style
	used  bool // something is drawn here, even a space
	wide  bool // text takes this column and the next
	tail  bool // the second column of the wide character on the left
}

func newCanvas(s Size) *canvas {
	w, h := max(s.Width, 0), max(s.Height, 0)
	return &canvas{w: w, h: h, cells: make([]cell, w*h)}
}

// Size is the size of a frame, in columns and lines.
type Size struct{ Width, Height int }

func (c *canvas) in(x, y int) bool { return x >= c.low && x < c.w && y >= 0 && y < c.h }

// blank says whether the cell at x, y is free to draw on; one outside the canvas never
// is.
func (c *canvas) blank(x, y int) bool {
	if !c.in(x, y) {
		return false
	}
	return !c.cells[y*c.w+x].used
}

// set draws a mark of one column.
func (c *canvas) set(x, y int, mark string, st Style) {
	if !c.in(x, y) {
		return
	}
	c.free(x, y)
	if mark == " " {
		mark = ""
	}
	c.cells[y*c.w+x] = cell{text: mark, style: st, used: true}
}

// free empties a cell, and the other half of a wide character in it.
func (c *canvas) free(x, y int) {
	at := &c.cells[y*c.w+x]
	if at.tail && x > 0 {
		c.cells[y*c.w+x-1] = cell{style: at.style, used: true}
	}
	if at.wide && x+1 < c.w {
		c.cells[y*c.w+x+1] = cell{style: at.style, used: true}
	}
	*at = cell{}
}

// fill draws a mark over the columns [from, to).
func (c *canvas) fill(from, to, y int, mark string, st Style) {
	for x := max(from, 0); x < min(to, c.w); x++ {
		c.set(x, y, mark, st)
	}
}

// put writes clean text from column x on and returns the column after it. A
// wide character that would be cut in half becomes a space.
func (c *canvas) put(x, y int, text string, st Style) int {
	from := x
	for text != "" {
		cluster, w := character(text)
		switch {
		case w > 0:
			c.cluster(x, y, cluster, w, st)
		case x > from && c.in(x-1, y):
			c.combine(x-1, y, cluster)
		}
		x, text = x+w, text[len(cluster):]
	}
	return x
}

// combine adds a character of no width, such as an accent, to the character that ends at
// x.
func (c *canvas) combine(x, y int, accent string) {
	at := &c.cells[y*c.w+x]
	if at.tail && x > 0 {
		at = &c.cells[y*c.w+x-1]
	}
	if at.text != "" {
		at.text += accent
	}
}

func (c *canvas) cluster(x, y int, cluster string, w int, st Style) {
	switch {
	case w == 1:
		c.set(x, y, cluster, st)
	case w == 2 && c.in(x, y) && c.in(x+1, y):
		c.free(x, y)
		c.free(x+1, y)
		c.cells[y*c.w+x] = cell{text: cluster, style: st, used: true, wide: true}
		c.cells[y*c.w+x+1] = cell{style: st, used: true, tail: true}
	case w == 2:
		c.set(x, y, " ", st)
		c.set(x+1, y, " ", st)
	}
}

// render returns the canvas as text: h lines without the spaces at their ends, except
// those that are chosen or part of a bar.
func (c *canvas) render(th Theme) string {
	var b strings.Builder
	b.Grow(len(c.cells) * 2)
	for y := range c.h {
		if y > 0 {
			b.WriteByte('\n')
		}
		renderLine(&b, c.cells[y*c.w:(y+1)*c.w], th)
	}
	return b.String()
}

// shown returns a cell's character as the terminal shows it.
func (t Theme) shown(c cell) string {
	switch {
	case c.text == "":
		return " "
	case t.ascii:
		return asciiFor(c)
	}
	return c.text
}

func renderLine(b *strings.Builder, line []cell, th Theme) {
	end := len(line)
	for end > 0 && line[end-1].text == "" && !line[end-1].tail && line[end-1].style < Chosen {
		end--
	}
	now := Plain
	for _, at := range line[:end] {
		if at.tail {
			continue
		}
		if st := at.style; st != now && th.begin[st] != th.begin[now] {
			if th.begin[now] != "" {
				b.WriteString(reset)
			}
			b.WriteString(th.begin[st])
		}
		now = at.style
		b.WriteString(th.shown(at))
	}
	if th.begin[now] != "" {
		b.WriteString(reset)
	}
}
