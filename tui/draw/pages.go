package draw

import (
	"fmt"

	"build.example/turflast/schedule/show/page"
)

// The smallest frame that a view is drawn on, in columns and lines.
const (
	minWidth  = 60
	minHeight = 15
)

// tooSmall returns a notice for a terminal too small for any view; ok is false for a
// larger one.
func tooSmall(s Size) (frame string, ok bool) {
	if s.Width >= minWidth && s.Height >= minHeight {
		return "", false
	}
	cv := newCanvas(s)
	text := fmt.Sprintf("Too small: turflast needs %d columns and %d lines. q quits.", minWidth, minHeight)
	lines := told(s.Width-2, page.Paragraph{Text: page.As(page.Plain, text)})
	y := max((s.Height-len(lines))/2, 0)
	for i, l := range lines {
		cv.line(max((s.Width-Columns(l.String()))/2, 0), y+i, l, s.Width)
	}
	return cv.render(Theme{}), true
}

// Page draws a screen of plain lines, such as the help: a heading and, below it, as many
// lines from line top on as fit.
func Page(c Chrome, heading string, lines []page.Text, top int, s Size, th Theme) string {
	if small, ok := tooSmall(s); ok {
		return small
	}
	cv := newCanvas(s)
	c.head(cv, s.Width)
	cv.put(1, 2, Cut(Clean(heading), s.Width-2), Strong)
	foot := s.Height - c.footRows()
	for i, y := top, 4; i < len(lines) && y < foot; i, y = i+1, y+1 {
		cv.line(1, y, lines[i], s.Width-2)
	}
	c.foot(cv)
	return cv.render(th)
}

// Print returns a document laid out for a width in columns, with a line break after each
// line.
func Print(d *page.Document, width int, th Theme) string {
	lines := Lines(d, width, page.Rows)
	cv := newCanvas(Size{width, len(lines)})
	for y, l := range lines {
		cv.line(0, y, l, width)
	}
	return cv.render(th) + "\n"
}

// line draws a line from column x on, each span in the style of its role. A line too
// long for the columns is cut and drawn in one style.
func (c *canvas) line(x, y int, line page.Text, columns int) {
	if text := line.String(); Columns(text) > columns {
		line = page.As(line.Role(), Cut(text, columns))
	}
	for _, span := range line {
		x = c.put(x, y, span.Text, looks[span.Role])
	}
}
