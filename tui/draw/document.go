package draw

import (
	"strings"

	"build.example/turflast/schedule/show/page"
)

// screen is the terminal as a page is laid out on it.
type screen struct{}

func (screen) Columns(s string) int { return Columns(s) }

func (screen) Head(s string, columns int) string { return head(s, columns) }

// Clean leaves out what can't be drawn; spaces at the ends are the layout's.
func (screen) Clean(s string) string { return strings.Map(drawable, s) }

// looks are the styles of roles.
var looks = [...]Style{
	page.Plain: Plain, page.Quiet: Quiet, page.Strong: Strong, page.Chain: Chain, page.Work: Work,
	page.Living: Living, page.Tight: Warm, page.Late: Warm, page.Line: Line,
}

// Lines lays a document out for a width, with pictures that are at most some rows high.
func Lines(d *page.Document, width, rows int) []page.Text {
	return d.Lines(page.Size{Width: max(width, 1), Rows: rows, On: screen{}})
}

// told is blocks of text laid out for a width.
func told(width int, blocks ...page.Block) []page.Text {
	return Lines(&page.Document{Blocks: blocks}, width, page.Rows)
}
