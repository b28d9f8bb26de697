package draw

import (
	"build.example/turflast/schedule/show/page"
)

// screen measures and cuts text as the terminal shows it, for the layout of pages.
type screen struct{}

func (screen) Columns(s string) int { return Columns(s) }

func (screen) Head(s string, columns int) string { return head(s, columns) }

// Clean leaves out what can't be drawn. It keeps spaces at the ends, which belong to the
// layout.
func (screen) Clean(s string) string { return page.Harmless(s) }

// looks holds the style of each role.
var looks = [...]Style{
	page.Plain: Plain, page.Quiet: Quiet, page.Strong: Strong, page.Chain: Chain, page.Work: Work,
	page.Living: Living, page.Tight: Warm, page.Late: Warm, page.Line: Line,
	page.Box: Strong, page.Sign: Quiet,
	page.ChainBar: OnChain, page.TightBar: OnTight, page.FreeBar: OnFree, page.DoneBar: OnDone, page.LateBar: OnLate,
}

// Lines lays a document out for a width in columns, with pictures at most rows lines
// high.
func Lines(d *page.Document, width, rows int) []page.Text {
	return d.Lines(page.Size{Width: max(width, 1), Rows: rows, On: screen{}})
}

// told lays blocks out for a width in columns.
func told(width int, blocks ...page.Block) []page.Text {
	return Lines(&page.Document{Blocks: blocks}, width, page.Rows)
}
