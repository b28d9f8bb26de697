package draw

import (
	"fmt"
	"strings"

	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// The smallest frame that a view is drawn on, in columns and lines; the day and pages take
// fewer columns.
const (
	minWidth  = 60
	pageWidth = 40
	minHeight = 15
)

// tooSmall returns a notice for a terminal too small for a view; ok is false for a larger
// one.
func tooSmall(s Size) (frame string, ok bool) { return tooSmallFor(s, minWidth) }

// tooSmallFor is tooSmall for what takes so many columns.
func tooSmallFor(s Size, width int) (frame string, ok bool) {
	if s.Width >= width && s.Height >= minHeight {
		return "", false
	}
	cv := newCanvas(s)
	text := fmt.Sprintf("Too small: turflast needs %d columns and %d lines. q quits.", width, minHeight)
	if s.Width >= pageWidth && s.Height >= minHeight {
		text = fmt.Sprintf("Too small: turflast needs %d columns and %d lines. %d do for the day: 2 shows it. q quits.",
			width, minHeight, pageWidth)
	}
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
	return List(c, heading, lines, PageLook{Top: top}, s, th)
}

// PageLook is how a page is looked at: its first line in sight, the line that is chosen,
// counted from 1, where 0 means none, and the words that are looked for on it.
type PageLook struct {
	Top, Chosen int
	Find        string
}

// pageHead is how many rows a page has above its lines.
const pageHead = 4

// PageRoom is how many lines of a page are in sight.
func PageRoom(c Chrome, s Size) int { return max(s.Height-pageHead-c.footRows(), 1) }

// PageLine is the line of a page at a place on the screen, from 0; -1 where there is none.
func PageLine(c Chrome, look PageLook, s Size, y int) int {
	if y < pageHead || y >= pageHead+PageRoom(c, s) {
		return -1
	}
	return look.Top + y - pageHead
}

// List is [Page] with a line that is chosen, or with words that are looked for. What lies
// above and below the frame is counted beside the heading.
func List(c Chrome, heading string, lines []page.Text, look PageLook, s Size, th Theme) string {
	if small, ok := tooSmallFor(s, pageWidth); ok {
		return small
	}
	cv := newCanvas(s)
	c.head(cv, s.Width)
	x := cv.put(1, 2, Cut(Clean(heading), s.Width-2), Strong)
	room := PageRoom(c, s)
	cv.put(x+2, 2, Cut(moreWords(look.Top, len(lines)-look.Top-room), max(s.Width-x-4, 0)), Quiet)
	for i, y := look.Top, pageHead; i < len(lines) && y < pageHead+room; i, y = i+1, y+1 {
		if i+1 == look.Chosen {
			cv.set(0, y, markChosen, Strong)
		}
		cv.line(1, y, lines[i], s.Width-2)
		cv.mark(y, lines[i].String(), look.Find)
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

// moreWords says how many lines are above and below what is in sight.
func moreWords(above, below int) string {
	switch {
	case above > 0 && below > 0:
		return wording.Count(above, "line", "lines") + fmt.Sprintf(" above, %d below", below)
	case above > 0:
		return wording.Count(above, "line", "lines") + " above"
	case below > 0:
		return wording.Count(below, "line", "lines") + " below"
	}
	return ""
}

// mark draws the words that are looked for in the style of what is chosen, wherever they
// stand in a line of a page.
func (c *canvas) mark(y int, line, find string) {
	find, line = strings.ToLower(find), strings.ToLower(line)
	for at := 0; find != ""; {
		i := strings.Index(line[at:], find)
		if i < 0 {
			return
		}
		from := 1 + Columns(line[:at+i])
		at += i + len(find)
		for x := from; x < 1+Columns(line[:at]) && c.in(x, y); x++ {
			c.cells[y*c.w+x].style = Chosen
		}
	}
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
