package draw

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
)

// duties are the daily duties of the crew.
func (g *Garden) duties(look DayLook) []paragraph {
	var lines []page.Text
	for _, d := range g.Plan.Duties {
		if look.Date < d.From || look.Date > d.To || !needs(d.Crew, look.Crew) {
			continue
		}
		for _, n := range d.Crew {
			if n.Crew == look.Crew {
				at := fmt.Sprintf("%02d:%02d-%02d:%02d", d.At.From/60, d.At.From%60, d.At.To/60, d.At.To%60)
				lines = append(lines, page.As(page.Plain, fmt.Sprintf("%s  %s, %d of the crew, every day", at, Clean(strings.ReplaceAll(d.ID, "-", " ")), n.Least)))
			}
		}
	}
	return titled("Daily", lines)
}

// through is what comes and goes through the gate.
func (g *Garden) through(look DayLook, width int) []paragraph {
	var lines []page.Text
	for _, d := range g.Gate(look.Date) {
		mark, st := markIn, page.Plain
		if g.Plan.Deliveries[d].Out {
			mark = markOut
		}
		if g.Plan.Arrived(d) {
			mark, st = markTicked, page.Quiet
		}
		text := fmt.Sprintf("%s  %3d %s %s", g.clock(g.arrives(d)), g.Number(g.Plan.Unload(d)), mark, g.Name(g.Plan.Unload(d)))
		lines = append(lines, page.As(st, Cut(text, width-3)))
	}
	return titled("Through the gate", lines)
}

// Gate lists the deliveries that come on a date, the first to come first.
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

// noted is what somebody noted on a date of nothing that has a line, and the snags
// that are open.
func (g *Garden) noted(look DayLook, width int) []paragraph {
	var lines []page.Text
	add := func(text string, st page.Role) {
		lines = append(lines, Told(st, "", "  ", text, width-6)...)
	}
	book := g.sheets()
	for _, n := range book.Notes {
		if n.Activity == schedule.Nothing && g.Date(n.At) == look.Date {
			add(fmt.Sprintf("%s %s (%s)", g.clock(n.At), n.Text, n.By), page.Plain)
		}
	}
	for _, s := range book.Snags {
		where := ""
		if s.Task >= 0 {
			where = g.Name(s.Task.Activity()) + ": "
		}
		add(fmt.Sprintf("Snag, open since %s: %s%s", g.Words.Moment(s.Opened), where, s.Text), page.Plain)
	}
	return titled("Noted", lines)
}

// leftOut is what the crew would do if the programme didn't leave it out.
func (g *Garden) leftOut(look DayLook, width int) []paragraph {
	var lines []page.Text
	for i := range g.Plan.Tasks {
		if !g.Programme.Tasks[i].Dropped || !needs(g.Plan.Tasks[i].Crew, look.Crew) {
			continue
		}
		lines = append(lines, Told(page.Quiet, "", "  ", g.Words.Why(g.Programme, schedule.TaskID(i)), width-6)...)
	}
	return titled("Left out", lines)
}

// notYet is the crew's next work that can't start today, and why.
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
	var lines []page.Text
	for _, t := range next[:min(len(next), 3)] {
		lines = append(lines, Told(page.Quiet, "", "  ", g.Words.Why(g.Programme, t), width-6)...)
	}
	return titled("Not yet", lines)
}

// cautions are the usual ones for the hazards of the shifts.
func (g *Garden) cautions(shifts []Shift, width int) []paragraph {
	var lines []page.Text
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
			lines = append(lines, Told(page.Plain, "", "  ", lead+text, width-6)...)
		}
	}
	return titled("Take care", lines)
}

// sky explains what some of the shifts need of it.
func (g *Garden) sky(shifts []Shift, width int) []paragraph {
	needs := schedule.Weather(0)
	for _, s := range shifts {
		if t, ok := g.Plan.Task(s.Activity); ok {
			needs |= g.Plan.Tasks[t].Weather
		}
	}
	return titled("Weather", Told(page.Plain, "", "", g.Words.Weather(needs), width-4))
}

// tired says where the crew's hours go over published guidance.
func (g *Garden) tired(look DayLook, width int) []paragraph {
	var lines []page.Text
	for _, t := range g.sheets().Tired(look.Date, look.Crew) {
		lines = append(lines, Told(page.Plain, markBreak+" ", "  ", g.Words.Tired(t), width-6)...)
	}
	return titled("Hours over guidance", lines)
}

// titled puts a heading over lines; no lines, no paragraph.
func titled(title string, lines []page.Text) []paragraph {
	if len(lines) == 0 {
		return nil
	}
	return []paragraph{{lines: append([]page.Text{page.As(page.Quiet, strings.ToUpper(title))}, lines...)}}
}
