package draw

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// Chrome is what surrounds every view: the garden, the tabs and the margin above, the
// messages and the hand-over below.
type Chrome struct {
	Garden   string
	Tabs     []string
	Tab      int // index in Tabs of the view that is shown
	Status   string
	Alarm    bool // a date breaks or work is blocked
	Working  bool // a programme is looked for: the figures are those before it
	Hint     string
	Keys     string // what the view's main keys do
	Messages []page.Text
}

// footRows is the height of the rule, the messages and the hand-over.
func (c *Chrome) footRows() int { return footRows + len(c.Messages) }

// head writes the garden's name and the tabs at the left, up to column end, and returns
// the column after them. Without room for all tabs, close together, it writes only the one
// that is shown.
func (c *Chrome) head(cv *canvas, end int) int {
	tabs, x := c.tabs(end)
	cv.put(1, 0, c.name(end), Strong)
	for _, t := range tabs {
		st := Quiet
		if t.tab == c.Tab {
			st = Strong
		}
		cv.put(t.from, 0, t.text, st)
	}
	return x
}

// TabAt returns the view whose name stands at a column of the first line of a frame; -1
// where none does.
func (c *Chrome) TabAt(g *Garden, s Size, x int) int {
	end := s.Width
	if g != nil {
		words, _ := MarginWords(g)
		if c.Working {
			words += " " + markWorking
		}
		end -= 2 + Columns(words) + 2
	}
	tabs, _ := c.tabs(end)
	for _, t := range tabs {
		if x >= t.from && x < t.from+Columns(t.text) {
			return t.tab
		}
	}
	return -1
}

// tabText is the name of a view where it stands on the first line.
type tabText struct {
	tab, from int
	text      string
}

// name is the garden's name as it fits the first line up to a column.
func (c *Chrome) name(end int) string { return Cut(Clean(c.Garden), max(end/3, 12)) }

// tabs places the names of the views.
func (c *Chrome) tabs(end int) (out []tabText, x int) {
	wide := 0
	for _, tab := range c.Tabs {
		wide += Columns(tab) + 4
	}
	name, gap := c.name(end), 2
	if Columns(name)+1+wide+2 >= end {
		gap = 1
	}
	all := Columns(name)+3+wide-(2-gap)*len(c.Tabs) < end
	x = 1 + Columns(name) + 2
	for i, tab := range c.Tabs {
		if i == c.Tab {
			tab = strings.ToUpper(tab)
		} else if !all {
			continue
		}
		t := tabText{i, x, fmt.Sprint(i+1) + " " + tab}
		out, x = append(out, t), x+Columns(t.text)+gap
	}
	return out, x
}

// foot writes the rule, the messages and the hand-over at the foot.
func (c *Chrome) foot(cv *canvas) {
	y := cv.h - c.footRows()
	cv.fill(0, cv.w, y, markRule, Quiet)
	for i, m := range c.Messages {
		text := m.String()
		x := 1 + len(text) - len(strings.TrimLeft(text, " "))
		cv.line(x, y+1+i, page.As(m.Role(), Clean(text)), cv.w-1-x)
	}
	st := Strong
	switch {
	case c.Working:
		st = Quiet
	case c.Alarm:
		st = Warm
	}
	room := cv.w - 2
	if w := Columns(c.Hint); w > 0 && w+2 < room {
		cv.put(cv.w-1-w, cv.h-1, c.Hint, Quiet)
		room -= w + 2
	}
	cv.put(1, cv.h-1, cutClause(c.Status, room), st)
}

// cutClause drops clauses from the end of a text until it fits w columns.
func cutClause(s string, w int) string {
	for Columns(s) > w {
		i := strings.LastIndex(s, " · ")
		if i < 0 {
			return Cut(s, w)
		}
		s = s[:i]
	}
	return s
}

// MarginWords returns the margin to the hand-over in a few words, and whether it is
// late. It adds the margin before a trial if that differs, and says when the margin is
// only that of logic.
func MarginWords(g *Garden) (words string, late bool) {
	words, late = marginWords(g)
	if g.Trial != nil {
		if was, _ := marginWords(g.Trial.before); was != words {
			words = was + " → " + words
		}
	}
	if g.Programme.Scope == schedule.Logic {
		words = "logic: " + words
	}
	return words, late
}

func marginWords(g *Garden) (words string, late bool) {
	return g.Words.InHand(g.Programme), g.Programme.Finish == calendars.Never || g.Programme.Handover.Time < 0
}

// top writes the top line: the garden, the tabs and the margin, which is drawn to scale
// at the hand-over line, column x, with its words beside it.
func (c *Chrome) top(cv *canvas, g *Garden, r *ruler, x, pan int) {
	words, late := MarginWords(g)
	st, at := Margin, x
	if late {
		st = Short
	}
	if c.Working {
		st, words = Quiet, words+" "+markWorking
	}
	words = " " + words + " "
	from := c.head(cv, x-Columns(words))
	mark := markLine
	if r != nil && r.at-pan > x {
		mark = markMore // the line is beyond the frame
	} else if r != nil && g.Programme.Finish.IsReal() {
		done := r.end(g.Programme.Finish) - pan
		if done < x {
			at = max(done, from+Columns(words))
			cv.fill(at, x, 0, markGap, Line)
		} else if late {
			cv.fill(x+1, max(done, x+2), 0, markBeyond, Warm)
		}
	}
	cv.put(max(at-Columns(words), from), 0, words, st)
	cv.set(x, 0, mark, Line)
}

// Status returns the words of the bottom line: the hand-over, how many answers the forecast
// waits for and, if the plan has one and it fits the width in columns, the aim.
func Status(g *Garden, width int) string {
	s := Clean(g.Words.Line(g.Programme))
	if n := g.unanswered(); n > 0 {
		s += " · waits for " + wording.Count(n, "answer", "answers")
	}
	if aim := Clean(strings.TrimSuffix(g.Words.Aim(g.Programme), ".")); aim != "" && Columns(s+aim)+3 <= width {
		s += " · " + aim
	}
	return s
}

// Alarm says whether a date breaks or work is blocked.
func Alarm(g *Garden) bool { return len(g.Programme.Breaks) > 0 || g.Programme.Blocked != nil }
