package tui

import (
	"fmt"
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"

	"build.example/turflast/schedule/show/page"
	"build.example/turflast/tui/draw"
)

// helpColumn is the least width of a column of the help, and helpGap what is free between
// two.
const (
	helpColumn = 38
	helpGap    = 2
)

// helpLines returns the keys, those of the view that is shown first, and the marks, in as
// many columns as there is room for.
func (a app) helpLines() []page.Text {
	n := max((a.size.Width-2)/helpColumn, 1)
	width := (a.size.Width-2)/n - helpGap
	columns := make([][]page.Text, n)
	for _, section := range a.helpSections() {
		at := 0 // the shortest column, the first of equals
		for c := range columns {
			if len(columns[c]) < len(columns[at]) {
				at = c
			}
		}
		if len(columns[at]) > 0 {
			columns[at] = append(columns[at], nil)
		}
		columns[at] = append(columns[at], draw.Lines(section, width, page.Rows)...)
	}
	return beside(columns, width+helpGap)
}

// beside puts columns of lines side by side, each of a width.
func beside(columns [][]page.Text, width int) []page.Text {
	var out []page.Text
	for i := 0; ; i++ {
		var line page.Text
		more := false
		for c, lines := range columns {
			if i >= len(lines) {
				continue
			}
			more = true
			free := c*width - draw.Columns(line.String())
			line = append(line, page.Span{Text: strings.Repeat(" ", max(free, 0))})
			line = append(line, lines[i]...)
		}
		if !more {
			return out
		}
		out = append(out, line)
	}
}

// helpSections are the parts of the help, each with a heading: what the view that is shown
// has of its own, what goes for all, what the others have, and the marks.
func (a app) helpSections() []*page.Document {
	k := a.keys
	day := a.day.Keys()
	if a.opts.Log != nil {
		day = slices.Concat(day, a.ticks.list())
	}
	own := map[tab]*page.Document{
		windowTab:     keySection("In the window", a.window.Keys()),
		dayTab:        keySection("In the day", day),
		deliveriesTab: keySection("What is chosen, tried otherwise", a.tryKeys.Steps()),
	}
	out := []*page.Document{
		keySection("Going about", slices.Concat(a.moves.List(), []key.Binding{k.Go, k.Close, k.Cause, k.Effect})),
		keySection("Views", slices.Concat(k.views(), []key.Binding{k.Next, k.Before})),
		keySection("Pages", []key.Binding{k.Pages, k.Tasks, k.Chain, k.Ways, k.Slip, k.Logged, k.Problems, k.Longer}),
		keySection("Finding", []key.Binding{k.Find, k.NextHit, k.LastHit, k.Filter}),
		keySection("Everywhere", []key.Binding{k.Drawer, k.Undo, k.Copy, k.Scope, k.Take, k.EndMends, k.Reload, k.Edit,
			k.Help, k.Suspend, k.Quit}),
	}
	if first := own[a.tab]; first != nil {
		out = slices.Insert(out, 0, first)
	}
	for t := range tabs {
		if t != a.tab && own[t] != nil {
			out = append(out, own[t])
		}
	}
	return append(out, keySection("While the what-if is open", a.tryKeys.List()), draw.Legend())
}

// keySection is a heading with a line for each key.
func keySection(heading string, keys []key.Binding) *page.Document {
	d := &page.Document{}
	d.In(page.Strong, heading)
	for _, k := range keys {
		d.Add(page.Paragraph{Mark: fmt.Sprintf("  %-6s ", k.Help().Key), Text: page.As(page.Plain, k.Help().Desc)})
	}
	return d
}
