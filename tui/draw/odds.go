package draw

import (
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/show/report"
)

// The most columns that the words of the odds take, and rows their picture; the
// rows of a page that aren't the picture's.
const (
	oddsWidth  = 80
	oddsRows   = 10
	oddsBeside = 15
)

// OddsLines are what came of many builds of a garden's crew programme, for a
// size: the chance, a picture of it, and what drives the risk.
func OddsLines(g *Garden, programme *schedule.Programme, o *odds.Result, s Size) []Message {
	var out []Message
	r := report.New(g.With(programme))
	rows := min(max(s.Height-oddsBeside, 4), oddsRows)
	for _, l := range r.OddsLines(o, min(max(s.Width-2, 1), oddsWidth), rows) {
		st := Plain
		switch {
		case l.Heading:
			st = Strong
		case l.Picture:
			st = Dots
		case l.Breaks:
			st = Warm
		}
		text := strings.TrimLeft(l.Text, " ")
		out = append(out, Message{Text: l.Text[:len(l.Text)-len(text)] + Clean(text), Style: st})
	}
	return out
}

// dots gives the marks on a line of a picture their styles, from column x on.
func (c *canvas) dots(x, y int) {
	for ; x < c.w; x++ {
		at := &c.cells[y*c.w+x]
		switch at.text {
		case markBuilt:
			at.style = Work
		case markBuiltLate, markNeverBuilt:
			at.style = Warm
		case markLine:
			at.style = Line
		case markRule:
			at.style = Quiet
		}
	}
}

// The marks of builds in the picture, as package report draws them.
const (
	markBuilt      = "●"
	markBuiltLate  = "○"
	markNeverBuilt = "×"
)
