package report

import (
	"bufio"
	"strings"

	"github.com/mattn/go-runewidth"

	blocks "build.example/turflast/schedule/show/page"
)

// pageWidth is the widest line, in columns; momentWidth the widest moment
// within a year.
const (
	pageWidth   = 80
	momentWidth = len("Fri 30 Apr 07:00")
)

// page lays text out in lines. Its writer keeps the first error.
type page struct {
	out   *bufio.Writer
	width int                              // in columns; 0 for pageWidth
	kind  lineKind                         // of the lines being laid out
	take  func(line string, kind lineKind) // takes them; nil: they are written
}

// breakMark stands before a date that breaks.
const breakMark = "! "

// lineKind says what a line is.
type lineKind uint8

const (
	plainLine lineKind = iota
	headingLine
	pictureLine
	breakLine // a date that breaks
)

// wide is how wide the widest line may be.
func (w *page) wide() int {
	if w.width == 0 {
		return pageWidth
	}
	return w.width
}

// line writes one line without spaces at its end.
func (w *page) line(s string) {
	s = strings.TrimRight(s, " ")
	if w.take != nil {
		w.take(s, w.kind)
		return
	}
	w.out.WriteString(s)
	w.out.WriteByte('\n')
}

// heading starts a section.
func (w *page) heading(s string) {
	w.line("")
	w.kind = headingLine
	for _, part := range wrap(strings.ToUpper(s), w.wide()) {
		w.line(part)
	}
	w.kind = plainLine
}

// paragraph writes text broken at spaces, with a mark before its first line and
// the others indented by as much.
func (w *page) paragraph(mark, text string) {
	if mark == breakMark {
		w.kind = breakLine
	}
	w.hanging(runewidth.StringWidth(mark), mark, text)
	w.kind = plainLine
}

// hanging writes text broken at spaces beside a margin of so many columns that
// holds a label.
func (w *page) hanging(margin int, label, text string) {
	label = pad(label, margin)
	for _, part := range wrap(text, w.wide()-max(margin, runewidth.StringWidth(label))) {
		w.line(label + part)
		label = strings.Repeat(" ", margin)
	}
}

// row is a line of a table: a label of so many columns, text broken at spaces,
// and a figure at the right of its first line.
func (w *page) row(margin int, label, text, figure string) {
	for i, part := range wrap(text, floatColumn-margin-1) {
		if i == 0 {
			w.line(pad(label+part, floatColumn) + figure)
			continue
		}
		w.line(pad("", margin) + part)
	}
}

// beside is the heading of a table, with that of its figures at the right.
func (w *page) beside(text, figures string) { w.row(0, "", text, figures) }

// pad fills s with spaces to so many columns.
func pad(s string, columns int) string {
	return s + strings.Repeat(" ", max(0, columns-runewidth.StringWidth(s)))
}

// wrap breaks text at spaces into lines of at most so many columns, never within
// a figure; a word that is longer is broken too. There is at least one line.
func wrap(text string, columns int) []string {
	var lines []string
	at := ""
	for _, word := range blocks.Words(text) {
		switch {
		case at == "":
			at = word
		case runewidth.StringWidth(at)+1+runewidth.StringWidth(word) <= columns:
			at += " " + word
		default:
			lines, at = append(lines, at), word
		}
		for runewidth.StringWidth(at) > columns {
			head := runewidth.Truncate(at, columns, "")
			if head == "" {
				break
			}
			lines, at = append(lines, head), at[len(head):]
		}
	}
	return append(lines, at)
}

// columns writes cells side by side, two columns between them, each broken at
// spaces to its width.
func (w *page) columns(widths []int, cells ...string) {
	parts := make([][]string, len(cells))
	lines := 1
	for i, cell := range cells {
		parts[i] = wrap(cell, widths[i])
		lines = max(lines, len(parts[i]))
	}
	for k := range lines {
		var b strings.Builder
		for i, part := range parts {
			text := ""
			if k < len(part) {
				text = part[k]
			}
			b.WriteString(pad(text, widths[i]+2))
		}
		w.line(b.String())
	}
}
