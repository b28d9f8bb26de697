package tui

import (
	"fmt"
	"slices"

	"github.com/charmbracelet/bubbles/key"

	"build.example/turflast/schedule/show/page"
	"build.example/turflast/tui/draw"
)

// helpLines returns the keys of every view and the marks.
func (a app) helpLines() []page.Text {
	d := &page.Document{}
	keyLines(d, "In every view", a.keys.list())
	day := a.day.Keys()
	if a.opts.Log != nil {
		day = append(slices.Clip(day), a.ticks.list()...)
	}
	for _, v := range []struct {
		name string
		keys []key.Binding
	}{
		{"Everywhere", a.moves.List()},
		{"In the window", a.window.Keys()}, {"In the day", day},
		{"What is chosen, tried otherwise", a.tryKeys.Steps()},
		{"While the what-if is open", a.tryKeys.List()},
	} {
		d.Space()
		keyLines(d, v.name, v.keys)
	}
	d.Space()
	return append(a.laid(d, 2), a.laid(draw.Legend(), 3)...)
}

// keyLines adds a heading and a line for each key.
func keyLines(d *page.Document, heading string, keys []key.Binding) {
	d.In(page.Strong, heading)
	for _, k := range keys {
		text := fmt.Sprintf("  %-6s %s", k.Help().Key, k.Help().Desc)
		d.Add(page.Whole(page.As(page.Plain, text)))
	}
}
