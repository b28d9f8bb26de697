package report

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/show/page"
)

// The marks of a picture of builds.
const (
	dotBefore = "●" // done by the line
	dotBeyond = "○"
	dotNever  = "×" // some work has no place
	oddsLine  = "┃"
)

// oddsPicture is a hundred dots piled where they finish, by site time, before and
// beyond the line.
type oddsPicture struct {
	piles   []int // dots of each stretch of site time
	line    int   // stretches up to the line
	wide    int   // dots side by side in a pile
	stretch calendars.Minutes
	never   int
	high    int // the most rows of dots
}

// oddsMargin is how many columns of a page the piles leave free.
const oddsMargin = 8

// stretches are the lengths of site time that a pile may stand for.
var stretches = [...]calendars.Minutes{5, 10, 15, 30, 60, 120, 240, 480, 960, 1920, 3840, 7680, 15360, 1 << 20}

// newOddsPicture lays out the dots, at most rows high, in the shortest stretches with
// which they fit most columns, or else in the longest.
func (r *Report) newOddsPicture(dots []calendars.Instant, most, rows int) oddsPicture {
	var at []calendars.Minutes
	never := 0
	for _, d := range dots {
		if d.IsReal() {
			at = append(at, r.fromLine(d))
		} else {
			never++
		}
	}
	var p oddsPicture
	for _, stretch := range stretches {
		p = pile(at, stretch, rows)
		p.never = never
		columns := len(p.piles) * p.wide
		if never > 0 {
			columns += (never+rows-1)/rows + 2
		}
		if columns <= most {
			break
		}
	}
	return p
}

// fromLine is the site time from the hand-over to a moment, and at least 1 if that is
// later.
func (r *Report) fromLine(t calendars.Instant) calendars.Minutes {
	x := r.of.Hours.Site.Between(r.of.Plan.Site.Handover, t)
	if t > r.of.Plan.Site.Handover {
		return max(x, 1)
	}
	return x
}

func pile(at []calendars.Minutes, stretch calendars.Minutes, rows int) oddsPicture {
	place := func(x calendars.Minutes) int {
		if x > 0 {
			return int((x + stretch - 1) / stretch)
		}
		return -int(-x / stretch)
	}
	first, last := 0, 0
	for _, x := range at {
		first, last = min(first, place(x)), max(last, place(x))
	}
	p := oddsPicture{piles: make([]int, last-first+1), line: 1 - first, stretch: stretch, high: rows}
	most := 1
	for _, x := range at {
		p.piles[place(x)-first]++
		most = max(most, p.piles[place(x)-first])
	}
	p.wide = (most + rows - 1) / rows
	return p
}

// rows are the lines of the picture, without the days below it.
func (p *oddsPicture) rows() []page.Text {
	height := 1
	for _, n := range p.piles {
		height = max(height, (n+p.wide-1)/p.wide)
	}
	apart := (p.never + p.high - 1) / p.high
	if apart > 0 {
		height = max(height, (p.never+apart-1)/apart)
	}
	line := page.Span{Text: oddsLine, Role: page.Line}
	var out []page.Text
	for row := height - 1; row >= 0; row-- {
		t := page.Text{blank(2)}
		for k, n := range p.piles {
			if k == p.line {
				t = append(t, line)
			}
			dot := dotBefore
			if k >= p.line {
				dot = dotBeyond
			}
			t = append(t, dots(dot, n, row, p.wide)...)
		}
		if p.line == len(p.piles) {
			t = append(t, line)
		}
		if apart > 0 {
			t = append(append(t, blank(2)), dots(dotNever, p.never, row, apart)...)
		}
		out = append(out, t)
	}
	return out
}

// dots is one row, from 0 at the bottom, of a pile of n dots, wide side by side.
func dots(dot string, n, row, wide int) page.Text {
	here := min(max(n-row*wide, 0), wide)
	return page.Text{dotsOf(dot, here), blank(wide - here)}
}

// dotsOf is a row of n dots in their role: late unless they are done by the line.
func dotsOf(dot string, n int) page.Span {
	role := page.Work
	if dot != dotBefore {
		role = page.Late
	}
	return page.Span{Text: strings.Repeat(dot, n), Role: role}
}

// column is where pile k begins. The line stands just before pile p.line.
func (p *oddsPicture) column(k int) int {
	at := 2 + k*p.wide
	if k >= p.line {
		at++
	}
	return at
}

// drawOdds draws the picture: the line with its moment above, the days below.
func (r *Report) drawOdds(result *odds.Result, size page.Size) []page.Text {
	p := r.newOddsPicture(result.Dots[:], size.Width-oddsMargin, size.Rows)
	moment := "the line, " + r.words.Moment(r.of.Plan.Site.Handover)
	line := page.Span{Text: oddsLine, Role: page.Line}
	at := p.column(p.line) - 1
	top := page.Text{blank(at), line, {Text: " " + moment}}
	if at+2+len(moment) > size.Width {
		top = page.Text{blank(at - 1 - len(moment)), {Text: moment + " "}, line}
	}
	rule := func(n int) page.Span { return page.Span{Text: strings.Repeat("─", max(n, 0)), Role: page.Quiet} }
	lines := append([]page.Text{top}, p.rows()...)
	lines = append(lines, page.Text{rule(at), line, rule(p.column(len(p.piles)) - at - 1)})
	return append(lines, page.As(page.Plain, r.oddsDays(&p, size.Width)))
}

// blank is n spaces.
func blank(n int) page.Span { return page.Span{Text: strings.Repeat(" ", max(n, 0))} }

// oddsDays names the days that piles begin in, as many as the width has room for.
func (r *Report) oddsDays(p *oddsPicture, width int) string {
	line, site := r.of.Plan.Site.Handover, r.of.Hours.Site
	days, named := "", ""
	for k := range p.piles {
		from := site.Next(site.Add(line, calendars.Minutes(k-p.line)*p.stretch))
		if !from.IsReal() {
			continue
		}
		day := strings.Fields(r.words.Moment(from))
		label := day[0] + " " + day[1]
		at := p.column(k)
		if label == named || days != "" && len(days)+2 > at || at+len(label) > width {
			continue
		}
		days, named = fmt.Sprintf("%-*s%s", at, days, label), label
	}
	return days
}
