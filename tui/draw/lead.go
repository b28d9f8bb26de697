package draw

import (
	"cmp"
	"slices"
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	view "build.example/turflast/schedule/show/window"
	"build.example/turflast/schedule/show/wording"
)

// lead fills the lines [y, end) under the chain: with what is said of the chosen activity,
// else with the cause of what breaks, else with the names of the chain's links.
func (w *window) lead(y, end int) {
	width := min(w.size.Width-2, 2*storyWidth)
	var lines []page.Text
	switch {
	case w.has(w.look.Chosen):
		lines = Lines(w.g.story(w.look.Chosen), width, page.Rows)
	case Alarm(w.g):
		lines = w.g.cause(width, end-y)
	default:
		w.names(y, end)
		return
	}
	w.low = 0
	w.say(y, end, lines, width)
}

// say writes lines on [y, end). Where they are more it says so at the end of the last.
func (w *window) say(y, end int, lines []page.Text, width int) {
	for at := y; at < end; at++ {
		to := w.lineX
		if i := at - y; i < len(lines) {
			to = max(to, Columns(lines[i].String())+2)
		}
		w.fill(1, to, at, " ", Plain)
	}
	for i, line := range lines {
		switch {
		case y+i >= end:
			return
		case y+i == end-1 && i < len(lines)-1:
			more := wording.MoreLines(len(lines) - i - 1)
			text := view.CutWords(screen{}, line.String(), width-Columns(more)-2)
			w.put(w.put(1, y+i, strings.TrimRight(text, " "), looks[line.Role()])+2, y+i, more, Quiet)
		default:
			w.line(1, y+i, line, width)
		}
	}
}

// cause says what breaks by its cause: a line for the root, one for how far it runs, one
// for what mends it; the first two on one where there are fewer rows.
func (g *Garden) cause(width, rows int) []page.Text {
	d := &page.Document{}
	if root := g.root(); root != "" {
		d.Add(page.Paragraph{Mark: page.BreakMark, Text: page.As(page.Late, root)})
	}
	if n := len(g.Programme.Breaks); n > 0 {
		d.Say(Clean(g.Words.BreakAndMore(g.worst(), n-1)))
	}
	if g.Mends != nil && len(g.Mends.Mends) > 0 {
		d.Mark(markMend, Clean(g.Words.Mend(g.Programme, g.Mends.Mends[0])))
	} else {
		d.Add(g.mendLines(1)...)
	}
	return oneEach(d, width, rows)
}

// oneEach lays every block out on one line as long as there are no more rows than blocks.
func oneEach(d *page.Document, width, rows int) []page.Text {
	lines := Lines(d, width, page.Rows)
	if len(lines) <= rows {
		return lines
	}
	var out []page.Text
	for _, b := range d.Blocks {
		one := Lines(&page.Document{Blocks: []page.Block{b}}, width, page.Rows)
		if len(one) > 1 {
			one[0] = page.As(one[0].Role(), view.CutWords(screen{}, one[0].String()+" …", width))
		}
		if len(one) > 0 {
			out = append(out, one[0])
		}
	}
	return out
}

// root says where what breaks begins: with what has no place, or the first step of what led
// to the worst of it.
func (g *Garden) root() string {
	if len(g.Programme.Blocked) > 0 || len(g.Programme.Breaks) == 0 || len(g.why(g.worst().Activity)) == 0 {
		return Clean(g.Words.Verdict(g.Programme))
	}
	if said := g.logged(g.worst()); said != "" {
		return said
	}
	return Clean(g.Words.CauseOf(g.Programme, g.worst().Activity))
}

// logged says what happened on site that made a date late, as the log and the newest
// baseline tell; empty where they don't.
func (g *Garden) logged(b schedule.Break) string {
	if g.Agreed == nil || g.Trial != nil {
		return ""
	}
	for i := range g.Agreed.traces {
		t := &g.Agreed.traces[i]
		if t.Break != nil && *t.Break != b || t.Break == nil && b.Kind != schedule.BreakHandover {
			continue
		}
		if said := g.Words.Traced(t); len(said) > 0 {
			return Clean(said[len(said)-1])
		}
	}
	return ""
}

// worst returns the broken date that weighs most; of those, the one that is missed last.
func (g *Garden) worst() schedule.Break {
	return slices.MaxFunc(g.Programme.Breaks, func(a, b schedule.Break) int {
		return cmp.Or(cmp.Compare(b.Kind, a.Kind), cmp.Compare(a.Actual, b.Actual))
	})
}
