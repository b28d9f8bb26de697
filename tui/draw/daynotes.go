package draw

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/issue"
)

// duties lists the daily duties of the crew.
func (g *Garden) duties(look DayLook, width int) []paragraph {
	var lines []page.Block
	for i := range g.Plan.Duties {
		d := &g.Plan.Duties[i]
		if look.Date < d.From || look.Date > d.To || !needs(d.Crew, look.Crew) {
			continue
		}
		for _, n := range d.Crew {
			if n.Crew == look.Crew {
				at := fmt.Sprintf("%02d:%02d-%02d:%02d", d.At.From/60, d.At.From%60, d.At.To/60, d.At.To%60)
				text := fmt.Sprintf("%s  %s, %d of the crew, every day", at, strings.ReplaceAll(d.ID, "-", " "), n.Least)
				if done := g.sheets().DutyDone(d, look.Date); done != nil {
					text += ", " + Clean(g.Words.DutyDone(done))
				}
				lines = append(lines, page.Whole(page.As(page.Plain, text)))
			}
		}
	}
	return titled("Daily", width, lines)
}

// through lists the lorries of the day, in and out.
func (g *Garden) through(look DayLook, width int) []paragraph {
	var lines []page.Block
	for _, d := range g.Gate(look.Date) {
		mark, st := lorryMark(&g.Plan.Deliveries[d]), page.Plain
		if g.Plan.Arrived(d) {
			mark, st = markTicked, page.Quiet
		}
		unload := g.Plan.Unload(d)
		text := fmt.Sprintf("%s  %3d %s %s", g.clock(g.arrives(d)), g.Number(unload), mark, g.Name(unload))
		lines = append(lines, page.Whole(page.As(st, Cut(text, width-3))))
	}
	return titled("Through the gate", width, lines)
}

// Gate lists the deliveries that arrive on a date, the earliest first. It leaves out
// what the filter hides.
func (g *Garden) Gate(on calendars.Date) []schedule.DeliveryID {
	var out []schedule.DeliveryID
	for i := range g.Plan.Deliveries {
		if d := schedule.DeliveryID(i); g.Date(g.arrives(d)) == on && g.Shown(g.Plan.Unload(d)) {
			out = append(out, d)
		}
	}
	slices.SortStableFunc(out, func(a, b schedule.DeliveryID) int { return cmp.Compare(g.arrives(a), g.arrives(b)) })
	return out
}

// noted lists the notes of the date that belong to no activity, and all open snags.
func (g *Garden) noted(look DayLook, width int) []paragraph {
	var lines []page.Block
	book := g.sheets()
	for _, n := range book.Notes {
		if n.Activity == schedule.Nothing && g.Date(n.At) == look.Date {
			lines = append(lines, hanging(page.Plain, fmt.Sprintf("%s %s (%s)", g.clock(n.At), n.Text, n.By)))
		}
	}
	for _, s := range book.Snags {
		where := ""
		if s.Task >= 0 {
			where = g.Name(s.Task.Activity()) + ": "
		}
		text := fmt.Sprintf("Snag, open since %s: %s%s", g.Words.Moment(s.Opened), where, s.Text)
		lines = append(lines, hanging(page.Plain, text))
	}
	return titled("Noted", width, lines)
}

// leftOut lists the crew's tasks that the programme leaves out, and why.
func (g *Garden) leftOut(look DayLook, width int) []paragraph {
	var lines []page.Block
	for i := range g.Plan.Tasks {
		if !g.Programme.Tasks[i].Dropped || !needs(g.Plan.Tasks[i].Crew, look.Crew) {
			continue
		}
		lines = append(lines, hanging(page.Quiet, g.Words.Why(g.Programme, schedule.TaskID(i))))
	}
	return titled("Left out", width, lines)
}

// notYet lists the crew's next three tasks after this day, and why each starts no
// earlier.
func (g *Garden) notYet(look DayLook, width int) []paragraph {
	to, _ := calendars.At(g.Plan.Site.Location, look.Date+1, 0)
	var next []schedule.TaskID
	for i := range g.Plan.Tasks {
		t := schedule.TaskID(i)
		if g.Shown(t.Activity()) && needs(g.Plan.Tasks[i].Crew, look.Crew) && g.Programme.Tasks[i].Start >= to {
			next = append(next, t)
		}
	}
	slices.SortStableFunc(next, func(a, b schedule.TaskID) int {
		return cmp.Compare(g.Programme.Tasks[a].Start, g.Programme.Tasks[b].Start)
	})
	var lines []page.Block
	for _, t := range next[:min(len(next), 3)] {
		lines = append(lines, hanging(page.Quiet, g.Words.Why(g.Programme, t)))
	}
	return titled("Not yet", width, lines)
}

// cautions lists the usual cautions for the hazards of the shifts, each hazard once.
func (g *Garden) cautions(shifts []Shift, width int) []paragraph {
	var lines []page.Block
	seen := map[string]bool{}
	for _, s := range shifts {
		t, ok := g.Plan.Task(s.Activity)
		if !ok {
			continue
		}
		for _, h := range g.Plan.Tasks[t].Hazards {
			text := g.Words.Caution(h)
			if seen[h] || text == "" {
				continue
			}
			seen[h] = true
			lead := strings.ToUpper(h[:1]) + h[1:] + ": "
			lines = append(lines, hanging(page.Plain, lead+text))
		}
	}
	return titled("Take care", width, lines)
}

// sky says which weather is logged for the day, and explains which the shifts need.
func (g *Garden) sky(look DayLook, shifts []Shift, width int) []paragraph {
	var tasks []schedule.TaskID
	for _, s := range shifts {
		if t, ok := g.Plan.Task(s.Activity); ok {
			tasks = append(tasks, t)
		}
	}
	var lines []page.Block
	text := strings.TrimSpace(g.Words.WeatherLogged(g.sheets(), look.Date) + " " + g.Words.Weather(tasks))
	if text != "" {
		lines = append(lines, page.Paragraph{Text: page.As(page.Plain, text)})
	}
	return titled("Weather", width, lines)
}

// tired says where the crew's hours go over published guidance.
func (g *Garden) tired(look DayLook, width int) []paragraph {
	var lines []page.Block
	for _, t := range g.sheets().Tired(look.Date, look.Crew) {
		lines = append(lines, page.Paragraph{Mark: page.BreakMark, Text: page.As(page.Plain, g.Words.Tired(t))})
	}
	return titled("Hours over guidance", width, lines)
}

// free says who of the crew has nothing to do, and when.
func (g *Garden) free(look DayLook, width int) []paragraph {
	text := g.Words.Free(look.Crew, g.sheets().Free(look.Date, look.Crew))
	if text == "" {
		return nil
	}
	return titled(wording.FreeTitle, width, []page.Block{hanging(page.Plain, Clean(text))})
}

// standing returns how what a crew, or everyone, is told now stands to what was issued.
func (g *Garden) standing(crew schedule.CrewID) issue.Standing {
	s, known := g.stands[crew]
	if !known {
		if g.stands == nil {
			g.stands = make(map[schedule.CrewID]issue.Standing)
		}
		s = issue.Stand(g.Issues, issue.Freeze(g.Case, nil, nil), sheets.Told(g.Plan, crew)...)
		g.stands[crew] = s
	}
	return s
}

// issued says which issue the day's sheet is of; nothing before the first.
func (g *Garden) issued(look DayLook, width int) []paragraph {
	if len(g.Issues) == 0 {
		return nil
	}
	id := ""
	if look.Crew != Everyone {
		id = g.Plan.Crews[look.Crew].ID
	}
	text := Clean(g.Words.IssueLine(g.standing(look.Crew), id))
	return titled("Sheets", width, []page.Block{hanging(page.Plain, text)})
}

// hanging returns a paragraph that is indented after its first line.
func hanging(role page.Role, text string) page.Block {
	return page.Paragraph{Hang: 2, Text: page.As(role, text)}
}

// titled puts a heading over blocks of text; without any it returns no paragraph.
func titled(title string, width int, said []page.Block) []paragraph {
	if len(said) == 0 {
		return nil
	}
	head := page.Whole(page.As(page.Quiet, strings.ToUpper(title)))
	return []paragraph{{lines: told(width-4, append([]page.Block{head}, said...)...)}}
}
